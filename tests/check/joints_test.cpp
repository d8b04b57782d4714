#include "standtrue/check/joints.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "check/joint_legs.hpp"
#include "check/joint_strength.hpp"
#include "tests/check/portal.hpp"

using namespace standtrue;
using check::Component;
using check::Finding;
using check::JointRatio;
using check::JointStrength;
using check::Judgement;
using check::ModeRatio;
using check::Resistance;
using check::Shares;
using portal::Portal;
using quantity::in_si;
using quantity::metres;
using quantity::millimetres;
using quantity::newtons;
using reference::Duration;

namespace {

const reference::Tables& tables() { return portal::tables(); }

/// The left joint of a portal, as it is before or after `change`.
template <class Change>
JointStrength strength(const Portal& p, Change change) {
  portal::Built built = portal::build(p);
  change(built);
  return check::joint_strength(built.model, built.model.parts.rail_ends[0], tables());
}
JointStrength strength(const Portal& p) {
  return strength(p, [](portal::Built&) {});
}

Resistance bends(const JointStrength& joint, Component sense, double k_mod = 0.9) {
  return check::bending_resistance(joint, sense, k_mod, check::joint_factors(tables()));
}
ModeRatio under(const JointStrength& joint, Component component, double size, double k_mod = 0.9) {
  Shares forces;
  forces[component] = size;
  return check::worst_mode(joint, forces, k_mod, check::joint_factors(tables()));
}

using Check = std::vector<Finding> (*)(const check::Answers&, const check::SectionForces&,
                                       const reference::Tables&);
std::vector<Finding> run(Check check, const portal::Built& built) {
  const portal::Solved solved = portal::solve(built);
  const check::SectionForces forces(solved.answers());
  return check(solved.answers(), forces, tables());
}
Finding find(const std::vector<Finding>& findings, const std::string& id) {
  for (const Finding& f : findings) {
    if (f.id == id) return f;
  }
  FAIL("no finding " << id);
  return {};
}
bool says(const std::vector<std::string>& lines, const std::string& words) {
  return std::any_of(lines.begin(), lines.end(), [&](const std::string& line) {
    return line.find(words) != std::string::npos;
  });
}

constexpr double M_pl = 250e6 * 0.06 * 2.5e-3 * 2.5e-3 / 4.0;  ///< 23.4 N m

}  // namespace

TEST_CASE("check/joints: end forces by sense: a clamped end hogs, and its rail presses down") {
  Portal p;
  p.bend = 1e6;
  portal::Built built = portal::build(p);
  portal::add_force(built.model, 0, 0, -1000);
  portal::Solved solved = portal::solve(built);
  for (const model::RailEnd& end : solved.model.parts.rail_ends) {
    const Shares f = check::end_forces(end, *solved.response.states[0]);
    CHECK(f[Component::down] == doctest::Approx(500));
    CHECK(f[Component::up] == 0.0);
    CHECK(f[Component::top] > 50.0);  // up to PL/8 = 164 N m
    CHECK(f[Component::top] < 164.0);
    CHECK(f[Component::bottom] == 0.0);
  }
  // A push to the right in mid-span presses the right post and pulls at the left one.
  portal::Built pushed = portal::build(p);
  portal::add_force(pushed.model, 1000, 0, 0);
  solved = portal::solve(pushed);
  const auto& ends = solved.model.parts.rail_ends;
  const Shares left = check::end_forces(ends[0], *solved.response.states[0]);
  const Shares right = check::end_forces(ends[1], *solved.response.states[0]);
  CHECK(left[Component::pull] == doctest::Approx(500).epsilon(0.01));
  CHECK(right[Component::push] == doctest::Approx(500).epsilon(0.01));
  CHECK(left[Component::push] == 0.0);
}

TEST_CASE("check/joints: which screws of a 60 mm bracket keep their distances on a 70 mm rail") {
  // Columns 30 mm apart: edge 35 - 15 = 20 mm, 12 needed (3 d, pre-drilled). Rows 30, 58 and 86 mm
  // from the rail's end, 48 needed (12 d): two rows count. On the post all do, undrilled.
  const portal::Built built = portal::build({});
  const check::Site site = check::site_of(built.model, built.model.parts.rail_ends[0]);
  const reference::JointKind& kind = built.model.parts.rail_ends[0].joint.kind;
  const check::Grid grid = check::grid_of(kind);
  CHECK(grid.rows == 3);
  CHECK(grid.columns == 2);
  CHECK(in_si(grid.across) == doctest::Approx(0.030));
  const check::Pattern rail = check::lateral_pattern(grid, check::rail_leg_under(site),
                                                     millimetres(4), check::Plate::steel, tables());
  CHECK(rail.predrilled);
  CHECK(rail.columns == 2);
  REQUIRE(rail.rows.size() == 2);
  CHECK(in_si(rail.rows[0]) == doctest::Approx(0.058));
  const check::Pattern post = check::lateral_pattern(grid, check::onto_leg_under(site, false),
                                                     millimetres(4), check::Plate::steel, tables());
  CHECK(post.count() == 6);
  CHECK_FALSE(post.predrilled);
  // Pulled: 4 d to the edge and 10 d to the end.
  const check::Pattern pulled =
      check::axial_pattern(grid, check::rail_leg_under(site), millimetres(4), tables());
  CHECK(pulled.rows.size() == 2);
}

