#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "report/figures.hpp"
#include "report/pages.hpp"
#include "report/words.hpp"

namespace standtrue::report {

namespace {

using decide::Figures;
using decide::Option;
using decide::Span;

std::string ratio(double value) {
  if (!std::isfinite(value)) return "-";
  return value > 99.0 ? "over 99" : fmt::format("{:.2f}", value);
}

/// The worst of members, joints and sheets.
std::string strength(const Figures& f) {
  double worst = -1.0;
  for (const std::optional<Span>& span : {f.carry, f.joints, f.sheet}) {
    if (span) worst = std::max(worst, span->greatest);
  }
  return worst < 0.0 ? "-" : ratio(worst);
}

/// How far a hand pull moves the worst corner, from stiff to soft joints.
std::string sway(const std::optional<Span>& span, quantity::UnitSystem units) {
  if (!span || !(span->least > 0.0)) return "-";
  const HandPull hand = hand_pull(units);
  // The unit stands in the head of the column.
  const auto number = [&](double k) {
    const std::string text = rough(hand.force / k, quantity::Kind::length, units);
    return text.substr(0, text.find(' '));
  };
  const std::string low = number(span->greatest), high = number(span->least);
  return low == high ? high : low + " to " + high;
}

/// What can not be bought is marked where it is read first.
std::string name_of(const Option& option) {
  const bool can_be_cut = !option.figures || option.figures->uncut.empty();
  return option.name + (can_be_cut ? "" : " (from no usual sheet)");
}

std::vector<std::string> option_row(const Option& option, quantity::UnitSystem units) {
  if (!option.figures) {
    return {
        option.name, option.why.empty() ? "not looked at" : "not possible", "", "", "", "", "", "",
        ""};
  }
  const Figures& f = *option.figures;
  return {name_of(option),
          std::string(verdict_word(f.verdict)),
          strength(f),
          f.sag ? ratio(*f.sag) : "-",
          sway(f.along, units),
          sway(f.across, units),
          f.frequency ? fmt::format("{:.1f}", *f.frequency) : "-",
          rough(f.mass, quantity::Kind::mass, units),
          option.pieces == 0 ? "" : std::to_string(option.pieces)};
}

}  // namespace

Page page(const decide::SideBySide& comparison, quantity::UnitSystem units) {
  Page page;
  page.heading(comparison.question);
  for (const std::string& line : comparison.answer) page.line("  ", line);
  if (comparison.options.size() < 2 && comparison.answer.empty()) {
    page.line("  ", "There is nothing to set beside it.");
  }
  page.gap();
  const std::string unit = units == quantity::UnitSystem::metric ? " mm" : " in";
  Table table(
      {"", "verdict", "strength", "sag", "along" + unit, "across" + unit, "Hz", "mass", "buy"}, 2);
  for (const Option& option : comparison.options) table.add(option_row(option, units));
  page.table(std::move(table));
  page.gap();
  page.line("  ",
            fmt::format("strength and sag: the worst, 1 is the limit. along, across: how far {} "
                        "of pull moves the top, from stiff to soft joints. buy: pieces more.",
                        hand_pull(units).pull));
  for (const Option& option : comparison.options) {
    if (!option.why.empty()) page.line("  ", option.name + ": " + option.why + ".");
  }
  if (!comparison.complete) page.line("  ", "Stopped before all were looked at.");
  page.line("  ", "A planning aid, not a certificate.");
  return page;
}

std::string text(const decide::SideBySide& comparison, quantity::UnitSystem units,
                 const Style& style) {
  return page(comparison, units).text(static_cast<std::size_t>(style.width));
}

}  // namespace standtrue::report
