#include "report/view.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>

namespace standtrue::report {

namespace {

double dot(const Place& a, const Place& b) { return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]; }
Place minus(const Place& a, const Place& b) { return {a[0] - b[0], a[1] - b[1], a[2] - b[2]}; }
Place along(const Place& a, const Place& d, double t) {
  return {a[0] + t * d[0], a[1] + t * d[1], a[2] + t * d[2]};
}
Place cross(const Place& a, const Place& b) {
  return {a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]};
}

constexpr double shrink = 1e-5;  // m

/// Inside: dot(normal, p) <= level.
struct Face {
  Place normal{};
  double level = 0.0;
};
using Faces = std::array<Face, 6>;

/// Faces by the corners of each, whose bits of one direction are alike.
Faces faces_of(const Solid& solid) {
  Place middle{};
  for (const Place& c : solid.corners) middle = along(middle, c, 0.125);
  Faces faces;
  for (std::size_t f = 0; f < 6; ++f) {
    const std::size_t d = f / 2, side = f % 2;
    const std::size_t a = side << d, u = std::size_t{1} << ((d + 1) % 3),
                      v = std::size_t{1} << ((d + 2) % 3);
    const Place& p = solid.corners[a];
    Place n = cross(minus(solid.corners[a | u], p), minus(solid.corners[a | v], p));
    const double size = std::sqrt(dot(n, n));
    if (size > 0.0) n = {n[0] / size, n[1] / size, n[2] / size};
    if (dot(n, minus(middle, p)) > 0.0) n = {-n[0], -n[1], -n[2]};
    faces[f] = {n, dot(n, p)};
  }
  return faces;
}

using Interval = std::array<double, 2>;

/// What of a polygon in the plane of t and s has c0 + ct t + cs s <= 0.
std::vector<Flat> clipped(const std::vector<Flat>& polygon, double c0, double ct, double cs) {
  std::vector<Flat> kept;
  const auto value = [&](const Flat& p) { return c0 + ct * p[0] + cs * p[1]; };
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    const Flat &p = polygon[i], &q = polygon[(i + 1) % polygon.size()];
    const double vp = value(p), vq = value(q);
    if (vp <= 0.0) kept.push_back(p);
    if ((vp < 0.0 && vq > 0.0) || (vp > 0.0 && vq < 0.0)) {
      const double r = vp / (vp - vq);
      kept.push_back({p[0] + r * (q[0] - p[0]), p[1] + r * (q[1] - p[1])});
    }
  }
  return kept;
}

/// The stretch of t in which the edge a + t d is hidden by a solid.
std::optional<Interval> hidden_by(const Faces& faces, const Place& a, const Place& d,
                                  const Place& toward) {
  constexpr double near = 1e-6, far = 1e4;
  std::vector<Flat> polygon = {{0.0, near}, {1.0, near}, {1.0, far}, {0.0, far}};
  for (const Face& face : faces) {
    polygon = clipped(polygon, dot(face.normal, a) - face.level + shrink, dot(face.normal, d),
                      dot(face.normal, toward));
    if (polygon.size() < 3) return std::nullopt;
  }
  Interval t{1.0, 0.0};
  for (const Flat& p : polygon) t = {std::min(t[0], p[0]), std::max(t[1], p[0])};
  return t[1] - t[0] > 1e-9 ? std::optional(t) : std::nullopt;
}

std::vector<std::array<std::size_t, 2>> edge_corners() {
  std::vector<std::array<std::size_t, 2>> all;
  for (std::size_t d = 0; d < 3; ++d) {
    for (std::size_t i = 0; i < 8; ++i) {
      if ((i >> d) % 2 == 0) all.push_back({i, i | (std::size_t{1} << d)});
    }
  }
  return all;
}

/// The stretch of a + t d that lies on the edge from p to q.
std::optional<Interval> shared(const Place& a, const Place& d, const Place& p, const Place& q) {
  const double length2 = dot(d, d);
  if (!(length2 > 0.0)) return std::nullopt;
  const auto place = [&](const Place& c) -> std::optional<double> {
    const double t = dot(minus(c, a), d) / length2;
    const Place off = minus(c, along(a, d, t));
    return dot(off, off) < shrink * shrink ? std::optional(t) : std::nullopt;
  };
  const auto tp = place(p), tq = place(q);
  if (!tp || !tq) return std::nullopt;
  const Interval t{std::max(0.0, std::min(*tp, *tq)), std::min(1.0, std::max(*tp, *tq))};
  return t[1] > t[0] + 1e-9 ? std::optional(t) : std::nullopt;
}

