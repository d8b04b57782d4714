#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <utility>

#include "report/advice.hpp"
#include "report/governing.hpp"
#include "report/pages.hpp"
#include "report/words.hpp"

namespace standtrue::report {

using check::Finding;
using check::Judgement;

namespace {

constexpr std::size_t most_lines = 3;

bool contains(const std::vector<std::string>& all, const std::string& one) {
  return std::find(all.begin(), all.end(), one) != all.end();
}

/// One for each group of checks, of its worst finding.
std::vector<Remedy> remedies(const decide::Assessment& assessment) {
  std::vector<Remedy> all;
  std::vector<check::Group> done;
  for (const Finding* f : worst_first(assessment.findings)) {
    if (all.size() == most_lines) break;
    if (std::find(done.begin(), done.end(), f->group) != done.end()) continue;
    std::optional<Remedy> found = remedy(*f, assessment);
    if (!found) continue;
    all.push_back(std::move(*found));
    done.push_back(f->group);
  }
  return all;
}

Page care_page(const decide::Assessment& assessment) {
  const std::vector<std::string> cautions = cautions_of(assessment);
  const std::string label = "  Take care: ";
  const std::string blanks(label.size(), ' ');
  Page page;
  for (std::size_t i = 0; i < std::min(cautions.size(), most_lines); ++i) {
    page.line(i == 0 ? label : blanks, sentence(cautions[i]));
  }
  if (cautions.size() > most_lines) {
    page.line(blanks, fmt::format("({} more with --detail)", cautions.size() - most_lines));
  }
  return page;
}

std::string spaced(std::string text) {
  std::replace(text.begin(), text.end(), '-', ' ');
  return text;
}

}  // namespace

std::string unjudged_titles(const std::vector<Finding>& findings) {
  std::vector<std::pair<std::string, std::vector<std::string>>> checks;  // in order of appearance
  for (const Finding& f : findings) {
    if (!is_left_unjudged(f)) continue;
    const std::size_t slash = f.id.find('/');
    const std::string check = spaced(f.id.substr(0, slash));
    const std::string thing = slash == std::string::npos ? "" : spaced(f.id.substr(slash + 1));
    auto known = std::find_if(checks.begin(), checks.end(),
                              [&](const auto& entry) { return entry.first == check; });
    if (known == checks.end()) known = checks.insert(checks.end(), {check, {}});
    if (!thing.empty()) known->second.push_back(thing);
  }
  std::string titles;
  for (const auto& [check, things] : checks) {
    if (!titles.empty()) titles += "; ";
    titles += check;
    std::string list;
    for (std::size_t i = 0; i < std::min(things.size(), most_lines); ++i) {
      list += (i == 0 ? "" : ", ") + things[i];
    }
    if (things.size() > most_lines) list += fmt::format(", {} more", things.size() - most_lines);
    if (!list.empty()) titles += " (" + list + ")";
  }
  return titles;
}

std::string outside_titles(const std::vector<Finding>& findings) {
  std::string titles;
  for (const Finding& f : findings) {
    if (f.judgement != Judgement::outside_this_tool) continue;
    const std::size_t slash = f.id.find('/');
    titles += (titles.empty() ? "" : ", ") +
              spaced(slash == std::string::npos ? f.id : f.id.substr(slash + 1));
  }
  return titles;
}

Page advice_page(const decide::Assessment& assessment) {
  Page page;
  for (const Remedy& remedy : remedies(assessment)) page.line("  " + remedy.label, remedy.text);
  page.add(care_page(assessment));
  const std::string unjudged = unjudged_titles(assessment.findings);
  if (!unjudged.empty()) page.line("  Not judged: ", sentence(unjudged));
  const std::string outside = outside_titles(assessment.findings);
  if (!outside.empty()) page.line("  Not looked at: ", sentence(outside));
  return page;
}

Page refusal_page(const decide::Assessment& assessment) {
  std::vector<std::string> reasons;
  for (const decide::Bounded* bounded :
       {&assessment.mean, &assessment.soft, &assessment.stiff, &assessment.poor}) {
    for (const std::string& fault : bounded->idealisation.faults) {
      if (!contains(reasons, fault)) reasons.push_back(fault);
    }
    if (!bounded->refusal) continue;
    const std::string& instead = bounded->refusal->instead;
    const bool is_told = std::any_of(assessment.findings.begin(), assessment.findings.end(),
                                     [&](const Finding& f) { return f.advice == instead; });
    std::string reason = bounded->refusal->what;
    if (!is_told) reason += "; " + instead;
    if (!contains(reasons, reason)) reasons.push_back(reason);
  }
  Page page;
  for (const std::string& reason : reasons) page.line("  Why: ", sentence(reason));
  return page;
}

}  // namespace standtrue::report
