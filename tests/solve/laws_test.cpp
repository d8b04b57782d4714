// Laws that the answers of a whole bench must obey: they need no expected numbers.
#include <doctest/doctest.h>

#include <Eigen/Geometry>
#include <array>
#include <cmath>

#include "standtrue/bench/read.hpp"
#include "standtrue/model/idealise.hpp"
#include "standtrue/solve/solve.hpp"

namespace laws_test {

using namespace standtrue;
using namespace standtrue::quantity;

namespace {

const reference::Tables& tables() {
  static const reference::Tables loaded = reference::load_tables();
  return loaded;
}

model::Model bench_model(const std::string& text, const model::Assumptions& how = {}) {
  const document::Reading reading = document::parse("bench.yaml", text);
  REQUIRE(reading.document.has_value());
  const bench::BenchReading bench = bench::read_bench(*reading.document, tables());
  for (const Diagnostic& d : bench.diagnostics) INFO(to_text(d));
  REQUIRE(bench.bench.has_value());
  model::Idealisation idealisation = model::idealise(*bench.bench, tables(), how);
  REQUIRE(idealisation.model.has_value());
  return *idealisation.model;
}

const char* const laden =
    "standtrue: 1\n"
    "size: 1720 x 590 x 870 mm\n"
    "timber: C24 45 x 95 mm\n"
    "joints: two corner brackets\n"
    "top: 21 mm spruce plywood\n"
    "shelf: {sheet: 12 mm spruce plywood, load: 40 kg/m2}\n"
    "machines:\n"
    "  - {kind: drill press, mass: 52 kg, at: [500 mm, 300 mm]}\n";

const char* const bare =
    "standtrue: 1\n"
    "size: 1720 x 590 x 870 mm\n"
    "timber: C24 45 x 95 mm\n"
    "joints: two corner brackets\n"
    "top: 21 mm spruce plywood\n"
    "analysis: {sheets: none}\n";

/// x' = R x * scale. Lengths grow by `scale`, stresses stay: forces by scale², moments by scale³.
struct Change {
  Eigen::Matrix3d R = Eigen::Matrix3d::Identity();
  double scale = 1.0;

