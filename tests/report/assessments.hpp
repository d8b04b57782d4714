#pragma once

#include <limits>
#include <string>

#include "standtrue/decide/assess.hpp"

/// Assessments built by hand, one for each verdict. Their numbers are invented.
namespace standtrue::test {

inline constexpr double no_number = std::numeric_limits<double>::quiet_NaN();

struct Three {
  double soft = 0.0, mean = 0.0, stiff = 0.0;
};

/// A finding with a ratio against strength.
inline check::Finding share_of_strength(std::string id, check::Group group, Three ratio,
                                        check::Judgement judgement) {
  check::Finding f;
  f.id = std::move(id);
  f.group = group;
  f.demand_soft = f.ratio_soft = ratio.soft;
  f.demand = f.ratio = ratio.mean;
  f.demand_stiff = f.ratio_stiff = ratio.stiff;
  f.limit = 1.0;
  f.judgement = judgement;
  f.sentence = "The front top rail uses a third of its bending strength";
  f.place = "front top rail, 940 mm from its left end";
  f.rule = "EN 1995-1-1, 6.1.6, eq. (6.11) and (6.12)";
  f.source = {"EN 338:2016", "Table 1", reference::Status::seen};
  f.combination = "strength-stored";
  return f;
}

inline check::Finding sag(Three demand, double limit, check::Judgement judgement) {
  check::Finding f;
  f.id = "sag/front-top-rail";
  f.group = check::Group::sag;
  f.kind = check::Kind::service;
  f.unit = quantity::Kind::length;
  f.demand_soft = demand.soft;
  f.demand = demand.mean;
  f.demand_stiff = demand.stiff;
  f.limit = limit;
  f.ratio_soft = demand.soft / limit;
  f.ratio = demand.mean / limit;
  f.ratio_stiff = demand.stiff / limit;
  f.judgement = judgement;
  f.sentence = "The front top rail sags 2.5 mm over the years; 6 mm is allowed.";
  f.place = "front top rail, 1000 mm from its left end";
  f.rule = "L/300";
  f.source = {"", "workshop limit", reference::Status::ours};
  f.combination = "service-stored";
  f.hand_check = check::Finding::HandCheck{"5 q L^4 / 384 E I", 0.0031};
  f.working = {"span L = 1874 mm", "E I = 24.6 kN m2"};
  return f;
}

/// Stiffness in N/mm, wanted at least.
inline check::Finding sway(Three stiffness, double wanted, check::Judgement judgement) {
  check::Finding f;
  f.id = "sway/across";
  f.group = check::Group::sway;
  f.kind = check::Kind::service;
  f.unit = quantity::Kind::linear_stiffness;
  f.limit_is_least = true;
  f.demand_soft = stiffness.soft * 1e3;
  f.demand = stiffness.mean * 1e3;
  f.demand_stiff = stiffness.stiff * 1e3;
  f.limit = wanted * 1e3;
  f.ratio_soft = wanted / stiffness.soft;
  f.ratio = wanted / stiffness.mean;
  f.ratio_stiff = wanted / stiffness.stiff;
  f.judgement = judgement;
  f.sentence = "A push of 200 N across the bench moves the worst corner of the top 4.5 mm.";
  f.place = "the top, across the bench, corner front-left";
  f.rule = "sway stiffness of the top for the duty \"general\"";
  f.source = {"", "no standard judges sway under the hand", reference::Status::ours};
  f.advice = "a diagonal or a panel in each end";
  return f;
}

inline check::Finding tips_when_empty() {
  check::Finding f;
  f.id = "tip/empty";
  f.group = check::Group::tip;
  f.kind = check::Kind::caution;
  f.unit = quantity::Kind::force;
  f.demand_soft = f.demand = f.demand_stiff = 300.0;
  f.limit = 176.0;
  f.ratio_soft = f.ratio = f.ratio_stiff = 1.7;
  f.judgement = check::Judgement::satisfied;
  f.sentence = "Empty, it tips at 18 kg of push across";
  return f;
}

inline check::Finding not_looked_at(std::string id) {
  check::Finding f;
  f.id = std::move(id);
  f.kind = check::Kind::caution;
  f.ratio = f.ratio_soft = f.ratio_stiff = no_number;
  f.judgement = check::Judgement::outside_this_tool;
  f.sentence = "Vibration of running machines is not looked at.";
  f.why = "natural frequencies and unbalance";
  return f;
}

inline check::Finding not_judged(std::string id, std::string why) {
  check::Finding f;
  f.id = std::move(id);
  f.group = check::Group::joints;
  f.ratio = f.ratio_soft = f.ratio_stiff = no_number;
  f.why = std::move(why);
  f.sentence = "The strength of this joint is not judged.";
  f.rule = "EN 1995-1-1, Table 8.6";
  f.source = {"EN 1995-1-1", "Table 8.6", reference::Status::from_memory};
  return f;
}

inline decide::Assessment bench_titled(std::string title) {
  decide::Assessment a;
  a.bench.title = std::move(title);
  a.soft.bound = model::Bound::soft;
  a.stiff.bound = model::Bound::stiff;
  a.assumptions = {"I assumed C16 timber: the file names no class"};
  a.cautions = {"A planning aid, not a certificate: timber and workmanship vary.",
                "Fix and guard machines as their makers say."};
  return a;
}

inline decide::Assessment stands() {
  using check::Judgement;
  decide::Assessment a = bench_titled("Low plinth");
  a.verdict = decide::Verdict::stands;
  a.summary = "safe to load, and stiff enough for general work.";
  a.findings = {share_of_strength("bending/front-top-rail", check::Group::carry, {0.31, 0.3, 0.29},
                                  Judgement::satisfied),
                sag({0.0029, 0.0025, 0.0022}, 0.006, Judgement::satisfied),
                sway({45.0, 80.0, 130.0}, 20.0, Judgement::satisfied)};
  return a;
}

inline decide::Assessment depends() {
  using check::Judgement;
  decide::Assessment a = bench_titled("Boiler-side bench");
  a.verdict = decide::Verdict::depends;
  a.summary = "safe to load; may sway too much for general work.";
  a.findings = {share_of_strength("bending/front-top-rail", check::Group::carry, {0.31, 0.3, 0.29},
                                  Judgement::satisfied),
                sag({0.0029, 0.0025, 0.0022}, 0.006, Judgement::satisfied),
                sway({14.0, 22.0, 33.0}, 20.0, Judgement::depends), tips_when_empty(),
                not_looked_at("outside/vibration")};
  return a;
}

inline decide::Assessment carries_but() {
  using check::Judgement;
  decide::Assessment a = bench_titled("Filing bench with a title that is rather long for one line");
  a.verdict = decide::Verdict::carries_but;
  a.summary = "safe to load; sways too much for planing.";
  a.findings = {share_of_strength("bending/front-top-rail", check::Group::carry, {0.31, 0.3, 0.29},
                                  Judgement::satisfied),
                sway({14.0, 22.0, 33.0}, 120.0, Judgement::exceeded)};
  return a;
}

inline decide::Assessment do_not_load() {
  using check::Judgement;
  decide::Assessment a = bench_titled("Thin shelf");
  a.verdict = decide::Verdict::do_not_load;
  a.summary = "the front top rail is overloaded.";
  check::Finding bending = share_of_strength("bending/front-top-rail", check::Group::carry,
                                             {1.62, 1.5, 1.41}, Judgement::exceeded);
  bending.advice = "a deeper rail: 38 x 140 mm carries it";
  a.findings = {bending, sag({0.0190, 0.0171, 0.0160}, 0.006, Judgement::exceeded)};
  return a;
}

inline decide::Assessment unjudged() {
  using check::Judgement;
  decide::Assessment a = bench_titled("");
  a.verdict = decide::Verdict::not_judged;
  a.summary = "not all that keeps it safe can be judged: the screws sit too near the edge.";
  a.findings = {
      share_of_strength("bending/front-top-rail", check::Group::carry, {0.31, 0.3, 0.29},
                        Judgement::satisfied),
      not_judged("joint-strength/front-top-rail-left-end", "the screws sit too near the edge"),
      not_judged("joint-strength/front-top-rail-right-end", "the screws sit too near the edge")};
  return a;
}

}  // namespace standtrue::test
