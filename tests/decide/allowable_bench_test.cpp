// A bench of US lumber from its file to findings.
#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <string>

#include "standtrue/decide/assess.hpp"
#include "tests/bench/bench_files.hpp"

namespace allowable_bench_test {

using namespace standtrue;
using check::Finding;
using doctest::Approx;

namespace {

decide::Assessment assessed(const std::string& text) {
  return decide::assess(bench_files::sound(text), bench_files::tables());
}
Finding finding(const decide::Assessment& assessment, const std::string& id) {
  for (const Finding& f : assessment.findings) {
    if (f.id == id) return f;
  }
  FAIL("no finding " << id);
  return {};
}

/// Rails hang in hinges on the outer faces of the posts, and every side has a diagonal: the top
/// rails are simple beams under the weights that the lever rule gives them.
std::string hinged(const std::string& grade) {
  return "standtrue: 1\n"
         "rules: allowable stress\n"
         "size: 72 x 26 x 36 in\n"
         "timber: " +
         grade +
         " 2x4\n"
         "posts: 4x4\n"
         "joints: {kind: bolted lap, stiffness: {bend: 1 N m/rad, sideways: 50 kN m/rad, twist: "
         "50 kN m/rad, along: 8 kN/mm, across: 8 kN/mm}, resistance: {moment: 300 N m, shear: 4 "
         "kN}}\n"
         "top: {sheet: 3/4 in birch plywood, load: none}\n"
         "feet: none\n"
         "analysis: {sheets: none}\n"
         "braces: [{side: back, kind: diagonal}, {side: front, kind: diagonal}, {side: left, kind: "
         "diagonal}, {side: right, kind: diagonal}]\n";
}

}  // namespace

TEST_CASE("decide/allowable: bending and shear of a front rail from the file, by hand") {
  const decide::Assessment a = assessed(hinged("SPF No.2"));
  // Axes of the posts: 72 in - 2 x 25 mm - 3 1/2 in = 1.6899 m apart. The rails' axes lie 5.95 mm
  // from the edges of the top, 0.6485 m from each other; somebody of 1 kN stands 50 mm from the
  // front edge.
  constexpr double g = 9.80665, L = 1.8288 - 0.050 - 0.0889;
  constexpr double edge = 0.025 - 0.01905, across = 0.6604 - 2.0 * edge;
  constexpr double P = 1000.0 * (across - (0.050 - edge)) / across;  // 932.1 N
  // 450.0 kg/m3 of timber: 14.95 N/m; half the top, 17.6 mm of 680 kg/m3: 70.9 N along the rail.
  constexpr double rail = 449.99 * 0.0381 * 0.0889 * g;
  constexpr double top = 680.0 * 0.0176 * 1.8288 * 0.6604 * g / 2.0;
  constexpr double M = P * L / 4.0 + rail * L * L / 8.0 + top * L / 8.0;  // 414.1 N m
  constexpr double V = P / 2.0 + rail * L / 2.0 + top / 2.0;              // 514.1 N
  constexpr double psi = 6894.757;
  // f_b = 8.252 N/mm2; F_b* = 875 x 1.25 x 1.5 psi = 11.312. The diagonals, beside the rails'
  // axes, bend it flatwise by another quarter of a hundredth.
  const double by_hand = M / (0.0381 * 0.0889 * 0.0889 / 6.0) / (875 * 1.25 * 1.5 * psi);
  const Finding bending = finding(a, "bending/front-top-rail");
  CHECK(bending.combination == "allowable-stand-front-edge-middle");
  CHECK(bending.ratio >= by_hand);
  CHECK(bending.ratio == Approx(by_hand).epsilon(4e-3));
  const Finding shear = finding(a, "shear/front-top-rail");
  CHECK(shear.demand == Approx(1.5 * V / (0.0381 * 0.0889)).epsilon(1e-3));
  CHECK(shear.limit == Approx(135 * 1.25 * psi));
  // l_u/d = 19.0: l_e = 1.84 L; R_B^2 = 1.84 L d/b^2 = 190.4; F_bE = 1.2 x 510e3/190.4 = 3214 psi;
  // r = 1.959: C_L = 1.5574 - sqrt(2.4255 - 2.0621) = 0.9546
  const Finding lateral = finding(a, "lateral/front-top-rail");
  CHECK(lateral.ratio >= by_hand / 0.9546);
  CHECK(lateral.ratio == Approx(by_hand / 0.9546).epsilon(5e-3));
}

TEST_CASE("decide/allowable: members by these rules, the rest by limit states, and it says so") {
  const decide::Assessment a = assessed(hinged("SPF No.2"));
  for (const Finding& f : a.findings) {
    CAPTURE(f.id);
    const std::string check = f.id.substr(0, f.id.find('/'));
    const std::array members{"bending", "shear", "torsion", "buckling", "lateral", "post-end"};
    const bool is_frame = f.id == "frame/buckling";
    if (!is_frame && std::find(members.begin(), members.end(), check) != members.end()) {
      CHECK((f.rule.rfind("NDS 2018", 0) == 0 || check == "torsion"));
      CHECK(f.judgement != check::Judgement::not_judged);
      CHECK(f.combination.rfind("allowable-", 0) == 0);
    } else {
      CHECK(f.rule.find("NDS 2018") == std::string::npos);
      CHECK(f.combination.rfind("allowable-", 0) != 0);
    }
  }
  CHECK(std::any_of(a.assumptions.begin(), a.assumptions.end(), [](const std::string& line) {
    return line.find("judged by allowable stresses") != line.npos;
  }));
}

TEST_CASE("decide/allowable: a stronger, stiffer wood is nowhere worse in its members") {
  const decide::Assessment spf = assessed(hinged("SPF No.2")), fir = assessed(hinged("DF-L No.2"));
  // Not its braces: heavier wood holds their bolts better, and they draw more load.
  for (const char* id : {"bending/front-top-rail", "shear/front-top-rail", "lateral/front-top-rail",
                         "buckling/front-left-post"}) {
    CAPTURE(id);
    CHECK(finding(fir, id).ratio < finding(spf, id).ratio);
  }
}

}  // namespace allowable_bench_test
