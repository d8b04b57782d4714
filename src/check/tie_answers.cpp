#include "check/tie_answers.hpp"

#include "check/answered.hpp"
#include "check/plate_answers.hpp"

namespace standtrue::check {

std::vector<TieAnswer> tie_answers(const Answers& answers, std::size_t plate) {
  const model::Model& model = answers.model;
  const bench::Sheet& sheet = model.parts.bench.sheets.at(model.parts.plate_sheets.at(plate));
  std::vector<TieAnswer> all;
  for (std::size_t c = 0; c < model.combinations.size(); ++c) {
    const model::Combination& combination = model.combinations[c];
    const solve::State* state = state_of(answers.response, c);
    if (!judges_strength(combination) || state == nullptr) continue;
    // A loose sheet takes no part in a shove (plate_strength).
    if (sheet.bond == bench::Bond::loose && is_shove(combination)) continue;
    const auto set = static_cast<std::size_t>(combination.springs);
    all.push_back({c, solve::tie_forces(*answers.response.prepared[set], plate, *state)});
  }
  return all;
}

}  // namespace standtrue::check
