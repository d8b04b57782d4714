#include "standtrue/decide/prove.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "decide/learning.hpp"
#include "decide/words.hpp"

namespace standtrue::decide {

namespace {

/// Before, and where the readings agree after.
void judge(Learned& learned, const bench::Bench& bench, const reference::Tables& tables,
           const Work& work) {
  Learning& learning = learned.learning;
  const bool is_clear = learned.is_clear();
  const KnownScales scales = is_clear ? scales_of(learning.known) : KnownScales{};
  std::array<Assessment, 2> found;
  work.for_each(is_clear ? 2 : 1, [&](std::size_t i) {
    found[i] = assess(bench, tables, false, i == 1 ? &scales : nullptr);
  });
  learning.before = found[0].verdict;
  learning.summary_before = found[0].summary;
  if (!is_clear) return;
  learning.after = found[1].verdict;
  learning.summary_after = found[1].summary;
}

std::vector<std::string> answer_without(const std::vector<Trial>& all) {
  std::vector<std::string> possible;
  for (const Trial& t : all) {
    if (t.why.empty()) possible.push_back(t.name);
  }
  if (possible.empty()) return {"No test can be made on this bench."};
  std::vector<std::string> answer = {fmt::format(
      "{} test{} can be made on this bench: {}. None of them can tip it, make it slide or overload "
      "it.",
      possible.size(), possible.size() == 1 ? "" : "s", joined(possible))};
  for (std::size_t i = 0; i < kinds.size(); ++i) {
    const Trial* best = nullptr;
    double least = 0.0;
    for (const Trial& t : all) {
      for (const Lesson& lesson : t.lessons) {
        if (lesson.of != kinds[i] || (best && lesson.after >= least)) continue;
        best = &t;
        least = lesson.after;
      }
    }
    answer.push_back(best ? fmt::format("Of the {} '{}' tells most.", kinds[i], best->name)
                          : fmt::format("None of them tells anything of the {}.", kinds[i]));
  }
  answer.push_back("Write what was read into the bench file under 'readings', and run this again.");
  return answer;
}

}  // namespace

KnownScales scales_of(const std::vector<Known>& known) {
  KnownScales scales;
  const auto at = [&](std::size_t i, double Known::*value) {
    return known[i].is_narrowed ? std::optional<double>(known[i].*value) : std::nullopt;
  };
  const auto median = &Known::median;
  scales.soft = {at(0, median), at(1, &Known::low), at(2, &Known::low)};
  scales.mean = {at(0, median), at(1, median), at(2, median)};
  scales.stiff = {at(0, median), at(1, &Known::high), at(2, &Known::high)};
  scales.poor = {at(0, &Known::low), at(1, &Known::low), at(2, &Known::low)};
  return scales;
}

bool ProvingPlan::is_sound() const {
  if (!learned) {
    return std::any_of(trials.begin(), trials.end(), [](const Trial& t) { return t.why.empty(); });
  }
  return learned->after.has_value();
}

ProvingPlan prove(const bench::Bench& bench, const std::vector<bench::Reading>& readings,
                  const reference::Tables& tables, const Work& work) {
  ProvingPlan plan;
  const Proving proving(bench, tables);
  plan.trials = trials(proving, bench, tables);
  if (readings.empty()) {
    plan.answer = answer_without(plan.trials);
    return plan;
  }
  Learned learned = learned_from(readings, proving, bench, tables, work);
  judge(learned, bench, tables, work);
  plan.answer = said_of(learned, bench);
  plan.learned = std::move(learned.learning);
  return plan;
}

}  // namespace standtrue::decide
