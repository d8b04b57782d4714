#include "decide/learn.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <random>

#include "decide/trials.hpp"
#include "tests/bench/bench_files.hpp"

namespace learn_test {

using namespace standtrue;
using bench_files::tables;
using decide::Datum;
using decide::Fit;
using decide::Logs;
using decide::Prior;
using doctest::Approx;

namespace {

Datum datum(double log_moved, double error) { return {log_moved, 0.0, error, 1.0}; }

/// The same numbers from every library.
class Normal {
 public:
  explicit Normal(unsigned seed) : bits_(seed) {}
  double operator()() {
    const double u = (static_cast<double>(bits_()) + 1.0) / 4294967297.0;
    const double v = (static_cast<double>(bits_()) + 1.0) / 4294967297.0;
    return std::sqrt(-2.0 * std::log(u)) * std::cos(2.0 * 3.14159265358979 * v);  // Box & Muller
  }

 private:
  std::mt19937 bits_;
};

/// A rail, and two pulls at a bench that gives in timber, joints and screws one after the other.
std::vector<double> little_bench(const decide::LooseRail& rail, const Logs& at) {
  const double t = std::exp(-at[0]), j = std::exp(-at[1]), s = std::exp(-at[2]);
  return {std::log(rail.sag(200.0, 1.0 / t)), std::log(1e-3 * (0.3 * t + 0.7 * j)),
          std::log(1e-4 * (0.2 * t + 0.3 * j + 0.5 * s))};
}

decide::LooseRail some_rail() {
  decide::LooseRail rail;
  rail.span = 1.6;
  rail.width = 0.045;
  rail.depth = 0.095;
  rail.timber = *tables().timber("C24");
  return rail;
}

}  // namespace

TEST_CASE("decide/learn: one straight reading is weighed against the prior by hand (Bayes)") {
  // y = -2 x: C = 1/(1/s² + 4/e²), mean = C (m/s² - 2 y/e²); what it does not touch stays.
  const Prior prior{{0.1, 0.2, 0.3}, {0.5, 0.4, 0.6}};
  const double y = 0.7, e = 0.1;
  const auto fit = decide::learn(prior, {datum(y, e)}, [](const Logs& at) {
    return std::optional(std::vector<double>{-2.0 * at[1]});
  });
  REQUIRE(fit);
  const double C = 1.0 / (1.0 / 0.16 + 4.0 / 0.01);
  CHECK(fit->settled);
  CHECK(fit->mean[1] == Approx(C * (0.2 / 0.16 - 2.0 * y / 0.01)).epsilon(1e-9));
  CHECK(fit->deviation(1) == Approx(std::sqrt(C)).epsilon(1e-9));
  CHECK(fit->mean[0] == Approx(0.1));
  CHECK(fit->deviation(2) == Approx(0.6));
  CHECK(fit->correlation(0, 1) == Approx(0.0));
  CHECK(decide::left_by(prior, {0.0, -2.0, 0.0}, e)[1] == Approx(std::sqrt(C)).epsilon(1e-12));
}

TEST_CASE("decide/learn: what only adds up in the readings is not told apart") {
  const Prior prior{{}, {1.0, 1.0, 1.0}};
  const auto fit = decide::learn(prior, {datum(0.5, 0.01), datum(0.5, 0.01)}, [](const Logs& at) {
    return std::optional(std::vector<double>{at[0] + at[1], at[0] + at[1]});
  });
  REQUIRE(fit);
  CHECK(fit->correlation(0, 1) < -0.99);
  CHECK(fit->deviation(0) > 0.7);  // by hand: 1/sqrt 2 where the sum is known exactly
}

TEST_CASE("decide/learn: three like readings share one error of the model") {
  const Prior prior{{}, {1.0, 1.0, 1.0}};
  const auto read = [](const Logs& at) {
    return std::optional(std::vector<double>{at[0], at[0], at[0]});
  };
  Datum d{0.4, 0.0, 0.1, 3.0};
  const auto three = decide::learn(prior, {d, d, d}, read);
  const auto one = decide::learn(prior, {datum(0.4, 0.1)}, [](const Logs& at) {
    return std::optional(std::vector<double>{at[0]});
  });
  REQUIRE(three);
  REQUIRE(one);
  CHECK(three->deviation(0) == Approx(one->deviation(0)).epsilon(1e-9));
}

TEST_CASE("decide/learn: nine of ten draws lie in the range of nine in ten (200 draws)") {
  const decide::LooseRail rail = some_rail();
  const Prior prior = {{-0.01, 0.0, -0.05}, {0.13, 0.67, 0.34}};
  const double error = 0.1;
  Normal normal(20);
  std::array<int, 3> within{};
  constexpr int draws = 200;
  for (int draw = 0; draw < draws; ++draw) {
    Logs truth{};
    for (std::size_t i = 0; i < 3; ++i) truth[i] = prior.mean[i] + prior.deviation[i] * normal();
    std::vector<Datum> data;
    for (const double y : little_bench(rail, truth)) {
      data.push_back(datum(y + error * normal(), error));
    }
    const auto fit = decide::learn(prior, data, [&](const Logs& at) {
      return std::optional<std::vector<double>>(little_bench(rail, at));
    });
    REQUIRE(fit);
    for (std::size_t i = 0; i < 3; ++i) {
      if (std::abs(truth[i] - fit->mean[i]) < decide::nineteen_in_twenty * fit->deviation(i)) {
        ++within[i];
      }
    }
  }
  // 180 expected; the deviation of such a count is sqrt(200 x 0.9 x 0.1) = 4.2.
  for (const int n : within) {
    CHECK(n >= 170);
    CHECK(n <= 190);
  }
}

}  // namespace learn_test
