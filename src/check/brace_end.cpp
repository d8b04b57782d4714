#include "check/brace_end.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "check/fastener_units.hpp"
#include "check/words.hpp"
#include "standtrue/contract.hpp"

namespace standtrue::check {

using quantity::in_si;
using reference::Fastening;

namespace {

using Triple = std::array<double, 3>;

Triple triple(const model::Direction& d) { return {d.x, d.y, d.z}; }
Triple place(const model::Point& p) { return {in_si(p.x), in_si(p.y), in_si(p.z)}; }
Triple difference(const Triple& a, const Triple& b) {
  return {a[0] - b[0], a[1] - b[1], a[2] - b[2]};
}
double dot(const Triple& a, const Triple& b) { return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]; }
Triple cross(const Triple& a, const Triple& b) {
  return {a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]};
}

}  // namespace

Meeting meeting_of(const model::Model& model, const model::BraceEnd& end) {
  const model::Parts& parts = model.parts;
  const model::Member& brace = model.members[end.member];
  Meeting m;
  m.brace = &parts.parts[end.brace];
  m.onto = &parts.parts[end.onto];
  const model::Member& first = model.members[m.onto->members.front()];
  const model::Member& last = model.members[m.onto->members.back()];
  const model::MemberFrame piece = model::member_frame(model, first);
  // From this end into the brace: the way in which its pull draws the piece.
  Triple along = triple(model::member_frame(model, brace).axes[0]);
  if (end.at_end) along = {-along[0], -along[1], -along[2]};
  const Triple grain = triple(piece.axes[0]);
  const double c = dot(along, grain);
  m.angle = std::acos(std::min(1.0, std::abs(c)));
  // A bolt is square to both; that side of the piece it passes which lies nearest to it.
  const Triple bolt = cross(along, grain);
  const bool through_width =
      std::abs(dot(bolt, triple(piece.axes[1]))) >= std::abs(dot(bolt, triple(piece.axes[2])));
  m.through = through_width ? m.onto->width : m.onto->depth;
  m.across = through_width ? m.onto->depth : m.onto->width;
  const auto end_of = [&](std::size_t node, const model::Point& offset) {
    const Triple n = place(model.nodes[node].at), o = place(offset);
    return Triple{n[0] + o[0], n[1] + o[1], n[2] + o[2]};
  };
  const Triple here = place(model.nodes[end.at_end ? brace.end : brace.start].at);
  const double to_start = dot(difference(here, end_of(first.start, first.start_offset)), grain);
  const double to_end = dot(difference(end_of(last.end, last.end_offset), here), grain);
  m.to_pulled_end = quantity::metres(c > 0.0 ? to_end : to_start);
  m.to_pushed_end = quantity::metres(c > 0.0 ? to_start : to_end);
  return m;
}

