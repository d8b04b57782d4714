#pragma once

#include <optional>

#include "standtrue/bench/bench.hpp"

/// Friction between a foot and the floor.
namespace standtrue::bench {

/// What a foot holds sideways for what it presses: the friction that the file gives, else that of
/// its material on the floor (a bare post touches it with timber), less the steepest fall of the
/// floor, which pulls as much of the weight downhill. Never below zero. None of a castor: it rolls,
/// and no value is known for its lock.
/// Source (from memory): Coulomb's friction.
[[nodiscard]] std::optional<double> friction(const Floor& floor, const Foot& foot);

}  // namespace standtrue::bench
