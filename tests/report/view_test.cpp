#include "report/view.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <random>

namespace view_test {

using namespace standtrue;
using decide::Place;
using decide::Solid;
using doctest::Approx;
using report::Edge;
using report::View;

namespace {

Solid box(const Place& low, const Place& high, const std::string& name = "box",
          Solid::Of of = Solid::Of::rail) {
  Solid solid{of, name, {}};
  for (std::size_t i = 0; i < 8; ++i) {
    for (std::size_t d = 0; d < 3; ++d) {
      solid.corners[i][d] = (i >> d) % 2 == 1 ? high[d] : low[d];
    }
  }
  return solid;
}

double length_of(const Edge& e) {
  return std::hypot(e.to[0] - e.from[0], e.to[1] - e.from[1], e.to[2] - e.from[2]);
}

double length_of(const std::vector<Edge>& edges, bool hidden) {
  double sum = 0.0;
  for (const Edge& e : edges) sum += e.hidden == hidden ? length_of(e) : 0.0;
  return sum;
}

/// Whether the ray from p towards the eye meets a box, by its slabs: how renderers do it (Kay and
/// Kajiya 1986), and not how edges_of does.
bool meets(const Place& p, const Place& toward, const Solid& s, double shrink) {
  double near = 1e-6, far = 1e9;
  for (std::size_t d = 0; d < 3; ++d) {
    const double low = s.corners[0][d] + shrink, high = s.corners[7][d] - shrink;
    if (std::abs(toward[d]) < 1e-12) {
      if (p[d] < low || p[d] > high) return false;
      continue;
    }
    const double a = (low - p[d]) / toward[d], b = (high - p[d]) / toward[d];
    near = std::max(near, std::min(a, b));
    far = std::min(far, std::max(a, b));
  }
  return near < far;
}

}  // namespace

TEST_CASE("report/view: of a cube in the round nine edges are seen and three hidden (geometry)") {
  const auto edges = report::edges_of({box({0, 0, 0}, {1, 1, 1})}, View::solid());
  // Solids are shrunk by 10 µm: so much of a hidden edge peeps out at its ends.
  CHECK(length_of(edges, false) == Approx(9.0).epsilon(1e-4));
  CHECK(length_of(edges, true) == Approx(3.0).epsilon(1e-4));
}

TEST_CASE("report/view: a box behind another is hidden as far as that reaches (geometry)") {
  const auto edges = report::edges_of(
      {box({0, 0, 0}, {1, 1, 1}), box({0.25, 2, 0.25}, {1.5, 3, 0.75})}, View::front());
  double hidden = 0.0;
  for (const Edge& e : edges) {
    const bool is_front_low =
        e.from[1] == 2.0 && e.to[1] == 2.0 && e.from[2] == 0.25 && e.to[2] == 0.25;
    if (is_front_low && e.hidden) hidden += length_of(e);
  }
  CHECK(hidden == Approx(0.75).epsilon(1e-4));  // x from 0.25 to 1, less what solids are shrunk by
}

TEST_CASE("report/view: faces that touch hide nothing of each other") {
  // A rail against a post, both flush in front: the line between them is seen.
  const auto edges = report::edges_of(
      {box({0, 0, 0}, {0.1, 0.1, 1}), box({0.1, 0, 0.4}, {1, 0.05, 0.5})}, View::front());
  double seen = 0.0;
  for (const Edge& e : edges) {
    const bool is_between = e.from[0] == 0.1 && e.to[0] == 0.1 && e.from[1] == 0.0 &&
                            e.to[1] == 0.0 && e.from[2] >= 0.4 && e.to[2] <= 0.5;
    if (is_between && !e.hidden) seen += length_of(e);
  }
  CHECK(seen == Approx(0.1));
}

TEST_CASE("report/view: no seam is drawn between the blocks of one sheet") {
  // An L of two blocks: its outline from above is 6 long, with a step of 0.5.
  const std::vector<Solid> sheet = {box({0, 0, 0}, {1, 1, 0.02}, "shelf", Solid::Of::sheet),
                                    box({1, 0, 0}, {2, 0.5, 0.02}, "shelf", Solid::Of::sheet)};
  double above = 0.0;
  for (const Edge& e : report::edges_of(sheet, View::plan())) {
    if (!e.hidden && e.from[2] == 0.02 && e.to[2] == 0.02) above += length_of(e);
  }
  CHECK(above == Approx(6.0));  // 2 + 0.5 + 1 + 0.5 + 1 + 1
}

TEST_CASE("report/view: random boxes against rays sent from their edges (slabs)") {
  std::mt19937 draw(7);
  std::uniform_real_distribution<double> at(0.0, 3.0), size(0.1, 1.2);
  for (const View& view : {View::front(), View::left_end(), View::plan(), View::solid()}) {
    std::vector<Solid> solids;
    for (int i = 0; i < 12; ++i) {
      const Place low{at(draw), at(draw), at(draw)};
      solids.push_back(box(low, {low[0] + size(draw), low[1] + size(draw), low[2] + size(draw)}));
    }
    int looked_at = 0;
    for (const Edge& e : report::edges_of(solids, view)) {
      if (length_of(e) < 1e-3) continue;
      const Place middle{0.5 * (e.from[0] + e.to[0]), 0.5 * (e.from[1] + e.to[1]),
                         0.5 * (e.from[2] + e.to[2])};
      bool hidden = false;
      for (const Solid& s : solids) hidden = hidden || meets(middle, view.toward, s, 1e-5);
      CHECK(hidden == e.hidden);
      ++looked_at;
    }
    CHECK(looked_at > 100);
  }
}

TEST_CASE("report/view: projections lie as drawings have them") {
  CHECK(View::front().at({1, 5, 0})[0] == 50.0);
  CHECK(View::front().at({0, 0, 1})[1] == -50.0);
  CHECK(View::left_end().at({3, 1, 0})[0] == -50.0);  // the back is to the left
  CHECK(View::plan().at({0, 1, 7})[1] == -50.0);      // the back is above
  const View v = View::solid();
  const auto dot = [](const Place& a, const Place& b) {
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
  };
  CHECK(dot(v.right, v.up) == Approx(0.0));
  CHECK(dot(v.right, v.toward) == Approx(0.0));
  CHECK(dot(v.up, v.up) == Approx(1.0));
}

}  // namespace view_test
