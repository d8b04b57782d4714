#pragma once

#include <optional>
#include <vector>

#include "check/plate_answers.hpp"

/// The rails and bearers that a plate lies on, as lines of reference for its sag. Doubles in SI
/// (m).
namespace standtrue::check {

class Carriers {
 public:
  Carriers(const model::Model& model, std::size_t plate);

  /// How far the line over the two carriers beside a place has sunk; nothing beyond the outer ones.
  [[nodiscard]] std::optional<double> at(const PlateAnswers::View& view, double x, double y) const;
  /// The same at a mesh node, x[i], y[j].
  [[nodiscard]] std::optional<double> at_node(const PlateAnswers::View& view, std::size_t i,
                                              std::size_t j) const;

 private:
  bool along_x_ = false;            ///< the way the sheet spans
  std::vector<std::size_t> lines_;  ///< the mesh lines of the carriers
  std::vector<double> at_;          ///< places of the carriers along the span, rising
};

/// What carries a plate beside the edge that is nearest to a place: the edge and the carrier,
/// square to each other. Nothing if the place is not at an edge, or no carrier runs along it.
struct BesideEdge {
  double edge_x = 0.0, edge_y = 0.0;
  double x = 0.0, y = 0.0;  ///< on the carrier's middle line
  double half_width = 0.0;  ///< of the carrier
};
/// Beside a place within 0.1 m of edges: two of them at a corner.
[[nodiscard]] std::vector<BesideEdge> beside_edges(const model::Model& model, std::size_t plate,
                                                   double x, double y);

/// The longest of the rails and bearers that carry a sheet, and of the rails that carry those.
[[nodiscard]] double longest_carrier(const model::Parts& parts, std::size_t sheet);

}  // namespace standtrue::check
