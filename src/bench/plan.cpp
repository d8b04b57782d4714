#include "bench/plan.hpp"

namespace standtrue::bench {

Plan plan_at_top(const Post& post) {
  return {around(post.x, post.along_x), around(post.y, post.along_y)};
}

Plan plan_at_foot(const Post& post) {
  return {around(post.foot_x, post.along_x), around(post.foot_y, post.along_y)};
}

Length rail_line(const Bench& bench, const Rail& rail) {
  const Post& from = bench.posts[rail.from];
  return (rail.along_x ? from.y : from.x) + rail.aside;
}

Plan plan_of(const Bench& bench, const Rail& rail) {
  const Post& from = bench.posts[rail.from];
  const Post& to = bench.posts[rail.to];
  const Range across = around(rail_line(bench, rail), rail.width);
  if (rail.along_x) return {span(from.x, to.x), across};
  return {across, span(from.y, to.y)};
}

Plan plan_of(const Bench& bench, const Bearer& bearer) {
  const Rail& from = bench.rails[bearer.from];
  const Range lengthwise = span(rail_line(bench, from), rail_line(bench, bench.rails[bearer.to]));
  const Range across = around(bearer.at, bearer.width);
  if (from.along_x) return {across, lengthwise};
  return {lengthwise, across};
}

Plan plan_of(const Sheet& sheet) { return {{sheet.x0, sheet.x1}, {sheet.y0, sheet.y1}}; }

Range heights(const Rail& rail) { return around(rail.height, rail.depth); }
Range heights(const Bearer& bearer) { return around(bearer.height, bearer.depth); }

Length clear_length(const Bench& bench, const Rail& rail) {
  const Post& from = bench.posts[rail.from];
  const Post& to = bench.posts[rail.to];
  if (rail.along_x) return to.x - from.x - (to.along_x + from.along_x) / 2.0;
  return to.y - from.y - (to.along_y + from.along_y) / 2.0;
}

Length top_of_lower_rails(const Bench& bench) {
  Length top{};
  for (const Rail& rail : bench.rails) {
    if (rail.level == Level::lower) top = std::max(top, heights(rail).high);
  }
  return top;
}

}  // namespace standtrue::bench
