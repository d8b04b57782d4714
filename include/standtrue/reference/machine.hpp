#pragma once

#include <string>
#include <vector>

#include "standtrue/quantity/quantity.hpp"
#include "standtrue/reference/joint.hpp"
#include "standtrue/reference/source.hpp"

namespace standtrue::reference {

enum class Drive { hand, motor, reciprocating };
/// Which way the axis lies about which a machine turns: along its pads' length, their depth, or up.
enum class Spindle { along, across, upright };

/// A generic class of machine, to fill in what the builder does not say.
struct Machine {
  std::string key;  ///< "drill press"
  std::vector<std::string> names;
  quantity::Mass mass_min, mass, mass_max;   ///< usual range; `mass` is the default
  quantity::Length pads_length, pads_depth;  ///< rectangle of the foot holes, along and across
  int pads = 4;
  quantity::Length pad;        ///< side of one square pad
  quantity::Length cg_height;  ///< mass centre above the bench
  quantity::Length height;  ///< where a shove at its top acts, above the bench; for a vice the jaws
  Drive drive = Drive::motor;
  Spindle spindle = Spindle::along;
  quantity::Frequency speed_min, speed_max;  ///< of what turns; zero: nothing does
  quantity::Mass rotating;                   ///< what may be out of balance in ordinary use
  quantity::Length eccentricity;             ///< of it
  quantity::Frequency unbalanced_to;         ///< the fastest that it is run so far out of balance
  Band<quantity::RotationalStiffness> bed_twist;  ///< warping of its feet
  bool precise_bed = false;                       ///< a metal lathe: the twist of its bed is judged
  bool tends_to_tip = false;
  bool holds_work = false;  ///< a vice: strokes on the work reach the bench in full
  std::string advice;       ///< one sentence for the report; may be empty
  RecordSource source;
};

}  // namespace standtrue::reference
