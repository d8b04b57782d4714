#include "check/held.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

#include "standtrue/bench/ledger.hpp"

namespace standtrue::check {

using quantity::in_si;
using quantity::Length;

namespace {

/// Planes that hold, by their other plan coordinate.
struct Planes {
  std::vector<Length> along, across;
};

void add_braces(const model::Model& model, Planes& planes) {
  for (const model::Part& part : model.parts.parts) {
    if (part.role != model::Role::brace) continue;
    const std::vector<bench::Brace>& braces = model.parts.bench.braces;
    if (!braces.at(part.source).to_post) continue;  // a knee
    const model::Point& a = model.nodes[model.members[part.members.front()].start].at;
    const model::Point& b = model.nodes[model.members[part.members.back()].end].at;
    const bool runs_along = std::abs(in_si(b.x) - in_si(a.x)) > std::abs(in_si(b.y) - in_si(a.y));
    (runs_along ? planes.along : planes.across).push_back(runs_along ? a.y : a.x);
  }
}

void add_sheets(const model::Model& model, Planes& planes) {
  for (const model::ShearField& field : model.parts.shear_fields) {
    const bench::Sheet& sheet = model.parts.bench.sheets.at(field.sheet_place);
    if (sheet.place == bench::SheetPlace::back) planes.along.push_back(sheet.y0);
    if (sheet.place == bench::SheetPlace::end) planes.across.push_back(sheet.x0);
  }
  for (const std::size_t place : model.parts.plate_sheets) {
    const bench::Sheet& sheet = model.parts.bench.sheets.at(place);
    if (sheet.bond == bench::Bond::loose) continue;
    if (sheet.place == bench::SheetPlace::back) planes.along.push_back(sheet.y0);
    if (sheet.place == bench::SheetPlace::end) planes.across.push_back(sheet.x0);
  }
}

/// Rails that end on a ledger hold the posts at their other ends to the wall.
void add_ledger_rails(const model::Model& model, Planes& planes) {
  for (const model::RailEnd& end : model.parts.rail_ends) {
    const model::Part& rail = model.parts.parts[end.rail];
    const bool is_rail = rail.role == model::Role::rail;
    if (!is_rail || model.parts.parts[end.onto].role == model::Role::post) continue;
    planes.across.push_back(model.nodes[model.members[end.member].end].at.x);
  }
}

/// In the plane of the post (within its thickness), or on two planes a post's thickness apart.
bool hold(const std::vector<Length>& planes, Length post, Length thickness) {
  for (const Length& plane : planes) {
    if (std::abs(in_si(plane - post)) <= in_si(thickness)) return true;
  }
  if (planes.empty()) return false;
  const auto [least, greatest] = std::minmax_element(planes.begin(), planes.end());
  return *greatest - *least > thickness;
}

}  // namespace

Held held_planes(const model::Model& model, const model::Part& post) {
  Planes planes;
  add_braces(model, planes);
  add_sheets(model, planes);
  add_ledger_rails(model, planes);
  const model::Point& at = model.nodes[model.members[post.members.front()].start].at;
  const Length thickness = std::max(post.width, post.depth);
  return {hold(planes.along, at.y, thickness), hold(planes.across, at.x, thickness)};
}

const char* held_word(const model::Model& model, bool is_held) {
  if (!is_held) return "free to sway, a cantilever";
  return bench::ledger_of(model.parts.bench) ? "held by the wall, a diagonal or a fixed sheet"
                                             : "held by a diagonal or a fixed sheet";
}

Length height_of(const model::Model& model, const model::Part& part) {
  Length top{};
  for (const model::MemberId m : part.members) {
    top = std::max(
        {top, model.nodes[model.members[m].start].at.z, model.nodes[model.members[m].end].at.z});
  }
  return top;
}

bool bends_along_x(const model::Model& model, const model::Part& part) {
  const model::MemberFrame frame = model::member_frame(model, model.members[part.members.front()]);
  return std::abs(frame.axes[2].x) >= std::abs(frame.axes[2].y);
}

}  // namespace standtrue::check
