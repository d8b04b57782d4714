// All numbers SI (m, N, rad).
#include "standtrue/decide/level.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "decide/least_turning.hpp"
#include "standtrue/bench/ledger.hpp"
#include "standtrue/decide/assess.hpp"

namespace standtrue::decide {

namespace {

using check::FeetSet;
using check::LevelReading;
using quantity::in_si;

/// What no level shows: a micrometre per metre; and what the best of them do.
constexpr double unseen = 1e-6, level_enough = 1e-5;
/// What every foot is to press with, of an even share of the weight (ours): so that none rattles.
constexpr double least_share = 0.05;

/// What feet do to the readings, all of them held to the floor: rows of J.
struct FeetInfluence {
  LevelReading none;  ///< with no foot turned
  std::vector<double> x, y, twist, warp;
  std::vector<std::vector<double>> presses;  ///< per foot: of all feet, N/m
};

/// With the bed as it is, and with shims that take up all that the bare top warps.
struct Influences {
  FeetInfluence plain, shimmed;
};

void add_row(std::vector<double>& row, double times, const std::vector<double>& other) {
  for (std::size_t f = 0; f < row.size(); ++f) row[f] += times * other[f];
}

/// `by_shims`: what a metre of shims adds.
FeetInfluence shimmed(const FeetInfluence& plain, const LevelReading& by_shims) {
  FeetInfluence made = plain;
  made.none.x += by_shims.x * plain.none.warp;
  made.none.y += by_shims.y * plain.none.warp;
  made.none.twist = 0.0;
  made.twist.assign(plain.twist.size(), 0.0);
  add_row(made.x, by_shims.x, plain.warp);
  add_row(made.y, by_shims.y, plain.warp);
  for (std::size_t i = 0; i < made.presses.size(); ++i) {
    made.none.presses[i] += by_shims.presses[i] * plain.none.warp;
    add_row(made.presses[i], by_shims.presses[i], plain.warp);
  }
  return made;
}

/// By how much `turned` differs from `none`, per metre of `by`.
LevelReading per_metre(const LevelReading& turned, const LevelReading& none, double by) {
  LevelReading made;
  made.x = (turned.x - none.x) / by;
  made.y = (turned.y - none.y) / by;
  made.twist = (turned.twist - none.twist) / by;
  made.warp = (turned.warp - none.warp) / by;
  for (std::size_t i = 0; i < none.presses.size(); ++i) {
    made.presses.push_back((turned.presses[i] - none.presses[i]) / by);
  }
  return made;
}

std::optional<Influences> influences(const check::Answers& answers,
                                     std::optional<std::size_t> bed) {
  constexpr double by = 1e-3;
  const std::size_t n = answers.model.parts.feet.size();
  std::vector<FeetSet> tries(n + 2, {std::vector<double>(n, 0.0), true});
  for (std::size_t f = 0; f < n; ++f) tries[f + 1].up[f] = by;
  tries[n + 1].shims = by;
  const auto read = check::level_readings(answers, bed, tries);
  if (!read) return std::nullopt;
  FeetInfluence plain;
  plain.none = read->front();
  plain.presses.resize(n);
  for (std::size_t f = 0; f < n; ++f) {
    const LevelReading turned = per_metre((*read)[f + 1], plain.none, by);
    plain.x.push_back(turned.x);
    plain.y.push_back(turned.y);
    plain.twist.push_back(turned.twist);
    plain.warp.push_back(turned.warp);
    for (std::size_t i = 0; i < n; ++i) plain.presses[i].push_back(turned.presses[i]);
  }
  return Influences{plain, shimmed(plain, per_metre(read->back(), plain.none, by))};
}

/// Finds the moves for feet that are held, within what lets them all press.
class Moves {
 public:
  Moves(const model::Model& model, const FeetInfluence& by) : model_(model), by_(by) {
    double weight = 0.0;
    for (const double press : by.none.presses) weight += press;
    least_ = least_share * weight / static_cast<double>(by.none.presses.size());
  }

  /// Level and without twist; if feet would lift, these are held down to their least; if that can
  /// not be, as little twist as feet that press leave.
  [[nodiscard]] std::vector<double> wanted() const {
    const LevelReading& none = by_.none;
    LeastTurning turning = to(none.x, none.y, none.twist);
    const std::vector<double> without_twist = turning.moves();
    for (std::size_t i = 0; i < without_twist.size(); ++i) {
      const std::optional<std::size_t> light = lightest(turning.moves());
      if (!light) return turning.moves();
      if (!turning.hold(by_.presses[*light], least_ - none.presses[*light])) break;
    }
    if (!lightest(turning.moves())) return turning.moves();
    LeastTurning level(without_twist.size());
    level.hold(by_.x, -none.x);
    level.hold(by_.y, -none.y);
    return between(level.moves(), without_twist);
  }

