// A ledger in place of back posts: its timber, its screws, and what can not stand behind it.
#include "standtrue/bench/ledger.hpp"

#include <algorithm>
#include <cmath>

#include "bench/plan.hpp"
#include "bench/reader.hpp"

namespace standtrue::bench {
namespace {

using reference::Fastening;

constexpr std::string_view ledger_example = "wall: {ledger: 38 x 89 mm, screws_every: 400 mm}";
constexpr const char* ledger_name = "ledger";

/// From the ends of the ledger to its outer screws, and between screws at most (ours).
Length usual_from_end() { return millimetres(50.0); }
Length usual_gap() { return millimetres(400.0); }

/// Evenly, no wider than `every`, the outer ones at the usual distance from the ends.
std::vector<Length> evenly(Length length, Length every) {
  const Length first = std::min(usual_from_end(), length / 4.0);
  const Length between = length - 2.0 * first;
  const int gaps = std::max(1, static_cast<int>(std::ceil(in_si(between) / in_si(every) - 1e-9)));
  std::vector<Length> at;
  for (int i = 0; i <= gaps; ++i) {
    at.push_back(first + between * static_cast<double>(i) / static_cast<double>(gaps));
  }
  return at;
}

std::vector<Length> screws_at(Reader& reader, const Field& field, Length length) {
  std::vector<Length> at;
  const std::vector<Field> items = items_of(reader, field);
  for (const Field& item : items) {
    const auto v = read_place(reader, item);
    if (!v) continue;
    if (*v < Length{} || *v > length) {
      reader.note(item.fault(
          fmt::format("the ledger is {} long, from end to end of the posts", say(length, reader)),
          fmt::format("screws: [{}, {}]", say(millimetres(100.0), reader),
                      say(length - millimetres(100.0), reader))));
      continue;
    }
    const bool is_there =
        std::any_of(at.begin(), at.end(), [&](const Length& other) { return near(other, *v); });
    if (is_there) {
      reader.note(item.fault("two screws of the ledger are in one place",
                             "screws: [100 mm, 500 mm, 900 mm]"));
      continue;
    }
    at.push_back(*v);
  }
  if (items.size() < 2) {
    reader.note(field.fault("on one screw the ledger turns: it wants two or more",
                            "screws: [100 mm, 500 mm, 900 mm]"));
  }
  std::sort(at.begin(), at.end());
  return at;
}

std::vector<Length> read_ledger_screws(Reader& reader, Map& map, Length length) {
  const auto at = map.find("screws");
  const auto every = size(reader, map, "screws_every");
  if (at && map.has("screws_every")) {
    reader.note(
        at->fault("the screws of the ledger are given twice, by 'screws' and by "
                  "'screws_every'",
                  "screws_every: 400 mm"));
    return {};
  }
  if (at) return screws_at(reader, *at, length);
  if (every && *every < millimetres(50.0)) {
    reader.note(map.find("screws_every")
                    ->fault("screws nearer to each other than 50 mm split the ledger",
                            "screws_every: 400 mm"));
    return {};
  }
  std::vector<Length> usual = evenly(length, every.value_or(usual_gap()));
  if (!map.has("screws_every")) {
    reader.assume(
        fmt::format("{} screws through the ledger into the wall, the outer ones {} from "
                    "its ends, {} apart",
                    usual.size(), say(usual.front(), reader), say(usual[1] - usual[0], reader)));
  }
  return usual;
}

/// Whether a field asks for something: not when it says `none`.
bool asks(const std::optional<Field>& field) { return field && !is_text(*field, "none"); }

/// A station of the ledger takes the place of a back post.
void hang_stations(Bench& bench, const Rail& ledger) {
  for (Post& post : bench.posts) {
    if (!post.on_wall) continue;
    post.top = heights(ledger).high;
    post.bottom = heights(ledger).low;
  }
}

}  // namespace

const Rail* ledger_of(const Bench& bench) {
  const auto found = std::find_if(bench.rails.begin(), bench.rails.end(),
                                  [](const Rail& rail) { return rail.on_wall; });
  return found == bench.rails.end() ? nullptr : &*found;
}

Length fixings_start(const Bench& bench, const Rail& rail) {
  const Post& post = bench.posts.at(rail.from);
  if (rail.on_wall) return post.x - post.along_x / 2.0;
  return rail.along_x ? post.x : post.y;
}

Length ledger_length(const Bench& bench, const Rail& ledger) {
  const Post& to = bench.posts.at(ledger.to);
  return to.x + to.along_x / 2.0 - fixings_start(bench, ledger);
}

void find_ledger(Reader& reader, Map& top) {
  const auto field = top.find("wall");
  if (!field) return;
  for (const Field& item : items_of(reader, *field)) {
    if (!item.is(document::Node::Kind::map)) continue;
    std::vector<Diagnostic> seen;  // read_wall tells what is wrong with the item
    Map map(item, seen, ledger_example);
    const auto ledger = map.find("ledger");
    if (!ledger || is_text(*ledger, "none")) continue;
    if (reader.ledger) {
      reader.note(
          ledger->fault("a bench hangs on one ledger, and this is a second", "one of them"));
      continue;
    }
    reader.ledger =
        Ledger{*ledger, read_stock(reader, *ledger, reader.stock).value_or(*reader.stock)};
  }
}

void refuse_behind_ledger(Reader& reader, const Field& field, const std::string& what,
                          const std::string& instead) {
  reader.note(field.fault(fmt::format("{}: a bench on a ledger has no back posts", what), instead));
}

void refuse_rails_behind_ledger(Reader& reader, const std::optional<Field>& top_rails,
                                const std::optional<Field>& lower_rails) {
  if (!reader.ledger) return;
  std::vector<Diagnostic> seen;  // the rails' own reader tells what else is wrong
  if (top_rails && top_rails->is(document::Node::Kind::map)) {
    const auto back = Map(*top_rails, seen, "").find("back");
    if (asks(back)) {
      reader.note(back->fault("the ledger is the top rail at the back: its size goes there",
                              "wall: {ledger: 38 x 140 mm}"));
    }
  }
  if (!lower_rails || !lower_rails->is(document::Node::Kind::map)) return;
  Map lower(*lower_rails, seen, "");
  for (const char* side : {"short", "back", "left", "right", "middle"}) {
    const auto asked = lower.find(side);
    if (!asks(asked)) continue;
    refuse_behind_ledger(reader, *asked, "there is nothing at the back for a lower rail to end at",
                         "rails: {lower: {front: {underside: 150 mm}}}");
  }
}

Joint joint_on_ledger(Reader& reader, const Joint& wanted) {
  const Fastening fastening = wanted.kind.fastening;
  if (fastening != Fastening::gusset && fastening != Fastening::half_lap) return wanted;
  Joint joint = joint_of(reader, "corner brackets");
  joint.kind.place = joint.place = "inside face";
  reader.assume(
      fmt::format("corner brackets where the rails end on the ledger: a {} finds no room "
                  "there",
                  wanted.kind.key));
  return joint;
}

void hang_ledger(Reader& reader, std::size_t stations, Length top) {
  const Stock& stock = reader.ledger->stock;
  Rail ledger;
  ledger.name = ledger_name;
  ledger.on_wall = true;
  ledger.from = stations;
  ledger.to = 2 * stations - 1;
  ledger.width = stock.thickness;
  ledger.depth = stock.depth;
  ledger.height = top - stock.depth / 2.0;
  ledger.stock = stock;
  reader.places.emplace(ledger.name, reader.ledger->field);
  hang_stations(reader.bench, ledger);
  reader.bench.rails.push_back(std::move(ledger));
}

void read_ledger(Reader& reader, Map& map) {
  const Field field = *map.find("ledger");
  const Rail* ledger = ledger_of(reader.bench);
  if (ledger == nullptr) {
    if (is_text(field, "none")) return;
    reader.note(field.fault("a ledger goes with the short form of a bench alone, by its 'size'",
                            "size: 1880 x 590 x 860 mm, without 'parts'"));
    return;
  }
  for (const char* key : {"rail", "at"}) {
    if (!map.has(key)) continue;
    reader.note(map.find(key)->fault(
        fmt::format("'{}' belongs to another rail, and the ledger has 'screws'", key),
        std::string(ledger_example)));
  }
  const std::vector<Length> screws =
      read_ledger_screws(reader, map, ledger_length(reader.bench, *ledger));
  map.finish();
  for (const Length& at : screws) reader.bench.wall.push_back({ledger->name, at});
}

}  // namespace standtrue::bench
