#include "check/worst.hpp"

#include <fmt/format.h>

namespace standtrue::check {

StrengthsOf::StrengthsOf(const model::Part& part, const Answers& answers,
                         const reference::Tables& tables)
    : part_(part), answers_(answers), tables_(tables) {}

const OrWhy<Strengths>& StrengthsOf::under(reference::Duration duration) {
  std::optional<OrWhy<Strengths>>& found = found_.at(static_cast<std::size_t>(duration));
  if (!found) {
    found = strengths(part_, answers_.model.parts.bench.air.service_class, duration, tables_);
  }
  return *found;
}

bool is_timber_member(const model::Part& part) {
  return part.role == model::Role::post || part.role == model::Role::rail ||
         part.role == model::Role::bearer || part.role == model::Role::brace;
}

Finding about(const model::Part& part, std::string_view check, std::string rule,
              reference::Source source) {
  Finding finding;
  finding.id = id_of(check, part.name);
  finding.group = Group::carry;
  finding.kind = Kind::safety;
  finding.place = part.name;
  finding.rule = std::move(rule);
  finding.source = std::move(source);
  finding.limit = 1.0;
  finding.unit = quantity::Kind::ratio;
  return finding;
}

namespace {

void tell_worst_cut(Finding& finding, const Answers& answers, const model::Part& part,
                    const Worst& worst) {
  const model::Combination& combination = answers.model.combinations[worst.combination];
  const Station& s = worst.station;
  finding.demand = finding.ratio = worst.ratio;
  finding.judgement = judge(worst.ratio);
  if (finding.judgement == Judgement::not_judged) finding.why = "the forces are not numbers";
  if (!answers.words) return;
  finding.place = place_on(answers.model, part, worst.member, s.at);
  finding.combination = combination.name;
  finding.working.push_back(fmt::format("{}; {} loads: k_mod = {}, gamma_M = {}", combination.title,
                                        reference::to_text(combination.duration), worst.f.k_mod,
                                        worst.f.gamma_M));
  finding.working.push_back(
      fmt::format("{}, b x h = {} x {}", part.timber.key, shown(part.width), shown(part.depth)));
  finding.working.push_back(fmt::format("N = {}, V_y = {}, V_z = {}, T = {}, M_y = {}, M_z = {}",
                                        shown(s.N), shown(s.V_y), shown(s.V_z), shown(s.T),
                                        shown(s.M_y), shown(s.M_z)));
}

}  // namespace

bool tell_worst(Finding& finding, const Answers& answers, const model::Part& part,
                const OrWhy<std::optional<Worst>>& worst) {
  if (!worst) {
    leave_unjudged(finding, worst.error());
    return false;
  }
  if (!*worst) {
    leave_unjudged(finding, "no combination of loads was answered");
    return false;
  }
  tell_worst_cut(finding, answers, part, **worst);
  return answers.words;
}

const reference::Source& source_of(const model::Part& part, std::string_view value) {
  return part.timber.source.of(value);
}

}  // namespace standtrue::check
