// A ledger as members, nodes and springs; its answers against statics and beams.
#include "standtrue/bench/ledger.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "standtrue/model/idealise.hpp"
#include "tests/bench/bench_files.hpp"

namespace ledger_test {

using namespace standtrue;
using bench_files::named;
using bench_files::sound;
using bench_files::tables;
using doctest::Approx;
using quantity::in_si;

namespace {

std::string ledger_bench(const std::string& more) {
  return "standtrue: 1\n"
         "size: 1700 x 650 x 880 mm\n"
         "timber: C24 45 x 95 mm\n"
         "joints: corner brackets\n"
         "top: 18 mm spruce plywood\n" +
         more;
}

const std::string three_screws = "wall: {ledger: 45 x 120 mm, screws: [0 mm, 700 mm, 1500 mm]}\n";

model::Model made_of(const std::string& more, const model::Assumptions& assumptions = {}) {
  model::Idealisation made = model::idealise(sound(ledger_bench(more)), tables(), assumptions);
  REQUIRE(made.model);
  return *made.model;
}

}  // namespace

TEST_CASE("model/ledger: one piece from end to end, without joints of its own") {
  const model::Model m = made_of(three_screws);
  const model::Part& ledger = named(m.parts.parts, "ledger");
  CHECK(ledger.role == model::Role::rail);
  double length = 0.0;
  for (std::size_t i = 0; i < ledger.members.size(); ++i) {
    const model::Member& member = m.members[ledger.members[i]];
    length += in_si(model::member_frame(m, member).length);
    if (i > 0) CHECK(member.start == m.members[ledger.members[i - 1]].end);
    for (std::size_t freedom = 0; freedom < 6; ++freedom) {
      CHECK(member.start_springs[freedom].kind == model::EndSpring::Kind::rigid);
      CHECK(member.end_springs[freedom].kind == model::EndSpring::Kind::rigid);
    }
  }
  CHECK(length == Approx(1.65).epsilon(1e-9));  // 1700 mm less both overhangs
  CHECK(in_si(m.nodes[m.members[ledger.members.front()].start].at.x) == Approx(0.0));
  for (const model::RailEnd& end : m.parts.rail_ends) {
    CHECK(m.parts.parts[end.rail].name != "ledger");
  }
  // No post stands behind: two posts, two feet.
  CHECK(m.parts.feet.size() == 2);
  CHECK(std::count_if(m.parts.parts.begin(), m.parts.parts.end(),
                      [](const model::Part& part) { return part.role == model::Role::post; }) == 2);
  // It spans the widest gap between screws; twice its overhang of 150 mm is less.
  CHECK(in_si(ledger.span) == Approx(0.8));
  CHECK(in_si(named(made_of("wall: {ledger: 45 x 95 mm, screws: [100 mm, 400 mm]}\n").parts.parts,
                    "ledger")
                  .span) == Approx(2 * 1.25));
}

TEST_CASE("model/ledger: rails end on its face, half its thickness before its axis") {
  const model::Model m = made_of(three_screws);
  const bench::Bench& bench = m.parts.bench;
  const auto end =
      std::find_if(m.parts.rail_ends.begin(), m.parts.rail_ends.end(),
                   [](const model::RailEnd& e) { return e.name == "left top rail, back end"; });
  REQUIRE(end != m.parts.rail_ends.end());
  CHECK(m.parts.parts[end->onto].name == "ledger");
  const model::Member& member = m.members[end->member];
  const model::Point& node = m.nodes[member.end].at;
  const bench::Rail& rail = named(bench.rails, "left top rail");
  CHECK(in_si(node.x) == Approx(0.0225));  // flush with the ledger's end
  CHECK(in_si(node.y) == Approx(in_si(bench.posts[rail.to].y)));
  CHECK(in_si(member.end_offset.y) == Approx(-0.0225));
  // Tops level: its axis lies as much higher as the ledger is deeper by half.
  CHECK(in_si(member.end_offset.z) == Approx((0.120 - 0.095) / 2.0));
  CHECK(in_si(member.end_offset.x) == Approx(0.0).epsilon(1e-9));
}

TEST_CASE("model/ledger: screws are three springs, and k (d/2)² against rolling off the wall") {
  const model::Model m = made_of(three_screws);
  REQUIRE(m.parts.wall.size() == 3);
  CHECK(m.parts.wall[1].name == "ledger, 700 mm from its left end");
  const double places[] = {0.002, 0.7, 1.5};  // at the very end 2 mm inside, as any node of a rail
  for (std::size_t i = 0; i < 3; ++i) {
    const model::WallPlace& place = m.parts.wall[i];
    REQUIRE(place.roll);
    const model::Support& roll = m.supports[*place.roll];
    CHECK(in_si(m.nodes[roll.node].at.x) == Approx(places[i]));
    CHECK(roll.rotation);
    CHECK(roll.along.x == 1.0);
    CHECK(*roll.stiffness == Approx(1e6 * 0.060 * 0.060));  // statics
    for (const std::size_t s : {place.x, place.y, place.z}) {
      CHECK(*m.supports[s].stiffness == Approx(1e6));
      CHECK(m.supports[s].node == roll.node);
    }
  }
  const model::Model rail =
      *model::idealise(sound(ledger_bench("wall: {rail: back top rail, at: 300 mm}\n")), tables())
           .model;
  CHECK_FALSE(rail.parts.wall[0].roll.has_value());
}

TEST_CASE("model/ledger: the top is tied to it all along, and rests on no post behind") {
  const model::Model m = made_of(three_screws);
  const auto seam =
      std::find_if(m.parts.seams.begin(), m.parts.seams.end(),
                   [](const model::Seam& s) { return s.name == "top on the ledger"; });
  REQUIRE(seam != m.parts.seams.end());
  double tied = 0.0;
  for (const quantity::Length& length : seam->lengths) tied += in_si(length);
  CHECK(tied == Approx(1.65).epsilon(1e-6));
  // Corners of the top: the tops of two posts and two nodes of the ledger.
  REQUIRE(m.parts.top_corners.size() == 4);
  const double line = in_si(m.parts.bench.posts[2].y);
  CHECK(std::count_if(m.parts.top_corners.begin(), m.parts.top_corners.end(),
                      [&](model::NodeId node) {
                        return std::abs(in_si(m.nodes[node].at.y) - line) < 1e-9;
                      }) == 2);
}

TEST_CASE("model/ledger: with middle posts the rails behind them end on the same piece") {
  const model::Model m = made_of("posts: {stations: [0 mm, 800 mm, 1650 mm]}\n" + three_screws);
  CHECK(m.parts.feet.size() == 3);
  CHECK(std::count_if(
            m.parts.rail_ends.begin(), m.parts.rail_ends.end(),
            [&](const model::RailEnd& e) { return m.parts.parts[e.onto].name == "ledger"; }) == 3);
}

}  // namespace ledger_test
