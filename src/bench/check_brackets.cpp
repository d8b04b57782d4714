#include <algorithm>

#include "bench/plan.hpp"
#include "bench/reader.hpp"

namespace standtrue::bench {
namespace {

/// Brackets that are wider than what they are screwed to; one for all rails that share the fault.
struct Misfit {
  const Joint* joint = nullptr;
  bool is_post = false;  ///< the post's face is the narrow one, and turning the post would help
  Length offered;
  std::vector<std::string> rails;
};

struct Offer {
  Length width;
  bool is_post = false;
};

/// What the rail and the post offer to the width of a bracket.
Offer offered(const Rail& rail, const Post& post, const Joint& joint) {
  if (joint.place == "inside face") {
    const Length side = rail.along_x ? post.along_x : post.along_y;
    return {std::min(rail.depth, side), side < rail.depth};
  }
  const Length face = rail.along_x ? post.along_y : post.along_x;
  return {std::min(rail.width, face), face < rail.width};
}

bool turning_helps(const Post& post, const Joint& joint) {
  return std::max(post.along_x, post.along_y) >= joint.kind.width;
}

void add_misfit(std::vector<Misfit>& misfits, const Misfit& one, const std::string& rail) {
  for (Misfit& known : misfits) {
    if (known.joint->kind.key != one.joint->kind.key || known.is_post != one.is_post ||
        !near(known.offered, one.offered)) {
      continue;
    }
    if (known.rails.back() != rail) known.rails.push_back(rail);
    return;
  }
  misfits.push_back(one);
  misfits.back().rails.push_back(rail);
}

std::string list_of_rails(const std::vector<std::string>& rails) {
  if (rails.size() == 1) return "the " + rails.front();
  return fmt::format("the {} and {} more", rails.front(), rails.size() - 1);
}

}  // namespace

void check_brackets(Reader& reader, const Field& root) {
  const Bench& bench = reader.bench;
  std::vector<Misfit> misfits;
  for (const Rail& rail : bench.rails) {
    const std::array<std::pair<const Joint*, std::size_t>, 2> ends = {
        {{&rail.start, rail.from}, {&rail.end, rail.to}}};
    for (const auto& [joint, p] : ends) {
      if (joint->kind.fastening != reference::Fastening::bracket) continue;
      const Post& post = bench.posts[p];
      if (post.on_wall) continue;  // the ledger is as long as any bracket is wide
      const Offer offer = offered(rail, post, *joint);
      if (joint->kind.width <= offer.width + Range::slack()) continue;
      const bool turn = offer.is_post && turning_helps(post, *joint);
      add_misfit(misfits, {.joint = joint, .is_post = turn, .offered = offer.width}, rail.name);
    }
  }
  const Field& field = reader.joint_place ? *reader.joint_place : root;
  for (const Misfit& misfit : misfits) {
    const reference::JointKind& kind = misfit.joint->kind;
    reader.note(field.warning(
        fmt::format("{} {} wide do not fit the {} of {} at {}: take narrower ones{}", kind.key,
                    say(kind.width, reader), say(misfit.offered, reader),
                    misfit.is_post ? "the posts" : "timber", list_of_rails(misfit.rails),
                    misfit.is_post ? " or turn the posts" : ""),
        misfit.is_post ? "posts: {turned: yes}"
                       : fmt::format("joints: {{kind: {}, width: {}}}", kind.key,
                                     say(misfit.offered, reader))));
  }
}

}  // namespace standtrue::bench