TEST_CASE("check/joints: on a narrow rail one column counts, on its middle line, or none") {
  Portal p;
  p.rail_width = 0.038;
  p.aside = 0.0;
  const auto columns = [&](double width) {
    p.rail_width = width;
    const portal::Built built = portal::build(p);
    const check::Site site = check::site_of(built.model, built.model.parts.rail_ends[0]);
    return check::lateral_pattern(check::grid_of(built.model.parts.rail_ends[0].joint.kind),
                                  check::rail_leg_under(site), millimetres(4), check::Plate::steel,
                                  tables())
        .columns;
  };
  CHECK(columns(0.038) == 1);
  CHECK(columns(0.054) == 2);
  CHECK(columns(0.023) == 0);
  p.rail_width = 0.023;
  const JointStrength none = strength(p);
  CHECK(none.why.find("edge of the rail") != std::string::npos);
  CHECK(none.advice.find("narrower") != std::string::npos);
}

TEST_CASE("check/joints: rows that need no pre-drilling are counted without it") {
  check::Leg leg{
      "rail", *tables().timber("C24"), millimetres(90), true, 0.0, metres(1), metres(1), metres(1)};
  check::Grid grid{2, 2, millimetres(60), millimetres(60), millimetres(40)};
  const auto pattern = [&] {
    return check::lateral_pattern(grid, leg, millimetres(4), check::Plate::steel, tables());
  };
  CHECK(pattern().count() == 4);
  CHECK_FALSE(pattern().predrilled);
  leg.timber.rho_k = quantity::from_si<quantity::Density>(550);
  CHECK(pattern().predrilled);
  grid.across = millimetres(5);  // columns too close: one is left
  CHECK(pattern().columns == 1);
  grid.pitch = millimetres(5);  // rows too close: one is left
  CHECK(pattern().rows.size() == 1);
  leg.ahead = millimetres(70);  // the first row near the far end: none
  CHECK(pattern().count() == 0);
  CHECK(check::arms_about_centre(pattern()).sum_r2 == 0.0);
}

TEST_CASE("check/joints: arms of a 2 x 2 pattern: sum r^2 = 4 (14^2 + 15^2) mm2") {
  check::Pattern pattern;
  pattern.rows = {millimetres(20), millimetres(48)};
  pattern.columns = 2;
  pattern.across = millimetres(30);
  const check::Arms centre = check::arms_about_centre(pattern);
  CHECK(centre.sum_r2 == doctest::Approx(4 * (14 * 14 + 15 * 15) * 1e-6));
  CHECK(centre.r_max == doctest::Approx(std::hypot(0.014, 0.015)));
  const check::Arms heel = check::arms(pattern, millimetres(60), false);
  CHECK(heel.sum_r2 == doctest::Approx((20 * 20 + 48 * 48) * 1e-6));
  CHECK(heel.r_max == doctest::Approx(0.048));
  const check::Arms toe = check::arms(pattern, millimetres(60), true);
  CHECK(toe.sum_r2 == doctest::Approx((40 * 40 + 12 * 12) * 1e-6));
  CHECK(toe.r_max == doctest::Approx(0.040));
}

TEST_CASE(
    "check/joints: a plain bracket under a rail closes by its plate: f_y w t^2/4 = 23.4 N m") {
  const JointStrength joint = strength({});
  REQUIRE(joint.why.empty());
  CHECK(joint.why_bending.empty());
  const Resistance closing = bends(joint, Component::top);
  CHECK(closing.moment == doctest::Approx(M_pl));  // gamma_M0 = 1, no k_mod
  CHECK(closing.ductile);
  CHECK(closing.name == "bending of the bracket's plate");
  // Opening it is pulled off against the butt: T = M_pl/30 mm, lever 120 (1 - 1/8) mm; the screws
  // of the post leg bear less: 2^0.9 x 11 x 4 x 28.5 x 0.9/1.3 = 1620 N, of the rail leg less still
  const Resistance opening = bends(joint, Component::bottom);
  CHECK(opening.moment > M_pl);
  CHECK(opening.moment <= M_pl / 0.03 * 0.105 * (1 + 1e-9));
  // k_mod leaves the plate alone
  CHECK(bends(joint, Component::top, 0.6).moment == doctest::Approx(M_pl));
}

