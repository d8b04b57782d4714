#include "standtrue/model/divide.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "model/frame_reader.hpp"
#include "model/frame_writer.hpp"
#include "standtrue/contract.hpp"

namespace standtrue::model {

using quantity::in_si;
using quantity::metres;

namespace {

/// A place on a member as a place on one of its pieces.
struct On {
  MemberId piece = 0;
  Length at;
};

On piece_at(const std::vector<MemberId>& pieces, Length length, Length at) {
  const Length one = length / static_cast<double>(pieces.size());
  const auto i =
      std::min(static_cast<std::size_t>(std::max(0.0, in_si(at) / in_si(one))), pieces.size() - 1);
  return {pieces[i], at - static_cast<double>(i) * one};
}

void cut_line_load(const MemberLineLoad& load, const std::vector<MemberId>& pieces, Length length,
                   std::vector<MemberLineLoad>& out) {
  const double one = in_si(length) / static_cast<double>(pieces.size());
  const double from = in_si(load.from), to = in_si(load.to);
  const auto intensity = [&](double at) {
    const double share = (at - from) / (to - from);
    const auto mixed = [&](auto a, auto b) { return a + (b - a) * share; };
    return LineLoadVector{mixed(load.at_from.x, load.at_to.x), mixed(load.at_from.y, load.at_to.y),
                          mixed(load.at_from.z, load.at_to.z)};
  };
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    const double start = static_cast<double>(i) * one;
    const double low = std::max(from, start), high = std::min(to, start + one);
    if (high - low <= 1e-12 * in_si(length)) continue;
    out.push_back(
        {pieces[i], metres(low - start), metres(high - start), intensity(low), intensity(high)});
  }
}

}  // namespace

Division divided(const Model& model, int pieces) {
  expects(pieces >= 1, "divided: at least one piece");
  Division out{model, {}};
  std::vector<Length> lengths;
  for (MemberId m = 0; m < model.members.size(); ++m) {
    const Member& whole = model.members[m];
    const MemberFrame frame = member_frame(model, whole);
    lengths.push_back(frame.length);
    out.pieces.push_back({m});
    const Point& a = model.nodes[whole.start].at;
    const Direction& axis = frame.axes[0];
    for (int i = 1; i < pieces; ++i) {
      const Length along = frame.length * (static_cast<double>(i) / pieces);
      out.model.nodes.push_back({fmt::format("{}.{}", whole.name, i),
                                 {a.x + whole.start_offset.x + along * axis.x,
                                  a.y + whole.start_offset.y + along * axis.y,
                                  a.z + whole.start_offset.z + along * axis.z}});
      Member piece = whole;
      piece.name = fmt::format("{}.{}", whole.name, i + 1);
      piece.start = out.model.nodes.size() - 1;
      piece.start_offset = {};
      piece.start_springs = {};
      Member& before = out.model.members[out.pieces[m].back()];
      before.end = piece.start;
      before.end_offset = {};
      before.end_springs = {};
      out.pieces[m].push_back(out.model.members.size());
      out.model.members.push_back(std::move(piece));
    }
  }
  if (pieces == 1) return out;
  if (ends_with_plane_supports(model)) {  // a plane frame stays in its plane between its nodes too
    for (Support& support : plane_supports(out.model)) out.model.supports.push_back(support);
  }
  for (LoadCase& load_case : out.model.cases) {
    for (MemberPointLoad& load : load_case.point_loads) {
      const On on = piece_at(out.pieces[load.member], lengths[load.member], load.at);
      load.member = on.piece;
      load.at = on.at;
    }
    std::vector<MemberLineLoad> cut;
    for (const MemberLineLoad& load : load_case.line_loads) {
      cut_line_load(load, out.pieces[load.member], lengths[load.member], cut);
    }
    load_case.line_loads = std::move(cut);
  }
  return out;
}

}  // namespace standtrue::model
