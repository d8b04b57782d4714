#pragma once

#include <set>
#include <string>
#include <vector>

#include "standtrue/decide/assess.hpp"

/// One bound of a bench, solved and judged: what `assess` merges and `odds` draws.
namespace standtrue::decide {

/// Idealised and solved, or why not. After creep it is of second order where the mean bound is,
/// `as_mean`: its own factor decides nothing.
[[nodiscard]] Bounded solved(const bench::Bench& bench, const reference::Tables& tables,
                             const model::Assumptions& assumptions, solve::PlateCache& plates,
                             const Bounded* as_mean = nullptr);

/// The frame of a bound after creep, under what lasts for strength, where its buckling factor at
/// once is so low that creep may bring it to the limit; else nothing.
[[nodiscard]] Bounded crept_frame(const bench::Bench& bench, const reference::Tables& tables,
                                  const model::Assumptions& assumptions, const Bounded& at_once,
                                  solve::PlateCache& plates);

/// Lets ductile joints of `mean` go that gravity overloads, until no more are; their names. A set
/// whose release would leave a frame that can move is not let go: those joints are then found
/// overloaded.
[[nodiscard]] std::set<std::string> let_go(const bench::Bench& bench,
                                           const reference::Tables& tables,
                                           const model::Scales& scales, Bounded& mean,
                                           solve::PlateCache& plates);

/// Findings; none without an answer. `after_creep` (empty: not looked at) has mean joints.
/// `at_mean`: what is found at mean joints alone is found here. `swings` as in check::Answers.
[[nodiscard]] std::vector<check::Finding> judged(const Bounded& at, const Bounded& after_creep,
                                                 bool at_mean, const reference::Tables& tables,
                                                 bool swings = true);
/// The same at a bound other than the mean.
[[nodiscard]] std::vector<check::Finding> judged_at_bound(const Bounded& at,
                                                          const Bounded& crept_frame,
                                                          const reference::Tables& tables);

}  // namespace standtrue::decide
