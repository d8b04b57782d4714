#pragma once

#include <cmath>

#include "standtrue/model/model.hpp"

namespace standtrue::model {

[[nodiscard]] inline Direction plus(const Direction& a, const Direction& b) {
  return {a.x + b.x, a.y + b.y, a.z + b.z};
}
[[nodiscard]] inline Direction minus(const Direction& a, const Direction& b) {
  return {a.x - b.x, a.y - b.y, a.z - b.z};
}
[[nodiscard]] inline double dot(const Direction& a, const Direction& b) {
  return a.x * b.x + a.y * b.y + a.z * b.z;
}
[[nodiscard]] inline double norm(const Direction& d) { return std::sqrt(dot(d, d)); }
[[nodiscard]] inline Direction cross(const Direction& a, const Direction& b) {
  return {a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x};
}

}  // namespace standtrue::model
