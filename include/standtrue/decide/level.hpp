#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "standtrue/bench/bench.hpp"
#include "standtrue/check/level_readings.hpp"

/// How far to turn each foot so that the bench stands level at rest and the bed of its machine has
/// no twist. Doubles in SI; slopes and twists in rad.
///
/// A foot set higher by h_i moves the readings of a level (slope x and y, twist of the bed) in
/// proportion as long as no foot lifts or lands: r = r_0 + J h. J is found with all feet held to
/// the floor; wanted is r = 0 with the least sum of h². Where all feet then press, that is the
/// answer of feet that only press as well, and it is solved again with those to see. Where a foot
/// would lift, shims under the machine take up the warp of the bare top, and the feet level that.
namespace standtrue::decide {

struct FootToSet {
  std::string name;        ///< "front-left foot"
  std::size_t post = 0;    ///< that it stands under, place in Bench::posts
  double pitch = 0.0;      ///< of its thread, m; 0: none, it is packed up
  double stem = 0.0;       ///< how far it then stands out, if all are as in the file before, m
  double for_floor = 0.0;  ///< out for the fall of the floor, m; the least of all is 0
  double for_load = 0.0;   ///< out for level and twist on a floor that is level; the least is 0
  double out = 0.0;        ///< both, the least of all 0: what all share lifts the bench alone
  double x = 0.0, y = 0.0, twist = 0.0;  ///< what a metre out adds to the readings, 1/m
  double pressed = 0.0, presses = 0.0;   ///< at rest before and after, N
};

/// What to put under the pads of a machine where its feet can not take out the twist.
struct Shims {
  double thickness = 0.0;           ///< under each of two pads across from each other, m
  std::array<std::string, 2> pads;  ///< "front-left", as the machine stands
  double feet_alone = 0.0;          ///< the least twist that feet that press leave without them
};

struct Levelling {
  std::string why_none;     ///< why there is no answer; nothing else then
  std::string machine;      ///< whose bed is levelled; none: the top
  bool is_precise = false;  ///< a metal lathe
  bool along_x = true;      ///< its longer side lies along the bench
  std::string why_no_bed;   ///< of a metal lathe whose bed is not looked at
  std::vector<FootToSet> feet;
  bool falls = false;                     ///< the floor does
  check::LevelReading alike, now, after;  ///< all feet alike; as the file has them on a level
                                          ///< floor; as set
  bool is_flat = true;                    ///< the bed has no twist left that counts
  bool is_level = true;
  bool all_press = true;
  std::optional<Shims> shims;
  int rounds = 0;            ///< of correction that the sum needed
  double good_twist = 0.0;   ///< what a lathe's bed is set to
  bool leaves_wall = false;  ///< fixed to a wall, and reckoned loose from it
};

/// At mean joints, what gravity overloads let go, as in `assess`.
[[nodiscard]] Levelling level(const bench::Bench& bench, const reference::Tables& tables);
/// Of a bench that is solved already.
[[nodiscard]] Levelling level(const check::Answers& answers, const reference::Tables& tables);

}  // namespace standtrue::decide
