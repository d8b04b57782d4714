// All numbers SI (m, N, Pa, rad).
#include <algorithm>

#include "solve/prepared.hpp"

namespace standtrue::solve {

using quantity::in_si;

namespace {

/// Everything on one member in local axes, with the loading's factors applied.
struct Point {
  double at;
  Eigen::Vector3d force, moment;
};
struct Line {
  double from, to;
  Eigen::Vector3d at_from, at_to;
};
struct Loads {
  std::vector<Point> points;
  std::vector<Line> lines;
};

Loads loads_on_member(const Prepared::Inside& in, model::MemberId member, const Loading& loading) {
  Loads loads;
  const MemberKernel& kernel = in.kernels[member];
  for (const model::Factored& term : loading.terms) {
    const model::LoadCase& load_case = in.model.cases[term.load_case];
    for (const model::MemberPointLoad& p : load_case.point_loads) {
      if (p.member != member) continue;
      loads.points.push_back({in_si(p.at), term.factor * (kernel.R * vector_of(p.force)),
                              term.factor * (kernel.R * vector_of(p.moment))});
    }
    for (const model::MemberLineLoad& q : load_case.line_loads) {
      if (q.member != member) continue;
      loads.lines.push_back({in_si(q.from), in_si(q.to),
                             term.factor * (kernel.R * vector_of(q.at_from)),
                             term.factor * (kernel.R * vector_of(q.at_to))});
    }
    if (load_case.self_weight) {
      const model::Member& m = in.model.members[member];
      const double weight =
          in_si(m.elastic.density) * in_si(m.section.A) * in_si(quantity::standard_gravity());
      const Eigen::Vector3d q = term.factor * (kernel.R * Eigen::Vector3d(0.0, 0.0, -weight));
      loads.lines.push_back({0.0, kernel.element.L, q, q});
    }
  }
  return loads;
}

std::vector<double> break_points(const Loads& loads, double L) {
  std::vector<double> stops{0.0, L};
  for (const Point& p : loads.points) stops.push_back(std::clamp(p.at, 0.0, L));
  for (const Line& q : loads.lines) {
    stops.push_back(std::clamp(q.from, 0.0, L));
    stops.push_back(std::clamp(q.to, 0.0, L));
  }
  std::sort(stops.begin(), stops.end());
  const double same = 1e-12 * L;
  stops.erase(
      std::unique(stops.begin(), stops.end(), [same](double a, double b) { return b - a <= same; }),
      stops.end());
  stops.back() = L;
  return stops;
}

/// What lies on one piece between stops, and what has come before it.
struct OnPiece {
  Eigen::Vector3d line = Eigen::Vector3d::Zero();    ///< line load at its start
  Eigen::Vector3d slope = Eigen::Vector3d::Zero();   ///< of the line load
  Eigen::Vector3d force = Eigen::Vector3d::Zero();   ///< point forces to its left
  Eigen::Vector3d moment = Eigen::Vector3d::Zero();  ///< point moments to its left
};

/// A point load at the very start is in from the first piece; one at the very end never is.
OnPiece on_piece(const Loads& loads, double from, double to) {
  OnPiece on;
  const double middle = 0.5 * (from + to);
  for (const Line& q : loads.lines) {
    if (middle < q.from || middle > q.to) continue;
    const Eigen::Vector3d slope = (q.at_to - q.at_from) / (q.to - q.from);
    on.line += q.at_from + slope * (from - q.from);
    on.slope += slope;
  }
  for (const Point& p : loads.points) {
    if (!(p.at < middle)) continue;
    on.force += p.force;
    on.moment += p.moment;
  }
  return on;
}

/// u, v and w from the internal forces, which must be those of the loads alone between the ends.
void add_movements(const Prepared::Inside& in, model::MemberId member, const Loading& loading,
                   const State& state, MemberDiagrams& d) {
  const MemberKernel& kernel = in.kernels.at(member);
  const BeamElement& e = kernel.element;
  Vector12 f = Vector12::Zero();
  for (const model::Factored& term : loading.terms) {
    for (const MemberLoad& load : in.cases[term.load_case].member_loads) {
      if (load.member == member) f += term.factor * load.f;
    }
  }
  if (!state.askew.empty()) {
    for (std::size_t i = 0; i < 12; ++i) {
      f(static_cast<Eigen::Index>(i)) += state.askew[member].forces[i];
    }
  }
  const Vector12 inner = kernel.inner(in.node_movements(member, state.displacement), f);
  const auto shear = [](const Diagram& V, double GA_s) {
    return V.times(GA_s > 0.0 ? 1.0 / GA_s : 0.0);
  };
  const Diagram theta_y = d.M_y.times(1.0 / e.EI_y).integral(inner(4));
  const Diagram theta_z = d.M_z.times(1.0 / e.EI_z).integral(inner(5));
  d.u = d.N.times(1.0 / e.EA).integral(inner(0));
  d.w = shear(d.V_z, e.GA_sz).plus(theta_y, -1.0).integral(inner(2));
  d.v = shear(d.V_y, e.GA_sy).plus(theta_z, 1.0).integral(inner(1));
}

/// By statics from what pushes the ends, as if the member were straight.
MemberDiagrams straight_forces(const Prepared::Inside& in, model::MemberId member,
                               const Loading& loading, const std::array<double, 12>& end) {
  const Loads loads = loads_on_member(in, member, loading);
  const std::vector<double> stops = break_points(loads, in.kernels.at(member).element.L);
  MemberDiagrams d;
  // What crosses a cut is what pushes the start, turned round, less the loads between.
  Eigen::Vector3d spread = Eigen::Vector3d::Zero();  // line loads to the left
  double M_y = -end[4], M_z = -end[5];               // what V has made of them to the left
  for (std::size_t i = 0; i + 1 < stops.size(); ++i) {
    const double from = stops[i], to = stops[i + 1], l = to - from;
    const OnPiece on = on_piece(loads, from, to);
    const auto force = [&](Eigen::Index k) {
      return Diagram::Piece{from,
                            to,
                            {-spread(k) - on.force(k) - end[static_cast<std::size_t>(k)],
                             -on.line(k), -0.5 * on.slope(k)}};
    };
    // M' = by V, and the steps.
    const auto moment = [&](const Diagram::Piece& V, double by, double& M, double steps) {
      Diagram::Piece piece{from, to, {M, by * V.c[0], by * V.c[1] / 2.0, by * V.c[2] / 3.0}};
      M = piece.at(l);
      piece.c[0] -= steps;
      return piece;
    };
    const Diagram::Piece V_y = force(1), V_z = force(2);
    d.N.add(force(0));
    d.V_y.add(V_y);
    d.V_z.add(V_z);
    d.T.add({from, to, {-on.moment(0) - end[3]}});
    d.M_y.add(moment(V_z, 1.0, M_y, on.moment(1)));
    d.M_z.add(moment(V_y, -1.0, M_z, on.moment(2)));
    spread += l * (on.line + 0.5 * l * on.slope);
  }
  return d;
}

/// What pushes the ends, less the push of the axial force on the slope: what bends the member as
/// its shapes have it.
std::array<double, 12> bending_ends(const State& state, model::MemberId member) {
  std::array<double, 12> end = state.end_forces.at(member);
  if (state.askew.empty()) return end;
  for (std::size_t i = 0; i < 12; ++i) end[i] += state.askew[member].forces[i];
  return end;
}

/// Second order: the axial force at its arm from the line of the start, M_y -= N (w - w_0) and
/// M_z += N (v - v_0). `shape` has the axis as it lies between the nodes.
void bow(const State::Askew& askew, const MemberDiagrams& shape, MemberDiagrams& d) {
  const auto arm = [&](const Diagram& moved, double lean) {
    Diagram out;
    const double start = moved.pieces().front().c[0];
    for (Diagram::Piece piece : moved.pieces()) {
      piece.c[0] -= start;
      for (double& c : piece.c) c *= askew.times;
      piece.c[0] += lean * piece.from;
      piece.c[1] += lean;
      out.add(piece);
    }
    return out;
  };
  d.M_y = d.M_y.plus(arm(shape.w, askew.lean_z), -askew.N);
  d.M_z = d.M_z.plus(arm(shape.v, askew.lean_y), askew.N);
}

}  // namespace

MemberDiagrams force_diagrams(const Prepared& prepared, model::MemberId member,
                              const Loading& loading, const State& state) {
  const Prepared::Inside& in = prepared.inside();
  MemberDiagrams d = straight_forces(in, member, loading, state.end_forces.at(member));
  if (state.askew.empty() || state.askew[member].N == 0.0) return d;
  MemberDiagrams shape = straight_forces(in, member, loading, bending_ends(state, member));
  add_movements(in, member, loading, state, shape);
  bow(state.askew[member], shape, d);
  return d;
}

MemberDiagrams diagrams(const Prepared& prepared, model::MemberId member, const Loading& loading,
                        const State& state) {
  const Prepared::Inside& in = prepared.inside();
  MemberDiagrams shape = straight_forces(in, member, loading, bending_ends(state, member));
  add_movements(in, member, loading, state, shape);
  if (state.askew.empty()) return shape;
  MemberDiagrams d = force_diagrams(prepared, member, loading, state);
  d.u = shape.u;
  d.v = shape.v;
  d.w = shape.w;
  return d;
}

}  // namespace standtrue::solve
