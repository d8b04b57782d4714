// All numbers SI (m, kg, Hz).
#include "check/unbalance.hpp"

#include <algorithm>
#include <cmath>
#include <complex>
#include <numbers>

namespace standtrue::check {

using quantity::in_si;
using std::numbers::pi;

namespace {

double omega(double frequency) { return 2.0 * pi * frequency; }

std::size_t nearest_line(const std::vector<double>& lines, double at) {
  const auto distance = [at](double a, double b) { return std::abs(a - at) < std::abs(b - at); };
  return static_cast<std::size_t>(std::min_element(lines.begin(), lines.end(), distance) -
                                  lines.begin());
}

/// How a mode moves a place on a plate's upper face: its nearest mesh node.
std::array<double, 3> on_plate(const model::Plate& plate, const solve::PlateMovements& moves,
                               double x, double y) {
  const auto row =
      static_cast<Eigen::Index>(5 * plate.node(nearest_line(plate.x, x), nearest_line(plate.y, y)));
  const double half = 0.5 * plate.thickness;
  const double u = moves(row, 0) + half * moves(row + 4, 0);
  const double v = moves(row + 1, 0) - half * moves(row + 3, 0);
  const double w = moves(row + 2, 0);
  std::array<double, 3> all{};
  const std::array<double, 3>& a = plate.x_axis;
  const std::array<double, 3>& b = plate.y_axis;
  const std::array<double, 3> normal = plate.normal();
  for (std::size_t i = 0; i < 3; ++i) all[i] = u * a[i] + v * b[i] + w * normal[i];
  return all;
}

/// The two directions in which a turning force pushes.
std::array<std::size_t, 2> across_spindle(bench::Machine::Axis axis) {
  switch (axis) {
    case bench::Machine::Axis::x:
      return {1, 2};
    case bench::Machine::Axis::y:
      return {2, 0};
    case bench::Machine::Axis::z:
      break;
  }
  return {0, 1};
}

}  // namespace

double Shaking::velocity() const { return omega(speed) * amplitude / std::sqrt(2.0); }

std::vector<Watched> watched_places(const model::Model& model, std::size_t machine,
                                    const std::vector<solve::Mode>& modes) {
  std::vector<Watched> places;
  for (const model::PadPlace& pad : model.parts.pads) {
    if (pad.machine != machine) continue;
    Watched place{"its feet", true, {}};
    for (const solve::Mode& mode : modes) {
      place.moves.push_back(on_plate(model.plates[pad.plate], mode.plates[pad.plate],
                                     0.5 * (pad.where.x0 + pad.where.x1),
                                     0.5 * (pad.where.y0 + pad.where.y1)));
    }
    places.push_back(std::move(place));
  }
  for (const std::size_t node : model.parts.top_corners) {
    Watched place{"a corner of the bench", false, {}};
    for (const solve::Mode& mode : modes) {
      const auto at = static_cast<Eigen::Index>(6 * node);
      place.moves.push_back(
          {mode.displacement(at), mode.displacement(at + 1), mode.displacement(at + 2)});
    }
    places.push_back(std::move(place));
  }
  for (std::size_t p = 0; p < model.plates.size(); ++p) {
    const bench::Sheet& sheet = model.parts.bench.sheets.at(model.parts.plate_sheets.at(p));
    if (sheet.place != bench::SheetPlace::top) continue;
    const model::Plate& plate = model.plates[p];
    Watched place{"the front edge", false, {}};
    for (const solve::Mode& mode : modes) {
      place.moves.push_back(on_plate(plate, mode.plates[p],
                                     0.5 * (plate.x.front() + plate.x.back()), plate.y.front()));
    }
    places.push_back(std::move(place));
  }
  return places;
}

Shaker::Shaker(const model::Model& model, std::size_t machine,
               const std::vector<solve::Mode>& modes, const Unbalance& unbalance)
    : modes_(modes), unbalance_(unbalance), places_(watched_places(model, machine, modes)) {
  const std::array<std::size_t, 2> ways =
      across_spindle(model.parts.bench.machines.at(machine).spindle);
  for (const solve::Mode& mode : modes) {
    const std::array<double, 6>& body = mode.bodies.at(machine);
    pushes_.push_back({body[ways[0]], body[ways[1]]});
  }
}

std::vector<double> Shaker::frequencies() const {
  std::vector<double> all;
  for (const solve::Mode& mode : modes_) all.push_back(mode.frequency);
  return all;
}

Shaking Shaker::at(double speed, double damping) const { return at(speed, damping, frequencies()); }

Shaking Shaker::at(double speed, double damping, const std::vector<double>& frequencies) const {
  const double w = omega(speed);
  const double force = unbalance_.mass * unbalance_.eccentricity * w * w;
  std::vector<std::complex<double>> answer;
  for (std::size_t i = 0; i < modes_.size(); ++i) {
    const double w_i = omega(frequencies[i]);
    const std::complex<double> push(pushes_[i][0], pushes_[i][1]);
    answer.push_back(force * push /
                     std::complex<double>(w_i * w_i - w * w, 2.0 * damping * w_i * w));
  }
  Shaking shaking{speed, 0.0, {}};
  for (const Watched& place : places_) {
    for (std::size_t axis = 0; axis < 3; ++axis) {
      std::complex<double> sum = 0.0;
      for (std::size_t i = 0; i < modes_.size(); ++i) sum += place.moves[i][axis] * answer[i];
      if (std::abs(sum) <= shaking.amplitude) continue;
      shaking.amplitude = std::abs(sum);
      shaking.where = place.name;
    }
  }
  return shaking;
}

std::vector<double> Shaker::speeds(double from, double to) const {
  std::vector<double> all{from, to};
  constexpr int steps = 60;
  for (int i = 1; i < steps; ++i) all.push_back(from * std::pow(to / from, 1.0 * i / steps));
  for (const solve::Mode& mode : modes_) {
    if (mode.frequency > from && mode.frequency < to) all.push_back(mode.frequency);
  }
  std::sort(all.begin(), all.end());
  return all;
}

double Shaker::at_resonance(std::size_t mode, double damping) const {
  const double push = std::hypot(pushes_[mode][0], pushes_[mode][1]);
  double most = 0.0;
  for (const Watched& place : places_) {
    for (const double move : place.moves[mode]) most = std::max(most, std::abs(move));
  }
  // The force goes with ω², which the stiffness of the mode divides by again.
  return unbalance_.mass * unbalance_.eccentricity * push * most / (2.0 * damping);
}

}  // namespace standtrue::check
