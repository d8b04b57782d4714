#pragma once

#include <string>
#include <vector>

#include "standtrue/check/check_all.hpp"
#include "standtrue/solve/modes.hpp"

/// How a bench swings, and how running machines shake it.
namespace standtrue::check {

/// What a mode does, in words: where its kinetic energy is.
struct ModeWords {
  double frequency = 0.0;  ///< Hz
  std::string shape;       ///< "sways across", "lathe rocks along", "mixed"
  double share = 0.0;      ///< of the kinetic energy, of that shape
};

/// Named where the shape holds 60 % of the kinetic energy (ours), else "mixed". Each machine's part
/// is its rocking, by the tilt of its body, and what it is carried along with. Sideways energy is
/// shared among sway along, sway across and twist as the plan of the top moves (a rigid one fitted
/// to its masses); upright energy belongs to the sheet with most of it, or to the whole bench where
/// all of it goes up and down together.
/// Source (ours): names by kinetic energy.
[[nodiscard]] ModeWords words_of(const model::Model& model, const solve::Mode& mode);

/// The modes that a bench's machines may meet: a fifth beyond the fastest speed of a dial; beyond
/// a single speed as far as a mode that is all joints may come down to it.
[[nodiscard]] solve::ModesWanted modes_met(const bench::Bench& bench,
                                           const reference::Tables& tables);

/// The lowest modes in words (told), and of each machine that runs the shaking of its own pads and
/// of the edge of the top by its unbalance m e: a force m e ω² that turns about its spindle, at its
/// centre of mass (ours), answered by the modes
///     u = Σ φ φ^T F / (ω_i² - ω² + 2 i ζ ω_i ω)
/// over its speeds; ζ is 3.5 %, between 2 and 6 %, at which it is told too. Judged is the rms
/// velocity against the zones, within their own range (from 600 rpm): of a machine whose speed can
/// be chosen what half of its speeds stay below, the others being named; of one speed the most,
/// with a range from missing a mode to sitting on it: modes lie as far off as joints and floor from
/// soft to stiff move them by their share of its strain energy, and by a fifth for all else, the
/// squares of both logarithms added. What goes to and fro, and what is not yet round, is told and
/// not judged: the latter with the speeds to keep off, where a mode triples the shaking and the
/// hand would feel it. Solved at mean joints alone.
/// Source (second hand): ISO 2372, zones of class I.
/// Source (from memory): Clough & Penzien, Dynamics of Structures, modal superposition.
/// Source (ours): damping, half of the speeds, how far modes lie off, tripling and a hand's feel.
[[nodiscard]] std::vector<Finding> vibration(const Answers& answers,
                                             const reference::Tables& tables);

/// The first frequency at which a brace swings by itself across its thinner side, from ends that
/// turn freely to ends that do not turn (told). The model has braces as straight bars between
/// pins, whose modes leave that out; what presses or pulls on the brace is left out here.
/// Source (from memory): Clough & Penzien, Dynamics of Structures, bars of even mass.
[[nodiscard]] std::vector<Finding> brace_swings(const Answers& answers);

}  // namespace standtrue::check