TEST_CASE("check/joints: above the rail the senses change places") {
  const auto above = [](portal::Built& built) {
    built.joint(0).place = "above";
    built.model.parts.bench.posts[0].top = metres(1.5);
  };
  const JointStrength joint = strength({}, above);
  REQUIRE(joint.why.empty());
  CHECK(bends(joint, Component::bottom).moment == doctest::Approx(M_pl));
  CHECK(bends(joint, Component::top).moment > M_pl);
  // The rail hangs on its screws and on the plate: V first <= M_pl
  CHECK(under(joint, Component::down, M_pl / 0.03).ratio == doctest::Approx(1.0));
  CHECK(under(strength({}), Component::down, 500).ratio < under(joint, Component::down, 500).ratio);
}

TEST_CASE("check/joints: six screws of the post leg carry the shear (8.2.3, 8.3.1.1(8))") {
  const JointStrength joint = strength({});
  // C24, undrilled: d_ef 2.75, f_h 21.188; F_ax = 11 x 4 x 28.5 = 1254 N; plate 2.5 mm between thin
  // (to 2) a 0.4 x 21.188 x 32.5 x 2.75 = 757.5 and thick (from 4) c
  // 1893.7 (sqrt(2 + 4 x 3300/(21.188 x 2.75 x 32.5^2)) - 1) + 313.5 = 1237.8: 877.5 N a screw;
  // three rows at 7 d: 2 x 3^0.7 = 4.315 screws; x 0.9/1.3
  const double R = 877.5 * 2 * std::pow(3.0, 0.7) * 0.9 / 1.3;
  CHECK(under(joint, Component::down, R).ratio == doctest::Approx(1.0).epsilon(1e-3));
  CHECK(under(joint, Component::down, R).ductile);
  CHECK(under(joint, Component::down, R, 0.6).ratio == doctest::Approx(1.5).epsilon(1e-3));
}

TEST_CASE("check/joints: a ribbed bracket has no plate to yield: its screws pull out, brittle") {
  const auto ribbed = [](portal::Built& built) { built.joint(0).kind.ribbed = true; };
  const JointStrength joint = strength({}, ribbed);
  const Resistance R = bends(joint, Component::top);
  CHECK(R.moment > M_pl);
  CHECK_FALSE(R.ductile);
  CHECK(R.name.find("screws") != std::string::npos);
  CHECK(bends(joint, Component::top, 0.6).moment == doctest::Approx(R.moment * 0.6 / 0.9));
}

TEST_CASE("check/joints: a pair above and under bends by a couple in both senses") {
  Portal p;
  p.joint = "two corner brackets";
  const auto tall = [](portal::Built& built) {
    built.model.parts.bench.posts[0].top = metres(1.5);
  };
  const JointStrength pair = strength(p, tall);
  REQUIRE(pair.why.empty());
  CHECK(bends(pair, Component::top).moment > 2 * M_pl);
  CHECK(bends(pair, Component::top).moment ==
        doctest::Approx(bends(pair, Component::bottom).moment));
  // Flush with the post's top there is no wood for the upper one.
  const JointStrength one = strength(
      p, [](portal::Built& built) { built.model.parts.bench.posts[0].top = metres(0.76); });
  REQUIRE(one.why.empty());
  CHECK(says(one.working, "only the lower one is counted"));
  CHECK(bends(one, Component::top).moment == doctest::Approx(M_pl));
  CHECK_FALSE(one.advice.empty());
  const JointStrength upper = strength(p, [](portal::Built& built) {
    built.model.parts.bench.posts[0].top = metres(1.5);
    built.model.parts.bench.posts[0].bottom = metres(0.63);
  });
  CHECK(says(upper.working, "only the upper one is counted"));
  // The word without a second bracket counts one.
  const JointStrength single =
      strength(p, [](portal::Built& built) { built.joint(0).kind.pieces = 1; });
  CHECK(bends(single, Component::top).moment == doctest::Approx(M_pl));
}

TEST_CASE("check/joints: brackets beside the rail carry along, down and across") {
  Portal p;
  p.post = 0.16;
  p.rail_depth = 0.12;
  const auto beside = [](portal::Built& built) {
    built.joint(0).place = "inside face";
    built.model.parts.bench.posts[0].top = metres(1.5);
  };
  const JointStrength joint = strength(p, beside);
  REQUIRE(joint.why.empty());
  CHECK(bends(joint, Component::top).moment > 0.0);
  CHECK(bends(joint, Component::top).moment ==
        doctest::Approx(bends(joint, Component::bottom).moment));
  for (const Component c : {Component::pull, Component::down, Component::up, Component::sideways,
                            Component::flat, Component::twist}) {
    CHECK(under(joint, c, 1.0).ratio > 0.0);
  }
  CHECK(under(joint, Component::push, 100.0).ratio == 0.0);  // the butt takes it
  // Both sides of a rail, flush with the top of the post: twice as much.
  const JointStrength two = strength(p, [](portal::Built& built) {
    built.joint(0).kind.pieces = 2;
    built.joint(0).place = "both faces";
    built.model.parts.bench.posts[0].top = metres(0.8);
  });
  REQUIRE(two.why.empty());
  CHECK(under(two, Component::down, 100).ratio ==
        doctest::Approx(under(joint, Component::down, 100).ratio / 2).epsilon(1e-6));
  // Without a butt its own columns are the lever; and it takes the push.
  const JointStrength hung = strength(p, [&](portal::Built& built) {
    beside(built);
    built.model.parts.bench.rails[0].seat = bench::Seat::notched;
  });
  CHECK(under(hung, Component::push, 100.0).ratio > 0.0);
  CHECK(bends(hung, Component::top).moment <= bends(joint, Component::top).moment);
  const JointStrength line = strength(p, [&](portal::Built& built) {
    beside(built);
    built.model.parts.bench.rails[0].seat = bench::Seat::notched;
    built.joint(0).kind.rows = 1;
    built.joint(0).kind.fasteners = 3;
  });
  CHECK_FALSE(line.why_bending.empty());
}

