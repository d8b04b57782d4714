#pragma once

#include <optional>

#include "report/drawing.hpp"

/// Drawings of what a builder asked beside the verdict. Nothing where there is nothing to show.
namespace standtrue::report {

/// How stock and sheets are cut up.
[[nodiscard]] std::optional<Captioned> cutting_drawing(const decide::PartsList& list,
                                                       quantity::UnitSystem units, double width);
/// A plan of the feet with the turn of each.
[[nodiscard]] std::optional<Captioned> turns_drawing(const decide::Levelling& levelling,
                                                     const bench::Bench& bench, double width);
/// A thousand benches as a bar.
[[nodiscard]] std::optional<Captioned> odds_drawing(const decide::Odds& odds, double width);
/// What each test is expected to read, and what was read.
[[nodiscard]] std::optional<Captioned> readings_drawing(const decide::ProvingPlan& plan,
                                                        quantity::UnitSystem units, double width);
/// A rod for each of the benches set side by side.
[[nodiscard]] std::optional<Captioned> options_drawing(const decide::SideBySide& comparison,
                                                       double width);

/// The ratio at which a rod ends.
inline constexpr double rod_end = 1.34;
/// A smear from the better to the worse ratio against the knife line at 1, as on the rod.
void draw_rod(Svg& svg, Flat corner, double width, double least, double greatest);

/// Of a thousand, with its bounds: "612 (600 to 625)".
[[nodiscard]] std::string of_thousand(const decide::Share& share, std::size_t drawn);

/// "1/4 turn", "85 deg", "leave it", "pack up".
[[nodiscard]] std::string turn_of(const decide::Levelling& levelling,
                                  const decide::FootToSet& foot);

}  // namespace standtrue::report
