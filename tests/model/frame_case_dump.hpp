#pragma once

#include <cstddef>
#include <optional>
#include <string>

#include "standtrue/model/frame_case.hpp"

/// Frame cases as text, to compare them.
namespace standtrue::test {

using quantity::in_si;

/// Every number and name of a model as text, doubles to the last bit: equal texts, equal models.
class Dump {
 public:
  std::string text;

  void add(double v) { text += quantity::print_exact(v, quantity::Kind::ratio) + " "; }
  void add(std::size_t v) { text += std::to_string(v) + " "; }
  void add(const std::string& v) { text += v + "\n"; }
  template <class Unit>
  void add(const quantity::units::quantity<Unit>& q) {
    add(in_si(q));
  }
  template <class Q>
  void add(const model::Vector<Q>& v) {
    add(v.x), add(v.y), add(v.z);
  }
  void add(const model::Section& s) {
    add(s.A), add(s.A_sy), add(s.A_sz), add(s.I_y), add(s.I_z), add(s.J), add(s.width),
        add(s.depth);
  }
  void add(const model::EndSprings& springs) {
    for (const model::EndSpring& s : springs) {
      add(static_cast<std::size_t>(s.kind)), add(s.gravity), add(s.sway);
    }
  }
  void add(const std::optional<double>& v) { v ? add(*v) : add(std::string("none")); }
};

inline void add_members(Dump& d, const model::Model& m) {
  for (const model::Member& member : m.members) {
    d.add(member.name), d.add(member.start), d.add(member.end);
    d.add(member.elastic.E), d.add(member.elastic.G), d.add(member.elastic.density);
    d.add(member.section);
    d.add(member.depth.value_or(model::Direction{})), d.add(member.roll);
    d.add(member.start_offset), d.add(member.end_offset);
    d.add(member.start_springs), d.add(member.end_springs), d.add(member.carries);
  }
  for (const model::Tie& tie : m.ties) {
    d.add(tie.name), d.add(tie.a), d.add(tie.b);
    for (const double k : tie.stiffness) d.add(k);
  }
}

inline void add_patch(Dump& d, const model::Patch& p) {
  d.add(p.x0), d.add(p.x1), d.add(p.y0), d.add(p.y1);
}

inline void add_plate_parts(Dump& d, const model::Plate& p) {
  for (const model::PlateHold& hold : p.holds) {
    add_patch(d, hold.where);
    for (const bool held : hold.freedoms) d.add(std::size_t{held});
  }
  for (const model::PlateTie& tie : p.ties) {
    d.add(tie.i), d.add(tie.j), d.add(tie.node), d.add(std::size_t{tie.gravity_only});
    for (const double k : tie.stiffness) d.add(k);
  }
  for (const model::PlateBody& body : p.bodies) {
    d.add(body.name), d.add(body.stiffness);
    for (const model::Patch& pad : body.pads) add_patch(d, pad);
  }
}

inline void add_plates(Dump& d, const model::Model& m) {
  for (const model::Plate& p : m.plates) {
    d.add(p.name);
    for (const auto& three : {p.origin, p.x_axis, p.y_axis}) {
      for (const double v : three) d.add(v);
    }
    for (const double v : p.x) d.add(v);
    for (const double v : p.y) d.add(v);
    for (const model::Patch& hole : p.holes) add_patch(d, hole);
    const model::PlateStiffness& s = p.stiffness;
    for (const double v : {s.A_11, s.A_12, s.A_22, s.A_66, s.D_11, s.D_12, s.D_22, s.D_66, s.S_x,
                           s.S_y, p.creep, p.thickness, p.mass_per_area, p.tie_level}) {
      d.add(v);
    }
    add_plate_parts(d, p);
  }
}

inline void add_supports(Dump& d, const model::Model& m) {
  for (const model::Support& s : m.supports) {
    d.add(s.name), d.add(s.node), d.add(std::size_t{s.rotation}), d.add(s.along);
    d.add(s.stiffness), d.add(s.imposed), d.add(std::size_t{s.press_only}), d.add(s.gap);
    d.add(s.rides_on.value_or(9999));
  }
  for (const model::PointMass& mass : m.masses) {
    d.add(mass.name), d.add(mass.node), d.add(mass.mass), d.add(mass.offset), d.add(mass.inertia);
  }
}

inline void add_loads(Dump& d, const model::Model& m) {
  for (const model::LoadCase& c : m.cases) {
    d.add(c.name), d.add(c.title), d.add(static_cast<std::size_t>(c.duration));
    d.add(std::size_t{c.self_weight}), d.add(std::size_t{c.weight});
    for (const auto& l : c.node_loads)
      d.add(l.node), d.add(l.force), d.add(l.moment), d.add(l.offset);
    for (const auto& l : c.point_loads)
      d.add(l.member), d.add(l.at), d.add(l.force), d.add(l.moment);
    for (const auto& l : c.line_loads) {
      d.add(l.member), d.add(l.from), d.add(l.to), d.add(l.at_from), d.add(l.at_to);
    }
    for (const model::PatchLoad& l : c.patch_loads) {
      d.add(l.plate), add_patch(d, l.where);
      for (const double f : l.force) d.add(f);
    }
  }
  for (const model::Combination& c : m.combinations) {
    d.add(c.name), d.add(c.title), d.add(static_cast<std::size_t>(c.purpose));
    d.add(static_cast<std::size_t>(c.duration)), d.add(static_cast<std::size_t>(c.springs));
    for (const model::Factored& f : c.terms) d.add(f.load_case), d.add(f.factor);
  }
}

inline std::string dump(const model::FrameCase& frame_case) {
  Dump d;
  d.add(frame_case.title), d.add(frame_case.about), d.add(frame_case.source);
  d.add(frame_case.model.title);
  for (const auto& s : frame_case.sections) d.add(s.name), d.add(s.section);
  for (const auto& m : frame_case.materials) d.add(m.name), d.add(m.elastic.E), d.add(m.elastic.G);
  for (const model::Node& node : frame_case.model.nodes) d.add(node.name), d.add(node.at);
  add_members(d, frame_case.model);
  add_plates(d, frame_case.model);
  add_supports(d, frame_case.model);
  add_loads(d, frame_case.model);
  for (const model::Expectation& e : frame_case.expectations) {
    d.add(describe(e, frame_case)), d.add(e.value), d.add(e.within), d.add(e.within_absolute);
    d.add(e.at), d.add(e.place.value_or(model::Length{})), d.add(std::size_t{e.magnitude});
    for (const double v : e.on_plate) d.add(v);
    d.add(e.pushed_with), d.add(e.source), d.add(e.note), d.add(e.why);
  }
  return d.text;
}

}  // namespace standtrue::test
