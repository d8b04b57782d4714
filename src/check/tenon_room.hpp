#pragma once

#include <optional>

#include "standtrue/model/parts.hpp"

/// Tenons that meet in their post. Doubles in SI (m).
namespace standtrue::check {

/// A tenon: thickness, upright side, length.
struct Tenon {
  double t = 0.0, h = 0.0, l = 0.0;
};
/// Sizes that the record or the file gives; else a third of the rail's width and four fifths of its
/// depth.
[[nodiscard]] Tenon tenon_of(const model::Parts& parts, const model::RailEnd& end);

/// The tenon that another meets first on its way into the post, and how far it gets; nothing if it
/// meets none.
struct TenonRoom {
  const model::RailEnd* other = nullptr;
  double clear = 0.0;
};
[[nodiscard]] std::optional<TenonRoom> tenon_room(const model::Parts& parts,
                                                  const model::RailEnd& end);

}  // namespace standtrue::check
