#include <algorithm>

#include "bench/reader.hpp"

namespace standtrue::bench {
namespace {

Length usual_overhang() { return millimetres(25.0); }

/// A stand-in while a fault keeps the real one from being known.
Board any_board(const Reader& reader) {
  Board board;
  board.panel = reader.tables.panels.front();
  board.family = reader.tables.panel_families.front();
  return board;
}

void take_board(Reader& reader, const std::optional<Field>& field, SheetRule& rule) {
  std::optional<Board> board = field ? read_board(reader, *field) : std::nullopt;
  if (!board) board = any_board(reader);  // the fault has been noted
  rule.sheet.panel = board->panel;
  rule.sheet.family = board->family;
}

std::optional<Bond> bond_of(Map& map, std::string_view key) {
  const auto word = map.word(key, {"loose", "screwed", "glued"});
  if (!word) return std::nullopt;
  return *word == "loose" ? Bond::loose : *word == "glued" ? Bond::glued : Bond::screwed;
}

void take_screw_size(Reader& reader, const Field& field, Screws& screws) {
  const auto text = text_of(reader, field, "screws: 4 x 40 mm");
  if (!text) return;
  const auto pair = quantity::parse_pair(*text);
  if (!pair) {
    reader.note(field.fault(pair.error()));
    return;
  }
  const Length diameter = std::min((*pair)[0], (*pair)[1]);
  const auto* screw = reader.tables.screw(diameter);
  if (screw == nullptr) {
    std::string known;
    for (const auto& s : reader.tables.screws) known += (known.empty() ? "" : ", ") + s.key;
    reader.note(field.fault(fmt::format("no screw of {} is listed, but {}",
                                        quantity::print(in_si(diameter), Kind::length), known),
                            "4 x 40 mm"));
    return;
  }
  const Length length = std::max((*pair)[0], (*pair)[1]);
  if (length > metres(0.5)) {
    reader.note(field.fault("a screw is not that long", "4 x 40 mm"));
    return;
  }
  screws.screw = *screw;
  screws.length = length;
}

void read_screws(Reader& reader, const Field& field, Screws& screws) {
  if (!field.is(document::Node::Kind::map)) {
    take_screw_size(reader, field, screws);
    return;
  }
  Map map(field, reader.faults, "screws: {size: 4 x 40 mm, every: 250 mm}");
  if (const auto size_field = map.find("size")) take_screw_size(reader, *size_field, screws);
  if (const auto v = size(reader, map, "every")) screws.every = *v;
  if (const auto v = size_or_zero(reader, map, "clear_of_post")) screws.clear_of_post = *v;
  if (const auto v = map.yes_no("into_posts")) screws.into_posts = *v;
  if (const auto v =
          positive_of<quantity::LinearStiffness>(reader, map, "slip", Kind::linear_stiffness)) {
    screws.slip = *v;
  }
  map.finish();
}

void assume_overhang(Reader& reader, Length overhang) {
  reader.assume(
      fmt::format("that the top overhangs the posts by {} {}", say(overhang, reader),
                  reader.ledger ? "in front and at both ends, and ends at the wall" : "all round"));
}

/// Behind a ledger is the wall.
void end_at_wall(Reader& reader, Map& edges, Edges& overhang) {
  if (!reader.ledger || overhang.back == Length{}) return;
  reader.note(
      edges.find("back")->fault("the top ends at the wall: it can not reach past the ledger",
                                "overhang: {front: 60 mm, back: 0 mm}"));
  overhang.back = {};
}

void read_overhang(Reader& reader, Map& map, Edges& overhang) {
  const auto field = map.find("overhang");
  if (!field) return assume_overhang(reader, usual_overhang());
  if (!field->is(document::Node::Kind::map)) {
    const auto all = size_or_zero(reader, map, "overhang");
    if (!all) return;
    overhang = {*all, reader.ledger ? Length{} : *all, *all, *all};
    if (reader.ledger) assume_overhang(reader, *all);
    return;
  }
  Map edges(*field, reader.faults, "overhang: {front: 60 mm, back: 0 mm}");
  for (const auto& [key, edge] : {std::pair{"front", &overhang.front},
                                  {"back", &overhang.back},
                                  {"left", &overhang.left},
                                  {"right", &overhang.right}}) {
    if (const auto v = size_or_zero(reader, edges, key)) *edge = *v;
  }
  end_at_wall(reader, edges, overhang);
  edges.finish();
}

void read_cut_outs(Reader& reader, Map& map, Sheet& sheet) {
  const auto field = map.find("cut_outs");
  if (!field) return;
  for (const Field& item : items_of(reader, *field)) {
    Map cut(item, reader.faults, "{from: [600 mm, 200 mm], to: [800 mm, 350 mm]}");
    const auto from = cut.need("from", "from: [600 mm, 200 mm]");
    const auto to = cut.need("to", "to: [800 mm, 350 mm]");
    const auto a = from ? place_pair(reader, *from) : std::nullopt;
    const auto b = to ? place_pair(reader, *to) : std::nullopt;
    cut.finish();
    if (!a || !b) continue;
    if ((*b)[0] <= (*a)[0] || (*b)[1] <= (*a)[1]) {
      reader.note(item.fault("a cut-out runs from its front-left to its back-right corner",
                             "{from: [600 mm, 200 mm], to: [800 mm, 350 mm]}"));
      continue;
    }
    sheet.cut_outs.push_back({(*a)[0], (*b)[0], (*a)[1], (*b)[1]});
  }
}

void assume_screws(Reader& reader, const Sheet& sheet) {
  const Screws& screws = sheet.screws;
  const std::string name = sheet.name.empty() ? "upright sheet" : sheet.name;
  reader.assume(fmt::format("screws {} x {} every {} in the {}, none nearer than {} to a post",
                            quantity::print(in_si(screws.screw.diameter), Kind::length),
                            quantity::print(in_si(screws.length), Kind::length),
                            say(screws.every, reader), name, say(screws.clear_of_post, reader)));
}

void read_shelf_keys(Reader& reader, Map& map, SheetRule& rule) {
  rule.from = place(reader, map, "from");
  rule.to = place(reader, map, "to");
  rule.underside = size(reader, map, "underside");
  if (const auto name = map.text("name")) rule.sheet.name = *name;
}

}  // namespace

Screws usual_screws(const Reader& reader, Length thickness) {
  Screws screws;
  if (const auto* screw = reader.tables.screw(millimetres(4.0))) screws.screw = *screw;
  // The shortest as sold whose thread reaches far enough into the timber to be judged, its point (a
  // diameter) not counted.
  const double in_timber = reader.tables.constant("penetration lateral").value + 1.0;
  const Length wanted = thickness + in_timber * screws.screw.diameter;
  for (const double sold : {40.0, 50.0, 60.0, 70.0, 80.0, 100.0}) {
    screws.length = millimetres(sold);
    if (screws.length >= wanted) break;
  }
  screws.every = millimetres(250.0);
  screws.clear_of_post = millimetres(100.0);
  return screws;
}

std::optional<Stored> read_stored(Reader& reader, const Field& field) {
  const auto text = text_of(reader, field, "40 kg, or 50 kg/m2");
  if (!text) return std::nullopt;
  if (*text == "none") return Stored{.spread = Stress{}};
  if (const auto mass = quantity::parse<Mass>(*text, Kind::mass)) {
    if (*mass >= Mass{} && *mass < quantity::kilograms(1e5)) return Stored{.total = *mass};
    reader.note(field.fault("such a mass cannot be stored here", "load: 40 kg"));
    return std::nullopt;
  }
  const auto spread = quantity::parse<Stress>(*text, Kind::area_load);
  if (!spread) {
    const bool is_mass = text->find('/') == std::string::npos;
    const auto mass = quantity::parse<Mass>(*text, Kind::mass);
    reader.note(field.fault(is_mass ? mass.error() : spread.error()));
    return std::nullopt;
  }
  if (*spread >= Stress{} && *spread < quantity::pascals(1e6)) return Stored{.spread = *spread};
  reader.note(field.fault("such a load cannot be stored here", "load: 50 kg/m2"));
  return std::nullopt;
}

void read_sheet_keys(Reader& reader, Map& map, SheetRule& rule) {
  take_board(reader, map.need("sheet", fmt::format("sheet: {}", board_example)), rule);
  if (const auto v = few(reader, map, "layers")) rule.sheet.layers = *v;
  if (const auto v = bond_of(map, "layers_joined")) rule.sheet.between_layers = *v;
  if (const auto v = bond_of(map, "fixed")) rule.sheet.bond = *v;
  if (const auto v = map.word("grain", {"along", "across"})) rule.grain_along = *v == "along";
  rule.sheet.screws = usual_screws(reader, rule.thickness());
  if (const auto field = map.find("screws")) {
    read_screws(reader, *field, rule.sheet.screws);
  } else if (rule.sheet.bond == Bond::screwed) {
    assume_screws(reader, rule.sheet);
  }
  if (const auto field = map.find("load")) rule.stored = read_stored(reader, *field);
  read_cut_outs(reader, map, rule.sheet);
}

SheetRule any_sheet_rule(const Reader& reader, SheetPlace place, const std::string& name) {
  SheetRule rule;
  const Board board = any_board(reader);
  rule.sheet.panel = board.panel;
  rule.sheet.family = board.family;
  rule.sheet.name = name;
  rule.sheet.place = place;
  rule.sheet.screws = usual_screws(reader, rule.thickness());
  const Length usual = place == SheetPlace::top ? usual_overhang() : Length{};
  rule.overhang = {usual, reader.ledger ? Length{} : usual, usual, usual};
  return rule;
}

SheetRule read_sheet_rule(Reader& reader, const Field& field, SheetPlace place,
                          const std::string& name) {
  SheetRule rule = any_sheet_rule(reader, place, name);
  const bool upright = place == SheetPlace::back || place == SheetPlace::end;
  if (!field.is(document::Node::Kind::map) && !upright) {
    take_board(reader, field, rule);
    rule.sheet.screws = usual_screws(reader, rule.thickness());
    assume_screws(reader, rule.sheet);
    if (place == SheetPlace::top) assume_overhang(reader, usual_overhang());
    return rule;
  }
  Map map(field, reader.faults,
          upright ? "{side: back, sheet: 9 mm spruce plywood}" : "{sheet: 18 mm spruce plywood}");
  read_sheet_keys(reader, map, rule);
  if (place == SheetPlace::top) read_overhang(reader, map, rule.overhang);
  if (place != SheetPlace::top) read_shelf_keys(reader, map, rule);
  if (upright) {
    (void)map.need("side", "side: back");
    rule.side = map.word("side", {"back", "left", "right"}).value_or("back");
    if (rule.stored || !rule.sheet.cut_outs.empty()) {
      reader.note(map.field().fault("an upright sheet carries no load and has no cut-outs here",
                                    "{side: back, sheet: 9 mm spruce plywood}"));
    }
  }
  map.finish();
  return rule;
}

}  // namespace standtrue::bench
