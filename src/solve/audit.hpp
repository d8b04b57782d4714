#pragma once

#include <optional>
#include <span>

#include "solve/prepared.hpp"

/// Whether an answer balances. All numbers SI.
namespace standtrue::solve {

/// Loads and support forces (and changes against the ground) must balance, moments about the middle
/// of the frame: about a far origin rounding would grow with the distance. Relative to the loads.
[[nodiscard]] double lost_equilibrium(const Prepared::Inside& in, const Resultant& loads,
                                      std::span<const StiffnessChange> changes, const State& state);

/// Why an answer may not be told, or nothing.
[[nodiscard]] std::optional<Refusal> audit_refusal(const Audit& audit);

}  // namespace standtrue::solve
