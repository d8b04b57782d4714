#pragma once

#include <string>
#include <utility>

#include "standtrue/decide/assess.hpp"
#include "standtrue/document/document.hpp"
#include "standtrue/model/frame_case.hpp"

/// The smallest frame with joints, feet and corners: two posts and a rail, 1 kN in its middle.
namespace standtrue::test {

inline const char* const two_posts = R"(frame_case: 1
title: Two posts
plane: true
materials: {timber: {E: 8 kN/mm2, G: 0.5 kN/mm2}}
sections: {post: 89 x 38 mm, rail: 38 x 89 mm}
nodes:
  left-foot: [0 mm, 0 mm, 0 mm]
  left-top: [0 mm, 0 mm, 800 mm]
  right-foot: [1500 mm, 0 mm, 0 mm]
  right-top: [1500 mm, 0 mm, 800 mm]
members:
  left: {from: left-foot, to: left-top, section: post}
  right: {from: right-foot, to: right-top, section: post}
  rail: {from: left-top, to: right-top, section: rail, start: {ry: 1 kN m/rad}, end: {ry: 1 kN m/rad}}
supports:
  left-down: {node: left-foot, along: [0, 0, 1], press_only: yes, stiffness: 1 kN/mm}
  left-x: {node: left-foot, along: [1, 0, 0]}
  left-y: {node: left-foot, along: [0, 1, 0]}
  right-down: {node: right-foot, along: [0, 0, 1], press_only: yes, stiffness: 1 kN/mm}
  right-x: {node: right-foot, along: [1, 0, 0]}
  right-y: {node: right-foot, along: [0, 1, 0]}
cases:
  stored:
    duration: long_term
    loads: [{member: rail, at: 750 mm, force: [0 N, 0 N, -1000 N]}]
  push:
    duration: instantaneous
    loads: [{node: left-top, force: [5 kN, 0 N, 0 N]}]
combinations:
  service-stored: {stored: 1, purpose: service}
  strength-push: {stored: 1, push: 1.5, purpose: strength, springs: sway}
)";

inline model::Model two_posts_model() {
  const document::Reading text = document::parse("two-posts", two_posts);
  model::Model model = model::read_frame_case(*text.document).frame_case->model;
  const auto support = [&model](const std::string& name) {
    std::size_t place = 0;
    while (model.supports.at(place).name != name) ++place;
    return place;
  };
  model.title = "Two posts";
  model.combinations[0].leading = model::Leading::stored;
  model.combinations[0].title = "bench and what is stored";
  model.parts.top_corners = {1, 3};
  for (const std::string side : {"left", "right"}) {
    model::FootPlace foot;
    foot.name = side + " foot";
    foot.down = support(side + "-down");
    foot.grip_x = support(side + "-x");
    foot.grip_y = support(side + "-y");
    model.parts.feet.push_back(foot);
    model::RailEnd end;
    end.name = "top rail, " + side + " end";
    end.member = 2;
    end.at_end = side == "right";
    end.joint.kind.key = "corner bracket";
    end.stiffness.bend_gravity = end.stiffness.bend_sway = 1000.0;
    model.parts.rail_ends.push_back(end);
  }
  model::Part rail;
  rail.name = "top rail";
  rail.members = {2};
  rail.timber.key = "C16";
  rail.width = quantity::millimetres(38.0);
  rail.depth = quantity::millimetres(89.0);
  rail.span = quantity::millimetres(1411.0);
  model.parts.parts.push_back(rail);
  return model;
}

/// An assessment with that frame as its answers at every bound.
inline decide::Assessment with_answers(decide::Assessment assessment) {
  for (decide::Bounded* bounded : {&assessment.soft, &assessment.mean, &assessment.stiff}) {
    bounded->idealisation.model = two_posts_model();
    auto response = solve::static_response(*bounded->idealisation.model);
    if (response) bounded->response = std::move(*response);
  }
  return assessment;
}

}  // namespace standtrue::test
