#include "standtrue/decide/parts_list.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "tests/bench/bench_files.hpp"

namespace parts_list_test {

using namespace standtrue;
using doctest::Approx;
using quantity::in_si;

namespace {

decide::PartsList list_of(const std::string& text) {
  return decide::parts_list(bench_files::sound(text), bench_files::tables());
}

const decide::TimberPiece& named(const decide::PartsList& list, const std::string& name) {
  for (const decide::TimberPiece& piece : list.timber) {
    if (piece.name.find(name) != std::string::npos) return piece;
  }
  FAIL("no piece " << name);
  return list.timber.front();
}

int count(const decide::PartsList& list, const std::string& words) {
  int n = 0;
  for (const decide::Item& item : list.hardware) {
    if (item.name.find(words) != std::string::npos) n += item.count;
  }
  return n;
}

const std::string plain = R"(
standtrue: 1
size: 1650 x 750 x 900 mm
timber: C24 45 x 95 mm
joints: two corner brackets
top: {sheet: 18 mm spruce plywood, grain: across, load: none}
shelf: {sheet: 12 mm spruce plywood, load: 30 kg}
feet: {thread: M10, extension: 30 mm}
)";

}  // namespace

TEST_CASE("decide/parts: lumber of 8 and 10 ft where inches are read") {
  // Common practice, no source.
  const auto bars = [](const std::string& text) {
    std::set<double> lengths;
    for (const decide::TimberStock& stock : list_of(text).timber_stock) {
      for (const auto& bar : stock.bars) lengths.insert(in_si(bar.length));
    }
    return lengths;
  };
  const auto only = [](const std::set<double>& found, std::set<double> usual) {
    REQUIRE_FALSE(found.empty());
    for (const double length : found) CHECK(usual.count(length) == 1);
  };
  only(bars(plain), {2.4, 3.0});
  only(bars(plain + "units: imperial\n"), {8 * 0.3048, 10 * 0.3048});
}

TEST_CASE("decide/parts: glue is told of, castors go by their wheels") {
  const auto notes = [](const std::string& more) {
    std::string all;
    for (const std::string& note : list_of(plain + more).notes) all += note + "; ";
    return all;
  };
  CHECK(notes("").find("glue") == std::string::npos);
  CHECK(notes("rails: {top: {long: {joint: glued tenon}}}\n").find("wood glue in the joints") !=
        std::string::npos);
  const std::string rolling = plain.substr(0, plain.find("feet:")) + "feet: {castor: 75 mm}\n";
  CHECK(count(list_of(rolling), "75 mm castor") == 4);  // feet.yaml: 100 mm high
}

TEST_CASE("decide/parts: lengths by hand") {
  // Posts over 1600 x 700 mm, 95 along and 45 across; surface 900, top 18, feet 30 mm: posts of
  // 852 mm less what the foot's pad and nut take.
  const decide::PartsList list = list_of(plain);
  const decide::TimberPiece& posts = named(list, "front-left post");
  CHECK(posts.count == 4);
  CHECK(in_si(posts.length) < 0.8525);
  CHECK(in_si(posts.length) > 0.82);
  CHECK(posts.angle_a == 0.0);
  const decide::TimberPiece& along = named(list, "front top rail");
  CHECK(along.count == 4);
  CHECK(in_si(along.length) == Approx(1.6 - 2 * 0.095));
  const decide::TimberPiece& across = named(list, "left top rail");
  CHECK(across.count == 4);
  CHECK(in_si(across.length) == Approx(0.7 - 2 * 0.045));
  // Two brackets at both ends of the lower rails, one at those of the top rails, which have no post
  // above them; each with two legs of three screws.
  CHECK(count(list, "bracket") == 24);
  CHECK(count(list, "screw 4 x 35 mm") == 24 * 2 * 3);
  CHECK(count(list, "levelling foot M10") == 4);
  REQUIRE(list.sheets.size() == 2);
  CHECK(in_si(list.sheets[0].along) == Approx(0.75));
  CHECK(in_si(list.sheets[0].across) == Approx(1.65));
  CHECK(list.sheets[1].cut_outs.size() == 4);  // round the posts
}

