#include "report/contours.hpp"

#include <algorithm>
#include <cmath>
#include <map>

namespace standtrue::report {

namespace {

struct Corner {
  Flat at;
  double value;
};

/// Where the level crosses a triangle, if it does.
void add_crossing(std::vector<std::array<Flat, 2>>& lines, const std::array<Corner, 3>& triangle,
                  double level) {
  std::vector<Flat> found;
  for (std::size_t k = 0; k < 3; ++k) {
    const Corner &a = triangle[k], &b = triangle[(k + 1) % 3];
    // Half open, so that a corner on the level is met once.
    if ((a.value < level) == (b.value < level)) continue;
    const double t = (level - a.value) / (b.value - a.value);
    found.push_back({a.at[0] + t * (b.at[0] - a.at[0]), a.at[1] + t * (b.at[1] - a.at[1])});
  }
  // A middle that lies on the level is met on both of its sides.
  if (found.size() == 2 && found[0] != found[1]) lines.push_back({found[0], found[1]});
}

/// Pieces put end to end. Two triangles reckon a crossing of their common side alike but for
/// rounding.
class Chains {
 public:
  explicit Chains(const std::vector<std::array<Flat, 2>>& pieces) : pieces_(pieces) {
    for (std::size_t i = 0; i < pieces.size(); ++i) {
      for (const Flat& end : pieces[i]) at_[key(end)].push_back(i);
    }
    used_.assign(pieces.size(), false);
  }
  std::vector<std::vector<Flat>> all() {
    std::vector<std::vector<Flat>> chains;
    for (std::size_t i = 0; i < pieces_.size(); ++i) {
      if (used_[i]) continue;
      used_[i] = true;
      std::vector<Flat> chain = {pieces_[i][0], pieces_[i][1]};
      extend(chain);
      std::reverse(chain.begin(), chain.end());
      extend(chain);
      chains.push_back(std::move(chain));
    }
    return chains;
  }

 private:
  using Key = std::array<long, 2>;
  static Key key(const Flat& p) { return {std::lround(1e7 * p[0]), std::lround(1e7 * p[1])}; }

  void extend(std::vector<Flat>& chain) {
    while (true) {
      const Key end = key(chain.back());
      const std::vector<std::size_t>& here = at_[end];
      const auto next =
          std::find_if(here.begin(), here.end(), [this](std::size_t i) { return !used_[i]; });
      if (next == here.end()) return;
      used_[*next] = true;
      const auto& piece = pieces_[*next];
      chain.push_back(key(piece[0]) == end ? piece[1] : piece[0]);
    }
  }

  const std::vector<std::array<Flat, 2>>& pieces_;
  std::map<Key, std::vector<std::size_t>> at_;
  std::vector<bool> used_;
};

}  // namespace

std::vector<std::vector<Flat>> contour(const Grid& grid, double level) {
  std::vector<std::array<Flat, 2>> lines;
  const std::size_t nx = grid.x.size();
  const auto corner = [&](std::size_t i, std::size_t j) {
    return Corner{{grid.x[i], grid.y[j]}, grid.value[i + j * nx]};
  };
  for (std::size_t j = 0; j + 1 < grid.y.size(); ++j) {
    for (std::size_t i = 0; i + 1 < nx; ++i) {
      if (!grid.has_cell[i + j * (nx - 1)]) continue;
      const std::array<Corner, 4> round = {corner(i, j), corner(i + 1, j), corner(i + 1, j + 1),
                                           corner(i, j + 1)};
      Corner middle{{0.5 * (grid.x[i] + grid.x[i + 1]), 0.5 * (grid.y[j] + grid.y[j + 1])}, 0.0};
      for (const Corner& c : round) middle.value += 0.25 * c.value;
      for (std::size_t k = 0; k < 4; ++k) {
        add_crossing(lines, {round[k], round[(k + 1) % 4], middle}, level);
      }
    }
  }
  return Chains(lines).all();
}

std::vector<double> round_levels(double least, double greatest, int about) {
  std::vector<double> levels;
  const double wanted = (greatest - least) / about;
  if (!(wanted > 0.0) || !std::isfinite(wanted)) return levels;
  const double power = std::pow(10.0, std::floor(std::log10(wanted)));
  double step = 10.0 * power;
  for (const double times : {5.0, 2.5, 2.0, 1.0}) {
    if (times * power >= wanted) step = times * power;
  }
  for (double n = std::ceil(least / step); n * step <= greatest; n += 1.0) {
    if (n != 0.0) levels.push_back(n * step);
  }
  return levels;
}

}  // namespace standtrue::report
