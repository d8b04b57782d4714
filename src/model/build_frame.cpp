#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "model/idealising.hpp"
#include "standtrue/bench/ledger.hpp"
#include "standtrue/contract.hpp"

namespace standtrue::model {

using quantity::in_si;
using quantity::metres;

namespace {

Part part_of(const std::string& name, Role role, const bench::Stock& stock, double width,
             double depth, double span, std::size_t source) {
  Part part;
  part.name = name;
  part.role = role;
  part.timber = stock.timber;
  part.width = metres(width);
  part.depth = metres(depth);
  part.span = metres(span);
  part.source = source;
  return part;
}

Point shift(double x, double y, double z) { return {metres(x), metres(y), metres(z)}; }

double at(const Point& p, bool x) { return in_si(x ? p.x : p.y); }

EndSprings springs_of(const JointStiffness& k, bool released) {
  EndSprings springs;
  springs[0] = EndSpring::elastic(k.along);
  springs[1] = EndSpring::elastic(k.across);
  springs[2] = EndSpring::elastic(k.upright);
  springs[3] = EndSpring::elastic(k.twist);
  springs[4] = released || k.bend_sway == 0.0 ? EndSpring::free_end()
                                              : EndSpring::elastic(k.bend_gravity, k.bend_sway);
  springs[5] = k.sideways == 0.0 ? EndSpring::free_end() : EndSpring::elastic(k.sideways);
  return springs;
}

/// A row of members along a line from one node to another, its inner nodes made on the way.
struct Span {
  Line& line;
  const std::string& name;
  NodeId from_node, to_node;
  Elastic elastic;
  Section section;
  EndSprings start, end;
};

std::vector<std::size_t> add_row(Idealising& work, Span span) {
  Line& line = span.line;
  for (auto& [place, node] : line.nodes) {
    node = work.add_node(fmt::format("{}-{:.0f}", slug(span.name), 1e3 * place),
                         line.along_x ? place : line.across, line.along_x ? line.across : place,
                         line.height);
  }
  const auto offset_from = [&](NodeId node, double place) {
    const Point& p = work.model.nodes[node].at;
    const double along = place - at(p, line.along_x);
    const double aside = line.across - at(p, !line.along_x);
    const double up = line.height - in_si(p.z);
    return line.along_x ? shift(along, aside, up) : shift(aside, along, up);
  };
  std::vector<std::size_t> members;
  NodeId previous = span.from_node;
  for (std::size_t i = 0; i <= line.nodes.size(); ++i) {
    const bool last = i == line.nodes.size();
    Member member;
    member.name =
        line.nodes.empty() ? slug(span.name) : fmt::format("{}-{}", slug(span.name), i + 1);
    member.start = previous;
    member.end = last ? span.to_node : line.nodes[i].second;
    member.elastic = span.elastic;
    member.section = span.section;
    member.part = line.part;
    if (i == 0) {
      member.start_offset = offset_from(span.from_node, line.from);
      member.start_springs = span.start;
    }
    if (last) {
      member.end_offset = offset_from(span.to_node, line.to);
      member.end_springs = span.end;
    }
    previous = member.end;
    members.push_back(work.model.members.size());
    work.model.members.push_back(std::move(member));
  }
  return members;
}

std::string end_name(const std::string& rail, bool along_x, bool at_end) {
  return fmt::format("{}, {} end", rail,
                     along_x ? (at_end ? "right" : "left") : (at_end ? "back" : "front"));
}

RailEnd rail_end(Idealising& work, const Line& line, const std::string& name, bool at_end,
                 const bench::Joint& joint, PartId onto, const RailEndGeometry& geometry) {
  RailEnd end;
  end.name = end_name(name, line.along_x, at_end);
  end.rail = line.part;
  end.at_end = at_end;
  end.onto = onto;
  end.joint = joint;
  end.stiffness = work.stiffness_of(joint, geometry);
  end.released = work.assumptions.released.count(end.name) > 0;
  return end;
}

/// Registers both ends once the row of members stands.
void keep_ends(Idealising& work, RailEnd start, RailEnd end, const std::vector<std::size_t>& row) {
  start.member = row.front();
  end.member = row.back();
  work.model.parts.rail_ends.push_back(std::move(start));
  work.model.parts.rail_ends.push_back(std::move(end));
}

void build_rail(Idealising& work, std::size_t r) {
  const bench::Rail& rail = work.bench.rails[r];
  Line& line = work.rails[r];
  line.part = work.model.parts.parts.size();
  Part part =
      part_of(rail.name, Role::rail, rail.stock, line.width, line.depth, line.to - line.from, r);
  const bench::Post& from = work.bench.posts[rail.from];
  const bench::Post& to = work.bench.posts[rail.to];
  const auto side = [&](const bench::Post& post) {
    return rail.along_x ? post.along_x : post.along_y;
  };
  if (rail.seat == bench::Seat::on_top || rail.seat == bench::Seat::notched)
    part.bearing = side(from);
  const auto geometry = [&](const bench::Post& post) {
    return RailEndGeometry{rail.stock.timber, post.stock.timber, rail.width, rail.depth,
                           side(post)};
  };
  const Line& from_post = work.posts[rail.from];
  const Line& to_post = work.posts[rail.to];
  RailEnd start =
      rail_end(work, line, rail.name, false, rail.start, from_post.part, geometry(from));
  RailEnd end = rail_end(work, line, rail.name, true, rail.end, to_post.part, geometry(to));
  part.members = add_row(
      work, {line, rail.name, node_at(from_post, line.height), node_at(to_post, line.height),
             work.elastic(rail.stock, rail.name), rectangle(rail.width, rail.depth),
             springs_of(start.stiffness, start.released), springs_of(end.stiffness, end.released)});
  keep_ends(work, std::move(start), std::move(end), part.members);
  work.model.parts.parts.push_back(std::move(part));
}

void build_bearer(Idealising& work, std::size_t b) {
  const bench::Bearer& bearer = work.bench.bearers[b];
  Line& line = work.bearers[b];
  line.part = work.model.parts.parts.size();
  Part part = part_of(bearer.name, Role::bearer, bearer.stock, line.width, line.depth,
                      line.to - line.from, b);
  const auto geometry = [&](std::size_t rail) {
    const bench::Rail& r = work.bench.rails[rail];
    return RailEndGeometry{bearer.stock.timber, r.stock.timber, bearer.width, bearer.depth,
                           r.width};
  };
  RailEnd start = rail_end(work, line, bearer.name, false, bearer.start,
                           work.rails[bearer.from].part, geometry(bearer.from));
  RailEnd end = rail_end(work, line, bearer.name, true, bearer.end, work.rails[bearer.to].part,
                         geometry(bearer.to));
  part.members = add_row(
      work, {line, bearer.name, node_at(work.rails[bearer.from], in_si(bearer.at)),
             node_at(work.rails[bearer.to], in_si(bearer.at)),
             work.elastic(bearer.stock, bearer.name), rectangle(bearer.width, bearer.depth),
             springs_of(start.stiffness, start.released), springs_of(end.stiffness, end.released)});
  keep_ends(work, std::move(start), std::move(end), part.members);
  work.model.parts.parts.push_back(std::move(part));
}

/// What a ledger spans: the widest gap between its screws, or twice what runs past the last.
double span_of_ledger(const bench::Bench& bench, const bench::Rail& rail) {
  std::vector<double> screws;
  for (const bench::WallFixing& fixing : bench.wall) {
    if (fixing.rail == rail.name) screws.push_back(in_si(fixing.at));
  }
  const double length = in_si(bench::ledger_length(bench, rail));
  if (screws.empty()) return length;
  std::sort(screws.begin(), screws.end());
  double span = 2.0 * std::max(screws.front(), length - screws.back());
  for (std::size_t i = 0; i + 1 < screws.size(); ++i) {
    span = std::max(span, screws[i + 1] - screws[i]);
  }
  return span;
}

/// A ledger is one piece from end to end, and its ends are free.
std::vector<std::size_t> add_ledger(Idealising& work, Line& line, const bench::Rail& rail) {
  const auto end_at = [&](double place) {
    return work.add_node(fmt::format("{}-{:.0f}", slug(rail.name), 1e3 * place), place, line.across,
                         line.height);
  };
  const NodeId left = end_at(line.from);
  const NodeId right = end_at(line.to);
  return add_row(work, {line,
                        rail.name,
                        left,
                        right,
                        work.elastic(rail.stock, rail.name),
                        rectangle(rail.width, rail.depth),
                        {},
                        {}});
}

/// Heights at which something meets a post.
std::vector<double> heights_on(const Idealising& work, std::size_t p) {
  const bench::Post& post = work.bench.posts[p];
  std::vector<double> heights{in_si(post.bottom), in_si(post.top)};
  for (const bench::Rail& rail : work.bench.rails) {
    if (rail.from == p || rail.to == p) {
      heights.push_back(std::min(in_si(rail.height), in_si(post.top)));
    }
  }
  for (const bench::Brace& brace : work.bench.braces) {
    if (brace.post == p) heights.push_back(in_si(brace.post_height));
    if (brace.to_post == p) heights.push_back(in_si(brace.to_at));
  }
  // Where a plate meets a joint to the millimetre the joint's own place is kept.
  for (const double wanted :
       p < work.post_heights.size() ? work.post_heights[p] : std::vector<double>{}) {
    const bool is_new = std::none_of(heights.begin(), heights.end(),
                                     [&](double h) { return std::abs(h - wanted) <= 1e-3; });
    if (is_new) heights.push_back(wanted);
  }
  std::sort(heights.begin(), heights.end());
  std::vector<double> apart;
  for (const double h : heights) {
    if (apart.empty() || h - apart.back() > 1e-3) apart.push_back(h);
  }
  return apart;
}

}  // namespace

void build_posts(Idealising& work) {
  for (std::size_t p = 0; p < work.bench.posts.size(); ++p) {
    const bench::Post& post = work.bench.posts[p];
    Line line;
    if (post.on_wall) {  // its node is the ledger's
      work.posts.push_back(std::move(line));
      continue;
    }
    const std::vector<double> heights = heights_on(work, p);
    line.from = heights.front();
    line.to = heights.back();
    line.part = work.model.parts.parts.size();
    const double rise = line.to - line.from;
    for (const double h : heights) {
      const double up = (h - line.from) / rise;
      const double x = in_si(post.foot_x) + up * in_si(post.x - post.foot_x);
      const double y = in_si(post.foot_y) + up * in_si(post.y - post.foot_y);
      line.nodes.emplace_back(
          h, work.add_node(fmt::format("{}-{:.0f}", slug(post.name), 1e3 * h), x, y, h));
    }
    Part part = part_of(post.name, Role::post, post.stock, in_si(post.along_y), in_si(post.along_x),
                        rise, p);
    for (std::size_t i = 0; i + 1 < line.nodes.size(); ++i) {
      Member member;
      member.name = fmt::format("{}-{}", slug(post.name), i + 1);
      member.start = line.nodes[i].second;
      member.end = line.nodes[i + 1].second;
      member.depth = Direction{1.0, 0.0, 0.0};
      member.elastic = work.elastic(post.stock, post.name);
      member.section = rectangle(post.along_y, post.along_x);
      member.part = line.part;
      part.members.push_back(work.model.members.size());
      work.model.members.push_back(std::move(member));
    }
    work.posts.push_back(std::move(line));
    work.model.parts.parts.push_back(std::move(part));
  }
}

void build_ledgers(Idealising& work) {
  for (std::size_t r = 0; r < work.bench.rails.size(); ++r) {
    const bench::Rail& rail = work.bench.rails[r];
    if (!rail.on_wall) continue;
    Line& line = work.rails[r];
    line.part = work.model.parts.parts.size();
    Part part = part_of(rail.name, Role::rail, rail.stock, line.width, line.depth,
                        span_of_ledger(work.bench, rail), r);
    part.members = add_ledger(work, line, rail);
    work.model.parts.parts.push_back(std::move(part));
    for (std::size_t p = 0; p < work.bench.posts.size(); ++p) {
      if (!work.bench.posts[p].on_wall) continue;
      work.posts[p].part = line.part;
      work.posts[p].from = work.posts[p].to = line.height;
      work.posts[p].nodes = {{line.height, node_at(line, station_place(work, p))}};
    }
  }
}

void build_rails(Idealising& work) {
  for (std::size_t r = 0; r < work.bench.rails.size(); ++r) {
    const bench::Rail& rail = work.bench.rails[r];
    if (rail.on_wall) continue;
    for (const bench::Brace& brace : work.bench.braces) {
      if (brace.to_rail != r) continue;
      const bench::Post& post = work.bench.posts[rail.from];
      want_node(work.rails[r], in_si(rail.along_x ? post.x : post.y) + in_si(brace.to_at));
    }
    build_rail(work, r);
  }
  for (std::size_t b = 0; b < work.bench.bearers.size(); ++b) build_bearer(work, b);
}

void build_braces(Idealising& work) {
  for (std::size_t b = 0; b < work.bench.braces.size(); ++b) {
    const bench::Brace& brace = work.bench.braces[b];
    Member member;
    member.name = slug(brace.name);
    member.start = node_at(work.posts[brace.post], in_si(brace.post_height));
    if (brace.to_post) {
      member.end = node_at(work.posts[*brace.to_post], in_si(brace.to_at));
    } else {
      expects(brace.to_rail.has_value(), "build_braces: a brace that leads nowhere");
      const bench::Rail& rail = work.bench.rails[*brace.to_rail];
      const bench::Post& post = work.bench.posts[rail.from];
      member.end = node_at(work.rails[*brace.to_rail],
                           in_si(rail.along_x ? post.x : post.y) + in_si(brace.to_at));
    }
    member.elastic = work.elastic(brace.stock, brace.name);
    member.section = rectangle(brace.stock.thickness, brace.stock.depth);
    for (const std::size_t turn : {std::size_t{4}, std::size_t{5}}) {
      member.start_springs[turn] = member.end_springs[turn] = EndSpring::free_end();
    }
    member.start_springs[3] = EndSpring::free_end();
    const bench::Stock& onto = work.bench.posts[brace.post].stock;
    const JointStiffness slip = work.stiffness_of(
        {brace.joint, {.along = brace.slip}, {}, {}, brace.joint.place},
        {brace.stock.timber, onto.timber, brace.stock.thickness, brace.stock.depth, onto.depth});
    if (slip.along > 0.0) {
      member.start_springs[0] = member.end_springs[0] = EndSpring::elastic(slip.along);
    }
    member.part = work.model.parts.parts.size();
    const double length = in_si(member_frame(work.model, member).length);
    Part part = part_of(brace.name, Role::brace, brace.stock, in_si(brace.stock.thickness),
                        in_si(brace.stock.depth), length, b);
    part.members = {work.model.members.size()};
    const std::size_t brace_part = work.model.parts.parts.size(), brace_member = part.members[0];
    work.model.members.push_back(std::move(member));
    work.model.parts.parts.push_back(std::move(part));
    const PartId top =
        brace.to_post ? work.posts[*brace.to_post].part : work.rails[*brace.to_rail].part;
    work.model.parts.brace_ends.push_back(
        {brace.name + ", lower end", brace_part, brace_member, false, work.posts[brace.post].part});
    work.model.parts.brace_ends.push_back(
        {brace.name + ", upper end", brace_part, brace_member, true, top});
  }
}

}  // namespace standtrue::model
