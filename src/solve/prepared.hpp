#pragma once

#include "solve/assembly.hpp"
#include "solve/factor.hpp"
#include "standtrue/solve/solve.hpp"

/// What a Prepared holds. All numbers SI; "own" vectors are over all freedoms in node bases.
namespace standtrue::solve {

/// Force and moment about the origin.
struct Resultant {
  Eigen::Vector3d force = Eigen::Vector3d::Zero();
  Eigen::Vector3d moment = Eigen::Vector3d::Zero();
  /// Sums of the magnitudes of forces and of couples: what equilibrium is measured against.
  double size = 0.0, couples = 0.0;

  void add(const Eigen::Vector3d& at, const Eigen::Vector3d& f, const Eigen::Vector3d& m);
  void add(const Resultant& other, double factor);
};

struct MemberLoad {
  model::MemberId member = 0;
  Vector12 f;  ///< equivalent forces on the flexible part
};

/// One load case with its answer, feet all touching and ground at rest.
struct SolvedCase {
  Eigen::VectorXd load;  ///< own
  std::vector<MemberLoad> member_loads;
  Resultant resultant;
  Eigen::VectorXd movement;  ///< own
  std::optional<Refusal> refusal;
};

/// The movement that goes with moving the ground of one support by one unit.
struct GroundField {
  std::size_t support = 0;
  Eigen::VectorXd movement;  ///< own
};

struct Prepared::Inside {
  model::Model model;
  model::SpringSet springs = model::SpringSet::gravity;
  std::vector<MemberKernel> kernels;
  Freedoms freedoms;
  SparseMatrix K;  ///< own
  std::optional<Factor> factor;
  std::vector<SolvedCase> cases;
  Eigen::VectorXd ground;                   ///< per support: imposed movement less gap
  Eigen::VectorXd ground_movement;          ///< own, the answer to `ground`
  std::vector<GroundField> contact_fields;  ///< of press-only supports and what rides on them

  /// Movement of the unknowns under own forces, ground at rest.
  [[nodiscard]] Eigen::VectorXd solve(const Eigen::VectorXd& own_load) const;
  /// Movement due to ground movements (per support) alone.
  [[nodiscard]] Eigen::VectorXd solve_ground(const Eigen::VectorXd& ground_movements) const;
  /// Own forces that springs exert when their grounds move.
  [[nodiscard]] Eigen::VectorXd ground_forces(const Eigen::VectorXd& ground_movements) const;
  /// Forces of all supports on the frame; `pull` = K u - f over own freedoms, changes included.
  [[nodiscard]] std::vector<double> support_forces(const Eigen::VectorXd& movement,
                                                   const Eigen::VectorXd& ground_movements,
                                                   const Eigen::VectorXd& pull) const;
  [[nodiscard]] Eigen::Matrix<double, 6, 1> own_direction(const model::Support& support) const;
  [[nodiscard]] Vector12 node_movements(model::MemberId member,
                                        const Eigen::VectorXd& global) const;
};

/// Names what moves: from the weakest movement of a stiffness that can not be solved.
[[nodiscard]] Refusal name_mechanism(const model::Model& model, const Eigen::VectorXd& global);
/// A part of the frame that is tied to nothing, or a node that belongs to nothing.
[[nodiscard]] std::optional<Refusal> find_loose_part(const model::Model& model);

}  // namespace standtrue::solve
