// A bench seen in a mirror is the same bench: left and right change names, and nothing else.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "standtrue/check/finding.hpp"
#include "standtrue/decide/assess.hpp"
#include "tests/bench/bench_files.hpp"

namespace mirrored_test {

using namespace standtrue;
using bench_files::tables;
using check::Finding;
using doctest::Approx;

namespace {

const std::string frame = R"(
standtrue: 1
size: 1600 x 700 x 850 mm
timber: C24 45 x 95 mm
joints: two corner brackets
feet: {thread: M16, fixed: yes}
)";

std::string swapped(const std::string& text) {
  std::string out;
  for (std::size_t i = 0; i < text.size();) {
    if (text.compare(i, 4, "left") == 0) {
      out += "right";
      i += 4;
    } else if (text.compare(i, 5, "right") == 0) {
      out += "left";
      i += 5;
    } else {
      out += text[i++];
    }
  }
  return out;
}

std::vector<Finding> findings_of(const std::string& text) {
  return decide::assess(bench_files::sound(text), tables()).findings;
}

/// Holds every ratio of one to that of the other; returns how many.
int held_alike(const std::string& text) {
  const std::vector<Finding> one = findings_of(text), other = findings_of(swapped(text));
  int held = 0;
  for (const Finding& f : one) {
    if (f.kind == check::Kind::told || f.kind == check::Kind::caution) continue;
    const std::string id = swapped(f.id);
    CAPTURE(f.id);
    const auto same =
        std::find_if(other.begin(), other.end(), [&id](const Finding& g) { return g.id == id; });
    REQUIRE(same != other.end());
    CHECK(same->judgement == f.judgement);
    if (!std::isfinite(f.ratio)) continue;
    // Of equals rounding may choose another; it does not change what it finds by more.
    CHECK(same->ratio == Approx(f.ratio).epsilon(1e-5));
    CHECK(same->ratio_soft == Approx(f.ratio_soft).epsilon(1e-5));
    ++held;
  }
  return held;
}

}  // namespace

TEST_CASE("decide/mirrored: diagonals that rise to one side, and who pulls at which post") {
  // Pulled at the post that no diagonal holds, the rail drags the other along.
  const std::string text = frame + R"(
top: {sheet: 18 mm spruce plywood, load: none}
braces: [{side: front, rises_to: left}, {side: back, rises_to: left}]
analysis: {sheets: strip}
)";
  CHECK(held_alike(text) > 20);
}

TEST_CASE("decide/mirrored: a top that hangs over further at one end") {
  const std::string text = frame + R"(
top: {sheet: 24 mm spruce plywood, load: 30 kg, overhang: {front: 25 mm, back: 25 mm, left: 136 mm, right: 25 mm}}
analysis: {mesh: 100 mm}
)";
  CHECK(held_alike(text) > 20);
}

}  // namespace mirrored_test