  /// The moves that take out these readings.
  [[nodiscard]] LeastTurning to(double x, double y, double twist) const {
    LeastTurning turning(by_.x.size());
    turning.hold(by_.x, -x);
    turning.hold(by_.y, -y);
    turning.hold(by_.twist, -twist);
    return turning;
  }

 private:
  [[nodiscard]] double press(std::size_t foot, const std::vector<double>& moves) const {
    return by_.none.presses[foot] + dot(by_.presses[foot], moves);
  }
  [[nodiscard]] bool can_lift(std::size_t foot) const {
    return model_.supports[model_.parts.feet[foot].down].press_only;
  }

  /// The foot that is furthest below its least, if any is.
  [[nodiscard]] std::optional<std::size_t> lightest(const std::vector<double>& moves) const {
    std::optional<std::size_t> light;
    double lowest = least_ * (1.0 - 1e-6);
    for (std::size_t f = 0; f < moves.size(); ++f) {
      if (!can_lift(f) || press(f, moves) >= lowest) continue;
      light = f;
      lowest = press(f, moves);
    }
    return light;
  }

  /// From `a`, as far towards `b` as all feet press; where they never all do, halfway between where
  /// one lands and another lifts.
  [[nodiscard]] std::vector<double> between(const std::vector<double>& a,
                                            const std::vector<double>& b) const {
    double from = -std::numeric_limits<double>::infinity(), to = -from;
    for (std::size_t f = 0; f < a.size(); ++f) {
      const double start = press(f, a), gains = press(f, b) - start;
      if (!can_lift(f) || std::abs(gains) <= 1e-9 * least_) continue;
      const double at = (least_ - start) / gains;
      if (gains > 0.0) from = std::max(from, at);
      if (gains < 0.0) to = std::min(to, at);
    }
    const bool never = from > to;
    const double share = never ? 0.5 * (from + to) : std::clamp(1.0, from, to);
    std::vector<double> moves = a;
    for (std::size_t f = 0; f < a.size(); ++f) moves[f] += share * (b[f] - a[f]);
    return moves;
  }

