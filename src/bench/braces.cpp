#include <algorithm>

#include "bench/plan.hpp"
#include "bench/reader.hpp"

namespace standtrue::bench {
namespace {

constexpr std::string_view brace_example = "{side: back, kind: diagonal, section: 38 x 89 mm}";

/// Two neighbouring posts of one side; `first` has the smaller x (or y).
struct Bay {
  std::size_t first, second;
};

bool is_long(const std::string& side) { return side == "front" || side == "back"; }

/// The posts of a side in a row. Front and back rows are named in that order by the reader.
std::vector<std::size_t> posts_of(const Bench& bench, const std::string& side) {
  std::vector<std::size_t> row;
  const bool is_row = is_long(side);
  for (std::size_t i = 0; i < bench.posts.size(); ++i) {
    const std::string& name = bench.posts[i].name;
    const bool here = is_row ? name.rfind(side + "-", 0) == 0
                             : name.find("-" + side + " post") != std::string::npos;
    if (here) row.push_back(i);
  }
  return row;
}

/// The highest (or lowest) rail of that bay.
std::optional<std::size_t> rail_of(const Bench& bench, const Bay& bay, bool highest) {
  std::optional<std::size_t> found;
  for (std::size_t i = 0; i < bench.rails.size(); ++i) {
    const Rail& rail = bench.rails[i];
    if (rail.from != bay.first || rail.to != bay.second) continue;
    if (!found || (rail.height > bench.rails[*found].height) == highest) found = i;
  }
  return found;
}

struct BraceRule {
  std::string side;
  std::string kind;
  Brace brace;  ///< its stock and joint
  bool is_fastening_given = false;
  bool rises_to_second = true;
  std::optional<Length> low, high;
  Length leg;
  std::optional<std::string> name;
};

void add_brace(Reader& reader, Brace brace, const BraceRule& rule, const std::string& wanted,
               const Field& field) {
  std::vector<std::string> taken;
  for (const Brace& other : reader.bench.braces) taken.push_back(other.name);
  brace.name = unique_name(taken, rule.name.value_or(wanted));
  if (!rule.is_fastening_given) take_usual_bolts(reader, brace);
  reader.places.emplace(brace.name, field);
  reader.bench.braces.push_back(std::move(brace));
}

/// How far from the end of a post its bolts must stay when the brace pushes towards it: the loaded
/// end of EN 1995-1-1, Table 8.4, and half of a row of two.
Length from_post_end(const Reader& reader, const reference::JointKind& joint) {
  if (joint.fastening != reference::Fastening::bolts) return {};
  const reference::SpacingRule& rule = reader.tables.spacing_rule("bolts");
  const Length d = joint.fastener_diameter;
  return std::max(rule.a3t * d, rule.a3t_min) + 0.5 * (rule.a1 + rule.a1_cos) * d;
}

void add_diagonal(Reader& reader, const BraceRule& rule, const Bay& bay, bool rises_to_second,
                  const Field& field) {
  const Bench& bench = reader.bench;
  const auto upper = rail_of(bench, bay, true), lower = rail_of(bench, bay, false);
  const Post& foot = bench.posts[rises_to_second ? bay.first : bay.second];
  const Length usual_low =
      lower && lower != upper ? bench.rails[*lower].height : foot.bottom + millimetres(100.0);
  Brace brace = rule.brace;
  brace.post = rises_to_second ? bay.first : bay.second;
  brace.to_post = rises_to_second ? bay.second : bay.first;
  brace.post_height = rule.low.value_or(usual_low);
  const Length highest = foot.top - from_post_end(reader, rule.brace.joint);
  brace.to_at = rule.high.value_or(upper ? std::min(bench.rails[*upper].height, highest) : highest);
  add_brace(reader, brace, rule, rule.side + " brace", field);
}

void add_knees(Reader& reader, const BraceRule& rule, const Bay& bay, const Field& field) {
  const Bench& bench = reader.bench;
  const auto upper = rail_of(bench, bay, true);
  if (!upper) {
    reader.note(field.fault(fmt::format("the {} has no rail for a knee brace to meet", rule.side),
                            std::string(brace_example)));
    return;
  }
  const Rail& rail = bench.rails[*upper];
  const Post& first = bench.posts[bay.first];
  const Post& second = bench.posts[bay.second];
  const Length length = rail.along_x ? second.x - first.x : second.y - first.y;
  for (const bool at_first : {true, false}) {
    Brace brace = rule.brace;
    brace.post = at_first ? bay.first : bay.second;
    brace.post_height = rail.height - rule.leg;
    brace.to_rail = *upper;
    brace.to_at = at_first ? rule.leg : length - rule.leg;
    add_brace(reader, brace, rule, rule.side + " knee brace", field);
  }
}

BraceRule read_rule(Reader& reader, Map& map) {
  BraceRule rule;
  (void)map.need("side", "side: back");
  rule.side = map.word("side", {"front", "back", "left", "right"}).value_or("");
  rule.kind = map.word("kind", {"diagonal", "cross", "knee"}).value_or("diagonal");
  rule.brace.stock = member_stock(reader, map, reader.stock).value_or(*reader.stock);
  rule.is_fastening_given = read_brace_joint(reader, map, rule.brace);
  const bool along = rule.side.empty() || is_long(rule.side);
  const std::vector<std::string> ways =
      along ? std::vector<std::string>{"right", "left"} : std::vector<std::string>{"back", "front"};
  if (const auto way = map.word("rises_to", ways)) rule.rises_to_second = *way == ways.front();
  rule.low = size(reader, map, "low");
  rule.high = size(reader, map, "high");
  rule.leg = size(reader, map, "leg").value_or(millimetres(300.0));
  rule.name = map.text("name");
  return rule;
}

void read_one_brace(Reader& reader, const Field& field) {
  Map map(field, reader.faults, brace_example);
  const BraceRule rule = read_rule(reader, map);
  const auto only = few(reader, map, "bay");
  map.finish();
  if (rule.side.empty()) return;
  if (reader.ledger && rule.side != "front") {
    refuse_behind_ledger(
        reader, field,
        fmt::format("there is nothing for a brace at the {} to stand against", rule.side),
        "braces: [{side: front}]");
    return;
  }
  const std::vector<std::size_t> row = posts_of(reader.bench, rule.side);
  const std::size_t bays = row.size() < 2 ? 0 : row.size() - 1;
  if (only && static_cast<std::size_t>(*only) > bays) {
    reader.note(field.fault(
        fmt::format("the {} has {} bay{}, not {}", rule.side, bays, bays == 1 ? "" : "s", *only),
        "bay: 1"));
    return;
  }
  for (std::size_t b = 0; b < bays; ++b) {
    if (only && b + 1 != static_cast<std::size_t>(*only)) continue;
    const Bay bay{row[b], row[b + 1]};
    if (rule.kind == "knee") {
      add_knees(reader, rule, bay, field);
      continue;
    }
    add_diagonal(reader, rule, bay, rule.rises_to_second, field);
    if (rule.kind == "cross") add_diagonal(reader, rule, bay, !rule.rises_to_second, field);
  }
}

}  // namespace

void read_braces(Reader& reader, Map& top) {
  const auto field = top.find("braces");
  if (!field || is_text(*field, "none")) return;
  for (const Field& item : items_of(reader, *field)) read_one_brace(reader, item);
}

}  // namespace standtrue::bench
