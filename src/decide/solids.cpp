#include <algorithm>
#include <cmath>

#include "standtrue/bench/surface.hpp"
#include "standtrue/decide/picture.hpp"

namespace standtrue::decide {

using quantity::in_si;

namespace {

Place sum(const Place& a, const Place& b, double times = 1.0) {
  return {a[0] + times * b[0], a[1] + times * b[1], a[2] + times * b[2]};
}

/// From its middle and its half edges.
Solid block(Solid::Of of, const std::string& name, const Place& middle,
            const std::array<Place, 3>& half) {
  Solid solid{of, name, {}};
  for (std::size_t i = 0; i < 8; ++i) {
    Place corner = middle;
    for (std::size_t d = 0; d < 3; ++d) corner = sum(corner, half[d], (i >> d) % 2 == 1 ? 1 : -1);
    solid.corners[i] = corner;
  }
  return solid;
}

/// With its edges along the bench.
Solid box(Solid::Of of, const std::string& name, const Place& low, const Place& high) {
  const auto half = [&](std::size_t d) { return 0.5 * (high[d] - low[d]); };
  const Place middle{low[0] + half(0), low[1] + half(1), low[2] + half(2)};
  return block(of, name, middle,
               {Place{half(0), 0, 0}, Place{0, half(1), 0}, Place{0, 0, half(2)}});
}

/// Upright, or splayed: its ends stay level.
Solid post_solid(const bench::Post& post) {
  Solid solid{Solid::Of::post, post.name, {}};
  for (std::size_t i = 0; i < 8; ++i) {
    const bool at_top = i >= 4;
    const double sx = i % 2 == 1 ? 0.5 : -0.5, sy = (i >> 1U) % 2 == 1 ? 0.5 : -0.5;
    solid.corners[i] = {in_si(at_top ? post.x : post.foot_x) + sx * in_si(post.along_x),
                        in_si(at_top ? post.y : post.foot_y) + sy * in_si(post.along_y),
                        in_si(at_top ? post.top : post.bottom)};
  }
  return solid;
}

/// Its pad on the floor, and its stem up to the post.
void add_foot(std::vector<Solid>& solids, const bench::Post& post) {
  if (post.foot.bare || post.on_wall) return;
  constexpr double stem = 0.006;  // half of it: seen, not measured
  const double x = in_si(post.foot_x), y = in_si(post.foot_y), top = in_si(post.bottom);
  const double r = 0.5 * in_si(post.foot.pad), pad = std::min(0.012, 0.5 * top);
  if (!(top > 0.0) || !(r > 0.0)) return;
  solids.push_back(box(Solid::Of::foot, post.name, {x - r, y - r, 0}, {x + r, y + r, pad}));
  solids.push_back(
      box(Solid::Of::foot, post.name, {x - stem, y - stem, pad}, {x + stem, y + stem, top}));
}

/// From low to high along x (or y), its axis `across` the other way.
Solid lying(Solid::Of of, const std::string& name, bool along_x, double low, double high,
            double across, double height, double width, double depth) {
  const double w = 0.5 * width, d = 0.5 * depth;
  return along_x ? box(of, name, {low, across - w, height - d}, {high, across + w, height + d})
                 : box(of, name, {across - w, low, height - d}, {across + w, high, height + d});
}

double axis_of(const bench::Bench& bench, const bench::Rail& rail) {
  const bench::Post& from = bench.posts[rail.from];
  return in_si((rail.along_x ? from.y : from.x) + rail.aside);
}

/// Between the faces of its posts, or over their outer faces where it passes them.
Solid rail_solid(const bench::Bench& bench, const bench::Rail& rail) {
  const bench::Post &from = bench.posts[rail.from], &to = bench.posts[rail.to];
  const auto place = [&](const bench::Post& p) { return in_si(rail.along_x ? p.x : p.y); };
  const auto half = [&](const bench::Post& p) {
    return 0.5 * in_si(rail.along_x ? p.along_x : p.along_y);
  };
  const bool is_let_in = rail.start.kind.fastening == reference::Fastening::half_lap;
  const double out = rail.on_wall || rail.seat != bench::Seat::between || is_let_in ? 1.0 : -1.0;
  return lying(Solid::Of::rail, rail.name, rail.along_x, place(from) - out * half(from),
               place(to) + out * half(to), axis_of(bench, rail), in_si(rail.height),
               in_si(rail.width), in_si(rail.depth));
}

Solid bearer_solid(const bench::Bench& bench, const bench::Bearer& bearer) {
  const bench::Rail &from = bench.rails[bearer.from], &to = bench.rails[bearer.to];
  const double a = axis_of(bench, from), b = axis_of(bench, to);
  const bool a_first = a < b;
  const double low = a_first ? a + 0.5 * in_si(from.width) : b + 0.5 * in_si(to.width);
  const double high = a_first ? b - 0.5 * in_si(to.width) : a - 0.5 * in_si(from.width);
  return lying(Solid::Of::bearer, bearer.name, !from.along_x, low, high, in_si(bearer.at),
               in_si(bearer.height), in_si(bearer.width), in_si(bearer.depth));
}

/// Along its model's axis. One that is bolted on lies outside the posts, past them at both ends.
std::optional<Solid> brace_solid(const bench::Bench& bench, const bench::Brace& brace,
                                 const model::Model& model) {
  const auto& parts = model.parts.parts;
  const auto part = std::find_if(parts.begin(), parts.end(), [&](const model::Part& p) {
    return p.role == model::Role::brace && p.name == brace.name;
  });
  if (part == parts.end() || part->members.empty()) return std::nullopt;
  const auto end_of = [&](std::size_t member, bool at_end) {
    const model::Member& m = model.members[member];
    const model::Point& node = model.nodes[at_end ? m.end : m.start].at;
    const model::Point& off = at_end ? m.end_offset : m.start_offset;
    return Place{in_si(node.x + off.x), in_si(node.y + off.y), in_si(node.z + off.z)};
  };
  Place from = end_of(part->members.front(), false), to = end_of(part->members.back(), true);
  const Place run = sum(to, from, -1.0);
  const double length = std::hypot(run[0], run[1], run[2]);
  if (!(length > 0.0)) return std::nullopt;
  const Place d{run[0] / length, run[1] / length, run[2] / length};
  const std::size_t flat = std::abs(run[0]) > std::abs(run[1]) ? 1 : 0;  // square to its plane
  double thin = 0.5 * in_si(std::min(part->width, part->depth));
  const double deep = 0.5 * in_si(std::max(part->width, part->depth));
  double past = 0.0;
  if (brace.joint.fastening == reference::Fastening::bolts) {
    const bench::Post& post = bench.posts[brace.post];
    double middle = 0.0;
    for (const bench::Post& p : bench.posts) {
      middle += in_si(flat == 1 ? p.y : p.x) / static_cast<double>(bench.posts.size());
    }
    const double out = from[flat] < middle ? -1.0 : 1.0;
    const double by = out * (0.5 * in_si(flat == 1 ? post.along_y : post.along_x) + thin);
    from[flat] += by;
    to[flat] += by;
    past = deep;
  }
  Place normal{0, 0, 0};
  normal[flat] = 1.0;
  const Place across{normal[1] * d[2] - normal[2] * d[1], normal[2] * d[0] - normal[0] * d[2],
                     normal[0] * d[1] - normal[1] * d[0]};
  const auto times = [](const Place& v, double by) {
    return Place{v[0] * by, v[1] * by, v[2] * by};
  };
  return block(Solid::Of::brace, brace.name, times(sum(from, to), 0.5),
               {times(d, 0.5 * length + past), times(normal, thin), times(across, deep)});
}

/// What is left of a lying sheet beside its cut-outs: strips across, each in pieces.
void add_lying_sheet(std::vector<Solid>& solids, const bench::Sheet& sheet) {
  const double z0 = in_si(sheet.underside);
  const double z1 = in_si(bench::surface_of(sheet));
  std::vector<double> xs = {in_si(sheet.x0), in_si(sheet.x1)};
  const auto within = [&](double x) { return x > in_si(sheet.x0) && x < in_si(sheet.x1); };
  for (const bench::Sheet::CutOut& cut : sheet.cut_outs) {
    for (const double x : {in_si(cut.x0), in_si(cut.x1)}) {
      if (within(x)) xs.push_back(x);
    }
  }
  std::sort(xs.begin(), xs.end());
  for (std::size_t i = 0; i + 1 < xs.size(); ++i) {
    const double middle = 0.5 * (xs[i] + xs[i + 1]);
    if (xs[i + 1] - xs[i] < 1e-6) continue;
    std::vector<std::array<double, 2>> cuts;
    for (const bench::Sheet::CutOut& cut : sheet.cut_outs) {
      if (middle > in_si(cut.x0) && middle < in_si(cut.x1)) {
        cuts.push_back({in_si(cut.y0), in_si(cut.y1)});
      }
    }
    std::sort(cuts.begin(), cuts.end());
    cuts.push_back({in_si(sheet.y1), in_si(sheet.y1)});
    double y = in_si(sheet.y0);
    for (const auto& [from, to] : cuts) {
      if (from - y > 1e-6) {
        solids.push_back(box(Solid::Of::sheet, sheet.name, {xs[i], y, z0}, {xs[i + 1], from, z1}));
      }
      y = std::max(y, to);
    }
  }
}

void add_sheet(std::vector<Solid>& solids, const bench::Sheet& sheet) {
  if (bench::lies(sheet)) return add_lying_sheet(solids, sheet);
  const double t = in_si(bench::thickness(sheet));
  Place low{in_si(sheet.x0), in_si(sheet.y0), in_si(sheet.z0)};
  Place high{in_si(sheet.x1), in_si(sheet.y1), in_si(sheet.z1)};
  const std::size_t flat = sheet.place == bench::SheetPlace::back ? 1 : 0;
  if (high[flat] - low[flat] < 1e-6) {
    low[flat] -= 0.5 * t;
    high[flat] += 0.5 * t;
  }
  solids.push_back(box(Solid::Of::sheet, sheet.name, low, high));
}

}  // namespace

std::vector<Solid> solids_of(const bench::Bench& bench, const std::optional<model::Model>& model) {
  std::vector<Solid> solids;
  for (const bench::Post& post : bench.posts) {
    if (!post.on_wall) solids.push_back(post_solid(post));
    add_foot(solids, post);
  }
  for (const bench::Rail& rail : bench.rails) solids.push_back(rail_solid(bench, rail));
  for (const bench::Bearer& bearer : bench.bearers) {
    solids.push_back(bearer_solid(bench, bearer));
  }
  if (model) {
    for (const bench::Brace& brace : bench.braces) {
      if (auto solid = brace_solid(bench, brace, *model)) solids.push_back(std::move(*solid));
    }
  }
  for (const bench::Sheet& sheet : bench.sheets) add_sheet(solids, sheet);
  return solids;
}

}  // namespace standtrue::decide
