// All numbers SI (m).
#include "check/sag_line.hpp"

#include <algorithm>
#include <cmath>

#include "check/answered.hpp"
#include "standtrue/contract.hpp"

namespace standtrue::check {

using quantity::in_si;

namespace {

/// Upright component of the movement of a member's axis, downwards.
solve::Diagram downwards(const solve::MemberDiagrams& d, const model::MemberFrame& frame) {
  return d.w.times(-frame.axes[2].z).plus(d.v, -frame.axes[1].z).plus(d.u, -frame.axes[0].z);
}

double down_at_node(const solve::State& state, model::NodeId node) {
  return -state.at(node, model::Freedom::z);
}

model::NodeId top_of(const model::Model& model, std::size_t post) {
  std::optional<model::NodeId> top;
  for (const model::Part& part : model.parts.parts) {
    if (part.role != model::Role::post || part.source != post) continue;
    for (const std::size_t m : part.members) {
      for (const model::NodeId node : {model.members[m].start, model.members[m].end}) {
        if (!top || model.nodes[node].at.z > model.nodes[*top].at.z) top = node;
      }
    }
  }
  expects(top.has_value(), "top_of: the model has no such post");
  return *top;
}

/// Where a rail ends on a ledger: the node there.
model::NodeId far_end_of(const model::Model& model, const model::Part& rail) {
  return model.members[rail.members.back()].end;
}

/// The line through two plan places, by the projection on the way from one to the other.
Reference line_through(std::array<double, 2> a, double at_a, std::array<double, 2> b, double at_b) {
  const double dx = b[0] - a[0], dy = b[1] - a[1];
  const double square = dx * dx + dy * dy;
  return [=](double x, double y) {
    const double t = square > 0.0 ? ((x - a[0]) * dx + (y - a[1]) * dy) / square : 0.0;
    return at_a + t * (at_b - at_a);
  };
}

std::array<double, 2> plan(const model::Point& p) { return {in_si(p.x), in_si(p.y)}; }

}  // namespace

std::vector<Sunk> sunk(const model::Model& model, const solve::Response& response,
                       std::size_t combination, const model::Part& part) {
  std::vector<Sunk> axis;
  double from = 0.0;
  for (const std::size_t m : part.members) {
    const model::Member& member = model.members[m];
    const model::MemberFrame frame = model::member_frame(model, member);
    const model::Point& node = model.nodes[member.start].at;
    const double length = in_si(frame.length);
    const std::array<double, 2> start{in_si(node.x + member.start_offset.x),
                                      in_si(node.y + member.start_offset.y)};
    axis.push_back({from,
                    length,
                    start,
                    {start[0] + length * frame.axes[0].x, start[1] + length * frame.axes[0].y},
                    downwards(solve::diagrams(response, combination, m), frame)});
    from += length;
  }
  return axis;
}

Lowest lowest_below(const std::vector<Sunk>& axis, const Reference& reference) {
  Lowest lowest;
  for (std::size_t i = 0; i < axis.size(); ++i) {
    const Sunk& member = axis[i];
    const double at_start = reference(member.start[0], member.start[1]);
    const double slope = (reference(member.end[0], member.end[1]) - at_start) / member.length;
    solve::Diagram below;
    for (solve::Diagram::Piece piece : member.down.pieces()) {
      piece.c[0] -= at_start + slope * piece.from;
      piece.c[1] -= slope;
      below.add(piece);
    }
    const solve::Diagram::Place greatest = below.extremes().greatest;
    if (i == 0 || greatest.value > lowest.below) {
      lowest = {member.from + greatest.x, greatest.value};
    }
  }
  return lowest;
}

double below_at(const std::vector<Sunk>& axis, const Reference& reference, double at) {
  expects(!axis.empty(), "below_at: a part without members");
  std::size_t i = 0;
  while (i + 1 < axis.size() && at > axis[i].from + axis[i].length) ++i;
  const Sunk& member = axis[i];
  const double x = std::clamp(at - member.from, 0.0, member.length);
  const double t = x / member.length;
  return member.down.at(x) - reference(member.start[0] + t * (member.end[0] - member.start[0]),
                                       member.start[1] + t * (member.end[1] - member.start[1]));
}

Reference between_ends(const std::vector<Sunk>& axis) {
  expects(!axis.empty(), "between_ends: a part without members");
  return line_through(axis.front().start, axis.front().down.at(0.0), axis.back().end,
                      axis.back().down.at(axis.back().length, true));
}

Reference between_post_tops(const model::Model& model, const solve::State& state,
                            const model::Part& rail) {
  const bench::Rail& built = model.parts.bench.rails.at(rail.source);
  const model::NodeId from = top_of(model, built.from);
  const model::NodeId to = model.parts.bench.posts.at(built.to).on_wall ? far_end_of(model, rail)
                                                                        : top_of(model, built.to);
  return line_through(plan(model.nodes[from].at), down_at_node(state, from),
                      plan(model.nodes[to].at), down_at_node(state, to));
}

Reference between_screws(const model::Model& model, const solve::State& state,
                         const model::Part& ledger) {
  std::vector<std::array<double, 2>> screws;  // place along, movement downwards
  for (std::size_t i = 0; i < model.parts.wall.size(); ++i) {
    if (model.parts.bench.wall.at(i).rail != ledger.name) continue;
    const model::NodeId node = model.supports[model.parts.wall[i].z].node;
    screws.push_back({in_si(model.nodes[node].at.x), down_at_node(state, node)});
  }
  std::sort(screws.begin(), screws.end());
  expects(screws.size() >= 2, "between_screws: a ledger hangs on two screws or more");
  return [screws](double x, double) {
    std::size_t i = 0;
    while (i + 2 < screws.size() && x > screws[i + 1][0]) ++i;
    const double t = (x - screws[i][0]) / (screws[i + 1][0] - screws[i][0]);
    return screws[i][1] + t * (screws[i + 1][1] - screws[i][1]);
  };
}

Reference plane_of_post_tops(const model::Model& model, const solve::State& state) {
  const std::vector<std::size_t>& corners = model.parts.top_corners;
  if (corners.empty()) return [](double, double) { return 0.0; };
  const double n = static_cast<double>(corners.size());
  double x_m = 0.0, y_m = 0.0, w_m = 0.0;
  for (const model::NodeId node : corners) {
    x_m += in_si(model.nodes[node].at.x) / n;
    y_m += in_si(model.nodes[node].at.y) / n;
    w_m += down_at_node(state, node) / n;
  }
  double xx = 0.0, xy = 0.0, yy = 0.0, xw = 0.0, yw = 0.0;
  for (const model::NodeId node : corners) {
    const double x = in_si(model.nodes[node].at.x) - x_m;
    const double y = in_si(model.nodes[node].at.y) - y_m;
    const double w = down_at_node(state, node) - w_m;
    xx += x * x;
    xy += x * y;
    yy += y * y;
    xw += x * w;
    yw += y * w;
  }
  const double determinant = xx * yy - xy * xy;
  double slope_x = 0.0, slope_y = 0.0;
  // Corners in a row leave the tilt across that row open: none is then taken.
  constexpr double in_a_row = 1e-9;
  if (determinant > in_a_row * (xx + yy) * (xx + yy)) {
    slope_x = (yy * xw - xy * yw) / determinant;
    slope_y = (xx * yw - xy * xw) / determinant;
  } else if (xx + yy > 0.0) {
    const double along = std::sqrt(xx + yy);
    const double ux = std::sqrt(xx) / along;
    const double uy = (xy < 0.0 ? -1.0 : 1.0) * std::sqrt(yy) / along;
    const double slope = (ux * xw + uy * yw) / (xx + yy);
    slope_x = slope * ux;
    slope_y = slope * uy;
  }
  return [=](double x, double y) { return w_m + slope_x * (x - x_m) + slope_y * (y - y_m); };
}

void judge_sag(Finding& f, double below, double span, double share,
               const reference::Limits& limits) {
  const double asked = span * share, least = in_si(limits.sag_least.value);
  judge_against(f, std::max(0.0, below), std::max(asked, least));
  if (asked < least) f.source = limits.sag_least.source;
}

Reference over_carriers(const model::Strip& strip, const std::vector<Sunk>& axis) {
  const std::size_t way = strip.along_x ? 0 : 1;
  struct Seat {
    double at, down;
  };
  std::vector<Seat> seats;
  for (const quantity::Length& carrier : strip.carriers) {
    const double at = in_si(carrier);
    for (const Sunk& member : axis) {
      const double x = at - member.start[way];
      if (x < -1e-9 || x > member.length + 1e-9) continue;
      seats.push_back({at, member.down.at(std::clamp(x, 0.0, member.length))});
      break;
    }
  }
  expects(seats.size() >= 2, "over_carriers: a strip needs two carriers");
  return [seats, way](double x, double y) {
    const double s = way == 0 ? x : y;
    std::size_t i = 0;
    while (i + 2 < seats.size() && s > seats[i + 1].at) ++i;
    const double t = (s - seats[i].at) / (seats[i + 1].at - seats[i].at);
    return seats[i].down + t * (seats[i + 1].down - seats[i].down);
  };
}

}  // namespace standtrue::check
