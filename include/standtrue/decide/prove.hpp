#pragma once

#include <limits>
#include <optional>
#include <string>
#include <vector>

#include "standtrue/bench/readings.hpp"
#include "standtrue/decide/assess.hpp"

/// Tests that a builder makes on the bench, half built or finished, and what their readings teach.
/// Doubles in SI.
namespace standtrue::decide {

/// What one reading would narrow: nine times in ten the stiffness lies between the mean divided by
/// this number and the mean times it.
struct Lesson {
  std::string of;  ///< "timber", "joints", "screws"
  double before = 1.0, after = 1.0;
};

/// One test, or why it can not be made on this bench.
struct Trial {
  std::string name;   ///< as `readings` name it: "finished along"
  std::string state;  ///< "the bench as it is, nothing on it"
  std::string act;    ///< "pull at the top of the front-left post, to the left"
  std::string read;   ///< "how far the top of that post moves"
  bool is_pull = true;
  double force = 0.0;                              ///< N
  double expected = 0.0, stiff = 0.0, soft = 0.0;  ///< m: middle, and where nine in ten lie
  double gauge = 0.0;                              ///< m, that the gauge must tell apart
  double tips_at = std::numeric_limits<double>::infinity();    ///< N; pulls alone
  double slides_at = std::numeric_limits<double>::infinity();  ///< N, the first foot that slips
  std::string safe;                                            ///< why the test harms nothing
  std::vector<Lesson> lessons;
  std::string why;  ///< it can not be made; then the rest is empty
};

/// Times the mean stiffness of its kind, before and after the readings: median and where nine in
/// ten lie.
struct Known {
  std::string of;
  double usual_low = 1.0, usual = 1.0, usual_high = 1.0;
  double low = 1.0, median = 1.0, high = 1.0;
  bool is_narrowed = false;  ///< by more than a twentieth
  bool is_far_out = false;   ///< more than three deviations from what is usual
};

/// A reading of the file, held against what was foretold.
struct Told {
  std::string name;
  double force = 0.0, moved = 0.0, gauge = 0.0;
  double expected = 0.0;  ///< before any reading
  double fitted = 0.0;    ///< after all
  double misfit = 0.0;    ///< deviations between measured and fitted
  bool contradicts = false;
  bool is_useless = false;  ///< alone it narrows nothing by more than a twentieth
  std::string why;          ///< there is no such test here, or the bench could not have stood it
};

struct Learning {
  std::vector<Told> readings;
  std::vector<Known> known;
  double timber_joints = 0.0;  ///< correlation of what is left open in the two
  Verdict before = Verdict::not_judged;
  std::string summary_before;
  /// Nothing where readings contradict each other or do not fit the bench.
  std::optional<Verdict> after;
  std::string summary_after;
};

struct ProvingPlan {
  std::vector<std::string> answer;
  std::vector<Trial> trials;
  std::optional<Learning> learned;      ///< where the file has readings
  [[nodiscard]] bool is_sound() const;  ///< some test can be made, and no reading contradicts
};

/// Proposes the tests, and where there are readings takes ln of timber, joints and screws (normal,
/// scattered as reference/timber.yaml says) to what they make of it: Bayes' rule, Gauss and Newton,
/// Laplace. The bench is then judged again with these in place of the usual band.
/// Source (ours): the model is off by a tenth; a weight on the top by the scatter of panels too.
[[nodiscard]] ProvingPlan prove(const bench::Bench& bench,
                                const std::vector<bench::Reading>& readings,
                                const reference::Tables& tables, const Work& work);

}  // namespace standtrue::decide
