#include "standtrue/check/table_tests.hpp"

#include <fmt/format.h>

#include <cctype>
#include <iterator>

#include "check/answered.hpp"
#include "check/table_test.hpp"
#include "standtrue/reference/table_test.hpp"

namespace standtrue::check {

const reference::Load* load_run(const model::Parts& parts, const reference::Tables& tables,
                                const char* heavy, const char* light) {
  for (const char* test : {heavy, light}) {
    if (test != nullptr && reference::runs_table_test(tables, test, parts.bench.duty.key)) {
      return &tables.load(test);
    }
  }
  return nullptr;
}

Finding start_test(const char* name, Group group, const reference::Source& source) {
  Finding f;
  f.id = fmt::format("table-test/{}", name);
  f.group = group;
  f.kind = Kind::told;
  f.rule = "a published test of tables, as its source states it, no factor on top";
  f.source = source;
  f.why =
      "told, not judged: the test is borrowed, as no standard covers a home bench with metal "
      "machines (EN 15372:2023 and EN 13150:2001 leave it out)";
  return f;
}

void settle_test(Finding& finding) {
  const bool is_met = finding.judgement != Judgement::exceeded;
  finding.kind = is_met ? Kind::told : Kind::caution;
  if (is_met) finding.advice.clear();
}

std::string goes_on(std::string sentence) {
  if (!sentence.empty() && sentence.back() == '.') sentence.pop_back();
  if (!sentence.empty()) {
    sentence.front() =
        static_cast<char>(std::tolower(static_cast<unsigned char>(sentence.front())));
  }
  return sentence;
}

void judge_by_strength(Finding& finding, const StrengthUnder& under) {
  finding.unit = quantity::Kind::ratio;
  judge_against(finding, under.ratio, 1.0);
  finding.place = under.place;
  finding.combination = under.combination;
  finding.advice = under.advice;
  finding.working = under.working;
  std::string unjudged;
  for (const std::string& id : under.unjudged) unjudged += (unjudged.empty() ? "" : ", ") + id;
  if (!unjudged.empty()) finding.working.push_back("not judged: " + unjudged);
  if (!under.refused.empty()) {
    finding.working.push_back("not every place has an answer: " + under.refused);
  }
}

bool is_static_test(const model::Combination& c) {
  return judges_test(c) && c.name.starts_with("test-static");
}
bool is_disc_test(const model::Combination& c) {
  return judges_test(c) && c.name.find("disc-test") != std::string::npos;
}
bool is_racking_test(const model::Combination& c) {
  return judges_test(c) && c.leading == model::Leading::shove;
}

std::vector<Finding> table_tests(const Answers& answers, const PlateAnswers& plates,
                                 const reference::Tables& tables) {
  if (!answers.at_mean) return {};
  std::vector<Finding> all = tipping_tests(answers.model.parts, tables);
  if (answers.model.parts.tests.empty()) return all;
  for (std::vector<Finding> some :
       {strength_tests(answers, plates, tables), disc_test(answers, plates, tables)}) {
    all.insert(all.end(), std::make_move_iterator(some.begin()),
               std::make_move_iterator(some.end()));
  }
  return all;
}

}  // namespace standtrue::check
