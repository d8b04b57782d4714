#pragma once

#include <array>
#include <functional>
#include <optional>
#include <vector>

/// What readings tell of a few numbers that are not known: Bayes' rule with normal distributions.
namespace standtrue::decide {

/// ln of how many times stiffer than the mean: timber, joints, screws.
using Logs = std::array<double, 3>;
using Spread = std::array<Logs, 3>;

/// One reading y = ln f(theta) + e: e is normal; its parts are what the gauge leaves open and what
/// the model does. Readings of one test share the model's part: `alike` is how many there are.
struct Datum {
  double log_moved = 0.0;
  double gauge_error = 0.0;  ///< relative
  double model_error = 0.0;  ///< relative
  double alike = 1.0;

  /// Of this reading by itself, and as one among those that share the model's part.
  [[nodiscard]] double deviation() const;
  [[nodiscard]] double shared_deviation() const;
};

struct Prior {
  Logs mean{};
  Logs deviation{1.0, 1.0, 1.0};
};

/// ln f of every reading at these logarithms; nothing where the bench has no answer.
using Forecast = std::function<std::optional<std::vector<double>>(const Logs&)>;

struct Fit {
  Logs mean{};
  Spread covariance{};
  std::vector<double> log_foretold;  ///< at the mean
  std::vector<Logs> slopes;          ///< of ln f there
  std::vector<double> misfit;        ///< (y - ln f)/deviation
  bool settled = false;

  [[nodiscard]] double deviation(std::size_t i) const;
  [[nodiscard]] double correlation(std::size_t i, std::size_t j) const;
};

/// The most probable theta by Gauss and Newton with halved steps, slopes by forward differences;
/// the covariance is that of the problem made straight there (Laplace):
///     C^-1 = S^-1 + sum g g^T/sigma²
/// Source (from memory): Beck & Katafygiotis 1998, updating models by asymptotic approximation.
[[nodiscard]] std::optional<Fit> learn(const Prior& prior, const std::vector<Datum>& data,
                                       const Forecast& forecast);

/// Deviations that are left when one reading alone, with this slope, is added to the prior.
[[nodiscard]] Logs left_by(const Prior& prior, const Logs& slope, double deviation);

}  // namespace standtrue::decide
