#pragma once

#include "standtrue/bench/bench.hpp"

/// How timber differs from piece to piece.
namespace standtrue::model {

/// Of the modulus of elasticity: glulam, a visual grade, a marked class, or timber without a mark.
/// Lognormal; its mean is the mean modulus of the class.
[[nodiscard]] const reference::Scatter& scatter_of_E(const bench::Stock& stock,
                                                     const reference::Tables& tables);
/// Standard deviation of the logarithm, sqrt(ln(1 + cov²)). Contract: lognormal.
[[nodiscard]] double log_deviation(const reference::Scatter& scatter);

}  // namespace standtrue::model
