#include "decide/population.hpp"

#include <array>
#include <boost/random/normal_distribution.hpp>
#include <cmath>

#include "decide/trials.hpp"
#include "standtrue/model/scatter.hpp"

namespace standtrue::decide {

namespace {

constexpr double power = 1.5;  // of slip with density

}  // namespace

Population::Population(const bench::Bench& bench, const reference::Tables& tables) {
  const auto add = [&](const auto& parts) {
    for (const auto& part : parts) {
      if constexpr (requires { part.foot; }) {
        if (part.on_wall) continue;  // a place on the ledger, which is a rail
      }
      pieces.push_back(part.name);
      deviations.push_back(model::log_deviation(model::scatter_of_E(part.stock, tables)));
    }
  };
  add(bench.posts);
  add(bench.rails);
  add(bench.bearers);
  add(bench.braces);
  const Prior prior = usual(bench, tables);
  joints = prior.deviation[1];
  screws = prior.deviation[2];
  middle_joints = prior.mean[1];
  middle_screws = prior.mean[2];
  density_ = tables.scatter("rho").cov;
  correlation_ = tables.correlation("E, rho").rho;
}

Drawn Population::middle() const { return {std::vector<double>(pieces.size(), 0.0), 0.0, 0.0}; }

Drawn Population::draw(boost::random::mt19937_64& random, bool alike) const {
  boost::random::normal_distribution<double> normal;
  Drawn drawn = middle();
  double denser = 0.0;  // ln of density over its mean, of all pieces in the mean
  double E = normal(random), rho = normal(random);
  const double apart = std::sqrt(1.0 - correlation_ * correlation_);
  for (double& piece : drawn.pieces) {
    piece = E;
    denser += std::log1p(density_ * (correlation_ * E + apart * rho));
    if (alike) continue;
    E = normal(random);
    rho = normal(random);
  }
  const double stiffer =
      power * denser / static_cast<double>(std::max<std::size_t>(1, pieces.size()));
  drawn.joints = normal(random) + stiffer / joints;
  drawn.screws = normal(random) + stiffer / screws;
  return drawn;
}

model::Scales Population::scales(const Drawn& drawn) const {
  model::Scales scales;
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    const double s = deviations[i];
    scales.pieces[pieces[i]] = std::exp(s * drawn.pieces[i] - 0.5 * s * s);
  }
  scales.joints = std::exp(middle_joints + joints * drawn.joints);
  scales.screws = std::exp(middle_screws + screws * drawn.screws);
  return scales;
}

std::vector<std::vector<double>> Population::covariance(bool alike) const {
  const std::size_t n = pieces.size();
  std::vector<std::vector<double>> P(n + 2, std::vector<double>(n + 2, 0.0));
  // The mean of n densities scatters less than one, and goes less with the E of one piece.
  const double share = alike || n == 0 ? 1.0 : 1.0 / static_cast<double>(n);
  const std::array<double, 2> by_density = {power * density_ / joints, power * density_ / screws};
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t k = 0; k < n; ++k) P[i][k] = alike || i == k ? 1.0 : 0.0;
    for (const std::size_t a : {0U, 1U}) {
      P[i][n + a] = P[n + a][i] = share * correlation_ * by_density[a];
    }
  }
  for (const std::size_t a : {0U, 1U}) {
    for (const std::size_t b : {0U, 1U}) {
      const double shared = n == 0 ? 0.0 : share * by_density[a] * by_density[b];
      P[n + a][n + b] = (a == b ? 1.0 : 0.0) + shared;
    }
  }
  return P;
}

}  // namespace standtrue::decide
