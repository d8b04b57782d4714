#include "decide/trials.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "decide/words.hpp"
#include "standtrue/bench/ledger.hpp"
#include "standtrue/model/scatter.hpp"

namespace standtrue::decide {

using bench::Test;
using quantity::in_si;

namespace {

constexpr double model_error = 0.1;     // ours: frame and supports beside what is learned
constexpr double share_of_limit = 0.5;  // of what tips, slides, or makes one foot slip
constexpr double balance = 0.5;         // N, common practice: a spring balance is read to 50 g
constexpr double most_movement = 10e-3;

/// What a builder has at hand, heaviest first, N.
std::vector<double> masses(const bench::Bench& bench, Test test) {
  constexpr double pound = 0.45359237;
  const double g = in_si(quantity::standard_gravity());
  const bool metric = bench.units == quantity::UnitSystem::metric;
  std::vector<double> all;
  if (bench::is_pull(test)) {
    all = metric ? std::vector<double>{20, 15, 10, 5, 3, 2, 1}
                 : std::vector<double>{40, 30, 20, 10, 5, 3, 2};
  } else {
    all = metric ? std::vector<double>{40, 20, 10} : std::vector<double>{80, 40, 20};
  }
  for (double& m : all) m *= metric ? g : pound * g;
  return all;
}

std::string as_mass(double force, const bench::Bench& bench) {
  return say(force / in_si(quantity::standard_gravity()), quantity::Kind::mass, bench);
}

struct Choosing {
  const Proving& proving;
  const bench::Bench& bench;
  const reference::Tables& tables;
  Logs middle;

