#pragma once

#include <array>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "check/carriers.hpp"
#include "check/plate_answers.hpp"
#include "standtrue/check/level.hpp"

/// Movements of pads, and trials on the bench at rest. Doubles in SI; definitions in level.hpp.
namespace standtrue::check {

/// The loads that a machine is levelled under: bench, machines, what is stored.
[[nodiscard]] bool is_at_rest(const model::Combination& combination);
/// Somebody leans on the bench in use.
[[nodiscard]] bool is_leaned_on(const model::Combination& combination);

/// The combination that is the bench at rest, where it has an answer.
[[nodiscard]] std::optional<std::size_t> place_at_rest(const Answers& answers);

/// Mean of w over what of a patch lies on the plate, upwards.
[[nodiscard]] double mean_w(const model::Plate& plate, const solve::PlateMovements& movements,
                            const model::Patch& patch, Eigen::Index column);

/// q of a bed's pads.
[[nodiscard]] double warp_of(const model::BedPlace& bed, const model::Plate& plate,
                             const solve::PlateMovements& movements, Eigen::Index column);

/// q of the lines over the carriers beside its pads; nothing for a pad beyond the outer ones.
[[nodiscard]] std::optional<double> carried_warp_of(const model::BedPlace& bed,
                                                    const Carriers& carriers,
                                                    const PlateAnswers::View& view);

/// A point of the plan and how far it moved up.
struct MovedPoint {
  double x = 0.0, y = 0.0, w = 0.0;
};
struct Slope {
  double x = 0.0, y = 0.0;
};
/// Of the plane nearest to the points; across points in a row it is level.
[[nodiscard]] Slope slope_of(std::span<const MovedPoint> points);

/// Of a machine under one answer: the plane through its pads; of one or two pads, through their
/// corners. Nothing if it does not stand on that plate.
[[nodiscard]] std::optional<Slope> slope_of(const model::Parts& parts, std::size_t machine,
                                            const PlateAnswers::View& view);

/// How level a machine stands and by how much that changes when somebody leans: working lines.
[[nodiscard]] std::vector<std::string> level_lines(const model::Model& model,
                                                   const PlateAnswers& plates, std::size_t machine);

/// What a bed gets of the warp of the bare top.
struct BedShare {
  std::size_t bed = 0;      ///< place in Parts::beds
  double compliance = 0.0;  ///< Γ of the bare top, m/N
  double share = 1.0;       ///< q/q_0 = 1/(1 + k Γ/b²)
  /// What of Γ is that of the lines over the carriers, where the pads lie between carriers.
  std::optional<double> of_carriers;
};

/// Unit patterns on beds and turned feet, answered on top of the bench at rest.
struct Trials {
  std::vector<BedShare> shares;  ///< of the beds asked for that have an answer
  std::vector<FootTurn> feet;
};
/// `beds`: places in Parts::beds. Empty where the bench at rest has no answer.
[[nodiscard]] Trials trials_at_rest(const Answers& answers, const std::vector<std::size_t>& beds);

}  // namespace standtrue::check
