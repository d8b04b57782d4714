#include "solve/blocks.hpp"

#include <algorithm>

#include "solve/subtract_product.hpp"

namespace standtrue::solve {

namespace {

using Index = std::ptrdiff_t;
using ReadBlock = BlockOf<const double>;

/// Rows of L below a run that take part.
Index rows_below(const Triangle& L, const ReadBlock& block) {
  return std::lower_bound(block.rows, block.rows + block.below, L.rows) - block.rows;
}

template <std::size_t Rows, class Lane, std::size_t Lanes>
STANDTRUE_INLINE void forward_block(const ReadBlock& block, Index below, double* x, Index stride) {
  const Index w = block.width;
  double* own = x + block.first * stride;
  for (Index i = 0; i < w; i += static_cast<Index>(Rows)) {
    const Index rows = std::min<Index>(static_cast<Index>(Rows), w - i);
    subtract_product<Rows, Lane, Lanes>(Factors{block.row(i), w, 1},
                                        Strips<const double>{own, stride},
                                        Strips<double>{own + i * stride, stride}, rows, i);
    for (Index r = 1; r < rows; ++r) {
      subtract_product<1, Lane, Lanes>(Factors{block.row(i + r) + i, w, 1},
                                       Strips<const double>{own + i * stride, stride},
                                       Strips<double>{own + (i + r) * stride, stride}, 1, r);
    }
  }
  subtract_product<Rows, Lane, Lanes>(Factors{block.row(w), w, 1},
                                      Strips<const double>{own, stride},
                                      ScatteredStrips<double>{x, stride, block.rows}, below, w);
}

template <std::size_t Rows, class Lane, std::size_t Lanes>
STANDTRUE_INLINE void backward_block(const ReadBlock& block, Index below, double* x, Index stride) {
  const Index w = block.width;
  double* own = x + block.first * stride;
  subtract_product<Rows, Lane, Lanes>(Factors{block.row(w), 1, w},
                                      ScatteredStrips<const double>{x, stride, block.rows},
                                      Strips<double>{own, stride}, w, below);
  for (Index end = w; end > 0;) {
    const Index rows = std::min<Index>(static_cast<Index>(Rows), end);
    const Index i = end - rows;
    subtract_product<Rows, Lane, Lanes>(Factors{block.row(end) + i, 1, w},
                                        Strips<const double>{own + end * stride, stride},
                                        Strips<double>{own + i * stride, stride}, rows, w - end);
    for (Index r = rows - 1; r-- > 0;) {
      subtract_product<1, Lane, Lanes>(Factors{block.row(i + r + 1) + i + r, 1, w},
                                       Strips<const double>{own + (i + r + 1) * stride, stride},
                                       Strips<double>{own + (i + r) * stride, stride}, 1,
                                       rows - 1 - r);
    }
    end = i;
  }
}

}  // namespace

STANDTRUE_WIDE void forward(const Triangle& L, double* x, std::ptrdiff_t stride,
                            std::ptrdiff_t columns) {
  for (int s = 0; s < L.nodes.eliminated; ++s) {
    const ReadBlock block(L.nodes, L.first_value, L.values, s);
    const Index below = rows_below(L, block);
    for (Index c = 0; c < columns; c += strip_width) {
      forward_block<4, Four, 2>(block, below, x + c, stride);
    }
  }
}

STANDTRUE_WIDE void backward(const Triangle& L, double* x, std::ptrdiff_t stride,
                             std::ptrdiff_t columns) {
  for (int s = L.nodes.eliminated; s-- > 0;) {
    const ReadBlock block(L.nodes, L.first_value, L.values, s);
    const Index below = rows_below(L, block);
    for (Index c = 0; c < columns; c += strip_width) {
      backward_block<4, Four, 2>(block, below, x + c, stride);
    }
  }
}

void forward(const Triangle& L, double* x) {
  for (int s = 0; s < L.nodes.eliminated; ++s) {
    const ReadBlock block(L.nodes, L.first_value, L.values, s);
    forward_block<4, double, 1>(block, rows_below(L, block), x, 1);
  }
}

void backward(const Triangle& L, double* x) {
  for (int s = L.nodes.eliminated; s-- > 0;) {
    const ReadBlock block(L.nodes, L.first_value, L.values, s);
    backward_block<4, double, 1>(block, rows_below(L, block), x, 1);
  }
}

}  // namespace standtrue::solve
