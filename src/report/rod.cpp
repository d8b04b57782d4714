#include "report/rod.hpp"

#include <algorithm>
#include <cmath>

#include "standtrue/contract.hpp"

namespace standtrue::report {

namespace {

/// The cell of a ratio, counted without the two of the knife line; `cells` and more: off the rod.
int cell_of(double ratio, int limit_cell, int cells) {
  const double place = ratio * limit_cell;
  if (!(place < cells)) return cells;
  const int cell = static_cast<int>(std::floor(place));
  return ratio <= 1.0 ? std::min(cell, limit_cell - 1) : std::max(cell, limit_cell);
}

}  // namespace

Rod rod(double least, double greatest, int cells) {
  expects(cells >= 8, "rod: at least 8 cells");
  expects(least >= 0.0 && greatest >= least, "rod: the range must be in order and not negative");
  const int paper = cells - 2;
  const int limit_cell = static_cast<int>(std::lround(0.75 * cells)) - 1;
  std::string line = std::string(static_cast<std::size_t>(limit_cell), '.') +
                     std::string(static_cast<std::size_t>(paper - limit_cell), ' ');
  const int from = std::min(cell_of(least, limit_cell, paper), paper - 1);
  const int to = cell_of(greatest, limit_cell, paper);
  for (int c = from; c <= std::min(to, paper - 1); ++c) line[static_cast<std::size_t>(c)] = 'o';
  if (to >= paper) line.back() = '>';
  const auto knife_at = static_cast<std::size_t>(limit_cell);
  return {line.substr(0, knife_at), "||", line.substr(knife_at)};
}

}  // namespace standtrue::report
