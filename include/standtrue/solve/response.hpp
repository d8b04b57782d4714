#pragma once

#include <Eigen/Core>
#include <array>
#include <optional>
#include <string>
#include <vector>

#include "standtrue/model/model.hpp"
#include "standtrue/solve/diagram.hpp"

/// Answers of the solver. Doubles in SI base units (N, m, N m, rad); axes and signs as in
/// docs/conventions.md.
namespace standtrue::solve {

/// Why there is no answer. Said of the bench, not of the program.
struct Refusal {
  enum class Why {
    mechanism,
    loose_part,
    ill_conditioned,
    tips,
    contact_unsettled,
    audit_failed,
    slides,
    buckles,
    modes_unsettled
  };
  Why why = Why::mechanism;
  std::string what;     ///< "node top-left can slide along x: nothing resists it"
  std::string instead;  ///< what would hold it
  std::optional<model::NodeId> node;
};

/// How far the solved equations and statics are met; relative to the largest load.
struct Audit {
  double residual = 0.0;     ///< |K u - f| / |f|
  double equilibrium = 0.0;  ///< |sum of loads and support forces and their moments|
};

/// The answer to one loading.
struct State {
  Eigen::VectorXd displacement;  ///< 6 per node, global: ux uy uz rx ry rz
  Eigen::VectorXd tied_points;   ///< 3 per tied point of each plate, own axes: x y normal
  Eigen::VectorXd seat_forces;   ///< with sway springs: what weights press with where they alone
                                 ///< hold, per tie and axis (tie_forces); else empty
  std::vector<std::array<double, 12>> end_forces;  ///< per member, local, on the flexible part:
                                                   ///< what its start and its end are pushed with
  std::vector<double> support_forces;  ///< per support, along its direction, on the frame
  std::vector<bool> touching;          ///< per support; false where a press-only one is open
  std::vector<bool> sliding;           ///< per support; true where friction is overcome
  /// Second order, per member, local: the equivalent forces of its axial force N (with that of
  /// plates tied along it, which moves with it) on its slope, which `end_forces` hold too; by what
  /// its movements count for that, and how far its axis stands askew before it is loaded (per
  /// length, local y and z). Empty in first order.
  struct Askew {
    std::array<double, 12> forces{};
    double N = 0.0, times = 1.0;
    double lean_y = 0.0, lean_z = 0.0;
  };
  std::vector<Askew> askew;
  Audit audit;

  [[nodiscard]] double at(model::NodeId node, model::Freedom freedom) const {
    return displacement(static_cast<Eigen::Index>(6 * node) + static_cast<Eigen::Index>(freedom));
  }
};

/// Adds an answer of the same frame, both of first order with all feet down: movements and forces;
/// the audit stays that of `sum`.
void add(State& sum, const State& more, double factor);

/// Internal forces and movements along one member, exact at every section, from its start.
/// Forces act on the face whose outward normal is +x, right-hand rule: N > 0 is tension; M_y > 0
/// puts tension on the +z side (hogging of a rail).
struct MemberDiagrams {
  Diagram N, V_y, V_z, T, M_y, M_z;
  Diagram u, v, w;  ///< movement of the axis along local x, y, z
};

}  // namespace standtrue::solve
