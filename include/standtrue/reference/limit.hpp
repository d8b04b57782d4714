#pragma once

#include <string>
#include <vector>

#include "standtrue/quantity/quantity.hpp"
#include "standtrue/reference/source.hpp"

namespace standtrue::reference {

/// What the bench is for, and the least sway stiffness that it wants.
struct Duty {
  std::string key;  ///< "light", "general", "planing", "metal machines"
  std::vector<std::string> names;
  quantity::LinearStiffness sway;  ///< at the worst top corner
  Source source;
};

/// The lines between fit and unfit. Ratios and slopes are plain numbers, velocities m/s.
struct Limits {
  // Sag as a share of the span (overhang: of its length), never judged below the small length.
  Sourced<double> sag_permanent;             ///< 1/300
  Sourced<double> sag_final;                 ///< 1/250, with creep
  Sourced<double> sag_good;                  ///< 1/500, front edge
  Sourced<quantity::Length> sag_least;       ///< 1.5 mm
  Sourced<double> overhang;                  ///< 1/150
  Sourced<quantity::Length> overhang_least;  ///< 1 mm

  Sourced<quantity::LinearStiffness> sway_firm;    ///< and more: firm
  Sourced<quantity::LinearStiffness> sway_little;  ///< and more: gives a little
  Sourced<quantity::LinearStiffness> sway_rocks;   ///< under this it rocks; between: sways

  Sourced<double> tipping;          ///< restoring over overturning moment, by a factor
  Sourced<double> sliding;          ///< friction over push
  Sourced<double> height_to_depth;  ///< above this a bench is slender against tipping
  Sourced<double> buckling;         ///< load factor above which second order may be left out
  Sourced<double> lean;             ///< initial slope of posts, of vertical load

  Sourced<double> bed_twist;  ///< slope between the foot lines of a lathe
  Sourced<double> bed_twist_good;

  Sourced<double> vibration_good;                  ///< rms velocity, m/s
  Sourced<double> vibration;                       ///< acceptable up to here
  Sourced<double> vibration_stop;                  ///< dangerous above
  Sourced<quantity::Frequency> vibration_slowest;  ///< slower is not judged
  Sourced<double> resonance_from;                  ///< running over natural frequency
  Sourced<double> resonance_to;
  Sourced<double> damping_low;
  Sourced<double> damping_high;

  Sourced<quantity::Length> unevenness;  ///< under the worst foot before levelling
  Sourced<quantity::Length> unevenness_levelled;
  Sourced<quantity::Length> free_stem;  ///< of a foot, advised
  Sourced<double> one_foot_share;       ///< of the whole load, hand check

  // Published tests of tables.
  Sourced<quantity::Length> disc_sag;      ///< under the load "disc test"
  Sourced<quantity::Moment> knock_energy;  ///< of the pendulum
  Sourced<quantity::Length> knock_low;     ///< first excursion, table as in knock_low_height
  Sourced<quantity::Length> knock_low_height;
  Sourced<quantity::Length> knock_high;
  Sourced<quantity::Length> knock_high_height;
  Sourced<quantity::Length> rack_set;  ///< permanent set after a racking push
};

}  // namespace standtrue::reference
