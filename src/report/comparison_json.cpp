#include <nlohmann/json.hpp>

#include "report/json_parts.hpp"
#include "report/words.hpp"
#include "standtrue/report/report.hpp"

namespace standtrue::report {

namespace {

using decide::Span;

Json span(const std::optional<Span>& s) {
  if (!s) return nullptr;
  return {
      {"least", number(s->least)}, {"mean", number(s->mean)}, {"greatest", number(s->greatest)}};
}

Json figures(const std::optional<decide::Figures>& f) {
  if (!f) return nullptr;
  return {{"verdict", verdict_key(f->verdict)},
          {"summary", f->summary},
          {"failing", f->failing},
          {"exceeded", f->exceeded},
          {"carry", span(f->carry)},
          {"joints", span(f->joints)},
          {"sheet", span(f->sheet)},
          {"sag_ratio", f->sag ? number(*f->sag) : Json()},
          {"sag_under_machine", f->sag_under ? number(*f->sag_under) : Json()},
          {"sway_along", span(f->along)},
          {"sway_across", span(f->across)},
          {"frequency", f->frequency ? number(*f->frequency) : Json()},
          {"mass", number(f->mass)},
          {"sheets", f->sheets},
          {"uncut", f->uncut}};
}

}  // namespace

std::string json(const decide::SideBySide& comparison, const std::string& file,
                 const std::string& version) {
  Json options = Json::array();
  for (const decide::Option& option : comparison.options) {
    options.push_back({{"name", option.name},
                       {"write", option.write},
                       {"pieces", option.pieces},
                       {"joints", option.joints},
                       {"why", option.why},
                       {"figures", figures(option.figures)}});
  }
  const Json document = {{"standtrue_comparison", 1},   {"file", file},
                         {"version", version},          {"question", comparison.question},
                         {"answer", comparison.answer}, {"complete", comparison.complete},
                         {"options", options}};
  return document.dump(2) + "\n";
}

}  // namespace standtrue::report
