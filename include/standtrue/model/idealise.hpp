#pragma once

#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "standtrue/bench/bench.hpp"
#include "standtrue/model/model.hpp"

namespace standtrue::model {

/// Which end of the band of joint, screw and floor stiffness is taken.
enum class Bound { soft, mean, stiff };

/// What was measured, times the mean stiffness. Each stands in place of what is taken where it is
/// not known: the bound's band of joints and screws, and low timber. Values that the file gives
/// stay.
struct Scales {
  std::optional<double> timber;          ///< E and G of every piece
  std::optional<double> joints;          ///< all springs of rail ends and braces
  std::optional<double> screws;          ///< slip of the screws of sheets
  std::map<std::string, double> pieces;  ///< E and G of one piece, by its name, on top of `timber`
};

struct Assumptions {
  Bound bound = Bound::mean;
  /// Final stiffness: moduli divided by 1 + k_def of each material, joints by 1 + 2 k_def.
  bool after_creep = false;
  /// Rail ends (by name) whose bending is let go.
  std::set<std::string> released;
  /// Plates on a mesh twice as coarse: what the error of the mesh is estimated from.
  bool coarse_mesh = false;
  /// Every piece of timber as soft as one in twenty of its kind.
  bool low_timber = false;
  Scales scales;
};

/// The frame that stands for a bench, its load cases and combinations, and what was assumed.
/// `model` is missing only when a part can not be idealised; `faults` then says which and why.
struct Idealisation {
  std::optional<Model> model;
  std::vector<std::string> assumptions;
  std::vector<std::string> faults;
};
[[nodiscard]] Idealisation idealise(const bench::Bench& bench, const reference::Tables& tables,
                                    const Assumptions& assumptions = {});

}  // namespace standtrue::model
