// All numbers SI (N).
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "check/answered.hpp"
#include "check/footprint.hpp"
#include "check/printer.hpp"
#include "standtrue/check/feet.hpp"

namespace standtrue::check {

using quantity::in_si;

namespace {

/// One screw or bolt: its supports, and the way in which what holds it is pulled out.
struct Fixing {
  std::string name;
  std::size_t pulls = 0;  ///< the support along the pull
  double sense = 1.0;     ///< sign of its force on the frame when it is pulled
  std::array<std::size_t, 2> across{};
  /// Of a ledger: what presses at one edge of it pulls at the screw in its middle. Its weight goes
  /// into the wall at its back face, and the model's support is on its axis.
  struct Prised {
    std::size_t roll = 0, up = 0;
    double half_thickness = 0.0, half_depth = 0.0;
  };
  std::optional<Prised> prised;

  [[nodiscard]] double pull(const std::vector<double>& force) const {
    double pulled = sense * force.at(pulls);
    if (prised) {
      const double M = force.at(prised->roll) - force.at(prised->up) * prised->half_thickness;
      pulled += std::abs(M) / prised->half_depth;
    }
    return pulled;
  }
};

/// A screw goes square through its rail, from the middle of the bench outwards.
std::vector<Fixing> into_wall(const model::Parts& parts) {
  std::vector<Fixing> all;
  double x = 0.0, y = 0.0;
  for (const bench::Post& post : parts.bench.posts) {
    x += in_si(post.x) / static_cast<double>(parts.bench.posts.size());
    y += in_si(post.y) / static_cast<double>(parts.bench.posts.size());
  }
  for (std::size_t i = 0; i < parts.wall.size(); ++i) {
    const model::WallPlace& wall = parts.wall[i];
    const auto rail =
        std::find_if(parts.bench.rails.begin(), parts.bench.rails.end(),
                     [&](const bench::Rail& r) { return r.name == parts.bench.wall.at(i).rail; });
    if (rail == parts.bench.rails.end()) continue;
    const bench::Post& post = parts.bench.posts.at(rail->from);
    const double line = in_si((rail->along_x ? post.y : post.x) + rail->aside);
    const double sense = line < (rail->along_x ? y : x) ? -1.0 : 1.0;
    // A frame that is pulled away from the wall is held back towards it.
    if (rail->along_x) {
      all.push_back({wall.name, wall.y, sense, {wall.x, wall.z}, {}});
      if (wall.roll) {
        all.back().prised =
            Fixing::Prised{*wall.roll, wall.z, 0.5 * in_si(rail->width), 0.5 * in_si(rail->depth)};
      }
    } else {
      all.push_back({wall.name, wall.x, sense, {wall.y, wall.z}, {}});
    }
  }
  return all;
}

std::vector<Fixing> into_floor(const model::Parts& parts) {
  std::vector<Fixing> all;
  for (const model::FootPlace& foot : parts.feet) {
    if (!parts.bench.posts.at(foot.post).foot.fixed) continue;
    all.push_back({foot.name, foot.down, -1.0, {foot.grip_x, foot.grip_y}, {}});
  }
  return all;
}

struct Most {
  double force = 0.0;
  std::string fixing, combination;
  void take(double found, const Fixing& by, const model::Combination& under) {
    if (!(found > force)) return;
    force = found;
    fixing = by.name;
    combination = under.name;
  }
  [[nodiscard]] std::string where() const { return fixing + ", under " + combination; }
};

struct MostOfAll {
  Most pull, across;
  bool answered = false;
};

MostOfAll most_of(const Answers& answers, const std::vector<Fixing>& fixings) {
  MostOfAll most;
  for (std::size_t c = 0; c < answers.model.combinations.size(); ++c) {
    const model::Combination& combination = answers.model.combinations[c];
    const bool counts = combination.purpose == model::Purpose::service ||
                        combination.purpose == model::Purpose::strength;
    const solve::State* state = counts ? state_of(answers.response, c) : nullptr;
    if (!state) continue;
    most.answered = true;
    const std::vector<double>& force = state->support_forces;
    for (const Fixing& fixing : fixings) {
      most.pull.take(fixing.pull(force), fixing, combination);
      most.across.take(std::hypot(force.at(fixing.across[0]), force.at(fixing.across[1])), fixing,
                       combination);
    }
  }
  return most;
}

struct Into {
  const char* id;
  const char* what;  ///< "the wall"
  const char* one;   ///< "screw into the wall"
};

Finding fixings_finding(const Answers& answers, const std::vector<Fixing>& fixings,
                        const Into& into) {
  const Printer print(answers.model.parts.bench);
  Finding f;
  f.id = into.id;
  f.group = Group::feet;
  f.kind = Kind::caution;
  f.unit = quantity::Kind::force;
  f.rule = "forces of the fixings, with the factors of use and of strength";
  f.source = {"", "their stiffness is ours, and forces follow it", reference::Status::ours};
  leave_unjudged(f, fmt::format("{} itself is not judged", into.what));
  const MostOfAll most = most_of(answers, fixings);
  if (!most.answered) {
    f.place = into.what;
    f.sentence = fmt::format("What {} must hold is not known.", into.what);
    return f;
  }
  f.demand = most.pull.force;
  f.place = most.pull.force > 0.0 ? most.pull.fixing : most.across.fixing;
  f.combination = most.pull.force > 0.0 ? most.pull.combination : most.across.combination;
  const std::string pulled = most.pull.force > 0.0 ? fmt::format("is pulled with up to {} ({})",
                                                                 print.force(most.pull.force),
                                                                 print.as_mass(most.pull.force))
                                                   : std::string("is never pulled");
  f.sentence = fmt::format("A {} {}, and pushed sideways with up to {} ({}); {}.", into.one, pulled,
                           print.force(most.across.force), print.as_mass(most.across.force), f.why);
  if (most.pull.force > 0.0) f.working.push_back("largest pull: " + most.pull.where());
  f.working.push_back("largest sideways: " + most.across.where());
  return f;
}

}  // namespace

std::vector<Finding> fixings(const Answers& answers, const reference::Tables&) {
  const model::Parts& parts = answers.model.parts;
  std::vector<Finding> findings;
  const std::vector<Fixing> wall = into_wall(parts);
  if (!wall.empty()) {
    findings.push_back(
        fixings_finding(answers, wall, {"fixing/wall", "the wall", "screw into the wall"}));
  }
  const std::vector<Fixing> floor = into_floor(parts);
  if (!floor.empty()) {
    findings.push_back(
        fixings_finding(answers, floor, {"fixing/floor", "the floor", "bolted foot"}));
  }
  return findings;
}

}  // namespace standtrue::check
