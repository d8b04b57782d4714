#include "check/end_grain.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <numbers>

#include "check/words.hpp"

namespace standtrue::check {

using quantity::Length;
using std::numbers::pi;

EndGrain end_grain(const model::Part& post, const bench::Foot& foot) {
  const quantity::Area section = post.width * post.depth;
  if (foot.bare) return {section, "the whole end of the post stands on the floor"};
  const auto disc = [](Length d) { return pi / 4.0 * d * d; };
  const Length flange = std::min({foot.thread.insert_flange, post.width, post.depth});
  return {disc(flange) - disc(foot.thread.insert_barrel),
          fmt::format("flange of the insert {} less its hole {}", shown(flange),
                      shown(foot.thread.insert_barrel))};
}

}  // namespace standtrue::check
