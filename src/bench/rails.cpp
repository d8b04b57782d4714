#include <algorithm>

#include "bench/plan.hpp"
#include "bench/reader.hpp"

namespace standtrue::bench {
namespace {

enum Side : std::size_t { front, back, left, right, middle };
constexpr std::array<std::string_view, 5> side_names = {"front", "back", "left", "right", "middle"};

/// What is said of the rails of one side at one level.
struct RailRule {
  bool present = true;
  Stock stock;
  bool flat = false;
  std::optional<Seat> seat;
  bool inside = false;  ///< on the inner faces of the posts
  Joint joint;
  std::optional<Length> underside, top;
  Length notch;
  std::optional<Field> field;  ///< to blame

  [[nodiscard]] Length depth() const { return flat ? stock.thickness : stock.depth; }
  [[nodiscard]] Length width() const { return flat ? stock.depth : stock.thickness; }
  /// A lap needs the rail on the posts' faces.
  [[nodiscard]] Seat seated() const {
    return seat.value_or(is_lapped(joint) ? Seat::post_face : Seat::between);
  }
};
using Level5 = std::array<RailRule, 5>;

constexpr std::string_view rails_example =
    "rails: {top: {section: 38 x 140 mm}, lower: {underside: 150 mm}}";

/// The keys that say how a rail is made; `rule` holds what was said of more rails at once.
void overlay(Reader& reader, Map& map, RailRule& rule) {
  rule.field = map.field();
  rule.stock = member_stock(reader, map, rule.stock).value_or(rule.stock);
  if (const auto v = map.word("laid", {"on edge", "flat"})) rule.flat = *v == "flat";
  if (const auto seat = seat_of(map)) rule.seat = *seat;
  if (const auto v = map.word("face", {"outside", "inside"})) rule.inside = *v == "inside";
  if (const auto joint = map.find("joint")) rule.joint = read_joint(reader, *joint, rule.joint);
  rule.notch = size(reader, map, "notch").value_or(rule.notch);
  const auto underside = size(reader, map, "underside");
  const auto top = size(reader, map, "top_at");
  if (underside && top) {
    reader.note(map.field().fault("a rail's height is given twice, by 'underside' and by 'top_at'",
                                  "underside: 150 mm"));
  }
  if (underside) {
    rule.underside = underside;
    rule.top.reset();
  } else if (top) {
    rule.top = top;
    rule.underside.reset();
  }
}

RailRule overlaid(Reader& reader, const Field& field, RailRule rule) {
  if (is_text(field, "none")) {
    rule.present = false;
    return rule;
  }
  rule.field = field;
  if (!field.is(document::Node::Kind::map)) {
    rule.stock = read_stock(reader, field, rule.stock).value_or(rule.stock);
    return rule;
  }
  Map map(field, reader.faults, "{section: 38 x 140 mm, seat: notched}");
  overlay(reader, map, rule);
  map.finish();
  return rule;
}

Level5 read_level(Reader& reader, const std::optional<Field>& field, const RailRule& base) {
  Level5 rules;
  rules.fill(base);
  if (!field) return rules;
  if (!field->is(document::Node::Kind::map)) {
    rules.fill(overlaid(reader, *field, base));
    return rules;
  }
  Map map(*field, reader.faults, rails_example);
  RailRule all = base;
  overlay(reader, map, all);
  rules.fill(all);
  if (const auto part = map.find("long")) {
    rules[front] = rules[back] = overlaid(reader, *part, all);
  }
  if (const auto part = map.find("short")) {
    rules[left] = rules[right] = rules[middle] = overlaid(reader, *part, all);
  }
  for (std::size_t side = 0; side < side_names.size(); ++side) {
    const auto part = map.find(side_names[side]);
    if (part) rules[side] = overlaid(reader, *part, rules[side]);
  }
  map.finish();
  return rules;
}

/// The distance of the rail's axis from the posts' axes; `outward` is +1 where the outside lies
/// towards +x or +y, -1 towards minus, 0 in the middle of a row.
Length aside(const RailRule& rule, Length post_side, double outward) {
  if (rule.seated() != Seat::post_face)
    return Length{} + outward * (post_side - rule.width()) / 2.0;
  const double sense = outward == 0.0 ? 1.0 : outward;
  return (rule.inside ? -sense : sense) * (post_side + rule.width()) / 2.0;
}

Length axis_height(const RailRule& rule, const Post& post, Level level) {
  const Length half = rule.depth() / 2.0;
  if (rule.underside) return *rule.underside + half;
  if (rule.top) return *rule.top - half;
  if (level == Level::lower) return millimetres(150.0) + half;
  return rule.seated() == Seat::on_top ? post.top - rule.notch + half : post.top - half;
}

struct Run {
  std::size_t from, to;
  std::string name;
  Side side;
};

void add_rail(Reader& reader, const RailRule& rule, const Run& run, Level level) {
  const Post& from = reader.bench.posts[run.from];
  Rail rail;
  rail.name = run.name;
  rail.from = run.from;
  rail.to = run.to;
  rail.along_x = run.side == front || run.side == back;
  rail.width = rule.width();
  rail.depth = rule.depth();
  const double outward = run.side == back || run.side == right ? 1.0
                         : run.side == middle                  ? 0.0
                                                               : -1.0;
  rail.aside = aside(rule, rail.along_x ? from.along_y : from.along_x, outward);
  rail.height = axis_height(rule, from, level);
  rail.level = level;
  rail.seat = rule.seated();
  rail.notch = rule.notch;
  rail.stock = rule.stock;
  rail.start = rail.end = rule.joint;
  if (reader.bench.posts[run.to].on_wall) rail.end = joint_on_ledger(reader, rule.joint);
  if (rule.field) check_notch(reader, rail, *rule.field);
  if (rule.field) reader.places.emplace(rail.name, *rule.field);
  reader.bench.rails.push_back(std::move(rail));
}

/// The runs of one side from post to post. `what` is "top rail".
std::vector<Run> runs_of(Side side, std::size_t stations, const std::string& what) {
  std::vector<Run> runs;
  const std::string name = fmt::format("{} {}", side_names[side], what);
  if (side == front || side == back) {
    const std::size_t row = side == front ? 0 : stations;
    for (std::size_t bay = 0; bay + 1 < stations; ++bay) {
      runs.push_back({row + bay, row + bay + 1,
                      stations > 2 ? fmt::format("{} {}", name, bay + 1) : name, side});
    }
    return runs;
  }
  const std::size_t first = side == left ? 0 : side == right ? stations - 1 : 1;
  const std::size_t last = side == middle ? stations - 1 : first + 1;
  for (std::size_t s = first; s < last; ++s) {
    const bool several = side == middle && stations > 3;
    runs.push_back({s, stations + s, several ? fmt::format("{} {}", name, s) : name, side});
  }
  return runs;
}

void add_level(Reader& reader, const Level5& rules, std::size_t stations, const std::string& what,
               Level level) {
  for (const Side side : {front, back, left, right, middle}) {
    if (!rules[side].present) continue;
    for (const Run& run : runs_of(side, stations, what)) {
      add_rail(reader, rules[side], run, level);
    }
  }
}

void read_more(Reader& reader, const Field& field, const RailRule& base, std::size_t stations) {
  for (const Field& item : items_of(reader, field)) {
    Map map(item, reader.faults, "{side: back, underside: 500 mm}");
    (void)map.need("side", "side: back");
    const auto word = map.word("side", {"front", "back", "left", "right", "middle"});
    RailRule rule = base;
    overlay(reader, map, rule);
    if (!rule.underside && !rule.top) {
      reader.note(item.fault("this rail has no height", "{side: back, underside: 500 mm}"));
    }
    const auto name = map.text("name");
    map.finish();
    if (!word) continue;
    const auto side = static_cast<Side>(std::find(side_names.begin(), side_names.end(), *word) -
                                        side_names.begin());
    if (side != front && reader.ledger) {
      refuse_behind_ledger(reader, item, "there is nothing at the back for this rail to end at",
                           "{side: front, underside: 500 mm}");
      continue;
    }
    if (side == middle && stations < 3) {
      reader.note(item.fault("this bench has no middle posts", "side: back"));
      continue;
    }
    std::vector<std::string> taken;
    for (const Rail& rail : reader.bench.rails) taken.push_back(rail.name);
    for (Run& run : runs_of(side, stations, "rail")) {
      run.name = unique_name(taken, name.value_or(run.name));
      taken.push_back(run.name);
      add_rail(reader, rule, run, Level::other);
    }
  }
}

/// Rails behind the front row end on the ledger, which is where the back top rail would be.
void leave_to_ledger(Reader& reader, Level5& top_rules, Level5& lower_rules) {
  top_rules[back].present = false;
  for (const Side side : {back, left, right, middle}) lower_rules[side].present = false;
  for (const Side side : {front, left, right, middle}) {
    const RailRule& rule = top_rules[side];
    const Seat seat = rule.seated();
    if (!rule.present || seat == Seat::between || (side == front && seat != Seat::on_top)) continue;
    const Field& field = rule.field ? *rule.field : reader.ledger->field;
    reader.note_once(
        "leave_to_ledger",
        field.fault(side == front ? "beside a ledger the front rail can not lie on its posts: "
                                    "it would stand higher than the rails that end on them"
                                  : "rails that end on a ledger are cut to stand between it and "
                                    "the front posts",
                    "rails: {top: {short: {seat: between, joint: corner brackets}}}"));
  }
}

void say_rail_assumptions(Reader& reader, bool seat_given, bool has_lower, bool lower_given) {
  if (!seat_given) {
    reader.assume(is_lapped(reader.joint)
                      ? "rails on edge, lapped on the outer faces of the posts"
                      : "rails on edge, cut between the posts and flush with their outer faces");
  }
  if (has_lower && reader.ledger) {
    reader.assume("that the only lower rails are those in front: a ledger has no posts for others");
  } else if (has_lower && !lower_given) {
    reader.assume(fmt::format("lower rails all round, their underside {} above the floor",
                              say(millimetres(150.0), reader)));
  }
}

}  // namespace

void check_notch(Reader& reader, const Rail& rail, const Field& field) {
  if (!(rail.notch > Length{})) return;
  if (rail.seat != Seat::on_top && rail.seat != Seat::notched) {
    reader.note(field.fault(fmt::format("the {} has a notch and no seat to lie on", rail.name),
                            "{seat: on top, notch: 20 mm}"));
  } else if (rail.notch >= rail.depth) {
    reader.note(field.fault(
        fmt::format("a notch of {} leaves nothing of the {}", say(rail.notch, reader), rail.name),
        "notch: 20 mm"));
  }
}

std::optional<Seat> seat_of(Map& map) {
  const auto word =
      map.word("seat", {"between posts", "between", "on post face", "notched", "on top"});
  if (!word) return std::nullopt;
  return *word == "on post face" ? Seat::post_face
         : *word == "notched"    ? Seat::notched
         : *word == "on top"     ? Seat::on_top
                                 : Seat::between;
}

void read_rails(Reader& reader, Map& top, std::size_t stations, Length underside_of_top) {
  RailRule base;
  base.stock = *reader.stock;
  base.joint = reader.joint;
  const auto aprons = top.find("aprons");
  const auto stretchers = top.find("stretchers");
  if (aprons) reader.bench.assumptions.push_back("I read 'aprons' as top rails");
  if (stretchers) reader.bench.assumptions.push_back("I read 'stretchers' as lower rails");
  const auto field = top.find("rails");
  std::optional<Field> top_field = aprons, lower_field = stretchers, more;
  if (field && field->is(document::Node::Kind::map)) {
    Map map(*field, reader.faults, rails_example);
    overlay(reader, map, base);
    base.field = *field;
    const auto top_rails = map.find("top");
    const auto lower_rails = map.find("lower");
    if (top_rails && aprons) {
      reader.note(aprons->fault("'aprons' and 'rails.top' are the same thing", "one of them"));
    }
    if (lower_rails && stretchers) {
      reader.note(
          stretchers->fault("'stretchers' and 'rails.lower' are the same thing", "one of them"));
    }
    if (base.underside || base.top) {
      reader.note(field->fault("a height belongs to one level of rails", rails_example.data()));
    }
    if (top_rails) top_field = top_rails;
    if (lower_rails) lower_field = lower_rails;
    more = map.find("more");
    map.finish();
  } else if (field) {
    base.stock = read_stock(reader, *field, reader.stock).value_or(base.stock);
    base.field = *field;
  }
  refuse_rails_behind_ledger(reader, top_field, lower_field);
  Level5 top_rules = read_level(reader, top_field, base);
  if (base.seat == Seat::on_top) base.seat.reset();  // only top rails can lie on the posts
  Level5 lower_rules = read_level(reader, lower_field, base);
  if (reader.ledger) leave_to_ledger(reader, top_rules, lower_rules);
  Length on_top{};
  for (const RailRule& rule : top_rules) {
    if (rule.present && rule.seated() == Seat::on_top) {
      on_top = std::max(on_top, rule.depth() - rule.notch);
    }
  }
  set_post_tops(reader, underside_of_top - on_top);
  add_level(reader, top_rules, stations, "top rail", Level::top);
  if (reader.ledger) hang_ledger(reader, stations, underside_of_top);
  add_level(reader, lower_rules, stations, "lower rail", Level::lower);
  if (more) read_more(reader, *more, base, stations);
  say_rail_assumptions(reader, top_rules[front].seat.has_value(), lower_rules[front].present,
                       lower_field.has_value());
  if (stations > 2)
    reader.assume("that long rails are in one piece per bay, cut at the middle posts");
}

}  // namespace standtrue::bench
