#pragma once

#include <optional>
#include <string>
#include <vector>

#include "standtrue/bench/bench.hpp"
#include "standtrue/check/placed.hpp"
#include "standtrue/model/idealise.hpp"
#include "standtrue/solve/solve.hpp"

namespace standtrue::decide {

/// A model and the answers to its combinations.
struct Placed {
  model::Model model;
  solve::Response response;
  check::KnownPlates plates = {};
};

using Wanted = bool (*)(const model::Combination&);

/// What stands elsewhere: places of one machine, and patches that something may be stored on.
struct Elsewhere {
  std::size_t machine = 0;
  std::vector<bench::Machine> places;
  struct Patch {
    quantity::Length x, y, side;
  };
  std::vector<Patch> patches;
  /// The machine does not move: its one place is that of the file, on its bed if it is bolted.
  bool stays = false;
};

/// A bench at one bound, factorised once. Every place of the machine and every patch is a load case
/// of its own, all answered in one go with all feet down; the answer to a combination is then the
/// sum of those of its cases, and of what lets go of the floor. The sheet is not stiffened by the
/// bed of a machine that moves, and its mesh knows nothing of where it goes.
class Influence {
 public:
  /// With a machine that moves in the middle of its sheet (where it stands, if that is cut out), so
  /// that the mesh of an even bench is even; or why not.
  [[nodiscard]] static tl::expected<Influence, std::string> make(
      const bench::Bench& bench, const reference::Tables& tables, const Elsewhere& elsewhere,
      const model::Assumptions& assumptions, Wanted wanted, solve::PlateCache& plates);
  /// Does for `plates` what every bound has in common.
  static void condense(const bench::Bench& bench, const reference::Tables& tables,
                       const Elsewhere& elsewhere, solve::PlateCache& plates);

  struct Stored {
    std::size_t patch = 0;
    double mass = 0.0;  ///< kg
  };
  [[nodiscard]] Placed at(std::size_t place, std::optional<Stored> stored = std::nullopt) const;

 private:
  Influence(model::Model model, solve::Prepared prepared, const Elsewhere& elsewhere,
            const reference::Tables& tables);
  [[nodiscard]] double stored_factor(const model::Combination& combination) const;
  /// What presses in a combination, by factors: something else, the machine, the patch.
  struct Share {
    std::size_t combination = 0;  ///< of model_
    std::size_t place = 0;
    double machine = 0.0;
    std::optional<std::size_t> patch;
    double stored = 0.0;
  };
  /// A state of the frame with all feet down, and what is read of each plate.
  struct Known {
    solve::State state;
    std::vector<check::KnownPlate> plates;
  };
  void answer_units();
  void know_plates(const std::vector<solve::Loading>& loadings);
  /// Combinations, then cases.
  [[nodiscard]] std::optional<Known>& known(std::size_t i) {
    return i < without_.size() ? without_[i] : unit_[i - without_.size()];
  }
  [[nodiscard]] std::optional<Known> sum_of(const Share& share) const;
  [[nodiscard]] Known anew(const solve::Loading& loading, solve::State state,
                           const model::Combination& combination) const;
  void add_answer(Placed& placed, const Share& share) const;

  model::Model model_;  ///< without the cases of the places
  solve::Prepared prepared_;
  Elsewhere elsewhere_;
  model::CaseId first_place_ = 0, first_patch_ = 0;
  double Q_ = 1.0;
  /// Under each combination without the machine; what each case of its own adds to the first of
  /// them, places and then patches. None where not all feet are down.
  std::vector<std::optional<Known>> without_, unit_;
};

}  // namespace standtrue::decide
