#pragma once

#include <doctest/doctest.h>

#include <string>

#include "standtrue/check/check_all.hpp"
#include "standtrue/model/idealise.hpp"
#include "tests/bench/bench_files.hpp"

/// A bench file as a frame, and solved.
namespace solved_bench {

using namespace standtrue;

inline model::Model idealised(const bench::Bench& bench) {
  model::Idealisation made = model::idealise(bench, bench_files::tables());
  REQUIRE(made.model);
  return std::move(*made.model);
}
inline model::Model idealised(const std::string& text) {
  return idealised(bench_files::sound(text));
}

struct Solved {
  model::Model model;
  solve::Response response;
  [[nodiscard]] check::Answers answers() const { return {model, response}; }
};

inline Solved solved(const bench::Bench& bench) {
  model::Model model = idealised(bench);
  solve::OrRefusal<solve::Response> response = solve::static_response(model);
  REQUIRE_MESSAGE(response, response.error().what);
  return {std::move(model), std::move(*response)};
}
inline Solved solved(const std::string& text) { return solved(bench_files::sound(text)); }

inline const model::RailEnd& rail_end(const model::Model& model, const std::string& name) {
  for (const model::RailEnd& end : model.parts.rail_ends) {
    if (end.name == name) return end;
  }
  FAIL("no joint " << name);
  return model.parts.rail_ends.front();
}

}  // namespace solved_bench
