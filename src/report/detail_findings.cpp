// Every finding, worst first: a table to find it, then its working.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "report/governing.hpp"
#include "report/pages.hpp"
#include "report/words.hpp"

namespace standtrue::report {

namespace {

using check::Finding;

std::string ratio_text(double ratio) {
  if (std::isnan(ratio)) return "-";
  if (std::isinf(ratio)) return "infinite";
  return ratio < 100.0 ? fmt::format("{:.2f}", ratio) : fmt::format("{:.0f}", ratio);
}

/// To what leaves room for the ratios on a page of 80; whole with its working.
std::string shortened(const std::string& id) {
  constexpr std::size_t room = 40;
  return id.size() > room ? id.substr(0, room - 3) + "..." : id;
}

Table overview(const std::vector<const Finding*>& findings) {
  Table table({"     check", "", "low", "soft", "mean", "stiff"}, 2);
  for (std::size_t i = 0; i < findings.size(); ++i) {
    const Finding& f = *findings[i];
    const bool decides = f.kind == check::Kind::safety || f.kind == check::Kind::service;
    table.add({fmt::format("{:>3}  {}", i + 1, shortened(f.id)),
               std::string(decides ? judgement_word(f.judgement) : kind_key(f.kind)),
               ratio_text(f.ratio_poor), ratio_text(f.ratio_soft), ratio_text(f.ratio),
               ratio_text(f.ratio_stiff)});
  }
  return table;
}

std::string combination_title(const decide::Assessment& assessment, const std::string& name) {
  if (const auto& model = assessment.mean.idealisation.model) {
    for (const model::Combination& c : model->combinations) {
      if (c.name == name && !c.title.empty()) return name + " (" + c.title + ")";
    }
  }
  return name;
}

std::string demand_text(const Finding& f, quantity::UnitSystem units) {
  const auto shown = [&](double si) { return quantity::print(si, f.unit, units); };
  const char* const wanted = f.limit_is_least ? "at least" : "at most";
  const bool is_one = f.demand_soft == f.demand && f.demand_stiff == f.demand;
  const std::string bounds =
      is_one ? ""
             : fmt::format(" (soft {}, stiff {})", shown(f.demand_soft), shown(f.demand_stiff));
  std::string demand = shown(f.demand);
  // Three figures may hide on which side of the limit it lies.
  const bool is_missed = f.limit_is_least ? f.demand < f.limit : f.demand > f.limit;
  if (is_missed && demand == shown(f.limit)) {
    demand = (f.limit_is_least ? "just under " : "just over ") + demand;
  }
  return fmt::format("{}{}; {} {}", demand, bounds, wanted, shown(f.limit));
}

std::string all_ratios(const Finding& f) {
  return fmt::format("low {}, soft {}, mean {}, stiff {}", ratio_text(f.ratio_poor),
                     ratio_text(f.ratio_soft), ratio_text(f.ratio), ratio_text(f.ratio_stiff));
}

/// A demand that is itself the ratio says nothing more.
bool is_bare_ratio(const Finding& f) {
  return f.unit == quantity::Kind::ratio && f.limit == 1.0 && !f.limit_is_least;
}

std::string hand_check_text(const Finding::HandCheck& hand, const Finding& f,
                            quantity::UnitSystem units) {
  std::string text =
      fmt::format("{} = {}", hand.formula, quantity::print(hand.value, f.unit, units));
  if (is_judged(f))
    text += fmt::format("; the model says {}", quantity::print(f.demand, f.unit, units));
  return text;
}

Page block(std::size_t number, const Finding& f, const decide::Assessment& assessment) {
  const quantity::UnitSystem units = assessment.bench.units;
  Page page;
  page.gap();
  page.line(fmt::format("{:>3}  ", number), f.sentence.empty() ? f.id : sentence(f.sentence));
  const auto line = [&page](const char* label, const std::string& value) {
    page.line(padded("     " + std::string(label), 14), value);
  };
  line("check", fmt::format("{} ({})", f.id, kind_key(f.kind)));
  line("place", f.place);
  if (ratios(f)) {
    if (!is_bare_ratio(f)) line("demand", demand_text(f, units));
    line("ratio", all_ratios(f));
  }
  line("why", f.why);
  line("rule", f.rule);
  line("from", reference::citation(f.source));
  line("loads", f.combination.empty() ? "" : combination_title(assessment, f.combination));
  for (std::size_t i = 0; i < f.working.size(); ++i) line(i == 0 ? "working" : "", f.working[i]);
  if (f.hand_check) line("by hand", hand_check_text(*f.hand_check, f, units));
  if (f.mesh_error && *f.mesh_error >= 5e-4) {
    line("mesh", fmt::format("the ratio may be off by {:.1f} %, estimated", 100.0 * *f.mesh_error));
  }
  if (f.turns_at) {
    line("turns", fmt::format("at {:.2f} of the mean stiffness of the joints", *f.turns_at));
  }
  line("measure", f.measure);
  line("cure", f.advice);
  return page;
}

/// Without what this tool does not look at: that is told at the end of the page.
std::vector<const Finding*> shown_findings(const decide::Assessment& assessment) {
  std::vector<const Finding*> findings = worst_first(assessment.findings);
  findings.erase(std::remove_if(findings.begin(), findings.end(),
                                [](const Finding* f) {
                                  return f->judgement == check::Judgement::outside_this_tool;
                                }),
                 findings.end());
  return findings;
}

}  // namespace

Page findings_page(const decide::Assessment& assessment) {
  const std::vector<const Finding*> findings = shown_findings(assessment);
  Page page;
  page.heading("Findings, worst first");
  if (findings.empty()) {
    page.line("  ", "None: nothing was judged.");
    return page;
  }
  page.line("  ",
            "A ratio of 1 is the limit, more is worse; with soft joints and low timber, and with "
            "mean timber at soft, mean and stiff joints.");
  page.gap();
  page.table(overview(findings), 0);
  return page;
}

Page working_page(const decide::Assessment& assessment) {
  const std::vector<const Finding*> findings = shown_findings(assessment);
  Page page;
  if (findings.empty()) return page;
  page.heading("Working");
  for (std::size_t i = 0; i < findings.size(); ++i) {
    page.add(block(i + 1, *findings[i], assessment));
  }
  return page;
}

}  // namespace standtrue::report
