#pragma once

#include <cstddef>
#include <optional>
#include <vector>

/// Pieces cut from stock: bars of timber, and sheets. Lengths in m.
namespace standtrue::decide {

/// One bar as it is cut; pieces by their place in the list asked for.
struct Bar {
  double stock = 0.0;
  std::vector<std::size_t> pieces;
};
struct Cutting {
  std::vector<Bar> bars;
  bool exact = true;  ///< no less length can be bought; else found by a bounded search
  std::vector<std::size_t> too_long;
  [[nodiscard]] double bought() const;
};
/// The least length of stock that gives all pieces, `kerf` lost at each cut between two; among
/// equals the fewest bars. Exact for up to 12 pieces, by every way of parting them; above that by
/// best fit, longest first.
[[nodiscard]] Cutting cut(const std::vector<double>& lengths, const std::vector<double>& stock,
                          double kerf);

struct Rectangle {
  double along = 0.0, across = 0.0;  ///< the face grain
};
/// Where a piece lies on a sheet: its corner nearest to the sheet's.
struct LaidPiece {
  std::size_t piece = 0;
  double along = 0.0, across = 0.0;
};
struct SheetPlan {
  std::vector<std::vector<LaidPiece>> sheets;
  bool exact = true;  ///< as few as their area asks for, or all ways were tried
  std::vector<std::size_t> too_large;
};
/// Pieces out of sheets of one size by cuts that run from edge to edge, grain with grain, as few
/// sheets as a bounded search finds.
[[nodiscard]] SheetPlan lay_out(const std::vector<Rectangle>& pieces, Rectangle sheet, double kerf);

}  // namespace standtrue::decide
