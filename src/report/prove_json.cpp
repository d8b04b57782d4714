#include "report/json_parts.hpp"
#include "report/words.hpp"
#include "standtrue/report/report.hpp"

namespace standtrue::report {

namespace {

Json trial(const decide::Trial& t) {
  Json lessons = Json::array();
  for (const decide::Lesson& lesson : t.lessons) {
    lessons.push_back(
        {{"of", lesson.of}, {"before", number(lesson.before)}, {"after", number(lesson.after)}});
  }
  const bool is_made = t.why.empty();
  const auto value = [is_made](double v) { return is_made ? number(v) : Json(); };
  return {{"name", t.name},
          {"why_not", t.why},
          {"state", t.state},
          {"act", t.act},
          {"read", t.read},
          {"is_pull", t.is_pull},
          {"force", value(t.force)},
          {"expected", value(t.expected)},
          {"stiff", value(t.stiff)},
          {"soft", value(t.soft)},
          {"gauge", value(t.gauge)},
          {"tips_at", value(t.tips_at)},
          {"slides_at", value(t.slides_at)},
          {"safe", t.safe},
          {"lessons", lessons}};
}

Json told_json(const decide::Told& t) {
  const bool is_used = t.why.empty() && t.fitted > 0.0;
  return {{"test", t.name},
          {"force", number(t.force)},
          {"moved", number(t.moved)},
          {"gauge", number(t.gauge)},
          {"expected", t.why.empty() ? number(t.expected) : Json()},
          {"fitted", is_used ? number(t.fitted) : Json()},
          {"misfit", is_used ? number(t.misfit) : Json()},
          {"contradicts", t.contradicts},
          {"useless", t.is_useless},
          {"why_not", t.why}};
}

Json known_json(const decide::Known& k) {
  return {
      {"of", k.of},
      {"usual",
       {{"low", number(k.usual_low)}, {"median", number(k.usual)}, {"high", number(k.usual_high)}}},
      {"now", {{"low", number(k.low)}, {"median", number(k.median)}, {"high", number(k.high)}}},
      {"narrowed", k.is_narrowed},
      {"far_out", k.is_far_out}};
}

Json verdict(decide::Verdict v, const std::string& summary) {
  return {{"verdict", verdict_key(v)}, {"summary", summary}};
}

Json learned(const decide::Learning& l) {
  Json readings = Json::array(), all = Json::array();
  for (const decide::Told& t : l.readings) readings.push_back(told_json(t));
  for (const decide::Known& k : l.known) all.push_back(known_json(k));
  return {{"readings", readings},
          {"known", all},
          {"timber_joints", number(l.timber_joints)},
          {"before", verdict(l.before, l.summary_before)},
          {"after", l.after ? verdict(*l.after, l.summary_after) : Json()}};
}

}  // namespace

std::string json(const decide::ProvingPlan& plan, const std::string& file,
                 const std::string& version) {
  Json trials = Json::array();
  for (const decide::Trial& t : plan.trials) trials.push_back(trial(t));
  const Json document = {
      {"standtrue_proving", 1}, {"file", file},
      {"version", version},     {"answer", plan.answer},
      {"trials", trials},       {"learned", plan.learned ? learned(*plan.learned) : Json()}};
  return document.dump(2) + "\n";
}

}  // namespace standtrue::report
