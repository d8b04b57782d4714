#include <algorithm>
#include <cmath>

#include "bench/plan.hpp"
#include "bench/reader.hpp"

namespace standtrue::bench {
namespace {

/// Whether a disc reaches over an edge of the rectangle into it.
bool disc_meets(Length x, Length y, Length radius, const KeepOff& strip) {
  const double dx = in_si(x - std::clamp(x, strip.x0, strip.x1));
  const double dy = in_si(y - std::clamp(y, strip.y0, strip.y1));
  return std::hypot(dx, dy) < in_si(radius) - 1e-6;
}

bool stands_on(const Post& post, const KeepOff& strip) {
  const Plan plan = plan_at_foot(post);
  if (post.foot.bare) return plan.meets({{strip.x0, strip.x1}, {strip.y0, strip.y1}});
  return disc_meets(post.foot_x, post.foot_y, post.foot.pad / 2.0, strip);
}

/// The nearest places along x that are clear of the strip.
std::string advice(const Reader& reader, const Post& post, const KeepOff& strip) {
  const Length half = post.foot.bare ? post.along_x / 2.0 : post.foot.pad / 2.0;
  const Length clear = half + reader.bench.floor.edge_distance;
  if (strip.x0 - clear < Length{}) {
    return fmt::format("a post at {} or more along the bench", say(strip.x1 + clear, reader));
  }
  return fmt::format("a post at {} or less, or at {} or more, along the bench",
                     say(strip.x0 - clear, reader), say(strip.x1 + clear, reader));
}

}  // namespace

void check_feet(Reader& reader, const Field& root) {
  const Floor& floor = reader.bench.floor;
  for (std::size_t s = 0; s < floor.keep_off.size(); ++s) {
    const KeepOff& strip = floor.keep_off[s];
    const Field& field = reader.place(fmt::format("strip {}", s), root);
    for (const Post& post : reader.bench.posts) {
      if (post.on_wall || !stands_on(post, strip)) continue;
      reader.note(field.fault(
          fmt::format("the foot of the {} stands here: its middle is {} along and {} back, and the "
                      "strip runs from {} to {} along the bench",
                      post.name, say(post.foot_x, reader), say(post.foot_y, reader),
                      say(strip.x0, reader), say(strip.x1, reader)),
          advice(reader, post, strip)));
    }
  }
}

}  // namespace standtrue::bench
