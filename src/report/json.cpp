// An Assessment as JSON: docs/assessment.schema.json, version 1.
#include <nlohmann/json.hpp>

#include "report/json_parts.hpp"
#include "report/words.hpp"
#include "standtrue/report/report.hpp"

namespace standtrue::report {

namespace {

Json source_json(const reference::Source& source) {
  return {{"key", source.key},
          {"where", source.where},
          {"status", std::string(reference::to_text(source.status))},
          {"citation", reference::citation(source)}};
}

Json bounds_json(double low, double soft, double mean, double stiff) {
  return {{"low", number(low)},
          {"soft", number(soft)},
          {"mean", number(mean)},
          {"stiff", number(stiff)}};
}

Json hand_check_json(const std::optional<check::Finding::HandCheck>& hand) {
  if (!hand) return nullptr;
  return {{"formula", hand->formula}, {"value", number(hand->value)}};
}

Json finding_json(const check::Finding& f) {
  return {{"id", f.id},
          {"group", group_key(f.group)},
          {"kind", kind_key(f.kind)},
          {"judgement", judgement_key(f.judgement)},
          {"sentence", f.sentence},
          {"place", f.place},
          {"quantity", quantity_key(f.unit)},
          {"unit", si_unit(f.unit)},
          {"demand", bounds_json(f.demand_poor, f.demand_soft, f.demand, f.demand_stiff)},
          {"limit", number(f.limit)},
          {"limit_is_least", f.limit_is_least},
          {"ratio", bounds_json(f.ratio_poor, f.ratio_soft, f.ratio, f.ratio_stiff)},
          {"why", f.why},
          {"rule", f.rule},
          {"source", source_json(f.source)},
          {"combination", f.combination},
          {"hand_check", hand_check_json(f.hand_check)},
          {"mesh_error", f.mesh_error ? Json(*f.mesh_error) : Json()},
          {"working", f.working},
          {"advice", f.advice},
          {"turns_at", f.turns_at ? Json(*f.turns_at) : Json()},
          {"measure", f.measure}};
}

}  // namespace

std::string json(const decide::Assessment& assessment, const std::string& file,
                 const std::string& version, bool raw) {
  Json findings = Json::array();
  for (const check::Finding& f : assessment.findings) findings.push_back(finding_json(f));
  Json document = {{"standtrue_assessment", 1},
                   {"file", file},
                   {"version", version},
                   {"title", assessment.bench.title},
                   {"verdict", verdict_key(assessment.verdict)},
                   {"summary", assessment.summary},
                   {"findings", std::move(findings)},
                   {"assumptions", assessment.assumptions},
                   {"cautions", assessment.cautions},
                   {"released", assessment.released}};
  if (raw) {
    document["raw"] = {{"low", bounded_json(assessment.poor)},
                       {"soft", bounded_json(assessment.soft)},
                       {"mean", bounded_json(assessment.mean)},
                       {"stiff", bounded_json(assessment.stiff)},
                       {"after_creep", bounded_json(assessment.after_creep)}};
  }
  // Text that is not UTF-8 can not come from a file that was read; it is replaced and not thrown
  // at.
  return document.dump(1, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace standtrue::report
