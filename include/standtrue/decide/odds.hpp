#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "standtrue/bench/readings.hpp"
#include "standtrue/decide/assess.hpp"

/// How many of the benches that could be built from one file would pass; with readings of one that
/// is built, with what chance this one does.
namespace standtrue::decide {

/// Of all benches drawn, with bounds that hold with 95 % (Clopper and Pearson), widened by what the
/// fit may be off.
struct Share {
  std::size_t count = 0;
  double low = 0.0, high = 0.0;
};

/// How the benches come out. Strengths stay those of design: their scatter is in the partial
/// factors of the rules.
struct Outcomes {
  Share stand, carry_but, do_not_load;
};

/// A check that some benches fail.
struct Failing {
  check::Finding finding;  ///< of mean stiffness
  Share share;
  double ratio_low = 0.0, ratio_median = 0.0, ratio_high = 0.0;  ///< 5, 50 and 95 % of benches
};

/// What the answer is made of: ratios as surfaces through `solved` benches, held against `held`
/// others that were drawn and solved in full.
struct Fitted {
  std::size_t solved = 0, held = 0;
  double typical = 0.0;  ///< root of the mean square of relative errors, checks that matter
  double worst = 0.0;    ///< the largest
  std::size_t other_verdict = 0;  ///< of those held against, how many came out otherwise
};

/// What became of the readings of the file.
struct ByReadings {
  /// Benches are drawn by what they say: each is one that this bench may be. Else they are drawn as
  /// without readings.
  bool used = false;
  bool agree = false;               ///< with each other, with the bench, and with what is usual
  std::vector<std::string> taught;  ///< of "timber", "joints", "screws": by more than a twentieth
  std::vector<std::string> notes;   ///< what is doubtful in them, and what they leave open
};

struct Odds {
  std::string why_none;  ///< why there is no answer
  std::size_t drawn = 0;
  std::uint64_t seed = 0;
  Outcomes outcomes;
  Outcomes alike;                ///< were all pieces of timber of one bench as stiff as each other
  std::vector<Failing> failing;  ///< most often failing first, then the worst
  std::vector<check::Finding> left_out;  ///< not drawn, and not sure to hold
  Fitted fit;
  std::optional<ByReadings> readings;  ///< where the file has some, and there is an answer
  bool complete = true;

  /// Chances of the one bench that was measured, not shares of those that could be built.
  [[nodiscard]] bool of_this_bench() const { return readings && readings->used; }
};

/// Draws timber, joints and screws `drawn` times (see src/decide/population.hpp), by what readings
/// say where they agree and tell something (src/decide/taught.hpp).
[[nodiscard]] Odds odds(const bench::Bench& bench, const std::vector<bench::Reading>& readings,
                        const reference::Tables& tables, const Work& work,
                        std::size_t drawn = 10000, std::uint64_t seed = 1);

}  // namespace standtrue::decide
