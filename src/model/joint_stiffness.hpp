#pragma once

#include "standtrue/model/idealise.hpp"
#include "standtrue/model/parts.hpp"

/// A rail end as springs.
namespace standtrue::model {

/// What meets at a rail end.
struct RailEndGeometry {
  reference::Timber rail;
  reference::Timber post;
  Length rail_width, rail_depth;
  Length post_behind;  ///< depth of the post behind the face that the rail meets
};

/// Stiffness of a joint at one bound, before creep. Values given by the file stand at every bound,
/// all others are multiplied by `times`.
///
/// Brackets: each angle turns at its corner (plate bending E I / L between corner and first screw)
/// in series with its two legs (sum of K r² of their screws). Where two brackets face each other,
/// or the butt of rail and post touches on the far side, a couple over the rail's depth adds to it;
/// only a share of the ideal couple is counted (constants "butt contact share" and "bracket couple
/// share", ours). A butt touches only while the angle on the bracket's side opens.
/// Bolts and gussets: sum of K r² of the group; two groups in series for a gusset.
/// Others: the band of their record; of half laps, tenons and glue for rails as low as "glued band
/// depth", lower ones by the cube of their depth (ours).
[[nodiscard]] JointStiffness joint_stiffness(const bench::Joint& joint,
                                             const RailEndGeometry& geometry,
                                             const reference::Tables& tables, Bound bound,
                                             double times = 1.0);

/// All springs by 1 / (1 + k_def joint · k_def): slip creeps twice as fast as the timber.
/// Source (second hand): EN 1995-1-1, 2.3.2.2.
[[nodiscard]] JointStiffness after_creep(JointStiffness stiffness, double k_def_joint);

}  // namespace standtrue::model
