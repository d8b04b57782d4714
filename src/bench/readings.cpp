#include "standtrue/bench/readings.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace standtrue::bench {

namespace {

using document::Field;
using document::Map;
using quantity::in_si;
using quantity::Kind;

constexpr const char* reading_example = "{test: finished along, pull: 10 kg, moves: 0.6 mm}";

std::optional<Test> test_of(Map& map) {
  if (!map.need("test", "test: finished along")) return std::nullopt;
  std::vector<std::string> known;
  for (const Test test : all_tests) known.push_back(name_of(test));
  const auto word = map.word("test", known);
  if (!word) return std::nullopt;
  return all_tests[static_cast<std::size_t>(std::find(known.begin(), known.end(), *word) -
                                            known.begin())];
}

/// A spring balance shows kilograms or pounds; newtons are understood too.
std::optional<double> force_of(const Field& field, std::vector<Diagnostic>& faults) {
  if (const auto newtons = quantity::parse_si(field.text(), Kind::force)) return *newtons;
  const auto mass = document::read_si(field, Kind::mass, faults);
  if (!mass) return std::nullopt;
  return *mass * in_si(quantity::standard_gravity());
}

/// `pull` for a pull, `load` for a weight; more than a person brings is a slip.
std::optional<Force> force_of(Map& map, Test test, const reference::Tables& tables,
                              std::vector<Diagnostic>& faults) {
  const char* key = is_pull(test) ? "pull" : "load";
  const char* other = is_pull(test) ? "load" : "pull";
  const std::string instead = fmt::format("{}: {} kg", key, is_pull(test) ? 10 : 20);
  if (const auto wrong = map.find(other)) {
    faults.push_back(wrong->fault(
        fmt::format("in the test '{}' {}", name_of(test),
                    is_pull(test) ? "the bench is pulled sideways" : "a weight is put on"),
        instead));
    (void)map.has(key);
    return std::nullopt;
  }
  const auto field = map.need(key, instead);
  const auto force = field ? force_of(*field, faults) : std::nullopt;
  if (!force) return std::nullopt;
  const double most =
      in_si(is_pull(test) ? tables.load("shove once").sideways : tables.load("stand").down);
  if (*force > 0.0 && *force <= most) return quantity::newtons(*force);
  faults.push_back(field->fault(
      *force > 0.0 ? fmt::format("'{}' is more than such a test may bring", field->text())
                   : fmt::format("'{}' must be more than zero", field->text()),
      instead));
  return std::nullopt;
}

std::optional<Length> length_of(Map& map, const char* key, const char* instead, Length most,
                                std::vector<Diagnostic>& faults) {
  const auto field = map.find(key);
  const auto value = field ? document::read_si(*field, Kind::length, faults) : std::nullopt;
  if (!value) return std::nullopt;
  if (*value > 0.0 && *value <= in_si(most)) return quantity::metres(*value);
  faults.push_back(field->fault(
      *value > 0.0 ? fmt::format("'{}' is too much for a reading of a bench", field->text())
                   : fmt::format("'{}' must be more than zero: what does not move tells nothing",
                                 field->text()),
      instead));
  return std::nullopt;
}

std::optional<Reading> read_one_reading(const Field& field, const reference::Tables& tables,
                                        std::vector<Diagnostic>& faults) {
  Map map(field, faults, reading_example);
  const std::optional<Test> test = test_of(map);
  std::optional<Force> force;
  if (test) {
    force = force_of(map, *test, tables, faults);
  } else {
    (void)(map.has("pull") || map.has("load"));
    (void)map.has("load");
  }
  const bool is_moved = map.need("moves", "moves: 0.6 mm").has_value();
  const auto moves =
      is_moved ? length_of(map, "moves", "moves: 0.6 mm", quantity::millimetres(500.0), faults)
               : std::nullopt;
  const auto gauge = length_of(map, "gauge", "gauge: 0.1 mm", quantity::millimetres(10.0), faults);
  map.finish();
  if (!test || !force || !moves) return std::nullopt;
  return Reading{*test, *force, *moves,
                 gauge.value_or(*moves < fine_up_to ? fine_gauge : coarse_gauge)};
}

}  // namespace

std::string name_of(Test test) {
  switch (test) {
    case Test::loose_rail:
      return "loose rail";
    case Test::bare_along:
      return "bare frame along";
    case Test::bare_across:
      return "bare frame across";
    case Test::finished_along:
      return "finished along";
    case Test::finished_across:
      return "finished across";
    case Test::top_sag:
      return "top sag";
  }
  return "";
}

bool is_pull(Test test) { return test != Test::loose_rail && test != Test::top_sag; }

std::vector<Reading> read_readings(const document::Document& document,
                                   const reference::Tables& tables,
                                   std::vector<Diagnostic>& diagnostics) {
  std::vector<Reading> readings;
  document::Map top(document::root(document), diagnostics, "readings: [...]");
  const auto list = top.find("readings");
  if (!list || list->is(document::Node::Kind::nothing)) return readings;
  if (!list->is(document::Node::Kind::list)) {
    diagnostics.push_back(list->fault("readings are a list of what was measured",
                                      fmt::format("readings: [{}]", reading_example)));
    return readings;
  }
  constexpr std::size_t most = 200;
  if (list->items().size() > most) {
    diagnostics.push_back(list->fault(
        fmt::format("{} readings are too many: {} is the most", list->items().size(), most), ""));
    return readings;
  }
  for (const Field& item : list->items()) {
    if (auto reading = read_one_reading(item, tables, diagnostics)) readings.push_back(*reading);
  }
  return readings;
}

}  // namespace standtrue::bench
