#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "model/idealising.hpp"
#include "model/slip.hpp"
#include "standtrue/contract.hpp"

namespace standtrue::model {

using quantity::from_si;
using quantity::in_si;
using quantity::metres;

namespace {

/// Stiff ties stand for contact: a sheet pressed on a rail gives a hundredth of what either bends.
constexpr double sheet_seat = 1e8;       // N/m
constexpr double sheet_seat_turn = 1e4;  // N m/rad, against rolling over

/// Loose or screwed layers bend beside each other; glued ones as one.
double second_moment(const bench::Sheet& sheet, double width, double thickness) {
  const double n = sheet.layers;
  const double one = width * thickness * thickness * thickness / 12.0;
  return sheet.between_layers == bench::Bond::glued ? n * n * n * one : n * one;
}

Section strip_section(const bench::Sheet& sheet, double width) {
  const double t = in_si(sheet.panel.thickness);
  Section section = rectangle(metres(width), metres(t * sheet.layers));
  section.I_y = from_si<SecondMoment>(second_moment(sheet, width, t));
  return section;
}

Elastic strip_elastic(const Idealising& work, const bench::Sheet& sheet, bool grain_along) {
  const double by = work.creep_divisor(sheet.family.material);
  const Stress G_r = grain_along ? sheet.panel.G_r_0 : sheet.panel.G_r_90;
  // Where rolling shear is not known the panel-shear modulus keeps the element whole; such a sheet
  // has no judged shear either.
  const Stress G = in_si(G_r) > 0.0 ? G_r : sheet.panel.G_v;
  return {(grain_along ? sheet.panel.E_m_0 : sheet.panel.E_m_90) / by, G / by, {}};
}

/// A strip's nodes: on its carriers at the very places of their nodes, free ends on its own line.
std::vector<NodeId> strip_nodes(Idealising& work, const PlannedStrip& planned, const Lying& lying,
                                const std::string& name, const std::vector<double>& places,
                                std::size_t first_carrier) {
  const Line& first = lying.carriers.front().line_at(planned.at);
  const double z = in_si(work.model.nodes[node_at(first, planned.at)].at.z);
  std::vector<NodeId> nodes;
  for (std::size_t i = 0; i < places.size(); ++i) {
    double x = lying.along_x ? places[i] : planned.at;
    double y = lying.along_x ? planned.at : places[i];
    double height = z;
    const bool on_carrier = i >= first_carrier && i - first_carrier < lying.carriers.size();
    if (on_carrier) {
      const Line& line = lying.carriers[i - first_carrier].line_at(planned.at);
      const Point& at = work.model.nodes[node_at(line, planned.at)].at;
      x = in_si(at.x);
      y = in_si(at.y);
      height = in_si(at.z);
    }
    nodes.push_back(
        work.add_node(fmt::format("{}-{:.0f}", slug(name), 1e3 * places[i]), x, y, height));
  }
  return nodes;
}

/// Ties the strip to its carriers: upright on each; the first seat also keeps it from sliding,
/// turning in plan and rolling over.
void hang(Idealising& work, const PlannedStrip& planned, const Lying& lying,
          const std::string& name, const std::vector<NodeId>& nodes, std::size_t first_carrier) {
  for (std::size_t c = 0; c < lying.carriers.size(); ++c) {
    const Line& line = lying.carriers[c].line_at(planned.at);
    Tie tie{fmt::format("{} on {}", name, c + 1),
            node_at(line, planned.at),
            nodes[first_carrier + c],
            {}};
    tie.stiffness[2] = sheet_seat;
    if (c == 0) {
      tie.stiffness[0] = tie.stiffness[1] = sheet_seat;
      tie.stiffness[5] = sheet_seat_turn;
      tie.stiffness[lying.along_x ? 3 : 4] = sheet_seat_turn;
    }
    work.model.ties.push_back(tie);
  }
}

/// How far the strip's own line runs beside a node of it: a carrier's node may stand aside where a
/// pad is over a post, or above where carriers differ in height.
Point aside_of(const Idealising& work, const PlannedStrip& planned, const Lying& lying,
               NodeId node) {
  const Point& at = work.model.nodes[node].at;
  const Line& first = lying.carriers.front().line_at(planned.at);
  const Length up = work.model.nodes[node_at(first, planned.at)].at.z - at.z;
  const Length across = metres(planned.at) - (lying.along_x ? at.y : at.x);
  return lying.along_x ? Point{metres(0), across, up} : Point{across, metres(0), up};
}

void build_strip(Idealising& work, std::size_t s) {
  const PlannedStrip& planned = work.strips[s];
  const bench::Sheet& sheet = work.bench.sheets[planned.sheet];
  const Lying& lying = *std::find_if(work.lying.begin(), work.lying.end(),
                                     [&](const Lying& l) { return l.sheet == planned.sheet; });
  const bool grain_along = sheet.grain_along_x == lying.along_x;
  const double width = planned.high - planned.low;
  const std::string name = fmt::format("{} under the {}, strip {}", sheet.name,
                                       work.bench.machines[planned.machine].name, s + 1);
  Strip strip{work.model.parts.parts.size(),
              planned.sheet,
              lying.along_x,
              grain_along,
              metres(planned.at),
              metres(width),
              {},
              {}};

  // Places of nodes along the span: the carriers, and the far pad edges beyond the outer ones.
  std::vector<double> places;
  for (const Carrier& carrier : lying.carriers) places.push_back(carrier.at);
  strip.carriers.assign(places.size(), {});
  std::transform(places.begin(), places.end(), strip.carriers.begin(), metres);
  for (std::size_t i = 0; i + 1 < places.size(); ++i) {
    strip.bay = std::max(strip.bay, metres(places[i + 1] - places[i]));
  }
  double low = places.front(), high = places.back();
  for (const PlannedStrip::Pad& pad : planned.pads) {
    low = std::min(low, pad.along - 0.5 * pad.side);
    high = std::max(high, pad.along + 0.5 * pad.side);
  }
  // A pad that ends at a carrier, to within a millimetre, ends there: no slivers.
  const std::size_t first_carrier = places.front() - low > 1e-3 ? 1 : 0;
  if (first_carrier == 1) places.insert(places.begin(), low);
  if (high - places.back() > 1e-3) places.push_back(high);

  const std::vector<NodeId> nodes = strip_nodes(work, planned, lying, name, places, first_carrier);
  hang(work, planned, lying, name, nodes, first_carrier);

  Part part;
  part.name = name;
  part.role = Role::strip;
  part.width = metres(width);
  part.depth = sheet.panel.thickness;
  part.span = strip.bay;
  part.source = planned.sheet;
  for (std::size_t i = 0; i + 1 < nodes.size(); ++i) {
    Member member;
    member.name = fmt::format("{}-{}", slug(name), i + 1);
    member.start = nodes[i];
    member.end = nodes[i + 1];
    member.elastic = strip_elastic(work, sheet, grain_along);
    member.section = strip_section(sheet, width);
    member.start_offset = aside_of(work, planned, lying, nodes[i]);
    member.end_offset = aside_of(work, planned, lying, nodes[i + 1]);
    member.part = strip.part;
    part.members.push_back(work.model.members.size());
    work.model.members.push_back(std::move(member));
  }
  work.model.parts.parts.push_back(std::move(part));
  work.model.parts.strips.push_back(std::move(strip));
}

/// Shear stiffness of a panel a x b with screws of slip K every s along its edges, along its side
/// a:
///     1/K_a = b / (G_v t a) + 2 s (a + b) / (K a²).
/// Two crossing bars of stiffness k_d between its corners give K_a = 2 k_d a²/d², and the same in
/// b.
/// Source (ours): shear field with slip at its edges, derived from constant shear flow.
double panel_stiffness(const Idealising& work, const bench::Sheet& sheet, double a, double b,
                       const reference::Timber& timber) {
  const double creep = work.creep_divisor(sheet.family.material);
  const double Gt = in_si(sheet.panel.G_v) * in_si(sheet.panel.thickness) / creep;
  double flexibility = b / (Gt * a);
  if (sheet.bond == bench::Bond::screwed) {
    double K = lateral_slip(work.tables, mean_of(timber.rho_mean, sheet.panel.rho_mean),
                            sheet.screws.screw.diameter, false) *
               work.screw_scale();
    if (work.assumptions.after_creep) {
      K /= 1.0 + work.tables.constant("k_def joint timber").value * work.k_def(timber.material);
    }
    flexibility += 2.0 * in_si(sheet.screws.every) * (a + b) / (K * a * a);
  }
  return 1.0 / flexibility;
}

struct Corners {
  std::array<NodeId, 4> nodes;  ///< around the panel
  double a = 0.0, b = 0.0;      ///< sides 0-1 and 1-2
};

double distance(const Model& model, NodeId i, NodeId j) {
  const Point& p = model.nodes[i].at;
  const Point& q = model.nodes[j].at;
  return std::hypot(in_si(p.x - q.x), in_si(p.y - q.y), in_si(p.z - q.z));
}

/// The outermost posts under a lying sheet, if there is one at each of its corners.
std::optional<Corners> corners_of_lying(const Idealising& work, const bench::Sheet& sheet) {
  std::vector<std::size_t> under;
  for (const std::size_t r : sheet.rails) {
    for (const std::size_t p : {work.bench.rails[r].from, work.bench.rails[r].to})
      under.push_back(p);
  }
  if (under.empty()) return std::nullopt;
  const double height = in_si(work.bench.rails[sheet.rails.front()].height);
  Corners corners;
  const std::array<std::array<double, 2>, 4> ways{{{-1, -1}, {1, -1}, {1, 1}, {-1, 1}}};
  std::array<std::size_t, 4> chosen{};
  for (std::size_t c = 0; c < 4; ++c) {
    const auto reach = [&](std::size_t p) {
      return ways[c][0] * in_si(work.bench.posts[p].x) + ways[c][1] * in_si(work.bench.posts[p].y);
    };
    chosen[c] = *std::max_element(under.begin(), under.end(), [&](std::size_t i, std::size_t j) {
      return reach(i) < reach(j);
    });
    corners.nodes[c] = node_at(work.posts[chosen[c]], height);
    for (std::size_t before = 0; before < c; ++before) {
      if (chosen[before] == chosen[c]) return std::nullopt;
    }
  }
  corners.a = distance(work.model, corners.nodes[0], corners.nodes[1]);
  corners.b = distance(work.model, corners.nodes[1], corners.nodes[2]);
  return corners;
}

/// The outermost two posts behind an upright sheet, at the heights that it reaches.
std::optional<Corners> corners_of_upright(const Idealising& work, const bench::Sheet& sheet) {
  const bool along_x = in_si(sheet.x1 - sheet.x0) > in_si(sheet.y1 - sheet.y0);
  const double reach = 0.15;  // m: how far a post's axis may stand from the sheet's plane
  std::vector<std::size_t> behind;
  for (std::size_t p = 0; p < work.bench.posts.size(); ++p) {
    const bench::Post& post = work.bench.posts[p];
    const double aside = along_x ? in_si(post.y) - 0.5 * in_si(sheet.y0 + sheet.y1)
                                 : in_si(post.x) - 0.5 * in_si(sheet.x0 + sheet.x1);
    const double along = in_si(along_x ? post.x : post.y);
    const double low = in_si(along_x ? sheet.x0 : sheet.y0),
                 high = in_si(along_x ? sheet.x1 : sheet.y1);
    if (std::abs(aside) < reach && along > low - reach && along < high + reach) behind.push_back(p);
  }
  if (behind.size() < 2) return std::nullopt;
  const auto along = [&](std::size_t p) {
    return in_si(along_x ? work.bench.posts[p].x : work.bench.posts[p].y);
  };
  const auto [first, last] =
      std::minmax_element(behind.begin(), behind.end(),
                          [&](std::size_t i, std::size_t j) { return along(i) < along(j); });
  const double z0 = in_si(sheet.z0), z1 = in_si(sheet.z1);
  Corners corners;
  corners.nodes = {node_at(work.posts[*first], z0), node_at(work.posts[*last], z0),
                   node_at(work.posts[*last], z1), node_at(work.posts[*first], z1)};
  if (corners.nodes[0] == corners.nodes[3] || corners.nodes[0] == corners.nodes[1])
    return std::nullopt;
  corners.a = distance(work.model, corners.nodes[0], corners.nodes[1]);
  corners.b = distance(work.model, corners.nodes[1], corners.nodes[2]);
  return corners;
}

}  // namespace

void build_shear_fields(Idealising& work) {
  if (work.bench.analysis.sheets == bench::Analysis::Sheets::none) return;
  for (std::size_t s = 0; s < work.bench.sheets.size(); ++s) {
    const bench::Sheet& sheet = work.bench.sheets[s];
    if (sheet.bond == bench::Bond::loose || work.bench.posts.empty()) continue;
    const bool lies =
        sheet.place == bench::SheetPlace::top || sheet.place == bench::SheetPlace::shelf;
    const std::optional<Corners> corners =
        lies ? corners_of_lying(work, sheet) : corners_of_upright(work, sheet);
    if (!corners) {
      work.said.push_back(fmt::format(
          "the {} does not reach four posts: it is not counted as holding the frame square",
          sheet.name));
      continue;
    }
    const reference::Timber& timber = work.bench.posts.front().stock.timber;
    ShearField field{
        sheet.name, s, panel_stiffness(work, sheet, corners->a, corners->b, timber), {}};
    const double d2 = corners->a * corners->a + corners->b * corners->b;
    const double k_d = field.stiffness * d2 / (2.0 * corners->a * corners->a);
    constexpr double E = 1e10;  // any: only E A / d counts in a pinned bar
    for (const std::size_t from : {std::size_t{0}, std::size_t{1}}) {
      Member bar;
      bar.name = fmt::format("{}-shear-field-{}", slug(sheet.name), from + 1);
      bar.start = corners->nodes[from];
      bar.end = corners->nodes[from + 2];
      bar.elastic = {quantity::pascals(E), quantity::pascals(E / 16.0), {}};
      bar.section = rectangle(metres(0.01), metres(0.01));
      bar.section.A = from_si<Area>(k_d * std::sqrt(d2) / E);
      for (const std::size_t turn : {std::size_t{4}, std::size_t{5}}) {
        bar.start_springs[turn] = bar.end_springs[turn] = EndSpring::free_end();
      }
      bar.start_springs[3] = EndSpring::free_end();
      field.members.push_back(work.model.members.size());
      work.model.members.push_back(std::move(bar));
    }
    work.model.parts.shear_fields.push_back(std::move(field));
  }
}

void build_strips(Idealising& work) {
  for (std::size_t s = 0; s < work.strips.size(); ++s) build_strip(work, s);
}

}  // namespace standtrue::model
