#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <utility>

#include "report/figures.hpp"
#include "report/governing.hpp"
#include "report/layout.hpp"
#include "report/page.hpp"
#include "report/words.hpp"

namespace standtrue::report {

using check::Finding;
using check::Judgement;

namespace {

constexpr std::size_t most_lines = 3;

bool contains(const std::vector<std::string>& all, const std::string& one) {
  return std::find(all.begin(), all.end(), one) != all.end();
}

/// A reading that settles a sway which hangs on the joints: the pull at which the stiffness wanted
/// is just met.
std::string measure(const Finding& f, quantity::UnitSystem units) {
  const bool is_stiffness = f.unit == quantity::Kind::linear_stiffness && f.limit_is_least;
  if (f.group != check::Group::sway || f.judgement != Judgement::depends || !is_stiffness ||
      !(f.limit > 0.0)) {
    return f.judgement == Judgement::depends ? f.measure : std::string();
  }
  const HandPull hand = hand_pull(units);
  const double moves = hand.force / f.limit;
  std::string text =
      fmt::format("pull with {} at {}, and read {} how far it moves: {} or less is good.",
                  hand.pull, f.place.empty() ? "the worst corner" : f.place,
                  moves < 1e-3 ? "with a dial or feeler gauge" : "on a rule",
                  quantity::print(moves, quantity::Kind::length, units));
  if (!f.advice.empty()) text += " If it moves more: " + sentence(f.advice);
  return text;
}

struct Remedy {
  std::string label, text;
};

/// What to do about a finding; nothing where that is not known or not needed.
std::optional<Remedy> remedy(const Finding& f, quantity::UnitSystem units) {
  const std::string reading = measure(f, units);
  if (!reading.empty()) return Remedy{"Measure: ", reading};
  if (f.advice.empty()) return std::nullopt;
  const bool is_wanting = f.judgement == Judgement::exceeded || f.judgement == Judgement::depends;
  if (is_judged(f) && is_wanting) {
    return Remedy{fmt::format("Change, for {}: ", group_key(f.group)), sentence(f.advice)};
  }
  if (is_left_unjudged(f) && f.kind == check::Kind::safety) {
    return Remedy{fmt::format("To judge {}: ", group_key(f.group)), sentence(f.advice)};
  }
  return std::nullopt;
}

/// One for each group of checks, of its worst finding.
std::vector<Remedy> remedies(const decide::Assessment& assessment) {
  std::vector<Remedy> all;
  std::vector<check::Group> done;
  for (const Finding* f : worst_first(assessment.findings)) {
    if (all.size() == most_lines) break;
    if (std::find(done.begin(), done.end(), f->group) != done.end()) continue;
    std::optional<Remedy> found = remedy(*f, assessment.bench.units);
    if (!found) continue;
    all.push_back(std::move(*found));
    done.push_back(f->group);
  }
  return all;
}

/// What the last line of the page says anyway.
bool is_the_last_line(const std::string& caution) {
  return caution.find("certificate") != std::string::npos;
}

/// Limits that are borrowed from tables, and what happens by accident: after what this bench does
/// by itself.
bool is_borrowed(const Finding& f) {
  const std::string check = f.id.substr(0, f.id.find('/'));
  return check == "table-test" || check == "drop" || check == "drag";
}

/// Those with a number of this bench first, then the general ones.
std::vector<std::string> cautions_of(const decide::Assessment& assessment) {
  std::vector<std::string> cautions;
  const auto keep = [&](const std::string& text) {
    if (!text.empty() && !is_the_last_line(text) && !contains(cautions, text)) {
      cautions.push_back(text);
    }
  };
  for (const bool borrowed : {false, true}) {
    for (const Finding& f : assessment.findings) {
      if (f.kind != check::Kind::caution || is_borrowed(f) != borrowed) continue;
      if (f.judgement != Judgement::outside_this_tool) keep(f.sentence);
    }
  }
  for (const std::string& caution : assessment.cautions) keep(caution);
  return cautions;
}

std::string care_lines(const decide::Assessment& assessment, std::size_t width) {
  const std::vector<std::string> cautions = cautions_of(assessment);
  const std::string label = "  Take care: ";
  const std::string blanks(label.size(), ' ');
  std::string lines;
  for (std::size_t i = 0; i < std::min(cautions.size(), most_lines); ++i) {
    lines += wrapped(i == 0 ? label : blanks, sentence(cautions[i]), width);
  }
  if (cautions.size() > most_lines) {
    lines += wrapped(blanks, fmt::format("({} more with --detail)", cautions.size() - most_lines),
                     width);
  }
  return lines;
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

std::string advice_lines(const decide::Assessment& assessment, const Style& style) {
  const auto width = static_cast<std::size_t>(style.width);
  std::string lines;
  for (const Remedy& remedy : remedies(assessment)) {
    lines += wrapped("  " + remedy.label, remedy.text, width);
  }
  lines += care_lines(assessment, width);
  const std::string unjudged = unjudged_titles(assessment.findings);
  if (!unjudged.empty()) lines += wrapped("  Not judged: ", sentence(unjudged), width);
  const std::string outside = outside_titles(assessment.findings);
  if (!outside.empty()) lines += wrapped("  Not looked at: ", sentence(outside), width);
  return lines;
}

std::string refusal_lines(const decide::Assessment& assessment, const Style& style) {
  const auto width = static_cast<std::size_t>(style.width);
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
  std::string lines;
  for (const std::string& reason : reasons) lines += wrapped("  Why: ", sentence(reason), width);
  return lines;
}

}  // namespace standtrue::report
