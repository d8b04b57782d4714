// All numbers SI (N).
#include <fmt/format.h>

#include <algorithm>
#include <limits>
#include <utility>

#include "check/answered.hpp"
#include "check/printer.hpp"
#include "check/table_test.hpp"
#include "check/words.hpp"

namespace standtrue::check {

using quantity::in_si;

namespace {

/// A place that tips the bench: no strength counts there.
Finding tipped(Finding f, const std::string& what, const model::Combination& combination) {
  f.unit = quantity::Kind::ratio;
  f.limit = 1.0;
  f.demand = f.ratio = std::numeric_limits<double>::infinity();
  f.judgement = Judgement::exceeded;
  f.combination = combination.name;
  f.sentence = what + ": somewhere the bench tips under it.";
  f.working.push_back(combination.title + ": the frame tips");
  f.advice = "set the feet wider apart, or let the top reach less far past them";
  settle_test(f);
  return f;
}

/// Strength under those combinations, after "A published test ...: ".
Finding by_strength(Finding f, const std::string& what, const model::Model& model,
                    const StrengthUnder& under) {
  if (under.tips) return tipped(std::move(f), what, model.combinations[*under.tips]);
  f.sentence = what;
  if (under.answered == 0) {
    leave_unjudged(f, under.refused.empty() ? "no place for it" : under.refused);
    f.sentence += ": no answer.";
    return f;
  }
  judge_by_strength(f, under);
  if (f.judgement == Judgement::exceeded) {
    f.sentence += ": " + goes_on(under.sentence) + ".";
  } else {
    const char* answer = under.refused.empty() ? "" : ", where it has an answer";
    f.sentence += fmt::format(": at most {} its strength is taken{}{}.", share_of(under.ratio),
                              under.as_far(), answer);
  }
  settle_test(f);
  return f;
}

Finding static_test(const Answers& answers, const PlateAnswers& plates, const reference::Load& load,
                    const reference::Tables& tables) {
  const Printer print(answers.model.parts.bench);
  const std::string what = fmt::format(
      "A published test of tables presses the top with {} at its edges and in its middle",
      print.as_mass(in_si(load.down)));
  return by_strength(start_test("static", Group::carry, load.source.of("down")), what,
                     answers.model, strength_under(answers, plates, is_static_test, tables));
}

Finding racking_test(const Answers& answers, const PlateAnswers& plates,
                     const reference::Load& load, const reference::Tables& tables) {
  const Printer print(answers.model.parts.bench);
  const std::string what =
      fmt::format("A published test of tables pushes the top with {} at each corner, {} on it",
                  print.force(in_si(load.sideways)), print.as_mass(in_si(load.down)));
  return by_strength(start_test("racking", Group::joints, load.source.of("sideways")), what,
                     answers.model, strength_under(answers, plates, is_racking_test, tables));
}

bool is_among(const model::Parts& parts, const std::string& test) {
  return std::any_of(parts.tests.begin(), parts.tests.end(),
                     [&test](const model::TestPlace& place) { return place.test == test; });
}

}  // namespace

std::vector<Finding> strength_tests(const Answers& answers, const PlateAnswers& plates,
                                    const reference::Tables& tables) {
  const model::Parts& parts = answers.model.parts;
  std::vector<Finding> findings;
  const reference::Load* pressed = load_run(parts, tables, "static test");
  if (pressed != nullptr && is_among(parts, pressed->key)) {
    findings.push_back(static_test(answers, plates, *pressed, tables));
  }
  const reference::Load* racked = load_run(parts, tables, "racking test", "light racking test");
  if (racked != nullptr && is_among(parts, racked->key)) {
    findings.push_back(racking_test(answers, plates, *racked, tables));
  }
  return findings;
}

}  // namespace standtrue::check
