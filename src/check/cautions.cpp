#include "standtrue/check/cautions.hpp"

#include <algorithm>

namespace standtrue::check {

namespace {

bool any_machine(const bench::Bench& bench, bool (*is)(const bench::Machine&)) {
  return std::any_of(bench.machines.begin(), bench.machines.end(), is);
}

bool is_loose_and_tall(const bench::Machine& m) { return m.kind.tends_to_tip && !m.bolted; }
bool grinds(const bench::Machine& m) { return m.kind.key.find("grinder") != std::string::npos; }

struct Line {
  const char* id;
  Group group;
  const char* sentence;
  const char* why;
};

Finding told(const Line& line) {
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

std::vector<std::string> cautions(const bench::Bench& bench) {
  // The page shows the first few: what this bench asks for comes before what all benches do.
  std::vector<std::string> list;
  for (const bench::Machine& machine : bench.machines) {
    if (is_loose_and_tall(machine)) {
      list.push_back("The " + machine.name + " tends to tip: bolt it to the bench.");
    }
  }
  if (any_machine(bench, grinds)) {
    list.emplace_back(
        "Bolt the grinder to the bench, and the bench to floor or wall unless it cannot walk.");
  }
  if (!bench.wall.empty()) {
    list.emplace_back(
        "The wall is not looked at: it must hold its fixings, whose forces are told with the "
        "feet.");
  }
  list.emplace_back("Local codes and a licensed engineer come first where people can be hurt.");
  if (!bench.machines.empty()) {
    list.emplace_back("Fix and guard machines as their makers say.");
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
        told({"outside/plate", Group::sheet, "Sheets are taken as strips, not as plates.",
              "the spread of load in two directions"}));
  }
  findings.push_back(
      told({"outside/drag", Group::feet,
            "Dragging the bench by one foot is not looked at: lift it.", "300 N at one foot"}));
  findings.push_back(
      told({"outside/table-tests", Group::carry, "The published tests of tables are not run.",
            "test forces of furniture standards"}));
  return findings;
}

}  // namespace standtrue::check
