// A machine let down too fast, and a bench dragged by a foot, by hand.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "check/plate_answers.hpp"
#include "check/stem.hpp"
#include "standtrue/check/table_tests.hpp"
#include "standtrue/model/idealise.hpp"
#include "tests/bench/bench_files.hpp"
#include "tests/check/hand_built.hpp"
#include "tests/check/portal.hpp"

namespace drop_test {

using namespace hand_built;
using check::Finding;
using check::Judgement;
using check::Kind;
using doctest::Approx;

namespace {

std::string bench_text(double kg, const char* top = "18 mm birch plywood") {
  return std::string(
             "standtrue: 1\nsize: 1600 x 600 x 900 mm\ntimber: C24 45 x 95 mm\n"
             "joints: two corner brackets\ntop: ") +
         top + "\nmachines:\n  - {kind: drill press, mass: " + std::to_string(kg) +
         " kg, at: [800 mm, 300 mm]}\n  - {kind: small vice, mass: 10 kg, at: [300 mm, 100 mm]}\n";
}

struct Bench {
  model::Model model;
  solve::Response response;
  explicit Bench(const std::string& text) {
    const bench_files::Read read = bench_files::read("bench.yaml", text);
    REQUIRE_MESSAGE(read.bench, read.messages);
    model = *model::idealise(*read.bench, tables()).model;
    auto answer = solve::static_response(model);
    REQUIRE_MESSAGE(answer, answer.error().what);
    response = *std::move(answer);
  }
  [[nodiscard]] std::vector<Finding> drop(const reference::Tables& by = tables()) const {
    const check::Answers answers{model, response};
    return check::drop(answers, check::PlateAnswers(model, response, check::judges_test), by);
  }
};

reference::Tables with_height(double metres) {
  reference::Tables changed = tables();
  for (reference::Constant& c : changed.constants) {
    if (c.key == "drop height") c.value = metres;
  }
  return changed;
}

/// n as it is told.
double told_factor(const Finding& f) {
  const std::string& line = f.working.back();
  return std::stod(line.substr(line.find("n = ") + 4));
}

}  // namespace

TEST_CASE("check/drop: n = 1 + sqrt(1 + 2 h/d), and the energy that it stands for") {
  CHECK(check::drop_factor(0.05, 0.002) == Approx(1.0 + std::sqrt(51.0)));   // 8.14
  CHECK(check::drop_factor(0.05, 0.001) == Approx(1.0 + std::sqrt(101.0)));  // 11.05
  CHECK(check::drop_factor(0.0, 0.001) == Approx(2.0));  // put down at once: double
  for (const double d : {1e-4, 1e-3, 5e-3}) {
    // What falls by h + n d stores n² m g d/2.
    const double h = 0.03, n = check::drop_factor(h, d);
    CHECK(h + n * d == Approx(0.5 * n * n * d));
  }
  CHECK_THROWS_AS((void)check::drop_factor(0.05, 0.0), std::logic_error);
}

TEST_CASE("check/drop: the heaviest machine, from 15 kg on, told or a caution with its force") {
  const Bench bench(bench_text(60));
  const std::vector<Finding> all = bench.drop();
  REQUIRE(all.size() == 1);
  const Finding& f = all.front();
  CHECK(f.id == "drop/drill-press");
  CHECK((f.kind == Kind::caution) == (f.ratio > 1.0));
  CHECK(f.sentence.find("drill press") != std::string::npos);
  CHECK(f.source.key == "EN 1995-1-1");
  CHECK(Bench(bench_text(14)).drop().empty());
}

TEST_CASE("check/drop: what it sinks by at rest is the work of its weight over its weight") {
  // Foot forces hold the weight and one kilogram sinks as any other: twice the mass, twice the sag,
  // n = 1 + sqrt(1 + 2 h/2d).
  const double n = told_factor(Bench(bench_text(30)).drop().front());
  const double twice = told_factor(Bench(bench_text(60)).drop().front());
  const double d = 2.0 * 0.05 / ((n - 1.0) * (n - 1.0) - 1.0);
  CHECK(twice == Approx(check::drop_factor(0.05, 2.0 * d)).epsilon(0.005));  // two printed decimals
  // A softer top is fallen on more softly.
  CHECK(told_factor(Bench(bench_text(60, "12 mm birch plywood")).drop().front()) < twice);
}

TEST_CASE(
    "check/drop: the ratio is that of the bench and n times the machine, gamma_M of accidents") {
  const Bench bench(bench_text(60));
  const Finding low = bench.drop(with_height(0.0)).front();
  const Finding middle = bench.drop(with_height(0.02)).front();
  const Finding high = bench.drop(with_height(0.05)).front();
  CHECK(told_factor(low) == Approx(2.0));
  CHECK(low.ratio < middle.ratio);
  CHECK(middle.ratio < high.ratio);
  // The same place fails first, so the ratio is a straight line over n (two printed decimals).
  REQUIRE(low.place == high.place);
  const double share = (told_factor(middle) - 2.0) / (told_factor(high) - 2.0);
  CHECK(middle.ratio - low.ratio == Approx(share * (high.ratio - low.ratio)).epsilon(0.01));
}

TEST_CASE("check/drop: a machine that tips the bench as it comes down, or that has no answer") {
  // On an overhang, 100 mm inside the front edge and so some 100 mm before the feet: the bench
  // weighs about 250 N with its middle some 200 mm behind them, which holds 180 N there and not 20
  // times that.
  const std::string text =
      "standtrue: 1\nsize: 1600 x 600 x 900 mm\ntimber: C24 45 x 95 mm\n"
      "joints: two corner brackets\n"
      "top: {sheet: 18 mm birch plywood, overhang: {front: 200 mm, back: 25 mm}}\n"
      "machines:\n  - {kind: vice, at: [800 mm, 100 mm]}\n";
  const Bench bench(text);
  const Finding f = bench.drop().front();
  CHECK(f.kind == Kind::caution);
  CHECK(std::isinf(f.ratio));
  CHECK(f.sentence.find("Lower the vice gently: dropped by 50 mm it presses with up to ") == 0);
  CHECK(f.sentence.find("and the bench tips.") != std::string::npos);

  Bench refused(bench_text(60));
  for (auto& state : refused.response.states) {
    state = tl::unexpected(solve::Refusal{solve::Refusal::Why::audit_failed, "no audit", "", {}});
  }
  const Finding unknown = refused.drop().front();
  CHECK(unknown.kind == Kind::told);
  CHECK(unknown.judgement == Judgement::not_judged);
  CHECK(unknown.why == "no audit");
}

TEST_CASE(
    "check/drop: a bench that tips without its machine says so, not that its top is no plate") {
  Bench bench(bench_text(60));
  REQUIRE(bench.drop().front().judgement != Judgement::not_judged);
  for (std::size_t c = 0; c < bench.model.combinations.size(); ++c) {
    if (bench.model.combinations[c].name != "test-empty") continue;
    bench.response.states[c] =
        tl::unexpected(solve::Refusal{solve::Refusal::Why::tips, "the frame tips", "", {}});
  }
  const Finding f = bench.drop().front();
  CHECK(f.judgement == Judgement::not_judged);
  CHECK(f.kind == Kind::told);
  CHECK(f.why == "the frame tips");
}

TEST_CASE("check/drop: joints, timber and sheets have the partial factor of an accident, 1.0") {
  // EN 1995-1-1, Table 2.3. With 1.2 in its place all is 1.2 times as bad, whatever fails first.
  reference::Tables usual = tables();
  for (reference::Constant& c : usual.constants) {
    if (c.key == "gamma_M accidental") c.value = 1.2;
  }
  const Bench thick(bench_text(60)), thin(bench_text(60, "9 mm spruce plywood"));
  CHECK(thick.drop()[0].place.find("top rail, ") != std::string::npos);  // one of four alike joints
  CHECK(thin.drop()[0].place.find("top, ") == 0);                        // the sheet
  for (const Bench* bench : {&thick, &thin}) {
    CHECK(bench->drop(usual)[0].ratio == Approx(1.2 * bench->drop()[0].ratio).epsilon(1e-6));
  }
}

namespace {

/// The portal of C24 posts 90 x 90 mm, its rail along at 700 mm, tops at 900 mm.
portal::Built dragged() { return portal::build({}); }

std::vector<Finding> drag(const portal::Built& built) {
  const portal::Solved solved{built.model, {}};
  return check::drag(solved.answers(), tables());
}

}  // namespace

TEST_CASE("check/drag: 300 N at a foot bends the post as a cantilever up to its lowest rail") {
  // Along: 300 x 0.7; across no rail holds it, 300 x 0.9 = 270 N m: 6 M/b^3 = 2.222 N/mm2 against
  // 1.1 x (150/90)^0.2 x 24/1.3 (EN 1995-1-1, 3.2(3)).
  portal::Built built = dragged();
  const std::vector<Finding> all = drag(built);
  REQUIRE(all.size() == 1);
  const double f_m_d = 1.1 * std::pow(150.0 / 90.0, 0.2) * 24e6 / 1.3;
  CHECK(all[0].ratio == Approx(6 * 270 / std::pow(0.09, 3) / f_m_d).epsilon(1e-6));
  CHECK(all[0].kind == Kind::told);
  CHECK(all[0].id == "drag/left-foot");
  // A rail across at 200 mm leaves the way along: 210 N m.
  bench::Rail across = built.model.parts.bench.rails[0];
  across.along_x = false;
  across.height = metres(0.2);
  built.model.parts.bench.rails.push_back(across);
  CHECK(drag(built)[0].ratio == Approx(6 * 210 / std::pow(0.09, 3) / f_m_d).epsilon(1e-6));
}

TEST_CASE("check/drag: a long bare stem bends first, N/A + H e/W_pl") {
  portal::Built built = dragged();
  for (bench::Post& post : built.model.parts.bench.posts) post.foot.extension = metres(0.06);
  const bench::Foot& foot = built.model.parts.bench.posts[0].foot;
  // M10: root 8.16 mm, W_pl = d^3/6 = 90.6 mm3, 300 x 60 mm = 18 N m: 199 N/mm2.
  CHECK(check::stem_stress(foot, 0.06, 0.0, 300.0) == Approx(18.0 / 9.056e-8).epsilon(1e-3));
  CHECK(check::stem_stress(foot, 0.06, -580.0, 0.0) == Approx(10e6).epsilon(1e-6));  // A = 58 mm2
  const std::vector<Finding> all = drag(built);
  const double ratio = 18.0 / 9.056e-8 / quantity::in_si(foot.thread.f_y);
  CHECK(all[0].ratio == Approx(ratio).epsilon(1e-3));
  CHECK((all[0].kind == Kind::caution) == (ratio > 1.0));
  for (bench::Post& post : built.model.parts.bench.posts) post.foot.extension = metres(0.12);
  const std::vector<Finding> longer = drag(built);
  CHECK(longer[0].ratio == Approx(2.0 * ratio).epsilon(1e-3));
  CHECK(longer[0].kind == Kind::caution);
  CHECK(longer[0].sentence.find("Lift the bench, do not drag it: 300 N at the left foot") == 0);
  CHECK(longer[0].advice.find("turn the feet in") != std::string::npos);
}

TEST_CASE("check/drag: a stem turned out for the fall of the floor, 60 + 1400/35 = 100 mm") {
  portal::Built built = dragged();
  for (bench::Post& post : built.model.parts.bench.posts) post.foot.extension = metres(0.06);
  built.model.parts.bench.floor.fall_x = 1.0 / 35.0;  // feet 1.4 m apart
  const std::vector<Finding> all = drag(built);
  CHECK(all[0].id == "drag/right-foot");
  // 300 N x 100 mm on W_pl = 90.56 mm3 of M10 against 240 N/mm2 (class 4.6)
  CHECK(all[0].ratio == Approx(30.0 / 9.056e-8 / 240e6).epsilon(1e-3));
}

TEST_CASE("check/drag: what is held or rolls is not dragged") {
  portal::Built built = dragged();
  for (bench::Post& post : built.model.parts.bench.posts) {
    post.foot.castor = tables().castors.front();
  }
  CHECK(drag(built).empty());
  built = dragged();
  built.model.parts.bench.wall.push_back({"rail", metres(0.5)});
  CHECK(drag(built).empty());
}

TEST_CASE("check/drag: thin posts that it breaks want to be lifted, or a lower rail") {
  // 38 x 38 mm and nothing that holds them across: 270 N m on 9145 mm3, 29.5 N/mm2, against 1.1 x
  // 1.3 x 24/1.3 (EN 1995-1-1, 3.2(3): k_h at most 1.3).
  portal::Built built = portal::build({.post = 0.038, .rail_width = 0.03});
  for (bench::Post& post : built.model.parts.bench.posts) post.foot.extension = metres(0.005);
  const std::vector<Finding> all = drag(built);
  REQUIRE(all.size() == 1);
  CHECK(all[0].ratio == Approx(6 * 270 / std::pow(0.038, 3) / (1.1 * 24e6)).epsilon(1e-6));
  CHECK(all[0].kind == Kind::caution);
  CHECK(all[0].sentence.find("loads its post in bending to") != std::string::npos);
  CHECK(all[0].advice ==
        "lift it with two people; a lower rail nearer to the floor holds the posts");
}

TEST_CASE("check/drag: without feet nothing is dragged, without a strength it is not known") {
  portal::Built built = dragged();
  built.model.parts.feet.clear();
  CHECK(drag(built).empty());
  built = dragged();
  built.model.parts.bench.air.service_class = reference::ServiceClass::sc3;
  for (model::Part& part : built.model.parts.parts) {
    part.timber.material = reference::Material::mdf;
  }
  const std::vector<Finding> all = drag(built);
  REQUIRE(all.size() == 1);
  CHECK(all[0].judgement == Judgement::not_judged);
  CHECK(all[0].why == "the code gives no strength of MDF in air of service class 3");
  CHECK(all[0].sentence == "Whether it may be dragged by one foot is not known.");
}

}  // namespace drop_test