  [[nodiscard]] double moved(Test test, double force) const {
    return proving.moves({{test, force}}, scales_at(middle)).front().by;
  }
};

/// The heaviest on hand that is within `most` and moves no more than can be read with a rule; the
/// lightest within `most` where all move more. Zero if none is within it.
double heaviest(const Choosing& c, Test test, double most, double most_moved) {
  double last = 0.0;
  double per_newton = 0.0;
  for (const double force : masses(c.bench, test)) {
    if (force > most) continue;
    last = force;
    if (per_newton == 0.0) per_newton = c.moved(test, force) / force;
    if (per_newton * force <= most_moved) break;
  }
  return last;
}

void choose_rail(const Choosing& c, Trial& t) {
  const LooseRail& rail = *c.proving.rail();
  const double third = in_si(rail.timber.f_m_k) / 3.0;
  double most = third / rail.stress(1.0);
  t.force = heaviest(c, Test::loose_rail, most, most_movement);
  if (t.force == 0.0) {
    t.why = "even the lightest weight is more than a third of the rail's strength";
    return;
  }
  t.state = "before the frame goes together";
  t.act = fmt::format("lay the {} on two blocks {} apart, {}, and put {} on its middle", rail.name,
                      say(rail.span, quantity::Kind::length, c.bench),
                      rail.flat ? "on its wide face" : "on edge", as_mass(t.force, c.bench));
  t.read = "how far its middle sinks";
  t.safe = fmt::format("at most {:.0f} % of its bending strength (a third is allowed here)",
                       std::ceil(100.0 * rail.stress(t.force) / in_si(rail.timber.f_m_k)));
}

void choose_pull(const Choosing& c, Test test, Trial& t) {
  const PullPlace& pull = *c.proving.pull(test);
  const bool is_bare = test == Test::bare_along || test == Test::bare_across;
  t.tips_at = pull.tips_at;
  t.slides_at = std::min(pull.slides_at, pull.first_slips_at);
  const double most = std::min({share_of_limit * pull.tips_at, share_of_limit * pull.slides_at,
                                share_of_limit * pull.first_slips_at,
                                in_si(c.tables.load("shove in use").sideways)});
  const bool is_known =
      !std::isnan(pull.tips_at) && !std::isnan(pull.slides_at) && !std::isnan(pull.first_slips_at);
  t.force = is_known && most > 0.0 ? heaviest(c, test, most, most_movement) : 0.0;
  if (t.force == 0.0) {
    t.why = "the bench would tip or slide under the least pull that can be read";
    return;
  }
  t.state = is_bare ? "posts and rails joined, before sheets and braces go on"
                    : "the finished bench, nothing on it";
  if (is_bare && bench::ledger_of(c.bench)) t.state = "on the ledger, " + t.state;
  t.act = fmt::format("pull with {} on a spring balance at the top of the {}, {}",
                      as_mass(t.force, c.bench), pull.post, pull.towards);
  t.read = "how far the top of that post moves";
  const auto at = [&](double force) {
    return std::isfinite(force) ? as_mass(force, c.bench) : std::string();
  };
  if (std::isinf(t.tips_at) && std::isinf(t.slides_at)) {
    t.safe = "it is fixed: the pull neither tips nor slides it";
  } else if (std::isinf(t.slides_at)) {
    t.safe = fmt::format("it would tip at {}", at(t.tips_at));
  } else {
    t.safe = fmt::format("a foot would slip at {}", at(t.slides_at));
    if (std::isfinite(t.tips_at)) t.safe += fmt::format(", and it would tip at {}", at(t.tips_at));
  }
}

void choose_top(const Choosing& c, Trial& t) {
  const TopPlace& top = *c.proving.top();
  const bench::Sheet& sheet = c.bench.sheets[top.sheet];
  t.force = heaviest(c, Test::top_sag, in_si(c.tables.load("lean").down), most_movement);
  t.state = "the finished bench, nothing on it";
  t.act = fmt::format(
      "stand {} on a block of {} in the middle of the weakest bay of the {}, {} from its left end "
      "and {} from its front edge",
      as_mass(t.force, c.bench),
      c.bench.units == quantity::UnitSystem::metric ? "100 x 100 mm" : "4 x 4 in", sheet.name,
      say(top.x - in_si(sheet.x0), quantity::Kind::length, c.bench),
      say(top.y - in_si(sheet.y0), quantity::Kind::length, c.bench));
  t.read =
      "how much wider the gap gets beside it under a straight batten that runs along the top on "
      "one small block over each end";
  t.safe = fmt::format("less than somebody leaning ({})",
                       as_mass(in_si(c.tables.load("lean").down), c.bench));
}

/// How ln of the movement follows each kind of stiffness, about the middle.
std::vector<Logs> slopes(const Choosing& c, const std::vector<Proving::Asked>& asked) {
  constexpr double h = 0.1;
  std::vector<Logs> all(asked.size());
  for (std::size_t i = 0; i < 3; ++i) {
    std::array<std::vector<Proving::Moved>, 2> moved;
    for (const int side : {0, 1}) {
      Logs at = c.middle;
      at[i] += side == 1 ? h : -h;
      moved[static_cast<std::size_t>(side)] = c.proving.moves(asked, scales_at(at));
    }
    for (std::size_t a = 0; a < asked.size(); ++a) {
      all[a][i] = std::log(moved[1][a].by / moved[0][a].by) / (2.0 * h);
    }
  }
  return all;
}

void foretell(const Choosing& c, const Prior& prior, Test test, const Logs& slope, double moved,
              Trial& t) {
  double variance = 0.0;
  for (std::size_t i = 0; i < 3; ++i) variance += std::pow(slope[i] * prior.deviation[i], 2.0);
  const double factor = std::exp(nineteen_in_twenty * std::sqrt(variance));
  t.expected = moved;
  t.stiff = moved / factor;
  t.soft = moved * factor;
  t.gauge = in_si(moved < in_si(bench::fine_up_to) ? bench::fine_gauge : bench::coarse_gauge);
  const Datum datum = datum_of(test, t.force, moved, t.gauge, c.tables);
  const Logs left = left_by(prior, slope, datum.deviation());
  for (std::size_t i = 0; i < 3; ++i) {
    if (left[i] > (1.0 - of_use) * prior.deviation[i]) continue;
    t.lessons.push_back({kinds[i], std::exp(nineteen_in_twenty * prior.deviation[i]),
                         std::exp(nineteen_in_twenty * left[i])});
  }
}

}  // namespace

Prior usual(const bench::Bench& bench, const reference::Tables& tables) {
  Prior prior;
  // The most scattered timber of all rails.
  double timber = 0.0;
  for (const bench::Rail& rail : bench.rails) {
    timber = std::max(timber, model::log_deviation(model::scatter_of_E(rail.stock, tables)));
  }
  if (timber == 0.0) timber = model::log_deviation(tables.scatter("E unmarked"));
  const double screws = model::log_deviation(tables.scatter("K_ser"));
  prior.deviation = {timber, model::log_deviation(tables.scatter("joint bend")), screws};
  prior.mean = {-0.5 * timber * timber, 0.0, -0.5 * screws * screws};
  return prior;
}

model::Scales scales_at(const Logs& logs) {
  return {std::exp(logs[0]), std::exp(logs[1]), std::exp(logs[2])};
}

Datum datum_of(Test test, double force, double moved, double gauge,
               const reference::Tables& tables) {
  Datum datum;
  datum.log_moved = std::log(moved);
  datum.gauge_error = gauge / std::sqrt(12.0) / moved;  // evenly spread between two marks
  if (bench::is_pull(test)) {
    datum.gauge_error = std::hypot(datum.gauge_error, balance / std::sqrt(12.0) / force);
  }
  datum.model_error = model_error;
  if (test == Test::top_sag) {
    datum.model_error = std::hypot(model_error, tables.scatter("panel E").cov);
  }
  return datum;
}

std::vector<Trial> trials(const Proving& proving, const bench::Bench& bench,
                          const reference::Tables& tables) {
  const Prior prior = usual(bench, tables);
  const Choosing choosing{proving, bench, tables, prior.mean};
  std::vector<Trial> all;
  std::vector<Proving::Asked> asked;
  for (const Test test : bench::all_tests) {
    Trial t;
    t.name = bench::name_of(test);
    t.is_pull = bench::is_pull(test);
    t.why = proving.why_not(test);
    if (t.why.empty()) {
      if (test == Test::loose_rail) choose_rail(choosing, t);
      if (t.is_pull) choose_pull(choosing, test, t);
      if (test == Test::top_sag) choose_top(choosing, t);
    }
    if (t.why.empty()) asked.push_back({test, t.force});
    all.push_back(std::move(t));
  }
  const std::vector<Proving::Moved> moved = proving.moves(asked, scales_at(prior.mean));
  const std::vector<Logs> slope = slopes(choosing, asked);
  for (std::size_t a = 0; a < asked.size(); ++a) {
    Trial& t = all[static_cast<std::size_t>(asked[a].test)];
    t.why = moved[a].why;
    if (t.why.empty()) foretell(choosing, prior, asked[a].test, slope[a], moved[a].by, t);
  }
  return all;
}

}  // namespace standtrue::decide
