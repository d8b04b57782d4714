// The mass of sheets that are no plates, and of what lies on them: where their weight goes.
#include <doctest/doctest.h>

#include <string>

#include "standtrue/model/idealise.hpp"
#include "tests/bench/bench_files.hpp"

namespace carried_test {

using namespace standtrue;
using doctest::Approx;
using quantity::in_si;

namespace {

constexpr double g = 9.80665;  // m/s²

model::Model model_of(const std::string& more) {
  model::Idealisation made = model::idealise(
      bench_files::sound(bench_files::small_bench("bearers: {every: 500 mm}\n" + more)),
      bench_files::tables(), {});
  REQUIRE(made.model);
  return *made.model;
}

/// kg on all members of one role, or of all.
double carried(const model::Model& m, std::optional<model::Role> role = {}) {
  double sum = 0.0;
  for (const model::Part& part : m.parts.parts) {
    if (role && part.role != *role) continue;
    for (const std::size_t i : part.members) {
      const model::Member& member = m.members[i];
      sum += in_si(member.carries) / g * in_si(model::member_frame(m, member).length);
    }
  }
  return sum;
}

/// kg that the model's weights give to the sheets, or to what is stored on them.
double weighed(const model::Model& m, model::Weight::Of of, const std::string& name) {
  double sum = 0.0;
  for (const model::Weight& weight : m.parts.weights) {
    if (weight.of == of && weight.name == name) sum += in_si(weight.force) / g;
  }
  return sum;
}

}  // namespace

TEST_CASE("model/carried: rails and bearers carry sheet and stores where they press (statics)") {
  for (const char* sheets : {"strip", "none"}) {
    const model::Model m =
        model_of(std::string("analysis: {sheets: ") + sheets + "}\nstored: {top: 120 kg}\n");
    const double top = weighed(m, model::Weight::Of::bench, "top");
    CHECK(weighed(m, model::Weight::Of::stored, "top") == Approx(120.0));
    CHECK(carried(m) == Approx(top + 120.0));
    CHECK(carried(m, model::Role::post) == 0.0);
    CHECK(carried(m, model::Role::bearer) > 0.0);
    // Both cases load the lines of these members alone, each evenly.
    std::vector<double> pressed(m.members.size(), 0.0);
    REQUIRE(m.parts.stored_cases.size() == 1);
    for (const std::size_t c : {*m.parts.self_case, m.parts.stored_cases[0]}) {
      for (const model::MemberLineLoad& load : m.cases[c].line_loads) {
        pressed[load.member] -= in_si(load.at_from.z);
      }
    }
    for (std::size_t i = 0; i < m.members.size(); ++i) {
      CHECK(in_si(m.members[i].carries) == Approx(pressed[i]));
    }
  }
}

TEST_CASE(
    "model/carried: what is only assumed to be stored swings with nothing; plates have theirs") {
  const model::Model none = model_of("analysis: {sheets: none}\n");
  REQUIRE(weighed(none, model::Weight::Of::stored, "top") > 0.0);
  CHECK(carried(none) == Approx(weighed(none, model::Weight::Of::bench, "top")));
  CHECK(carried(model_of("stored: {top: 120 kg}\n")) == 0.0);
}

TEST_CASE("model/carried: an upright sheet swings with its posts") {
  const model::Model m = model_of(
      "analysis: {sheets: strip}\n"
      "sheets: [{side: back, sheet: 9 mm spruce plywood, fixed: screwed}]\n");
  double back = 0.0;
  for (const bench::Sheet& sheet : m.parts.bench.sheets) {
    if (sheet.place == bench::SheetPlace::back) {
      back = weighed(m, model::Weight::Of::bench, sheet.name);
    }
  }
  REQUIRE(back > 0.0);
  CHECK(carried(m, model::Role::post) == Approx(back));
  for (const model::Part& part : m.parts.parts) {
    if (part.role != model::Role::post) continue;
    const bool is_back = part.name.rfind("back", 0) == 0;
    CHECK((in_si(m.members[part.members[0]].carries) > 0.0) == is_back);
  }
}

}  // namespace carried_test
