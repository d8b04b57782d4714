#include "report/advice.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "report/figures.hpp"
#include "report/governing.hpp"
#include "report/words.hpp"

namespace standtrue::report {

using check::Finding;
using check::Judgement;

namespace {

/// A reading that settles a sway which hangs on the joints: the pull at which the stiffness wanted
/// is just met.
std::string reading_of(const Finding& f, quantity::UnitSystem units) {
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
                  rough(moves, quantity::Kind::length, units));
  if (!f.advice.empty()) text += " If it moves more: " + sentence(f.advice);
  return text;
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

}  // namespace

std::string planned_load(const bench::Bench& bench) {
  using quantity::in_si;
  std::string words;
  const auto add = [&](const std::string& one) { words += (words.empty() ? "" : ", ") + one; };
  const auto mass = [&](double kg) {
    return quantity::print(kg, quantity::Kind::mass, bench.units);
  };
  for (const bench::Machine& m : bench.machines) add(m.name + " " + mass(in_si(m.mass)));
  for (const bench::Sheet& sheet : bench.sheets) {
    if (!sheet.stored) continue;
    const double area = in_si(sheet.x1 - sheet.x0) * in_si(sheet.y1 - sheet.y0);
    const double kg = in_si(*sheet.stored) * area / in_si(quantity::standard_gravity());
    add(rough(kg, quantity::Kind::mass, bench.units) + " on the " + sheet.name);
  }
  for (const bench::FreeLoad& load : bench.loads) add(load.name);
  return words;
}

std::string verdict_sentence(const decide::Assessment& assessment) {
  const std::string word(verdict_word(assessment.verdict));
  const bool goes_on = assessment.verdict == decide::Verdict::carries_but;
  std::string said = assessment.summary;
  const std::string_view known = "safe to load; ";
  if (goes_on && said.rfind(known, 0) == 0) said.erase(0, known.size());
  if (said.empty()) return goes_on ? word + " ..." : word;
  return word + (goes_on ? " " : ": ") + sentence(said);
}

std::optional<Remedy> remedy(const Finding& f, const decide::Assessment& assessment) {
  if (assessment.verdict == decide::Verdict::depends) {
    const std::string reading = reading_of(f, assessment.bench.units);
    if (!reading.empty()) return Remedy{"Measure: ", reading};
  }
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

std::vector<std::string> cautions_of(const decide::Assessment& assessment) {
  std::vector<std::string> cautions;
  const auto keep = [&](const std::string& text) {
    const bool is_known = std::find(cautions.begin(), cautions.end(), text) != cautions.end();
    if (!text.empty() && !is_the_last_line(text) && !is_known) cautions.push_back(text);
  };
  for (const bool borrowed : {false, true}) {
    for (const Finding& f : assessment.findings) {
      if (f.kind != check::Kind::caution || is_borrowed(f) != borrowed) continue;
      // What has a limit and meets it is no reason to take care; what has none, like a speed to
      // keep off, is.
      const bool is_met = f.judgement == Judgement::satisfied && f.ratio <= 1.0;
      if (!is_met && f.judgement != Judgement::outside_this_tool) keep(f.sentence);
    }
  }
  for (const std::string& caution : assessment.cautions) keep(caution);
  return cautions;
}

}  // namespace standtrue::report
