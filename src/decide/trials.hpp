#pragma once

#include "decide/learn.hpp"
#include "decide/proving.hpp"
#include "standtrue/decide/prove.hpp"

namespace standtrue::decide {

/// The names of what is learned, in the order of Logs.
inline constexpr std::array<const char*, 3> kinds = {"timber", "joints", "screws"};
/// From the median to where nineteen in twenty lie, in deviations (normal distribution).
inline constexpr double nineteen_in_twenty = 1.644854;
/// What a reading must narrow to be of use.
inline constexpr double of_use = 0.05;

/// ln of timber and of screws so that the mean is one; of joints so that the middle of the band is.
[[nodiscard]] Prior usual(const bench::Bench& bench, const reference::Tables& tables);
[[nodiscard]] model::Scales scales_at(const Logs& logs);
/// 5 %, median and 95 % of what was narrowed; what was not is as unknown as ever.
[[nodiscard]] KnownScales scales_of(const std::vector<Known>& known);
/// Relative errors of a reading of `moved` under that force.
[[nodiscard]] Datum datum_of(bench::Test test, double force, double moved, double gauge,
                             const reference::Tables& tables);

/// The tests of a bench: each with a pull or weight that can be read and harms nothing.
[[nodiscard]] std::vector<Trial> trials(const Proving& proving, const bench::Bench& bench,
                                        const reference::Tables& tables);

}  // namespace standtrue::decide
