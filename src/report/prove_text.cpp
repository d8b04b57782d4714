#include <fmt/format.h>

#include <cmath>

#include "report/figures.hpp"
#include "report/pages.hpp"
#include "report/words.hpp"

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

Table trials_table(const std::vector<Trial>& trials, UnitSystem units) {
  Table table({"test", "gauge", "with", "expect", "stiff to soft"}, 2);
  for (const Trial& t : trials) {
    if (!t.why.empty()) continue;
    table.add({t.name, gauge(t), mass(t.force, units), rough_length(t.expected, units),
               rough_length(t.stiff, units) + " to " + rough_length(t.soft, units)});
  }
  return table;
}

Page card(const Trial& t) {
  Page page;
  page.line("  ", t.name + (t.why.empty() ? ": " + t.state : ""));
  if (!t.why.empty()) {
    page.line("      ", "not here: " + t.why + ".");
    return page;
  }
  page.line("      do      ", t.act + ".");
  page.line("      read    ", t.read + ".");
  page.line("      teaches ", lessons(t) + ".");
  page.line("      safe    ", t.safe + ".");
  return page;
}

std::string times(double value) { return fmt::format("{:.2f}", value); }

Table told_table(const Learning& learned, UnitSystem units) {
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
  return table;
}

Table known_table(const Learning& learned) {
  Table table({"times as stiff as usual", "middle", "nine in ten", "before", ""}, 1);
  for (const Known& k : learned.known) {
    table.add({k.of, times(k.median), times(k.low) + " to " + times(k.high),
               times(k.usual_low) + " to " + times(k.usual_high),
               k.is_narrowed ? "learned" : "still open"});
  }
  return table;
}

/// The verdict before the readings and after.
Page verdicts(const Learning& learned) {
  Page page;
  const auto line = [&page](const char* first, decide::Verdict verdict,
                            const std::string& summary) {
    page.line(first, fmt::format("{}: {}", verdict_word(verdict), summary));
  };
  if (!learned.after) {
    line("  Verdict ", learned.before, learned.summary_before);
    page.line("  ", "The readings do not change it before what is wrong with them is cleared up.");
    return page;
  }
  line("  Before  ", learned.before, learned.summary_before);
  line("  Now     ", *learned.after, learned.summary_after);
  return page;
}

/// What the first reading would look like in the file, on one line where that fits.
Page reading_example(const decide::ProvingPlan& plan, UnitSystem units) {
  Page page;
  for (const Trial& t : plan.trials) {
    if (!t.why.empty()) continue;
    const std::string with =
        fmt::format("{}: {}", t.is_pull ? "pull" : "load", mass(t.force, units));
    const std::string moves = "moves: " + rough_length(t.expected, units);
    const std::string key = "  readings:\n";
    page.gap();
    page.plain(key + fmt::format("    - {{test: {}, {}, {}}}\n", t.name, with, moves),
               key + fmt::format("    - test: {}\n      {}\n      {}\n", t.name, with, moves));
    page.gap();
    break;
  }
  return page;
}

Page learned_page(const Learning& learned, UnitSystem units) {
  Page page;
  page.table(told_table(learned, units));
  page.gap();
  if (learned.known.empty()) return page;
  page.table(known_table(learned));
  page.gap();
  return page;
}

Page trials_page(const decide::ProvingPlan& plan, UnitSystem units) {
  Page page;
  Table table = trials_table(plan.trials, units);
  if (!table.empty()) {
    page.table(std::move(table));
    page.gap();
  }
  for (const Trial& t : plan.trials) page.add(card(t));
  page.add(reading_example(plan, units));
  page.line("  ",
            "Set the gauge to nought, pull or load slowly, read, let go and see that it comes "
            "back; take the middle of three. The gauge stands on the floor or on the blocks, not "
            "on the bench. Of the rails take the one that looks poorest: it speaks for all.");
  return page;
}

}  // namespace

Page page(const decide::ProvingPlan& plan, const bench::Bench& bench) {
  Page page;
  page.heading((plan.learned ? "What the readings teach: " : "Proving: ") + bench.title);
  if (plan.learned) page.add(verdicts(*plan.learned));
  for (const std::string& line : plan.answer) page.line("  ", line);
  page.gap();
  page.add(plan.learned ? learned_page(*plan.learned, bench.units)
                        : trials_page(plan, bench.units));
  page.line("  ", "A planning aid, not a certificate.");
  return page;
}

std::string text(const decide::ProvingPlan& plan, const bench::Bench& bench, const Style& style) {
  return page(plan, bench).text(static_cast<std::size_t>(style.width));
}

}  // namespace standtrue::report
