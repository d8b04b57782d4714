// All numbers SI (m).
#include "check/carriers.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace standtrue::check {

using quantity::in_si;

namespace {

double level_of(const model::Plate& plate, const model::Seam& seam) {
  const model::PlateTie& tie = plate.ties[seam.first];
  return seam.along_x ? plate.y[tie.j] : plate.x[tie.i];
}

}  // namespace

Carriers::Carriers(const model::Model& model, std::size_t plate) {
  const std::size_t sheet = model.parts.plate_sheets.at(plate);
  for (const model::SheetSpan& span : model.parts.spans) {
    if (span.sheet == sheet) along_x_ = span.along_x;
  }
  for (const model::Seam& seam : model.parts.seams) {
    if (seam.plate != plate || seam.along_x == along_x_) continue;
    const double at = level_of(model.plates[plate], seam);
    const bool is_new = std::none_of(at_.begin(), at_.end(), [at](double other) {
      constexpr double same = 5e-3;
      return std::abs(other - at) < same;
    });
    if (is_new) at_.push_back(at);
  }
  std::sort(at_.begin(), at_.end());
  const std::vector<double>& lines = along_x_ ? model.plates[plate].x : model.plates[plate].y;
  for (const double at : at_) {
    const auto line = std::find(lines.begin(), lines.end(), at);
    lines_.push_back(static_cast<std::size_t>(line - lines.begin()));
  }
}

std::optional<double> Carriers::at_node(const PlateAnswers::View& view, std::size_t i,
                                        std::size_t j) const {
  const double s = along_x_ ? view.plate.x[i] : view.plate.y[j];
  if (at_.size() < 2 || s < at_.front() || s > at_.back()) return std::nullopt;
  std::size_t c = 0;
  while (c + 2 < at_.size() && s > at_[c + 1]) ++c;
  const double t = (s - at_[c]) / (at_[c + 1] - at_[c]);
  const auto down = [&](std::size_t line) {
    return view.down_at_node(along_x_ ? view.plate.node(line, j) : view.plate.node(i, line));
  };
  return (1.0 - t) * down(lines_[c]) + t * down(lines_[c + 1]);
}

std::optional<double> Carriers::at(const PlateAnswers::View& view, double x, double y) const {
  const double s = along_x_ ? x : y;
  if (at_.size() < 2 || s < at_.front() || s > at_.back()) return std::nullopt;
  std::size_t i = 0;
  while (i + 2 < at_.size() && s > at_[i + 1]) ++i;
  const double t = (s - at_[i]) / (at_[i + 1] - at_[i]);
  const auto down = [&](double place) {
    return along_x_ ? view.down(place, y) : view.down(x, place);
  };
  return (1.0 - t) * down(at_[i]) + t * down(at_[i + 1]);
}

std::vector<BesideEdge> beside_edges(const model::Model& model, std::size_t place, double x,
                                     double y) {
  const model::Plate& plate = model.plates[place];
  struct Side {
    bool along_x;  ///< the edge runs along x
    double at, distance;
  };
  const std::array<Side, 4> sides{{{false, plate.x.front(), x - plate.x.front()},
                                   {false, plate.x.back(), plate.x.back() - x},
                                   {true, plate.y.front(), y - plate.y.front()},
                                   {true, plate.y.back(), plate.y.back() - y}}};
  constexpr double reach = 0.1;  // m
  std::vector<BesideEdge> all;
  for (const Side& side : sides) {
    if (side.distance > reach) continue;
    std::optional<BesideEdge> beside;
    double nearest = 0.0;
    for (const model::Seam& seam : model.parts.seams) {
      if (seam.plate != place || seam.along_x != side.along_x) continue;
      const double at = level_of(plate, seam);
      const double off = std::abs(at - side.at);
      if (beside && off >= nearest) continue;
      nearest = off;
      beside =
          side.along_x ? BesideEdge{x, side.at, x, at, 0.0} : BesideEdge{side.at, y, at, y, 0.0};
      beside->half_width = 0.5 * in_si(model.parts.parts[seam.part].width);
    }
    if (beside) all.push_back(*beside);
  }
  return all;
}

double longest_carrier(const model::Parts& parts, std::size_t sheet_place) {
  const bench::Sheet& sheet = parts.bench.sheets.at(sheet_place);
  std::vector<std::size_t> rails = sheet.rails;
  for (const std::size_t b : sheet.bearers) {
    rails.push_back(parts.bench.bearers.at(b).from);
    rails.push_back(parts.bench.bearers.at(b).to);
  }
  const auto carries = [&](const model::Part& part) {
    const std::vector<std::size_t>& list = part.role == model::Role::bearer ? sheet.bearers : rails;
    return (part.role == model::Role::rail || part.role == model::Role::bearer) &&
           std::find(list.begin(), list.end(), part.source) != list.end();
  };
  double longest = 0.0;
  for (const model::Part& part : parts.parts) {
    if (carries(part)) longest = std::max(longest, in_si(part.span));
  }
  return longest;
}

}  // namespace standtrue::check
