#include <algorithm>
#include <cmath>

#include "bench/plan.hpp"
#include "bench/reader.hpp"

namespace standtrue::bench {
namespace {

constexpr std::string_view bearers_example = "bearers: {every: 400 mm}";

struct Pair {
  std::size_t from, to;
};

/// The outermost two rails that a bearer meets there: their tops at `top_at`, square to it.
std::optional<Pair> rails_at(const Bench& bench, bool across, Length at, Length top_at) {
  std::optional<Pair> pair;
  for (std::size_t i = 0; i < bench.rails.size(); ++i) {
    const Rail& rail = bench.rails[i];
    if (rail.along_x != across || !near(heights(rail).high, top_at)) continue;
    const Plan plan = plan_of(bench, rail);
    if (!(across ? plan.x : plan.y).holds(at)) continue;
    if (!pair) pair = Pair{i, i};
    if (rail_line(bench, rail) < rail_line(bench, bench.rails[pair->from])) pair->from = i;
    if (rail_line(bench, rail) > rail_line(bench, bench.rails[pair->to])) pair->to = i;
  }
  if (pair && pair->from == pair->to) return std::nullopt;
  return pair;
}

/// The bays of the rails at that height that run square to the bearers, in order.
std::vector<Range> bays_of(const Bench& bench, bool across, Length top_at) {
  std::vector<Range> bays;
  for (const Rail& rail : bench.rails) {
    if (rail.along_x != across || !near(heights(rail).high, top_at)) continue;
    const Plan plan = plan_of(bench, rail);
    const Range range = across ? plan.x : plan.y;
    const bool known =
        std::any_of(bays.begin(), bays.end(), [&](const Range& bay) { return bay.meets(range); });
    if (!known) bays.push_back(range);
  }
  std::sort(bays.begin(), bays.end(), [](const Range& a, const Range& b) { return a.low < b.low; });
  return bays;
}

/// Middles that part `range` into equal bays no wider than `every`.
std::vector<Length> spaced(const Range& range, Length every) {
  const Length whole = range.high - range.low;
  const int bays = std::max(1, static_cast<int>(std::ceil(in_si(whole) / in_si(every) - 1e-9)));
  std::vector<Length> at;
  for (int i = 1; i < bays && i <= 200; ++i) {
    at.push_back(range.low + whole * static_cast<double>(i) / static_cast<double>(bays));
  }
  return at;
}

struct Position {
  Length at;
  Field field;
};

std::vector<Position> positions(Reader& reader, Map& map, bool across, Length top_at) {
  const auto at = map.find("at");
  const auto every = size(reader, map, "every");
  const auto count = few(reader, map, "count");
  const int ways = (at ? 1 : 0) + (map.has("every") ? 1 : 0) + (map.has("count") ? 1 : 0);
  if (ways != 1) {
    reader.note(map.field().fault("bearers want one of 'at', 'every' and 'count'",
                                  "bearers: {at: [500 mm, 1000 mm]}"));
    return {};
  }
  std::vector<Position> middles;
  if (at) {
    for (const Field& item : items_of(reader, *at)) {
      if (const auto v = read_place(reader, item)) middles.push_back({*v, item});
    }
    return middles;
  }
  for (const Range& bay : bays_of(reader.bench, across, top_at)) {
    const Length step = every ? *every : (bay.high - bay.low) / (count.value_or(1) + 1.0);
    if (!every && !count) break;  // faults noted
    for (const Length& middle : spaced(bay, step)) middles.push_back({middle, map.field()});
  }
  if (every && middles.empty()) {
    reader.note(map.field().fault("'every' is wider than the bays: no bearer fits",
                                  std::string(bearers_example)));
  }
  return middles;
}

void read_bearers_of(Reader& reader, const Field& field, Length underside_of_top) {
  Map map(field, reader.faults, bearers_example);
  const Stock stock = member_stock(reader, map, reader.stock).value_or(*reader.stock);
  const bool flat = map.word("laid", {"on edge", "flat"}) == "flat";
  const bool across = map.word("run", {"across", "along"}) != "along";
  const bool shelf = map.word("under", {"top", "shelf"}) == "shelf";
  Bearer bearer;
  bearer.stock = stock;
  bearer.width = flat ? stock.depth : stock.thickness;
  bearer.depth = flat ? stock.thickness : stock.depth;
  bearer.start = bearer.end = bearer_joint(reader, map);
  const Length usual = shelf ? top_of_lower_rails(reader.bench) : underside_of_top;
  const Length top_at = size(reader, map, "top_at").value_or(usual);
  const bool has_rails = !bays_of(reader.bench, across, top_at).empty();
  if (!has_rails) {
    reader.note(field.fault(
        fmt::format("there are no rails with their tops at {} for these bearers to meet",
                    say(top_at, reader)),
        "bearers: {under: top, every: 400 mm}"));
  }
  const std::vector<Position> middles = positions(reader, map, across, top_at);
  map.finish();
  for (const Position& middle : middles) {
    bearer.at = middle.at;
    bearer.name = shelf ? "shelf bearer" : "bearer";
    if (has_rails) add_bearer(reader, bearer, across, top_at, middle.field);
  }
}

}  // namespace

void add_bearer(Reader& reader, Bearer bearer, bool across, Length top_at, const Field& field) {
  const auto pair = rails_at(reader.bench, across, bearer.at, top_at);
  if (!pair) {
    const std::vector<Range> bays = bays_of(reader.bench, across, top_at);
    const Range rails = bays.empty() ? Range{} : Range{bays.front().low, bays.back().high};
    reader.note(field.fault(
        fmt::format("a bearer at {} meets no two rails: they run from {} to {}",
                    say(bearer.at, reader), say(rails.low, reader), say(rails.high, reader)),
        say((rails.low + rails.high) / 2.0, reader)));
    return;
  }
  bearer.from = pair->from;
  bearer.to = pair->to;
  bearer.height = top_at - bearer.depth / 2.0;
  const std::string kind = bearer.name;
  const auto n =
      std::count_if(reader.bench.bearers.begin(), reader.bench.bearers.end(),
                    [&](const Bearer& other) { return other.name.rfind(kind + " ", 0) == 0; });
  bearer.name = fmt::format("{} {}", kind, n + 1);
  reader.places.emplace(bearer.name, field);
  reader.bench.bearers.push_back(std::move(bearer));
}

void read_bearers(Reader& reader, Map& top, Length underside_of_top) {
  const auto field = top.find("bearers");
  if (!field || is_text(*field, "none")) {
    if (!field) reader.assume("no bearers under the sheets");
    return;
  }
  for (const Field& item : items_of(reader, *field)) {
    read_bearers_of(reader, item, underside_of_top);
  }
}

}  // namespace standtrue::bench
