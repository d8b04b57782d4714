#include <algorithm>

#include "bench/plan.hpp"
#include "bench/reader.hpp"

namespace standtrue::bench {
namespace {

/// The ground that the pads take, to their outer edges.
Plan ground(const Machine& machine) {
  return {around(machine.x, machine.pads_x + machine.pad),
          around(machine.y, machine.pads_y + machine.pad)};
}

/// The nearest middle that keeps the pads on the sheet.
Length pulled_in(const Range& own, Length low, Length high) {
  const Length half = (own.high - own.low) / 2.0;
  if (high - low < half * 2.0) return (low + high) / 2.0;
  return std::clamp((own.low + own.high) / 2.0, low + half, high - half);
}

std::string over_edges(const Plan& own, const Sheet& sheet) {
  std::string edges;
  const auto add = [&](bool over, std::string_view edge) {
    if (over) edges += (edges.empty() ? "" : " and the ") + std::string(edge);
  };
  const Length slack = Range::slack();
  add(own.x.low < sheet.x0 - slack, "left");
  add(own.x.high > sheet.x1 + slack, "right");
  add(own.y.low < sheet.y0 - slack, "front");
  add(own.y.high > sheet.y1 + slack, "back");
  return edges;
}

void check_on_sheet(Reader& reader, const Machine& machine, const Field& field) {
  const Sheet& sheet = reader.bench.sheets[machine.sheet];
  const Plan own = ground(machine);
  const std::string edges = over_edges(own, sheet);
  if (!edges.empty()) {
    const Length x = pulled_in(own.x, sheet.x0, sheet.x1) - sheet.x0;
    const Length y = pulled_in(own.y, sheet.y0, sheet.y1) - sheet.y0;
    const bool fits = own.x.high - own.x.low <= sheet.x1 - sheet.x0 + Range::slack() &&
                      own.y.high - own.y.low <= sheet.y1 - sheet.y0 + Range::slack();
    reader.note(field.fault(
        fmt::format("the pads of the {} reach over the {} edge of the {}: with their {} by {} they "
                    "{}",
                    machine.name, edges, sheet.name, say(own.x.high - own.x.low, reader),
                    say(own.y.high - own.y.low, reader),
                    fits ? "must stand further in" : "are larger than the sheet"),
        fits ? fmt::format("at: [{}, {}]", say(x, reader), say(y, reader)) : "turned: yes"));
    return;
  }
  for (const Sheet::CutOut& cut : sheet.cut_outs) {
    if (!own.meets({{cut.x0, cut.x1}, {cut.y0, cut.y1}})) continue;
    reader.note(
        field.fault(fmt::format("the {} stands over a cut-out of the {}", machine.name, sheet.name),
                    "another place beside the cut-out"));
    return;
  }
}

bool is_cut_out_over(const Sheet& sheet, const Plan& own) {
  return std::any_of(sheet.cut_outs.begin(), sheet.cut_outs.end(), [&](const Sheet::CutOut& cut) {
    const Plan hole{{cut.x0, cut.x1}, {cut.y0, cut.y1}};
    return hole.x.holds(own.x.low) && hole.x.holds(own.x.high) && hole.y.holds(own.y.low) &&
           hole.y.holds(own.y.high);
  });
}

/// The lowest sheet that lies over the middle of its pads; none where it stands in the open.
const Sheet* sheet_over(const Bench& bench, const Machine& machine) {
  const Length ground_at = bench.sheets[machine.sheet].z1;
  const Sheet* lowest = nullptr;
  for (const Sheet& sheet : bench.sheets) {
    if (!lies(sheet) || sheet.underside < ground_at - Range::slack()) continue;
    const Plan plan = plan_of(sheet);
    if (!plan.x.holds(machine.x) || !plan.y.holds(machine.y)) continue;
    if (is_cut_out_over(sheet, ground(machine))) continue;
    if (lowest == nullptr || sheet.underside < lowest->underside) lowest = &sheet;
  }
  return lowest;
}

void check_fits_under(Reader& reader, const Machine& machine, const Field& field) {
  const Sheet* over = sheet_over(reader.bench, machine);
  if (over == nullptr) return;
  const Sheet& on = reader.bench.sheets[machine.sheet];
  const Length free = over->underside - on.z1;
  if (machine.kind.height <= free + millimetres(1.0)) return;
  const std::string own =
      machine.cg_height > free
          ? fmt::format("centre_height: {}, height: {}", say(free / 2.0, reader), say(free, reader))
          : fmt::format("height: {}", say(free, reader));
  reader.note(field.fault(
      fmt::format("the {} is {} high and does not fit on the {} under the {}: {} are free",
                  machine.name, say(machine.kind.height, reader), on.name, over->name,
                  say(free, reader)),
      fmt::format("{} if it is so low; else a lower sheet for it, or a cut-out of the {} over all "
                  "of its pads",
                  own, over->name)));
}

}  // namespace

void check_machines(Reader& reader, const Field& root) {
  const std::vector<Machine>& machines = reader.bench.machines;
  for (std::size_t i = 0; i < machines.size(); ++i) {
    const Machine& machine = machines[i];
    const Field& field = reader.place("machine " + machine.name, root);
    check_on_sheet(reader, machine, field);
    check_fits_under(reader, machine, field);
    for (std::size_t j = 0; j < i; ++j) {
      const Machine& other = machines[j];
      if (other.sheet != machine.sheet || !ground(machine).meets(ground(other))) continue;
      reader.note(field.warning(
          fmt::format("the {} and the {} stand on the same ground", other.name, machine.name),
          "another place for one of them"));
    }
  }
}

}  // namespace standtrue::bench
