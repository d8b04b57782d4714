#include <algorithm>

#include "bench/reader.hpp"

namespace standtrue::bench {
namespace {

using reference::Duration;

constexpr std::string_view load_example = "{at: [900 mm, 300 mm], down: 500 N}";

std::optional<Duration> duration_of(Map& map) {
  const std::vector<std::string> words = {"permanent", "long term", "medium term", "short term",
                                          "instantaneous"};
  const auto word = map.word("duration", words);
  if (!word) return std::nullopt;
  const auto at = std::find(words.begin(), words.end(), *word) - words.begin();
  return static_cast<Duration>(at);
}

void read_force(Reader& reader, Map& map, FreeLoad& load) {
  const auto field = map.find("force");
  if (!field) return;
  const auto values = document::read_si_list(*field, Kind::force, 3, reader.faults);
  if (!values) return;
  for (const double v : *values) {
    if (v < -1e6 || v > 1e6) {
      reader.note(field->fault("such a force is beyond any bench", "force: [0 N, 200 N, -500 N]"));
      return;
    }
  }
  load.fx = quantity::newtons((*values)[0]);
  load.fy = quantity::newtons((*values)[1]);
  load.fz = quantity::newtons((*values)[2]);
}

void read_load(Reader& reader, const Field& field, std::size_t number) {
  Map map(field, reader.faults, load_example);
  FreeLoad load;
  load.name = map.text("name").value_or(fmt::format("load {}", number));
  const auto sheet = sheet_of(reader, map);
  const auto at = map.need("at", "at: [900 mm, 300 mm]");
  const int ways =
      (map.has("down") ? 1 : 0) + (map.has("force") ? 1 : 0) + (map.has("mass") ? 1 : 0);
  if (ways != 1) {
    reader.note(
        field.fault("a load wants one of 'down', 'force' and 'mass'", std::string(load_example)));
  }
  if (const auto down = positive_of<Force>(reader, map, "down", Kind::force)) load.fz = -*down;
  read_force(reader, map, load);
  if (const auto mass = positive_of<Mass>(reader, map, "mass", Kind::mass)) {
    load.mass = *mass;
    load.fz = -*mass * quantity::standard_gravity();
    load.duration = Duration::permanent;
  }
  if (const auto duration = duration_of(map)) load.duration = *duration;
  map.finish();
  if (!sheet) return;
  load.sheet = *sheet;
  const Sheet& on = reader.bench.sheets[*sheet];
  const auto spot = at ? read_spot(reader, *at, on) : std::nullopt;
  if (!spot) return;
  load.x = spot->x;
  load.y = spot->y;
  if (load.x < on.x0 || load.x > on.x1 || load.y < on.y0 || load.y > on.y1) {
    reader.note(
        at->fault(fmt::format("{} does not act on the {}", load.name, on.name), "at: middle"));
    return;
  }
  reader.bench.loads.push_back(std::move(load));
}

}  // namespace

void read_loads(Reader& reader, Map& top) {
  const auto field = top.find("loads");
  if (!field || is_text(*field, "none")) return;
  std::size_t number = 0;
  for (const Field& item : items_of(reader, *field)) read_load(reader, item, ++number);
}

}  // namespace standtrue::bench
