// How well the equations were met, what was not judged and why, and every caution.
#include <fmt/format.h>

#include <algorithm>

#include "report/governing.hpp"
#include "report/layout.hpp"
#include "report/page.hpp"
#include "report/words.hpp"

namespace standtrue::report {

namespace {

using decide::Assessment;
using decide::Bounded;

std::string condition_text(const solve::Response& response) {
  double worst = 1.0;
  bool is_known = false;
  for (const auto& prepared : response.prepared) {
    if (!prepared) continue;
    worst = std::min(worst, prepared->reciprocal_condition());
    is_known = true;
  }
  return is_known ? fmt::format("{:.1e}", worst) : "-";
}

void add_audit(Table& table, std::string name, const Bounded& bounded) {
  if (!bounded.response) {
    table.add({std::move(name), "-", "-", "-", "-", "-"});
    return;
  }
  solve::Audit worst;
  std::size_t answered = 0, refused = 0;
  for (const auto& state : bounded.response->states) {
    if (!state) {
      ++refused;
      continue;
    }
    ++answered;
    worst.residual = std::max(worst.residual, state->audit.residual);
    worst.equilibrium = std::max(worst.equilibrium, state->audit.equilibrium);
  }
  table.add({std::move(name), fmt::format("{}", answered), fmt::format("{}", refused),
             fmt::format("{:.1e}", worst.residual), fmt::format("{:.1e}", worst.equilibrium),
             condition_text(*bounded.response)});
}

std::string refused_loadings(const Assessment& assessment, std::size_t width) {
  const auto& model = assessment.mean.idealisation.model;
  if (!model || !assessment.mean.response) return {};
  std::string text;
  const auto& states = assessment.mean.response->states;
  for (std::size_t c = 0; c < std::min(states.size(), model->combinations.size()); ++c) {
    if (states[c]) continue;
    text += wrapped("  - ",
                    fmt::format("{} has no answer: {}", model->combinations[c].name,
                                sentence(states[c].error().what)),
                    width);
  }
  return text;
}

std::string audit_text(const Assessment& assessment, std::size_t width) {
  if (!assessment.mean.response) return {};
  Table table({"joints", "answered", "refused", "residual", "equilibrium", "condition"});
  add_audit(table, "low", assessment.poor);
  add_audit(table, "soft", assessment.soft);
  add_audit(table, "mean", assessment.mean);
  add_audit(table, "stiff", assessment.stiff);
  if (assessment.after_creep.response) add_audit(table, "after creep", assessment.after_creep);
  std::string text = heading("The solver's own audit");
  if (const auto& model = assessment.mean.idealisation.model) {
    text += wrapped(
        "  ",
        fmt::format("{} nodes, {} members, {} load cases, {} combinations. Residual and "
                    "equilibrium: the worst of all combinations, as a share of the largest load. "
                    "Condition: of the stiffness, 1 is perfect and 1e-16 hopeless.",
                    model->nodes.size(), model->members.size(), model->cases.size(),
                    model->combinations.size()),
        width);
  }
  return text + table.text(2, width) + refused_loadings(assessment, width);
}

/// Findings that are not judged for one reason.
struct Unjudged {
  std::string why;
  std::string ids;
};

std::vector<Unjudged> by_reason(const std::vector<const check::Finding*>& findings) {
  std::vector<Unjudged> all;
  for (const check::Finding* f : findings) {
    if (!is_left_unjudged(*f)) continue;
    const std::string& why = f->why.empty() ? f->sentence : f->why;
    const std::string id = fmt::format("{} ({})", f->id, kind_key(f->kind));
    const auto known =
        std::find_if(all.begin(), all.end(), [&why](const Unjudged& u) { return u.why == why; });
    if (known == all.end()) {
      all.push_back({why, id});
    } else {
      known->ids += ", " + id;
    }
  }
  return all;
}

std::string unjudged_text(const Assessment& assessment, std::size_t width) {
  const std::vector<const check::Finding*> findings = worst_first(assessment.findings);
  std::string unjudged, outside;
  for (const Unjudged& u : by_reason(findings)) {
    unjudged += wrapped("  - ", fmt::format("{}: {}", u.ids, sentence(u.why)), width);
  }
  for (const check::Finding* f : findings) {
    if (f->judgement != check::Judgement::outside_this_tool) continue;
    outside += wrapped("  - ", sentence(f->sentence.empty() ? f->why : f->sentence), width);
  }
  const std::string text =
      heading("Not judged, and why") +
      (unjudged.empty() ? "  Nothing that this tool looks at was left out.\n" : unjudged);
  return outside.empty() ? text : text + heading("Not looked at") + outside;
}

}  // namespace

std::string detail_limits_of_the_answer(const Assessment& assessment, const Style& style) {
  const auto width = static_cast<std::size_t>(style.width);
  std::string page = audit_text(assessment, width) + unjudged_text(assessment, width);
  if (assessment.cautions.empty()) return page;
  page += heading("Cautions");
  for (const std::string& caution : assessment.cautions) {
    page += wrapped("  - ", sentence(caution), width);
  }
  return page;
}

}  // namespace standtrue::report
