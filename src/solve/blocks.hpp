#pragma once

#include <cstddef>
#include <vector>

#include "solve/supernodes.hpp"

/// The blocks of a factorisation: eliminating, and sweeping through them.
namespace standtrue::solve {

/// One supernode: by rows, those of its own places first.
template <class Number>
struct BlockOf {
  BlockOf(const Supernodes& nodes, const std::vector<std::size_t>& first_value, Number* values,
          int s)
      : first(nodes.first[static_cast<std::size_t>(s)]),
        width(nodes.width(s)),
        below(nodes.below(s)),
        rows(nodes.rows.data() + nodes.first_row[static_cast<std::size_t>(s)]),
        values_(values + first_value[static_cast<std::size_t>(s)]) {}
  [[nodiscard]] Number* row(std::ptrdiff_t i) const { return values_ + i * width; }

  int first, width, below;
  const int* rows;

 private:
  Number* values_;
};

/// K, in `values`, becomes L; the pivots go to `d`. What is kept becomes what is left of it.
/// Returns how many pivots are not zero: it stops at the first that is.
int eliminate(const Supernodes& nodes, const std::vector<std::size_t>& first_value, double* values,
              double* d);

struct Triangle {
  const Supernodes& nodes;
  const std::vector<std::size_t>& first_value;
  const double* values;
  int rows;  ///< of L that take part: with what is kept, or without
};

/// L y = x and L^T y = x in place, by places; `stride` between rows, `columns` of them, and up to
/// the next multiple of eight.
void forward(const Triangle& L, double* x, std::ptrdiff_t stride, std::ptrdiff_t columns);
void backward(const Triangle& L, double* x, std::ptrdiff_t stride, std::ptrdiff_t columns);
/// One column alone: the same numbers.
void forward(const Triangle& L, double* x);
void backward(const Triangle& L, double* x);

}  // namespace standtrue::solve
