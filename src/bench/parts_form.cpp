#include <algorithm>

#include "bench/plan.hpp"
#include "bench/reader.hpp"

namespace standtrue::bench {
namespace {

constexpr std::string_view parts_example =
    "parts: {posts: [{name: A, at: [45 mm, 45 mm], top: 850 mm}]}";

template <class Named>
std::vector<std::string> names_of(const std::vector<Named>& things) {
  std::vector<std::string> names;
  for (const Named& thing : things) names.push_back(thing.name);
  return names;
}

/// The place of a name in a list, or a fault with the nearest one.
template <class Named>
std::optional<std::size_t> find_named(Reader& reader, Map& map, std::string_view key,
                                      const std::vector<Named>& things, std::string_view what) {
  const auto field = map.need(key, fmt::format("{}: A", key));
  const auto name =
      field ? text_of(reader, *field, fmt::format("{}: A", key)) : std::optional<std::string>();
  if (!name) return std::nullopt;
  for (std::size_t i = 0; i < things.size(); ++i) {
    if (things[i].name == *name) return i;
  }
  const std::vector<std::string> known = names_of(things);
  unknown_word(reader, *field, *name, what, known, known.empty() ? "A" : known.front());
  return std::nullopt;
}

/// A name that no other part of its sort has.
template <class Named>
std::string own_name(Reader& reader, Map& map, const std::vector<Named>& others,
                     const std::string& usual) {
  const std::vector<std::string> taken = names_of(others);
  const auto name = map.text("name");
  if (!name) return unique_name(taken, usual);
  if (std::find(taken.begin(), taken.end(), *name) == taken.end()) return *name;
  reader.note(map.find("name")->fault(fmt::format("another part is named '{}' already", *name),
                                      fmt::format("name: {}", unique_name(taken, *name))));
  return unique_name(taken, *name);
}

/// The timber of a part; one that nobody gave is a fault, and the first class stands in.
Stock part_stock(Reader& reader, Map& map) {
  if (const auto stock = member_stock(reader, map, reader.stock)) return *stock;
  if (!map.has("timber") && !map.has("section")) {
    reader.note(map.field().fault("this part has no timber, and the file names none for all",
                                  "timber: C16 38 x 89 mm"));
  }
  return {.timber = reader.tables.timbers.front(),
          .thickness = millimetres(38.0),
          .depth = millimetres(89.0)};
}

void read_post(Reader& reader, const Field& field) {
  Map map(field, reader.faults, "{name: A, at: [45 mm, 45 mm], top: 850 mm}");
  Post post;
  (void)map.need("name", "name: A");
  post.name = own_name(reader, map, reader.bench.posts,
                       fmt::format("post {}", reader.bench.posts.size() + 1));
  const auto at = map.need("at", "at: [45 mm, 45 mm]");
  if (const auto v = at ? place_pair(reader, *at) : std::nullopt) {
    post.x = post.foot_x = (*v)[0];
    post.y = post.foot_y = (*v)[1];
  }
  if (const auto v = place_pair(reader, map, "foot_at")) {
    post.foot_x = (*v)[0];
    post.foot_y = (*v)[1];
  }
  post.stock = part_stock(reader, map);
  const bool turned = map.yes_no("turned").value_or(false);
  post.along_x = turned ? post.stock.thickness : post.stock.depth;
  post.along_y = turned ? post.stock.depth : post.stock.thickness;
  post.foot = reader.foot;
  if (const auto foot = map.find("foot")) {
    Map keys(*foot, reader.faults, "foot: {thread: M10, extension: 25 mm}");
    read_foot_keys(reader, keys, post.foot);
    keys.finish();
  }
  (void)map.need("top", "top: 850 mm");
  post.top = size(reader, map, "top").value_or(metres(1.0));
  post.bottom = size_or_zero(reader, map, "bottom").value_or(post.foot.extension);
  map.finish();
  reader.places.emplace(post.name, field);
  reader.bench.posts.push_back(std::move(post));
}

/// Its height: given, or level with the tops of its posts.
void read_height(Reader& reader, Map& map, Rail& rail) {
  const auto underside = size(reader, map, "underside");
  const auto top_at = size(reader, map, "top_at");
  if (underside && top_at) {
    reader.note(map.field().fault("a rail's height is given twice, by 'underside' and by 'top_at'",
                                  "underside: 150 mm"));
  }
  const Post& post = reader.bench.posts[rail.from];
  const Length usual = rail.seat == Seat::on_top    ? post.top + rail.depth
                       : rail.level == Level::lower ? millimetres(150.0) + rail.depth
                                                    : post.top;
  rail.height =
      underside ? *underside + rail.depth / 2.0 : top_at.value_or(usual) - rail.depth / 2.0;
}

/// Along x or along y, from the smaller coordinate to the larger.
bool set_ends(Reader& reader, Map& map, Rail& rail) {
  const auto from = find_named(reader, map, "from", reader.bench.posts, "post");
  const auto to = find_named(reader, map, "to", reader.bench.posts, "post");
  if (!from || !to) return false;
  const Post& a = reader.bench.posts[*from];
  const Post& b = reader.bench.posts[*to];
  const Length dx = b.x - a.x, dy = b.y - a.y;
  const bool along_x = near(a.y, b.y), along_y = near(a.x, b.x);
  if (along_x == along_y) {
    reader.note(map.field().fault(
        *from == *to ? fmt::format("a rail from '{}' to itself", a.name)
                     : fmt::format("posts '{}' and '{}' are not in line: a rail runs along x or "
                                   "along y",
                                   a.name, b.name),
        "two posts that share x or y"));
    return false;
  }
  rail.along_x = along_x;
  const bool rising = along_x ? dx > Length{} : dy > Length{};
  rail.from = rising ? *from : *to;
  rail.to = rising ? *to : *from;
  return true;
}

/// The axis of a rail on the back or right face of its posts.
Length side_of(const Bench& bench, const Rail& rail) {
  const Post& post = bench.posts[rail.from];
  return ((rail.along_x ? post.along_y : post.along_x) + rail.width) / 2.0;
}

void read_rail(Reader& reader, const Field& field, std::optional<Level> level) {
  Map map(field, reader.faults, "{from: A, to: B, section: 38 x 89 mm, top_at: 850 mm}");
  Rail rail;
  const bool sound = set_ends(reader, map, rail);
  const std::string usual = sound ? fmt::format("rail {} to {}", reader.bench.posts[rail.from].name,
                                                reader.bench.posts[rail.to].name)
                                  : "rail";
  rail.name = own_name(reader, map, reader.bench.rails, usual);
  rail.stock = part_stock(reader, map);
  const bool flat = map.word("laid", {"on edge", "flat"}) == "flat";
  rail.width = flat ? rail.stock.depth : rail.stock.thickness;
  rail.depth = flat ? rail.stock.thickness : rail.stock.depth;
  rail.seat = seat_of(map).value_or(Seat::between);
  rail.notch = size(reader, map, "notch").value_or(Length{});
  const auto word = map.word("level", {"top", "lower", "other"});
  if (word) level = *word == "top" ? Level::top : *word == "lower" ? Level::lower : Level::other;
  rail.level = level.value_or(Level::top);
  rail.start = rail.end = reader.joint;
  if (const auto joint = map.find("joint")) {
    rail.start = rail.end = read_joint(reader, *joint, reader.joint);
  }
  const Length beside =
      sound && rail.seat == Seat::post_face ? side_of(reader.bench, rail) : Length{};
  rail.aside = place(reader, map, "aside").value_or(beside);
  if (sound) read_height(reader, map, rail);
  (void)map.find("underside");  // known keys, even where the ends are not
  (void)map.find("top_at");
  map.finish();
  if (!sound) return;
  const bool at_top = near(heights(rail).high, reader.bench.posts[rail.from].top);
  check_notch(reader, rail, field);
  if (!level) rail.level = at_top || rail.seat == Seat::on_top ? Level::top : Level::other;
  reader.places.emplace(rail.name, field);
  reader.bench.rails.push_back(std::move(rail));
}

void read_bearer(Reader& reader, const Field& field) {
  Map map(field, reader.faults, "{from: front rail, to: back rail, at: 600 mm}");
  Bearer bearer;
  const auto from = find_named(reader, map, "from", reader.bench.rails, "rail");
  const auto to = find_named(reader, map, "to", reader.bench.rails, "rail");
  bearer.name = own_name(reader, map, reader.bench.bearers,
                         fmt::format("bearer {}", reader.bench.bearers.size() + 1));
  bearer.stock = part_stock(reader, map);
  const bool flat = map.word("laid", {"on edge", "flat"}) == "flat";
  bearer.width = flat ? bearer.stock.depth : bearer.stock.thickness;
  bearer.depth = flat ? bearer.stock.thickness : bearer.stock.depth;
  bearer.start = bearer.end = bearer_joint(reader, map);
  const auto at = map.need("at", "at: 600 mm");
  if (const auto v = at ? read_place(reader, *at) : std::nullopt) bearer.at = *v;
  const auto top_at = size(reader, map, "top_at");
  map.finish();
  if (!from || !to) return;
  const std::vector<Rail>& rails = reader.bench.rails;
  if (*from == *to || rails[*from].along_x != rails[*to].along_x) {
    reader.note(field.fault("a bearer lies between two rails that run the same way",
                            "{from: front rail, to: back rail, at: 600 mm}"));
    return;
  }
  const bool rising = rail_line(reader.bench, rails[*from]) < rail_line(reader.bench, rails[*to]);
  bearer.from = rising ? *from : *to;
  bearer.to = rising ? *to : *from;
  bearer.height = top_at.value_or(heights(rails[bearer.from]).high) - bearer.depth / 2.0;
  reader.places.emplace(bearer.name, field);
  reader.bench.bearers.push_back(std::move(bearer));
}

void read_brace(Reader& reader, const Field& field) {
  Map map(field, reader.faults, "{post: A, at: 200 mm, to_post: B, to_at: 800 mm}");
  Brace brace;
  brace.name = own_name(reader, map, reader.bench.braces,
                        fmt::format("brace {}", reader.bench.braces.size() + 1));
  const auto post = find_named(reader, map, "post", reader.bench.posts, "post");
  (void)map.need("at", "at: 200 mm");
  (void)map.need("to_at", "to_at: 800 mm");
  brace.post_height = size(reader, map, "at").value_or(Length{});
  brace.to_at = size(reader, map, "to_at").value_or(Length{});
  if (map.has("to_rail")) {
    brace.to_rail = find_named(reader, map, "to_rail", reader.bench.rails, "rail");
  } else {
    brace.to_post = find_named(reader, map, "to_post", reader.bench.posts, "post");
  }
  brace.stock = part_stock(reader, map);
  const bool is_fastening_given = read_brace_joint(reader, map, brace);
  map.finish();
  if (!post || !(brace.to_post || brace.to_rail)) return;
  brace.post = *post;
  if (!is_fastening_given) take_usual_bolts(reader, brace);
  reader.places.emplace(brace.name, field);
  reader.bench.braces.push_back(std::move(brace));
}

Length highest_post(const Bench& bench) {
  Length top{};
  for (const Post& post : bench.posts) top = std::max(top, post.top);
  return top;
}

void take_range(Reader& reader, Map& map, std::string_view key, Length& low, Length& high) {
  const auto range = place_pair(reader, map, key);
  if (!range) return;
  low = (*range)[0];
  high = (*range)[1];
  if (high > low) return;
  reader.note(map.find(key)->fault(fmt::format("'{}' ends before it begins", key),
                                   fmt::format("{}: [0 mm, 1200 mm]", key)));
}

void read_sheet(Reader& reader, const Field& field) {
  Map map(field, reader.faults, "{name: top, x: [0 mm, 1200 mm], y: [0 mm, 600 mm], sheet: ...}");
  SheetRule rule;
  Sheet& sheet = rule.sheet;
  const auto word = map.word("place", {"top", "shelf", "back", "end"});
  sheet.place = word == "shelf"  ? SheetPlace::shelf
                : word == "back" ? SheetPlace::back
                : word == "end"  ? SheetPlace::end
                                 : SheetPlace::top;
  sheet.name = own_name(reader, map, reader.bench.sheets, word.value_or("top"));
  read_sheet_keys(reader, map, rule);
  (void)map.need("x", "x: [0 mm, 1200 mm]");
  (void)map.need("y", "y: [0 mm, 600 mm]");
  take_range(reader, map, "x", sheet.x0, sheet.x1);
  take_range(reader, map, "y", sheet.y0, sheet.y1);
  if (lies(sheet)) {
    sheet.underside = size(reader, map, "underside").value_or(highest_post(reader.bench));
  } else {
    (void)map.need("z", "z: [150 mm, 850 mm]");
    take_range(reader, map, "z", sheet.z0, sheet.z1);
    sheet.underside = sheet.z0;
  }
  map.finish();
  if (sheet.x1 <= sheet.x0 || sheet.y1 <= sheet.y0) return;
  reader.places.emplace(sheet.name, field);
  add_sheet(reader, std::move(rule));
}

/// `{rail: R, post: A, joint: bolted lap}` changes one end; without `post`, both.
void read_end_joint(Reader& reader, const Field& field) {
  Map map(field, reader.faults, "{rail: R, post: A, joint: bolted lap}");
  const auto rail = find_named(reader, map, "rail", reader.bench.rails, "rail");
  std::optional<std::size_t> post;
  if (map.has("post")) post = find_named(reader, map, "post", reader.bench.posts, "post");
  const auto joint = map.need("joint", "joint: bolted lap");
  map.finish();
  if (!rail || !joint || (map.has("post") && !post)) return;
  Rail& changed = reader.bench.rails[*rail];
  if (post && *post != changed.from && *post != changed.to) {
    reader.note(field.fault(fmt::format("{} does not end at {}", called(changed.name),
                                        called(reader.bench.posts[*post].name)),
                            fmt::format("post: {}", reader.bench.posts[changed.from].name)));
    return;
  }
  const Joint read = read_joint(reader, *joint, reader.joint);
  if (!post || *post == changed.from) changed.start = read;
  if (!post || *post == changed.to) changed.end = read;
}

/// Keys of the other form, which would have no effect beside the parts.
void refuse_other_form(Reader& reader, Map& top) {
  for (const std::string_view key : {"size", "posts", "legs", "rails", "aprons", "stretchers",
                                     "bearers", "braces", "top", "shelf", "sheets"}) {
    const auto field = top.find(key);
    if (!field) continue;
    reader.note(field->fault(
        fmt::format("'{}' has no place beside 'parts'", key),
        key == "size" ? "parts: {sheets: [...]}" : fmt::format("parts: {{{}: [...]}}", key)));
  }
}

template <class Read>
void each(Reader& reader, Map& map, std::string_view key, Read read) {
  const auto field = map.find(key);
  if (!field) return;
  for (const Field& item : items_of(reader, *field)) read(reader, item);
}

}  // namespace

void read_parts(Reader& reader, Map& top, const Field& parts) {
  refuse_other_form(reader, top);
  read_default_stock(reader, top, false);
  Map map(parts, reader.faults, parts_example);
  for (const auto& [word, meant] :
       {std::pair{"legs", "posts"}, {"stretchers", "lower rails"}, {"aprons", "top rails"}}) {
    if (map.has(word)) {
      reader.bench.assumptions.push_back(fmt::format("I read '{}' as {}", word, meant));
    }
  }
  each(reader, map, "posts", read_post);
  each(reader, map, "legs", read_post);
  read_each_foot(reader, top);
  const auto rail_at = [](std::optional<Level> level) {
    return [level](Reader& r, const Field& field) { read_rail(r, field, level); };
  };
  each(reader, map, "rails", rail_at(std::nullopt));
  each(reader, map, "aprons", rail_at(Level::top));
  each(reader, map, "stretchers", rail_at(Level::lower));
  each(reader, map, "joints", read_end_joint);
  each(reader, map, "bearers", read_bearer);
  each(reader, map, "sheets", read_sheet);
  each(reader, map, "braces", read_brace);
  map.finish();
  if (reader.bench.posts.empty() && !any_error(reader.faults)) {
    reader.note(parts.fault("these parts have no posts", std::string(parts_example)));
  }
}

}  // namespace standtrue::bench
