#pragma once

#include <array>
#include <string>

#include "standtrue/bench/bench.hpp"

/// How a bench stands on a floor that falls.
namespace standtrue::bench {

/// Slopes towards +x and +y by which the bench leans: those of its floor, as its posts and feet are
/// alike. None where the feet are set for the fall (Floor::levelled) or a wall holds the bench.
[[nodiscard]] std::array<double, 2> lean_of(const Bench& bench);
[[nodiscard]] bool leans(const Bench& bench);

/// The bare stem of a post's foot: its extension and, where feet are set for the floor's fall
/// (Floor::levelled), what the fall asks for there: nothing at the place where the floor is
/// highest. What does not turn is packed up instead (castors, bolted feet) or cut (bare posts).
[[nodiscard]] Length free_stem(const Bench& bench, const Post& post);

/// "1 in 80 to the back", "1 in 80 to the back and 1 in 500 to the left"; empty on a level floor.
[[nodiscard]] std::string fall_in_words(const Bench& bench);

}  // namespace standtrue::bench
