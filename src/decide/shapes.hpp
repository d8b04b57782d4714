#pragma once

#include "standtrue/decide/picture.hpp"
#include "standtrue/solve/modes.hpp"

/// How a solved bench moves and bends, sampled for a picture.
namespace standtrue::decide {

/// Contract: the bound has an answer to the combination. With `rest` what lies beyond that one.
[[nodiscard]] FrameShape frame_shape(const Bounded& at, std::size_t combination,
                                     std::optional<std::size_t> rest = std::nullopt);

/// Every lying sheet that is computed as a plate.
[[nodiscard]] std::vector<SheetField> sheet_fields(const Bounded& at, std::size_t combination);

/// A mode: axes straight between the nodes.
[[nodiscard]] Swing swing_of(const model::Model& model, const solve::Mode& mode, std::string words);

}  // namespace standtrue::decide
