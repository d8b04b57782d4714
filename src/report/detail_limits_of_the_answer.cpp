// How well the equations were met, what was not judged and why, and every caution.
#include <fmt/format.h>

#include <algorithm>

#include "report/governing.hpp"
#include "report/pages.hpp"
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

Page refused_loadings(const Assessment& assessment) {
  const auto& model = assessment.mean.idealisation.model;
  Page page;
  if (!model || !assessment.mean.response) return page;
  const auto& states = assessment.mean.response->states;
  for (std::size_t c = 0; c < std::min(states.size(), model->combinations.size()); ++c) {
    if (states[c]) continue;
    page.line("  - ", fmt::format("{} has no answer: {}", model->combinations[c].name,
                                  sentence(states[c].error().what)));
  }
  return page;
}

Page audit_page(const Assessment& assessment) {
  Page page;
  if (!assessment.mean.response) return page;
  Table table({"joints", "answered", "refused", "residual", "equilibrium", "condition"});
  add_audit(table, "low", assessment.poor);
  add_audit(table, "soft", assessment.soft);
  add_audit(table, "mean", assessment.mean);
  add_audit(table, "stiff", assessment.stiff);
  if (assessment.after_creep.response) add_audit(table, "after creep", assessment.after_creep);
  page.heading("The solver's own audit");
  if (const auto& model = assessment.mean.idealisation.model) {
    page.line(
        "  ",
        fmt::format("{} nodes, {} members, {} load cases, {} combinations. Residual and "
                    "equilibrium: the worst of all combinations, as a share of the largest load. "
                    "Condition: of the stiffness, 1 is perfect and 1e-16 hopeless.",
                    model->nodes.size(), model->members.size(), model->cases.size(),
                    model->combinations.size()));
  }
  page.table(std::move(table));
  page.add(refused_loadings(assessment));
  return page;
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

Page unjudged_page(const std::vector<const check::Finding*>& findings) {
  Page page;
  page.heading("Not judged, and why");
  const std::vector<Unjudged> unjudged = by_reason(findings);
  if (unjudged.empty()) page.line("  ", "Nothing that this tool looks at was left out.");
  for (const Unjudged& u : unjudged) {
    page.line("  - ", fmt::format("{}: {}", u.ids, sentence(u.why)));
  }
  return page;
}

Page outside_page(const std::vector<const check::Finding*>& findings) {
  Page page;
  for (const check::Finding* f : findings) {
    if (f->judgement != check::Judgement::outside_this_tool) continue;
    if (page.empty()) page.heading("Not looked at");
    page.line("  - ", sentence(f->sentence.empty() ? f->why : f->sentence));
  }
  return page;
}

}  // namespace

Page limits_page(const Assessment& assessment) {
  const std::vector<const check::Finding*> findings = worst_first(assessment.findings);
  Page page = audit_page(assessment);
  page.add(unjudged_page(findings));
  page.add(outside_page(findings));
  if (assessment.cautions.empty()) return page;
  page.heading("Cautions");
  for (const std::string& caution : assessment.cautions) page.line("  - ", sentence(caution));
  return page;
}

}  // namespace standtrue::report
