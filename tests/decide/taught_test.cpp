#include "decide/taught.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "standtrue/decide/odds.hpp"
#include "tests/bench/bench_files.hpp"

namespace taught_test {

using namespace standtrue;
using bench::Test;
using bench_files::tables;
using decide::Drawn;
using decide::Line;
using decide::Odds;
using decide::Population;
using decide::Taught;
using doctest::Approx;

namespace {

/// Phi, the normal distribution.
double share_below(double z) { return 0.5 * std::erfc(-z / std::sqrt(2.0)); }

double mean_of_all(const std::vector<double>& all) {
  double sum = 0.0;
  for (const double x : all) sum += x;
  return sum / static_cast<double>(all.size());
}

/// Pinned rails between braced posts, as in the test of the odds: the sag of the front one goes
/// with its own E, and a hundredth of it with what gives in the joints.
const std::string pinned_file =
    "standtrue: 1\nsize: 1880 x 590 x 860 mm\ntimber: C24 45 x 95 mm\njoints: pinned\n"
    "rails: {lower: none}\nbraces: [{side: back}, {side: front}, {side: left}, {side: right}]\n"
    "top: {sheet: 18 mm spruce plywood, load: 560 kg/m2}\nanalysis: {sheets: none}\n";

const std::string swaying_file =
    "standtrue: 1\nsize: 1200 x 600 x 860 mm\ntimber: C24 45 x 95 mm\njoints: bolts\n"
    "top: 18 mm spruce plywood\nanalysis: {sheets: none}\nduty: light\n";

bench::Reading read(Test test, double force, double moves, double gauge) {
  return {test, quantity::newtons(force), quantity::metres(moves), quantity::metres(gauge)};
}

/// Of a loose rail that sags `more` times what it would with E in the mean.
bench::Reading loose_rail(const bench::Bench& bench, double more, double gauge = 1e-5) {
  const decide::Proving proving(bench, tables());
  return read(Test::loose_rail, 200.0, more * proving.rail()->sag(200.0), gauge);
}

Odds odds(const bench::Bench& bench, const std::vector<bench::Reading>& readings,
          std::size_t drawn = 10000) {
  return decide::odds(bench, readings, tables(), decide::Work::plain(), drawn);
}

const decide::Failing& of_sag(const Odds& found, const std::string& rail) {
  for (const decide::Failing& f : found.failing) {
    if (f.finding.id == "sag/" + rail) return f;
  }
  throw std::runtime_error("no bench fails in sag/" + rail);
}

bool says(const Odds& found, const std::string& words) {
  return std::any_of(
      found.readings->notes.begin(), found.readings->notes.end(),
      [&](const std::string& note) { return note.find(words) != std::string::npos; });
}

bool is_same(const decide::Outcomes& a, const decide::Outcomes& b) {
  return a.stand.count == b.stand.count && a.carry_but.count == b.carry_but.count &&
         a.do_not_load.count == b.do_not_load.count;
}

/// Mean, deviation and correlation of two numbers, each counted with a weight.
struct Moments {
  double all = 0.0, squares = 0.0;  ///< of the weights
  double x = 0.0, y = 0.0, xx = 0.0, yy = 0.0, xy = 0.0;

