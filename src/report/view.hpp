#pragma once

#include <vector>

#include "report/svg.hpp"
#include "standtrue/decide/picture.hpp"

/// Parallel projection of a bench on the sheet, and which edges are seen.
namespace standtrue::report {

using decide::Place;
using decide::Solid;

/// Where the eye is, how large, and where on the sheet the bench's origin comes to lie.
struct View {
  Place right{1, 0, 0}, up{0, 0, 1},
      toward{0, -1, 0};  ///< unit, square to each other; `toward` the eye
  double scale = 50.0;   ///< mm on the sheet per m
  Flat origin{};

  [[nodiscard]] Flat at(const Place& p) const;

  [[nodiscard]] static View front();
  [[nodiscard]] static View left_end();  ///< seen from the left: the front is to the right
  [[nodiscard]] static View plan();      ///< seen from above: the front is below
  [[nodiscard]] static View solid();     ///< from the front, the right and above
};

/// From the least to the greatest coordinate on the sheet.
struct Extent {
  double x0 = 0.0, y0 = 0.0, x1 = 0.0, y1 = 0.0;
  [[nodiscard]] double width() const { return x1 - x0; }
  [[nodiscard]] double height() const { return y1 - y0; }
};
[[nodiscard]] Extent extent_of(const std::vector<Solid>& solids, const View& view);

/// A stretch of an edge that is seen or hidden all along.
struct Edge {
  Place from{}, to{};
  bool hidden = false;
  Solid::Of of = Solid::Of::rail;
};

/// All edges, cut where a solid begins to hide them. A point p is hidden by a convex solid when
/// p + s toward, s > 0, meets it: for an edge p = a + t (b - a) the pairs (t, s) that do are cut
/// out of a plane by the solid's six faces, and their t are one interval. Exact but for 10 µm by
/// which solids are shrunk, so that faces that touch hide nothing of each other. Between blocks
/// that are pieces of one sheet no edge is drawn.
[[nodiscard]] std::vector<Edge> edges_of(const std::vector<Solid>& solids, const View& view);

}  // namespace standtrue::report