TEST_CASE("check/joints: screws that come out, reach too little, or are unknown are not judged") {
  const auto with = [](double length_mm, double depth = 0.12) {
    Portal p;
    p.rail_depth = depth;
    return strength(p, [&](portal::Built& built) {
      built.joint(0).kind.fastener_length = millimetres(length_mm);
    });
  };
  CHECK(with(35).why.empty());
  CHECK(with(100, 0.09).why.find("come out at the back") != std::string::npos);
  CHECK(with(25).why.find("reach 22.5 mm") != std::string::npos);
  const JointStrength shortish = with(30);  // 27.5 mm in the wood, 23.5 of thread count
  CHECK(shortish.why.empty());
  CHECK(shortish.why_bending == "the screws are too short to be pulled");
  CHECK(strength({}, [](portal::Built& b) { b.joint(0).kind.plate_steel = "cheese"; }).why != "");
  CHECK(strength({}, [](portal::Built& b) { b.joint(0).kind.fastener_diameter = metres(1); }).why !=
        "");
  CHECK(strength({}, [](portal::Built& b) { b.joint(0).kind.fasteners = 0; }).why != "");
}

TEST_CASE("check/joints: screws that may carry across but not be pulled leave bending unjudged") {
  Portal p;
  p.rail_width = 0.028;  // 14 mm to the edge: 3 d and not 4 d
  const JointStrength joint = strength(p);
  CHECK(joint.why.empty());
  CHECK(joint.why_bending.find("too near") != std::string::npos);
  CHECK(joint.why_pull == joint.why_bending);
}

TEST_CASE("check/joints: a bearer's brackets on the side of a rail go by the rail's depth") {
  Portal p;
  portal::Built built = portal::build(p);
  model::Parts& parts = built.model.parts;
  parts.parts[2].role = model::Role::bearer;
  bench::Bearer bearer;
  bearer.name = "rail";
  bearer.height = metres(0.7);
  bearer.width = metres(0.07);
  bearer.depth = metres(0.12);
  parts.bench.bearers = {bearer};
  bench::Rail& carrier = parts.bench.rails[0];
  carrier.height = metres(0.65);
  carrier.depth = metres(0.24);
  carrier.width = metres(0.07);
  model::Part carrying = parts.parts[2];
  carrying.role = model::Role::rail;
  parts.parts.push_back(carrying);
  parts.rail_ends[0].onto = 3;
  const auto joint = [&] {
    return check::joint_strength(built.model, parts.rail_ends[0], tables());
  };
  CHECK(joint().why.empty());  // 110 mm under the bearer
  parts.rail_ends[0].joint.place = "inside face";
  CHECK(joint().why.empty());
  parts.rail_ends[0].joint.place = "under";
  carrier.height = metres(0.7);
  carrier.depth = metres(0.12);  // as deep as the bearer: nothing under it
  CHECK(joint().why.find("edge of the carrying rail") != std::string::npos);
}

TEST_CASE("check/joints: a bolted lap is judged only with EC5's ends and edges (Table 8.4)") {
  Portal p;
  p.joint = "bolted lap";
  p.rail_depth = 0.2;
  CHECK(strength(p).why.find("24 mm from the edge, 32 mm are needed") != std::string::npos);
  const auto with = [&](double first, double pitch, int n = 2) {
    return strength(p, [&](portal::Built& built) {
      built.joint(0).kind.first = millimetres(first);
      built.joint(0).kind.pitch = millimetres(pitch);
      built.joint(0).kind.fasteners = n;
      built.model.parts.bench.rails[0].seat = bench::Seat::post_face;
    });
  };
  CHECK(with(40, 58).why.find("40 mm from the end of the rail, 80 mm") != std::string::npos);
  CHECK(with(80, 30).why.find("30 mm apart, 40 mm") != std::string::npos);
  CHECK(with(210, 58).why.find("do not lie in the rail") != std::string::npos);
  const JointStrength good = with(80, 58);
  REQUIRE(good.why.empty());
  // M8 4.6 through 70 and 90 mm of C24 at 90 degrees: mode f, 3188 N; two with arms of 29 mm
  const double F_d = 3188.0 * 0.9 / 1.3;
  CHECK(bends(good, Component::top).moment == doctest::Approx(2 * 0.029 * F_d).epsilon(2e-3));
  CHECK(bends(good, Component::top).ductile);
  // along the grain they count as 2^0.9 (58/104)^0.25 = 1.6126
  CHECK(under(good, Component::pull, 1.6126 * F_d).ratio == doctest::Approx(1.0).epsilon(2e-3));
  // splitting: 14 x 70 sqrt(120/(1 - 0.6)) = 16974 N stays above the bolts here
  CHECK(under(good, Component::down, 1000).name == "bolts");
  const JointStrength one = with(80, 58, 1);
  CHECK(one.why.empty());
  CHECK_FALSE(one.why_bending.empty());
  CHECK(strength(p, [](portal::Built& b) { b.joint(0).kind.bolt_steel = "?"; }).why != "");
}

