// The usual bolts of a brace: the thickest that keep their distances where it crosses posts and
// rails.
#include <algorithm>
#include <cmath>

#include "bench/reader.hpp"

namespace standtrue::bench {

using quantity::in_si;

namespace {

/// Faces that a bolt of the brace goes through, and the angle there between brace and grain.
struct Crossing {
  Length face;
  double sine = 0.0;
};

std::vector<Crossing> crossings(const Bench& bench, const Brace& brace) {
  const Post& low = bench.posts[brace.post];
  double run = 0.0, rise = 0.0;
  bool along_x = true;
  if (brace.to_post) {
    const Post& high = bench.posts[*brace.to_post];
    const double dx = in_si(high.x - low.x), dy = in_si(high.y - low.y);
    along_x = std::abs(dx) >= std::abs(dy);
    run = std::hypot(dx, dy);
    rise = in_si(brace.to_at - brace.post_height);
  } else {
    const Rail& rail = bench.rails[*brace.to_rail];
    const Post& from = bench.posts[rail.from];
    along_x = rail.along_x;
    const Length reach = (along_x ? from.x : from.y) + brace.to_at - (along_x ? low.x : low.y);
    run = std::abs(in_si(reach));
    rise = in_si(rail.height - brace.post_height);
  }
  const double length = std::max(std::hypot(run, rise), 1e-9);
  const auto of_post = [&](const Post& post) {
    return Crossing{along_x ? post.along_x : post.along_y, run / length};
  };
  std::vector<Crossing> all = {of_post(low), {brace.stock.depth, 0.0}};
  if (brace.to_post) all.push_back(of_post(bench.posts[*brace.to_post]));
  if (brace.to_rail) all.push_back({bench.rails[*brace.to_rail].depth, std::abs(rise) / length});
  return all;
}

}  // namespace

void take_usual_bolts(Reader& reader, Brace& brace) {
  const reference::SpacingRule& rule = reader.tables.spacing_rule("bolts");
  const std::vector<Crossing> all = crossings(reader.bench, brace);
  const reference::Bolt* usual = reader.tables.bolt("M8");
  const reference::Bolt* thinner = reader.tables.bolt("M6");
  const auto has_room = [&](const Crossing& at) {
    const double edge = std::max(rule.a4t + rule.a4t_sin * at.sine, rule.a4c);
    return at.face / 2.0 >= edge * usual->diameter;
  };
  const reference::Bolt* bolt = std::all_of(all.begin(), all.end(), has_room) ? usual : thinner;
  brace.joint.fastener_diameter = bolt->diameter;
  reader.assume(
      fmt::format("the {} bolted on with two {} bolts at each end", brace.name, bolt->key));
}

}  // namespace standtrue::bench
