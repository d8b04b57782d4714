#include <doctest/doctest.h>

#include <cmath>
#include <limits>

#include "decide/summary.hpp"
#include "standtrue/decide/assess.hpp"

namespace merge_test {

using namespace standtrue;
using check::Finding;
using check::Group;
using check::Judgement;
using check::Kind;
using decide::merge;
using decide::Verdict;
using decide::verdict_of;

namespace {

Finding finding(const std::string& id, double ratio, Kind kind = Kind::safety,
                Group group = Group::carry) {
  Finding f;
  f.id = id;
  f.kind = kind;
  f.group = group;
  f.ratio = ratio;
  f.demand = 10.0 * ratio;
  f.place = "front top rail, 900 mm from its left end";
  f.judgement = check::judge(ratio);
  f.working = {id + " at " + std::to_string(ratio)};
  return f;
}

constexpr double unknown = std::numeric_limits<double>::quiet_NaN();

Verdict verdict(std::vector<Finding> findings) { return verdict_of(findings); }

Finding depends(Kind kind, Group group) {
  Finding f = finding("x", 0.5, kind, group);
  f.judgement = Judgement::depends;
  return f;
}

}  // namespace

TEST_CASE("decide/merge: ranges of soft and stiff, the rest of mean") {
  const auto all = merge({finding("a", 0.9)}, {finding("a", 0.6)}, {finding("a", 0.3)});
  REQUIRE(all.size() == 1);
  CHECK(all[0].ratio == 0.6);
  CHECK(all[0].ratio_soft == 0.9);
  CHECK(all[0].ratio_stiff == 0.3);
  CHECK(all[0].demand == doctest::Approx(6.0));
  CHECK(all[0].demand_soft == doctest::Approx(9.0));
  CHECK(all[0].demand_stiff == doctest::Approx(3.0));
  CHECK(all[0].working == finding("a", 0.6).working);
  CHECK(all[0].judgement == Judgement::satisfied);
}

TEST_CASE("decide/merge: a judgement that flips depends, whichever way") {
  const auto judgement = [](double soft, double mean, double stiff, Kind kind = Kind::safety) {
    return merge({finding("a", soft, kind)}, {finding("a", mean, kind)},
                 {finding("a", stiff, kind)})
        .at(0)
        .judgement;
  };
  CHECK(judgement(1.2, 0.9, 0.5) == Judgement::depends);
  CHECK(judgement(0.5, 0.9, 1.2) == Judgement::depends);
  CHECK(judgement(0.9, 1.2, 0.9) == Judgement::depends);
  CHECK(judgement(1.3, 1.2, 1.1) == Judgement::exceeded);
  CHECK(judgement(1.0, 1.0, 1.0) == Judgement::satisfied);
  CHECK(judgement(unknown, 0.9, 0.5) == Judgement::not_judged);
  CHECK(judgement(0.9, 0.9, unknown) == Judgement::not_judged);
  CHECK(judgement(1.2, unknown, unknown) == Judgement::depends);
  CHECK(judgement(1.2, 1.1, unknown) == Judgement::exceeded);
  CHECK(judgement(0.9, unknown, 0.9) == Judgement::not_judged);
  CHECK(judgement(1.2, 0.9, 0.5, Kind::caution) == Judgement::satisfied);  // only told
}

TEST_CASE("decide/merge: what is exceeded is told by a bound that was judged") {
  Finding silent = finding("a", unknown);
  silent.why = "the frame slides";
  const auto all =
      merge({finding("a", 1.2)}, {silent}, {finding("a", unknown)}, {finding("a", 1.4)});
  REQUIRE(all.size() == 1);
  CHECK(all[0].judgement == Judgement::depends);
  CHECK(std::isnan(all[0].ratio));  // nothing is known of mean joints
  CHECK(all[0].ratio_poor == 1.4);
  CHECK(all[0].why.empty());
  CHECK(all[0].working == finding("a", 1.4).working);
  CHECK(std::isnan(all[0].ratio_stiff));
  CHECK(merge({finding("a", 1.2)}, {silent}, {finding("a", 0.9)})[0].judgement ==
        Judgement::depends);
  CHECK(merge({finding("a", 0.8)}, {silent}, {finding("a", 0.9)})[0].why == silent.why);
}

TEST_CASE("decide/merge: what only one bound has is kept, with its own numbers") {
  const auto all = merge({finding("soft", 0.7)}, {finding("mean", 0.6)}, {finding("stiff", 0.5)});
  REQUIRE(all.size() == 3);
  CHECK(all[0].id == "soft");  // worst first
  CHECK(all[0].ratio_stiff == 0.7);
  CHECK(all[2].id == "stiff");
  CHECK(merge({}, {}, {}).empty());
}

TEST_CASE("decide/merge: a check at one bound may bring its own range") {
  Finding hum = finding("hum/grinder", 1.5, Kind::service, Group::hum);
  hum.ratio_soft = 3.0;
  hum.ratio_stiff = 0.5;
  Finding all = merge({}, {hum}, {}).at(0);
  CHECK(all.ratio_soft == 3.0);
  CHECK(all.ratio_stiff == 0.5);
  CHECK(all.judgement == Judgement::depends);
  hum.ratio_stiff = 1.2;
  CHECK(merge({}, {hum}, {}).at(0).judgement == Judgement::exceeded);
  hum.kind = Kind::told;
  hum.judgement = Judgement::satisfied;
  CHECK(merge({}, {hum}, {}).at(0).judgement == Judgement::satisfied);
}

TEST_CASE("decide/merge: what has no answer at one bound alone depends") {
  const Finding tips = finding("unanswered/tips", 2.0);
  CHECK(merge({tips}, {}, {}).at(0).judgement == Judgement::depends);
  CHECK(merge({tips}, {tips}, {}).at(0).judgement == Judgement::depends);
  CHECK(merge({tips}, {tips}, {tips}).at(0).judgement == Judgement::exceeded);
}

TEST_CASE("decide/merge: what one bound could not judge says why, though others hold") {
  Finding silent = finding("a", unknown);
  silent.why = "the frame slides";
  const auto all = merge({silent}, {finding("a", 0.9)}, {finding("a", 0.8)});
  REQUIRE(all.size() == 1);
  CHECK(all[0].judgement == Judgement::not_judged);
  CHECK(all[0].why == "the frame slides");
}

TEST_CASE("decide/merge: by group, then what is wrong, may be, is unknown, holds, is told") {
  Finding outside = finding("outside", 0.1);
  outside.judgement = Judgement::outside_this_tool;
  const std::vector<Finding> mean{finding("sag", 5.0, Kind::service, Group::sag),
                                  finding("told", 9.0, Kind::caution),
                                  finding("holds", 0.4),
                                  finding("holds well", 0.2),
                                  outside,
                                  finding("unknown", unknown),
                                  finding("flips", 0.9),
                                  finding("fails", 1.5),
                                  finding("fails badly", 2.5)};
  std::vector<Finding> soft = mean;
  soft[6] = finding("flips", 1.1);
  std::vector<std::string> order;
  for (const Finding& f : merge(soft, mean, mean)) order.push_back(f.id);
  CHECK(order == std::vector<std::string>{"fails badly", "fails", "flips", "unknown", "holds",
                                          "holds well", "outside", "told", "sag"});
}

TEST_CASE("decide/verdict: safety first; nothing judged is not a clean verdict") {
  const Finding holds = finding("a", 0.5);
  const Finding sags = finding("b", 1.5, Kind::service, Group::sag);
  const Finding fails = finding("c", 1.5);
  const Finding not_known = finding("d", unknown);
  CHECK(verdict({}) == Verdict::not_judged);
  CHECK(verdict({sags}) == Verdict::not_judged);
  CHECK(verdict({holds}) == Verdict::stands);
  CHECK(verdict({holds, sags}) == Verdict::carries_but);
  CHECK(verdict({holds, finding("e", unknown, Kind::service)}) == Verdict::stands);
  CHECK(verdict({holds, sags, depends(Kind::service, Group::sway)}) == Verdict::depends);
  CHECK(verdict({holds, depends(Kind::safety, Group::joints)}) == Verdict::depends);
  CHECK(verdict({not_known, sags, depends(Kind::safety, Group::joints)}) == Verdict::not_judged);
  CHECK(verdict({not_known, fails}) == Verdict::do_not_load);
  CHECK(verdict({holds, finding("f", 3.0, Kind::caution), finding("g", unknown, Kind::caution)}) ==
        Verdict::stands);
}

TEST_CASE("decide/summary: one sentence that names what governs") {
  bench::Bench bench;
  bench.duty.key = "planing";
  const auto summary = [&](const std::vector<Finding>& findings) {
    return decide::summary_of(verdict_of(findings), findings, bench);
  };
  const Finding holds = finding("a", 0.5);
  Finding sways = depends(Kind::service, Group::sway);
  CHECK(summary({holds, sways}) == "safe to load; may sway too much for planing.");
  sways.judgement = Judgement::exceeded;
  const Finding sags = finding("s", 1.5, Kind::service, Group::sag);
  CHECK(summary({holds, sags, sways}) ==
        "safe to load; the front top rail sags too much and sways too much for planing.");
  CHECK(summary({holds, sags, depends(Kind::service, Group::sway)}) ==
        "safe to load; the front top rail sags too much; may sway too much for planing.");
  CHECK(summary({holds, depends(Kind::service, Group::sag)}) ==
        "safe to load; the front top rail may sag too much.");
  CHECK(summary({depends(Kind::safety, Group::joints), sags}) ==
        "measure first: its joints may be overloaded; the front top rail sags too much.");
  CHECK(summary({depends(Kind::safety, Group::carry)}) ==
        "measure first: the front top rail may be overloaded.");
  CHECK(summary({depends(Kind::safety, Group::tip), depends(Kind::safety, Group::slide)}) ==
        "measure first: it may tip and it may slide away.");
  const auto fails = [](Group group) { return finding("f", 1.5, Kind::safety, group); };
  CHECK(summary({fails(Group::carry), fails(Group::carry)}) == "the front top rail is overloaded.");
  CHECK(summary(
            {fails(Group::carry), fails(Group::joints), fails(Group::tip), fails(Group::slide)}) ==
        "the front top rail is overloaded, its joints are overloaded, it can tip and 1 more.");
  Finding foot = fails(Group::feet);
  foot.place = "front-left foot";
  CHECK(summary({foot}) == "the front-left foot is overloaded.");
  foot.id = "foot/keep-off";
  CHECK(summary({foot}) == "the front-left foot stands too near to barred floor.");
  Finding glue = finding("sheet-glue/top", 1.5, Kind::safety, Group::sheet);
  glue.place = "top on the front top rail, 100 mm along it";
  CHECK(summary({glue}) == "the glue of the top on the front top rail is overloaded.");
  Finding moves = finding("frame/moves", 1.5);
  CHECK(summary({moves}) == "the frame can move.");
  Finding missing = finding("m", unknown);
  missing.why = "the rolling shear strength of MDF along its grain is not known";
  CHECK(summary({missing}) == "not all that keeps it safe can be judged: " + missing.why + ".");
  missing.why.clear();
  CHECK(summary({missing}) == "not all that keeps it safe can be judged: " + missing.place + ".");
  CHECK(summary({}) == "nothing that keeps it safe could be judged.");
  CHECK(summary({holds}) == "safe to load, and stiff enough for planing.");
  bench.duty.key = "general";
  CHECK(summary({holds}) == "safe to load, and stiff enough for general work.");
  bench.duty.key.clear();
  CHECK(summary({holds}) == "safe to load, and stiff enough for its work.");
}

TEST_CASE("decide/merge: what is as bad as each other stays in the order of the parts") {
  const auto all = merge(
      {}, {finding("back", 0.5), finding("front", 0.5 * (1.0 + 1e-9)), finding("c", 0.6)}, {});
  REQUIRE(all.size() == 3);
  CHECK(all[0].id == "c");
  CHECK(all[1].id == "back");
  CHECK(all[2].id == "front");
}

}  // namespace merge_test