TEST_CASE("check/joints: a plywood gusset: two groups of screws, panel on timber (8.6)") {
  Portal p;
  p.joint = "plywood gusset";
  const JointStrength joint = strength(p);
  REQUIRE(joint.why.empty());
  CHECK(joint.why_bending.empty());
  CHECK(joint.other == reference::Material::plywood);
  CHECK(joint.groups.size() == 2);
  CHECK(bends(joint, Component::top).moment > 60.0);
  CHECK(bends(joint, Component::top).ductile);
  // What presses down turns the group as well, by its distance from the post.
  CHECK(under(joint, Component::down, 100).ratio > under(joint, Component::pull, 100).ratio);
  const auto with = [&](auto change) { return strength(p, change); };
  CHECK(with([](portal::Built& b) {
          b.joint(0).kind.fastener_length = millimetres(110);
        }).why.find("come out") != std::string::npos);
  CHECK(with([](portal::Built& b) {
          b.joint(0).kind.fastener_length = millimetres(30);
        }).why.find("reach 18 mm") != std::string::npos);
  CHECK(with([](portal::Built& b) {
          b.joint(0).kind.first = millimetres(5);
          b.joint(0).kind.pitch = millimetres(1);
        }).why.find("too near") != std::string::npos);
  CHECK(with([](portal::Built& b) { b.joint(0).kind.gusset_family = "cardboard"; }).why != "");
  CHECK(with([](portal::Built& b) {
          b.joint(0).kind.fastener_length = millimetres(37);
        }).why_pull == "the screws are too short to be pulled");
  CHECK(with([](portal::Built& b) {
          b.joint(0).kind.gusset_family = "conifer plywood";
        }).why_bending == "the strength of the gusset's sheet is not known");
  const JointStrength mdf = with([](portal::Built& b) { b.joint(0).kind.gusset_family = "MDF"; });
  CHECK_FALSE(mdf.why.empty());
}

TEST_CASE(
    "check/joints: screws in end grain: a third across, nothing in pull or bending (8.3.1.2)") {
  Portal p;
  p.joint = "end-grain screws";
  p.post = 0.045;
  const JointStrength joint = strength(p);
  REQUIRE(joint.why.empty());
  CHECK_FALSE(joint.why_bending.empty());
  CHECK_FALSE(joint.why_pull.empty());
  CHECK(says(joint.working, "in end grain 0.33 of it"));
  CHECK(under(joint, Component::down, 100).ratio > 0.0);
  CHECK(strength(p, [](portal::Built& b) {
          b.joint(0).kind.fastener_length = millimetres(70);
        }).why.find("reach 25 mm") != std::string::npos);
  CHECK(strength(p, [](portal::Built& b) { b.joint(0).kind.fasteners = 0; }).why != "");
}

TEST_CASE("check/joints: glue and pins have no strength here but the one that the file gives") {
  Portal glued;
  glued.joint = "glued";
  CHECK_FALSE(strength(glued).why.empty());
  const auto give = [](bool moment, bool shear) {
    return [moment, shear](portal::Built& b) {
      if (moment) b.joint(0).moment_resistance = quantity::newton_metres(300);
      if (shear) b.joint(0).shear_resistance = newtons(2000);
    };
  };
  CHECK_FALSE(strength(glued, give(true, false)).why.empty());
  const JointStrength shear_only = strength(glued, give(false, true));
  CHECK(shear_only.why.empty());
  CHECK_FALSE(shear_only.why_bending.empty());
  const JointStrength both = strength(glued, give(true, true));
  CHECK(both.why.empty());
  CHECK(both.why_bending.empty());
  CHECK(bends(both, Component::top).moment == doctest::Approx(300 * 0.9 / 1.3));
  CHECK_FALSE(bends(both, Component::top).ductile);
  CHECK(under(both, Component::down, 1000).ratio == doctest::Approx(1000 * 1.3 / 0.9 / 2000));
  Portal pin;
  pin.joint = "pinned";
  CHECK_FALSE(strength(pin).why.empty());
  const JointStrength held = strength(pin, give(false, true));
  CHECK(held.why.empty());
  CHECK(held.why_bending.empty());
  // A bracket's own figures give way to those of the file.
  const JointStrength bracket = strength({}, give(true, false));
  CHECK(bends(bracket, Component::top).moment == doctest::Approx(300 * 0.9 / 1.3));
  CHECK(under(bracket, Component::down, 100).name == "screws in the post");
}

