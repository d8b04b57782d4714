#include "standtrue/decide/picture.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "standtrue/decide/parts_list.hpp"
#include "tests/bench/bench_files.hpp"

namespace picture_test {

using namespace standtrue;
using bench_files::tables;
using decide::AxisLine;
using decide::AxisPoint;
using decide::Picture;
using decide::Place;
using decide::Solid;
using doctest::Approx;
using quantity::in_si;

namespace {

double length_of(const Place& a, const Place& b) {
  return std::hypot(b[0] - a[0], b[1] - a[1], b[2] - a[2]);
}

/// Of a block with right angles.
double volume_of(const Solid& s) {
  return length_of(s.corners[0], s.corners[1]) * length_of(s.corners[0], s.corners[2]) *
         length_of(s.corners[0], s.corners[4]);
}

/// Rails on pins, loaded by what is stored on a top that rests on them alone.
decide::Assessment pinned() {
  return decide::assess(
      bench_files::sound(
          "standtrue: 1\nsize: 1880 x 590 x 860 mm\ntimber: C24 45 x 95 mm\njoints: pinned\n"
          "rails: {lower: none}\nbraces: [{side: back}, {side: front}, {side: left}, {side: "
          "right}]\n"
          "top: {sheet: 18 mm spruce plywood, load: 100 kg/m2}\nanalysis: {sheets: none}\n"),
      tables());
}

struct Drawn {
  decide::Assessment judged =
      decide::assess(bench_files::sound(bench_files::small_bench("")), tables());
  Picture picture = decide::picture_of(judged, tables());
};

/// Judged and drawn once: nobody changes it.
const Drawn& small_bench() {
  static const Drawn drawn;
  return drawn;
}

const AxisLine& line_of(const decide::FrameShape& shape, const std::string& piece) {
  const auto found = std::find_if(shape.lines.begin(), shape.lines.end(),
                                  [&](const AxisLine& l) { return l.piece == piece; });
  REQUIRE(found != shape.lines.end());
  return *found;
}

const AxisPoint& nearest(const AxisLine& line, double x) {
  return *std::min_element(line.points.begin(), line.points.end(),
                           [x](const AxisPoint& a, const AxisPoint& b) {
                             return std::abs(a.at[0] - x) < std::abs(b.at[0] - x);
                           });
}

}  // namespace

TEST_CASE("decide/picture: solids hold as much timber as the parts list buys (own count)") {
  const bench::Bench bench = bench_files::sound(bench_files::small_bench(""));
  double drawn = 0.0, listed = 0.0;
  for (const Solid& s : decide::solids_of(bench, std::nullopt)) {
    if (s.of == Solid::Of::post || s.of == Solid::Of::rail) drawn += volume_of(s);
  }
  for (const decide::TimberPiece& piece : decide::parts_list(bench, tables()).timber) {
    listed += piece.count * in_si(piece.length) * in_si(piece.thickness) * in_si(piece.depth);
  }
  CHECK(drawn == Approx(listed).epsilon(1e-3));  // pieces are listed to half a millimetre
}

TEST_CASE("decide/picture: a sheet loses the area of its cut-outs, and no more (area)") {
  const bench::Bench bench = bench_files::sound(
      bench_files::small_bench("shelf: {sheet: 12 mm spruce plywood, cut_outs: [{from: [300 mm, "
                               "100 mm], to: [500 mm, 250 mm]}, "
                               "{from: [400 mm, 300 mm], to: [700 mm, 350 mm]}]}\n"));
  const bench::Sheet& shelf = bench_files::named(bench.sheets, "shelf");
  double area = 0.0;
  for (const Solid& s : decide::solids_of(bench, std::nullopt)) {
    if (s.name != "shelf") continue;
    area += length_of(s.corners[0], s.corners[1]) * length_of(s.corners[0], s.corners[2]);
  }
  double left = in_si(shelf.x1 - shelf.x0) * in_si(shelf.y1 - shelf.y0);
  for (const bench::Sheet::CutOut& cut : shelf.cut_outs) {
    left -= in_si(cut.x1 - cut.x0) * in_si(cut.y1 - cut.y0);
  }
  REQUIRE(shelf.cut_outs.size() >= 2);
  CHECK(area == Approx(left).epsilon(1e-9));
}

TEST_CASE("decide/picture: the moment of a pinned rail is a parabola on its lower side (statics)") {
  const decide::Assessment a = pinned();
  const Picture picture = decide::picture_of(a, tables());
  REQUIRE(picture.loaded);
  const AxisLine& rail = line_of(*picture.loaded, "front top rail");
  const double from = rail.points.front().at[0], length = rail.points.back().at[0] - from;
  const AxisPoint& middle = nearest(rail, from + 0.5 * length);
  const AxisPoint& quarter = nearest(rail, from + 0.25 * length);
  CHECK(middle.moment[2] < 0.0);  // tension below: it sags
  CHECK(middle.moved[2] < 0.0);
  // M = 4 M_0 s (1 - s) under an even load, s along the span.
  const auto parabola = [&](const AxisPoint& p) {
    const double s = (p.at[0] - from) / length;
    return 4.0 * s * (1.0 - s);
  };
  CHECK(quarter.moment[2] / middle.moment[2] ==
        Approx(parabola(quarter) / parabola(middle)).epsilon(2e-2));  // its pieces weigh unevenly
  CHECK(std::abs(rail.points.front().moment[2]) < 1e-6 * std::abs(middle.moment[2]));
}

TEST_CASE("decide/picture: moments lie on the side towards which a piece bulges (E I w'' = -M)") {
  const Picture& picture = small_bench().picture;
  constexpr std::size_t per_member = 9;
  for (const auto& shape : {picture.pushed_along, picture.pushed_across}) {
    REQUIRE(shape);
    double with = 0.0, against = 0.0;  // of both ways that a piece bends
    for (const AxisLine& line : shape->lines) {
      for (std::size_t i = 1; i + 1 < line.points.size(); ++i) {
        if (i % per_member == 0 || i % per_member == per_member - 1) continue;  // ends of members
        const auto& p = line.points;
        const Place &before = p[i - 1].moved, &here = p[i].moved, &after = p[i + 1].moved;
        const double h = length_of(p[i].at, p[i + 1].at);
        for (std::size_t d = 0; d < 3; ++d) {
          const double bulge = -(before[d] - 2.0 * here[d] + after[d]) / (h * h);
          (bulge * p[i].moment[d] >= 0.0 ? with : against) += std::abs(bulge * p[i].moment[d]);
        }
      }
    }
    CHECK(with > 0.0);
    CHECK(against < 1e-6 * with);
  }
}

TEST_CASE("decide/picture: sway at the mean stiffness is that of the finding (two roads)") {
  const Picture& picture = small_bench().picture;
  const auto mean = std::find_if(picture.sways.begin(), picture.sways.end(),
                                 [](const auto& p) { return std::abs(p.joints - 1.0) < 1e-9; });
  REQUIRE(mean != picture.sways.end());
  for (const check::Finding& f : small_bench().judged.findings) {
    if (f.id == "sway/along") CHECK(mean->along == Approx(f.demand).epsilon(1e-6));
    if (f.id == "sway/across") CHECK(mean->across == Approx(f.demand).epsilon(1e-6));
  }
  // Softer joints never stiffen it.
  for (std::size_t i = 1; i < picture.sways.size(); ++i) {
    CHECK(picture.sways[i].along >= picture.sways[i - 1].along * (1.0 - 1e-9));
  }
}

TEST_CASE("decide/picture: feet carry what weighs on the bench (equilibrium)") {
  const decide::Assessment a = decide::assess(
      bench_files::sound(
          bench_files::small_bench("machines: [{kind: drill press, mass: 60 kg, at: middle}]\n")),
      tables());
  const Picture picture = decide::picture_of(a, tables());
  double pressed = 0.0, weighs = 0.0;
  for (const decide::FootPress& foot : picture.feet) pressed += foot.mean;
  for (const model::Weight& w : a.mean.idealisation.model->parts.weights) weighs += in_si(w.force);
  CHECK(pressed == Approx(weighs).epsilon(1e-6));
}

TEST_CASE("decide/picture: the string's sag is the greatest along the top, nought at its ends") {
  const Picture& picture = small_bench().picture;
  REQUIRE(picture.string);
  const auto& below = picture.string->below;
  CHECK(below.front()[1] == Approx(0.0));
  CHECK(below.back()[1] == Approx(0.0));
  for (const auto& [x, w] : below) CHECK(w <= picture.string->most * (1.0 + 1e-12));
}

TEST_CASE("decide/picture: findings are placed on what they speak of (own geometry)") {
  const bench::Bench bench = bench_files::sound(bench_files::small_bench(
      "machines: [{kind: drill press, mass: 60 kg, at: [900 mm, 300 mm]}]\n"));
  const decide::Assessment a = decide::assess(bench, tables());
  const Picture picture = decide::picture_of(a, tables());
  const bench::Rail& rail = bench_files::named(bench.rails, "front top rail");
  const bench::Post& left = bench.posts[rail.from];
  const Place& joint = picture.places.at("joint/front-top-rail-left-end");
  CHECK(joint[0] == Approx(in_si(left.x) + 0.5 * in_si(left.along_x)));
  CHECK(joint[2] == Approx(in_si(rail.height)));
  const Place& pads = picture.places.at("punching/drill-press");
  CHECK(pads[0] == Approx(in_si(bench.machines[0].x)));
  const Place& head = picture.places.at("tipping/machine-top");
  CHECK(head[0] == Approx(in_si(bench.machines[0].x)));
  CHECK(head[2] == Approx(pads[2] + in_si(bench.machines[0].kind.height)));
  CHECK(picture.places.count("frame/buckling") == 0);  // of the whole bench
}

TEST_CASE("decide/picture: names are found as whole words, and none without a letter is") {
  const bench::Bench bench = bench_files::sound(bench_files::small_bench(
      "machines: [{kind: drill press, name: a, mass: 60 kg, at: [900 mm, 300 mm]}, {kind: bench "
      "grinder, name: \"\u00e9\u00e9\", at: [300 mm, 300 mm]}]\n"));
  const decide::Assessment a = decide::assess(bench, tables());
  const Picture picture = decide::picture_of(a, tables());
  CHECK(picture.places.count("frame/buckling") == 0);
  CHECK(picture.places.count("punching/a") == 1);
}

TEST_CASE("decide/picture: the top is as high as the file has it (own arithmetic)") {
  std::size_t differ = 0;
  for (const reference::Panel& panel : tables().panels) {
    differ += std::abs(in_si(panel.nominal - panel.thickness)) > 1e-6 ? 1 : 0;
  }
  CHECK(differ > 0);  // some boards are not as thick as they are called
  for (const char* board : {"18 mm spruce plywood", "18 mm birch plywood", "25 mm MDF"}) {
    const bench::Bench bench = bench_files::sound(
        std::string("standtrue: 1\nsize: 1500 x 600 x 900 mm\ntimber: C24 45 x 95 mm\njoints: two "
                    "corner brackets\ntop: ") +
        board + "\n");
    double top = 0.0;
    for (const Solid& s : decide::solids_of(bench, std::nullopt)) {
      for (const Place& corner : s.corners) top = std::max(top, corner[2]);
    }
    CHECK(top == Approx(0.9));
  }
}

TEST_CASE("decide/picture: a frame that can move has solids and nothing else") {
  const decide::Assessment a = decide::assess(
      bench_files::sound("standtrue: 1\nsize: 1880 x 590 x 860 mm\ntimber: C16 38 x 89 mm\n"
                         "joints: pinned\ntop: 18 mm spruce plywood\nanalysis: {sheets: none}\n"),
      tables());
  const Picture picture = decide::picture_of(a, tables());
  CHECK(!picture.solids.empty());
  CHECK(!picture.loaded);
  CHECK(picture.swings.empty());
  CHECK(picture.sways.empty());
}

}  // namespace picture_test
