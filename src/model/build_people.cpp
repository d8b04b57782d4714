#include <algorithm>
#include <array>
#include <string>
#include <vector>

#include "model/idealising.hpp"
#include "model/standing_places.hpp"

// Forces in SI.
namespace standtrue::model {

using quantity::in_si;
using quantity::metres;
using quantity::newtons;

namespace {

void persons(Idealising& work) {
  for (const Lying& lying : work.lying) {
    const bench::Sheet& sheet = work.bench.sheets[lying.sheet];
    if (sheet.place != bench::SheetPlace::top) continue;
    const double side = in_si(work.tables.load("stand").patch), half = 0.5 * side;
    const std::optional<std::size_t> plate = plate_of(work.model, lying.sheet);
    for (const StandingPlace& place : standing_places(work, sheet)) {
      // Nobody stands where the sheet is cut out.
      if (plate && !touches(work.model.plates[*plate],
                            {place.x - half, place.x + half, place.y - half, place.y + half})) {
        continue;
      }
      LoadCase& load_case = add_case(work, "person-" + slug(place.name),
                                     "1 kN of a person, " + place.name, Duration::short_term);
      load_case.weight = true;
      press(work, load_case, lying, place.x, place.y, side, 1e3);
      work.model.parts.persons.push_back(
          {place.name, lying.sheet, metres(place.x), metres(place.y), work.model.cases.size() - 1});
    }
  }
}

std::size_t outermost(const Idealising& work, const std::vector<std::size_t>& posts, double x,
                      double y) {
  return *std::max_element(posts.begin(), posts.end(), [&](std::size_t i, std::size_t j) {
    const auto reach = [&](std::size_t p) {
      return x * in_si(work.bench.posts[p].x) + y * in_si(work.bench.posts[p].y);
    };
    return reach(i) < reach(j);
  });
}

void shoves(Idealising& work) {
  const std::vector<std::size_t> posts = top_posts(work);
  if (posts.empty()) return;
  std::vector<std::size_t> corners;
  for (const std::array<double, 2> way :
       {std::array<double, 2>{-1, -1}, {1, -1}, {1, 1}, {-1, 1}}) {
    const std::size_t p = outermost(work, posts, way[0], way[1]);
    if (std::find(corners.begin(), corners.end(), p) == corners.end()) corners.push_back(p);
  }
  const auto top_node = [&](std::size_t p) { return work.posts[p].nodes.back().second; };
  for (const std::size_t p : corners) work.model.parts.top_corners.push_back(top_node(p));
  // The shove acts at the surface of the top sheet.
  double surface = 0.0;
  for (const bench::Sheet& sheet : work.bench.sheets) {
    if (sheet.place == bench::SheetPlace::top) {
      surface = std::max(surface, in_si(bench::surface_of(sheet)));
    }
  }
  const auto push = [&](LoadCase& load_case, std::size_t p, ShoveWay way, double force) {
    const NodeId node = top_node(p);
    const double up = std::max(0.0, surface - in_si(work.model.nodes[node].at.z));
    const ForceVector f = way == ShoveWay::along
                              ? ForceVector{newtons(force), newtons(0), newtons(0)}
                              : ForceVector{newtons(0), newtons(force), newtons(0)};
    load_case.node_loads.push_back({node, f, {}, {metres(0), metres(0), metres(up)}});
  };
  const auto shove = [&](const std::string& name, ShoveWay way,
                         const std::vector<std::size_t>& at) {
    LoadCase& load_case =
        add_case(work, "shove-" + slug(name), "1 N of a shove, " + name, Duration::instantaneous);
    for (const std::size_t p : at) push(load_case, p, way, 1.0 / static_cast<double>(at.size()));
    return work.model.cases.size() - 1;
  };
  const auto spread = [&](const std::string& name, ShoveWay way) {
    const std::size_t both = shove(name, way, corners);
    work.model.parts.shoves.push_back({name, way, both, both});
  };
  const auto at_corners = [&](const std::string& name, ShoveWay way, std::array<double, 2> forth,
                              std::array<double, 2> back) {
    const std::size_t to =
        shove(name + ", forth", way, {outermost(work, posts, forth[0], forth[1])});
    const std::size_t from =
        shove(name + ", back", way, {outermost(work, posts, back[0], back[1])});
    work.model.parts.shoves.push_back({name, way, to, from});
  };
  spread("along, spread", ShoveWay::along);
  at_corners("along, at the front", ShoveWay::along, {1, -1}, {-1, -1});
  at_corners("along, at the back", ShoveWay::along, {1, 1}, {-1, 1});
  spread("across, spread", ShoveWay::across);
  at_corners("across, at the left end", ShoveWay::across, {-1, 1}, {-1, -1});
  at_corners("across, at the right end", ShoveWay::across, {1, 1}, {1, -1});
}

}  // namespace

void build_people(Idealising& work) {
  persons(work);
  shoves(work);
}

}  // namespace standtrue::model
