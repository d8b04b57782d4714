#include "report/numbering.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace standtrue::report {

using quantity::in_si;

namespace {

constexpr double numbers_apart = 5.6, number_edge = 2.8;

struct Numbering {
  Svg& svg;
  const Drawn& drawn;
  const Views& views;
  std::vector<Flat> taken = {};

  /// Sway along is seen from the front and sway across from the end; what stands on the floor or at
  /// the back from above; what lies across from the end.
  [[nodiscard]] const View& view_of(const check::Finding& f, const Place& at) const {
    const bench::Bench& bench = drawn.assessment.bench;
    if (f.id.find("across") != f.id.npos) return views.end;
    if (f.id.find("along") != f.id.npos) return views.front;
    if (f.group == check::Group::feet) return views.plan;
    double middle = 0.0;
    for (const bench::Post& post : bench.posts) {
      middle += in_si(post.y) / static_cast<double>(bench.posts.size());
    }
    for (const bench::Rail& rail : bench.rails) {
      const bool is_it = f.place.find(rail.name) != f.place.npos;
      if (is_it && !rail.along_x) return views.end;
    }
    const bool is_behind = at[1] > middle + 0.05 && f.place.find("back") != f.place.npos;
    return is_behind ? views.plan : views.front;
  }

  [[nodiscard]] bool is_free(const Flat& at) const {
    return std::all_of(taken.begin(), taken.end(), [&](const Flat& t) {
      return std::hypot(t[0] - at[0], t[1] - at[1]) > numbers_apart;
    });
  }

  /// Round the point, inside the view's frame where that is possible, and off other numbers.
  [[nodiscard]] Flat free_place(const View& view, const Flat& point) const {
    const Extent e = extent_of(drawn.picture.solids, view);
    const double inward = point[0] < 0.5 * (e.x0 + e.x1) ? 1.0 : -1.0;
    const double down = point[1] < 0.5 * (e.y0 + e.y1) ? 1.0 : -1.0;
    for (const double far : {8.5, 13.0, 18.0, 24.0}) {
      for (const double degrees : {50.0, 25.0, 75.0, 5.0, 110.0, 140.0}) {
        const double a = degrees * std::numbers::pi / 180.0;
        const Flat at{point[0] + inward * far * std::cos(a), point[1] + down * far * std::sin(a)};
        const bool is_inside = at[0] > e.x0 + number_edge && at[0] < e.x1 - number_edge &&
                               at[1] > e.y0 + number_edge && at[1] < e.y1 - number_edge;
        if (is_free(at) && is_inside) return at;
      }
    }
    Flat at{point[0] + inward * 7.0, point[1] + down * 7.0};
    while (!is_free(at)) at[0] += inward * numbers_apart;
    return at;
  }

  /// The frame as a whole: in the middle of the front, without a line to anything.
  void number_whole(int number) {
    const Extent e = extent_of(drawn.picture.solids, views.front);
    Flat at{0.5 * (e.x0 + e.x1), e.y0 + 0.72 * (e.y1 - e.y0)};
    while (!is_free(at)) at[0] += 4.0 * numbers_apart;
    taken.push_back(at);
    svg.balloon(at, at, number);
    svg.text({at[0] + 3.2, at[1] + 0.9}, "the whole frame", "small");
  }
};

}  // namespace

void number_findings(Svg& svg, const Drawn& drawn, const Views& views,
                     const std::vector<Balloon>& balloons) {
  Numbering numbering{svg, drawn, views};
  for (const Balloon& b : balloons) {
    const auto found = drawn.picture.places.find(b.finding->id);
    if (found == drawn.picture.places.end()) {
      numbering.number_whole(b.number);
      continue;
    }
    const View& view = numbering.view_of(*b.finding, found->second);
    const Flat point = view.at(found->second);
    const Flat at = numbering.free_place(view, point);
    numbering.taken.push_back(at);
    svg.balloon(at, point, b.number);
  }
}

}  // namespace standtrue::report
