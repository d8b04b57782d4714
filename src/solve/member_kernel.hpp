#pragma once

#include <Eigen/Geometry>
#include <vector>

#include "solve/beam_element.hpp"
#include "standtrue/model/model.hpp"

/// A member with its end springs and rigid offsets, as the assembly sees it. All numbers SI.
namespace standtrue::solve {

/// The flexible part stands between twelve inner freedoms; end springs join them to twelve outer
/// ones, which move rigidly with the nodes. The inner freedoms are eliminated exactly:
///     inner = from_outer * outer + from_load * f,
/// with f the equivalent forces of the loads on the flexible part.
struct MemberKernel {
  BeamElement element;
  Matrix12 k;              ///< of the flexible part, local
  Matrix12 k_g;            ///< what 1 N of tension adds to it
  Matrix12 outer_of_node;  ///< outer = outer_of_node * (global movements of both nodes)
  Matrix12 inner_of_outer;
  Matrix12 inner_of_load;
  Matrix12 outer_load_of_load;  ///< equivalent outer forces = this * f
  Matrix12 k_outer;             ///< condensed, local
  Eigen::Matrix3d R;            ///< v_local = R v_global
  Matrix12 spin;  ///< projector on inner motions that nothing resists (a bar turning about itself)
  bool can_spin = false;
  Matrix12 end_forces_of_node;  ///< end forces = this * node movements + end_forces_of_load * f
  Matrix12 end_forces_of_load;

  [[nodiscard]] Matrix12 global_stiffness() const {
    return outer_of_node.transpose() * k_outer * outer_of_node;
  }
  [[nodiscard]] Vector12 global_load(const Vector12& f) const {
    return outer_of_node.transpose() * (outer_load_of_load * f);
  }
  [[nodiscard]] Vector12 inner(const Vector12& node_movements, const Vector12& f) const {
    return inner_of_outer * (outer_of_node * node_movements) + inner_of_load * f;
  }
  /// What the ends of the flexible part are pushed with.
  [[nodiscard]] Vector12 end_forces_of(const Vector12& node_movements, const Vector12& f) const {
    Vector12 forces = end_forces_of_node * node_movements;
    if (!f.isZero(0.0)) forces += end_forces_of_load * f;
    return forces;
  }
  /// What 1 N of tension adds between the nodes, to first order: the inner freedoms follow k alone.
  [[nodiscard]] Matrix12 global_geometric() const {
    const Matrix12 t = inner_of_outer * outer_of_node;
    return t.transpose() * k_g * t;
  }
  /// True if the load does work on an inner motion that nothing resists.
  [[nodiscard]] bool sets_spinning(const Vector12& f) const;
};

[[nodiscard]] MemberKernel member_kernel(const model::Model& model, const model::Member& member,
                                         model::SpringSet springs);

/// Equivalent forces f of all loads of one case on one member; self weight included when asked.
[[nodiscard]] Vector12 member_load(const model::Model& model, const MemberKernel& kernel,
                                   model::MemberId member, const model::LoadCase& load_case);

[[nodiscard]] Eigen::Vector3d vector_of(const model::Point& p);
[[nodiscard]] Eigen::Vector3d vector_of(const model::Direction& d);
[[nodiscard]] Eigen::Vector3d vector_of(const model::ForceVector& f);
[[nodiscard]] Eigen::Vector3d vector_of(const model::MomentVector& m);
[[nodiscard]] Eigen::Vector3d vector_of(const model::LineLoadVector& q);
[[nodiscard]] Eigen::Matrix3d cross_matrix(
    const Eigen::Vector3d& r);  ///< r × v = cross_matrix(r) v

}  // namespace standtrue::solve
