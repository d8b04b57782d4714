#include "bench/reader.hpp"

namespace standtrue::bench {
namespace {

constexpr std::string_view usual_duty = "general";
constexpr std::string_view usual_air = "unheated";

int class_of(const reference::Air& air) { return static_cast<int>(air.service_class) + 1; }

}  // namespace

void read_use(Reader& reader, Map& top) {
  Bench& bench = reader.bench;
  bench.duty = *reader.tables.duty(usual_duty);
  bench.air = *reader.tables.air(usual_air);
  const auto duty = top.find("duty");
  const auto air = top.find("air");
  if (duty) {
    if (const auto word = text_of(reader, *duty, "duty: general")) {
      if (const auto* known = reader.tables.duty(*word)) {
        bench.duty = *known;
      } else {
        unknown_word(reader, *duty, *word, "duty", reader.tables.duty_names(), "general");
      }
    }
  } else {
    reader.assume("general duty");
  }
  if (air) {
    if (const auto word = text_of(reader, *air, "air: unheated")) {
      if (const auto* known = reader.tables.air(*word)) {
        bench.air = *known;
      } else {
        unknown_word(reader, *air, *word, "air", reader.tables.air_names(), "unheated");
      }
    }
  } else {
    reader.assume(fmt::format("an unheated shop (service class {})", class_of(bench.air)));
  }
  if (const auto word = top.word("bought", {"dry", "damp"})) bench.bought_damp = *word == "damp";
}

void read_analysis(Reader& reader, Map& top) {
  const auto field = top.find("analysis");
  if (!field) return;
  Analysis& analysis = reader.bench.analysis;
  Map map(*field, reader.faults, "analysis: {sheets: shell, mesh: 25 mm, combination: as given}");
  if (const auto word = map.word("sheets", {"shell", "strip", "none"})) {
    analysis.sheets = *word == "none"    ? Analysis::Sheets::none
                      : *word == "strip" ? Analysis::Sheets::strip
                                         : Analysis::Sheets::shell;
  }
  if (const auto word = map.word("combination", {"as given", "usual"})) {
    analysis.as_given = *word == "as given";
  }
  if (const auto mesh = size(reader, map, "mesh")) {
    const double cell = in_si(*mesh);
    if (cell < 5e-3 || cell > 0.5) {
      reader.note(map.find("mesh")->fault(
          fmt::format("a mesh of {} is not between 5 mm and 500 mm", say(*mesh, reader)),
          "mesh: 25 mm"));
    } else {
      analysis.mesh = *mesh;
    }
  }
  map.finish();
}

void check_what_is_read_apart(Reader& reader, Map& top) {
  const auto variants = top.find("variants");  // each is read on its own
  if (variants && !variants->is(document::Node::Kind::map)) {
    reader.note(variants->fault("variants are a group: a name, and the keys that it changes",
                                "variants: {thicker top: {top: {sheet: 24 mm spruce plywood}}}"));
  }
  const auto prices = top.find("prices");  // read by bench/prices.hpp
  if (prices && !prices->is(document::Node::Kind::map) &&
      !prices->is(document::Node::Kind::nothing)) {
    reader.note(prices->fault("prices are a group: what is bought, and what it costs",
                              "prices: {currency: EUR, C24: 3.20 per m, bracket: 1.40}"));
  }
  const auto readings = top.find("readings");  // read by bench/readings.hpp
  if (readings && !readings->is(document::Node::Kind::list) &&
      !readings->is(document::Node::Kind::nothing)) {
    reader.note(readings->fault("readings are a list of what was measured",
                                "readings: [{test: finished along, pull: 10 kg, moves: 0.6 mm}]"));
  }
}

}  // namespace standtrue::bench
