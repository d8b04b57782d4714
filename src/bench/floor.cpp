#include <algorithm>

#include "bench/plan.hpp"
#include "bench/reader.hpp"
#include "standtrue/bench/leaning.hpp"

namespace standtrue::bench {
namespace {

constexpr std::string_view floor_example = "floor: {surface: concrete}";

void take_surface(Reader& reader, const Field& field, const std::string& name) {
  const auto* known = reader.tables.floor(name);
  if (known == nullptr) {
    unknown_word(reader, field, name, "floor", reader.tables.floor_names(), "concrete");
    return;
  }
  reader.bench.floor.surface = *known;
}

/// `1 in 80 to back`: falls towards the back.
void read_fall(Reader& reader, Map& map, Floor& floor) {
  const auto field = map.find("fall");
  if (!field) return;
  for (const Field& item : items_of(reader, *field)) {
    const auto text = text_of(reader, item, "fall: 1 in 80 to back");
    if (!text) continue;
    const std::size_t at = text->rfind(" to ");
    const std::vector<std::string> ways = {"back", "front", "left", "right"};
    const std::string way = at == std::string::npos ? "" : text->substr(at + 4);
    if (std::find(ways.begin(), ways.end(), way) == ways.end()) {
      reader.note(item.fault("a fall needs its direction: to back, front, left or right",
                             "fall: 1 in 80 to back"));
      continue;
    }
    const auto slope = quantity::parse_si(text->substr(0, at), Kind::slope);
    if (!slope) {
      quantity::TextFault fault = slope.error();
      fault.instead += text->substr(at);
      reader.note(item.fault(fault));
      continue;
    }
    if (*slope < 0.0 || *slope > 0.2) {
      reader.note(item.fault("a bench stands on no floor that falls more than 1 in 5",
                             "fall: 1 in 80 to back"));
      continue;
    }
    double& fall = way == "back" || way == "front" ? floor.fall_y : floor.fall_x;
    fall = way == "back" || way == "right" ? *slope : -*slope;
  }
}

Plan whole(const Bench& bench) {
  Plan all{{metres(1e3), metres(-1e3)}, {metres(1e3), metres(-1e3)}};
  const auto take = [&](const Plan& plan) {
    all.x = {std::min(all.x.low, plan.x.low), std::max(all.x.high, plan.x.high)};
    all.y = {std::min(all.y.low, plan.y.low), std::max(all.y.high, plan.y.high)};
  };
  for (const Post& post : bench.posts) take(plan_at_foot(post));
  for (const Sheet& sheet : bench.sheets) take({{sheet.x0, sheet.x1}, {sheet.y0, sheet.y1}});
  return all;
}

void read_keep_off(Reader& reader, Map& map) {
  const auto field = map.find("keep_off");
  if (!field) return;
  const Plan all = whole(reader.bench);
  for (const Field& item : items_of(reader, *field)) {
    Map strip(item, reader.faults, "keep_off: [{from: 600 mm, to: 1450 mm}]");
    KeepOff keep{all.x.low, all.x.high, all.y.low, all.y.high};
    const auto from = place(reader, strip, "from");
    const auto to = place(reader, strip, "to");
    const auto x = place_pair(reader, strip, "x");
    const auto y = place_pair(reader, strip, "y");
    const bool in_length = strip.has("from") || strip.has("to");
    if (in_length && (!strip.has("from") || !strip.has("to") || strip.has("x"))) {
      reader.note(item.fault("a strip runs 'from' one place 'to' another, or has 'x' and 'y'",
                             "{from: 600 mm, to: 1450 mm}"));
    } else if (!in_length && !strip.has("x") && !strip.has("y")) {
      reader.note(item.fault("this strip says nowhere to keep off", "{from: 600 mm, to: 1450 mm}"));
    }
    if (from) keep.x0 = *from;
    if (to) keep.x1 = *to;
    if (x) keep.x0 = (*x)[0], keep.x1 = (*x)[1];
    if (y) keep.y0 = (*y)[0], keep.y1 = (*y)[1];
    strip.finish();
    if (keep.x1 <= keep.x0 || keep.y1 <= keep.y0) {
      if (in_length && !(from && to)) continue;
      reader.note(item.fault("this strip ends before it begins", "{from: 600 mm, to: 1450 mm}"));
      continue;
    }
    reader.places.emplace(fmt::format("strip {}", reader.bench.floor.keep_off.size()), item);
    reader.bench.floor.keep_off.push_back(keep);
  }
}

void read_floor_map(Reader& reader, const Field& field) {
  Floor& floor = reader.bench.floor;
  Map map(field, reader.faults, floor_example);
  const auto surface = map.find("surface");
  if (surface) {
    if (const auto name = text_of(reader, *surface, "surface: concrete")) {
      take_surface(reader, *surface, *name);
    }
  } else {
    reader.assume("a concrete floor");
  }
  read_fall(reader, map, floor);
  if (const auto v = map.yes_no("levelled")) {
    floor.levelled = *v;
    const auto& limits = reader.tables.limits;
    floor.unevenness = *v ? limits.unevenness_levelled.value : limits.unevenness.value;
  }
  if (const auto v = size_or_zero(reader, map, "unevenness")) floor.unevenness = *v;
  read_keep_off(reader, map);
  if (const auto v = size_or_zero(reader, map, "edge_distance")) {
    floor.edge_distance = *v;
  } else if (!floor.keep_off.empty() && !map.has("edge_distance")) {
    reader.assume(fmt::format("{} wanted between a foot and a strip kept off",
                              say(floor.edge_distance, reader)));
  }
  using quantity::LinearStiffness;
  floor.down = positive_of<LinearStiffness>(reader, map, "down", Kind::linear_stiffness);
  floor.sideways = positive_of<LinearStiffness>(reader, map, "sideways", Kind::linear_stiffness);
  if (const auto mu = positive(reader, map, "friction", Kind::ratio, true)) {
    if (*mu > 2.0) {
      reader.note(
          map.find("friction")->fault("friction is a ratio, seldom over 1", "friction: 0.4"));
    }
    floor.friction = *mu;
  }
  map.finish();
}

/// ", the longest stem is 90 mm"; empty without feet that turn.
std::string longest_stem(const Reader& reader) {
  Length longest;
  for (const Post& post : reader.bench.posts) {
    if (post.on_wall || post.foot.bare || post.foot.castor) continue;
    longest = std::max(longest, free_stem(reader.bench, post));
  }
  return longest > Length{} ? ", the longest stem is " + say(longest, reader) : "";
}

void fix_at(Reader& reader, const std::string& rail, Length at) {
  reader.bench.wall.push_back({rail, at});
}

/// Near both ends (ours): so they follow a bench that is made longer.
void fix_as_usual(Reader& reader, const std::string& rail, Length length) {
  const Length from_end = length / 6.0;
  fix_at(reader, rail, from_end);
  fix_at(reader, rail, length - from_end);
  reader.assume(
      fmt::format("screws into the wall {} from each end of the {}", say(from_end, reader), rail));
}

}  // namespace

void read_floor(Reader& reader, Map& top) {
  Floor& floor = reader.bench.floor;
  floor.surface = *reader.tables.floor("concrete");
  const bool adjustable = !reader.foot.bare && !reader.foot.castor;
  const auto& limits = reader.tables.limits;
  floor.levelled = adjustable;
  floor.unevenness = adjustable ? limits.unevenness_levelled.value : limits.unevenness.value;
  floor.edge_distance = millimetres(50.0);
  const auto field = top.find("floor");
  if (!field) {
    reader.assume("a concrete floor");
  } else if (!field->is(document::Node::Kind::map)) {
    if (const auto name = text_of(reader, *field, floor_example)) {
      take_surface(reader, *field, *name);
    }
  } else {
    read_floor_map(reader, *field);
  }
  if (floor.levelled) {
    reader.assume(
        fmt::format("feet set so that all touch, to within {}", say(floor.unevenness, reader)));
  }
}

void read_wall(Reader& reader, Map& top) {
  const auto field = top.find("wall");
  if (!field || is_text(*field, "none")) return;
  for (const Field& item : items_of(reader, *field)) {
    Map map(item, reader.faults, "wall: {rail: back top rail, at: [300 mm, 1500 mm]}");
    if (map.has("ledger")) {
      read_ledger(reader, map);
      continue;
    }
    const auto name_field = map.need("rail", "rail: back top rail");
    const auto at = map.find("at");
    const auto name = name_field ? text_of(reader, *name_field, "rail: back top rail")
                                 : std::optional<std::string>();
    map.finish();
    if (!name) continue;
    std::vector<std::string> known;
    const Rail* rail = nullptr;
    for (const Rail& r : reader.bench.rails) {
      known.push_back(r.name);
      if (r.name == *name) rail = &r;
    }
    if (rail == nullptr) {
      unknown_word(reader, *name_field, *name, "rail", known, "back top rail");
      continue;
    }
    const Plan plan = plan_of(reader.bench, *rail);
    const Range along = rail->along_x ? plan.x : plan.y;
    if (!at) {
      fix_as_usual(reader, *name, along.high - along.low);
      continue;
    }
    for (const Field& place_field : items_of(reader, *at)) {
      const auto v = read_place(reader, place_field);
      if (!v) continue;
      if (*v < Length{} || *v > along.high - along.low) {
        reader.note(place_field.fault(fmt::format("the {} is {} long between its posts' middles",
                                                  *name, say(along.high - along.low, reader)),
                                      "at: [300 mm, 1500 mm]"));
        continue;
      }
      fix_at(reader, *name, *v);
    }
  }
  if (reader.bench.wall.empty()) return;
  reader.assume("that the wall holds the screws put into it: it is not judged");
}

void tell_fall(Reader& reader) {
  const Bench& bench = reader.bench;
  const std::string fall = fall_in_words(bench);
  if (fall.empty()) return;
  const bool is_bare = reader.foot.bare;
  if (leans(bench)) {
    reader.assume(fmt::format("{}: the bench leans with its floor, {}",
                              is_bare ? "posts cut alike" : "feet that nobody sets for the fall",
                              fall));
  } else if (bench.floor.levelled) {
    reader.assume(fmt::format("{} the fall of the floor, {}: the bench stands upright{}",
                              is_bare ? "posts cut to" : "feet set for", fall,
                              longest_stem(reader)));
  }
}

}  // namespace standtrue::bench
