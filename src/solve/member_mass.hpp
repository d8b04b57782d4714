#pragma once

#include "solve/member_kernel.hpp"

/// Mass of a member that moves as its unloaded shapes do. All numbers SI.
namespace standtrue::solve {

/// Per length: of the axis, and of the section turning about its own x, y, z.
struct MassPerLength {
  double m = 0.0;                          ///< kg/m
  double i_x = 0.0, i_y = 0.0, i_z = 0.0;  ///< kg m
};
/// ρ A with what it carries, ρ (I_y + I_z), ρ I_y, ρ I_z.
[[nodiscard]] MassPerLength mass_per_length(const model::Member& member);

/// Consistent mass of the flexible part, local axes:
///     ∫ N^T diag(m, m, m, i_x, i_y, i_z) N dx,   N = section_motion.
/// Symmetric; a rigid movement has the kinetic energy of a rigid bar. Its shapes turn sections by
/// the shear strain too, so that no shear is locked in it.
/// Source (from memory): Archer, Consistent Mass Matrix for Distributed Mass Systems (1963).
/// Source (from memory): Przemieniecki, Theory of Matrix Structural Analysis (1968), 11.3.
[[nodiscard]] Matrix12 consistent_mass(const BeamElement& element, const MassPerLength& mass);

/// The same between the nodes, global axes: rigid offsets carry no mass, inner freedoms follow the
/// outer ones as they do at rest.
[[nodiscard]] Matrix12 global_mass(const MemberKernel& kernel, const model::Member& member);

}  // namespace standtrue::solve
