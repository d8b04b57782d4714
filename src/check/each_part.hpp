#pragma once

#include <vector>

#include "standtrue/check/check_all.hpp"

/// One finding for each piece that a limit state is about.
namespace standtrue::check {

/// Pushed along: posts and braces.
[[nodiscard]] inline bool is_column(const model::Part& part) {
  return part.role == model::Role::post || part.role == model::Role::brace;
}
/// Bent by what lies on it: rails and bearers.
[[nodiscard]] inline bool is_beam(const model::Part& part) {
  return part.role == model::Role::rail || part.role == model::Role::bearer;
}

/// `make(part, id)` of every part that `wanted(part)` is true of, in their order.
template <class Wanted, class Make>
[[nodiscard]] std::vector<Finding> each_part(const Answers& answers, Wanted wanted, Make make) {
  std::vector<Finding> findings;
  const std::vector<model::Part>& parts = answers.model.parts.parts;
  for (model::PartId id = 0; id < parts.size(); ++id) {
    if (wanted(parts[id])) findings.push_back(make(parts[id], id));
  }
  return findings;
}

/// `make(post, place, foot)` of every post over its foot.
template <class Make>
[[nodiscard]] std::vector<Finding> each_post_end(const Answers& answers, Make make) {
  std::vector<Finding> findings;
  const model::Parts& parts = answers.model.parts;
  for (const model::FootPlace& place : parts.feet) {
    for (const model::Part& part : parts.parts) {
      if (part.role != model::Role::post || part.source != place.post) continue;
      findings.push_back(make(part, place, parts.bench.posts.at(place.post).foot));
    }
  }
  return findings;
}

}  // namespace standtrue::check
