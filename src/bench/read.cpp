#include "standtrue/bench/read.hpp"

#include <algorithm>
#include <utility>

#include "bench/reader.hpp"

namespace standtrue::bench {
namespace {

constexpr int newest_version = 1;

void read_version(Reader& reader, Map& top) {
  const auto field = top.need("standtrue", "standtrue: 1");
  if (!field) return;
  const auto version = top.count("standtrue");
  if (version && *version != newest_version) {
    reader.note(
        field->fault(fmt::format("this file is of version {}, and only version {} is understood",
                                 *version, newest_version),
                     "standtrue: 1"));
  }
}

/// Imperial when the file says so, or gives its size in inches or feet.
void read_units(Reader& reader, Map& top) {
  using quantity::UnitSystem;
  if (const auto word = top.word("units", {"metric", "imperial"})) {
    reader.bench.units = *word == "imperial" ? UnitSystem::imperial : UnitSystem::metric;
    return;
  }
  const auto size_field = top.find("size");
  const std::string text = size_field ? size_field->text() : "";
  const bool inches = text.find("in") != std::string::npos ||
                      text.find("ft") != std::string::npos || text.find('"') != std::string::npos;
  if (inches) reader.bench.units = UnitSystem::imperial;
}

void read_size_line(Reader& reader, Map& top) {
  Bench& bench = reader.bench;
  bench.length = metres(2.0);  // stand-ins while a fault hides the real ones
  bench.depth = metres(0.7);
  bench.height = metres(0.9);
  const auto field = top.need("size", "size: 2050 x 680 x 900 mm");
  const auto text =
      field ? text_of(reader, *field, "size: 2050 x 680 x 900 mm") : std::optional<std::string>();
  if (!text) return;
  const auto triple = quantity::parse_triple(*text);
  if (!triple) {
    reader.note(field->fault(triple.error()));
    return;
  }
  for (const Length& side : *triple) {
    if (side >= millimetres(100.0) && side <= metres(100.0)) continue;
    reader.note(
        field->fault(fmt::format("{} is no measure of a bench: 100 mm to 100 m", say(side, reader)),
                     "size: 2050 x 680 x 900 mm"));
    return;
  }
  bench.length = (*triple)[0];
  bench.depth = (*triple)[1];
  bench.height = (*triple)[2];
}

/// The posts' length and depth are what the overhang leaves of the top's.
void read_frame(Reader& reader, Map& top) {
  read_size_line(reader, top);
  read_default_stock(reader, top, true);
  find_ledger(reader, top);
  const Bench& bench = reader.bench;
  SheetRule board = read_top(reader, top);
  Length length = bench.length - board.overhang.left - board.overhang.right;
  Length depth = bench.depth - board.overhang.front - board.overhang.back;
  if (length < millimetres(100.0) || depth < millimetres(100.0)) {
    reader.note(reader.place("top", top.field())
                    .fault("the overhang leaves no room for the posts", "overhang: 25 mm"));
    length = std::max(length, metres(0.5));
    depth = std::max(depth, metres(0.5));
  }
  const Length underside = bench.height - board.thickness();
  const PostPlan plan = read_posts(reader, top, length, depth);
  read_each_foot(reader, top);
  read_rails(reader, top, plan.stations, underside);
  read_bearers(reader, top, underside);
  place_top(reader, std::move(board), bench.length, bench.depth, bench.height);
  read_shelves(reader, top);
  read_upright_sheets(reader, top);
  read_braces(reader, top);
}

void check_geometry(Reader& reader, const Field& root) {
  if (any_error(reader.faults)) return;
  check_frame(reader, root);
  if (any_error(reader.faults)) return;
  check_sheets(reader, root);
  if (any_error(reader.faults)) return;
  check_feet(reader, root);
  check_machines(reader, root);
  fit_brackets(reader);
  check_brackets(reader, root);
}

void sort_by_place(std::vector<Diagnostic>& faults) {
  std::stable_sort(faults.begin(), faults.end(), [](const Diagnostic& a, const Diagnostic& b) {
    return std::pair(a.at.line, a.at.column) < std::pair(b.at.line, b.at.column);
  });
}

}  // namespace

BenchReading read_bench(const document::Document& document, const reference::Tables& tables) {
  BenchReading out;
  Reader reader{.tables = tables, .faults = out.diagnostics};
  const Field root = document::root(document);
  Map top(root, out.diagnostics, "standtrue: 1");
  read_version(reader, top);
  read_units(reader, top);
  read_rules(reader, top);
  reader.bench.title = top.text("title").value_or("Workshop bench");
  read_default_joint(reader, top);
  read_default_foot(reader, top);
  if (const auto parts = top.find("parts")) {
    read_parts(reader, top, *parts);
  } else {
    read_frame(reader, top);
  }
  read_use(reader, top);
  read_machines(reader, top);
  read_vice(reader, top);
  read_stored_on(reader, top);
  read_loads(reader, top);
  read_floor(reader, top);
  read_wall(reader, top);
  tell_fall(reader);
  read_analysis(reader, top);
  check_what_is_read_apart(reader, top);
  top.finish();
  check_geometry(reader, root);
  sort_by_place(out.diagnostics);
  if (any_error(out.diagnostics)) return out;
  out.bench = std::move(reader.bench);
  for (const auto& [part, field] : reader.places) {
    out.written.emplace(part, Written{field.path(), field.node().at});
  }
  return out;
}

}  // namespace standtrue::bench
