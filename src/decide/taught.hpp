#pragma once

#include "decide/learning.hpp"
#include "decide/population.hpp"

/// Benches drawn by what the readings of this one say.
namespace standtrue::decide {

/// One reading as a straight line in the deviations d of a bench, y = h d + e.
struct Line {
  std::vector<double> slopes;  ///< h, in the order of Population::covariance
  double read = 0.0;           ///< y: ln of what was read, less what the line has in the middle
  double deviation = 0.0;      ///< of e, normal, as `prove` has it
};

/// The readings as lines, touching ln of what is foretold where `learned` finds the best fit: all
/// pieces alike there, but each with a slope of its own. Nothing where the bench has no answer
/// beside it, or the work is stopped.
[[nodiscard]] std::optional<std::vector<Line>> lines_of(const Learned& learned,
                                                        const Proving& proving,
                                                        const Population& population,
                                                        const Work& work);

/// Bayes' rule, one line after the other, for a bench d that was drawn from its population:
///     d <- d + K (y - e - h d),  K = P h/(h P h + sigma²),  P <- P - K (P h)^T
/// P: covariance of the population, and then of what the lines before have left open. With e drawn
/// too, d comes as often as the readings let it: exactly so where all is normal and straight.
/// Source (from memory): Journel & Huijbregts, Mining Geostatistics, 1978, conditional simulation.
class Taught {
 public:
  Taught(const Population& population, std::vector<Line> lines);

  /// `alike`: as it was drawn. `errors` draws e.
  void tell(Drawn& drawn, boost::random::mt19937_64& errors, bool alike) const;

 private:
  std::vector<Line> lines_;
  std::array<std::vector<std::vector<double>>, 2> gains_;  ///< K of each line; of those alike last
};

}  // namespace standtrue::decide