  template <class V>
  V turned(const V& v, double by) const {
    const Eigen::Vector3d t = by * (R * Eigen::Vector3d(in(v.x), in(v.y), in(v.z)));
    V result = v;
    set(result.x, t.x());
    set(result.y, t.y());
    set(result.z, t.z());
    return result;
  }
  static double in(double v) { return v; }
  template <class Q>
  static double in(const Q& q) {
    return in_si(q);
  }
  static void set(double& to, double v) { to = v; }
  template <class Q>
  static void set(Q& to, double v) {
    to = from_si<Q>(v);
  }
};

void scale_springs(model::EndSprings& springs, double s) {
  for (std::size_t i = 0; i < 6; ++i) {
    const double by = i < 3 ? s : s * s * s;
    springs[i].gravity *= by;
    springs[i].sway *= by;
  }
}

std::array<double, 3> turned(const std::array<double, 3>& v, const Change& change, double by) {
  const Eigen::Vector3d t = by * (change.R * Eigen::Vector3d(v[0], v[1], v[2]));
  return {t.x(), t.y(), t.z()};
}

void scale(model::Patch& patch, double s) {
  for (double* side : {&patch.x0, &patch.x1, &patch.y0, &patch.y1}) *side *= s;
}

/// Own coordinates grow, own axes turn; A and S grow as lengths do, D as their cubes.
void change_plate(model::Plate& plate, const Change& change) {
  const double s = change.scale;
  plate.origin = turned(plate.origin, change, s);
  plate.x_axis = turned(plate.x_axis, change, 1.0);
  plate.y_axis = turned(plate.y_axis, change, 1.0);
  for (std::vector<double>* lines : {&plate.x, &plate.y}) {
    for (double& line : *lines) line *= s;
  }
  for (model::Patch& hole : plate.holes) scale(hole, s);
  model::PlateStiffness& k = plate.stiffness;
  for (double* flat : {&k.A_11, &k.A_12, &k.A_22, &k.A_66, &k.S_x, &k.S_y}) *flat *= s;
  for (double* bent : {&k.D_11, &k.D_12, &k.D_22, &k.D_66}) *bent *= s * s * s;
  plate.thickness *= s;
  plate.tie_level *= s;
  for (model::PlateTie& tie : plate.ties) {
    for (double& stiffness : tie.stiffness) stiffness *= s;
  }
  for (model::PlateBody& body : plate.bodies) {
    for (model::Patch& pad : body.pads) scale(pad, s);
    body.stiffness *= s;
  }
}

/// The same frame, turned and made larger. Self weight is left out: it neither turns nor scales so.
model::Model changed(model::Model m, const Change& change) {
  const double s = change.scale;
  // A lean is measured up from the floor: it does not turn with the frame.
  for (model::Combination& combination : m.combinations) combination.lean = {};
  for (model::MemberId i = 0; i < m.members.size(); ++i) {
    model::Member& member = m.members[i];
    const model::MemberFrame frame = model::member_frame(m, member);
    member.depth = change.turned(frame.axes[2], 1.0);
    member.roll = 0.0;
  }
  for (model::Member& member : m.members) {
    member.start_offset = change.turned(member.start_offset, s);
    member.end_offset = change.turned(member.end_offset, s);
    model::Section& section = member.section;
    section.A *= s * s;
    section.A_sy *= s * s;
    section.A_sz *= s * s;
    section.I_y *= s * s * s * s;
    section.I_z *= s * s * s * s;
    section.J *= s * s * s * s;
    scale_springs(member.start_springs, s);
    scale_springs(member.end_springs, s);
  }
  for (model::Node& node : m.nodes) node.at = change.turned(node.at, s);
  for (model::Tie& tie : m.ties) {
    // A tie is along global axes: only quarter turns about z keep it one.
    Eigen::Vector3d move(tie.stiffness[0], tie.stiffness[1], tie.stiffness[2]);
    Eigen::Vector3d turn(tie.stiffness[3], tie.stiffness[4], tie.stiffness[5]);
    move = (change.R.cwiseAbs() * move * s).eval();
    turn = (change.R.cwiseAbs() * turn * s * s * s).eval();
    tie.stiffness = {move.x(), move.y(), move.z(), turn.x(), turn.y(), turn.z()};
  }
  for (model::Support& support : m.supports) {
    support.along = change.turned(support.along, 1.0);
    if (support.stiffness) *support.stiffness *= support.rotation ? s * s * s : s;
    support.gap *= s;
    support.imposed *= support.rotation ? 1.0 : s;
  }
  for (model::Plate& plate : m.plates) change_plate(plate, change);
  for (model::LoadCase& load_case : m.cases) {
    load_case.self_weight = false;
    for (model::PatchLoad& load : load_case.patch_loads) {
      scale(load.where, s);
      load.force = turned(load.force, change, s * s);
    }
    for (model::NodeLoad& load : load_case.node_loads) {
      load.force = change.turned(load.force, s * s);
      load.moment = change.turned(load.moment, s * s * s);
      load.offset = change.turned(load.offset, s);
    }
    for (model::MemberPointLoad& load : load_case.point_loads) {
      load.at *= s;
      load.force = change.turned(load.force, s * s);
      load.moment = change.turned(load.moment, s * s * s);
    }
    for (model::MemberLineLoad& load : load_case.line_loads) {
      load.from *= s;
      load.to *= s;
      load.at_from = change.turned(load.at_from, s);
      load.at_to = change.turned(load.at_to, s);
    }
  }
  return m;
}

void check_same(const model::Model& plain, const Change& change) {
  const model::Model before = changed(plain, {});
  const model::Model after = changed(plain, change);
  const auto a = solve::static_response(before);
  const auto b = solve::static_response(after);
  REQUIRE(a.has_value());
  REQUIRE(b.has_value());
  const double s = change.scale;
  for (std::size_t c = 0; c < before.combinations.size(); ++c) {
    INFO(before.combinations[c].name);
    REQUIRE(a->states[c].has_value() == b->states[c].has_value());
    if (!a->states[c]) continue;
    double largest = 0.0, off = 0.0;
    for (Eigen::Index node = 0; node < a->states[c]->displacement.size(); node += 6) {
      const Eigen::Vector3d u = a->states[c]->displacement.segment<3>(node);
      const Eigen::Vector3d v = b->states[c]->displacement.segment<3>(node);
      off = std::max(off, (v - s * (change.R * u)).norm());
      largest = std::max(largest, s * u.norm());
    }
    CHECK(off <= 1e-8 * largest);
    double most = 0.0;
    for (const double force : a->states[c]->support_forces) most = std::max(most, std::abs(force));
    for (std::size_t i = 0; i < before.supports.size(); ++i) {
      const double by = before.supports[i].rotation ? s * s * s : s * s;
      const double gone = b->states[c]->support_forces[i] - by * a->states[c]->support_forces[i];
      CHECK(std::abs(gone) <= 1e-7 * by * most);
    }
  }
}

}  // namespace

TEST_CASE("solve/laws: a bench turned by a quarter answers the same, turned") {
  Change quarter;
  quarter.R = Eigen::AngleAxisd(std::acos(-1.0) / 2.0, Eigen::Vector3d::UnitZ()).toRotationMatrix();
  quarter.R = quarter.R.array().round().matrix();
  check_same(bench_model(laden), quarter);
}

TEST_CASE("solve/laws: a frame turned by any angle answers the same, turned") {
  Change any;
  any.R = Eigen::AngleAxisd(0.7, Eigen::Vector3d(0, 0, 1)).toRotationMatrix();
  check_same(bench_model(bare), any);
}

TEST_CASE("solve/laws: twice the size and four times the loads move twice as far") {
  Change twice;
  twice.scale = 2.0;
  check_same(bench_model(laden), twice);
}

TEST_CASE("solve/laws: a mirrored bench answers mirrored") {
  const std::string text = laden;
  std::string mirrored = text;
  mirrored.replace(mirrored.find("[500 mm, 300 mm]"), 16, "[1220 mm, 300 mm]");
  const model::Model a = bench_model(text);
  const model::Model b = bench_model(mirrored);
  const auto left = solve::static_response(a);
  const auto right = solve::static_response(b);
  REQUIRE(left.has_value());
  REQUIRE(right.has_value());
  std::size_t at = 0;
  while (a.combinations[at].name != "service-stored") ++at;
  const auto foot = [](const model::Model& m, const solve::Response& response, std::size_t c,
                       const std::string& name) {
    for (const model::FootPlace& place : m.parts.feet) {
      if (place.name == name) return response.states[c]->support_forces[place.down];
    }
    return -1.0;
  };
  // Of two mesh lines nearer than 4 mm the first that comes stays, and a mirror turns their order:
  // the meshes differ by millimetres.
  CHECK(foot(a, *left, at, "front-left foot") ==
        doctest::Approx(foot(b, *right, at, "front-right foot")).epsilon(1e-5));
  CHECK(foot(a, *left, at, "back-right foot") ==
        doctest::Approx(foot(b, *right, at, "back-left foot")).epsilon(1e-5));
}

TEST_CASE("solve/laws: the feet carry what weighs on them") {
  const model::Model m = bench_model(laden);
  const auto response = solve::static_response(m);
  REQUIRE(response.has_value());
  std::size_t at = 0;
  while (m.combinations[at].name != "service-stored") ++at;
  double weight = 0.0, carried = 0.0;
  for (const model::Weight& w : m.parts.weights) weight += in_si(w.force);
  for (const model::FootPlace& foot : m.parts.feet) {
    carried += response->states[at]->support_forces[foot.down];
  }
  CHECK(carried == doctest::Approx(weight).epsilon(1e-9));
}

TEST_CASE(
    "solve/laws: without sheets the front frame alone sways like the whole, half the shove each") {
  // The short rails turn as a whole in this sway and so resist nothing: the plane frame is exact.
  const model::Model whole = bench_model(bare);
  std::size_t spread = 0;
  while (whole.combinations[spread].name != "service-shove-along-spread-forth") ++spread;
  std::size_t rest = 0;
  while (whole.combinations[rest].name != "sway-rest") ++rest;
  const auto space = solve::static_response(whole);
  REQUIRE(space.has_value());

  model::Model plane = whole;
  const auto is_front = [&](model::NodeId node) { return in_si(whole.nodes[node].at.y) < 0.2; };
  std::vector<std::size_t> kept_nodes(whole.nodes.size(), whole.nodes.size());
  plane.nodes.clear();
  for (model::NodeId n = 0; n < whole.nodes.size(); ++n) {
    if (!is_front(n)) continue;
    kept_nodes[n] = plane.nodes.size();
    plane.nodes.push_back(whole.nodes[n]);
  }
  plane.members.clear();
  for (model::Member member : whole.members) {
    if (!is_front(member.start) || !is_front(member.end)) continue;
    member.start = kept_nodes[member.start];
    member.end = kept_nodes[member.end];
    plane.members.push_back(member);
  }
  plane.supports.clear();
  for (model::Support support : whole.supports) {
    if (!is_front(support.node)) continue;
    support.node = kept_nodes[support.node];
    support.press_only = false;  // nothing lifts in this small push; keep the plane frame linear
    support.rides_on.reset();
    plane.supports.push_back(support);
  }
  for (model::NodeId n = 0; n < plane.nodes.size(); ++n) {
    const auto hold = [&](bool rotation, model::Direction along) {
      model::Support support;
      support.node = n;
      support.rotation = rotation;
      support.along = along;
      plane.supports.push_back(support);
    };
    hold(false, {0, 1, 0});
    hold(true, {1, 0, 0});
    hold(true, {0, 0, 1});
  }
  plane.cases.clear();
  plane.combinations.clear();
  plane.parts = {};
  const auto prepared = solve::prepare(plane, model::SpringSet::sway);
  REQUIRE(prepared.has_value());
  const model::LoadCase& shove =
      whole.cases[whole.parts.shoves[*whole.combinations[spread].place].forth];
  solve::Loading loading;
  for (model::NodeLoad load : shove.node_loads) {
    if (!is_front(load.node)) continue;
    load.node = kept_nodes[load.node];
    load.force = {200.0 * load.force.x, 200.0 * load.force.y, 200.0 * load.force.z};
    loading.node_loads.push_back(load);
  }
  const auto state = solve::respond(*prepared, loading);
  REQUIRE(state.has_value());
  for (const std::size_t corner : whole.parts.top_corners) {
    if (!is_front(corner)) continue;
    const double in_space = space->states[spread]->at(corner, model::Freedom::x) -
                            space->states[rest]->at(corner, model::Freedom::x);
    CHECK(state->at(kept_nodes[corner], model::Freedom::x) ==
          doctest::Approx(in_space).epsilon(1e-6));
  }
}

TEST_CASE(
    "solve/laws: a shove on the empty bench reaches what tips a rigid one, W b / h, and no more") {
  // Moments about the line of the back feet; the frame's own give shifts the weight by its sway
  // over its depth, some thousandths.
  const model::Model m = bench_model(laden);
  const auto response = solve::static_response(m);
  REQUIRE(response.has_value());
  std::size_t at = 0;
  while (m.combinations[at].name != "strength-shove-light-across-spread-forth") ++at;
  REQUIRE(response->states[at].has_value());
  REQUIRE(m.combinations[at].limited.has_value());
  const double full = m.combinations[at].terms[*m.combinations[at].limited].factor;
  const double reached = response->loadings[at].terms[*m.combinations[at].limited].factor;
  double back = 0.0;
  for (const model::FootPlace& foot : m.parts.feet) {
    back = std::max(back, in_si(m.parts.bench.posts[foot.post].foot_y));
  }
  double held = 0.0;
  for (const model::Weight& w : m.parts.weights) {
    if (w.of == model::Weight::Of::bench) held += in_si(w.force) * (back - in_si(w.y));
  }
  const double height = 0.870;
  CHECK(reached < full);
  CHECK(reached == doctest::Approx(held / height).epsilon(2e-3));
}

}  // namespace laws_test
