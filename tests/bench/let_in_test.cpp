#include "standtrue/bench/let_in.hpp"

#include <doctest/doctest.h>

#include "tests/bench/bench_files.hpp"

namespace let_in_test {

using namespace standtrue;
using bench_files::mm;
using bench_files::read;
using bench_files::sound;
using doctest::Approx;
using quantity::millimetres;

namespace {

/// Posts of 70 x 70 mm that end at 882 mm, top rails of 45 x 95 mm from 787 mm up.
std::string text_of(const std::string& more, const std::string& posts = "70 x 70 mm") {
  return "standtrue: 1\n"
         "size: 1300 x 700 x 900 mm\n"
         "timber: C24 45 x 95 mm\n"
         "top: 18 mm spruce plywood\n"
         "posts: " +
         posts + "\n" + more;
}

std::size_t place_of(const bench::Bench& b, std::string_view name) {
  return static_cast<std::size_t>(&bench_files::named(b.posts, name) - b.posts.data());
}

std::vector<bench::LetIn> cuts_of(const bench::Bench& b, std::string_view post) {
  return bench::let_into(b, place_of(b, post));
}

/// Sides along x and y in mm that are left at a height.
std::pair<double, double> left_at(const bench::Bench& b, std::string_view post, double height) {
  const bench::SidesLeft left =
      bench::sides_left(bench_files::named(b.posts, post), cuts_of(b, post), millimetres(height));
  return {mm(left.along_x), mm(left.along_y)};
}

bool has(const std::string& text, std::string_view words) {
  return text.find(words) != std::string::npos;
}

}  // namespace

TEST_CASE("bench/let_in: a notched rail takes its thickness off the post, from the outer face") {
  const bench::Bench b = sound(text_of("rails: {top: {long: {seat: notched}}}\n"));
  const std::vector<bench::LetIn> cuts = cuts_of(b, "front-left post");
  REQUIRE(cuts.size() == 1);
  CHECK(cuts[0].along_x);
  CHECK(mm(cuts[0].from) == Approx(-35.0));
  CHECK(mm(cuts[0].to) == Approx(-35.0 + 45.0));
  CHECK(mm(cuts[0].low) == Approx(882.0 - 95.0));
  CHECK(mm(cuts[0].high) == Approx(882.0));
  const std::vector<bench::LetIn> behind = cuts_of(b, "back-right post");
  REQUIRE(behind.size() == 1);
  CHECK(mm(behind[0].from) == Approx(35.0 - 45.0));
  CHECK(mm(behind[0].to) == Approx(35.0));
  CHECK(left_at(b, "front-left post", 835).first == Approx(70.0));
  CHECK(left_at(b, "front-left post", 835).second == Approx(70.0 - 45.0));
  CHECK(left_at(b, "front-left post", 780).second == Approx(70.0));
}

TEST_CASE("bench/let_in: a notch in the rail leaves the post that much, rails between take none") {
  const bench::Bench b = sound(text_of("rails: {top: {long: {seat: notched, notch: 20 mm}}}\n"));
  CHECK(mm(cuts_of(b, "front-left post").at(0).low) == Approx(882.0 - 95.0 + 20.0));
  // Where the notch is deeper than the rail's axis, its forces still meet a post that is cut.
  const bench::Bench deep = sound(text_of("rails: {top: {long: {seat: notched, notch: 60 mm}}}\n"));
  CHECK(left_at(deep, "front-left post", 882.0 - 47.5).second == Approx(70.0 - 45.0));
  CHECK(left_at(deep, "front-left post", 830).second == Approx(70.0));
  CHECK(cuts_of(sound(text_of("")), "front-left post").empty());
  CHECK(cuts_of(sound(text_of("rails: {top: {long: {seat: on post face}}}\n")), "front-left post")
            .empty());
}

TEST_CASE("bench/let_in: a half lap takes the half of the post that the rail is nearer to") {
  const bench::Bench b = sound(text_of("rails: {top: {long: {joint: half lap}}}\n"));
  const bench::LetIn front = cuts_of(b, "front-left post").at(0);
  CHECK(front.is_lap);
  CHECK(mm(front.from) == Approx(-35.0));
  CHECK(mm(front.to) == Approx(0.0));
  CHECK(mm(cuts_of(b, "back-left post").at(0).to) == Approx(35.0));
  CHECK(left_at(b, "front-left post", 835).second == Approx(35.0));
}

TEST_CASE("bench/let_in: wood on both sides of a rail counts together, two rails in line once") {
  const std::string posts = "{section: 70 x 70 mm, stations: [0 mm, 625 mm, 1250 mm]}";
  const bench::Bench across = sound(text_of("rails: {top: {short: {seat: notched}}}\n", posts));
  CHECK(left_at(across, "front-middle post", 835).first == Approx(70.0 - 45.0));
  const bench::Bench along = sound(text_of("rails: {top: {long: {seat: notched}}}\n", posts));
  CHECK(cuts_of(along, "front-middle post").size() == 2);
  CHECK(left_at(along, "front-middle post", 835).second == Approx(70.0 - 45.0));
}

TEST_CASE(
    "bench/let_in: rails of two directions at one height are refused, one above the other not") {
  for (const char* more : {"rails: {seat: notched}\n",
                           "rails: {top: {long: {seat: notched}, short: {joint: half lap}}}\n"}) {
    CAPTURE(more);
    const bench_files::Read refused = read("b.yaml", text_of(more));
    CHECK_FALSE(refused.bench);
    CHECK(has(refused.messages,
              "the front top rail and the left top rail would lie in the same place: both are let "
              "into the front-left post, from 787 mm to 882 mm above the floor"));
  }
  const bench::Bench b = sound(
      text_of("rails: {top: {long: {seat: notched}, short: {seat: notched, top_at: 787 mm}}}\n"));
  const auto [high_x, high_y] = left_at(b, "front-left post", 835);
  CHECK(high_x == Approx(70.0));
  CHECK(high_y == Approx(70.0 - 45.0));
  const auto [low_x, low_y] = left_at(b, "front-left post", 740);
  CHECK(low_x == Approx(70.0 - 45.0));
  CHECK(low_y == Approx(70.0));
}

TEST_CASE(
    "bench/let_in: half laps of two directions are mitred, one above the other they are not") {
  const bench::Bench all = sound(text_of("joints: half lap\n"));
  const std::size_t post = all.rails.at(0).from;
  CHECK(bench::is_crossed_lap(all, post, 0));
  const bench::Bench one = sound(text_of("rails: {top: {long: {joint: half lap}}}\n"));
  CHECK_FALSE(bench::is_crossed_lap(one, one.rails.at(0).from, 0));
}

TEST_CASE("bench/let_in: rails that leave nothing of the post are refused") {
  const bench_files::Read refused =
      read("b.yaml", text_of("rails: {top: {long: {seat: notched}}}\n", "45 x 95 mm"));
  CHECK_FALSE(refused.bench);
  CHECK(has(refused.messages,
            "the front top rail is let into the front-left post, and leaves nothing of it: it "
            "takes 45 mm of 45 mm"));
  // Turned, the post has 95 mm that way.
  CHECK(left_at(sound(text_of("rails: {top: {long: {seat: notched}}}\n",
                              "{section: 45 x 95 mm, turned: yes}")),
                "front-left post", 835)
            .second == Approx(95.0 - 45.0));
}

}  // namespace let_in_test
