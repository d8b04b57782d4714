#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "model/idealising.hpp"
#include "standtrue/contract.hpp"

namespace standtrue::model {

using quantity::from_si;
using quantity::in_si;
using quantity::metres;
using quantity::newtons;

namespace {

ForceVector downward(double force) { return {newtons(0), newtons(0), newtons(-force)}; }

/// A downward force on a line at a coordinate along it: on the member there, or, beyond its ends,
/// on the node of the end with an offset.
void press_line(const Idealising& work, LoadCase& load_case, const Line& line, double along,
                double force) {
  const Part& part = work.model.parts.parts.at(line.part);
  const auto member_at = [&]() {
    std::size_t i = 0;
    while (i < line.nodes.size() && along > line.nodes[i].first) ++i;
    return i;
  };
  if (along >= line.from && along <= line.to) {
    const std::size_t i = member_at();
    const double start = i == 0 ? line.from : line.nodes[i - 1].first;
    load_case.point_loads.push_back(
        {part.members.at(i), metres(along - start), downward(force), {}});
    return;
  }
  const Member& end =
      work.model.members.at(along < line.from ? part.members.front() : part.members.back());
  const NodeId node = along < line.from ? end.start : end.end;
  const Point& at = work.model.nodes[node].at;
  const double x = line.along_x ? along : line.across;
  const double y = line.along_x ? line.across : along;
  load_case.node_loads.push_back(
      {node, downward(force), {}, {metres(x) - at.x, metres(y) - at.y, metres(0)}});
}

/// A downward load all along a line, its whole sum kept on the clear length.
void press_line_evenly(const Idealising& work, LoadCase& load_case, const Line& line,
                       double total) {
  const double q = total / (line.to - line.from);
  const LineLoadVector load{{}, {}, from_si<LineLoad>(-q)};
  for (const std::size_t member : work.model.parts.parts.at(line.part).members) {
    const Length length = member_frame(work.model, work.model.members[member]).length;
    load_case.line_loads.push_back({member, metres(0), length, load, load});
  }
}

struct Share {
  std::size_t carrier = 0;
  double share = 0.0;
};

std::array<Share, 2> lever(const Lying& lying, double along) {
  std::size_t i = 0;
  while (i + 2 < lying.carriers.size() && along > lying.carriers[i + 1].at) ++i;
  const double a = lying.carriers[i].at;
  const double b = lying.carriers[i + 1].at;
  const double second = (along - a) / (b - a);
  return {Share{i, 1.0 - second}, Share{i + 1, second}};
}

/// Weight of a lying sheet per area (N/m²).
double weight_of(const bench::Sheet& sheet) {
  return in_si(sheet.panel.rho_mean) * in_si(sheet.panel.thickness) * sheet.layers * g();
}

const Lying* find_lying(const Idealising& work, std::size_t sheet) {
  for (const Lying& lying : work.lying) {
    if (lying.sheet == sheet) return &lying;
  }
  return nullptr;
}

void add_weight(Idealising& work, Weight::Of of, const std::string& name, double force, double x,
                double y, double z) {
  work.model.parts.weights.push_back({of, name, newtons(force), metres(x), metres(y), metres(z)});
}

/// An upright sheet weighs on the corners of its shear field; without one, on all posts alike.
void hang_upright(const Idealising& work, LoadCase& load_case, std::size_t sheet, double weight) {
  std::vector<NodeId> nodes;
  for (const ShearField& field : work.model.parts.shear_fields) {
    if (field.sheet_place != sheet) continue;
    for (const std::size_t bar : field.members) {
      nodes.push_back(work.model.members[bar].start);
      nodes.push_back(work.model.members[bar].end);
    }
  }
  if (nodes.empty()) {
    for (const Line& post : work.posts) nodes.push_back(post.nodes.front().second);
  }
  for (const NodeId node : nodes) {
    load_case.node_loads.push_back(
        {node, downward(weight / static_cast<double>(nodes.size())), {}, {}});
  }
}

void self_weight(Idealising& work) {
  LoadCase load_case;
  load_case.name = "self";
  load_case.title = "the bench itself";
  load_case.self_weight = load_case.weight = true;
  for (const Part& part : work.model.parts.parts) {
    for (const std::size_t m : part.members) {
      const Member& member = work.model.members[m];
      const MemberFrame frame = member_frame(work.model, member);
      const double force =
          in_si(member.elastic.density) * in_si(member.section.A) * in_si(frame.length) * g();
      if (force == 0.0) continue;
      const Point& a = work.model.nodes[member.start].at;
      const Point& b = work.model.nodes[member.end].at;
      add_weight(work, Weight::Of::bench, part.name, force, 0.5 * in_si(a.x + b.x),
                 0.5 * in_si(a.y + b.y), 0.5 * in_si(a.z + b.z));
    }
  }
  for (std::size_t s = 0; s < work.bench.sheets.size(); ++s) {
    const bench::Sheet& sheet = work.bench.sheets[s];
    if (const Lying* lying = find_lying(work, s)) {
      // A plate brings its own weight with the case.
      if (!plate_of(work.model, s)) press_all_over(work, load_case, *lying, weight_of(sheet));
      carry_all_over(work, *lying, weight_of(sheet));
      add_weight(work, Weight::Of::bench, sheet.name, weight_of(sheet) * area_of(sheet),
                 0.5 * in_si(sheet.x0 + sheet.x1), 0.5 * in_si(sheet.y0 + sheet.y1),
                 in_si(sheet.underside));
    } else if (sheet.place == bench::SheetPlace::back || sheet.place == bench::SheetPlace::end) {
      const double face = std::max(in_si(sheet.x1 - sheet.x0), in_si(sheet.y1 - sheet.y0)) *
                          in_si(sheet.z1 - sheet.z0);
      const double weight = weight_of(sheet) * face;
      add_weight(work, Weight::Of::bench, sheet.name, weight, 0.5 * in_si(sheet.x0 + sheet.x1),
                 0.5 * in_si(sheet.y0 + sheet.y1), 0.5 * in_si(sheet.z0 + sheet.z1));
      if (!plate_of(work.model, s)) {
        hang_upright(work, load_case, s, weight);
        carry_upright(work, s, weight);
      }
    }
  }
  work.model.parts.self_case = work.model.cases.size();
  work.model.cases.push_back(std::move(load_case));
}

/// Spreads a force over the side of a pad; a pad astride a carrier loads the members on both sides.
void press_pad(const Idealising& work, LoadCase& load_case, const Lying& lying, const Part& strip,
               const PlannedStrip::Pad& pad, double force) {
  struct Stretch {
    std::size_t member;
    double from, to;
  };
  std::vector<Stretch> stretches;
  double whole = 0.0;
  for (const std::size_t m : strip.members) {
    const Member& member = work.model.members[m];
    const Point& node = work.model.nodes[member.start].at;
    const double start = lying.along_x ? in_si(node.x + member.start_offset.x)
                                       : in_si(node.y + member.start_offset.y);
    const double length = in_si(member_frame(work.model, member).length);
    const double from = std::clamp(pad.along - 0.5 * pad.side - start, 0.0, length);
    const double to = std::clamp(pad.along + 0.5 * pad.side - start, 0.0, length);
    if (to - from < 1e-6) continue;
    stretches.push_back({m, from, to});
    whole += to - from;
  }
  const LineLoadVector load{{}, {}, from_si<LineLoad>(-force / whole)};
  for (const Stretch& s : stretches) {
    load_case.line_loads.push_back({s.member, metres(s.from), metres(s.to), load, load});
  }
}

void machine_weights(Idealising& work) {
  const bool strips = work.bench.analysis.sheets == bench::Analysis::Sheets::strip;
  for (std::size_t m = 0; m < work.bench.machines.size(); ++m) {
    const bench::Machine& machine = work.bench.machines[m];
    const double weight = in_si(machine.mass) * g();
    const bench::Sheet& sheet = work.bench.sheets.at(machine.sheet);
    LoadCase& load_case =
        add_case(work, "machine-" + slug(machine.name), "the " + machine.name, Duration::permanent);
    load_case.weight = true;
    add_weight(work, Weight::Of::machine, machine.name, weight, in_si(machine.x + machine.cg_x),
               in_si(machine.y + machine.cg_y),
               in_si(sheet.underside) + sheet.layers * in_si(sheet.panel.thickness) +
                   in_si(machine.cg_height));
    work.model.parts.machine_cases.push_back(work.model.cases.size() - 1);
    const Lying* lying = find_lying(work, machine.sheet);
    expects(lying != nullptr, "build_cases: a machine on a sheet that nothing carries");
    if (has_shells(work.bench)) {
      for (const Pad& pad : pads_of(machine)) {
        press(work, load_case, *lying, pad.x, pad.y, std::max(in_si(machine.pad), 5e-3),
              weight * pad.share);
      }
      continue;
    }
    if (!strips) {
      press(work, load_case, *lying, in_si(machine.x + machine.cg_x),
            in_si(machine.y + machine.cg_y), 0.0, weight);
      continue;
    }
    for (std::size_t s = 0; s < work.strips.size(); ++s) {
      const Part& part = work.model.parts.parts[work.model.parts.strips[s].part];
      for (const PlannedStrip::Pad& pad : work.strips[s].pads) {
        if (pad.machine != m) continue;
        press_pad(work, load_case, *lying, part, pad, weight * pad.share);
      }
    }
  }
}

void stored(Idealising& work) {
  for (std::size_t s = 0; s < work.bench.sheets.size(); ++s) {
    const bench::Sheet& sheet = work.bench.sheets[s];
    const Lying* lying = find_lying(work, s);
    if (!lying || !sheet.stored || in_si(*sheet.stored) == 0.0) continue;
    LoadCase& load_case = add_case(work, "stored-" + slug(sheet.name),
                                   "what is stored on the " + sheet.name, Duration::long_term);
    load_case.weight = true;
    press_all_over(work, load_case, *lying, in_si(*sheet.stored));
    if (!sheet.stored_assumed) carry_all_over(work, *lying, in_si(*sheet.stored));
    add_weight(work, Weight::Of::stored, sheet.name, in_si(*sheet.stored) * area_of(sheet),
               0.5 * in_si(sheet.x0 + sheet.x1), 0.5 * in_si(sheet.y0 + sheet.y1),
               in_si(sheet.underside));
    work.model.parts.stored_cases.push_back(work.model.cases.size() - 1);
  }
}

void free_loads(Idealising& work) {
  for (const bench::FreeLoad& load : work.bench.loads) {
    const Lying* lying = find_lying(work, load.sheet);
    if (!lying) continue;
    LoadCase& load_case = add_case(work, "load-" + slug(load.name), load.name, load.duration);
    work.model.parts.added_cases.push_back(work.model.cases.size() - 1);
    const double side = in_si(work.tables.load("lean").patch);
    const double x = in_si(load.x), y = in_si(load.y);
    if (const std::optional<std::size_t> plate = plate_of(work.model, load.sheet)) {
      const Patch where = patch_at(work.bench.sheets[load.sheet], x, y, side);
      if (!touches(work.model.plates[*plate], where)) {
        work.faults.push_back(fmt::format("the load {} lies over a hole in the {}", load.name,
                                          work.bench.sheets[load.sheet].name));
        continue;
      }
      load_case.patch_loads.push_back(
          {*plate, where, {in_si(load.fx), in_si(load.fy), in_si(load.fz)}});
    } else {
      press(work, load_case, *lying, x, y, side, -in_si(load.fz));
    }
    if (in_si(load.fz) < 0.0) {
      const bench::Sheet& sheet = work.bench.sheets[load.sheet];
      add_weight(work, Weight::Of::added, load.name, -in_si(load.fz), in_si(load.x), in_si(load.y),
                 in_si(sheet.underside));
    }
    const bool is_sideways = in_si(load.fx) != 0.0 || in_si(load.fy) != 0.0;
    load_case.weight = in_si(load.fz) < 0.0 && !is_sideways;
    if (!is_sideways || plate_of(work.model, load.sheet)) continue;
    push_top_posts(work, load_case, load.fx, load.fy);
  }
}

}  // namespace

void push_top_posts(const Idealising& work, LoadCase& load_case, Force x, Force y) {
  const std::vector<std::size_t> posts = top_posts(work);
  const double n = static_cast<double>(posts.size());
  for (const std::size_t p : posts) {
    load_case.node_loads.push_back(
        {work.posts[p].nodes.back().second, {x / n, y / n, newtons(0)}, {}, {}});
  }
}

Patch patch_at(const bench::Sheet& sheet, double x, double y, double side) {
  const auto half = [side](double at, double low, double high) {
    return std::max(0.0, std::min({0.5 * side, at - low, high - at}));
  };
  const double hx = half(x, in_si(sheet.x0), in_si(sheet.x1));
  const double hy = half(y, in_si(sheet.y0), in_si(sheet.y1));
  return {x - hx, x + hx, y - hy, y + hy};
}

LoadCase& add_case(Idealising& work, std::string name, std::string title, Duration duration) {
  LoadCase load_case;
  load_case.name = std::move(name);
  load_case.title = std::move(title);
  load_case.duration = duration;
  work.model.cases.push_back(std::move(load_case));
  return work.model.cases.back();
}

std::vector<std::size_t> top_posts(const Idealising& work) {
  double highest = 0.0;
  for (const bench::Post& post : work.bench.posts) highest = std::max(highest, in_si(post.top));
  std::vector<std::size_t> posts;
  for (std::size_t p = 0; p < work.bench.posts.size(); ++p) {
    if (in_si(work.bench.posts[p].top) > highest - 0.02) posts.push_back(p);
  }
  return posts;
}

void press(const Idealising& work, LoadCase& load_case, const Lying& lying, double x, double y,
           double side, double force) {
  if (const std::optional<std::size_t> plate = plate_of(work.model, lying.sheet)) {
    load_case.patch_loads.push_back(
        {*plate, patch_at(work.bench.sheets[lying.sheet], x, y, side), {0.0, 0.0, -force}});
    return;
  }
  const double along = lying.along_x ? x : y;
  const double across = lying.along_x ? y : x;
  for (const Share& share : lever(lying, along)) {
    if (std::abs(share.share) < 1e-12) continue;
    press_line(work, load_case, lying.carriers[share.carrier].line_at(across), across,
               force * share.share);
  }
}

void press_all_over(const Idealising& work, LoadCase& load_case, const Lying& lying, double load) {
  const bench::Sheet& sheet = work.bench.sheets[lying.sheet];
  if (const std::optional<std::size_t> plate = plate_of(work.model, lying.sheet)) {
    load_case.patch_loads.push_back(
        {*plate,
         {in_si(sheet.x0), in_si(sheet.x1), in_si(sheet.y0), in_si(sheet.y1)},
         {0.0, 0.0, -load * area_of(sheet)}});
    return;
  }
  for (const auto& [line, weight] : shares_of_lines(work, lying, load)) {
    press_line_evenly(work, load_case, *line, weight);
  }
}

void build_cases(Idealising& work) {
  self_weight(work);
  machine_weights(work);
  stored(work);
  build_people(work);
  free_loads(work);
  build_leaning(work);
  build_bodies(work);
  build_test_cases(work);
}

}  // namespace standtrue::model
