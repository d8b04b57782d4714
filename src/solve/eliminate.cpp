// Right-looking supernodal L D L^T: each block, once done, takes its part off the blocks to its
// right. Rows of L lie one after the other, so that a block's product with another is that of rows
// with a narrow panel.
#include <algorithm>
#include <array>

#include "solve/blocks.hpp"
#include "solve/subtract_product.hpp"

namespace standtrue::solve {

namespace {

using Index = std::ptrdiff_t;
using OwnBlock = BlockOf<double>;

constexpr Index group = 16;  ///< columns that are eliminated together within a block

/// What is used again from block to block.
struct Room {
  std::vector<double> strips;   ///< columns of a block, `group` wide
  std::vector<double> turned;   ///< D L^T of some rows, one step after the other
  std::vector<double> product;  ///< what is taken off another block
  std::vector<int> target;      ///< where its rows are there
};

double* space(std::vector<double>& room, Index size) {
  if (room.size() < static_cast<std::size_t>(size)) room.resize(static_cast<std::size_t>(size));
  return room.data();
}

/// C -= A B for rows that lie one after the other, and whole strips of columns.
STANDTRUE_INLINE void take_product(const Factors& a, const Strips<const double>& b,
                                   const Strips<double>& c, Index rows, Index columns,
                                   Index steps) {
  for (Index from = 0; from < columns; from += strip_width) {
    subtract_product<4, Four, 2>(a, Strips<const double>{b.from + from, b.stride},
                                 Strips<double>{c.from + from, c.stride}, rows, steps);
  }
}

/// D L^T of `count` rows of a block from row `from`, for the first `steps` columns.
void turn(const OwnBlock& block, Index from, Index count, Index steps, const double* d,
          double* turned, Index stride) {
  for (Index k = 0; k < steps; ++k) {
    double* to = turned + k * stride;
    for (Index c = 0; c < count; ++c) to[c] = d[k] * block.row(from + c)[k];
    for (Index c = count; c < stride; ++c) to[c] = 0.0;
  }
}

/// The square at the top of a group's columns becomes D and L; `upper` takes L^T. Returns how many
/// pivots were made before one of zero.
Index eliminate_square(double* square, Index count, double* d,
                       std::array<double, group * group>& upper) {
  upper.fill(0.0);
  for (Index r = 0; r < count; ++r) {
    double* row = square + r * group;
    for (Index l = 0; l < r; ++l) {
      const double y = row[l];
      row[l] = y / d[l];
      upper[static_cast<std::size_t>(l * group + r)] = row[l];
      for (Index k = l + 1; k <= r; ++k) {
        row[k] -= y * upper[static_cast<std::size_t>(l * group + k)];
      }
    }
    d[r] = row[r];
    if (d[r] == 0.0) return r;
  }
  return count;
}

/// Rows below the square: L from L D, `Rows` at a time so that none waits for itself.
template <Index Rows>
STANDTRUE_INLINE void eliminate_rows(double* rows, Index count, const double* d,
                                     const std::array<double, group * group>& upper) {
  for (Index l = 0; l < count; ++l) {
    const double* by = upper.data() + l * group;
    for (Index r = 0; r < Rows; ++r) {
      double* row = rows + r * group;
      const double y = row[l];
      for (Index k = 0; k < group; ++k) row[k] -= y * by[k];
    }
  }
  for (Index r = 0; r < Rows; ++r) {
    for (Index l = 0; l < count; ++l) rows[r * group + l] /= d[l];
  }
}

/// Eliminates a block's own places, group by group; returns the pivots made before one of zero.
STANDTRUE_WIDE Index eliminate_block(const OwnBlock& block, double* d, Room& room) {
  const Index w = block.width, all = w + block.below;
  std::array<double, group * group> upper;
  for (Index g = 0; g < w; g += group) {
    const Index count = std::min(group, w - g), rows = all - g;
    double* strips = space(room.strips, rows * group);
    for (Index r = 0; r < rows; ++r) {
      std::copy_n(block.row(g + r) + g, count, strips + r * group);
      std::fill(strips + r * group + count, strips + (r + 1) * group, 0.0);
    }
    if (g > 0) {
      double* turned = space(room.turned, g * group);
      turn(block, g, count, g, d, turned, group);
      take_product({block.row(g), w, 1}, {turned, group}, {strips, group}, rows, group, g);
    }
    const Index made = eliminate_square(strips, count, d + g, upper);
    if (made < count) return g + made;
    Index r = count;
    for (; r + 4 <= rows; r += 4) eliminate_rows<4>(strips + r * group, count, d + g, upper);
    for (; r < rows; ++r) eliminate_rows<1>(strips + r * group, count, d + g, upper);
    for (Index i = 0; i < rows; ++i) {
      std::copy_n(strips + i * group, std::min(count, i + 1), block.row(g + i) + g);
    }
  }
  return w;
}

/// Takes the part of a block that is done off block `other`, whose places begin at its row `from`
/// below; `count` of its rows are places of the other.
STANDTRUE_WIDE void take_off(const OwnBlock& block, Index from, Index count, const double* turned,
                             Index turned_stride, const OwnBlock& other, Room& room) {
  const Index rows = block.below - from, w = block.width;
  const Index stride = (count + strip_width - 1) / strip_width * strip_width;
  double* product = space(room.product, rows * stride);
  std::fill_n(product, rows * stride, 0.0);
  take_product({block.row(w + from), w, 1}, {turned + from, turned_stride}, {product, stride}, rows,
               stride, w);
  room.target.resize(static_cast<std::size_t>(rows));
  const int* in_other = other.rows;
  for (Index r = 0; r < rows; ++r) {
    const int place = block.rows[from + r];
    int& to = room.target[static_cast<std::size_t>(r)];
    if (place < other.first + other.width) {
      to = place - other.first;
      continue;
    }
    in_other = std::find(in_other, other.rows + other.below, place);
    to = other.width + static_cast<int>(in_other - other.rows);
  }
  for (Index r = 0; r < rows; ++r) {
    double* row = other.row(room.target[static_cast<std::size_t>(r)]);
    for (Index c = 0; c < std::min(count, r + 1); ++c) {
      row[room.target[static_cast<std::size_t>(c)]] += product[r * stride + c];
    }
  }
}

}  // namespace

int eliminate(const Supernodes& nodes, const std::vector<std::size_t>& first_value, double* values,
              double* d) {
  Room room;
  for (int s = 0; s < nodes.eliminated; ++s) {
    const OwnBlock block(nodes, first_value, values, s);
    const Index made = eliminate_block(block, d + block.first, room);
    if (made < block.width) return block.first + static_cast<int>(made);
    if (block.below == 0) continue;
    // Strips may reach past the last row: zeros are there.
    const Index stride = (block.below + 2 * strip_width - 1) / strip_width * strip_width;
    double* turned = space(room.turned, block.width * stride);
    turn(block, block.width, block.below, block.width, d + block.first, turned, stride);
    for (Index from = 0; from < block.below;) {
      const int to = nodes.of_place[static_cast<std::size_t>(block.rows[from])];
      const OwnBlock other(nodes, first_value, values, to);
      Index count = 1;
      while (from + count < block.below && block.rows[from + count] < other.first + other.width) {
        ++count;
      }
      take_off(block, from, count, turned, stride, other, room);
      from += count;
    }
  }
  return nodes.eliminated == 0 ? 0 : nodes.first[static_cast<std::size_t>(nodes.eliminated)];
}

}  // namespace standtrue::solve
