#pragma once

#include <string>
#include <vector>

#include "standtrue/quantity/quantity.hpp"
#include "standtrue/reference/source.hpp"

namespace standtrue::reference {

/// Soft, mean and stiff. Where nothing better is known they span a factor of three each way.
template <class Quantity>
struct Band {
  Quantity soft{};
  Quantity mean{};
  Quantity stiff{};
};

enum class Fastening {
  none,
  bracket,
  bolts,
  lap_screws,  ///< as bolts, the screws driven through the lapped piece
  gusset,
  end_grain_screws,
  glue,
  pocket_screws,  ///< through slanted holes in the rail's side into the post
  half_lap,       ///< both pieces cut to half their thickness, glued over the lap
  tenon           ///< of the rail, glued into a mortise of the post
};

/// A way to join a rail to a post, with one usual build of it. Zero means "has none".
struct JointKind {
  std::string key;                 ///< "corner brackets"
  std::vector<std::string> names;  ///< "bracket", "angle brackets" ...
  Fastening fastening = Fastening::none;
  Band<quantity::RotationalStiffness> bend;  ///< in the plane of rail and post, per rail end
  std::string place;  ///< "under", "above", "inside face", "both faces", "lap", "end"
  int pieces = 0;     ///< brackets or gussets per rail end

  quantity::Length leg;        ///< of a bracket; side of a gusset; length of a tenon
  quantity::Length width;      ///< of a bracket; upright side of a tenon
  quantity::Length thickness;  ///< of plate, gusset or tenon
  bool ribbed = false;
  std::string plate_steel;    ///< key of a Steel
  std::string gusset_family;  ///< key of a PanelFamily

  int fasteners = 0;  ///< screws per leg and piece; bolts, or end-grain screws, per rail end
  int rows = 0;       ///< of them beside each other across the plate
  quantity::Length fastener_diameter;
  quantity::Length fastener_length;  ///< of screws
  std::string bolt_steel;            ///< key of a Steel
  quantity::Length first;            ///< corner (or end of the post face) to the first fastener
  quantity::Length pitch;            ///< between fasteners along the leg; of bolts along their line
  quantity::Length radius;     ///< root mean square distance of the fasteners from their centre
  quantity::Length clearance;  ///< free slip of a fastener in its hole
  RecordSource source;
};

}  // namespace standtrue::reference
