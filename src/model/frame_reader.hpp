#pragma once

#include <fmt/format.h>

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "standtrue/document/document.hpp"
#include "standtrue/model/frame_case.hpp"

/// The parts of the reader of frame cases. Each reads one section of the file into `out`, notes
/// every fault and goes on. Things that are faulty keep their place and name, so that others can
/// still refer to them; what depends on their numbers is then left unchecked.
namespace standtrue::model {

struct FrameReader {
  FrameCase out;
  bool is_plane = false;
  std::vector<Diagnostic>* faults = nullptr;
  std::vector<bool> node_is_sound;                     ///< per node
  std::vector<std::optional<double>> flexible_length;  ///< per member, m; nothing where faulty
  std::vector<bool> plate_is_sound;                    ///< per plate: mesh and holes

  void note(Diagnostic diagnostic) const { faults->push_back(std::move(diagnostic)); }
};

// In the order in which they must be called.
void read_materials(document::Map& top, FrameReader& reader);
void read_sections(document::Map& top, FrameReader& reader);
void read_nodes(document::Map& top, FrameReader& reader);
void read_members(document::Map& top, FrameReader& reader);
void read_ties(document::Map& top, FrameReader& reader);
void read_plates(document::Map& top, FrameReader& reader);
void read_supports(document::Map& top, FrameReader& reader);
void read_masses(document::Map& top, FrameReader& reader);
void read_cases(document::Map& top, FrameReader& reader);
void read_combinations(document::Map& top, FrameReader& reader);
void read_bodies(document::Map& top, FrameReader& reader);
void read_division(document::Map& top, FrameReader& reader);
void read_expectations(document::Map& top, FrameReader& reader);

[[nodiscard]] EndSprings read_end_springs(document::Map& member, std::string_view key,
                                          FrameReader& reader);

/// The supports that `plane: true` adds: uy, rx and rz of every node that does not hold them.
[[nodiscard]] std::vector<Support> plane_supports(const Model& model);

/// Whether the geometry of a member can be solved; a fault at `field` if not.
[[nodiscard]] bool is_sound_geometry(const Model& model, const Member& member, bool is_plane,
                                     const document::Field& field, FrameReader& reader);

// Small readers that the parts share.

template <class Named>
[[nodiscard]] std::vector<std::string> names_of(const std::vector<Named>& things) {
  std::vector<std::string> names;
  for (const Named& thing : things) names.push_back(thing.name);
  return names;
}

/// The place of a name. If it is missing, the fault reads "`who` 'a1', which is not in `where`",
/// where `who` is like "member 'AB' starts at node".
[[nodiscard]] std::optional<std::size_t> find_name(const document::Field& field,
                                                   const std::vector<std::string>& names,
                                                   std::string_view who, std::string_view where,
                                                   FrameReader& reader);
/// The same for the value of a key; a missing key is a fault with the example.
[[nodiscard]] std::optional<std::size_t> need_name(document::Map& map, std::string_view key,
                                                   const std::vector<std::string>& names,
                                                   std::string_view who, std::string_view where,
                                                   std::string_view example, FrameReader& reader);

/// A quantity that can be computed with: zero, or between 1e-30 and 1e30 in SI units, and no length
/// above 1000 km.
[[nodiscard]] std::optional<double> read_value(const document::Field& field, quantity::Kind kind,
                                               FrameReader& reader);
/// A list of three of them.
[[nodiscard]] std::optional<std::array<double, 3>> read_three(const document::Field& field,
                                                              quantity::Kind kind,
                                                              FrameReader& reader);

/// The value of a key that must be greater than zero (or may be zero); a fault if it is missing.
[[nodiscard]] double need_positive(document::Map& map, std::string_view key, quantity::Kind kind,
                                   std::string_view example, FrameReader& reader);
/// Nothing if the key is missing or the value is faulty, as a negative one is.
[[nodiscard]] std::optional<double> not_negative(document::Map& map, std::string_view key,
                                                 quantity::Kind kind, FrameReader& reader);

/// A place along the flexible part of a member, of which `field` says `at` (m). Beyond the ends is
/// a fault, a rounding error beyond counts as the end.
[[nodiscard]] std::optional<Length> station(const document::Field& field, std::string_view key,
                                            double at, MemberId member, FrameReader& reader);

/// Three quantities, `[0 mm, 35 mm, 0 mm]`; nothing if the key is missing or faulty.
template <class Quantity>
[[nodiscard]] std::optional<Vector<Quantity>> find_vector(document::Map& map, std::string_view key,
                                                          quantity::Kind kind,
                                                          FrameReader& reader) {
  const std::optional<document::Field> field = map.find(key);
  if (!field) return std::nullopt;
  const auto v = read_three(*field, kind, reader);
  if (!v) return std::nullopt;
  return Vector<Quantity>{quantity::from_si<Quantity>((*v)[0]),
                          quantity::from_si<Quantity>((*v)[1]),
                          quantity::from_si<Quantity>((*v)[2])};
}

/// Three bare numbers that give a direction; nothing if the key is missing, faulty or zero.
[[nodiscard]] std::optional<Direction> find_direction(document::Map& map, std::string_view key,
                                                      FrameReader& reader);
/// At length one; left alone if it is so to rounding, so that it reads back bit for bit.
[[nodiscard]] Direction unit_direction(const Direction& d);

[[nodiscard]] quantity::Kind stiffness_kind(Freedom freedom);
[[nodiscard]] bool is_rotation(Freedom freedom);
[[nodiscard]] Direction axis_of(Freedom freedom);
[[nodiscard]] const std::string& word_of(Freedom freedom);
/// What a plate can be held by: u v w rx ry.
[[nodiscard]] const std::vector<std::string>& plate_freedom_words();

/// "-5 N/mm" as "5 N/mm".
[[nodiscard]] std::string without_sign(std::string_view text);
/// Whether a text begins with a letter, as a word does and a number does not.
[[nodiscard]] bool is_word(std::string_view text);
/// "A, B, C": for saying what there is to choose from; cut after eight.
[[nodiscard]] std::string listed(const std::vector<std::string>& names);

}  // namespace standtrue::model
