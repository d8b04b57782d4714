#include "decide/learn.hpp"

#include <algorithm>
#include <cmath>

#include "standtrue/contract.hpp"

namespace standtrue::decide {

namespace {

/// Of a positive definite matrix, by cofactors.
Spread inverse(const Spread& a) {
  const auto minor = [&a](std::size_t i, std::size_t j) {
    const std::size_t r = (i + 1) % 3, s = (i + 2) % 3, c = (j + 1) % 3, d = (j + 2) % 3;
    return a[r][c] * a[s][d] - a[r][d] * a[s][c];
  };
  const double det = a[0][0] * minor(0, 0) + a[0][1] * minor(0, 1) + a[0][2] * minor(0, 2);
  expects(det > 0.0, "learn: information is positive definite");
  Spread out{};
  for (std::size_t i = 0; i < 3; ++i) {
    for (std::size_t j = 0; j < 3; ++j) out[i][j] = minor(j, i) / det;
  }
  return out;
}

void add(Spread& information, const Logs& slope, double deviation) {
  for (std::size_t i = 0; i < 3; ++i) {
    for (std::size_t j = 0; j < 3; ++j) {
      information[i][j] += slope[i] * slope[j] / (deviation * deviation);
    }
  }
}

Spread information_of(const Prior& prior) {
  Spread information{};
  for (std::size_t i = 0; i < 3; ++i) {
    information[i][i] = 1.0 / (prior.deviation[i] * prior.deviation[i]);
  }
  return information;
}

/// Half of it is the negative logarithm of the probability.
double distance(const Prior& prior, const std::vector<Datum>& data, const Logs& at,
                const std::vector<double>& foretold) {
  double sum = 0.0;
  for (std::size_t i = 0; i < 3; ++i) {
    const double d = (at[i] - prior.mean[i]) / prior.deviation[i];
    sum += d * d;
  }
  for (std::size_t r = 0; r < data.size(); ++r) {
    const double d = (data[r].log_moved - foretold[r]) / data[r].shared_deviation();
    sum += d * d;
  }
  return sum;
}

std::optional<std::vector<Logs>> slopes_at(const Forecast& forecast, const Logs& at,
                                           const std::vector<double>& here) {
  constexpr double h = 0.02;
  std::vector<Logs> slopes(here.size());
  for (std::size_t i = 0; i < 3; ++i) {
    Logs beside = at;
    beside[i] += h;
    const auto there = forecast(beside);
    if (!there) return std::nullopt;
    for (std::size_t r = 0; r < here.size(); ++r) slopes[r][i] = ((*there)[r] - here[r]) / h;
  }
  return slopes;
}

Spread covariance_of(const Prior& prior, const std::vector<Datum>& data,
                     const std::vector<Logs>& slopes) {
  Spread information = information_of(prior);
  for (std::size_t r = 0; r < data.size(); ++r) {
    add(information, slopes[r], data[r].shared_deviation());
  }
  return inverse(information);
}

/// Gauss and Newton's step.
Logs step_of(const Prior& prior, const std::vector<Datum>& data, const Fit& fit) {
  Logs pull{};
  for (std::size_t i = 0; i < 3; ++i) {
    pull[i] = (prior.mean[i] - fit.mean[i]) / (prior.deviation[i] * prior.deviation[i]);
  }
  for (std::size_t r = 0; r < data.size(); ++r) {
    const double sigma = data[r].shared_deviation();
    const double off = (data[r].log_moved - fit.log_foretold[r]) / (sigma * sigma);
    for (std::size_t i = 0; i < 3; ++i) pull[i] += fit.slopes[r][i] * off;
  }
  Logs step{};
  for (std::size_t i = 0; i < 3; ++i) {
    for (std::size_t j = 0; j < 3; ++j) step[i] += fit.covariance[i][j] * pull[j];
  }
  return step;
}

/// The longest part of the step (a half of a half ...) that makes the readings more probable.
bool go(const Prior& prior, const std::vector<Datum>& data, const Forecast& forecast,
        const Logs& step, Fit& fit) {
  const double before = distance(prior, data, fit.mean, fit.log_foretold);
  for (double share = 1.0; share > 0.05; share *= 0.5) {
    Logs to = fit.mean;
    for (std::size_t i = 0; i < 3; ++i) to[i] += share * step[i];
    const auto foretold = forecast(to);
    if (!foretold || distance(prior, data, to, *foretold) > before) continue;
    fit.mean = to;
    fit.log_foretold = *foretold;
    return true;
  }
  return false;
}

}  // namespace

double Datum::deviation() const { return std::hypot(gauge_error, model_error); }

double Datum::shared_deviation() const {
  return std::hypot(gauge_error, std::sqrt(alike) * model_error);
}

double Fit::deviation(std::size_t i) const { return std::sqrt(covariance[i][i]); }

double Fit::correlation(std::size_t i, std::size_t j) const {
  return covariance[i][j] / (deviation(i) * deviation(j));
}

std::optional<Fit> learn(const Prior& prior, const std::vector<Datum>& data,
                         const Forecast& forecast) {
  constexpr int most_rounds = 8;
  constexpr double small = 0.02;  // of a deviation of the prior
  Fit fit;
  fit.mean = prior.mean;
  auto first = forecast(fit.mean);
  if (!first) return std::nullopt;
  fit.log_foretold = std::move(*first);
  for (int round = 0; round < most_rounds && !fit.settled; ++round) {
    const auto slopes = slopes_at(forecast, fit.mean, fit.log_foretold);
    if (!slopes) return std::nullopt;
    fit.slopes = *slopes;
    fit.covariance = covariance_of(prior, data, fit.slopes);
    const Logs step = step_of(prior, data, fit);
    double longest = 0.0;
    for (std::size_t i = 0; i < 3; ++i) {
      longest = std::max(longest, std::abs(step[i]) / prior.deviation[i]);
    }
    fit.settled = longest < small;
    if (!go(prior, data, forecast, step, fit)) break;
  }
  for (std::size_t r = 0; r < data.size(); ++r) {
    fit.misfit.push_back((data[r].log_moved - fit.log_foretold[r]) / data[r].deviation());
  }
  return fit;
}

Logs left_by(const Prior& prior, const Logs& slope, double deviation) {
  Spread information = information_of(prior);
  add(information, slope, deviation);
  const Spread covariance = inverse(information);
  return {std::sqrt(covariance[0][0]), std::sqrt(covariance[1][1]), std::sqrt(covariance[2][2])};
}

}  // namespace standtrue::decide