TEST_CASE("check/joints: what presses down on a seat is no matter of the fasteners") {
  Portal p;
  p.bearing = 0.09;
  const JointStrength joint = strength(p);
  CHECK(under(joint, Component::down, 1e6).ratio == 0.0);
  CHECK(under(joint, Component::up, 100).ratio > 0.0);
}

TEST_CASE("check/joints: forces that are no numbers, and joints without strength, never pass") {
  const JointStrength joint = strength({});
  for (std::size_t c = 0; c < check::component_count; ++c) {
    CHECK(std::isnan(under(joint, static_cast<Component>(c), std::nan("")).ratio));
  }
  Portal glued;
  glued.joint = "glued";
  CHECK_THROWS_AS((void)under(strength(glued), Component::down, 1.0), std::logic_error);
  CHECK_THROWS_AS((void)bends(joint, Component::down), std::logic_error);
}

TEST_CASE("check/joints: a bigger force is never better, a stronger timber never worse") {
  for (const char* kind : {"corner brackets", "two corner brackets", "plywood gusset"}) {
    double last = 0.0;
    for (const char* timber : {"C14", "C16", "C24", "C30"}) {
      Portal p;
      p.joint = kind;
      p.timber = timber;
      const double M = bends(strength(p), Component::top).moment;
      CHECK(M >= last * (1 - 1e-12));
      last = M;
    }
    const JointStrength joint = strength([&] {
      Portal p;
      p.joint = kind;
      return p;
    }());
    for (std::size_t c = 0; c < check::component_count; ++c) {
      const auto component = static_cast<Component>(c);
      CHECK(under(joint, component, 20).ratio <= under(joint, component, 30).ratio);
    }
  }
}

TEST_CASE("check/joints: a finding for each end; the worst combination; shoves without bending") {
  portal::Built built = portal::build({});
  portal::add_force(built.model, 0, 0, -100);
  portal::add_force(built.model, 300, 0, 0, model::Leading::shove, Duration::instantaneous);
  const std::vector<Finding> findings = run(check::joints_under_gravity, built);
  REQUIRE(findings.size() == 2);
  const Finding& f = findings[0];
  CHECK(f.id == "joint/rail-left-end");
  CHECK(f.group == check::Group::joints);
  CHECK(f.judgement == Judgement::satisfied);
  CHECK(f.sentence.rfind("The joint of the rail, left end, is loaded to", 0) == 0);
  CHECK(says(f.working, "plate: M_pl"));
  CHECK(says(f.working, "worst mode"));
}

TEST_CASE("check/joints: a bracket that gravity bends past its plate is named, and then released") {
  Portal p;
  p.bend = 1e6;
  portal::Built built = portal::build(p);
  portal::add_force(built.model, 0, 0, -800);
  portal::Solved solved = portal::solve(built);
  const std::vector<std::string> names =
      check::overloaded_ductile_joints(solved.answers(), tables());
  CHECK(names == std::vector<std::string>{"rail, left end", "rail, right end"});
  const std::vector<JointRatio> ratios = check::joint_ratios(solved.answers(), 0, tables());
  REQUIRE(ratios.size() == 2);
  CHECK(ratios[1].rail_end == 1);
  CHECK(ratios[0].ratio > 1.0);
  CHECK(ratios[0].ductile);
  CHECK(ratios[0].force < 1.0);
  const Finding over = run(check::joints_under_gravity, built)[0];
  CHECK(over.judgement == Judgement::exceeded);
  CHECK_FALSE(over.advice.empty());

  for (model::RailEnd& end : built.model.parts.rail_ends) end.released = true;
  built.model.members[4].start_springs[4] = built.model.members[4].end_springs[4] =
      model::EndSpring::free_end();
  solved = portal::solve(built);
  CHECK(check::overloaded_ductile_joints(solved.answers(), tables()).empty());
  const Finding after = run(check::joints_under_gravity, built)[0];
  CHECK(after.judgement == Judgement::satisfied);
  CHECK(after.sentence.find("resting on its ends only") != std::string::npos);
}

