#pragma once

#include <array>
#include <cstddef>
#include <cstring>

/// The innermost loop of factorisation and solves: C -= A B, a few rows of C and a strip of its
/// columns at a time, which stay in registers over all steps. No sum is ever split: the same
/// numbers however wide the machine's registers are and however many rows and columns there are.
// On x86 also a version for wider registers, chosen when the program starts. Sanitizers can not
// start with it.
#if defined(__x86_64__) && defined(__GNUC__) && !defined(__clang__) && \
    !defined(__SANITIZE_ADDRESS__) && !defined(__SANITIZE_UNDEFINED__)
#define STANDTRUE_WIDE [[gnu::target_clones("avx2", "default")]]
#else
#define STANDTRUE_WIDE
#endif
#define STANDTRUE_INLINE [[gnu::always_inline]] inline

namespace standtrue::solve {

/// Columns that go together; four rows of them fill the registers.
constexpr std::ptrdiff_t strip_width = 8;

/// Four numbers side by side; each compiler makes of them what the machine has.
using Four __attribute__((vector_size(32))) = double;

/// A(r, k), by the steps between rows and columns.
struct Factors {
  const double* from;
  std::ptrdiff_t per_row, per_step;
  STANDTRUE_INLINE double operator()(std::ptrdiff_t r, std::ptrdiff_t k) const {
    return from[r * per_row + k * per_step];
  }
  STANDTRUE_INLINE Factors after(std::ptrdiff_t r) const {
    return {from + r * per_row, per_row, per_step};
  }
};

/// Where strips begin: one after the other,
template <class Number>
struct Strips {
  Number* from;
  std::ptrdiff_t stride;
  STANDTRUE_INLINE Number* operator()(std::ptrdiff_t i) const { return from + i * stride; }
  STANDTRUE_INLINE Strips after(std::ptrdiff_t i) const { return {from + i * stride, stride}; }
};

/// or at these places.
template <class Number>
struct ScatteredStrips {
  Number* from;
  std::ptrdiff_t stride;
  const int* place;
  STANDTRUE_INLINE Number* operator()(std::ptrdiff_t i) const { return from + place[i] * stride; }
  STANDTRUE_INLINE ScatteredStrips after(std::ptrdiff_t i) const {
    return {from, stride, place + i};
  }
};

/// For `Rows` rows and a strip of `Lanes` lanes, each a double or `Four`.
template <std::size_t Rows, class Lane, std::size_t Lanes, class B, class C>
STANDTRUE_INLINE void subtract_tile(const Factors& a, const B& b, const C& c,
                                    std::ptrdiff_t steps) {
  constexpr std::size_t per_lane = sizeof(Lane) / sizeof(double);
  std::array<std::array<Lane, Lanes>, Rows> sum;
  for (std::size_t r = 0; r < Rows; ++r) {
    const double* from = c(static_cast<std::ptrdiff_t>(r));
    for (std::size_t l = 0; l < Lanes; ++l) {
      std::memcpy(&sum[r][l], from + l * per_lane, sizeof(Lane));
    }
  }
  for (std::ptrdiff_t k = 0; k < steps; ++k) {
    const double* from = b(k);
    std::array<Lane, Lanes> by;
    for (std::size_t l = 0; l < Lanes; ++l) {
      std::memcpy(&by[l], from + l * per_lane, sizeof(Lane));
    }
    for (std::size_t r = 0; r < Rows; ++r) {
      const double factor = a(static_cast<std::ptrdiff_t>(r), k);
      for (std::size_t l = 0; l < Lanes; ++l) sum[r][l] -= factor * by[l];
    }
  }
  for (std::size_t r = 0; r < Rows; ++r) {
    double* to = c(static_cast<std::ptrdiff_t>(r));
    for (std::size_t l = 0; l < Lanes; ++l) {
      std::memcpy(to + l * per_lane, &sum[r][l], sizeof(Lane));
    }
  }
}

/// For one strip and any number of rows: `Rows` at a time, and what is left together.
template <std::size_t Rows, class Lane, std::size_t Lanes, class B, class C>
STANDTRUE_INLINE void subtract_product(const Factors& a, const B& b, const C& c,
                                       std::ptrdiff_t rows, std::ptrdiff_t steps) {
  constexpr auto at_once = static_cast<std::ptrdiff_t>(Rows);
  std::ptrdiff_t r = 0;
  for (; r + at_once <= rows; r += at_once) {
    subtract_tile<Rows, Lane, Lanes>(a.after(r), b, c.after(r), steps);
  }
  if constexpr (Rows > 1) {
    if (r < rows) {
      subtract_product<Rows - 1, Lane, Lanes>(a.after(r), b, c.after(r), rows - r, steps);
    }
  }
}

}  // namespace standtrue::solve
