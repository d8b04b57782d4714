#pragma once

#include <string>
#include <utility>
#include <vector>

#include "standtrue/check/service.hpp"
#include "tests/check/hand_built.hpp"

/// Parts that sag, built by hand: one rail section, its loads and its answers. SI.
namespace hand_built {

inline constexpr double L = 1.8, b = 0.038, d = 0.089;

inline double EI() { return E * b * d * d * d / 12.0; }
inline double GA() { return G * b * d * 5.0 / 6.0; }

inline model::Part part(const std::string& name, model::Role role, std::vector<std::size_t> members,
                        double span, std::size_t source) {
  model::Part part;
  part.name = name;
  part.role = role;
  part.members = std::move(members);
  part.span = metres(span);
  part.width = metres(b);
  part.depth = metres(d);
  part.source = source;
  return part;
}

inline void press(model::Model& m, std::size_t in_case, std::size_t on, double at, double P) {
  m.cases[in_case].point_loads.push_back({on, metres(at), force(0, 0, -P), {}});
}

struct Solved {
  model::Model model;
  solve::Response response;
  explicit Solved(model::Model m) : model(std::move(m)) {
    auto solved = solve::static_response(model);
    REQUIRE_MESSAGE(solved.has_value(), (solved ? "" : solved.error().what));
    response = std::move(*solved);
  }
  [[nodiscard]] check::Answers answers() const { return {model, response}; }
};

inline void service(model::Model& m, const std::string& name, model::Leading leading,
                    double factor = 1.0) {
  m.combinations.push_back(combination(name, model::Purpose::service, leading, {{0, factor}}));
}

}  // namespace hand_built
