#include "standtrue/check/cautions.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace standtrue::check {

using quantity::in_si;

namespace {

bool any_machine(const bench::Bench& bench, bool (*is)(const bench::Machine&)) {
  return std::any_of(bench.machines.begin(), bench.machines.end(), is);
}

bool is_loose_and_tall(const bench::Machine& m) { return m.kind.tends_to_tip && !m.bolted; }
bool grinds(const bench::Machine& m) { return m.kind.key.find("grinder") != std::string::npos; }
bool grinds_loose(const bench::Machine& m) { return grinds(m) && !m.bolted; }
bool turns_wood(const bench::Machine& m) {
  return m.kind.key.find("wood lathe") != std::string::npos;
}
/// A machine for a fixed place must be anchored so that it can not walk: 29 CFR 1910.212(b), read
/// in OSHA's letter of 2012-05-08. Those that tend to tip and grinders have lines of their own.
bool may_walk(const bench::Machine& m) {
  return m.kind.drive != reference::Drive::hand && !m.bolted && !m.kind.tends_to_tip && !grinds(m);
}

/// "the drill press and the bench mill"; empty where there is none.
std::string names(const bench::Bench& bench, bool (*is)(const bench::Machine&)) {
  std::vector<std::string> all;
  for (const bench::Machine& machine : bench.machines) {
    if (is(machine)) all.push_back("the " + machine.name);
  }
  std::string text;
  for (std::size_t i = 0; i < all.size(); ++i) {
    text += (i == 0 ? "" : i + 1 == all.size() ? " and " : ", ") + all[i];
  }
  return text;
}

/// A blank of d inches at 9000/d rpm at most: turners' rule, second hand, of a turning school.
std::string fresh_blank(const bench::Bench& bench) {
  constexpr double inch_rpm = 9000.0, mm_per_inch = 25.4;
  const bool metric = bench.units == quantity::UnitSystem::metric;
  return fmt::format(
      "Start a fresh blank on the lathe below {:.0f} rpm divided by its diameter in {}, stand "
      "clear, "
      "and stop if it shakes.",
      metric ? inch_rpm * mm_per_inch : inch_rpm, metric ? "mm" : "inches");
}

/// What the makers of such machines, and those who lift them, must see to.
std::vector<std::string> of_machines(const bench::Bench& bench) {
  std::vector<std::string> list;
  if (const std::string heavy = names(bench, is_too_heavy_for_one); !heavy.empty()) {
    list.push_back(fmt::format("Lift {} with two people or a hoist.", heavy));
  }
  if (const std::string loose = names(bench, may_walk); !loose.empty()) {
    list.push_back(fmt::format("Anchor {} as the maker says, so that nothing walks.", loose));
  }
  if (any_machine(bench, grinds)) {
    // From memory: 29 CFR 1910.215(a), guards and work rests.
    list.emplace_back("Keep the guards and rests of the grinder as its maker sets them.");
  }
  if (any_machine(bench, turns_wood)) list.push_back(fresh_blank(bench));
  return list;
}

struct Line {
  const char* id;
  Group group;
  const char* sentence;
  const char* why;
};

Finding caution_of(const Line& line) {
  Finding f;
  f.id = line.id;
  f.group = line.group;
  f.kind = Kind::caution;
  f.judgement = Judgement::outside_this_tool;
  f.sentence = line.sentence;
  f.why = line.why;
  f.place = "the bench";
  f.rule = "not looked at in this version";
  f.source = {"", "what this version looks at", reference::Status::ours};
  return f;
}

}  // namespace

bool is_too_heavy_for_one(const bench::Machine& machine) { return in_si(machine.mass) >= 45.0; }

std::vector<std::string> cautions(const bench::Bench& bench) {
  // The page shows the first few: what this bench asks for comes before what all benches do.
  std::vector<std::string> list;
  for (const bench::Machine& machine : bench.machines) {
    if (is_loose_and_tall(machine)) {
      list.push_back("The " + machine.name + " tends to tip: bolt it to the bench.");
    }
  }
  if (any_machine(bench, grinds_loose)) {
    list.emplace_back(
        "Bolt the grinder to the bench, and the bench to floor or wall unless it cannot walk.");
  } else if (any_machine(bench, grinds)) {
    list.emplace_back("With a grinder, fix the bench to floor or wall unless it cannot walk.");
  }
  for (std::string& line : of_machines(bench)) list.push_back(std::move(line));
  if (!bench.wall.empty()) {
    list.emplace_back(
        "The wall is not looked at: it must hold its fixings, whose forces are told with the "
        "feet.");
  }
  list.emplace_back("Local codes and a licensed engineer come first where people can be hurt.");
  if (!bench.machines.empty()) {
    list.emplace_back(names(bench, may_walk).empty() ? "Fix and guard machines as their makers say."
                                                     : "Guard machines as their makers say.");
  }
  list.emplace_back("Tighten all joints again after the first month and after a heating season.");
  if (bench.bought_damp) {
    list.emplace_back(
        "Damp timber shrinks and loosens its joints: tighten them again as it dries.");
  }
  list.emplace_back("A planning aid, not a certificate: timber and workmanship vary.");
  return list;
}

std::vector<Finding> outside_this_tool(const Answers& answers, const reference::Tables&) {
  const model::Parts& parts = answers.model.parts;
  std::vector<Finding> findings;
  if (!parts.strips.empty()) {
    findings.push_back(
        caution_of({"outside/plate", Group::sheet, "Sheets are taken as strips, not as plates.",
                    "the spread of load in two directions"}));
  }
  return findings;
}

}  // namespace standtrue::check
