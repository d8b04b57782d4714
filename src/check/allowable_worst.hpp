#pragma once

#include <array>
#include <optional>
#include <string>
#include <utility>

#include "check/answered.hpp"
#include "check/section_forces.hpp"
#include "check/words.hpp"
#include "check/worst.hpp"
#include "standtrue/check/allowable.hpp"
#include "standtrue/check/is_worse.hpp"

/// The worst cut of a part under the combinations of allowable stress, and the finding that tells
/// of it.
namespace standtrue::check {

/// Something that changes with the duration of the load alone, each found once.
template <class T>
class ByDuration {
 public:
  template <class Make>
  const OrWhy<T>& under(reference::Duration duration, Make make) {
    std::optional<OrWhy<T>>& found = found_.at(static_cast<std::size_t>(duration));
    if (!found) found = make(duration);
    return *found;
  }

 private:
  std::array<std::optional<OrWhy<T>>, 5> found_;
};

struct Cut {
  double ratio = -1.0;
  std::size_t combination = 0;
  model::MemberId member = 0;
  Station station;
};

/// A cut and the values that it was held against.
template <class Values>
struct CutAgainst {
  Cut cut;
  Values values;
};

/// `make(duration)` gives the values, `ratio(member, station, values)` the ratio or why there is
/// none. A NaN is worse than anything. What can not be judged is told only where nothing exceeds.
template <class Values, class Make, class Ratio>
[[nodiscard]] OrWhy<CutAgainst<Values>> worst_cut(const Answers& answers,
                                                  const SectionForces& forces,
                                                  const model::Part& part, Make make, Ratio ratio) {
  ByDuration<Values> values;
  std::optional<CutAgainst<Values>> worst;
  std::string why = "no combination of loads was answered";
  bool is_unknown = false;
  for (const std::size_t c : forces.combinations()) {
    const OrWhy<Values>& F = values.under(answers.model.combinations[c].duration, make);
    if (!F) return tl::unexpected(F.error());
    for (const model::MemberId m : part.members) {
      for (const Station& station : forces.of(m, c)) {
        const OrWhy<double> r = ratio(answers.model.members[m], station, *F);
        if (!r) {
          if (!is_unknown) why = r.error();
          is_unknown = true;
          continue;
        }
        if (worst && !is_worse(*r, worst->cut.ratio)) continue;
        worst = CutAgainst<Values>{{*r, c, m, station}, *F};
        if (!(*r >= 0.0)) return *worst;
      }
    }
  }
  if (!worst || (is_unknown && worst->cut.ratio <= 1.0)) return tl::unexpected(why);
  return *worst;
}

/// Which of a part's local axes bends edgewise: about y where the depth is the wider side.
[[nodiscard]] inline bool bends_edgewise_about_y(const model::Part& part) {
  return part.depth >= part.width;
}
/// Of what is left of the part there; edgewise is as of the whole piece, which its grade is for.
[[nodiscard]] CutStresses cut_stresses(const Station& station, const model::Part& left,
                                       const model::Part& whole);
[[nodiscard]] inline CutStresses cut_stresses(const Station& station, const model::Part& part) {
  return cut_stresses(station, part, part);
}

/// Not judged, for that reason; a piece too thin or too thick for its grade gets what would cure
/// it.
void leave_without_values(Finding& finding, const model::Part& part, const std::string& why,
                          const reference::Tables& tables);

/// Ratio, judgement, place, combination and the first working lines (combination, C_D, forces).
void tell_cut(Finding& finding, const Answers& answers, const model::Part& part, const Cut& cut,
              double C_D);

/// "F_v' = F_v C_D C_M = 0.93 N/mm2 x 1.25 x 1 = 1.16 N/mm2".
[[nodiscard]] std::string value_line(const std::string& name, Stress value,
                                     const std::vector<std::pair<std::string, double>>& factors,
                                     Stress adjusted);

/// The lines of a part's bending and axial values, without stability.
[[nodiscard]] std::string bending_values_line(const model::Part& part, const Adjusted& F);
[[nodiscard]] std::string compression_values_line(const model::Part& part, const Adjusted& F);

}  // namespace standtrue::check
