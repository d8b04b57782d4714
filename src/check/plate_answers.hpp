#pragma once

#include <functional>
#include <string>
#include <vector>

#include "standtrue/bench/surface.hpp"
#include "standtrue/check/check_all.hpp"
#include "standtrue/check/placed.hpp"
#include "standtrue/solve/plate_response.hpp"

namespace standtrue::check {

/// Movements of every plate under those combinations that are wanted and were answered, found in
/// one go. Refers to the model that it was made of.
class PlateAnswers {
 public:
  using Wanted = std::function<bool(const model::Combination&)>;
  PlateAnswers(const model::Model& model, const solve::Response& response, const Wanted& wanted);
  /// Of what the caller knows, which must live as long.
  PlateAnswers(const model::Model& model, const solve::Response& response, const Wanted& wanted,
               const KnownPlates& known);

  /// One plate under one combination.
  struct View {
    const model::Plate& plate;
    const solve::PlateMovements& movements;
    Eigen::Index column = 0;
    std::size_t combination = 0;
    const solve::PlateField* known = nullptr;  ///< null: to be found from the movements

    [[nodiscard]] double down(double x, double y) const {
      return -solve::plate_w(plate, movements, x, y, column);
    }
    [[nodiscard]] double down_at_node(std::size_t node) const {
      return -movements(static_cast<Eigen::Index>(5 * node + 2), column);
    }
    [[nodiscard]] std::vector<solve::PlateForces> forces() const {
      return solve::plate_forces(plate, movements, column);
    }
  };
  /// Of those combinations that the caller wants of the ones that were asked for.
  [[nodiscard]] std::vector<View> of(std::size_t plate,
                                     bool (*wanted)(const model::Combination&)) const;
  /// Wanted, but refused by the solver; rising.
  [[nodiscard]] const std::vector<std::size_t>& refused() const { return refused_; }

 private:
  struct Batch {
    std::vector<std::size_t> combinations;
    std::vector<solve::PlateMovements> movements;  ///< per plate
  };
  const model::Model& model_;
  std::vector<Batch> batches_;  ///< by spring set; none where the plates are known
  const KnownPlates* known_ = nullptr;
  std::vector<std::size_t> of_known_;  ///< combinations
  std::vector<std::size_t> refused_;
};

/// "top, 640 mm from its left and 120 mm from its front edge"
[[nodiscard]] std::string place_on_plate(const model::Parts& parts, const model::Plate& plate,
                                         const bench::Sheet& sheet, double x, double y);

/// Strength, or loads as given.
[[nodiscard]] bool judges_strength(const model::Combination& combination);
/// A published test of tables, or a machine that is let down too fast.
[[nodiscard]] bool judges_test(const model::Combination& combination);
/// Service: at once and leaning, without what is read after creep alone.
[[nodiscard]] bool judges_sag(const model::Combination& combination);
/// Of those the ones that nobody leans in.
[[nodiscard]] bool is_at_once(const model::Combination& combination);
/// After years, with creep.
[[nodiscard]] bool is_final(const model::Combination& combination);

}  // namespace standtrue::check
