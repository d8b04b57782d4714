// The model of a bench as a frame case that repeats its own answers.
#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "standtrue/report/report.hpp"

namespace standtrue::report {

namespace {

using model::Expectation;
using model::FrameCase;
using model::Model;
using Of = Expectation::Of;

using PlatePlace = std::array<double, 2>;

bool has_plate(const model::Plate& plate, const PlatePlace& at) {
  for (std::size_t j = 0; j + 1 < plate.y.size(); ++j) {
    if (at[1] < plate.y[j] || at[1] > plate.y[j + 1]) continue;
    for (std::size_t i = 0; i + 1 < plate.x.size(); ++i) {
      if (at[0] >= plate.x[i] && at[0] <= plate.x[i + 1] && plate.has_cell(i, j)) return true;
    }
  }
  return false;
}

/// The middles of the last patches that a combination presses on a plate: what it is about comes
/// last.
std::vector<PlatePlace> pressed_places(const Model& model, const model::Combination& combination,
                                       std::size_t plate) {
  constexpr std::size_t most = 2;
  std::vector<PlatePlace> places;
  for (auto term = combination.terms.rbegin(); term != combination.terms.rend(); ++term) {
    const auto& loads = model.cases[term->load_case].patch_loads;
    for (auto load = loads.rbegin(); load != loads.rend() && places.size() < most; ++load) {
      const model::Patch& patch = load->where;
      const PlatePlace middle{0.5 * (patch.x0 + patch.x1), 0.5 * (patch.y0 + patch.y1)};
      const bool is_new = std::find(places.begin(), places.end(), middle) == places.end();
      if (load->plate == plate && is_new && has_plate(model.plates[plate], middle)) {
        places.push_back(middle);
      }
    }
  }
  return places;
}

/// Sag and moments where a plate is pressed, and the pull of two or three ties.
void ask_plate(const Model& model, std::size_t plate, std::size_t combination,
               std::vector<Expectation>& asked) {
  using Component = Expectation::PlateComponent;
  Expectation e;
  e.under = model::LoadingRef{true, combination};
  e.plate = plate;
  e.of = Of::plate;
  for (const PlatePlace& place : pressed_places(model, model.combinations[combination], plate)) {
    e.on_plate = place;
    for (const Component component : {Component::w, Component::M_x, Component::M_y}) {
      e.plate_component = component;
      asked.push_back(e);
    }
  }
  e.of = Of::tie;
  const std::size_t n = model.plates[plate].ties.size();
  for (std::size_t tie = 0; tie < n; tie += std::max<std::size_t>(1, n / 2)) {
    e.tie = tie;
    for (const auto component : {Expectation::TieComponent::x, Expectation::TieComponent::normal}) {
      e.tie_component = component;
      asked.push_back(e);
    }
  }
}

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
  for (std::size_t plate = 0; plate < model.plates.size(); ++plate) {
    ask_plate(model, plate, combination, asked);
  }
  return asked;
}

/// A file of more values than this is not read again: a large frame is asked less.
constexpr std::size_t most_questions = 1500;

/// The questions to each combination. Where they are too many every n-th is kept, counted from
/// another one in each combination, so that all are asked somewhere.
std::vector<std::vector<Expectation>> all_questions(const Model& model) {
  std::vector<std::vector<Expectation>> asked;
  std::size_t total = 0;
  for (std::size_t c = 0; c < model.combinations.size(); ++c) {
    asked.push_back(questions(model, c));
    total += asked.back().size();
  }
  const std::size_t n = (total + most_questions - 1) / most_questions;
  if (n <= 1) return asked;
  for (std::size_t c = 0; c < asked.size(); ++c) {
    std::vector<Expectation> kept;
    for (std::size_t i = c % n; i < asked[c].size(); i += n) kept.push_back(asked[c][i]);
    asked[c] = std::move(kept);
  }
  return asked;
}

/// Nearer than this to zero, beside the largest answer of its kind, a value is compared with that
/// largest one: a relative tolerance would compare rounding with rounding.
constexpr double nought = 1e-3;
constexpr double tolerance = 1e-9;

/// Answers of one sort are of one size.
enum class Sort { movement, member_force, support_force, plate_moment, tie_force };

Sort sort_of(const Expectation& e) {
  switch (e.of) {
    case Of::displacement:
      return Sort::movement;
    case Of::force:
      return Sort::member_force;
    case Of::plate:
      return e.plate_component == Expectation::PlateComponent::w ? Sort::movement
                                                                 : Sort::plate_moment;
    case Of::tie:
      return Sort::tie_force;
    default:
      return Sort::support_force;
  }
}

/// The answers put in as what is expected.
std::vector<Expectation> answered(std::vector<Expectation> asked,
                                  const std::vector<decide::Comparison>& found) {
  std::array<double, 5> largest{};
  for (std::size_t i = 0; i < asked.size(); ++i) {
    double& scale = largest[static_cast<std::size_t>(sort_of(asked[i]))];
    if (found[i].got) scale = std::max(scale, std::abs(*found[i].got));
  }
  std::vector<Expectation> kept;
  for (std::size_t i = 0; i < asked.size(); ++i) {
    const double scale = largest[static_cast<std::size_t>(sort_of(asked[i]))];
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
  const std::vector<std::vector<Expectation>> asked = all_questions(model);
  for (const std::vector<Expectation>& of_one : asked) {
    frame_case.expectations.insert(frame_case.expectations.end(), of_one.begin(), of_one.end());
  }
  const decide::CaseAnswers answers = decide::solve_case(frame_case);
  std::vector<Expectation> expected;
  auto found = answers.comparisons.begin();
  for (std::size_t c = 0; c < model.combinations.size(); ++c) {
    const decide::SolvedLoading& loading = answers.loadings.at(model.cases.size() + c);
    const auto end = found + static_cast<std::ptrdiff_t>(asked[c].size());
    if (loading.state) {
      for (Expectation& e : answered(asked[c], {found, end})) expected.push_back(std::move(e));
    } else {
      expected.push_back(refusal(c, loading.state.error()));
    }
    found = end;
  }
  frame_case.expectations = std::move(expected);
  return model::write_frame_case(frame_case);
}

}  // namespace standtrue::report
