#pragma once

#include <deque>
#include <mutex>

#include "solve/assembly.hpp"
#include "solve/factor.hpp"
#include "solve/plated_runs.hpp"
#include "solve/proved_standing.hpp"
#include "solve/seats.hpp"
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

/// A movement, and how well it balances: the out-of-balance force of the unknowns, and what holds
/// the held freedoms (in the order of Freedoms::held).
struct Field {
  Eigen::VectorXd movement;  ///< own
  double residual = 0.0;
  Eigen::VectorXd held_forces;
};

/// One load case.
struct SolvedCase {
  Eigen::VectorXd load;         ///< own
  Eigen::VectorXd seat_forces;  ///< of a weight; empty for others
  std::vector<MemberLoad> member_loads;
  Resultant resultant;
  std::optional<Refusal> refusal;
};

/// The movement that goes with moving the ground of one support by one unit.
struct GroundField {
  std::size_t support = 0;
  Field field;
};

/// The rigid supports of one node's movements (or rotations), and their directions in its basis.
struct RigidSupports {
  std::vector<std::size_t> which;
  std::vector<Eigen::Index> held;  ///< own freedoms
  Eigen::MatrixXd directions;      ///< one row per support over `held`
};

struct Prepared::Inside {
  model::Model model;
  model::SpringSet springs = model::SpringSet::gravity;
  std::vector<MemberKernel> kernels;
  std::vector<PreparedPlate> plates;
  Freedoms freedoms;
  SparseMatrix K;  ///< own
  std::shared_ptr<Layouts> layouts;
  std::optional<Factor> factor;
  std::vector<PlatedRun> runs;
  Seats seats;
  std::vector<RigidSupports> rigid;
  std::vector<SolvedCase> cases;
  Eigen::VectorXd ground;                   ///< per support: imposed movement less gap
  Field ground_field;                       ///< the answer to `ground`
  std::vector<GroundField> contact_fields;  ///< of press-only supports and what rides on them
  Eigen::MatrixXd contact_change;           ///< force of i per movement of j, nothing changed
  Eigen::MatrixXd lifts;                    ///< see free_lifts
  mutable ProvedStanding standing;          ///< fills as loads are looked at

  /// Own forces, while some held freedoms are moved.
  struct Asked {
    Eigen::VectorXd forces;  ///< own
    Eigen::VectorXd held;    ///< own; empty: at rest
  };
  /// The answer to a load case, feet all touching and ground at rest; found when first asked for.
  /// Several threads may ask at once.
  [[nodiscard]] const Field& case_field(model::CaseId load_case) const;
  /// What a case asks of `fields`; and its answer, where that is known.
  [[nodiscard]] Asked asked_by(model::CaseId load_case) const;
  void add(SolvedCase load_case);
  void know(model::CaseId load_case, Field field);

  /// The free part of K with places for what its members' axial forces make of it; made when first
  /// asked for. Several threads may ask at once.
  [[nodiscard]] const SparseLdlt& laid_out() const;

  /// Movement of the unknowns under own forces, ground at rest.
  [[nodiscard]] Eigen::VectorXd solve(const Eigen::VectorXd& own_load) const;
  /// Own forces that springs exert when their grounds move.
  [[nodiscard]] Eigen::VectorXd ground_forces(const Eigen::VectorXd& ground_movements) const;
  /// Forces of all supports on the frame, given what holds the held freedoms.
  [[nodiscard]] std::vector<double> support_forces(const Eigen::VectorXd& movement,
                                                   const Eigen::VectorXd& ground_movements,
                                                   const Eigen::VectorXd& held_forces) const;
  /// What the frame does with those; many at once.
  [[nodiscard]] std::vector<Field> fields(const std::vector<Asked>& asked) const;
  /// Own movements of held freedoms that go with those of the grounds of rigid supports; empty if
  /// none move.
  [[nodiscard]] Eigen::VectorXd held_movements(const Eigen::VectorXd& ground_movements) const;
  /// K u less own forces: what is out of balance and what holds.
  [[nodiscard]] Field balance(Eigen::VectorXd movement, const Eigen::VectorXd& own_forces) const;
  /// K^-1 of own forces for a round of many: not refined, and its residual not looked at.
  [[nodiscard]] Field roughly(const Eigen::VectorXd& own_forces) const;
  [[nodiscard]] Eigen::VectorXd held_part(const Eigen::VectorXd& own) const;
  void gather_rigid_supports();
  [[nodiscard]] Eigen::Matrix<double, 6, 1> own_direction(const model::Support& support) const;
  [[nodiscard]] Vector12 node_movements(model::MemberId member,
                                        const Eigen::VectorXd& global) const;

 private:
  struct CaseField {
    std::once_flag once;
    Field field;
  };
  mutable std::deque<CaseField> case_fields_;
  mutable std::once_flag once_;
  mutable SparseLdlt laid_out_;
};

/// Names what moves: from the weakest movement of a stiffness that can not be solved.
[[nodiscard]] Refusal name_mechanism(const Prepared::Inside& in, const Eigen::VectorXd& global);
/// A part of the frame that is tied to nothing, or a node that belongs to nothing.
[[nodiscard]] std::optional<Refusal> find_loose_part(const model::Model& model);

/// What rigid holds push the plates of a loading with.
void add_holds(const Prepared::Inside& in, const Loading& loading, const State& state,
               Resultant& resultant);

}  // namespace standtrue::solve
