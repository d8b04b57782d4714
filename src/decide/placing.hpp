#pragma once

#include <map>
#include <string>
#include <vector>

#include "decide/place_directly.hpp"
#include "standtrue/decide/place.hpp"

/// The steps of `place`.
namespace standtrue::decide {

/// Why a machine finds no room where it says it stands: "edge", "cut-out", another's name; empty
/// where it does.
[[nodiscard]] std::string in_the_way(const bench::Bench& bench, std::size_t machine,
                                     const bench::Machine& there);

/// How many cells a plan has over a sheet: of some 50 mm, at most 24 by 10.
struct Cells {
  std::size_t nx = 1, ny = 1;
};
[[nodiscard]] Cells cells_over(const bench::Sheet& sheet);

/// The bench with one machine elsewhere.
[[nodiscard]] bench::Bench with_machine(const bench::Bench& bench, std::size_t machine,
                                        const bench::Machine& there);

/// A judged place and the sentence of what governs there.
struct JudgedPlace {
  PlaceStatus status;
  std::string sentence;
};
[[nodiscard]] JudgedPlace status_of(const AtBounds& found);
/// What a finding says over all bounds.
[[nodiscard]] std::string sentence_of(const AtBounds& found, const std::string& id);

/// The worst of safety and sag at mean joints, without the tipping of a rigid body.
[[nodiscard]] double governing_ratio(const std::vector<check::Finding>& mean);
/// Of safety alone, without it.
[[nodiscard]] double safety_ratio(const std::vector<check::Finding>& mean);

[[nodiscard]] std::vector<std::string> place_words(const PlacePlan& plan,
                                                   quantity::UnitSystem units);

}  // namespace standtrue::decide