/// Seams between the blocks of one sheet, as stretches of an edge of one of them.
std::vector<Interval> seams(const std::vector<Solid>& solids, std::size_t own, const Place& a,
                            const Place& d) {
  std::vector<Interval> all;
  if (solids[own].of != Solid::Of::sheet) return all;
  for (std::size_t other = 0; other < solids.size(); ++other) {
    if (other == own || solids[other].of != Solid::Of::sheet ||
        solids[other].name != solids[own].name) {
      continue;
    }
    for (const auto& [i, j] : edge_corners()) {
      if (auto t = shared(a, d, solids[other].corners[i], solids[other].corners[j])) {
        all.push_back(*t);
      }
    }
  }
  return all;
}

bool lies_in(const std::vector<Interval>& all, double t) {
  return std::any_of(all.begin(), all.end(),
                     [t](const Interval& i) { return t > i[0] && t < i[1]; });
}

/// The edge in stretches between the ends of those intervals.
void add_stretches(std::vector<Edge>& edges, const Place& a, const Place& d, Solid::Of of,
                   const std::vector<Interval>& hidden, const std::vector<Interval>& none) {
  std::vector<double> cuts = {0.0, 1.0};
  for (const auto* intervals : {&hidden, &none}) {
    for (const Interval& i : *intervals) cuts.insert(cuts.end(), {i[0], i[1]});
  }
  std::sort(cuts.begin(), cuts.end());
  for (std::size_t c = 0; c + 1 < cuts.size(); ++c) {
    const double middle = 0.5 * (cuts[c] + cuts[c + 1]);
    if (cuts[c + 1] - cuts[c] < 1e-9 || lies_in(none, middle)) continue;
    const bool is_hidden = lies_in(hidden, middle);
    const bool goes_on = c > 0 && !edges.empty() && edges.back().hidden == is_hidden &&
                         edges.back().to == along(a, d, cuts[c]);
    if (goes_on) {
      edges.back().to = along(a, d, cuts[c + 1]);
    } else {
      edges.push_back({along(a, d, cuts[c]), along(a, d, cuts[c + 1]), is_hidden, of});
    }
  }
}

}  // namespace

Flat View::at(const Place& p) const {
  return {origin[0] + scale * dot(p, right), origin[1] - scale * dot(p, up)};
}

View View::front() { return {}; }
View View::left_end() { return {{0, -1, 0}, {0, 0, 1}, {-1, 0, 0}}; }
View View::plan() { return {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}; }
View View::solid() {
  const Place to_eye{0.42, -0.74, 0.52};
  const double size = std::sqrt(dot(to_eye, to_eye));
  const Place toward{to_eye[0] / size, to_eye[1] / size, to_eye[2] / size};
  const double flat = std::hypot(toward[0], toward[1]);
  const Place right{-toward[1] / flat, toward[0] / flat, 0.0};
  return {right, cross(toward, right), toward};
}

Extent extent_of(const std::vector<Solid>& solids, const View& view) {
  constexpr double far = std::numeric_limits<double>::infinity();
  Extent extent{far, far, -far, -far};
  for (const Solid& solid : solids) {
    for (const Place& corner : solid.corners) {
      const Flat p = view.at(corner);
      extent = {std::min(extent.x0, p[0]), std::min(extent.y0, p[1]), std::max(extent.x1, p[0]),
                std::max(extent.y1, p[1])};
    }
  }
  return extent;
}

std::vector<Edge> edges_of(const std::vector<Solid>& solids, const View& view) {
  std::vector<Faces> faces;
  for (const Solid& solid : solids) faces.push_back(faces_of(solid));
  std::vector<Edge> edges;
  for (std::size_t s = 0; s < solids.size(); ++s) {
    for (const auto& [i, j] : edge_corners()) {
      const Place& a = solids[s].corners[i];
      const Place d = minus(solids[s].corners[j], a);
      std::vector<Interval> hidden;
      for (const Faces& other : faces) {
        if (auto t = hidden_by(other, a, d, view.toward)) hidden.push_back(*t);
      }
      add_stretches(edges, a, d, solids[s].of, hidden, seams(solids, s, a, d));
    }
  }
  return edges;
}

}  // namespace standtrue::report
