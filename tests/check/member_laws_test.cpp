// What the checks of members must obey, on a portal whose forces are known by statics: a stronger
// class, a larger section, a shorter load is never worse, a larger load never better.
#include <doctest/doctest.h>

#include <array>
#include <limits>
#include <map>
#include <string>
#include <vector>

#include "standtrue/check/members.hpp"
#include "tests/check/portal.hpp"

namespace member_laws_test {

using namespace standtrue;
using check::Finding;
using check::Judgement;
using portal::Check;
using portal::Portal;
using quantity::metres;
using quantity::millimetres;
using quantity::newtons;
using reference::Duration;

namespace {

constexpr std::array<Check, 7> all_checks{
    check::bending,           check::shear,        check::torsion,         check::column_stability,
    check::lateral_stability, check::seat_bearing, check::post_end_bearing};
constexpr std::array all_durations{Duration::permanent, Duration::long_term, Duration::medium_term,
                                   Duration::short_term, Duration::instantaneous};

/// A rail in hinges on seats, loaded down, aside and along, and twisted.
portal::Built loaded(Portal p, double factor = 1.0, Duration duration = Duration::short_term) {
  p.bend = 1e-3;
  p.bearing = 0.05;
  portal::Built built = portal::build(p);
  portal::add_force(built.model, 800 * factor, 300 * factor, -3000 * factor, model::Leading::stand,
                    duration);
  built.model.cases[0].point_loads[0].moment.x = quantity::newton_metres(60 * factor);
  return built;
}

/// All ratios by the ids of the findings.
std::map<std::string, double> ratios(const portal::Built& built) {
  const portal::Solved solved = portal::solve(built);
  const check::SectionForces forces(solved.answers());
  std::map<std::string, double> found;
  for (const Check check : all_checks) {
    for (const Finding& f : check(solved.answers(), forces, portal::tables())) {
      REQUIRE_MESSAGE(f.judgement != Judgement::not_judged, f.id << ": " << f.why);
      found[f.id] = f.ratio;
    }
  }
  REQUIRE(found.size() == 15);  // bent, sheared, twisted: 3 each; 2 posts, rail aside, seat, 2 ends
  return found;
}

/// None of them may rise (or fall) from one to the next.
struct Law {
  double sense = 1.0;  ///< 1: they rise
  std::map<std::string, double> last{};
  void operator()(const std::map<std::string, double>& now) {
    for (const auto& entry : now) {
      const std::string& id = entry.first;
      const double ratio = entry.second;
      CAPTURE(id);
      const auto before = last.find(id);
      if (before != last.end()) {
        // Forces are those of a solved frame, to its residual.
        CHECK(sense * ratio >= sense * before->second - 1e-9 * before->second);
      }
    }
    last = now;
  }
};

/// Only of those ids.
std::map<std::string, double> of(const std::map<std::string, double>& all, const std::string& end) {
  std::map<std::string, double> some;
  for (const auto& [id, ratio] : all) {
    if (id.size() >= end.size() && id.compare(id.size() - end.size(), end.size(), end) == 0) {
      some[id] = ratio;
    }
  }
  REQUIRE_FALSE(some.empty());
  return some;
}

std::vector<std::vector<std::string>> chains() {
  std::vector<std::vector<std::string>> found(2);
  for (const reference::Timber& timber : portal::tables().timbers) {
    // Grades of allowable-stress rules are no rungs of the ladder of EN 338.
    if (timber.material != reference::Material::solid_timber || timber.allowable) continue;
    found[timber.species == reference::Species::softwood ? 0 : 1].push_back(timber.key);
  }
  return found;
}

}  // namespace

TEST_CASE("check/member_laws: a stronger class is never worse, in any check of a member") {
  for (const double rail_width : {0.025, 0.07}) {
    for (const std::vector<std::string>& chain : chains()) {
      Law falls{-1.0};
      for (const std::string& timber : chain) {
        CAPTURE(timber);
        Portal p;
        p.rail_width = rail_width;
        p.timber = timber.c_str();
        falls(ratios(loaded(p)));
      }
    }
  }
}

TEST_CASE("check/member_laws: a load that lasts longer is never better") {
  for (const std::vector<std::string>& chain : chains()) {
    for (const std::string& timber : chain) {
      CAPTURE(timber);
      Portal p;
      p.timber = timber.c_str();
      Law falls{-1.0};
      for (const Duration duration : all_durations) falls(ratios(loaded(p, 1.0, duration)));
    }
  }
}

TEST_CASE(
    "check/member_laws: a larger load is never better; one without squares is in proportion") {
  Law rises{1.0};
  const std::map<std::string, double> once = ratios(loaded({}));
  for (const double factor : {0.25, 0.5, 1.0, 1.5, 2.0, 4.0, 8.0}) {
    const std::map<std::string, double> now = ratios(loaded({}, factor));
    rises(now);
    for (const char* id : {"shear/rail", "torsion/rail", "seat/rail", "post-end/left-post"}) {
      CHECK(now.at(id) == doctest::Approx(factor * once.at(id)).epsilon(1e-9));
    }
  }
}

TEST_CASE("check/member_laws: a wider or deeper rail is never worse for itself") {
  Law wider{-1.0}, deeper{-1.0};
  for (double side = 0.02; side < 0.2; side += 0.01) {
    CAPTURE(side);
    Portal p;
    p.rail_width = side;
    // Its own weight is not in these loads; the seat is as long as before and widens with the rail.
    wider(of(ratios(loaded(p)), "/rail"));
    Portal q;
    q.rail_depth = side + 0.02;
    std::map<std::string, double> on_edge = of(ratios(loaded(q)), "/rail");
    on_edge.erase("seat/rail");  // its k_c,90 goes by the clear span over the depth
    deeper(on_edge);
  }
}

TEST_CASE("check/member_laws: a longer seat is never worse, and counts its extension (6.1.5(1))") {
  Law falls{-1.0};
  for (double seat = 0.01; seat < 0.2; seat += 0.005) {
    portal::Built built = loaded({});
    built.model.parts.parts[2].bearing = metres(seat);
    falls(of(ratios(built), "seat/rail"));
  }
}

TEST_CASE("check/member_laws: a longer rail tips sideways no later under the same moment (6.3.3)") {
  Law rises{1.0};
  for (double span = 0.3; span < 4.0; span += 0.1) {
    portal::Built built = loaded({});
    built.model.parts.parts[2].span = metres(span);  // what the check goes by; forces stay
    rises(of(ratios(built), "lateral/rail"));
  }
}

}  // namespace member_laws_test
