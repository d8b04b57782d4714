#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "model/idealising.hpp"
#include "standtrue/bench/friction.hpp"
#include "standtrue/bench/leaning.hpp"
#include "standtrue/contract.hpp"

namespace standtrue::model {

using quantity::from_si;
using quantity::in_si;
using quantity::metres;
using std::numbers::pi;

namespace {

std::string foot_name(const std::string& post) {
  const std::string word = " post";
  const std::size_t at = post.rfind(word);
  if (at == std::string::npos) return post + " foot";
  return post.substr(0, at) + " foot" + post.substr(at + word.size());
}

double contact_stiffness(const Idealising& work) {
  if (work.bench.floor.down) return in_si(*work.bench.floor.down);
  const auto& band = work.bench.floor.surface.contact;
  switch (work.assumptions.bound) {
    case Bound::soft:
      return in_si(band.soft);
    case Bound::mean:
      return in_si(band.mean);
    case Bound::stiff:
      return in_si(band.stiff);
  }
  return in_si(band.mean);
}

const reference::Steel& stem_steel(const Idealising& work) {
  const reference::Steel* steel = work.tables.steel("4.6");
  expects(steel != nullptr, "build_feet: no steel 4.6");
  return *steel;
}

/// Of a stem's root, m4.
double stem_second_moment(const reference::Foot& thread) {
  return pi * std::pow(in_si(thread.root), 4) / 64.0;
}

/// A bolted foot does not lean on its sole.
bool has_soft_sole(const Idealising& work, const bench::Foot& foot) {
  return foot.material == reference::FootMaterial::rubber && !foot.bare && !foot.castor &&
         !foot.fixed && !work.bench.floor.sideways;
}

/// In shear, G A/t (N/m). Upright a thin bonded sole is many times as stiff as floor and pad.
double sole_stiffness(const Idealising& work, const bench::Foot& foot) {
  const double D = in_si(foot.pad);
  const double G = work.tables.constant("rubber shear modulus").value;
  const double k = G * pi * D * D / 4.0 / work.tables.constant("rubber sole").value;
  const double band = work.tables.constant("joint band").value;
  switch (work.assumptions.bound) {
    case Bound::soft:
      return k / band;
    case Bound::mean:
      return k;
    case Bound::stiff:
      return k * band;
  }
  return k;
}

/// All feet of the model stand at one height, as if the fall of the floor were taken up: a stem of
/// bare length e is e_0 long there. With I (e_0/e)^2 it buckles under the same force,
/// pi^2 E I/(4 e^2); what is wanting to e^3/(3 E I) sideways is left to the grip.
double slimmed(const bench::Bench& bench, const bench::Post& post) {
  const double e = in_si(bench::free_stem(bench, post)), e_0 = in_si(post.foot.extension);
  return e > e_0 && e_0 > 1e-3 ? std::pow(e_0 / e, 2) : 1.0;
}

/// What a foot gives sideways, N/m: the floor, a rubber sole, and of a stem turned out for the fall
/// what the model's is too stiff, 3 E I/(e^2 (e - e_0)).
double grip_stiffness(const Idealising& work, const bench::Post& post, double floor) {
  double k = floor;
  const auto and_then = [&k](double next) { k = k * next / (k + next); };
  if (has_soft_sole(work, post.foot)) and_then(sole_stiffness(work, post.foot));
  const double e = in_si(bench::free_stem(work.bench, post)), e_0 = in_si(post.foot.extension);
  if (e > e_0) {
    const double EI = in_si(stem_steel(work).E) * stem_second_moment(post.foot.thread);
    and_then(3.0 * EI / (e * e * (e - e_0)));
  }
  return k;
}

void say_soles(Idealising& work) {
  const std::vector<bench::Post>& posts = work.bench.posts;
  const bool any = std::any_of(posts.begin(), posts.end(), [&](const bench::Post& post) {
    return !post.on_wall && has_soft_sole(work, post.foot);
  });
  if (!any) return;
  work.said.push_back(
      fmt::format("rubber soles {} thick (ours) give sideways in shear; upright they are as stiff "
                  "as other pads",
                  quantity::print(work.tables.constant("rubber sole").value, quantity::Kind::length,
                                  work.bench.units)));
}

/// The threaded stem between post and pad: steel, of its root diameter.
std::size_t add_stem(Idealising& work, const bench::Post& post, NodeId from, NodeId floor) {
  const reference::Steel& steel = stem_steel(work);
  const double d = in_si(post.foot.thread.root);
  Member stem;
  stem.name = slug(foot_name(post.name)) + "-stem";
  stem.start = floor;
  stem.end = from;
  stem.elastic = {steel.E, steel.G, steel.rho};
  const double I = stem_second_moment(post.foot.thread) * slimmed(work.bench, post);
  stem.section.A = from_si<Area>(pi * d * d / 4.0);
  stem.section.I_y = stem.section.I_z = from_si<SecondMoment>(I);
  stem.section.J = from_si<SecondMoment>(2.0 * I);
  stem.part = work.model.parts.parts.size();
  Part part;
  part.name = foot_name(post.name);
  part.role = Role::stem;
  part.width = part.depth = post.foot.thread.root;
  part.span = bench::free_stem(work.bench, post);
  part.members = {work.model.members.size()};
  work.model.members.push_back(std::move(stem));
  work.model.parts.parts.push_back(std::move(part));
  return work.model.parts.parts.size() - 1;
}

/// A castor hardly bends: so the wheel meets the floor as far below the post as it does.
void add_castor(Idealising& work, const std::string& name, NodeId post, NodeId floor) {
  const reference::Steel& steel = stem_steel(work);
  Member castor;
  castor.name = name + "-castor";
  castor.start = floor;
  castor.end = post;
  castor.elastic = {steel.E, steel.G, {}};
  castor.section = rectangle(metres(0.04), metres(0.04));
  work.model.members.push_back(std::move(castor));
}

}  // namespace

void build_feet(Idealising& work) {
  const double down = contact_stiffness(work);
  const double sideways = work.bench.floor.sideways ? in_si(*work.bench.floor.sideways) : down;
  for (std::size_t p = 0; p < work.bench.posts.size(); ++p) {
    const bench::Post& post = work.bench.posts[p];
    if (post.on_wall) continue;
    const NodeId bottom = work.posts[p].nodes.front().second;
    FootPlace foot{foot_name(post.name), p, std::nullopt, 0, 0, 0};
    NodeId node = bottom;
    if (!post.foot.bare && in_si(post.bottom) > 1e-3) {
      const Point at = work.model.nodes[bottom].at;
      node = work.add_node(slug(foot.name), in_si(at.x), in_si(at.y), 0.0);
      if (post.foot.castor) {
        add_castor(work, slug(foot.name), bottom, node);
      } else {
        foot.stem = add_stem(work, post, bottom, node);
      }
    }
    Support press;
    press.name = slug(foot.name);
    press.node = node;
    press.stiffness = down;
    press.press_only = !post.foot.fixed;
    press.gap = post.foot.fixed ? 0.0 : in_si(post.foot.height_error);
    foot.down = work.model.supports.size();
    work.model.supports.push_back(press);
    const auto grip = [&](const char* axis, Direction along) {
      Support support;
      support.name = slug(foot.name) + "-" + axis;
      support.node = node;
      support.along = along;
      support.stiffness = grip_stiffness(work, post, sideways);
      if (!post.foot.fixed) {
        support.rides_on = foot.down;
        support.friction = bench::friction(work.bench.floor, post.foot);
      }
      work.model.supports.push_back(support);
      return work.model.supports.size() - 1;
    };
    foot.grip_x = grip("x", {1.0, 0.0, 0.0});
    foot.grip_y = grip("y", {0.0, 1.0, 0.0});
    // The pad does not turn with the stem about its own axis; nothing else would hold that freedom.
    if (foot.stem) {
      Support spin;
      spin.name = slug(foot.name) + "-spin";
      spin.node = node;
      spin.rotation = true;
      spin.stiffness = 1.0;  // N m/rad: next to nothing
      work.model.supports.push_back(spin);
    }
    work.model.parts.feet.push_back(foot);
  }
  say_soles(work);
}

}  // namespace standtrue::model
