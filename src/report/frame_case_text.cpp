// The model of a bench as a frame case that repeats its own answers.
#include <algorithm>
#include <cmath>
#include <utility>

#include "standtrue/report/report.hpp"

namespace standtrue::report {

namespace {

using model::Expectation;
using model::FrameCase;
using model::Model;
using Of = Expectation::Of;

/// What is asked of one combination; the values come from the answer.
std::vector<Expectation> questions(const Model& model, std::size_t combination) {
  std::vector<Expectation> asked;
  Expectation e;
  e.under = model::LoadingRef{true, combination};
  e.of = Of::displacement;
  for (const model::NodeId corner : model.parts.top_corners) {
    for (const model::Freedom freedom : {model::Freedom::x, model::Freedom::y, model::Freedom::z}) {
      e.node = corner;
      e.freedom = freedom;
      asked.push_back(e);
    }
  }
  e.of = Of::reaction;
  for (const model::FootPlace& foot : model.parts.feet) {
    e.support = foot.down;
    asked.push_back(e);
  }
  e.of = Of::force;
  e.component = Expectation::Component::M_y;
  for (const model::RailEnd& end : model.parts.rail_ends) {
    e.member = end.member;
    e.from_left = end.at_end;
    e.at = end.at_end ? model::member_frame(model, model.members.at(end.member)).length
                      : quantity::Length{};
    asked.push_back(e);
  }
  return asked;
}

/// Nearer than this to zero, beside the largest answer of its kind, a value is compared with that
/// largest one: a relative tolerance would compare rounding with rounding.
constexpr double nought = 1e-3;
constexpr double tolerance = 1e-9;

/// The answers put in as what is expected.
std::vector<Expectation> answered(std::vector<Expectation> asked,
                                  const std::vector<decide::Comparison>& found) {
  std::vector<double> largest(3, 0.0);  // displacements, forces in a member, support forces
  const auto kind = [](const Expectation& e) {
    return e.of == Of::displacement ? 0U : e.of == Of::force ? 1U : 2U;
  };
  for (std::size_t i = 0; i < asked.size(); ++i) {
    double& scale = largest[kind(asked[i])];
    if (found[i].got) scale = std::max(scale, std::abs(*found[i].got));
  }
  std::vector<Expectation> kept;
  for (std::size_t i = 0; i < asked.size(); ++i) {
    const double scale = largest[kind(asked[i])];
    if (!found[i].got || !std::isfinite(*found[i].got)) continue;
    asked[i].value = *found[i].got;
    if (std::abs(asked[i].value) > nought * scale) {
      asked[i].within = tolerance;
    } else {
      asked[i].within_absolute = tolerance * (scale > 0.0 ? scale : 1.0);
    }
    kept.push_back(asked[i]);
  }
  return kept;
}

Expectation refusal(std::size_t combination, const solve::Refusal& refused) {
  Expectation e;
  e.of = Of::refusal;
  e.under = model::LoadingRef{true, combination};
  e.because = model::refusal_words().at(static_cast<std::size_t>(refused.why));
  return e;
}

}  // namespace

std::string frame_case_text(const Model& model) {
  FrameCase frame_case;
  frame_case.title = model.title;
  frame_case.source = "standtrue's own answers, to be repeated and not a proof";
  frame_case.model = model;
  for (std::size_t c = 0; c < model.combinations.size(); ++c) {
    for (Expectation& e : questions(model, c)) frame_case.expectations.push_back(std::move(e));
  }
  const decide::CaseAnswers answers = decide::solve_case(frame_case);
  std::vector<Expectation> expected;
  std::size_t next = 0;
  for (std::size_t c = 0; c < model.combinations.size(); ++c) {
    const decide::SolvedLoading& loading = answers.loadings.at(model.cases.size() + c);
    std::vector<Expectation> asked = questions(model, c);
    const auto from = answers.comparisons.begin() + static_cast<std::ptrdiff_t>(next);
    next += asked.size();
    if (!loading.state) {
      expected.push_back(refusal(c, loading.state.error()));
      continue;
    }
    const std::vector<decide::Comparison> found(from,
                                                from + static_cast<std::ptrdiff_t>(asked.size()));
    for (Expectation& e : answered(std::move(asked), found)) expected.push_back(std::move(e));
  }
  frame_case.expectations = std::move(expected);
  return model::write_frame_case(frame_case);
}

}  // namespace standtrue::report