  const model::Model& model_;
  const FeetInfluence& by_;
  double least_ = 0.0;
};

bool all_press(const LevelReading& reading) {
  return std::all_of(reading.touches.begin(), reading.touches.end(), [](bool t) { return t; });
}

tl::expected<LevelReading, std::string> reading_at(const check::Answers& answers,
                                                   std::optional<std::size_t> bed,
                                                   const std::vector<double>& moves,
                                                   double shims = 0.0) {
  const std::vector<FeetSet> one = {{moves, false, shims}};
  auto read = check::level_readings(answers, bed, one);
  if (!read) return tl::unexpected(read.error());
  return read->front();
}

/// How the feet are set, with how much of shims.
struct Set {
  std::vector<double> moves;
  double shims = 0.0;
};

/// Solves again with feet that only press, and corrects for what the first sum left (second order).
Set settle(const check::Answers& answers, std::optional<std::size_t> bed, const FeetInfluence& by,
           bool with_shims, Levelling& out) {
  constexpr int most_rounds = 5;
  constexpr double nothing = 1e-9;
  const Moves moves(answers.model, by);
  Set set{moves.wanted(), 0.0};
  if (with_shims) set.shims = by.none.warp + dot(by.warp, set.moves);
  const double twist = by.none.twist + dot(by.twist, set.moves);
  for (out.rounds = 0;; ++out.rounds) {
    const auto read = reading_at(answers, bed, set.moves, set.shims);
    if (!read) {
      out.why_none = read.error();
      return set;
    }
    out.after = *read;
    const double left = with_shims ? 0.0 : read->twist - twist;
    const double left_warp = with_shims ? read->warp - set.shims : 0.0;
    const double most =
        std::max({std::abs(read->x), std::abs(read->y), std::abs(left), std::abs(left_warp)});
    if (most <= nothing || !all_press(*read) || out.rounds == most_rounds) return set;
    set.shims += left_warp;
    add_row(set.moves, 1.0, moves.to(read->x, read->y, left).moves());
  }
}

void from_least(std::vector<FootToSet>& feet, double FootToSet::*of) {
  double least = std::numeric_limits<double>::infinity();
  for (const FootToSet& foot : feet) least = std::min(least, foot.*of);
  for (FootToSet& foot : feet) foot.*of -= least;
}

/// It has a thread to be set by; else it is packed up.
bool is_turned(const bench::Foot& foot) { return !foot.bare && !foot.fixed && !foot.castor; }

std::vector<FootToSet> feet_of(const model::Parts& parts, const std::vector<double>& moves,
                               const FeetInfluence& by, const Levelling& out,
                               const reference::Tables& tables) {
  std::vector<FootToSet> feet;
  for (std::size_t f = 0; f < moves.size(); ++f) {
    const bench::Post& post = parts.bench.posts[parts.feet[f].post];
    const bench::Floor& floor = parts.bench.floor;
    FootToSet foot;
    foot.name = parts.feet[f].name;
    foot.post = parts.feet[f].post;
    if (is_turned(post.foot)) {
      foot.pitch = tables.constant("pitch " + post.foot.thread.key).value;
    }
    foot.for_floor = floor.fall_x * in_si(post.foot_x) + floor.fall_y * in_si(post.foot_y);
    foot.for_load = moves[f];
    foot.out = foot.for_floor + foot.for_load;
    foot.x = by.x[f];
    foot.y = by.y[f];
    foot.twist = by.twist[f];
    foot.pressed = out.now.presses[f];
    foot.presses = out.after.presses[f];
    feet.push_back(foot);
  }
  for (double FootToSet::*of : {&FootToSet::for_floor, &FootToSet::for_load, &FootToSet::out}) {
    from_least(feet, of);
  }
  for (std::size_t f = 0; f < feet.size(); ++f) {
    const bench::Foot& foot = parts.bench.posts[parts.feet[f].post].foot;
    if (feet[f].pitch > 0.0) feet[f].stem = in_si(foot.extension) + feet[f].out;
  }
  return feet;
}

/// Half of the warp under each of the pads that lie low: so the bed is not tilted.
Shims shims_of(double warp, double feet_alone) {
  Shims shims{0.5 * std::abs(warp), {"front-left", "back-right"}, feet_alone};
  if (warp > 0.0) shims.pads = {"front-right", "back-left"};
  return shims;
}

bool is_flat(const LevelReading& reading) { return std::abs(reading.twist) <= unseen; }

/// What feet in front of a ledger can do. It can not be loosened as other rails can.
std::string hangs(const bench::Bench& bench) {
  const bool turn = std::any_of(bench.posts.begin(), bench.posts.end(), [](const bench::Post& p) {
    return !p.on_wall && is_turned(p.foot);
  });
  return fmt::format(
      "its back hangs on the wall, and a ledger can not be loosened to be set. Hang the ledger "
      "level; then {}, both alike, until the top is level from front to back, and each until it "
      "presses",
      turn ? "turn the front feet" : "put packing under the front posts");
}

void name_the_bed(const model::Parts& parts, std::optional<std::size_t> bed, Levelling& out) {
  const auto& machines = parts.bench.machines;
  if (bed) {
    const model::BedPlace& place = parts.beds[*bed];
    out.machine = machines[place.machine].name;
    out.is_precise = machines[place.machine].kind.precise_bed;
    out.along_x = place.along_x;
  }
  if (out.is_precise) return;
  for (const bench::Machine& machine : machines) {
    if (!machine.kind.precise_bed) continue;
    out.why_no_bed = "the bed of the " + machine.name +
                     " is not looked at: the sheet under it is not taken as a plate, or it does "
                     "not stand on four pads";
  }
}

}  // namespace

Levelling level(const check::Answers& answers, const reference::Tables& tables) {
  const model::Parts& parts = answers.model.parts;
  Levelling out;
  out.good_twist = tables.limits.bed_twist_good.value;
  out.leaves_wall = !parts.wall.empty();
  if (bench::ledger_of(parts.bench) != nullptr) {
    out.why_none = hangs(parts.bench);
    return out;
  }
  const std::optional<std::size_t> bed = check::bed_to_level(parts);
  name_the_bed(parts, bed, out);
  const auto now = reading_at(answers, bed, std::vector<double>(parts.feet.size(), 0.0));
  if (!now) {
    out.why_none = now.error();
    return out;
  }
  out.now = out.alike = *now;
  const bench::Floor& floor = parts.bench.floor;
  out.falls = floor.fall_x != 0.0 || floor.fall_y != 0.0;
  out.alike.x -= floor.fall_x;
  out.alike.y -= floor.fall_y;
  const std::optional<Influences> by = influences(answers, bed);
  if (!by) {
    out.why_none = "what its feet do to it has no answer";
    return out;
  }
  Set set = settle(answers, bed, by->plain, false, out);
  if (out.why_none.empty() && bed && !is_flat(out.after)) {
    const double feet_alone = out.after.twist;
    set = settle(answers, bed, by->shimmed, true, out);
    out.shims = shims_of(set.shims, feet_alone);
  }
  if (!out.why_none.empty()) return out;
  out.feet = feet_of(parts, set.moves, by->plain, out, tables);
  out.all_press = all_press(out.after);
  out.is_level = std::max(std::abs(out.after.x), std::abs(out.after.y)) <= level_enough;
  out.is_flat = !bed || is_flat(out.after);
  return out;
}

Levelling level(const bench::Bench& bench, const reference::Tables& tables) {
  const Assessment assessment = assess(bench, tables);
  const Bounded& mean = assessment.mean;
  if (mean.response) return level({*mean.idealisation.model, *mean.response}, tables);
  Levelling out;
  out.why_none = mean.refusal ? mean.refusal->what : "the bench could not be turned into a frame";
  return out;
}

}  // namespace standtrue::decide
