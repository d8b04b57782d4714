#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "standtrue/bench/readings.hpp"
#include "standtrue/check/pushes.hpp"
#include "standtrue/model/idealise.hpp"
#include "standtrue/solve/solve.hpp"

/// A bench in the states in which it is tested, and how far it moves there. Doubles in SI.
namespace standtrue::decide {

/// Without sheets, braces, machines and all that lies on it; on the open floor, not yet fixed.
[[nodiscard]] bench::Bench bare_frame(const bench::Bench& bench);
/// As it is built, nothing on it.
[[nodiscard]] bench::Bench emptied(const bench::Bench& bench);

/// A rail on two blocks, its clear span apart, as it lies there.
struct LooseRail {
  std::string name;
  double span = 0.0;
  double width = 0.0, depth = 0.0;  ///< level and upright
  bool flat = false;                ///< laid on its wide face: on edge it would hardly sag
  reference::Timber timber;

  /// w = F L³/(48 E I) + F L/(4 G A_s) in the middle, E and G `times` the mean.
  [[nodiscard]] double sag(double force, double times = 1.0) const;
  /// Bending stress under it, F L/(4 W).
  [[nodiscard]] double stress(double force) const;
};

/// The longest rail, on blocks 50 mm or more inside its ends; nothing where there is none.
[[nodiscard]] std::optional<LooseRail> loose_rail(const model::Model& model,
                                                  quantity::UnitSystem units);

/// Where a test of a bench pulls.
struct PullPlace {
  model::ShovePlace place;
  model::NodeId node = 0;
  double sense = 1.0;
  std::string post;             ///< "front-left post"
  std::string towards;          ///< "to the left"
  double tips_at = 0.0;         ///< rigid body and frame, the lesser; infinite if it can not
  double slides_at = 0.0;       ///< all feet; infinite if they are held
  double first_slips_at = 0.0;  ///< one foot
};

/// Where the top is loaded, and the ends of the batten from which its sag is read.
struct TopPlace {
  std::size_t sheet = 0;
  double x = 0.0, y = 0.0;
  double from = 0.0, to = 0.0;  ///< x of its ends
};

/// One altered bench at one set of scales, ready to be loaded; `why` says why it is not.
class Rig {
 public:
  Rig(const bench::Bench& bench, const reference::Tables& tables, const model::Scales& scales,
      solve::PlateCache& plates);

  [[nodiscard]] const std::optional<model::Model>& model() const { return idealisation_.model; }
  /// How far the post's top follows a pull there.
  [[nodiscard]] solve::OrRefusal<double> follows(const PullPlace& pull, double force) const;
  /// How far the top sinks below a batten that lies on it; the weight is the added load of 1 N with
  /// that place in `bench.loads`.
  [[nodiscard]] solve::OrRefusal<double> sinks(const TopPlace& top, std::size_t load,
                                               double force) const;
  /// The softest corner each way, pulled to the side where it takes more; nothing where there is
  /// none to pull at.
  [[nodiscard]] std::optional<PullPlace> softest(model::ShoveWay way) const;
  /// Pushes that it takes, by check::pushes.
  [[nodiscard]] std::vector<check::Push> pushes() const;

 private:
  [[nodiscard]] const solve::OrRefusal<solve::Prepared>& prepared(model::SpringSet springs) const;

  model::Idealisation idealisation_;
  solve::PlateCache& plates_;
  mutable std::array<std::optional<solve::OrRefusal<solve::Prepared>>, 3> prepared_;
};

/// The tests of one bench: their places, and what they read at any scales.
class Proving {
 public:
  Proving(const bench::Bench& bench, const reference::Tables& tables);

  [[nodiscard]] const std::optional<LooseRail>& rail() const { return rail_; }
  [[nodiscard]] const std::optional<PullPlace>& pull(bench::Test test) const;
  [[nodiscard]] const std::optional<TopPlace>& top() const { return top_; }
  /// Why a test has no place on this bench; empty if it has one.
  [[nodiscard]] const std::string& why_not(bench::Test test) const;

  struct Asked {
    bench::Test test = bench::Test::loose_rail;
    double force = 0.0;
  };
  struct Moved {
    double by = 0.0;  ///< m; not over zero where there is no answer
    std::string why;
  };
  /// At joints, screws, feet and floor of mean stiffness but for these scales.
  [[nodiscard]] std::vector<Moved> moves(const std::vector<Asked>& asked,
                                         const model::Scales& scales) const;

 private:
  void find_rail(const bench::Bench& bench);
  void find_pulls(const bench::Bench& state, bench::Test along, bench::Test across);
  void find_top();
  void not_here(bench::Test test, std::string why);
  [[nodiscard]] Moved one(const Asked& asked, const model::Scales& scales, const Rig* bare,
                          const Rig* finished) const;

  const reference::Tables& tables_;
  bench::Bench bare_, finished_;
  std::optional<LooseRail> rail_;
  std::array<std::optional<PullPlace>, bench::all_tests.size()> pulls_;
  std::optional<TopPlace> top_;
  std::array<std::string, bench::all_tests.size()> why_not_;
  mutable solve::PlateCache plates_;
};

}  // namespace standtrue::decide
