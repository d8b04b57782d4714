#include <fmt/format.h>

#include <algorithm>

#include "bench/plan.hpp"
#include "bench/reader.hpp"
#include "standtrue/bench/usual_sheet.hpp"

namespace standtrue::bench {
namespace {

Range posts_x(const Bench& bench) {
  Range all{metres(1e3), metres(-1e3)};
  for (const Post& post : bench.posts) {
    all.low = std::min(all.low, plan_at_top(post).x.low);
    all.high = std::max(all.high, plan_at_top(post).x.high);
  }
  return all;
}

Range posts_y(const Bench& bench) {
  Range all{metres(1e3), metres(-1e3)};
  for (const Post& post : bench.posts) {
    all.low = std::min(all.low, plan_at_top(post).y.low);
    all.high = std::max(all.high, plan_at_top(post).y.high);
  }
  return all;
}

void carry_lying(const Bench& bench, Sheet& sheet) {
  for (std::size_t i = 0; i < bench.rails.size(); ++i) {
    const Rail& rail = bench.rails[i];
    if (!near(heights(rail).high, sheet.underside)) continue;
    if (plan_of(bench, rail).meets(plan_of(sheet))) sheet.rails.push_back(i);
  }
  for (std::size_t i = 0; i < bench.bearers.size(); ++i) {
    const Bearer& bearer = bench.bearers[i];
    if (!near(heights(bearer).high, sheet.underside)) continue;
    if (plan_of(bench, bearer).meets(plan_of(sheet))) sheet.bearers.push_back(i);
  }
}

/// The rails of the side on which an upright sheet stands, where they lie within its height.
void carry_upright(const Bench& bench, Sheet& sheet) {
  const bool back = sheet.place == SheetPlace::back;
  for (std::size_t i = 0; i < bench.rails.size(); ++i) {
    const Rail& rail = bench.rails[i];
    if (rail.along_x != back || !Range{sheet.z0, sheet.z1}.holds(rail.height)) continue;
    const Plan plan = plan_of(bench, rail);
    const Length face = millimetres(2.0);
    const bool touches = back                           ? plan.y.high + face >= sheet.y0
                         : sheet.x1 <= millimetres(1.0) ? plan.x.low - face <= sheet.x1
                                                        : plan.x.high + face >= sheet.x0;
    if (touches) sheet.rails.push_back(i);
  }
}

/// Posts that pass through a shelf.
void cut_round_posts(const Bench& bench, Sheet& sheet) {
  for (const Post& post : bench.posts) {
    if (post.top <= sheet.underside + millimetres(1.0)) continue;
    const Plan plan = plan_at_top(post);
    if (!plan.meets(plan_of(sheet))) continue;
    sheet.cut_outs.push_back({std::max(plan.x.low, sheet.x0), std::min(plan.x.high, sheet.x1),
                              std::max(plan.y.low, sheet.y0), std::min(plan.y.high, sheet.y1)});
  }
}

/// Face grain across when no bearers run across under the sheet, along when they do, and where the
/// sheet is longer than one that is bought is wide: across its grain there would be none to cut.
void choose_grain(Reader& reader, const SheetRule& rule, Sheet& sheet) {
  if (rule.grain_along) {
    sheet.grain_along_x = *rule.grain_along;
    return;
  }
  if (!lies(sheet)) {
    sheet.grain_along_x = true;
    return;
  }
  const Bench& bench = reader.bench;
  sheet.grain_along_x = std::any_of(sheet.bearers.begin(), sheet.bearers.end(), [&](std::size_t b) {
    return bench.rails[bench.bearers[b].from].along_x;
  });
  const bool on_bearers = sheet.grain_along_x;
  const Length width = usual_sheet(bench.units).across;
  sheet.grain_along_x = on_bearers || sheet.x1 - sheet.x0 > width;
  reader.assume(on_bearers
                    ? "that the face grain runs along the bench where bearers carry the sheet"
                : sheet.grain_along_x
                    ? fmt::format("that the face grain of the {} runs along the bench, as across "
                                  "its grain a sheet is bought no wider than {}",
                                  sheet.name,
                                  quantity::print(quantity::in_si(width), quantity::Kind::length,
                                                  bench.units))
                    : "that the face grain runs across the bench, from front to back");
}

/// A shelf covers the posts and the rails that carry it, which may lie outside the posts.
Plan cover(const Bench& bench, Length underside) {
  Plan all{posts_x(bench), posts_y(bench)};
  for (const Rail& rail : bench.rails) {
    if (!near(heights(rail).high, underside)) continue;
    const Plan plan = plan_of(bench, rail);
    all.x = {std::min(all.x.low, plan.x.low), std::max(all.x.high, plan.x.high)};
    all.y = {std::min(all.y.low, plan.y.low), std::max(all.y.high, plan.y.high)};
  }
  return all;
}

void place_shelf(Reader& reader, SheetRule rule, const Field& field) {
  Sheet& sheet = rule.sheet;
  sheet.underside = rule.underside.value_or(top_of_lower_rails(reader.bench));
  const Plan all = cover(reader.bench, sheet.underside);
  sheet.x0 = rule.from.value_or(all.x.low);
  sheet.x1 = rule.to.value_or(all.x.high);
  sheet.y0 = all.y.low;
  sheet.y1 = all.y.high;
  if (sheet.x1 <= sheet.x0) {
    reader.note(field.fault(fmt::format("the {} ends before it begins", sheet.name),
                            "from: 200 mm, to: 900 mm"));
    return;
  }
  add_sheet(reader, std::move(rule));
}

void place_upright(Reader& reader, SheetRule rule, const Field& field) {
  Sheet& sheet = rule.sheet;
  const Bench& bench = reader.bench;
  const Range x = posts_x(bench), y = posts_y(bench);
  Length top{}, lowest = metres(1e3);
  for (const Post& post : bench.posts) top = std::max(top, post.top);
  for (const Rail& rail : bench.rails) lowest = std::min(lowest, heights(rail).low);
  sheet.z0 = rule.from.value_or(std::min(lowest, top));
  sheet.z1 = rule.to.value_or(top);
  sheet.underside = sheet.z0;
  const Length t = rule.thickness();
  sheet.x0 = x.low;
  sheet.x1 = x.high;
  sheet.y0 = y.low;
  sheet.y1 = y.high;
  if (rule.side == "back") {
    sheet.y0 = y.high;
    sheet.y1 = y.high + t;
  } else if (rule.side == "left") {
    sheet.x1 = x.low;
    sheet.x0 = x.low - t;
  } else {
    sheet.x0 = x.high;
    sheet.x1 = x.high + t;
  }
  if (sheet.z1 <= sheet.z0) {
    reader.note(field.fault(fmt::format("the {} ends below its beginning", sheet.name),
                            "from: 150 mm, to: 850 mm"));
    return;
  }
  add_sheet(reader, std::move(rule));
}

Stress spread_over(const Sheet& sheet, Mass mass) {
  quantity::Area area = (sheet.x1 - sheet.x0) * (sheet.y1 - sheet.y0);
  for (const Sheet::CutOut& cut : sheet.cut_outs) area -= (cut.x1 - cut.x0) * (cut.y1 - cut.y0);
  const double a = std::max(in_si(area), 1e-6);
  return quantity::pascals(in_si(mass) * in_si(quantity::standard_gravity()) / a);
}

void store(Sheet& sheet, const Stored& stored) {
  sheet.stored = stored.spread ? *stored.spread : spread_over(sheet, *stored.total);
}

void assume_stored(Reader& reader, Sheet& sheet) {
  sheet.stored_assumed = true;
  if (sheet.place == SheetPlace::shelf) {
    const Stress spread = reader.tables.load("stored on shelf").spread;
    sheet.stored = spread;
    reader.assume(fmt::format("{} stored on the {}",
                              quantity::print(in_si(spread), Kind::area_load, reader.bench.units),
                              sheet.name));
    return;
  }
  // The record is of a square metre; a top carries that mass in all, whatever its size.
  const Stress record = reader.tables.load("stored on top").spread;
  const Mass mass = quantity::kilograms(in_si(record) / in_si(quantity::standard_gravity()));
  sheet.stored = spread_over(sheet, mass);
  reader.assume(fmt::format("{} of small things stored on the {}",
                            quantity::print(in_si(mass), Kind::mass, reader.bench.units),
                            sheet.name));
}

}  // namespace

void from_corner(Sheet& sheet) {
  for (Sheet::CutOut& cut : sheet.cut_outs) {
    cut.x0 += sheet.x0;
    cut.x1 += sheet.x0;
    cut.y0 += sheet.y0;
    cut.y1 += sheet.y0;
  }
}

void add_sheet(Reader& reader, SheetRule rule) {
  Sheet sheet = std::move(rule.sheet);
  std::vector<std::string> taken;
  for (const Sheet& other : reader.bench.sheets) taken.push_back(other.name);
  const std::string wanted = sheet.name;
  sheet.name = unique_name(taken, wanted);
  if (const auto at = reader.places.find(wanted); at != reader.places.end()) {
    reader.places.emplace(sheet.name, at->second);
  }
  if (lies(sheet)) {
    from_corner(sheet);
    carry_lying(reader.bench, sheet);
    if (sheet.place == SheetPlace::shelf) cut_round_posts(reader.bench, sheet);
    sheet.z0 = sheet.underside;
    sheet.z1 = sheet.underside + thickness(sheet);
  } else {
    carry_upright(reader.bench, sheet);
  }
  choose_grain(reader, rule, sheet);
  if (rule.stored) store(sheet, *rule.stored);
  reader.bench.sheets.push_back(std::move(sheet));
}

SheetRule read_top(Reader& reader, Map& top) {
  const auto field = top.need("top", "top: 18 mm spruce plywood");
  if (!field) return any_sheet_rule(reader, SheetPlace::top, "top");
  reader.places.emplace("top", *field);
  return read_sheet_rule(reader, *field, SheetPlace::top, "top");
}

void place_top(Reader& reader, SheetRule rule, Length length, Length depth, Length height) {
  Sheet& sheet = rule.sheet;
  sheet.x0 = -rule.overhang.left;
  sheet.x1 = length - rule.overhang.left;
  sheet.y0 = -rule.overhang.front;
  sheet.y1 = depth - rule.overhang.front;
  sheet.underside = height - rule.thickness();
  add_sheet(reader, std::move(rule));
}

void read_shelves(Reader& reader, Map& top) {
  const auto field = top.find("shelf");
  if (!field || is_text(*field, "none")) return;
  for (const Field& item : items_of(reader, *field)) {
    SheetRule rule = read_sheet_rule(reader, item, SheetPlace::shelf, "shelf");
    if (reader.ledger) {
      refuse_behind_ledger(reader, item, "nothing carries a shelf at the back", "shelf: none");
      continue;
    }
    const std::size_t n = 1 + static_cast<std::size_t>(std::count_if(
                                  reader.bench.sheets.begin(), reader.bench.sheets.end(),
                                  [](const Sheet& s) { return s.place == SheetPlace::shelf; }));
    if (rule.sheet.name == "shelf" && n > 1) rule.sheet.name = fmt::format("shelf {}", n);
    reader.places.emplace(rule.sheet.name, item);
    place_shelf(reader, std::move(rule), item);
  }
}

void read_upright_sheets(Reader& reader, Map& top) {
  const auto field = top.find("sheets");
  if (!field || is_text(*field, "none")) return;
  for (const Field& item : items_of(reader, *field)) {
    SheetRule rule = read_sheet_rule(reader, item, SheetPlace::back, "");
    if (reader.ledger) {
      refuse_behind_ledger(reader, item, "nothing holds a sheet at the back or at the ends",
                           "braces: [{side: front}]");
      continue;
    }
    if (rule.side != "back") rule.sheet.place = SheetPlace::end;
    if (rule.sheet.name.empty()) {
      rule.sheet.name = rule.side == "back" ? "back sheet" : rule.side + " end sheet";
    }
    reader.places.emplace(rule.sheet.name, item);
    place_upright(reader, std::move(rule), item);
  }
}

void read_stored_on(Reader& reader, Map& top) {
  if (const auto field = top.find("stored")) {
    if (field->is(document::Node::Kind::map)) {
      Map map(*field, reader.faults, "stored: {top: 40 kg, shelf: 50 kg/m2}");
      for (Sheet& sheet : reader.bench.sheets) {
        if (!lies(sheet)) continue;
        const auto on = map.find(sheet.name);
        if (!on) continue;
        const auto stored = read_stored(reader, *on);
        if (sheet.stored) {
          reader.note(on->fault(fmt::format("the {} has its own 'load' already", sheet.name),
                                "one of the two"));
        } else if (stored) {
          store(sheet, *stored);
        }
      }
      map.finish();
    } else if (const auto stored = read_stored(reader, *field)) {
      for (Sheet& sheet : reader.bench.sheets) {
        if (sheet.place == SheetPlace::top && !sheet.stored) store(sheet, *stored);
      }
    }
  }
  for (Sheet& sheet : reader.bench.sheets) {
    if (lies(sheet) && !sheet.stored) assume_stored(reader, sheet);
  }
}

}  // namespace standtrue::bench
