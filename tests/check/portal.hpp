#pragma once

#include <doctest/doctest.h>

#include <string>
#include <utility>
#include <vector>

#include "check/section_forces.hpp"
#include "standtrue/check/check_all.hpp"
#include "standtrue/model/idealise.hpp"

/// Two posts on the floor and one rail between them along x, put together by hand: every size may
/// be changed before it is solved. Lengths in m, forces in N.
namespace portal {

using namespace standtrue;
using quantity::metres;
using quantity::millimetres;
using quantity::newtons;

inline const reference::Tables& tables() {
  static const reference::Tables loaded = reference::load_tables();
  return loaded;
}

struct Portal {
  double span = 1.4;    ///< between the posts' axes
  double height = 0.9;  ///< of the posts
  double rail_height = 0.7;
  double post = 0.09;  ///< side
  double rail_width = 0.07, rail_depth = 0.12;
  double aside = 0.0;
  const char* timber = "C24";
  std::string joint = "corner brackets";
  double bend = 1e4;  ///< N m/rad of each end, both senses
  double bearing = 0.0;
  /// Brackets are all of one build, which the sums in the tests go by: legs of 90 mm, 60 x 2.5 mm,
  /// six screws 4 x 35 a leg, two beside each other, 30, 58 and 86 mm from the corner.
  bench::Joint joint_of() const {
    bench::Joint j;
    j.kind = *tables().joint_kind(joint);
    j.place = j.kind.place;
    if (j.kind.fastening != reference::Fastening::bracket) return j;
    j.kind.leg = millimetres(90);
    j.kind.width = millimetres(60);
    j.kind.thickness = millimetres(2.5);
    j.kind.fasteners = 6;
    j.kind.rows = 2;
    j.kind.fastener_diameter = millimetres(4);
    j.kind.fastener_length = millimetres(35);
    j.kind.first = millimetres(30);
    j.kind.pitch = millimetres(28);
    j.kind.radius = millimetres(27.4);
    j.kind.clearance = millimetres(0.2);
    return j;
  }
};

/// What a test changes in the finished model.
struct Built {
  model::Model model;
  [[nodiscard]] bench::Joint& joint(std::size_t end) { return model.parts.rail_ends[end].joint; }
};

namespace detail {

inline std::size_t add_member(model::Model& m, std::string name, std::size_t a, std::size_t b,
                              double width, double depth, std::size_t part) {
  model::Member member;
  member.name = std::move(name);
  member.start = a;
  member.end = b;
  member.section = model::rectangle(metres(width), metres(depth));
  member.elastic = {quantity::pascals(11e9), quantity::pascals(0.69e9),
                    quantity::from_si<quantity::Density>(420.0)};
  member.part = part;
  m.members.push_back(member);
  return m.members.size() - 1;
}

}  // namespace detail

/// Parts 0 and 1 are the posts, 2 the rail. Feet are clamped; support 0 and 1 carry down.
inline Built build(const Portal& p) {
  Built built;
  model::Model& m = built.model;
  bench::Bench& bench = m.parts.bench;
  bench.air = *tables().air("unheated");
  const double x[] = {0.0, p.span};
  for (int i = 0; i < 2; ++i) {
    const std::string name = i == 0 ? "left post" : "right post";
    m.nodes.push_back({name + " foot", {metres(x[i]), {}, {}}});
    m.nodes.push_back({name + " joint", {metres(x[i]), {}, metres(p.rail_height)}});
    m.nodes.push_back({name + " top", {metres(x[i]), {}, metres(p.height)}});
    bench::Post post;
    post.name = name;
    post.x = post.foot_x = metres(x[i]);
    post.top = metres(p.height);
    post.along_x = post.along_y = metres(p.post);
    post.stock.timber = *tables().timber(p.timber);
    post.foot.thread = *tables().foot("M10");
    bench.posts.push_back(post);
    model::Part part;
    part.name = name;
    part.role = model::Role::post;
    part.timber = post.stock.timber;
    part.width = part.depth = metres(p.post);
    part.span = metres(p.height);
    part.source = static_cast<std::size_t>(i);
    const std::size_t base = static_cast<std::size_t>(3 * i);
    for (std::size_t k = 0; k < 2; ++k) {
      part.members.push_back(detail::add_member(m, name, base + k, base + k + 1, p.post, p.post,
                                                static_cast<std::size_t>(i)));
    }
    m.parts.parts.push_back(part);
  }
  for (std::size_t i = 0; i < 2; ++i) {
    for (const model::Direction along :
         {model::Direction{0, 0, 1}, model::Direction{1, 0, 0}, model::Direction{0, 1, 0}}) {
      for (const bool rotation : {false, true}) {
        model::Support s;
        s.name = "foot";
        s.node = 3 * i;
        s.rotation = rotation;
        s.along = along;
        m.supports.push_back(s);
      }
    }
    m.parts.feet.push_back({i == 0 ? "left foot" : "right foot", i, std::nullopt, 6 * i, 0, 0});
  }
  bench::Rail rail;
  rail.name = "rail";
  rail.from = 0;
  rail.to = 1;
  rail.height = metres(p.rail_height);
  rail.width = metres(p.rail_width);
  rail.depth = metres(p.rail_depth);
  rail.aside = metres(p.aside);
  rail.stock.timber = *tables().timber(p.timber);
  bench.rails.push_back(rail);
  model::Part part;
  part.name = "rail";
  part.role = model::Role::rail;
  part.timber = rail.stock.timber;
  part.width = rail.width;
  part.depth = rail.depth;
  part.span = metres(p.span - p.post);
  part.bearing = metres(p.bearing);
  part.members = {detail::add_member(m, "rail", 1, 4, p.rail_width, p.rail_depth, 2)};
  model::Member& member = m.members.back();
  member.start_offset.x = metres(p.post / 2);
  member.end_offset.x = metres(-p.post / 2);
  member.start_springs[4] = member.end_springs[4] = model::EndSpring::elastic(p.bend);
  m.parts.parts.push_back(part);
  for (const bool at_end : {false, true}) {
    model::RailEnd end;
    end.name = at_end ? "rail, right end" : "rail, left end";
    end.rail = 2;
    end.member = part.members[0];
    end.at_end = at_end;
    end.onto = at_end ? 1 : 0;
    end.joint = p.joint_of();
    m.parts.rail_ends.push_back(end);
  }
  return built;
}

/// Another rail like the first, between the tops of the posts: part 3, ends 2 and 3.
inline void add_second_rail(Built& built, const Portal& p) {
  model::Model& m = built.model;
  bench::Rail rail = m.parts.bench.rails[0];
  rail.name = "second rail";
  rail.height = metres(p.height);
  m.parts.bench.rails.push_back(rail);
  model::Part part = m.parts.parts[2];
  part.name = "second rail";
  part.source = 1;
  part.members = {detail::add_member(m, "second rail", 2, 5, p.rail_width, p.rail_depth, 3)};
  const model::Member& first = m.members[m.parts.parts[2].members[0]];
  model::Member& member = m.members.back();
  member.start_offset = first.start_offset;
  member.end_offset = first.end_offset;
  member.start_springs = first.start_springs;
  member.end_springs = first.end_springs;
  m.parts.parts.push_back(part);
  for (const std::size_t i : {0U, 1U}) {
    model::RailEnd end = m.parts.rail_ends[i];
    end.name = i == 1 ? "second rail, right end" : "second rail, left end";
    end.rail = 3;
    end.member = part.members[0];
    m.parts.rail_ends.push_back(end);
  }
}

/// A force (N, global) in the middle of the rail, as one combination for strength.
inline void add_force(model::Model& m, double fx, double fy, double fz,
                      model::Leading leading = model::Leading::stand,
                      reference::Duration duration = reference::Duration::short_term) {
  model::LoadCase load{.name = "load"};
  const std::size_t rail = m.parts.parts[2].members[0];
  load.point_loads.push_back({rail,
                              0.5 * model::member_frame(m, m.members[rail]).length,
                              {newtons(fx), newtons(fy), newtons(fz)},
                              {}});
  model::Combination c;
  c.name = "c" + std::to_string(m.combinations.size());
  c.title = "somebody stands on it";
  c.purpose = model::Purpose::strength;
  c.leading = leading;
  c.duration = duration;
  c.terms = {{m.cases.size(), 1.0}};
  if (leading == model::Leading::shove || leading == model::Leading::strong_shove) {
    c.place = m.parts.shoves.size();
    m.parts.shoves.push_back(
        {"shove", std::abs(fx) >= std::abs(fy) ? model::ShoveWay::along : model::ShoveWay::across,
         m.cases.size(), m.cases.size()});
  }
  m.cases.push_back(load);
  m.combinations.push_back(c);
}

/// A solved model that keeps its Answers alive.
struct Solved {
  model::Model model;
  solve::Response response;
  [[nodiscard]] check::Answers answers() const { return {model, response}; }
};

inline Solved solve(const Built& built) {
  auto response = solve::static_response(built.model);
  if (!response) throw std::runtime_error(response.error().what);
  return {built.model, *std::move(response)};
}

using Check = std::vector<check::Finding> (*)(const check::Answers&, const check::SectionForces&,
                                              const reference::Tables&);

/// By the rules that the bench asks for.
inline std::vector<check::Finding> run(Check check, const Built& built) {
  const Solved solved = solve(built);
  const check::SectionForces forces(solved.answers(), built.model.parts.bench.rules);
  return check(solved.answers(), forces, tables());
}

inline check::Finding find(const std::vector<check::Finding>& findings, const std::string& id) {
  for (const check::Finding& f : findings) {
    if (f.id == id) return f;
  }
  FAIL("no finding " << id);
  return {};
}

}  // namespace portal
