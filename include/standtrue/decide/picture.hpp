#pragma once

#include <array>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "standtrue/decide/assess.hpp"

/// What a report draws of an assessed bench, sampled from its answers: solids, shapes, fields.
/// Doubles in SI, global axes of docs/conventions.md. Nothing here judges.
namespace standtrue::decide {

using Place = std::array<double, 3>;

/// A piece as a block with plane faces. Corner i lies on the far side of the piece's own first,
/// second and third direction where bits 0, 1 and 2 of i are set.
struct Solid {
  enum class Of { post, rail, bearer, brace, sheet, foot };
  Of of = Of::rail;
  std::string name;
  std::array<Place, 8> corners{};
};
/// Timber, sheets and feet as the file has them. A sheet with cut-outs is several solids.
[[nodiscard]] std::vector<Solid> solids_of(const bench::Bench& bench,
                                           const std::optional<model::Model>& model);

/// A point of a piece's axis.
struct AxisPoint {
  Place at{};      ///< at rest
  Place moved{};   ///< how far it moves
  Place moment{};  ///< bending moment, N m, laid off to the side that is in tension
};
struct AxisLine {
  std::string piece;
  model::Role role = model::Role::rail;
  std::vector<AxisPoint> points;
};
/// The frame under one combination, without the stems of feet and strips of sheets.
struct FrameShape {
  std::string title;  ///< of the combination
  std::string name;
  std::vector<AxisLine> lines;
  double force = 0.0;  ///< N, of a shove
};

/// A lying sheet on its mesh, under one combination; node i, j is i + j * x.size().
struct SheetField {
  std::string sheet;
  std::size_t place = 0;     ///< in Bench::sheets
  std::vector<double> x, y;  ///< mesh lines, global
  double z = 0.0;            ///< of its mid-thickness
  std::vector<bool> has_cell;
  std::vector<double> w;         ///< upward movement, m
  std::vector<double> M_x, M_y;  ///< N m/m, positive where it hogs
  [[nodiscard]] std::size_t node(std::size_t i, std::size_t j) const { return i + j * x.size(); }
  [[nodiscard]] bool cell(std::size_t i, std::size_t j) const {
    return has_cell[i + j * (x.size() - 1)];
  }
};

/// A string along the top where it sags most, and what lies under it.
struct StringLine {
  double y = 0.0;
  std::vector<std::array<double, 2>> below;  ///< x, and how far below the line between its ends
  double most = 0.0, most_at = 0.0;
};

/// How the bench swings.
struct Swing {
  double frequency = 0.0;  ///< Hz
  std::string words;       ///< "sways across"
  std::vector<AxisLine> lines;
  std::vector<SheetField> sheets;  ///< w alone
};

/// Stiffness of the top against a push, N/m, were all joints `joints` times as stiff as the mean.
struct SwayPoint {
  double joints = 1.0, along = 0.0, across = 0.0;
};

/// What a foot carries with what is stored, N.
struct FootPress {
  std::string name;
  double x = 0.0, y = 0.0;
  double soft = 0.0, mean = 0.0, stiff = 0.0, most = 0.0;  ///< `most` of all in use
};

struct Picture {
  std::vector<Solid> solids;
  std::optional<FrameShape> loaded;  ///< what is stored and stands there
  std::optional<FrameShape> bent;    ///< the combination that bends timber worst
  std::optional<FrameShape> pushed_along, pushed_across;  ///< beyond that at rest
  std::vector<SheetField> sheets;                         ///< as `loaded`
  std::optional<StringLine> string;
  std::vector<Swing> swings;
  std::vector<SwayPoint> sways;
  double joint_band = 1.0;  ///< soft joints are the mean over this, stiff ones times it
  std::vector<FootPress> feet;
  std::map<std::string, Place> places;  ///< of findings, by id, where that is known
};

[[nodiscard]] Picture picture_of(const Assessment& assessment, const reference::Tables& tables);

/// What is drawn before anything bends or swings: solids, places, feet and the string. Solves
/// nothing.
[[nodiscard]] Picture outline_of(const Assessment& assessment, const reference::Tables& tables);

}  // namespace standtrue::decide
