#include "check/allowable_worst.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace standtrue::check {

using quantity::in_si;

CutStresses cut_stresses(const Station& s, const model::Part& left, const model::Part& whole) {
  const AboutAxes<Stress> sigma = bending_stress({s.M_y, s.M_z}, left.width, left.depth);
  const auto size_of = [](Stress x) { return x < Stress{} ? -x : x; };  // keeps a NaN
  const Stress along = s.N / (left.width * left.depth);
  CutStresses f;
  f.f_t = along < Stress{} ? Stress{} : along;
  f.f_c = along < Stress{} ? -along : Stress{};
  const bool about_y = bends_edgewise_about_y(whole);
  f.f_b1 = size_of(about_y ? sigma.y : sigma.z);
  f.f_b2 = size_of(about_y ? sigma.z : sigma.y);
  return f;
}

void leave_without_values(Finding& finding, const model::Part& part, const std::string& why,
                          const reference::Tables& tables) {
  leave_unjudged(finding, why);
  const Length thickness = std::min(part.width, part.depth);
  if (thickness < quantity::metres(tables.constant("grade thickness from").value)) {
    finding.advice = "lumber of 2 in (nominal) or more";
  }
  if (thickness > quantity::metres(tables.constant("grade thickness to").value)) {
    finding.advice = "lumber of 4 in (nominal) or less";
  }
}

void tell_cut(Finding& finding, const Answers& answers, const model::Part& part, const Cut& cut,
              double C_D) {
  const model::Combination& combination = answers.model.combinations[cut.combination];
  const Station& s = cut.station;
  finding.demand = finding.ratio = cut.ratio;
  finding.judgement = judge(cut.ratio);
  if (finding.judgement == Judgement::not_judged) finding.why = "the forces are not numbers";
  finding.place = place_on(answers.model, part, cut.member, s.at);
  finding.combination = combination.name;
  finding.working.push_back(fmt::format("{}; {} loads, no load factors: C_D = {}",
                                        combination.title, reference::to_text(combination.duration),
                                        C_D));
  finding.working.push_back(fmt::format("{}, b x d = {} x {}", part.timber.key,
                                        shown(std::min(part.width, part.depth)),
                                        shown(std::max(part.width, part.depth))));
  finding.working.push_back(fmt::format("N = {}, V_y = {}, V_z = {}, T = {}, M_y = {}, M_z = {}",
                                        shown(s.N), shown(s.V_y), shown(s.V_z), shown(s.T),
                                        shown(s.M_y), shown(s.M_z)));
}

std::string value_line(const std::string& name, Stress value,
                       const std::vector<std::pair<std::string, double>>& factors,
                       Stress adjusted) {
  std::string symbols, numbers;
  for (const auto& [symbol, factor] : factors) {
    symbols += " " + symbol;
    numbers += fmt::format(" x {:.4g}", factor);
  }
  const std::string plain = name.substr(0, name.find_first_of("'*"));
  return fmt::format("{} = {}{} = {}{} = {}", name, plain, symbols, shown(value), numbers,
                     shown(adjusted));
}

std::string bending_values_line(const model::Part& part, const Adjusted& F) {
  return value_line("F_b*", part.timber.allowable->F_b,
                    {{"C_D", F.C_D}, {"C_M", F.C_M.bending}, {"C_F", F.C_F.bending}}, F.F_b1) +
         fmt::format("; flatwise times C_fu = {}: {}", F.C_F.flat, shown(F.F_b2));
}

std::string compression_values_line(const model::Part& part, const Adjusted& F) {
  return value_line("F_c*", part.timber.allowable->F_c,
                    {{"C_D", F.C_D}, {"C_M", F.C_M.compression}, {"C_F", F.C_F.compression}},
                    F.F_c);
}

}  // namespace standtrue::check