TEST_CASE("decide/parts: a brace with its angle, its length past the bolts, and its bolts") {
  const decide::PartsList list =
      list_of(plain + "braces: {side: back, low: 200 mm, high: 700 mm}\n");
  const decide::TimberPiece& brace = named(list, "back brace");
  // M8: 80 mm and half a row (2.5 d = 20 mm) past the middle of its bolts at both ends.
  const double axis = std::hypot(1.6 - 0.095, 0.5);
  CHECK(in_si(brace.length) == Approx(axis + 2 * 0.100).epsilon(1e-3));
  CHECK(count(list, "bolt M8") == 4);
}

TEST_CASE("decide/parts: the mass is that of the model's own timber and sheets") {
  const bench::Bench b = bench_files::sound(plain);
  const decide::PartsList list = decide::parts_list(b, bench_files::tables());
  double timber = 0.0;
  for (const decide::TimberPiece& piece : list.timber) {
    timber += 420.0 * 0.045 * 0.095 * in_si(piece.length) * piece.count;  // C24: 420 kg/m3
  }
  CHECK(in_si(list.timber_mass) == Approx(timber).epsilon(1e-9));
}

TEST_CASE("decide/parts: stock gives every piece, and what no sheet gives is told") {
  const decide::PartsList list = list_of(plain);
  REQUIRE(list.timber_stock.size() == 1);
  std::size_t pieces = 0;
  for (const auto& bar : list.timber_stock[0].bars) pieces += bar.pieces.size();
  CHECK(pieces == 12);
  CHECK(list.timber_stock[0].exact);
  REQUIRE(list.sheet_stock.size() == 2);
  // Across the face grain a top of 1650 mm is wider than any sheet.
  CHECK(list.sheet_stock.back().too_large.size() + list.sheet_stock.front().too_large.size() >= 1);
}

TEST_CASE("decide/parts: tops of sawn rails differ by up to 4 mm (EN 336, T1: -1 and +3)") {
  const decide::PartsList list = list_of(plain);
  CHECK(std::any_of(list.notes.begin(), list.notes.end(), [](const std::string& note) {
    return note.find("by up to 4 mm") != std::string::npos;
  }));
}

TEST_CASE("decide/parts: what goes into wall, floor and machine is told though it is not listed") {
  const auto tells = [](const std::string& more, const std::string& words) {
    const decide::PartsList list = list_of(plain + more);
    return std::any_of(list.notes.begin(), list.notes.end(), [&](const std::string& note) {
      return note.find(words) != std::string::npos;
    });
  };
  const std::string wall = "wall: {rail: back top rail, at: [300 mm, 1200 mm]}\n";
  CHECK(
      tells(wall, "2 screws with plugs through the back top rail into the wall, 300 mm, 1200 mm"));
  CHECK_FALSE(tells("", "into the wall"));
  const std::string machines =
      "machines: [{kind: bench grinder, at: [300 mm, 200 mm], mounting: bolted}, {kind: drill "
      "press, "
      "at: middle, mounting: standing}]\n";
  CHECK(tells(machines, "bolts for the bench grinder: not in this list"));
}

TEST_CASE("decide/parts: a bench in inches is cut and bought in inches") {
  const decide::PartsList list = list_of(
      "standtrue: 1\nsize: 72 x 24 x 36 in\ntimber: C24 2x4\njoints: corner brackets\n"
      "top: 3/4 in spruce plywood\n");
  CHECK(list.timber.front().stock == "C24 1 1/2 x 3 1/2 in");
  for (const decide::TimberStock& bought : list.timber_stock) {
    CHECK(bought.stock.find("mm") == std::string::npos);
    for (const auto& bar : bought.bars) {
      for (const std::string& piece : bar.pieces) {
        CHECK_MESSAGE(piece.find(" in") != std::string::npos, piece);
      }
    }
  }
}

}  // namespace parts_list_test
