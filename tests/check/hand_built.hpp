#pragma once

#include <string>
#include <utility>

#include "standtrue/check/check_all.hpp"

/// Tiny benches and frames put together by hand, for closed forms. Lengths in m, forces in N.
namespace hand_built {

using namespace standtrue;
using quantity::metres;
using quantity::newtons;

inline const reference::Tables& tables() {
  static const reference::Tables loaded = reference::load_tables();
  return loaded;
}

/// Softwood that is easy to reckon with.
inline constexpr double E = 8e9, G = 5e8;  // Pa

inline bench::Post post(const std::string& name, double x, double y, double top = 0.88) {
  bench::Post post;
  post.name = name;
  post.x = post.foot_x = metres(x);
  post.y = post.foot_y = metres(y);
  post.bottom = metres(0.02);
  post.top = metres(top);
  post.along_x = metres(0.089);
  post.along_y = metres(0.038);
  post.foot.thread = *tables().foot("M10");
  post.foot.thread.plastic_rating = newtons(1500);  // whatever the records say
  post.foot.thread.steel_rating = newtons(8000);
  post.foot.extension = metres(0.02);
  post.foot.pad = post.foot.thread.pad;
  return post;
}

/// Four posts at the corners of length x depth, a concrete floor, plastic feet, duty general, an
/// unheated shop. No model behind it.
inline model::Parts four_feet(double length = 1.8, double depth = 0.6) {
  model::Parts parts;
  parts.bench.title = "hand built";
  parts.bench.posts = {post("front-left post", 0, 0), post("front-right post", length, 0),
                       post("back-right post", length, depth), post("back-left post", 0, depth)};
  parts.bench.floor.surface = *tables().floor("concrete");
  parts.bench.duty = *tables().duty("general");
  parts.bench.air = *tables().air("unheated");
  const char* names[] = {"front-left foot", "front-right foot", "back-right foot",
                         "back-left foot"};
  for (std::size_t i = 0; i < 4; ++i) {
    model::FootPlace foot;
    foot.name = names[i];
    foot.post = i;
    foot.down = 3 * i;
    foot.grip_x = 3 * i + 1;
    foot.grip_y = 3 * i + 2;
    parts.feet.push_back(foot);
  }
  return parts;
}

/// A lying sheet over the posts of `four_feet`, reaching past them by `over` on every side.
inline bench::Sheet sheet(const std::string& name, bench::SheetPlace place, const char* family,
                          double nominal_mm, double length = 1.8, double depth = 0.6,
                          double over = 0.025) {
  bench::Sheet sheet;
  sheet.name = name;
  sheet.place = place;
  sheet.x0 = metres(-over);
  sheet.x1 = metres(length + over);
  sheet.y0 = metres(-over);
  sheet.y1 = metres(depth + over);
  sheet.underside = metres(place == bench::SheetPlace::top ? 0.88 : 0.2);
  sheet.panel = *tables().panel(family, quantity::millimetres(nominal_mm));
  sheet.family = *tables().panel_family(family);
  return sheet;
}

inline model::Weight weight(model::Weight::Of of, const std::string& name, double force, double x,
                            double y, double z = 0.5) {
  return {of, name, newtons(force), metres(x), metres(y), metres(z)};
}

/// The frame case of a bench that is looked at as a rigid body: no members, no combinations.
struct Rigid {
  model::Model model;
  solve::Response response;
  explicit Rigid(model::Parts parts) { model.parts = std::move(parts); }
  [[nodiscard]] check::Answers answers() const { return {model, response}; }
};

inline void hold(model::Model& model, model::NodeId node) {
  for (const model::Freedom freedom : model::all_freedoms) {
    const auto i = static_cast<std::size_t>(freedom);
    model::Support support;
    support.name = "held";
    support.node = node;
    support.rotation = i >= 3;
    support.along = {i % 3 == 0 ? 1.0 : 0.0, i % 3 == 1 ? 1.0 : 0.0, i % 3 == 2 ? 1.0 : 0.0};
    model.supports.push_back(support);
  }
}

inline model::NodeId node(model::Model& model, const std::string& name, double x, double y,
                          double z) {
  model.nodes.push_back({name, {metres(x), metres(y), metres(z)}});
  return model.nodes.size() - 1;
}

inline std::size_t member(model::Model& model, const std::string& name, model::NodeId start,
                          model::NodeId end, double width, double depth) {
  model::Member member;
  member.name = name;
  member.start = start;
  member.end = end;
  member.elastic = {quantity::pascals(E), quantity::pascals(G), {}};
  member.section = model::rectangle(metres(width), metres(depth));
  model.members.push_back(member);
  return model.members.size() - 1;
}

inline std::size_t load_case(model::Model& model, const std::string& name) {
  model.cases.emplace_back();
  model.cases.back().name = name;
  return model.cases.size() - 1;
}

inline model::ForceVector force(double x, double y, double z) {
  return {newtons(x), newtons(y), newtons(z)};
}

inline model::Combination combination(const std::string& name, model::Purpose purpose,
                                      model::Leading leading, std::vector<model::Factored> terms) {
  model::Combination c;
  c.name = name;
  c.purpose = purpose;
  c.leading = leading;
  c.terms = std::move(terms);
  return c;
}

/// Finds one finding by its id.
inline const check::Finding* find(const std::vector<check::Finding>& findings,
                                  const std::string& id) {
  for (const check::Finding& f : findings) {
    if (f.id == id) return &f;
  }
  return nullptr;
}

}  // namespace hand_built
