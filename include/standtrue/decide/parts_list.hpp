#pragma once

#include <string>
#include <vector>

#include "standtrue/bench/bench.hpp"

/// What to cut and what to buy.
namespace standtrue::decide {

/// Alike pieces of timber. Ends are cut `angle_a` and `angle_b` degrees off square.
struct TimberPiece {
  std::string name;   ///< "front top rail, back top rail"
  std::string stock;  ///< "C24 45 x 95 mm"
  quantity::Length thickness, depth, length;
  int count = 1;
  double angle_a = 0.0, angle_b = 0.0;
  std::string note;
};
struct SheetPiece {
  std::string name;
  std::string sheet;               ///< "21 mm spruce plywood"
  quantity::Length along, across;  ///< of the face grain
  int count = 1;
  std::vector<std::string> cut_outs;  ///< "45 x 95 mm at each corner"
};
struct Item {
  std::string name;  ///< "corner bracket 100 x 38 x 3 mm"
  int count = 0;
  std::string note;
};

/// Stock of one size, as it is cut: each bar with its pieces, in words and as lengths.
struct TimberStock {
  std::string stock;
  struct Bar {
    quantity::Length length;
    std::vector<std::string> pieces;
    quantity::Length left;
    std::vector<quantity::Length> cuts = {};
  };
  std::vector<Bar> bars;
  quantity::Length bought, used;
  bool exact = true;
  std::vector<std::string> too_long;
};
struct SheetStock {
  std::string sheet;
  quantity::Length length, width;
  struct Placed {
    std::string piece;
    quantity::Length along, across, from_along, from_across;
  };
  std::vector<std::vector<Placed>> sheets;
  double used = 0.0;  ///< share of the area bought
  bool exact = true;
  std::vector<std::string> too_large;
};

struct PartsList {
  std::vector<TimberPiece> timber;
  std::vector<SheetPiece> sheets;
  std::vector<Item> hardware;
  std::vector<TimberStock> timber_stock;
  std::vector<SheetStock> sheet_stock;
  quantity::Mass timber_mass, sheet_mass;
  std::vector<std::string> notes;  ///< pilot holes, what varies in width, what is left out
};

/// Pieces from the bench's own geometry; stock of 2.4 m and 3.0 m or 8 ft and 10 ft, sheets
/// of 2440 x 1220 mm or 8 x 4 ft (common practice), 3 mm lost at each cut.
[[nodiscard]] PartsList parts_list(const bench::Bench& bench, const reference::Tables& tables);

/// Its sheets alone.
[[nodiscard]] std::vector<SheetStock> sheets_to_buy(const bench::Bench& bench);

}  // namespace standtrue::decide