  void add(double a, double b, double weight) {
    all += weight;
    squares += weight * weight;
    x += weight * a;
    y += weight * b;
    xx += weight * a * a;
    yy += weight * b * b;
    xy += weight * a * b;
  }
  [[nodiscard]] double mean_x() const { return x / all; }
  [[nodiscard]] double mean_y() const { return y / all; }
  [[nodiscard]] double deviation_x() const { return std::sqrt(xx / all - std::pow(x / all, 2)); }
  [[nodiscard]] double deviation_y() const { return std::sqrt(yy / all - std::pow(y / all, 2)); }
  [[nodiscard]] double correlation() const {
    return (xy / all - x / all * y / all) / (deviation_x() * deviation_y());
  }
  /// How many of weight one say as much.
  [[nodiscard]] double worth() const { return all * all / squares; }
};

}  // namespace

TEST_CASE("decide/population: the covariance is that of many drawn (Monte Carlo)") {
  const Population all(bench_files::sound(bench_files::small_bench("")), tables());
  const std::size_t n = all.pieces.size();
  for (const bool alike : {false, true}) {
    boost::random::mt19937_64 random(3);
    Moments two_pieces, piece_joints, joints_screws;
    constexpr std::size_t many = 20000;
    for (std::size_t k = 0; k < many; ++k) {
      const Drawn d = all.draw(random, alike);
      two_pieces.add(d.pieces[0], d.pieces[1], 1.0);
      piece_joints.add(d.pieces[0], d.joints, 1.0);
      joints_screws.add(d.joints, d.screws, 1.0);
    }
    const auto P = all.covariance(alike);
    const auto correlation = [&](std::size_t i, std::size_t k) {
      return P[i][k] / std::sqrt(P[i][i] * P[k][k]);
    };
    const double far = 5.0 / std::sqrt(static_cast<double>(many));
    CHECK(std::abs(two_pieces.correlation() - correlation(0, 1)) < far);
    CHECK(std::abs(piece_joints.correlation() - correlation(0, n)) < far);
    CHECK(std::abs(joints_screws.correlation() - correlation(n, n + 1)) < far);
    CHECK(std::abs(joints_screws.deviation_x() / std::sqrt(P[n][n]) - 1.0) < far);
    CHECK(std::abs(joints_screws.deviation_y() / std::sqrt(P[n + 1][n + 1]) - 1.0) < far);
  }
}

TEST_CASE("decide/taught: straight readings are weighed against a bench by hand (Bayes)") {
  const Population all(bench_files::sound(bench_files::small_bench("")), tables());
  const std::size_t n = all.pieces.size();
  REQUIRE(n > 2);
  // y = -0.5 u_0 + e, y = 0.8 u_0 + e and y = -2 x + e. By themselves piece and joints hang
  // together by density alone, a hundredth, which is left aside here: C = 1/(1 + sum h²/sigma²),
  // mean = C sum h y/sigma².
  std::vector<Line> lines(3, {std::vector<double>(n + 2, 0.0), 0.0, 0.0});
  lines[0].slopes[0] = -0.5;
  lines[0].read = 0.6;
  lines[0].deviation = 0.4;
  lines[1].slopes[n] = -2.0;
  lines[1].read = -1.4;
  lines[1].deviation = 1.5;
  lines[2].slopes[0] = 0.8;
  lines[2].read = -0.5;
  lines[2].deviation = 0.5;
  const Taught taught(all, lines);
  const double C_u = 1.0 / (1.0 + 0.25 / 0.16 + 0.64 / 0.25), C_x = 1.0 / (1.0 + 4.0 / 2.25);
  boost::random::mt19937_64 random(5), errors(6);
  Moments told, others;
  constexpr std::size_t many = 20000;
  for (std::size_t k = 0; k < many; ++k) {
    Drawn d = all.draw(random, false);
    taught.tell(d, errors, false);
    told.add(d.pieces[0], d.joints, 1.0);
    others.add(d.pieces[1], d.screws, 1.0);
  }
  const double far = 5.0 / std::sqrt(static_cast<double>(many));
  constexpr double by_density = 0.01;
  CHECK(std::abs(told.mean_x() - C_u * (-0.5 * 0.6 / 0.16 - 0.8 * 0.5 / 0.25)) < far + by_density);
  CHECK(std::abs(told.mean_y() - C_x * -2.0 * -1.4 / 2.25) < far + by_density);
  CHECK(std::abs(told.deviation_x() / std::sqrt(C_u) - 1.0) < far / std::sqrt(2.0) + by_density);
  CHECK(std::abs(told.deviation_y() / std::sqrt(C_x) - 1.0) < far / std::sqrt(2.0) + by_density);
  CHECK(std::abs(others.mean_x()) < far + by_density);
  CHECK(others.deviation_x() == Approx(1.0).epsilon(far));
}

TEST_CASE("decide/taught: of pieces that are alike a reading of one speaks for all") {
  const Population all(bench_files::sound(bench_files::small_bench("")), tables());
  Line line{std::vector<double>(all.pieces.size() + 2, 0.0), 1.5, 0.2};
  line.slopes[0] = 1.0;
  const Taught taught(all, {line});
  boost::random::mt19937_64 random(5), errors(6);
  Drawn d = all.draw(random, true);
  taught.tell(d, errors, true);
  for (const double piece : d.pieces) CHECK(piece == Approx(d.pieces[0]).epsilon(1e-9));
  CHECK(d.pieces[0] == Approx(1.5).epsilon(0.5));
  // A reading that tells nothing moves nothing.
  line.deviation = 1e6;
  const Drawn before = all.draw(random, false);
  Drawn after = before;
  Taught(all, {line}).tell(after, errors, false);
  for (std::size_t i = 0; i < after.pieces.size(); ++i) {
    CHECK(std::abs(after.pieces[i] - before.pieces[i]) < 1e-5);
  }
  CHECK(std::abs(after.joints - before.joints) < 1e-5);
}

TEST_CASE(
    "decide/taught: benches come as often as Bayes' rule weighs them, solved each by itself") {
  // Readings of a bench with joints of 0.6. Each bench of the population is weighed by how likely
  // it would have been read so: no straight lines, no fit.
  const bench::Bench bench = bench_files::sound(swaying_file);
  const decide::Proving proving(bench, tables());
  const Population all(bench, tables());
  std::vector<bench::Reading> readings;
  const std::vector<decide::Proving::Asked> asked = {{Test::loose_rail, 200.0},
                                                     {Test::finished_along, 20.0}};
  const auto moved = proving.moves(asked, {0.9, 0.6, 1.0});
  for (std::size_t r = 0; r < asked.size(); ++r) {
    readings.push_back(read(asked[r].test, asked[r].force, moved[r].by, 1e-5));
  }
  const decide::Learned learned =
      decide::learned_from(readings, proving, bench, tables(), decide::Work::plain());
  REQUIRE(learned.is_clear());
  const auto lines = decide::lines_of(learned, proving, all, decide::Work::plain());
  REQUIRE(lines);
  const Taught taught(all, *lines);
  for (const bool alike : {false, true}) {
    CAPTURE(alike);
    boost::random::mt19937_64 random(11), errors(12);
    Moments weighed, told;
    constexpr int many = 1500;
    for (int k = 0; k < many; ++k) {
      const Drawn d = all.draw(random, alike);
      double off = 0.0;
      const auto would = proving.moves(asked, all.scales(d));
      for (std::size_t r = 0; r < would.size(); ++r) {
        off += std::pow((learned.data[r].log_moved - std::log(would[r].by)) /
                            learned.data[r].shared_deviation(),
                        2);
      }
      weighed.add(mean_of_all(d.pieces), d.joints, std::exp(-0.5 * off));
    }
    for (int k = 0; k < 20000; ++k) {
      Drawn d = all.draw(random, alike);
      taught.tell(d, errors, alike);
      told.add(mean_of_all(d.pieces), d.joints, 1.0);
    }
    const double far = 5.0 / std::sqrt(weighed.worth());
    CAPTURE(weighed.worth());
    CHECK(weighed.worth() > 50.0);
    CHECK(std::abs(told.mean_x() - weighed.mean_x()) < far * weighed.deviation_x());
    CHECK(std::abs(told.mean_y() - weighed.mean_y()) < far * weighed.deviation_y());
    CHECK(std::abs(told.deviation_x() / weighed.deviation_x() - 1.0) < far / std::sqrt(2.0));
    CHECK(std::abs(told.deviation_y() / weighed.deviation_y() - 1.0) < far / std::sqrt(2.0));
    CHECK(std::abs(told.correlation() - weighed.correlation()) < far);
  }
}

TEST_CASE("decide/odds: a rail that was read sags too much with Phi((ln r - m)/sqrt C) (Bayes)") {
  // ln E of the rail: before N(-s²/2, s²), s² = ln(1 + 0.13²) (JCSS); read with an error of a
  // tenth, and of a gauge of 0.01 mm that is spread evenly between two marks.
  const bench::Bench bench = bench_files::sound(pinned_file);
  constexpr double more = 1.08;
  const bench::Reading reading = loose_rail(bench, more);
  const Odds found = odds(bench, {reading});
  REQUIRE(found.of_this_bench());
  CHECK(found.readings->taught == std::vector<std::string>{"timber"});
  const double s2 = std::log(1.0 + 0.13 * 0.13);
  const double gauge = 1e-5 / std::sqrt(12.0) / quantity::in_si(reading.moves);
  const double e2 = 0.1 * 0.1 + gauge * gauge;
  const double C = 1.0 / (1.0 / s2 + 1.0 / e2);
  const double m = C * (-0.5 * s2 / s2 - std::log(more) / e2);
  const decide::Failing& front = of_sag(found, "front-top-rail");
  const double p = share_below((std::log(front.finding.ratio) - m) / std::sqrt(C));
  CAPTURE(front.finding.ratio);
  CAPTURE(p);
  const auto share = [&](const decide::Failing& f) {
    return static_cast<double>(f.share.count) / static_cast<double>(found.drawn);
  };
  // Five deviations of a count: one run in a million strays further.
  const double far = 5.0 * std::sqrt(p * (1.0 - p) / static_cast<double>(found.drawn));
  CHECK(p > 0.6);
  CHECK(p < 0.95);
  CHECK(std::abs(share(front) - p) < far);
  // Nobody has read the rail at the back.
  const double back = share_below(
      (std::log(of_sag(found, "back-top-rail").finding.ratio) + 0.5 * s2) / std::sqrt(s2));
  CHECK(std::abs(share(of_sag(found, "back-top-rail")) - back) < far);
}

TEST_CASE("decide/odds: without readings as many as before there were any") {
  // Counted by the version before this; another rounding may move one or two over the limit.
  const Odds found = odds(bench_files::sound(pinned_file), {});
  CHECK_FALSE(found.readings);
  CHECK_FALSE(found.of_this_bench());
  const auto near = [](std::size_t count, double before) {
    return std::abs(static_cast<double>(count) - before) < 3.0;
  };
  CHECK(near(of_sag(found, "front-top-rail").share.count, 4941));
  CHECK(near(of_sag(found, "back-top-rail").share.count, 4966));
  CHECK(found.outcomes.do_not_load.count == 10000);
}

TEST_CASE("decide/odds: what tells nothing, contradicts or fits no bench is not used, and said") {
  const bench::Bench bench = bench_files::sound(pinned_file);
  constexpr std::size_t drawn = 2000;
  const Odds without = odds(bench, {}, drawn);
  const auto is_as_without = [&](const Odds& found) {
    CHECK(is_same(found.outcomes, without.outcomes));
    CHECK(is_same(found.alike, without.alike));
    CHECK(found.fit.typical == without.fit.typical);
    const decide::Share share = of_sag(without, "front-top-rail").share;
    CHECK(of_sag(found, "front-top-rail").share.count == share.count);
    CHECK_FALSE(found.of_this_bench());
  };
  const bench::Reading rail = loose_rail(bench, 1.0);
  const double sag = quantity::in_si(rail.moves);
  const Odds coarse = odds(bench, {read(Test::loose_rail, 200.0, sag, 4.0 * sag)}, drawn);
  is_as_without(coarse);
  CHECK(coarse.readings->agree);
  CHECK(coarse.readings->taught.empty());
  CHECK(says(coarse, "'loose rail' teaches nothing"));
  const Odds torn = odds(bench,
                         {read(Test::loose_rail, 200.0, 2.0 * sag, 1e-5),
                          read(Test::loose_rail, 200.0, 0.5 * sag, 1e-5)},
                         drawn);
  is_as_without(torn);
  CHECK_FALSE(torn.readings->agree);
  CHECK(says(torn, "does not agree with the rest"));
  const Odds elsewhere = odds(bench, {rail, read(Test::top_sag, 200.0, 1e-3, 1e-5)}, drawn);
  is_as_without(elsewhere);
  CHECK_FALSE(elsewhere.readings->agree);
  CHECK(says(elsewhere, "'top sag' can not be used"));
}

TEST_CASE("decide/odds: a reading that hardly tells leaves the odds where they were") {
  // A gauge so coarse that a little more than a twentieth is learned, and the middle was read.
  const bench::Bench bench = bench_files::sound(pinned_file);
  const double s = std::sqrt(std::log(1.0 + 0.13 * 0.13));
  const double middle = std::exp(0.5 * s * s);
  const double sag = middle * quantity::in_si(loose_rail(bench, 1.0).moves);
  const Odds without = odds(bench, {});
  const Odds with = odds(bench, {read(Test::loose_rail, 200.0, sag, 1.2 * sag)});
  REQUIRE(with.of_this_bench());
  const decide::Share before = of_sag(without, "front-top-rail").share;
  const double now = static_cast<double>(of_sag(with, "front-top-rail").share.count) / 10000.0;
  CHECK(now > before.low);
  CHECK(now < before.high);
}

TEST_CASE("decide/odds: with readings too the same by one thread and in any order") {
  const bench::Bench bench = bench_files::sound(pinned_file);
  const std::vector<bench::Reading> readings = {loose_rail(bench, 1.05)};
  decide::Work backwards = decide::Work::plain();
  backwards.for_each = [](std::size_t n, const std::function<void(std::size_t)>& f) {
    for (std::size_t k = n; k > 0; --k) f(k - 1);
  };
  const Odds a = odds(bench, readings, 2000);
  const Odds b = decide::odds(bench, readings, tables(), backwards, 2000);
  CHECK(is_same(a.outcomes, b.outcomes));
  CHECK(a.fit.typical == b.fit.typical);
  REQUIRE(a.failing.size() == b.failing.size());
  for (std::size_t i = 0; i < a.failing.size(); ++i) {
    CHECK(a.failing[i].ratio_median == b.failing[i].ratio_median);
  }
  decide::Work work = decide::Work::plain();
  work.keep_going = [](std::size_t, std::size_t) { return false; };
  CHECK_FALSE(decide::odds(bench, readings, tables(), work).complete);
}

}  // namespace taught_test
