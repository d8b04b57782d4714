#include <array>
#include <set>

#include "bench/plan.hpp"
#include "bench/reader.hpp"

namespace standtrue::bench {
namespace {

/// Post that a bracket's leg can be screwed to, above and under a rail.
struct Room {
  Length above, under;
};
Room room_at(const Rail& rail, const Post& post) {
  return {post.top - (rail.height + rail.depth / 2.0),
          rail.height - rail.depth / 2.0 - post.bottom};
}

void take_one(Joint& joint, const char* place) {
  joint.kind.pieces = 1;
  joint.kind.place = joint.place = place;
}

/// A bracket goes into the corner between rail and ledger, as it does at a bearer's end: under a
/// rail as deep as the ledger it would find nothing to be screwed to, and on the outer side of an
/// end rail the ledger has ended.
void fit_brackets_on_ledger(Reader& reader) {
  for (Rail& rail : reader.bench.rails) {
    const Post& station = reader.bench.posts[rail.to];
    if (rail.on_wall || !station.on_wall) continue;
    if (rail.end.kind.fastening != reference::Fastening::bracket) continue;
    const Room room = room_at(rail, station);
    const bool is_upright = rail.end.place == "under" || rail.end.place == "above";
    const Length wanted = rail.end.place == "above" ? room.above : room.under;
    if (is_upright && wanted + Range::slack() >= rail.end.kind.leg) continue;
    take_one(rail.end, "inside face");
    reader.assume("one bracket beside each rail that ends on the ledger, in the inner corner");
  }
}

}  // namespace

/// Two brackets face each other only where the post goes on above and under the rail. At a top rail
/// that is level with its posts one of them has nothing to hold: it is left out, and said.
void fit_brackets(Reader& reader) {
  fit_brackets_on_ledger(reader);
  std::set<std::string> under, above;
  for (Rail& rail : reader.bench.rails) {
    const std::array<std::pair<Joint*, std::size_t>, 2> ends = {
        {{&rail.start, rail.from}, {&rail.end, rail.to}}};
    for (const auto& [joint, p] : ends) {
      const bool pair = joint->kind.fastening == reference::Fastening::bracket &&
                        joint->kind.pieces > 1 && joint->place == "both faces";
      if (!pair) continue;
      const Room room = room_at(rail, reader.bench.posts[p]);
      const bool fits_above = room.above + Range::slack() >= joint->kind.leg;
      const bool fits_under = room.under + Range::slack() >= joint->kind.leg;
      if (fits_under && !fits_above) {
        take_one(*joint, "under");
        under.insert(rail.name);
      } else if (fits_above && !fits_under) {
        take_one(*joint, "above");
        above.insert(rail.name);
      }
    }
  }
  const auto say_so = [&](const std::set<std::string>& rails, const char* where, const char* kept) {
    if (rails.empty()) return;
    reader.assume(
        fmt::format("one bracket {} at each end of the {}{}: there is no post {} for a second",
                    kept, *rails.begin(),
                    rails.size() > 1 ? fmt::format(" and {} more", rails.size() - 1) : "", where));
  };
  say_so(under, "above", "underneath");
  say_so(above, "underneath", "above");
}

}  // namespace standtrue::bench
