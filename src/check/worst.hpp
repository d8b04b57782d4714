#pragma once

#include <array>
#include <optional>
#include <string>

#include "check/answered.hpp"
#include "check/printer.hpp"
#include "check/section_forces.hpp"
#include "check/words.hpp"
#include "standtrue/check/is_worse.hpp"
#include "standtrue/check/strength.hpp"

/// The worst cut of a part over all combinations, and the finding that tells of it.
namespace standtrue::check {

/// Strengths of a part by duration, each found once.
class StrengthsOf {
 public:
  StrengthsOf(const model::Part& part, const Answers& answers, const reference::Tables& tables);
  [[nodiscard]] const OrWhy<Strengths>& under(reference::Duration duration);

 private:
  const model::Part& part_;
  const Answers& answers_;
  const reference::Tables& tables_;
  std::array<std::optional<OrWhy<Strengths>>, 5> found_;
};

struct Worst {
  double ratio = 0.0;
  std::size_t combination = 0;
  model::MemberId member = 0;
  Station station;
  Strengths f;
};

/// `ratio(member, station, strengths)` at every station of the part. A NaN is worse than anything.
/// None without stations; the reason where a strength is missing.
template <class Ratio>
[[nodiscard]] OrWhy<std::optional<Worst>> worst_of(const Answers& answers,
                                                   const SectionForces& forces,
                                                   const model::Part& part,
                                                   const reference::Tables& tables, Ratio ratio) {
  StrengthsOf strengths(part, answers, tables);
  std::optional<Worst> worst;
  for (const std::size_t c : forces.combinations()) {
    const OrWhy<Strengths>& f = strengths.under(answers.model.combinations[c].duration);
    if (!f) return tl::unexpected(f.error());
    for (const model::MemberId m : part.members) {
      for (const Station& station : forces.of(m, c)) {
        const double r = ratio(answers.model.members[m], station, *f);
        if (worst && !is_worse(r, worst->ratio)) continue;
        worst = Worst{r, c, m, station, *f};
        if (!(r >= 0.0)) return worst;
      }
    }
  }
  return worst;
}

[[nodiscard]] bool is_timber_member(const model::Part& part);

/// A safety finding about a part with id, group and source; the rest to be filled.
[[nodiscard]] Finding about(const model::Part& part, std::string_view check, std::string rule,
                            reference::Source source);

/// Ratio, judgement, place, combination and the first working lines (combination, k_mod, forces).
/// False where there is no worst cut to tell of: the finding then says why it is not judged. And
/// where no words are wanted.
[[nodiscard]] bool tell_worst(Finding& finding, const Answers& answers, const model::Part& part,
                              const OrWhy<std::optional<Worst>>& worst);

/// Source of a value of a timber record.
[[nodiscard]] const reference::Source& source_of(const model::Part& part, std::string_view value);

}  // namespace standtrue::check
