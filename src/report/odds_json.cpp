#include "report/json_parts.hpp"
#include "report/words.hpp"
#include "standtrue/report/report.hpp"

namespace standtrue::report {

namespace {

Json share_json(const decide::Share& share) {
  return {{"count", share.count}, {"low", number(share.low)}, {"high", number(share.high)}};
}

Json outcomes_json(const decide::Outcomes& outcomes) {
  return {{"stands", share_json(outcomes.stand)},
          {"carries_but", share_json(outcomes.carry_but)},
          {"do_not_load", share_json(outcomes.do_not_load)}};
}

Json drawn_check(const check::Finding& f) {
  return {
      {"id", f.id},       {"group", group_key(f.group)}, {"kind", kind_key(f.kind)},
      {"place", f.place}, {"ratio", number(f.ratio)},    {"judgement", judgement_key(f.judgement)}};
}

}  // namespace

std::string json(const decide::Odds& odds, const std::string& file, const std::string& version) {
  Json document = {{"standtrue_odds", 1}, {"file", file}, {"version", version}};
  if (!odds.why_none.empty() || !odds.complete) {
    document["why_none"] = odds.why_none.empty() ? "stopped" : odds.why_none;
    return document.dump(2) + "\n";
  }
  Json failing = Json::array(), left_out = Json::array();
  for (const decide::Failing& f : odds.failing) {
    Json one = drawn_check(f.finding);
    one["share"] = share_json(f.share);
    one["ratios"] = {{"low", number(f.ratio_low)},
                     {"median", number(f.ratio_median)},
                     {"high", number(f.ratio_high)}};
    failing.push_back(one);
  }
  for (const check::Finding& f : odds.left_out) left_out.push_back(drawn_check(f));
  if (odds.readings) {
    document["readings"] = {{"used", odds.readings->used},
                            {"agree", odds.readings->agree},
                            {"taught", odds.readings->taught},
                            {"notes", odds.readings->notes}};
  }
  document["drawn"] = odds.drawn;
  document["seed"] = odds.seed;
  document["outcomes"] = outcomes_json(odds.outcomes);
  document["timber_alike"] = outcomes_json(odds.alike);
  document["failing"] = failing;
  document["left_out"] = left_out;
  document["fit"] = {{"solved", odds.fit.solved},
                     {"held_against", odds.fit.held},
                     {"typical_error", number(odds.fit.typical)},
                     {"worst_error", number(odds.fit.worst)},
                     {"other_verdicts", odds.fit.other_verdict}};
  return document.dump(2) + "\n";
}

}  // namespace standtrue::report
