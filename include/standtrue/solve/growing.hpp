#pragma once

#include <limits>

#include "standtrue/solve/solve.hpp"

/// A push that grows until the frame lets it go.
namespace standtrue::solve {

/// Factors of the push; infinite where it stays below the largest that was asked for.
struct LetsGo {
  /// The frame tips, its feet taken to grip as long as they press.
  double tips = std::numeric_limits<double>::infinity();
  double first_slips = std::numeric_limits<double>::infinity();  ///< one foot begins to slide
  double slides = std::numeric_limits<double>::infinity();       ///< friction can not hold any more
};

/// What to look for, and how far: `most` is the largest factor that is looked at.
struct Growing {
  model::CaseId push = 0;
  double sense = 1.0;
  double most = 0.0;
  bool tips = true, slides = true;
  /// Where they are thought to be, by statics: tried first, and told where they are that near.
  std::optional<double> tips_near = {}, slides_near = {};
};

/// The same answers that `respond` would give to a loading with that push (first order, the frame
/// as it is), found by halving: to a thousandth, and where all slide to a hundredth. Much quicker,
/// as nothing but the feet is looked at. Refused where the frame has no answer without the push.
[[nodiscard]] OrRefusal<LetsGo> lets_go(const Prepared& prepared, const Loading& rest,
                                        const Growing& growing);

}  // namespace standtrue::solve
