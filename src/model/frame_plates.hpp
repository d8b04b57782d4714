#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "model/frame_reader.hpp"

/// What the parts of the reader ask of a plate. Lengths in m.
namespace standtrue::model {

/// Places nearer than this are one.
inline constexpr double same_place = 1e-9;

// Of a plate whose mesh is known.

/// Whether some cell at the crossing of two mesh lines is there.
[[nodiscard]] bool has_node(const Plate& plate, std::size_t i, std::size_t j);
/// Whether it lies in a patch.
[[nodiscard]] bool is_within(const Plate& plate, std::size_t i, std::size_t j, const Patch& patch);
/// Whether one of its freedoms is held there.
[[nodiscard]] bool is_held(const Plate& plate, std::size_t i, std::size_t j);
/// Whether a load on the patch finds a cell to press on; a point may lie on its edge.
[[nodiscard]] bool finds_cell(const Plate& plate, const Patch& patch);
[[nodiscard]] std::size_t nearest_line(const std::vector<double>& lines, double at);

/// "33.3 mm", to ten figures, and "[33.3 mm, 50 mm]".
[[nodiscard]] std::string length_text(double metres);
[[nodiscard]] std::string pair_text(double a, double b);

/// `x: [0 mm, 45 mm], y: [0 mm, 45 mm]`, neither running backwards.
[[nodiscard]] std::optional<Patch> need_patch(document::Map& map, FrameReader& reader);
/// A patch of which some must be on the plate; `what` it is for, "this load". Plates with a faulty
/// mesh are not asked.
[[nodiscard]] Patch need_patch_on(document::Map& map, std::string_view what, std::size_t plate,
                                  FrameReader& reader);
/// A fault at `field` if nothing of a patch is on a plate of good mesh.
void must_lie_on(const document::Field& field, const Patch& patch, std::string_view what,
                 const Plate& plate, FrameReader& reader);
/// `at: [450 mm, 300 mm]`; nothing if it is missing or faulty.
[[nodiscard]] std::optional<std::array<double, 2>> need_place(document::Map& map,
                                                              std::string_view example,
                                                              FrameReader& reader);

[[nodiscard]] PlateStiffness read_plate_stiffness(document::Map& plate, double thickness,
                                                  FrameReader& reader);
/// Holds, ties and bodies of the last plate.
void read_plate_parts(document::Map& map, FrameReader& reader);

}  // namespace standtrue::model
