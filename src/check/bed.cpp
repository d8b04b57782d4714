// All numbers SI (m, rad).
#include "check/bed.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "check/printer.hpp"

namespace standtrue::check {

bool is_at_rest(const model::Combination& c) { return c.name == "service-stored"; }
bool is_leaned_on(const model::Combination& c) {
  return c.purpose == model::Purpose::service && c.leading == model::Leading::lean;
}

double mean_w(const model::Plate& plate, const solve::PlateMovements& movements,
              const model::Patch& patch, Eigen::Index column) {
  double sum = 0.0, area = 0.0;
  for (std::size_t j = 0; j + 1 < plate.y.size(); ++j) {
    const double y0 = std::max(plate.y[j], patch.y0), y1 = std::min(plate.y[j + 1], patch.y1);
    for (std::size_t i = 0; i + 1 < plate.x.size() && y1 > y0; ++i) {
      const double x0 = std::max(plate.x[i], patch.x0), x1 = std::min(plate.x[i + 1], patch.x1);
      if (x1 <= x0 || !plate.has_cell(i, j)) continue;
      // w is bilinear in a cell: its mean over a rectangle is its value in the middle of it.
      const double a = (x1 - x0) * (y1 - y0);
      area += a;
      sum += a * solve::plate_w(plate, movements, 0.5 * (x0 + x1), 0.5 * (y0 + y1), column);
    }
  }
  if (area > 0.0) return sum / area;
  return solve::plate_w(plate, movements, 0.5 * (patch.x0 + patch.x1), 0.5 * (patch.y0 + patch.y1),
                        column);
}

double warp_of(const model::BedPlace& bed, const model::Plate& plate,
               const solve::PlateMovements& movements, Eigen::Index column) {
  double q = 0.0, sign = 1.0;
  for (const model::Patch& pad : bed.pads) {
    q += sign * mean_w(plate, movements, pad, column);
    sign = -sign;
  }
  return q;
}

std::optional<double> carried_warp_of(const model::BedPlace& bed, const Carriers& carriers,
                                      const PlateAnswers::View& view) {
  double q = 0.0, sign = -1.0;  // carriers tell how far they sank
  for (const model::Patch& pad : bed.pads) {
    const auto down = carriers.at(view, 0.5 * (pad.x0 + pad.x1), 0.5 * (pad.y0 + pad.y1));
    if (!down) return std::nullopt;
    q += sign * *down;
    sign = -sign;
  }
  return q;
}

Slope slope_of(std::span<const MovedPoint> points) {
  const double n = static_cast<double>(points.size());
  double x_m = 0.0, y_m = 0.0;
  for (const MovedPoint& p : points) {
    x_m += p.x / n;
    y_m += p.y / n;
  }
  double xx = 0.0, xy = 0.0, yy = 0.0, xw = 0.0, yw = 0.0;
  for (const MovedPoint& p : points) {
    const double x = p.x - x_m, y = p.y - y_m;
    xx += x * x;
    xy += x * y;
    yy += y * y;
    xw += x * p.w;
    yw += y * p.w;
  }
  const double determinant = xx * yy - xy * xy, square = xx + yy;
  constexpr double in_a_row = 1e-9;
  if (determinant > in_a_row * square * square) {
    return {(yy * xw - xy * yw) / determinant, (xx * yw - xy * xw) / determinant};
  }
  // Along the row the slope is s = (x w)/(x x), and what it rises to the side is not known.
  return square > 0.0 ? Slope{xw / square, yw / square} : Slope{};
}

std::optional<Slope> slope_of(const model::Parts& parts, std::size_t machine,
                              const PlateAnswers::View& view) {
  std::vector<MovedPoint> middles, corners;
  for (const model::PadPlace& pad : parts.pads) {
    if (pad.machine != machine) continue;
    const model::Patch& p = pad.where;
    middles.push_back({0.5 * (p.x0 + p.x1), 0.5 * (p.y0 + p.y1),
                       mean_w(view.plate, view.movements, p, view.column)});
    for (const double x : {p.x0, p.x1}) {
      for (const double y : {p.y0, p.y1}) corners.push_back({x, y, -view.down(x, y)});
    }
  }
  if (middles.empty()) return std::nullopt;
  return slope_of(middles.size() < 3 ? corners : middles);
}

namespace {

/// "0.3 mm/m down to the left and 1.2 mm/m down to the front"
std::string falls(const Slope& slope, const Printer& print) {
  return fmt::format("{} down to the {} and {} down to the {}", print.level(std::abs(slope.x)),
                     slope.x > 0.0 ? "left" : "right", print.level(std::abs(slope.y)),
                     slope.y > 0.0 ? "front" : "back");
}

const model::BedPlace* bed_of(const model::Parts& parts, std::size_t machine) {
  for (const model::BedPlace& bed : parts.beds) {
    if (bed.machine == machine) return &bed;
  }
  return nullptr;
}

std::optional<std::size_t> plate_under(const model::Parts& parts, std::size_t machine) {
  for (const model::PadPlace& pad : parts.pads) {
    if (pad.machine == machine) return pad.plate;
  }
  return std::nullopt;
}

}  // namespace

std::vector<std::string> level_lines(const model::Model& model, const PlateAnswers& plates,
                                     std::size_t machine) {
  std::vector<std::string> lines;
  const model::Parts& parts = model.parts;
  const Printer print(parts.bench);
  const std::optional<std::size_t> plate = plate_under(parts, machine);
  if (!plate) return lines;
  const std::vector<PlateAnswers::View> rest = plates.of(*plate, is_at_rest);
  if (rest.empty()) return lines;
  const Slope level = *slope_of(parts, machine, rest.front());
  lines.push_back("at rest the bench lets it lean " + falls(level, print));
  Slope most{};
  std::string where;
  for (const PlateAnswers::View& view : plates.of(*plate, is_leaned_on)) {
    const Slope leaned = *slope_of(parts, machine, view);
    const Slope change{leaned.x - level.x, leaned.y - level.y};
    if (std::hypot(change.x, change.y) <= std::hypot(most.x, most.y)) continue;
    most = change;
    where = model.combinations[view.combination].name;
  }
  if (!where.empty()) {
    lines.push_back(fmt::format("somebody leaning adds {} ({})", falls(most, print), where));
  }
  if (const model::BedPlace* bed = bed_of(parts, machine)) {
    const PlateAnswers::View& view = rest.front();
    const double q = warp_of(*bed, view.plate, view.movements, view.column);
    lines.push_back(fmt::format("its fourth pad ends up {} out of the plane of the other three",
                                print.movement(std::abs(q))));
  }
  return lines;
}

}  // namespace standtrue::check
