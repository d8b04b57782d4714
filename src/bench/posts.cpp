#include <algorithm>

#include "bench/plan.hpp"
#include "bench/reader.hpp"

namespace standtrue::bench {
namespace {

constexpr std::string_view posts_example =
    "posts: {section: 70 x 70 mm, stations: [0 mm, 900 mm, 1950 mm]}";

/// "left", "middle" (or "middle 2") and "right".
std::string station_name(std::size_t station, std::size_t stations) {
  if (station == 0) return "left";
  if (station + 1 == stations) return "right";
  return stations == 3 ? "middle" : fmt::format("middle {}", station);
}

/// `front-left post`, `back-middle post 2`.
std::string post_name(const std::string& row, std::size_t station, std::size_t stations) {
  const std::string where = station_name(station, stations);
  const std::size_t number = where.find(' ');
  if (number == std::string::npos) return fmt::format("{}-{} post", row, where);
  return fmt::format("{}-middle post{}", row, where.substr(number));
}

/// "left end of the ledger", "middle 1 of the ledger".
std::string wall_station_name(std::size_t station, std::size_t stations) {
  const bool is_end = station == 0 || station + 1 == stations;
  return station_name(station, stations) + (is_end ? " end of the ledger" : " of the ledger");
}

/// Its axis is that of the ledger, whose back face is where the posts' depth ends.
void put_on_wall(Post& post, const Stock& ledger, Length depth) {
  post.on_wall = true;
  post.stock = ledger;
  post.along_y = ledger.thickness;
  post.y = post.foot_y = depth - post.along_y / 2.0;
}

/// The posts' middles along x. The outer ones stand flush with the ends.
std::vector<Length> read_stations(Reader& reader, Map& map, Length length, Length along_x) {
  const Length first = along_x / 2.0, last = length - along_x / 2.0;
  const auto field = map.find("stations");
  if (!field) return {first, last};
  std::vector<Length> stations;
  for (const Field& item : items_of(reader, *field)) {
    if (const auto at = read_place(reader, item)) stations.push_back(*at);
  }
  if (stations.size() != items_of(reader, *field).size()) return {first, last};  // faults noted
  if (stations.size() < 2) {
    reader.note(field->fault("a bench has posts at two stations or more, its ends among them",
                             fmt::format("stations: [0 mm, {}]", say(length, reader))));
    return {first, last};
  }
  if (!std::is_sorted(stations.begin(), stations.end())) {
    reader.note(field->fault("the stations must rise from left to right",
                             "stations: [0 mm, 900 mm, 1950 mm]"));
    return {first, last};
  }
  if (stations.front() > first + Range::slack() || stations.back() < last - Range::slack()) {
    reader.note(field->fault(
        fmt::format("the outer posts stand at the ends, 0 mm and {}; a larger overhang of the top "
                    "moves them inwards",
                    say(length, reader)),
        fmt::format("stations: [0 mm, {}]", say(length, reader))));
    return {first, last};
  }
  if (stations.front() < -Range::slack() || stations.back() > length + Range::slack()) {
    reader.note(field->fault(
        fmt::format("a station lies outside the posts' length of {}", say(length, reader)),
        fmt::format("stations: [0 mm, {}]", say(length, reader))));
    return {first, last};
  }
  stations.front() = first;
  stations.back() = last;
  return stations;
}

}  // namespace

PostPlan read_posts(Reader& reader, Map& top, Length length, Length depth) {
  const std::optional<Field> field = either(reader, top, "posts", "legs");
  if (top.has("legs")) reader.bench.assumptions.push_back("I read 'legs' as posts");
  Stock stock = *reader.stock;
  bool turned = false;
  std::vector<Length> stations;
  const auto sides = [&] {
    return std::pair{turned ? stock.thickness : stock.depth,
                     turned ? stock.depth : stock.thickness};
  };
  if (field && field->is(document::Node::Kind::map)) {
    Map map(*field, reader.faults, posts_example);
    stock = member_stock(reader, map, reader.stock).value_or(stock);
    turned = map.yes_no("turned").value_or(false);
    stations = read_stations(reader, map, length, sides().first);
    map.finish();
  } else {
    if (field) stock = read_stock(reader, *field, reader.stock).value_or(stock);
    stations = {sides().first / 2.0, length - sides().first / 2.0};
    reader.assume(reader.ledger
                      ? "two posts in front, flush outside, their wide face along the length"
                      : "four posts flush outside, their wide face along the length");
  }
  const auto [along_x, along_y] = sides();
  const std::size_t n = stations.size();
  for (const std::string row : {"front", "back"}) {
    for (std::size_t s = 0; s < n; ++s) {
      Post post;
      post.name = post_name(row, s, n);
      post.x = post.foot_x = stations[s];
      post.y = post.foot_y = row == "front" ? along_y / 2.0 : depth - along_y / 2.0;
      post.along_x = along_x;
      post.along_y = along_y;
      post.stock = stock;
      post.foot = reader.foot;
      post.bottom = reader.foot.extension;
      if (row == "back" && reader.ledger) {
        post.name = wall_station_name(s, n);
        put_on_wall(post, reader.ledger->stock, depth);
      }
      if (field) reader.places.emplace(post.name, *field);
      reader.bench.posts.push_back(std::move(post));
    }
  }
  return {.length = length, .depth = depth, .top = {}, .stations = n};
}

void set_post_tops(Reader& reader, Length top) {
  for (Post& post : reader.bench.posts) {
    if (!post.on_wall) post.top = top;
  }
}

}  // namespace standtrue::bench