TEST_CASE("check/joints: brittle, refused, served or shoved joints are not let go") {
  const auto overloaded = [](auto change) {
    Portal p;
    p.bend = 1e6;
    portal::Built built = portal::build(p);
    portal::add_force(built.model, 0, 0, -800);
    change(built);
    portal::Solved solved = portal::solve(built);
    return check::overloaded_ductile_joints(solved.answers(), tables()).size();
  };
  CHECK(overloaded([](portal::Built&) {}) == 2);
  CHECK(overloaded([](portal::Built& b) {
          b.model.combinations[0].purpose = model::Purpose::service;
        }) == 0);
  CHECK(overloaded([](portal::Built& b) {
          b.model.combinations[0].leading = model::Leading::strong_shove;
        }) == 0);
  CHECK(overloaded([](portal::Built& b) {
          b.model.cases[0].point_loads[0].force.z = newtons(-9000);  // the screws shear off too
        }) == 0);
  CHECK(overloaded([](portal::Built& b) {
          b.joint(0).moment_resistance = quantity::newton_metres(10);  // may be brittle
        }) == 1);
  CHECK(overloaded([](portal::Built& b) {
          b.model.combinations[0].purpose = model::Purpose::as_given;
        }) == 2);
}

TEST_CASE(
    "check/joints: unanswered, unknown or unnumbered joints are not judged, with the reason") {
  const auto finding = [](auto change) {
    portal::Built built = portal::build({});
    portal::add_force(built.model, 0, 0, -100);
    change(built);
    return run(check::joints_under_gravity, built)[0];
  };
  const Finding served =
      finding([](portal::Built& b) { b.model.combinations[0].purpose = model::Purpose::service; });
  CHECK(served.judgement == Judgement::not_judged);
  CHECK(served.why == "no combination of loads was answered");
  const Finding glued =
      finding([](portal::Built& b) { b.joint(0).kind = *tables().joint_kind("glued"); });
  CHECK(glued.judgement == Judgement::not_judged);
  CHECK(glued.why.find("glued") != std::string::npos);
  const Finding screwed =
      finding([](portal::Built& b) { b.joint(0).kind.fastener_length = millimetres(30); });
  CHECK(screwed.why == "the screws are too short to be pulled");
  const Finding wet = finding([](portal::Built& b) {
    b.model.parts.bench.air.service_class = reference::ServiceClass::sc3;
    for (model::Part& part : b.model.parts.parts) part.timber.material = reference::Material::mdf;
  });
  CHECK(wet.why.find("service class 3") != std::string::npos);
  portal::Built built = portal::build({});
  portal::add_force(built.model, 0, 0, -100);
  portal::Solved solved = portal::solve(built);
  solved.response.states[0]->end_forces[4].fill(std::nan(""));
  const check::SectionForces forces(solved.answers());
  CHECK(check::joints_under_gravity(solved.answers(), forces, tables())[0].why ==
        "the forces are not numbers");
  solved.response.states[0] =
      tl::unexpected(solve::Refusal{solve::Refusal::Why::tips, "tips", "", {}});
  CHECK(check::joint_ratios(solved.answers(), 0, tables())[0].why == "tips");
}

TEST_CASE("check/joints: k_mod of two materials is the root of both; one may have none (2.6)") {
  JointStrength joint;
  joint.rail = reference::Material::solid_timber;
  joint.other = reference::Material::osb_3;
  const auto k = [&](reference::ServiceClass air) {
    return check::joint_k_mod(joint, air, Duration::permanent, tables());
  };
  CHECK(*k(reference::ServiceClass::sc1) == doctest::Approx(std::sqrt(0.6 * 0.4)));
  CHECK_FALSE(k(reference::ServiceClass::sc3).has_value());
  joint.rail = reference::Material::osb_2;
  CHECK_FALSE(k(reference::ServiceClass::sc3).has_value());
}

TEST_CASE("check/joints: a pin on a seat needs no finding; fasteners have one each") {
  Portal p;
  p.joint = "pinned";
  p.bearing = 0.09;
  portal::Built built = portal::build(p);
  portal::add_force(built.model, 0, 0, -100);
  CHECK(run(check::joints_under_gravity, built).empty());
  CHECK(run(check::joint_fasteners, built).empty());
  built = portal::build({});
  portal::add_force(built.model, 0, 0, -100);
  const std::vector<Finding> good = run(check::joint_fasteners, built);
  REQUIRE(good.size() == 2);
  CHECK(good[0].id == "fasteners/rail-left-end");
  CHECK(good[0].judgement == Judgement::satisfied);
  CHECK(says(good[0].working, "holes pre-drilled"));
  built.joint(0).kind.fastener_length = millimetres(200);
  const Finding bad = run(check::joint_fasteners, built)[0];
  CHECK(bad.judgement == Judgement::not_judged);
  CHECK_FALSE(bad.advice.empty());
  built.joint(0).moment_resistance = quantity::newton_metres(100);
  built.joint(0).shear_resistance = newtons(1000);
  CHECK(run(check::joint_fasteners, built).size() == 1);
}

