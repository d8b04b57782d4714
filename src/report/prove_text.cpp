#include <fmt/format.h>

#include <cmath>

#include "report/figures.hpp"
#include "report/layout.hpp"
#include "report/words.hpp"
#include "standtrue/report/report.hpp"

namespace standtrue::report {

namespace {

using decide::Known;
using decide::Learning;
using decide::Told;
using decide::Trial;
using quantity::Kind;
using quantity::UnitSystem;

std::string mass(double force, UnitSystem units) {
  return rough(force / quantity::in_si(quantity::standard_gravity()), Kind::mass, units);
}
std::string rough_length(double value, UnitSystem units) {
  return rough(value, Kind::length, units);
}

std::string gauge(const Trial& t) { return t.expected < 1e-3 ? "dial gauge" : "rule"; }

/// "24 %" or "3 times" of what lies either way of the middle.
std::string either_way(double factor) {
  constexpr double large = 1.5;
  return factor < large ? fmt::format("{:.0f} %", 100.0 * (factor - 1.0))
                        : fmt::format("{:.1f} times", factor);
}

/// "the joints, from 3.0 times either way to 31 %"
std::string lessons(const Trial& t) {
  std::string text;
  for (const decide::Lesson& lesson : t.lessons) {
    text += fmt::format("{}the {}, from {} either way to {}", text.empty() ? "" : "; ", lesson.of,
                        either_way(lesson.before), either_way(lesson.after));
  }
  return text.empty() ? "next to nothing on this bench" : text;
}

std::string trials_table(const std::vector<Trial>& trials, UnitSystem units, std::size_t width) {
  Table table({"test", "gauge", "with", "expect", "stiff to soft"}, 2);
  for (const Trial& t : trials) {
    if (!t.why.empty()) continue;
    table.add({t.name, gauge(t), mass(t.force, units), rough_length(t.expected, units),
               rough_length(t.stiff, units) + " to " + rough_length(t.soft, units)});
  }
  return table.empty() ? "" : table.text(2, width) + "\n";
}

std::string card(const Trial& t, std::size_t width) {
  std::string text = wrapped("  ", t.name + (t.why.empty() ? ": " + t.state : ""), width);
  if (!t.why.empty()) return text + wrapped("      ", "not here: " + t.why + ".", width);
  text += wrapped("      do      ", t.act + ".", width);
  text += wrapped("      read    ", t.read + ".", width);
  text += wrapped("      teaches ", lessons(t) + ".", width);
  return text + wrapped("      safe    ", t.safe + ".", width);
}

std::string times(double value) { return fmt::format("{:.2f}", value); }

std::string told_text(const Learning& learned, UnitSystem units, std::size_t width) {
  Table table({"reading", "with", "read", "expected", "fits", "it"}, 1);
  for (const Told& t : learned.readings) {
    const bool is_used = t.why.empty();
    table.add({t.name, mass(t.force, units), rough_length(t.moved, units),
               is_used ? rough_length(t.expected, units) : "-",
               is_used && t.fitted > 0.0 ? rough_length(t.fitted, units) : "-",
               !is_used          ? "can not be used"
               : t.contradicts   ? "disagrees"
               : t.is_useless    ? "teaches nothing"
               : t.fitted == 0.0 ? "-"
                                 : "agrees"});
  }
  return table.text(2, width) + "\n";
}

std::string known_text(const Learning& learned, std::size_t width) {
  if (learned.known.empty()) return "";
  Table table({"times as stiff as usual", "middle", "nine in ten", "before", ""}, 1);
  for (const Known& k : learned.known) {
    table.add({k.of, times(k.median), times(k.low) + " to " + times(k.high),
               times(k.usual_low) + " to " + times(k.usual_high),
               k.is_narrowed ? "learned" : "still open"});
  }
  return table.text(2, width) + "\n";
}

/// The verdict before the readings and after.
std::string verdicts(const Learning& learned, std::size_t width) {
  const auto line = [&](const char* first, decide::Verdict verdict, const std::string& summary) {
    return wrapped(first, fmt::format("{}: {}", verdict_word(verdict), summary), width);
  };
  if (!learned.after) {
    return line("  Verdict ", learned.before, learned.summary_before) +
           wrapped("  ",
                   "The readings do not change it before what is wrong with them is cleared up.",
                   width);
  }
  return line("  Before  ", learned.before, learned.summary_before) +
         line("  Now     ", *learned.after, learned.summary_after);
}

/// What the first reading would look like in the file, on one line where that fits.
std::string reading_example(const decide::ProvingPlan& plan, UnitSystem units, std::size_t width) {
  for (const Trial& t : plan.trials) {
    if (!t.why.empty()) continue;
    const std::string with =
        fmt::format("{}: {}", t.is_pull ? "pull" : "load", mass(t.force, units));
    const std::string moves = "moves: " + rough_length(t.expected, units);
    const std::string line = fmt::format("    - {{test: {}, {}, {}}}", t.name, with, moves);
    if (columns(line) <= width) return line;
    return fmt::format("    - test: {}\n      {}\n      {}", t.name, with, moves);
  }
  return "";
}

}  // namespace

std::string text(const decide::ProvingPlan& plan, const bench::Bench& bench, const Style& style) {
  const auto width = static_cast<std::size_t>(style.width);
  const UnitSystem units = bench.units;
  std::string page =
      heading((plan.learned ? "What the readings teach: " : "Proving: ") + bench.title);
  if (plan.learned) page += verdicts(*plan.learned, width);
  for (const std::string& line : plan.answer) page += wrapped("  ", line, width);
  page += "\n";
  if (plan.learned)
    page += told_text(*plan.learned, units, width) + known_text(*plan.learned, width);
  if (!plan.learned) {
    page += trials_table(plan.trials, units, width);
    for (const Trial& t : plan.trials) page += card(t, width);
    const std::string example = reading_example(plan, units, width);
    if (!example.empty()) page += "\n  readings:\n" + example + "\n\n";
    page +=
        wrapped("  ",
                "Set the gauge to nought, pull or load slowly, read, let go and see that it comes "
                "back; take the middle of three. The gauge stands on the floor or on the blocks, "
                "not on the bench. Of the rails take the one that looks poorest: it speaks for "
                "all.",
                width);
  }
  page += wrapped("  ", "A planning aid, not a certificate.", width);
  return page;
}

}  // namespace standtrue::report
