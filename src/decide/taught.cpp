#include "decide/taught.hpp"

#include <boost/random/normal_distribution.hpp>
#include <cmath>
#include <utility>

#include "decide/least_turning.hpp"

namespace standtrue::decide {

namespace {

/// Deviations in the order of Population::covariance.
using Column = std::vector<double>;

Column column_of(const Drawn& drawn) {
  Column d = drawn.pieces;
  d.push_back(drawn.joints);
  d.push_back(drawn.screws);
  return d;
}

Drawn drawn_of(const Column& d) { return {{d.begin(), d.end() - 2}, d[d.size() - 2], d.back()}; }

std::vector<Column> gains_of(std::vector<Column> P, const std::vector<Line>& lines) {
  std::vector<Column> gains;
  for (const Line& line : lines) {
    Column Ph;
    for (const Column& row : P) Ph.push_back(dot(row, line.slopes));
    const double variance = dot(line.slopes, Ph) + line.deviation * line.deviation;
    Column K = Ph;
    for (double& k : K) k /= variance;
    for (std::size_t i = 0; i < P.size(); ++i) {
      for (std::size_t j = 0; j < P.size(); ++j) P[i][j] -= K[i] * Ph[j];
    }
    gains.push_back(std::move(K));
  }
  return gains;
}

/// All pieces as the fit has their timber.
Column best_of(const Fit& fit, const Population& population) {
  Column best;
  for (const double s : population.deviations) best.push_back(fit.mean[0] / s + 0.5 * s);
  best.push_back((fit.mean[1] - population.middle_joints) / population.joints);
  best.push_back((fit.mean[2] - population.middle_screws) / population.screws);
  return best;
}

/// Readings of benches of a population, as `learn` forecasts them.
class Foreteller {
 public:
  Foreteller(const Learned& learned, const Proving& proving, const Population& population,
             const Work& work)
      : learned_(learned), proving_(proving), population_(population), work_(work) {}

  /// ln of each; nothing where the bench has no answer, or the work is stopped.
  [[nodiscard]] std::optional<Column> at(const Column& d) {
    if (!work_.keep_going(++solved_, d.size() + 2)) return std::nullopt;
    Column logs;
    for (const Proving::Moved& moved :
         proving_.moves(learned_.asked, population_.scales(drawn_of(d)))) {
      if (!moved.why.empty()) return std::nullopt;
      logs.push_back(std::log(moved.by));
    }
    return logs;
  }

 private:
  const Learned& learned_;
  const Proving& proving_;
  const Population& population_;
  const Work& work_;
  std::size_t solved_ = 0;
};

}  // namespace

std::optional<std::vector<Line>> lines_of(const Learned& learned, const Proving& proving,
                                          const Population& population, const Work& work) {
  Foreteller foreteller(learned, proving, population, work);
  const Column best = best_of(*learned.fit, population);
  const auto here = foreteller.at(best);
  if (!here) return std::nullopt;
  std::vector<Line> lines(here->size());
  Column spread = population.deviations;
  spread.push_back(population.joints);
  spread.push_back(population.screws);
  for (std::size_t i = 0; i < best.size(); ++i) {
    const double h = 0.02 / spread[i];  // forwards by as much as in `learn`
    Column beside = best;
    beside[i] += h;
    const auto there = foreteller.at(beside);
    if (!there) return std::nullopt;
    for (std::size_t r = 0; r < lines.size(); ++r) {
      lines[r].slopes.push_back(((*there)[r] - (*here)[r]) / h);
    }
  }
  for (std::size_t r = 0; r < lines.size(); ++r) {
    lines[r].read = learned.data[r].log_moved - (*here)[r] + dot(lines[r].slopes, best);
    lines[r].deviation = learned.data[r].shared_deviation();
  }
  return work.keep_going(1, 1) ? std::optional(lines) : std::nullopt;
}

Taught::Taught(const Population& population, std::vector<Line> lines) : lines_(std::move(lines)) {
  for (const bool alike : {false, true}) {
    gains_[alike ? 1 : 0] = gains_of(population.covariance(alike), lines_);
  }
}

void Taught::tell(Drawn& drawn, boost::random::mt19937_64& errors, bool alike) const {
  boost::random::normal_distribution<double> normal;
  const std::vector<Column>& gains = gains_[alike ? 1 : 0];
  Column d = column_of(drawn);
  for (std::size_t r = 0; r < lines_.size(); ++r) {
    const Line& line = lines_[r];
    const double off = line.read - line.deviation * normal(errors) - dot(line.slopes, d);
    for (std::size_t i = 0; i < d.size(); ++i) d[i] += gains[r][i] * off;
  }
  drawn = drawn_of(d);
}

}  // namespace standtrue::decide
