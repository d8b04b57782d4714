#pragma once

#include "standtrue/reference/tables.hpp"

/// The tables as they stand, and bands that their values lie in.
namespace standtrue::tests {

using namespace standtrue::reference;
using quantity::in_si;

inline const Tables& tables() {
  static const Tables loaded = load_tables();
  return loaded;
}

template <class Quantity>
inline bool between(Quantity value, double low, double high) {
  return in_si(value) >= low && in_si(value) <= high;
}

inline bool mpa_between(quantity::Stress value, double low, double high) {
  return between(value, low * 1e6, high * 1e6);
}

/// Zero is "not known".
inline bool mpa_between_or_unknown(quantity::Stress value, double low, double high) {
  return in_si(value) == 0.0 || mpa_between(value, low, high);
}

inline bool mm_between(quantity::Length value, double low, double high) {
  return between(value, low * 1e-3 * (1 - 1e-12), high * 1e-3 * (1 + 1e-12));
}

template <class Quantity>
inline bool rising(const Band<Quantity>& band) {
  return band.soft < band.mean && band.mean < band.stiff;
}

}  // namespace standtrue::tests
