#pragma once

#include <boost/random/mersenne_twister.hpp>
#include <string>
#include <vector>

#include "standtrue/bench/bench.hpp"
#include "standtrue/model/idealise.hpp"

/// The benches that could be built from one file: its pieces of timber, its joints and the screws
/// of its sheets are as stiff as they come.
namespace standtrue::decide {

/// One bench of them, in deviations from the middle of each.
struct Drawn {
  std::vector<double> pieces;  ///< as Population::pieces
  double joints = 0.0, screws = 0.0;
};

/// ln of stiffness over the mean: normal, with the deviations of reference/timber.yaml.
///
/// E of one piece is drawn by itself (or, `alike`, as that of all others), with its density, which
/// goes with it (correlation of E and rho); joints and screws are alike over a bench, as its
/// builder and its brackets are, and are the stiffer the denser its timber, by rho^1.5.
/// Source (seen): JCSS Probabilistic Model Code, Part 3.5, E, rho and their correlation.
/// Source (second hand): EN 1995-1-1, Table 7.1, rho_m^1.5.
/// Source (ours): one draw of joints and one of screws for a bench.
class Population {
 public:
  Population(const bench::Bench& bench, const reference::Tables& tables);

  std::vector<std::string> pieces;                  ///< names of posts, rails, bearers and braces
  std::vector<double> deviations;                   ///< of ln E of each
  double joints = 0.0, screws = 0.0;                ///< deviations of their logarithms
  double middle_joints = 0.0, middle_screws = 0.0;  ///< their logarithms in the middle

  [[nodiscard]] Drawn middle() const;
  [[nodiscard]] Drawn draw(boost::random::mt19937_64& random, bool alike) const;
  [[nodiscard]] model::Scales scales(const Drawn& drawn) const;
  /// Of the deviations of pieces, joints and screws in this order; ln(1 + x) of a density taken as
  /// x, which is off by a hundredth of it.
  [[nodiscard]] std::vector<std::vector<double>> covariance(bool alike) const;

 private:
  double density_ = 0.0;      ///< coefficient of variation of rho
  double correlation_ = 0.0;  ///< of E and rho
};

}  // namespace standtrue::decide
