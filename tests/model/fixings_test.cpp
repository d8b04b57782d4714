// What a bench stands on and is fixed to, as supports.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "standtrue/model/idealise.hpp"
#include "tests/bench/bench_files.hpp"

namespace fixings_test {

using namespace standtrue;
using doctest::Approx;
using model::Bound;
using quantity::in_si;

namespace {

using bench_files::sound;
using bench_files::tables;

std::string frame(const std::string& more) {
  return "standtrue: 1\n"
         "size: 1700 x 650 x 880 mm\n"
         "timber: C24 45 x 95 mm\n"
         "joints: two corner brackets\n"
         "top: 18 mm spruce plywood\n" +
         more;
}

model::Idealisation made(const std::string& more, const model::Assumptions& assumptions = {}) {
  model::Idealisation idealisation = model::idealise(sound(frame(more)), tables(), assumptions);
  REQUIRE(idealisation.model);
  return idealisation;
}

bool says(const model::Idealisation& idealisation, const std::string& words) {
  return std::any_of(idealisation.assumptions.begin(), idealisation.assumptions.end(),
                     [&](const std::string& line) { return line.find(words) != line.npos; });
}

double friction_of(const model::Model& model, std::size_t foot) {
  const model::FootPlace& place = model.parts.feet.at(foot);
  CHECK(model.supports[place.grip_x].friction == model.supports[place.grip_y].friction);
  return model.supports[place.grip_x].friction.value();
}

}  // namespace

TEST_CASE("model/feet: friction of the material on the floor, less the floor's fall") {
  const reference::Floor concrete = *tables().floor("concrete");
  const double plastic = concrete.friction(reference::FootMaterial::plastic);
  const double timber = concrete.friction(reference::FootMaterial::timber);
  CHECK(friction_of(*made("").model, 0) == Approx(plastic));
  CHECK(friction_of(*made("feet: bare\n").model, 0) == Approx(timber));
  CHECK(friction_of(*made("floor: {surface: concrete, friction: 0.25}\n").model, 0) ==
        Approx(0.25));
  const std::string falls = "fall: [3 in 100 to back, 4 in 100 to left]";
  CHECK(friction_of(*made("floor: {surface: concrete, " + falls + "}\n").model, 0) ==
        Approx(plastic - 0.05));
  CHECK(friction_of(*made("floor: {surface: concrete, friction: 0.04, " + falls + "}\n").model,
                    0) == 0.0);
  const model::Model mixed = *made("feet: {each: {back-left post: {material: steel}}}\n").model;
  CHECK(friction_of(mixed, 2) == Approx(concrete.friction(reference::FootMaterial::steel)));
  CHECK(friction_of(mixed, 3) == Approx(plastic));
  // It rolls, and what its lock holds is not known.
  const model::Model rolls = *made("feet: {castor: 75 mm}\n").model;
  CHECK_FALSE(rolls.supports[rolls.parts.feet[0].grip_x].friction.has_value());
}

TEST_CASE(
    "model/feet: a rubber sole gives G A/t sideways, 0.9 x 2827/3 = 848 N/mm of a 60 mm pad, after "
    "the floor's 15, 5 and 50 kN/mm (reference/feet.yaml)") {
  const auto grip = [](const std::string& more, Bound bound = Bound::mean) {
    model::Assumptions assumptions;
    assumptions.bound = bound;
    const model::Model m = *made(more, assumptions).model;
    const model::FootPlace& foot = m.parts.feet.at(0);
    CHECK(*m.supports[foot.grip_x].stiffness == *m.supports[foot.grip_y].stiffness);
    return *m.supports[foot.grip_x].stiffness;
  };
  const std::string rubber = "feet: {thread: M12, material: rubber}\n";
  CHECK(grip(rubber) == Approx(1e3 / (1 / 848.23 + 1 / 15e3)).epsilon(1e-5));
  CHECK(grip(rubber, Bound::soft) == Approx(1e3 / (3 / 848.23 + 1 / 5e3)).epsilon(1e-5));
  CHECK(grip(rubber, Bound::stiff) == Approx(1e3 / (1 / 2544.69 + 1 / 50e3)).epsilon(1e-5));
  const model::Model soft = *made(rubber).model;
  CHECK(*soft.supports[soft.parts.feet[0].down].stiffness == Approx(15e6));  // upright as it was
  // Nor do other pads, castors, bare posts and bolted feet, or what the file itself gives.
  CHECK(grip("feet: {thread: M12, material: steel}\n") == Approx(15e6));
  CHECK(grip("feet: {castor: 75 mm}\n") == Approx(15e6));
  CHECK(grip("feet: {thread: M12, material: rubber, fixed: yes}\n") == Approx(15e6));
  CHECK(grip(rubber + "floor: {surface: concrete, sideways: 2 kN/mm}\n") == Approx(2e6));
  CHECK(says(made(rubber), "rubber soles 3 mm thick (ours) give sideways"));
  CHECK_FALSE(says(made(""), "rubber"));
}

TEST_CASE(
    "model/feet: a stem turned out for the fall gives e^3/(3 E I) sideways and buckles under "
    "pi^2 E I/(4 e^2), a cantilever's (any handbook)") {
  const model::Model m = *made("floor: {surface: concrete, fall: 1 in 20 to right}\n").model;
  // Feet 1700 - 50 - 95 = 1555 mm apart: 25 + 77.75 mm. M10: I = pi 8.16^4/64 = 217.6 mm4;
  // E = 210 kN/mm2 (EN 1993-1-1, 3.2.6). By hand 126.4 N/mm of the stem alone.
  const double e = 102.75, e_0 = 25.0, EI = 210e3 * 217.64;
  for (const model::FootPlace& foot : m.parts.feet) {
    CAPTURE(foot.name);
    const bool low = foot.name.find("right") != std::string::npos;
    const model::Part& stem = m.parts.parts[foot.stem.value()];
    CHECK(in_si(stem.span) == Approx(low ? 0.10275 : 0.025));
    CHECK(in_si(m.nodes[m.supports[foot.down].node].at.z) == 0.0);  // heights stay
    const double EI_model = 210e3 * 1e12 * in_si(m.members[stem.members.at(0)].section.I_y);
    const double grip = 1e-3 * *m.supports[foot.grip_y].stiffness;
    if (low) {
      CHECK(EI_model / (e_0 * e_0) == Approx(EI / (e * e)).epsilon(1e-4));
      CHECK(std::pow(e_0, 3) / (3 * EI_model) + 1 / grip ==
            Approx(1 / 126.4 + 1 / 15e3).epsilon(1e-3));
    } else {
      CHECK(EI_model == Approx(EI).epsilon(1e-4));
      CHECK(grip == Approx(15e3));
    }
  }
}

TEST_CASE("model/feet: a bolted foot holds both ways and lets nothing ride on it") {
  const model::Idealisation one = made("feet: {each: {front-left post: {fixed: yes}}}\n");
  const model::Model& m = *one.model;
  for (std::size_t i = 0; i < m.parts.feet.size(); ++i) {
    const model::FootPlace& foot = m.parts.feet[i];
    const bool fixed = foot.name == "front-left foot";
    CHECK(m.supports[foot.down].press_only == !fixed);
    CHECK(m.supports[foot.grip_x].rides_on.has_value() == !fixed);
    CHECK(m.supports[foot.grip_y].friction.has_value() == !fixed);
    CHECK(*m.supports[foot.down].stiffness == *m.supports[m.parts.feet[0].down].stiffness);
  }
  CHECK(says(one, "front-left foot is bolted to the floor"));
  CHECK(says(one, "feet press on the floor and never pull"));
  const model::Idealisation all = made("feet: {fixed: yes}\n");
  CHECK(says(all, "all feet are bolted to the floor"));
  CHECK_FALSE(says(all, "never pull"));
}

TEST_CASE("model/fixings: three springs at a node of the rail, as stiff as their bound") {
  const std::string wall = "wall: {rail: back top rail, at: [300 mm, 1200 mm]}\n";
  const model::Idealisation idealisation = made(wall);
  const model::Model& m = *idealisation.model;
  REQUIRE(m.parts.wall.size() == 2);
  CHECK(m.parts.wall[0].name == "back top rail, 300 mm from the middle of the back-left post");
  const bench::Bench& bench = m.parts.bench;
  const bench::Rail& rail = bench_files::named(bench.rails, "back top rail");
  const bench::Post& post = bench.posts[rail.from];
  for (std::size_t i = 0; i < 2; ++i) {
    const model::WallPlace& place = m.parts.wall[i];
    const model::Support& y = m.supports[place.y];
    const model::Point& at = m.nodes[y.node].at;
    CHECK(in_si(at.x) == Approx(in_si(post.x) + (i == 0 ? 0.3 : 1.2)).epsilon(1e-3));
    CHECK(in_si(at.y) == Approx(in_si(post.y + rail.aside)));
    CHECK(in_si(at.z) == Approx(in_si(rail.height)));
    CHECK(y.along.y == 1.0);
    CHECK(m.supports[place.x].along.x == 1.0);
    CHECK(m.supports[place.z].along.z == 1.0);
    for (const std::size_t s : {place.x, place.y, place.z}) {
      CHECK(m.supports[s].node == y.node);
      CHECK_FALSE(m.supports[s].press_only);
      CHECK(*m.supports[s].stiffness == Approx(1e6));
    }
    // a member of the rail begins there
    CHECK(std::count_if(m.members.begin(), m.members.end(), [&](const model::Member& member) {
            return member.start == y.node &&
                   m.parts.parts[member.part.value()].name == "back top rail";
          }) == 1);
  }
  CHECK(says(idealisation, "each of the 2 screws into the wall gives 1000 N/mm"));
  const auto at_bound = [&](Bound bound, bool creep) {
    const model::Model other = *made(wall, {bound, creep, {}}).model;
    return *other.supports[other.parts.wall[0].y].stiffness;
  };
  CHECK(at_bound(Bound::soft, false) == Approx(1e6 / 3));
  CHECK(at_bound(Bound::stiff, false) == Approx(3e6));
  CHECK(at_bound(Bound::mean, true) == Approx(1e6 / (1 + 2 * 0.8)));  // EN 1995-1-1, class 2
}

TEST_CASE("model/fixings: a screw before the rail's own end goes through its post") {
  const model::Model m = *made("wall: {rail: back top rail, at: [0 mm, 1555 mm]}\n").model;
  REQUIRE(m.parts.wall.size() == 2);
  const model::NodeId left = m.supports[m.parts.wall[0].y].node;
  const model::NodeId right = m.supports[m.parts.wall[1].y].node;
  CHECK(m.nodes[left].name.rfind("back-left-post", 0) == 0);
  CHECK(m.nodes[right].name.rfind("back-right-post", 0) == 0);
}

}  // namespace fixings_test
