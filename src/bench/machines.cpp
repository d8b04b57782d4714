#include <algorithm>
#include <cmath>

#include "bench/plan.hpp"
#include "bench/reader.hpp"
#include "standtrue/bench/turned.hpp"

namespace standtrue::bench {
namespace {

using quantity::Frequency;

constexpr std::string_view machine_example =
    "{kind: drill press, mass: 60 kg, at: [900 mm, 340 mm]}";

/// `speeds: [180 rpm, 2700 rpm]`, or one speed.
void read_speeds(Reader& reader, Map& map, Machine& machine) {
  const auto field = map.find("speeds");
  if (!field) return;
  std::vector<double> speeds;
  for (const Field& item : items_of(reader, *field)) {
    const auto v = document::read_si(item, Kind::speed, reader.faults);
    if (!v) return;
    if (*v < 0.0 || *v > 2e3) {
      reader.note(item.fault("no spindle turns at that", "speeds: [180 rpm, 2700 rpm]"));
      return;
    }
    speeds.push_back(*v);
  }
  if (speeds.empty() || speeds.size() > 2 || speeds.front() > speeds.back()) {
    reader.note(
        field->fault("speeds are the slowest and the fastest", "speeds: [180 rpm, 2700 rpm]"));
    return;
  }
  machine.speed_min = quantity::from_si<Frequency>(speeds.front());
  machine.speed_max = quantity::from_si<Frequency>(speeds.back());
}

/// `pads: 250 x 400 mm` between the middles of the feet, along and across the machine.
void read_pads(Reader& reader, Map& map, Machine& machine) {
  if (const auto field = map.find("pads")) {
    if (const auto text = text_of(reader, *field, "pads: 250 x 400 mm")) {
      const auto pair = quantity::parse_pair(*text);
      if (!pair) {
        reader.note(field->fault(pair.error()));
      } else if ((*pair)[0] <= Length{} || (*pair)[1] <= Length{} ||
                 std::max((*pair)[0], (*pair)[1]) > metres(100.0)) {
        reader.note(field->fault(fmt::format("'{}' are no distances between feet", *text),
                                 "pads: 250 x 400 mm"));
      } else {
        machine.pads_x = (*pair)[0];
        machine.pads_y = (*pair)[1];
      }
    }
  }
  if (const auto v = size(reader, map, "pad")) machine.pad = *v;
}

void read_centre(Reader& reader, Map& map, Machine& machine) {
  if (const auto v = place_pair(reader, map, "centre")) {
    machine.cg_x = (*v)[0];
    machine.cg_y = (*v)[1];
  }
  if (const auto v = size(reader, map, "centre_height")) machine.cg_height = *v;
}

/// Where somebody shoves it. Of one whose mass lies higher than usual the top does, too.
void read_height(Reader& reader, Map& map, Machine& machine) {
  const reference::Machine usual = machine.kind;
  if (machine.cg_height > usual.cg_height && usual.cg_height > Length{}) {
    machine.kind.height = usual.height * (in_si(machine.cg_height) / in_si(usual.cg_height));
  }
  const auto field = map.find("height");
  if (!field) return;
  if (const auto v = size(reader, map, "height")) machine.kind.height = *v;
  if (machine.kind.height < machine.cg_height) {
    reader.note(field->fault(fmt::format("the middle of its mass, {} up, would lie above its top",
                                         say(machine.cg_height, reader)),
                             "height: " + say(machine.cg_height * 2.0, reader)));
  }
}

/// On its own feet a machine whose mass lies outside of them falls over.
void stands_by_itself(Reader& reader, Map& map, const Machine& machine) {
  const auto outside = [&](Length off, Length pads) {
    return std::abs(in_si(off)) > 0.5 * (in_si(pads) + in_si(machine.pad));
  };
  if (machine.bolted) return;
  if (!outside(machine.cg_x, machine.pads_x) && !outside(machine.cg_y, machine.pads_y)) return;
  const auto field = map.find("centre");
  reader.note((field ? *field : map.field())
                  .fault(fmt::format("the {} stands loose and would fall over: the middle of its "
                                     "mass lies outside of its feet",
                                     machine.name),
                         "mounting: bolted"));
}

void take_machine_kind(const reference::Machine& kind, Machine& machine) {
  machine.kind = kind;
  machine.mass = kind.mass;
  machine.pads_x = kind.pads_length;
  machine.pads_y = kind.pads_depth;
  machine.pad = kind.pad;
  machine.cg_height = kind.cg_height;
  using reference::Spindle;
  machine.spindle = kind.spindle == Spindle::along    ? Machine::Axis::x
                    : kind.spindle == Spindle::across ? Machine::Axis::y
                                                      : Machine::Axis::z;
  machine.speed_min = kind.speed_min;
  machine.speed_max = kind.speed_max;
}

void read_kind(Reader& reader, Map& map, std::string_view usual, Machine& machine) {
  const auto field = usual.empty() ? map.need("kind", "kind: drill press") : map.find("kind");
  take_machine_kind(*reader.tables.machine(usual.empty() ? "machine" : usual), machine);
  if (!field) return;
  const auto name = text_of(reader, *field, "kind: drill press");
  if (!name) return;
  if (const auto* kind = reader.tables.machine(*name)) {
    take_machine_kind(*kind, machine);
    return;
  }
  unknown_word(reader, *field, *name, "machine", reader.tables.machine_names(), "machine");
}

/// What was not said of a machine, in one line.
void say_machine_assumptions(Reader& reader, Map& map, const Machine& machine) {
  std::vector<std::string> parts;
  const auto units = reader.bench.units;
  if (!map.has("mass")) parts.push_back(quantity::print(in_si(machine.mass), Kind::mass, units));
  if (!map.has("pads")) {
    parts.push_back(fmt::format("feet {} by {} apart", say(machine.pads_x, reader),
                                say(machine.pads_y, reader)));
  }
  if (!map.has("centre_height")) {
    parts.push_back(fmt::format("its mass {} above the bench", say(machine.cg_height, reader)));
  }
  if (!map.has("height")) {
    parts.push_back(fmt::format("its top {} above it", say(machine.kind.height, reader)));
  }
  if (!map.has("speeds") && machine.speed_max > Frequency{}) {
    parts.push_back(fmt::format("{} to {}",
                                quantity::print(in_si(machine.speed_min), Kind::speed, units),
                                quantity::print(in_si(machine.speed_max), Kind::speed, units)));
  }
  if (!map.has("mounting")) parts.emplace_back(machine.bolted ? "bolted down" : "standing loose");
  std::string line;
  for (const std::string& part : parts) line += (line.empty() ? "" : ", ") + part;
  if (!line.empty()) reader.assume(fmt::format("of the {}: {}", machine.name, line));
}

/// Over the front-left post, wholly on the sheet.
Spot over_a_post(const Bench& bench, const Machine& machine, const Sheet& sheet) {
  const Post& post = bench.posts.front();
  const Length half_x = (machine.pads_x + machine.pad) / 2.0;
  const Length half_y = (machine.pads_y + machine.pad) / 2.0;
  return {std::max(post.x, sheet.x0 + half_x), std::max(post.y, sheet.y0 + half_y)};
}

void read_machine(Reader& reader, Map& map, std::string_view usual) {
  Machine machine;
  read_kind(reader, map, usual, machine);
  std::vector<std::string> taken;
  for (const Machine& other : reader.bench.machines) taken.push_back(other.name);
  machine.name = unique_name(taken, map.text("name").value_or(machine.kind.key));
  if (const auto v = positive_of<Mass>(reader, map, "mass", Kind::mass)) machine.mass = *v;
  machine.bolted = machine.kind.holds_work;
  if (const auto v = map.word("mounting", {"bolted", "standing"})) machine.bolted = *v == "bolted";
  read_pads(reader, map, machine);
  read_centre(reader, map, machine);
  read_height(reader, map, machine);
  stands_by_itself(reader, map, machine);
  read_speeds(reader, map, machine);
  machine.bed_twist = positive_of<quantity::RotationalStiffness>(reader, map, "bed_twist",
                                                                 Kind::rotational_stiffness, true);
  if (map.yes_no("turned").value_or(false)) machine = turned_a_quarter(machine);
  const auto sheet = sheet_of(reader, map);
  const auto at = usual.empty() ? map.need("at", "at: middle") : map.find("at");
  if (sheet) {
    machine.sheet = *sheet;
    const Sheet& on = reader.bench.sheets[*sheet];
    if (at) {
      if (const auto spot = read_spot(reader, *at, on)) {
        machine.x = spot->x;
        machine.y = spot->y;
      }
    } else if (!usual.empty() && !reader.bench.posts.empty()) {
      const Spot spot = over_a_post(reader.bench, machine, on);
      machine.x = spot.x;
      machine.y = spot.y;
      reader.assume(
          fmt::format("the {} over the {}", machine.name, reader.bench.posts.front().name));
    }
  }
  say_machine_assumptions(reader, map, machine);
  reader.places.insert_or_assign("machine " + machine.name, at ? *at : map.field());
  reader.bench.machines.push_back(std::move(machine));
}

}  // namespace

std::string unique_name(const std::vector<std::string>& taken, const std::string& wanted) {
  std::string name = wanted;
  for (int n = 2; std::find(taken.begin(), taken.end(), name) != taken.end(); ++n) {
    name = fmt::format("{} {}", wanted, n);
  }
  return name;
}

std::optional<std::size_t> sheet_of(Reader& reader, Map& map) {
  const auto field = map.find("sheet");
  std::vector<std::string> known;
  std::optional<std::size_t> top;
  for (std::size_t i = 0; i < reader.bench.sheets.size(); ++i) {
    const Sheet& sheet = reader.bench.sheets[i];
    if (!lies(sheet)) continue;
    known.push_back(sheet.name);
    if (sheet.place == SheetPlace::top && !top) top = i;
    if (field && field->text() == sheet.name) return i;
  }
  if (!field) {
    if (!top)
      reader.note(map.field().fault("there is no top for this to stand on", "sheet: shelf"));
    return top;
  }
  unknown_word(reader, *field, field->text(), "sheet", known, "top");
  return std::nullopt;
}

std::optional<Spot> read_spot(Reader& reader, const Field& field, const Sheet& sheet) {
  const Spot middle{(sheet.x0 + sheet.x1) / 2.0, (sheet.y0 + sheet.y1) / 2.0};
  if (is_text(field, "middle")) return middle;
  if (field.is(document::Node::Kind::list)) {
    const auto pair = place_pair(reader, field);
    if (!pair) return std::nullopt;
    return Spot{sheet.x0 + (*pair)[0], sheet.y0 + (*pair)[1]};
  }
  if (field.is(document::Node::Kind::scalar) && !field.text().empty() &&
      (field.text()[0] < '0' || field.text()[0] > '9')) {
    reader.note(field.fault(fmt::format("'{}' is no place that I know", field.text()),
                            "at: middle, or at: [300 mm, 340 mm]"));
    return std::nullopt;
  }
  const auto along = read_place(reader, field);
  if (!along) return std::nullopt;
  return Spot{sheet.x0 + *along, middle.y};
}

void read_machines(Reader& reader, Map& top) {
  const auto field = top.find("machines");
  if (!field || is_text(*field, "none")) return;
  for (const Field& item : items_of(reader, *field)) {
    Map map(item, reader.faults, machine_example);
    read_machine(reader, map, "");
    map.finish();
  }
}

void read_vice(Reader& reader, Map& top) {
  const auto field = top.find("vice");
  if (!field || is_text(*field, "none")) return;
  for (const Field& item : items_of(reader, *field)) {
    if (item.is(document::Node::Kind::scalar)) {
      const auto* kind = reader.tables.machine(item.text());
      if (kind == nullptr || !kind->holds_work) {
        unknown_word(reader, item, item.text(), "vice", {"small vice", "vice", "large vice"},
                     "vice");
        continue;
      }
      std::vector<Diagnostic> unused;  // a text where a map may stand is no fault here
      Map map(item, unused, machine_example);
      read_machine(reader, map, kind->key);
      continue;
    }
    Map map(item, reader.faults, "vice: {kind: large vice, at: [250 mm, 90 mm]}");
    read_machine(reader, map, "vice");
    map.finish();
  }
}

}  // namespace standtrue::bench
