#pragma once

#include "standtrue/bench/bench.hpp"

/// A ledger in place of back posts (`Rail::on_wall`).
namespace standtrue::bench {

/// Null where the bench has none.
[[nodiscard]] const Rail* ledger_of(const Bench& bench);

/// The place along x (or y) from which the fixings of a rail are measured: the middle of its first
/// post, of a ledger its left end.
[[nodiscard]] Length fixings_start(const Bench& bench, const Rail& rail);

/// From end to end of a ledger.
[[nodiscard]] Length ledger_length(const Bench& bench, const Rail& ledger);

}  // namespace standtrue::bench
