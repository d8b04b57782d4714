#include "model/standing_places.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace standtrue::model {

using quantity::in_si;

namespace {

/// What carries a sheet one way.
struct CarrierLine {
  std::string name;
  double across = 0.0;  ///< the plan coordinate that it keeps
  double middle = 0.0;  ///< of its length
};

std::vector<CarrierLine> carrier_lines(const Idealising& work, const bench::Sheet& sheet,
                                       bool along_x) {
  std::vector<CarrierLine> found;
  const auto add = [&](const std::string& name, const Line& line) {
    if (line.along_x == along_x) {
      found.push_back({name, line.across, 0.5 * (line.from + line.to)});
    }
  };
  for (const std::size_t r : sheet.rails) add(work.bench.rails[r].name, work.rails[r]);
  for (const std::size_t b : sheet.bearers) add(work.bench.bearers[b].name, work.bearers[b]);
  return found;
}

/// Where such lines lie, each once, rising.
std::vector<double> places_across(const std::vector<CarrierLine>& lines) {
  constexpr double same = 5e-3;  // m
  std::vector<double> all, found;
  for (const CarrierLine& line : lines) all.push_back(line.across);
  std::sort(all.begin(), all.end());
  for (const double at : all) {
    if (found.empty() || at > found.back() + same) found.push_back(at);
  }
  return found;
}

std::vector<double> middles_between(const std::vector<double>& at, double otherwise) {
  std::vector<double> middles;
  for (std::size_t i = 0; i + 1 < at.size(); ++i) middles.push_back(0.5 * (at[i] + at[i + 1]));
  if (middles.empty()) middles.push_back(otherwise);
  return middles;
}

/// Places on one top, none twice.
class Standing {
 public:
  Standing(const Idealising& work, const bench::Sheet& sheet)
      : work_(work),
        sheet_(sheet),
        x0_(in_si(sheet.x0)),
        x1_(in_si(sheet.x1)),
        y0_(in_si(sheet.y0)),
        y1_(in_si(sheet.y1)),
        in_(in_si(work.tables.load("stand").edge)),
        side_(in_si(work.tables.load("stand").patch)) {}

  std::vector<StandingPlace> places() {
    middle_edges_and_corners();
    over_carriers(true);
    over_carriers(false);
    in_bays();
    beside_cut_outs();
    beside_beds();
    return std::move(places_);
  }

 private:
  void add(std::string name, double x, double y) {
    x = std::min(std::max(x, x0_ + in_), std::max(x0_ + in_, x1_ - in_));
    y = std::min(std::max(y, y0_ + in_), std::max(y0_ + in_, y1_ - in_));
    const bool is_known = std::any_of(places_.begin(), places_.end(), [&](const StandingPlace& p) {
      return std::max(std::abs(p.x - x), std::abs(p.y - y)) < 0.5 * side_;
    });
    if (is_known) return;
    if (sheet_.name != "top") name += " of the " + sheet_.name;
    places_.push_back({std::move(name), x, y});
  }

  void middle_edges_and_corners() {
    const double xm = 0.5 * (x0_ + x1_), ym = 0.5 * (y0_ + y1_);
    add("front edge, middle", xm, y0_);
    add("middle", xm, ym);
    add("back edge, middle", xm, y1_);
    add("left end, middle", x0_, ym);
    add("right end, middle", x1_, ym);
    add("front left corner", x0_, y0_);
    add("front right corner", x1_, y0_);
    add("back left corner", x0_, y1_);
    add("back right corner", x1_, y1_);
  }

  /// On what is outermost from the edge beside it, where it is loaded most.
  void over_carriers(bool along_x) {
    const std::vector<CarrierLine> lines = carrier_lines(work_, sheet_, along_x);
    const std::vector<double> at = places_across(lines);
    constexpr double same_line = 5e-3;  // m
    for (const CarrierLine& line : lines) {
      const bool is_first = line.across < at.front() + same_line;
      const bool is_last = line.across > at.back() - same_line;
      const double low = along_x ? y0_ : x0_, high = along_x ? y1_ : x1_;
      const double across = is_first ? low : is_last ? high : line.across;
      const std::string name = (is_first || is_last ? "edge at the " : "over the ") + line.name;
      along_x ? add(name, line.middle, across) : add(name, across, line.middle);
    }
  }

  void in_bays() {
    const std::vector<double> x =
        middles_between(places_across(carrier_lines(work_, sheet_, false)), 0.5 * (x0_ + x1_));
    const std::vector<double> y =
        middles_between(places_across(carrier_lines(work_, sheet_, true)), 0.5 * (y0_ + y1_));
    for (std::size_t i = 0; i < x.size(); ++i) {
      for (std::size_t j = 0; j < y.size(); ++j) {
        std::string name = fmt::format("bay {} from the left", i + 1);
        if (y.size() > 1) name += fmt::format(", {} from the front", j + 1);
        add(std::move(name), x[i], y[j]);
      }
    }
  }

  void beside_cut_outs() {
    for (std::size_t c = 0; c < sheet_.cut_outs.size(); ++c) {
      const bench::Sheet::CutOut& cut = sheet_.cut_outs[c];
      const double a = in_si(cut.x0), b = in_si(cut.x1), low = in_si(cut.y0), high = in_si(cut.y1);
      const double xm = 0.5 * (a + b), ym = 0.5 * (low + high), half = 0.5 * side_;
      const auto beside = [&](const char* where, double x, double y) {
        add(fmt::format("{} cut-out {}", where, c + 1), x, y);
      };
      beside("in front of", xm, low - half);
      beside("behind", xm, high + half);
      beside("left of", a - half, ym);
      beside("right of", b + half, ym);
    }
  }

  void beside_beds() {
    const bool is_wanted = std::any_of(
        work_.bench.machines.begin(), work_.bench.machines.end(), [&](const bench::Machine& m) {
          return m.kind.precise_bed && &work_.bench.sheets[m.sheet] == &sheet_;
        });
    if (!is_wanted) return;
    const double left = 0.75 * x0_ + 0.25 * x1_, right = 0.25 * x0_ + 0.75 * x1_;
    add("front edge, a quarter from the left", left, y0_);
    add("front edge, a quarter from the right", right, y0_);
    add("back edge, a quarter from the left", left, y1_);
    add("back edge, a quarter from the right", right, y1_);
  }

  const Idealising& work_;
  const bench::Sheet& sheet_;
  double x0_, x1_, y0_, y1_;
  double in_, side_;  ///< from an edge to the middle of a patch, and its side
  std::vector<StandingPlace> places_;
};

}  // namespace

std::vector<StandingPlace> standing_places(const Idealising& work, const bench::Sheet& sheet) {
  return Standing(work, sheet).places();
}

}  // namespace standtrue::model