TEST_CASE("check/joints: the sum of the joints against a shove along the bench") {
  portal::Built built = portal::build({});
  portal::add_force(built.model, 300, 0, 0, model::Leading::shove, Duration::instantaneous);
  const std::vector<Finding> findings = run(check::joints_under_shove, built);
  REQUIRE(findings.size() == 1);
  const Finding& f = findings[0];
  CHECK(f.id == "joint-sum/along");
  CHECK(f.unit == quantity::Kind::moment);
  const portal::Solved solved = portal::solve(built);
  double M = 0.0;
  for (const model::RailEnd& end : solved.model.parts.rail_ends) {
    const Shares forces = check::end_forces(end, *solved.response.states[0]);
    M += forces[Component::top] + forces[Component::bottom];
  }
  CHECK(f.demand == doctest::Approx(M));
  // One bracket closes, the other opens.
  const JointStrength joint = strength({});
  CHECK(f.limit == doctest::Approx(bends(joint, Component::top, 1.1).moment +
                                   bends(joint, Component::bottom, 1.1).moment));
  CHECK(f.ratio == doctest::Approx(f.demand / f.limit));
  CHECK(says(f.working, "worst single joint"));
}

TEST_CASE(
    "check/joints: a shove that the rest of the joints can not take is exceeded or not judged") {
  const auto finding = [](double force, auto change) {
    portal::Built built = portal::build({});
    portal::add_force(built.model, force, 0, 0, model::Leading::strong_shove,
                      Duration::instantaneous);
    change(built);
    return find(run(check::joints_under_shove, built), "joint-sum/along");
  };
  const Finding over = finding(30000, [](portal::Built&) {});
  CHECK(over.judgement == Judgement::exceeded);
  CHECK(over.advice.find("in the back") != std::string::npos);
  const auto glue = [](portal::Built& b) { b.joint(0).kind = *tables().joint_kind("glued"); };
  const Finding unknown = finding(30000, glue);
  CHECK(unknown.judgement == Judgement::not_judged);
  CHECK(unknown.why.find("rail, left end: no published strength") != std::string::npos);
  const Finding enough = finding(1, glue);
  CHECK(enough.judgement == Judgement::satisfied);
  CHECK(says(enough.working, "left out of the resistances"));
  const Finding wet = finding(1, [](portal::Built& b) {
    b.model.parts.bench.air.service_class = reference::ServiceClass::sc3;
    for (model::Part& part : b.model.parts.parts) part.timber.material = reference::Material::mdf;
  });
  CHECK(wet.why.find("service class 3") != std::string::npos);
  const Finding still =
      finding(300, [](portal::Built& b) { b.model.cases[0].point_loads.clear(); });
  CHECK(still.ratio == 0.0);
  const Finding unasked = finding(
      300, [](portal::Built& b) { b.model.combinations[0].leading = model::Leading::stand; });
  CHECK(unasked.why == "no shove that way was answered");
  const Finding nowhere =
      finding(300, [](portal::Built& b) { b.model.combinations[0].place.reset(); });
  CHECK(nowhere.judgement == Judgement::not_judged);
}

TEST_CASE(
    "check/joints: shoves across are no matter of rails along; pins and released hold nothing") {
  portal::Built built = portal::build({});
  portal::add_force(built.model, 0, 300, 0, model::Leading::shove, Duration::instantaneous);
  CHECK(run(check::joints_under_shove, built).empty());
  built = portal::build({});
  portal::add_force(built.model, 300, 0, 0, model::Leading::shove, Duration::instantaneous);
  for (model::RailEnd& end : built.model.parts.rail_ends) end.released = true;
  CHECK(run(check::joints_under_shove, built).empty());
  portal::Solved solved = portal::solve(built);
  solved.model.parts.rail_ends[0].released = false;
  solved.response.states[0]->end_forces[4].fill(std::nan(""));
  const check::SectionForces forces(solved.answers());
  CHECK(check::joints_under_shove(solved.answers(), forces, tables())[0].why ==
        "the forces are not numbers");
}

TEST_CASE("check/joints: gravity does not push over, and a rail may run either way") {
  const auto along = [](portal::Built& built) {
    return find(run(check::joints_under_shove, built), "joint-sum/along");
  };
  portal::Built built = portal::build({});
  portal::add_force(built.model, 300, 0, 0, model::Leading::shove, Duration::instantaneous);
  const Finding alone = along(built);
  portal::Built laden = portal::build({});
  portal::add_force(laden.model, 300, 0, -900, model::Leading::shove, Duration::instantaneous);
  CHECK(along(laden).demand == doctest::Approx(alone.demand).epsilon(1e-6));
  model::Member& rail = built.model.members[4];
  std::swap(rail.start, rail.end);
  std::swap(rail.start_offset, rail.end_offset);
  for (model::RailEnd& end : built.model.parts.rail_ends) end.at_end = !end.at_end;
  CHECK(along(built).demand == doctest::Approx(alone.demand).epsilon(1e-6));
  CHECK(along(built).limit == doctest::Approx(alone.limit).epsilon(1e-6));
}