namespace {

/// The fastener, whatever it is.
struct Driven {
  std::string name;  ///< "bolts M8"
  Length d;
  TwoTimbers pair;
  Lateral one;
  reference::SpacingRule rule;
  bool is_bolt = false;
  bool predrilled = false;
};

OrWhy<Driven> bolts_of(const Meeting& m, const reference::JointKind& kind,
                       const reference::Tables& tables) {
  const reference::Bolt* bolt = tables.bolt(kind.fastener_diameter);
  const reference::Steel* steel = tables.steel(kind.bolt_steel);
  if (bolt == nullptr || steel == nullptr) {
    return tl::unexpected(std::string("the bolts or their steel are not known"));
  }
  const Length d = bolt->diameter;
  const TwoTimbers pair{embedment_bolt(d, m.brace->timber, 0.0, tables),
                        embedment_bolt(d, m.onto->timber, m.angle, tables),
                        m.brace->width,
                        m.through,
                        d,
                        yield_moment(steel->f_u, d, tables),
                        Force{},
                        tables.constant("rope limit bolts").value};
  return Driven{"bolts " + bolt->key,         d,    pair, timber_to_timber(pair, tables),
                tables.spacing_rule("bolts"), true, false};
}

OrWhy<Driven> driven_screws(const Meeting& m, const reference::JointKind& kind,
                            const reference::Tables& tables) {
  const reference::Screw* screw = tables.screw(kind.fastener_diameter);
  if (screw == nullptr) return tl::unexpected(std::string("the screws are not known"));
  const Length d = screw->diameter, in_wood = kind.fastener_length - m.brace->width;
  const Length least = tables.constant("penetration lateral").value * d;
  if (in_wood < least) {
    return tl::unexpected(fmt::format("the screws reach {} into the {}, {} are needed",
                                      shown(in_wood), m.onto->name, shown(least)));
  }
  if (in_wood >= m.through) {
    return tl::unexpected(fmt::format("the screws come out at the back of the {}", m.onto->name));
  }
  // Holes are drilled: near the end of a thin brace nothing else keeps it from splitting.
  constexpr bool predrilled = true;
  const Length thread = thread_length(*screw, kind.fastener_length);
  const Length d_ef =
      effective_diameter(*screw, kind.fastener_length - thread - m.brace->width, tables);
  const OrWhy<Withdrawal> pulled =
      withdrawal(*screw, std::min(thread, in_wood) - d, m.onto->timber.rho_k, right_angle, tables);
  const Force F_ax =
      pulled ? std::min(pulled->F, head_pull_through(*screw, m.brace->timber.rho_k, tables))
             : Force{};
  const TwoTimbers pair{embedment_screw(d_ef, m.brace->timber, predrilled, 0.0, tables),
                        embedment_screw(d_ef, m.onto->timber, predrilled, m.angle, tables),
                        m.brace->width,
                        in_wood,
                        d_ef,
                        screw->M_y_k,
                        F_ax,
                        tables.constant("rope limit screws").value};
  return Driven{"screws " + screw->key,
                d,
                pair,
                timber_to_timber(pair, tables),
                screw_rule(d, m.onto->timber.rho_k, predrilled, tables),
                false,
                predrilled};
}

/// How many of them find room in the piece, in a line along the brace.
struct Row {
  int n = 0;
  Length pitch, half;  ///< half of the row's length, square to the grain of the piece
};
Row row_of(const Meeting& m, const Driven& driven, int wanted, const reference::Tables& tables) {
  const Spacings in_brace = least_spacings(driven.rule, driven.d, 0.0, Plate::none, tables);
  const Spacings in_piece = least_spacings(driven.rule, driven.d, m.angle, Plate::none, tables);
  Row row;
  row.pitch = in_brace.a_1;
  if (m.brace->depth / 2.0 < in_brace.a_4c) return row;
  for (row.n = wanted; row.n > 0; --row.n) {
    row.half = 0.5 * (row.n - 1) * row.pitch * std::sin(m.angle);
    if (m.across / 2.0 - row.half >= in_piece.a_4t) break;
  }
  return row;
}

/// One way: what the wood before the row stands, if there is enough of it.
Way way_of(const Meeting& m, const Driven& driven, const Row& row, Length to_loaded_end,
           Length to_other_end, const reference::Tables& tables) {
  const Spacings in_piece = least_spacings(driven.rule, driven.d, m.angle, Plate::none, tables);
  const Length along = 0.5 * (row.n - 1) * row.pitch * std::cos(m.angle);
  Way way;
  const bool loaded_is_short = to_loaded_end - along < in_piece.a_3t;
  if (loaded_is_short || to_other_end - along < in_piece.a_3c) {
    way.why = fmt::format("the {} are {} from the end of the {}, {} are needed", driven.name,
                          shown((loaded_is_short ? to_loaded_end : to_other_end) - along),
                          m.onto->name, shown(loaded_is_short ? in_piece.a_3t : in_piece.a_3c));
    return way;
  }
  const double n_ef = driven.is_bolt
                          ? effective_bolts(row.n, row.pitch, driven.d, tables)
                          : effective_in_row(row.n, row.pitch, driven.d, driven.predrilled, tables);
  way.modes.push_back({driven.name, n_ef * driven.one.F, 0.0});
  const double s = std::sin(m.angle);
  // The part of the force that lies across the grain splits the piece.
  if (s > 1e-6) {
    const Force F_90 = splitting_resistance(m.through, m.across / 2.0 + row.half, m.across, tables);
    way.modes.push_back({fmt::format("splitting of the {}", m.onto->name), F_90 / s, 0.0});
  }
  return way;
}

void tear_brace(BraceEndStrength& strength, const Meeting& m, Length hole,
                const reference::Tables& tables) {
  const reference::MaterialFactors& factors = tables.material(m.brace->timber.material);
  const Length left = m.brace->depth - hole;
  const Force R_k = size_factor(m.brace->depth, m.brace->timber, tables) * m.brace->timber.f_t_0_k *
                    (m.brace->width * left);
  strength.pulled.modes.push_back({"the brace torn through its hole", R_k, factors.gamma_M.value});
}

BraceEndStrength driven_through(const Meeting& m, const reference::JointKind& kind,
                                const reference::Tables& tables) {
  BraceEndStrength strength;
  const OrWhy<Driven> driven = kind.fastening == Fastening::bolts ? bolts_of(m, kind, tables)
                                                                  : driven_screws(m, kind, tables);
  if (!driven) {
    strength.pulled.why = strength.pushed.why = driven.error();
    return strength;
  }
  const Row row = row_of(m, *driven, kind.fasteners, tables);
  if (row.n == 0) {
    strength.pulled.why = strength.pushed.why =
        fmt::format("no room for {} between the edges", driven->name);
    strength.advice = "a wider brace or a wider face under it, or thinner bolts";
    return strength;
  }
  strength.pulled = way_of(m, *driven, row, m.to_pulled_end, m.to_pushed_end, tables);
  strength.pushed = way_of(m, *driven, row, m.to_pushed_end, m.to_pulled_end, tables);
  if (strength.pulled.why.empty()) {
    // A bolt's hole is a millimetre wider, EN 1995-1-1, 10.4.3(1).
    const Length hole = driven->d + quantity::metres(driven->is_bolt ? 1e-3 : 0.0);
    tear_brace(strength, m, hole, tables);
  } else {
    strength.advice = fmt::format("fasten it farther from the end of the {}", m.onto->name);
  }
  if (!strength.pushed.why.empty()) {
    strength.advice = fmt::format("fasten it farther from the end of the {}", m.onto->name);
  }
  const Spacings in_brace = least_spacings(driven->rule, driven->d, 0.0, Plate::none, tables);
  strength.working.push_back(fmt::format(
      "{} of {} {} in line, {} apart{}, the brace running on {} past the last: {:.0f} degrees to "
      "the grain of the {}, mode {}: F_v,Rk = {} each",
      row.n, kind.fasteners, driven->name, shown(row.pitch),
      driven->predrilled ? ", holes pre-drilled" : "", shown(in_brace.a_3t),
      m.angle * 180.0 / 3.14159265358979323846, m.onto->name, driven->one.mode,
      shown(driven->one.F)));
  const TwoTimbers& pair = driven->pair;
  strength.working.push_back(fmt::format(
      "f_h,1 = {}, t_1 = {} (brace), f_h,2 = {}, t_2 = {} ({}), d = {}, M_y,Rk = {}, rope {}",
      shown(pair.f_h_1), shown(pair.t_1), shown(pair.f_h_2), shown(pair.t_2), m.onto->name,
      shown(pair.d), shown(pair.M_y), shown(driven->one.rope)));
  for (const Mode& mode : strength.pulled.modes) {
    strength.working.push_back(fmt::format("pulled, {}: R_k = {}", mode.name, shown(mode.R_k)));
  }
  return strength;
}

/// Cut to stand against the piece: pressed at an angle to its grain, never pulled.
BraceEndStrength standing_against(const Meeting& m, const reference::Tables& tables) {
  BraceEndStrength strength;
  const double k_c_90 = tables.bearing_factor("other").k_c_90;
  const Stress f =
      compression_at_angle(m.onto->timber.f_c_0_k, m.onto->timber.f_c_90_k, k_c_90, m.angle);
  const reference::MaterialFactors& factors = tables.material(m.onto->timber.material);
  strength.pushed.modes.push_back(
      {fmt::format("pressure on the {}", m.onto->name),
       std::min(f, m.brace->timber.f_c_0_k) * (m.brace->width * m.brace->depth),
       factors.gamma_M.value});
  strength.pulled.why = "nothing holds such an end when it is pulled";
  strength.advice = "two bolts through each end of the brace";
  strength.working.push_back(
      fmt::format("f_c,alpha,k = {} at {:.0f} degrees to the grain of the {}", shown(f),
                  m.angle * 180.0 / 3.14159265358979323846, m.onto->name));
  return strength;
}

}  // namespace

BraceEndStrength brace_end_strength(const model::Model& model, const model::BraceEnd& end,
                                    const reference::Tables& tables) {
  const Meeting m = meeting_of(model, end);
  const bench::Brace& brace = model.parts.bench.braces.at(m.brace->source);
  BraceEndStrength strength;
  if (brace.resistance) {
    const std::vector<Mode> given = {{"the resistance given by the file", *brace.resistance, 0.0}};
    strength.pulled.modes = strength.pushed.modes = given;
    return strength;
  }
  switch (brace.joint.fastening) {
    case Fastening::bolts:
    case Fastening::lap_screws:
      return driven_through(m, brace.joint, tables);
    case Fastening::end_grain_screws:
    case Fastening::pocket_screws:
    case Fastening::tenon:
      return standing_against(m, tables);
    default:
      strength.pulled.why = strength.pushed.why =
          "only bolts and screws through the brace, and ends that press, are looked at";
      strength.advice = "two bolts through each end of the brace, or write its resistance";
      return strength;
  }
}

}  // namespace standtrue::check
