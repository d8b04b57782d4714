#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <string_view>
#include <utility>

#include "model/idealising.hpp"
#include "standtrue/bench/leaning.hpp"
#include "standtrue/contract.hpp"
#include "standtrue/model/stiffness_divisor.hpp"

namespace standtrue::model {

struct Askew {
  const char* name;
  std::array<double, 2> lean;
};

/// The pieces that combinations are made of, with the factors of reference/loads.yaml.
class Combining {
 public:
  explicit Combining(Idealising& work) : work_(work), parts_(work.model.parts) {}

  [[nodiscard]] const reference::Load& load(const char* key) const {
    return work_.tables.load(key);
  }

  Combination start(std::string name, std::string title, Purpose purpose, Leading leading,
                    Duration duration) const {
    Combination c;
    c.name = std::move(name);
    c.title = std::move(title);
    c.purpose = purpose;
    c.leading = leading;
    c.duration = duration;
    return c;
  }
  void bench(Combination& c, double factor) const {
    if (parts_.self_case) c.terms.push_back({*parts_.self_case, factor});
  }
  /// Machines at rest by `at_rest`; running adds its share of the weight by `running`.
  void machines(Combination& c, double at_rest, double running) const {
    for (std::size_t m = 0; m < parts_.machine_cases.size(); ++m) {
      double factor = at_rest;
      switch (work_.bench.machines[m].kind.drive) {
        case reference::Drive::hand:
          break;
        case reference::Drive::motor:
          factor += running * load("machine running, motor").share;
          break;
        case reference::Drive::reciprocating:
          factor += running * load("machine running, reciprocating").share;
          break;
      }
      if (factor != 0.0) c.terms.push_back({parts_.machine_cases[m], factor});
    }
  }
  void stored(Combination& c, double factor) const {
    for (const std::size_t load_case : parts_.stored_cases) c.terms.push_back({load_case, factor});
  }
  /// Loads that the file adds, of at least this duration.
  void added(Combination& c, double factor, Duration shortest) const {
    for (const std::size_t load_case : parts_.added_cases) {
      if (work_.model.cases[load_case].duration <= shortest) c.terms.push_back({load_case, factor});
    }
  }
  [[nodiscard]] bool has_added(Duration duration) const {
    return std::any_of(parts_.added_cases.begin(), parts_.added_cases.end(),
                       [&](std::size_t c) { return work_.model.cases[c].duration == duration; });
  }
  /// The slopes by which a frame may stand out of plumb, one way at a time.
  [[nodiscard]] std::array<double, 2> askew(ShoveWay way, double sense) const {
    const double lean = sense * work_.tables.limits.lean.value;
    return way == ShoveWay::along ? std::array<double, 2>{lean, 0.0}
                                  : std::array<double, 2>{0.0, lean};
  }
  [[nodiscard]] std::array<Askew, 4> askew() const {
    return {
        Askew{"left", askew(ShoveWay::along, -1.0)}, Askew{"right", askew(ShoveWay::along, 1.0)},
        Askew{"front", askew(ShoveWay::across, -1.0)}, Askew{"back", askew(ShoveWay::across, 1.0)}};
  }
  /// To the side of the top where somebody stands; in the middle, to the front.
  [[nodiscard]] std::array<double, 2> askew_towards(const PersonPlace& place) const {
    const bench::Sheet& sheet = work_.bench.sheets.at(place.sheet);
    const auto off_middle = [](Length at, Length low, Length high) {
      return (quantity::in_si(at) - 0.5 * quantity::in_si(low + high)) /
             quantity::in_si(high - low);
    };
    const double x = off_middle(place.x, sheet.x0, sheet.x1);
    const double y = off_middle(place.y, sheet.y0, sheet.y1);
    if (std::abs(x) > std::abs(y)) return askew(ShoveWay::along, x > 0.0 ? 1.0 : -1.0);
    return askew(ShoveWay::across, y > 1e-9 ? 1.0 : -1.0);
  }
  void keep(Combination c) {
    lean_with_floor(c);
    if (c.purpose == Purpose::strength) {
      c.stiffness_over = stiffness_divisor(parts_, work_.tables).value;
    }
    work_.model.combinations.push_back(std::move(c));
  }
  [[nodiscard]] const Parts& parts() const { return parts_; }
  [[nodiscard]] Idealising& work() { return work_; }

 private:
  /// All that stands on a bench that leans pushes it downhill: where it is built askew by second
  /// order the slopes are added, else weight times slope pushes at the tops of the posts.
  void lean_with_floor(Combination& c) const {
    if (c.purpose != Purpose::strength && c.purpose != Purpose::allowable) return;
    const std::array<double, 2> lean = bench::lean_of(work_.bench);
    const std::array<const char*, 2> cases = lean_cases();
    double W = 0.0;
    for (const Factored& term : c.terms) W += term.factor * pressing(work_.model, term.load_case);
    for (std::size_t way = 0; way < 2; ++way) {
      if (lean[way] == 0.0) continue;
      if (c.second_order) {
        c.lean[way] += lean[way];
      } else {
        c.terms.push_back({case_named(cases[way]), lean[way] * W});
      }
    }
  }
  [[nodiscard]] CaseId case_named(std::string_view name) const {
    const std::vector<LoadCase>& cases = work_.model.cases;
    const auto found = std::find_if(cases.begin(), cases.end(),
                                    [name](const LoadCase& c) { return c.name == name; });
    expects(found != cases.end(), "combining: there is no load case of this name");
    return static_cast<CaseId>(found - cases.begin());
  }

  Idealising& work_;
  const Parts& parts_;
};

/// For allowable-stress rules: the same loads without factors.
///     D;  D + stored;  and added;  and somebody stands;  and a shove.
/// Source (second hand): ASCE 7-22, 2.4.1, combinations 1 and 2. That the shoves are judged with
/// them, which no building code knows, is ours.
void build_allowable(Combining& make);

}  // namespace standtrue::model
