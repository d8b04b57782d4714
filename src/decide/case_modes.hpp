#pragma once

#include <optional>
#include <vector>

#include "standtrue/model/frame_case.hpp"
#include "standtrue/solve/solve.hpp"

/// How a frame case swings.
namespace standtrue::decide {

/// The lowest `count` frequencies in Hz, rising (fewer where the frame has fewer), members in as
/// many pieces as the case asks for. `pressed` is the loading whose axial forces count, with its
/// springs; without it, those of gravity.
[[nodiscard]] solve::OrRefusal<std::vector<double>> frequencies(
    const model::FrameCase& frame_case, const std::optional<model::LoadingRef>& pressed, int count);

}  // namespace standtrue::decide
