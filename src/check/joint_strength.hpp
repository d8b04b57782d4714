#pragma once

#include <array>
#include <string>
#include <vector>

#include "standtrue/check/fasteners.hpp"
#include "standtrue/check/joints.hpp"
#include "standtrue/solve/response.hpp"

/// A rail end as a set of modes, each linear in the forces that it passes on. Doubles in SI.
namespace standtrue::check {

/// The mode of brackets whose cure is not more screws.
inline constexpr const char* bracket_plate_mode = "bending of the bracket's plate";

/// What a joint passes on, by sense; all at least zero.
enum class Component {
  pull,  ///< away from the post
  push,  ///< against it
  sideways,
  down,  ///< the rail presses the joint down
  up,
  twist,  ///< about the rail
  top,    ///< bending with the upper side in tension
  bottom,
  flat  ///< bending about the upright axis
};
inline constexpr std::size_t component_count = 9;

/// By Component: of forces N, of moments N m; or a share of a mode's demand per unit of each.
class Shares {
 public:
  [[nodiscard]] double operator[](Component c) const { return at_[static_cast<std::size_t>(c)]; }
  double& operator[](Component c) { return at_[static_cast<std::size_t>(c)]; }
  [[nodiscard]] double times(const Shares& other) const;

 private:
  std::array<double, component_count> at_{};
};

/// The forces of a rail end under a State. Signs: docs/conventions.md.
[[nodiscard]] Shares end_forces(const model::RailEnd& end, const solve::State& state);

/// The most loaded fastener of a group. Lateral demand: the vector of `first` and `second`, plus
/// `turning` in the worst direction; with `axial` by eq. (8.28).
struct FastenerGroup {
  std::string name;
  Shares first, second, turning, axial;
  Force F_v_k, F_ax_k;   ///< of one
  Force F_tens_k;        ///< steel torn; zero: does not govern
  bool ductile = false;  ///< its lateral mode; pulled screws are brittle
};

/// Anything with one demand: a plate, a pressed butt, a splitting rail.
struct SimpleMode {
  std::string name;
  Shares demand;
  double R_k = 0.0;
  bool steel = false;  ///< judged by gamma_M0 and no k_mod
  bool ductile = false;
};

struct JointStrength {
  std::vector<FastenerGroup> groups;
  std::vector<SimpleMode> modes;
  reference::Material rail = reference::Material::solid_timber;  ///< k_mod is the root of both
  reference::Material other = reference::Material::solid_timber;
  std::string why;          ///< not judged at all
  std::string why_bending;  ///< bending not judged
  std::string why_pull;     ///< what pulls at its screws, or turns a single one, not judged,
  Shares pulls;             ///< and by which forces (not zero) that is
  std::string advice;
  std::vector<std::string> working;
};

/// From the joint's own geometry and values given by the file.
[[nodiscard]] JointStrength joint_strength(const model::Model& model, const model::RailEnd& end,
                                           const reference::Tables& tables);

/// Partial factors, found once.
struct JointFactors {
  double gamma_M = 0.0, gamma_M0 = 0.0, gamma_M2 = 0.0;
};
[[nodiscard]] JointFactors joint_factors(const reference::Tables& tables);

/// √(k_mod,1 k_mod,2).
/// Source (second hand): EN 1995-1-1, 2.3.2.1(2), eq. (2.6).
[[nodiscard]] OrWhy<double> joint_k_mod(const JointStrength& joint, reference::ServiceClass air,
                                        reference::Duration duration,
                                        const reference::Tables& tables);

struct ModeRatio {
  double ratio = 0.0;
  bool ductile = false;
  std::string name;
};
/// The worst mode. Contract: the joint has no `why`.
[[nodiscard]] ModeRatio worst_mode(const JointStrength& joint, const Shares& forces, double k_mod,
                                   const JointFactors& factors);

/// Bending resistance (N m) with the upper or the lower side in tension, and its mode.
struct Resistance {
  double moment = 0.0;
  bool ductile = false;
  std::string name;
};
[[nodiscard]] Resistance bending_resistance(const JointStrength& joint, Component sense,
                                            double k_mod, const JointFactors& factors);

// The kinds, one file each.
[[nodiscard]] JointStrength bracket_strength(const model::Model& model, const model::RailEnd& end,
                                             const reference::Tables& tables);
[[nodiscard]] JointStrength bolts_strength(const model::Model& model, const model::RailEnd& end,
                                           const reference::Tables& tables);
[[nodiscard]] JointStrength lap_screws_strength(const model::Model& model,
                                                const model::RailEnd& end,
                                                const reference::Tables& tables);
[[nodiscard]] JointStrength pocket_screws_strength(const model::Model& model,
                                                   const model::RailEnd& end,
                                                   const reference::Tables& tables);
[[nodiscard]] JointStrength half_lap_strength(const model::Model& model, const model::RailEnd& end,
                                              const reference::Tables& tables);
[[nodiscard]] JointStrength tenon_strength(const model::Model& model, const model::RailEnd& end,
                                           const reference::Tables& tables);
[[nodiscard]] JointStrength gusset_strength(const model::Model& model, const model::RailEnd& end,
                                            const reference::Tables& tables);
[[nodiscard]] JointStrength end_grain_strength(const model::Model& model, const model::RailEnd& end,
                                               const reference::Tables& tables);

}  // namespace standtrue::check
