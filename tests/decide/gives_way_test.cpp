// A bench whose frame gives way at soft joints, and holds at mean ones.
#include <doctest/doctest.h>

#include <cmath>
#include <string>

#include "decide/findings.hpp"
#include "standtrue/decide/assess.hpp"
#include "tests/bench/bench_files.hpp"

namespace gives_way_test {

using namespace standtrue;
using bench_files::tables;
using check::Finding;
using check::Judgement;

TEST_CASE("decide/assess: what parts hold where the frame gives way is no number (own rule)") {
  const decide::Assessment a = decide::assess(bench_files::sound(R"(
standtrue: 1
size: 1600 x 700 x 900 mm
timber: C24 45 x 145 mm
air: heated
posts: 95 x 95 mm
joints: corner brackets
rails: {top: {long: {seat: on top, notch: 70 mm}}}
top: {sheet: 25 mm MDF, load: 100 kg}
shelf: none
)"),
                                              tables());
  const Finding* frame = decide::with_id(a.findings, "frame/buckling");
  REQUIRE(frame);
  CHECK(frame->judgement == Judgement::depends);
  CHECK(frame->ratio_soft > 0.95);  // its own number stays
  const Finding* top = decide::with_id(a.findings, "sheet-bending/top");
  REQUIRE(top);
  CHECK(std::isnan(top->ratio_soft));
  CHECK(std::isnan(top->ratio_poor));
  // Over at every bound that has a number.
  CHECK(top->ratio > 1.0);
  CHECK(top->ratio_stiff > 1.0);
  CHECK(top->judgement == Judgement::exceeded);
  // What is over where the frame gives way stays so, and what is met elsewhere is not unknown.
  const Finding* joints = decide::with_id(a.findings, "joint-sum/along");
  REQUIRE(joints);
  CHECK(joints->ratio_soft > 1.0);
  const Finding* notch = decide::with_id(a.findings, "notch/front-top-rail");
  REQUIRE(notch);
  CHECK(std::isnan(notch->ratio_soft));
  CHECK(notch->judgement == Judgement::satisfied);
}

TEST_CASE("decide/assess: a frame too soft for its load and joints too stiff for a shove") {
  const decide::Assessment a = decide::assess(bench_files::sound(R"(
standtrue: 1
size: 2400 x 800 x 900 mm
timber: C24 45 x 195 mm
posts: 140 x 140 mm
joints: {kind: bolted lap, bolts: M12, first: 85 mm, pitch: 60 mm}
rails: {seat: on post face, lower: none}
air: outdoors
bought: damp
top: {sheet: 21 mm birch plywood, load: 200 kg}
shelf: none
feet: none
)"),
                                              tables());
  const Finding* none = decide::with_id(a.findings, "joint-choice");
  REQUIRE(none);
  CHECK(none->judgement == Judgement::exceeded);
  CHECK(a.verdict == decide::Verdict::do_not_load);
  CHECK(a.summary == "it fails however its joints turn out.");
  CHECK(decide::with_id(a.findings, "frame/buckling")->judgement == Judgement::depends);
}

}  // namespace gives_way_test
