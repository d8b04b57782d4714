#include <algorithm>
#include <cmath>

#include "bench/plan.hpp"
#include "bench/reader.hpp"
#include "standtrue/bench/let_in.hpp"

namespace standtrue::bench {
namespace {

using reference::Fastening;

void check_posts(Reader& reader, const Field& root) {
  const std::vector<Post>& posts = reader.bench.posts;
  for (std::size_t i = 0; i < posts.size(); ++i) {
    const Post& post = posts[i];
    const Field& field = reader.place(post.name, root);
    if (!post.on_wall && post.top <= post.bottom + millimetres(50.0)) {
      reader.note(
          field.fault(fmt::format("{} would run from {} to {} above the floor", called(post.name),
                                  say(post.bottom, reader), say(post.top, reader)),
                      "size: 2050 x 680 x 900 mm"));
    }
    for (std::size_t j = 0; j < i; ++j) {
      const Post& other = posts[j];
      const bool overlap = plan_at_top(post).meets(plan_at_top(other)) ||
                           plan_at_foot(post).meets(plan_at_foot(other));
      const Range heights{post.bottom, post.top}, others{other.bottom, other.top};
      if (!overlap || !heights.meets(others)) continue;
      reader.note(field.fault(
          fmt::format("{} and {} stand in the same place", called(other.name), called(post.name)),
          "stations further apart, or a deeper bench"));
    }
  }
}

/// An end on a ledger meets it with its whole depth.
bool rail_meets_ledger(Reader& reader, const Rail& rail, const Post& station, const Field& field) {
  const Range own = heights(rail);
  if (own.low >= station.bottom - millimetres(1.0) && own.high <= station.top + millimetres(1.0)) {
    return true;
  }
  const Length wanted = station.top - own.low;
  reader.note_once(
      "rail_meets_ledger",
      field.fault(
          fmt::format("{} lies from {} to {} above the floor, and the ledger that it ends on from "
                      "{} to {}",
                      called(rail.name), say(own.low, reader), say(own.high, reader),
                      say(station.bottom, reader), say(station.top, reader)),
          own.high > station.top + millimetres(1.0)
              ? fmt::format("top_at: {}", say(station.top, reader))
              : fmt::format("wall: {{ledger: {} x {}}}",
                            quantity::print(in_si(station.along_y), Kind::length),
                            quantity::print(in_si(wanted), Kind::length))));
  return false;
}

/// Not above its posts nor below them.
bool rail_is_high_enough(Reader& reader, const Rail& rail, const Field& field) {
  const Bench& bench = reader.bench;
  const Range own = heights(rail);
  for (const std::size_t p : {rail.from, rail.to}) {
    const Post& post = bench.posts[p];
    if (post.on_wall) {
      if (!rail_meets_ledger(reader, rail, post, field)) return false;
      continue;
    }
    if (rail.seat == Seat::on_top) {
      const Length seat = own.low + rail.notch;
      if (near(seat, post.top)) continue;
      reader.note_once(
          "rail_is_high_enough",
          field.fault(fmt::format("{} does not lie on {}: its seat is at {}, the post ends at {}",
                                  called(rail.name), called(post.name), say(seat, reader),
                                  say(post.top, reader)),
                      fmt::format("underside: {}", say(post.top - rail.notch, reader))));
      return false;
    }
    if (own.high > post.top + millimetres(1.0)) {
      reader.note_once("rail_is_high_enough",
                       field.fault(fmt::format("{} reaches {}, higher than {}, which ends at {}",
                                               called(rail.name), say(own.high, reader),
                                               called(post.name), say(post.top, reader)),
                                   fmt::format("top_at: {}", say(post.top, reader))));
      return false;
    }
    if (own.low < post.bottom - millimetres(1.0)) {
      reader.note_once(
          "rail_is_high_enough",
          field.fault(fmt::format("{} hangs down to {}, lower than {}, which begins at {}",
                                  called(rail.name), say(own.low, reader), called(post.name),
                                  say(post.bottom, reader)),
                      fmt::format("underside: {}", say(post.bottom, reader))));
      return false;
    }
  }
  return true;
}

/// It meets its posts, and there is room for it between them.
bool rail_reaches(Reader& reader, const Rail& rail, const Field& field) {
  const Bench& bench = reader.bench;
  if (clear_length(bench, rail) < millimetres(20.0)) {
    reader.note_once("rail_reaches",
                     field.fault(fmt::format("there is no room for {} between {} and {}",
                                             called(rail.name), called(bench.posts[rail.from].name),
                                             called(bench.posts[rail.to].name)),
                                 "posts further apart"));
    return false;
  }
  const Length line = rail_line(bench, rail);
  for (const std::size_t p : {rail.from, rail.to}) {
    const Post& post = bench.posts[p];
    const Range face = rail.along_x ? plan_at_top(post).y : plan_at_top(post).x;
    const Range own = around(line, rail.width);
    const bool touches = rail.seat == Seat::post_face
                             ? near(own.high, face.low) || near(own.low, face.high)
                             : own.meets(face);
    if (touches) continue;
    reader.note_once(
        "rail_reaches",
        field.fault(
            fmt::format("{} does not meet {}: it passes it by", called(rail.name),
                        called(post.name)),
            rail.seat == Seat::post_face
                ? fmt::format("aside: {}", say((face.high - face.low + rail.width) / 2.0, reader))
                : "aside: 0 mm"));
    return false;
  }
  return true;
}

bool rail_suits_joint(Reader& reader, const Rail& rail, const Field& field) {
  if (rail.seat != Seat::between && rail.seat != Seat::on_top) return true;
  for (const Joint* joint : {&rail.start, &rail.end}) {
    if (joint->kind.fastening != Fastening::bolts) continue;
    reader.note_once(
        "rail_suits_joint",
        field.fault(fmt::format("{} has a {}, which wants the rail on the posts' faces",
                                called(rail.name), joint->kind.key),
                    "seat: on post face"));
    return false;
  }
  return true;
}

/// Whether two rails at one height share a place. Rails that run square to each other only meet at
/// a post, unless both lie on top of it.
bool lie_across(const Bench& bench, const Rail& a, const Rail& b) {
  if (a.along_x == b.along_x) return plan_of(bench, a).meets(plan_of(bench, b));
  const bool share_a_post = a.from == b.from || a.from == b.to || a.to == b.from || a.to == b.to;
  return share_a_post && a.seat == Seat::on_top && b.seat == Seat::on_top;
}

void check_rails(Reader& reader, const Field& root) {
  const Bench& bench = reader.bench;
  for (std::size_t i = 0; i < bench.rails.size(); ++i) {
    const Rail& rail = bench.rails[i];
    const Field& field = reader.place(rail.name, reader.place(bench.posts[rail.from].name, root));
    const bool is_sound = rail_is_high_enough(reader, rail, field) &&
                          rail_reaches(reader, rail, field) &&
                          rail_suits_joint(reader, rail, field);
    for (std::size_t j = 0; is_sound && j < i; ++j) {
      const Rail& other = bench.rails[j];
      if (!heights(rail).meets(heights(other)) || !lie_across(bench, rail, other)) {
        continue;
      }
      reader.note_once(
          "rails overlap",
          field.fault(
              fmt::format("{} overlaps {}: it lies from {} to {} above the floor, that one from "
                          "{} to {}",
                          called(rail.name), called(other.name), say(heights(rail).low, reader),
                          say(heights(rail).high, reader), say(heights(other).low, reader),
                          say(heights(other).high, reader)),
              "another 'underside', or a rail less deep"));
    }
  }
}

/// A rail that is let in leaves some of the post, with those that are let in beside it.
bool leaves_some(Reader& reader, const Post& post, const LetIn& cut, const std::vector<LetIn>& cuts,
                 const Field& field) {
  const Rail& rail = reader.bench.rails[cut.rail];
  const auto left_at = [&](Length height) {
    const SidesLeft left = sides_left(post, cuts, height);
    return cut.along_x ? left.along_y : left.along_x;
  };
  if (std::min(left_at(cut.low), left_at(cut.high)) > Range::slack()) return true;
  reader.note_once(
      "leaves_some",
      field.fault(fmt::format("{} is let into {}, and leaves nothing of it: it takes {} of {}",
                              called(rail.name), called(post.name), say(cut.to - cut.from, reader),
                              say(cut.along_x ? post.along_y : post.along_x, reader)),
                  cut.is_lap ? "joint: corner brackets" : "seat: on post face"));
  return false;
}

/// Rails that are let into a post run through it: of two that come from different directions at one
/// height one would have to go. Two half laps share what both would take, mitred.
void check_let_in(Reader& reader, const Field& root) {
  const Bench& bench = reader.bench;
  const Field& usual = reader.joint_place ? *reader.joint_place : root;
  for (std::size_t p = 0; p < bench.posts.size(); ++p) {
    const std::vector<LetIn> cuts = let_into(bench, p);
    for (std::size_t i = 0; i < cuts.size(); ++i) {
      const LetIn& cut = cuts[i];
      const Rail& rail = bench.rails[cut.rail];
      const Field& field = reader.place(rail.name, usual);
      if (!leaves_some(reader, bench.posts[p], cut, cuts, field)) continue;
      for (std::size_t j = 0; j < i; ++j) {
        const LetIn& other = cuts[j];
        const Range own{cut.low, cut.high};
        if (cut.along_x == other.along_x || !own.meets({other.low, other.high})) continue;
        if (cut.is_lap && other.is_lap) continue;
        reader.note_once(
            "check_let_in",
            field.fault(
                fmt::format("{} and {} would lie in the same place: both are let into {}, from {} "
                            "to {} above the floor",
                            called(bench.rails[other.rail].name), called(rail.name),
                            called(bench.posts[p].name), say(std::max(cut.low, other.low), reader),
                            say(std::min(cut.high, other.high), reader)),
                fmt::format("another 'underside' for one of the two, or '{}'",
                            cut.is_lap ? "joint: corner brackets" : "seat: between")));
      }
    }
  }
}

void check_bearer_ends(Reader& reader, const Bearer& bearer, const Field& field) {
  const Bench& bench = reader.bench;
  for (const std::size_t r : {bearer.from, bearer.to}) {
    const Rail& rail = bench.rails[r];
    if (!heights(bearer).meets(heights(rail))) {
      reader.note(field.fault(
          fmt::format("{} does not meet {}: it lies from {} to {}, the rail from {} to {}",
                      bearer.name, called(rail.name), say(heights(bearer).low, reader),
                      say(heights(bearer).high, reader), say(heights(rail).low, reader),
                      say(heights(rail).high, reader)),
          fmt::format("top_at: {}", say(heights(rail).high, reader))));
      return;
    }
    const Plan plan = plan_of(bench, rail);
    const Range along = rail.along_x ? plan.x : plan.y;
    const Length half = (along.high - along.low - clear_length(bench, rail)) / 2.0;
    const Range own = around(bearer.at, bearer.width);
    if (own.low >= along.low + half - Range::slack() &&
        own.high <= along.high - half + Range::slack()) {
      continue;
    }
    reader.note(
        field.fault(fmt::format("{} at {} runs into a post: {} is free from {} to {}", bearer.name,
                                say(bearer.at, reader), called(rail.name),
                                say(along.low + half, reader), say(along.high - half, reader)),
                    say((along.low + along.high) / 2.0, reader)));
    return;
  }
}

void check_bearers(Reader& reader, const Field& root) {
  const std::vector<Bearer>& bearers = reader.bench.bearers;
  for (std::size_t i = 0; i < bearers.size(); ++i) {
    const Bearer& bearer = bearers[i];
    const Field& field = reader.place(bearer.name, root);
    check_bearer_ends(reader, bearer, field);
    for (std::size_t j = 0; j < i; ++j) {
      const Bearer& other = bearers[j];
      if (!heights(bearer).meets(heights(other)) ||
          !plan_of(reader.bench, bearer).meets(plan_of(reader.bench, other))) {
        continue;
      }
      reader.note(
          field.fault(fmt::format("{} and {} lie in the same place", other.name, bearer.name),
                      "bearers further apart"));
    }
  }
}

void check_brace(Reader& reader, const Brace& brace, const Field& field) {
  const Bench& bench = reader.bench;
  const auto off_post = [&](const Post& post, Length at) {
    if (Range{post.bottom, post.top}.holds(at)) return false;
    reader.note(
        field.fault(fmt::format("{} meets {} at {}, where there is none: it runs from {} to {}",
                                called(brace.name), called(post.name), say(at, reader),
                                say(post.bottom, reader), say(post.top, reader)),
                    "low: 200 mm, high: 800 mm"));
    return true;
  };
  const Post& post = bench.posts[brace.post];
  if (off_post(post, brace.post_height)) return;
  if (brace.to_post) {
    if (off_post(bench.posts[*brace.to_post], brace.to_at)) return;
    if (brace.to_at > brace.post_height + millimetres(50.0)) return;
    reader.note(field.fault(
        fmt::format("{} does not rise: it runs from {} to {} above the floor", called(brace.name),
                    say(brace.post_height, reader), say(brace.to_at, reader)),
        "low: 200 mm, high: 800 mm"));
    return;
  }
  const Rail& rail = bench.rails[*brace.to_rail];
  const Plan plan = plan_of(bench, rail);
  const Range along = rail.along_x ? plan.x : plan.y;
  const Length length = along.high - along.low;
  if (brace.to_at > Length{} && brace.to_at < length) return;
  reader.note(
      field.fault(fmt::format("{} meets {} at {}, and that is {} long", called(brace.name),
                              called(rail.name), say(brace.to_at, reader), say(length, reader)),
                  "leg: 300 mm"));
}

}  // namespace

void check_frame(Reader& reader, const Field& root) {
  check_posts(reader, root);
  if (any_error(reader.faults)) return;  // rails between such posts would only repeat it
  check_rails(reader, root);
  check_let_in(reader, root);
  check_bearers(reader, root);
  for (const Brace& brace : reader.bench.braces) {
    check_brace(reader, brace, reader.place(brace.name, root));
  }
}

}  // namespace standtrue::bench
