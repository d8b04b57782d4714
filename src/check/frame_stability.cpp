// All numbers SI (m, N).
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "check/answered.hpp"
#include "standtrue/bench/leaning.hpp"
#include "standtrue/check/members.hpp"
#include "standtrue/model/stiffness_divisor.hpp"
#include "standtrue/solve/buckling.hpp"

namespace standtrue::check {

using quantity::in_si;

namespace {

/// How the tops of the posts move in the shape in which the frame gives way.
std::string how_it_gives(const model::Model& model, const Eigen::VectorXd& shape) {
  double x = 0.0, y = 0.0, turn = 0.0, middle_x = 0.0, middle_y = 0.0;
  const std::vector<std::size_t>& corners = model.parts.top_corners;
  const double n = static_cast<double>(corners.size());
  for (const std::size_t node : corners) {
    middle_x += in_si(model.nodes[node].at.x) / n;
    middle_y += in_si(model.nodes[node].at.y) / n;
  }
  for (const std::size_t node : corners) {
    const auto at = static_cast<Eigen::Index>(6 * node);
    x += shape(at) / n;
    y += shape(at + 1) / n;
    const double rx = in_si(model.nodes[node].at.x) - middle_x;
    const double ry = in_si(model.nodes[node].at.y) - middle_y;
    const double reach = std::hypot(rx, ry);
    if (reach > 0.0) turn += (rx * shape(at + 1) - ry * shape(at)) / (n * reach);
  }
  const double most = std::max({std::abs(x), std::abs(y), std::abs(turn)});
  constexpr double little = 0.05;  // of the largest movement of the shape
  if (corners.empty() || most < little) return "a part of it bends out while its top stays";
  if (most == std::abs(turn)) return "its top turns";
  return most == std::abs(x) ? "it sways along" : "it sways across";
}

/// A foot in the air leaves the rest to hold the frame.
std::string with_feet(std::string way, const solve::State& state) {
  const bool is_lifted =
      std::find(state.touching.begin(), state.touching.end(), false) != state.touching.end();
  return is_lifted ? std::move(way) + ", a foot off the floor" : std::move(way);
}

/// How far second order adds to the sway, the worst of the shoves in use.
double largest_growth(const Answers& answers) {
  double most = 1.0;
  for (std::size_t c = 0; c < answers.model.combinations.size(); ++c) {
    const model::Combination& combination = answers.model.combinations[c];
    if (combination.purpose == model::Purpose::service &&
        combination.leading == model::Leading::shove) {
      most = std::max(most, answers.response.growth.at(c));
    }
  }
  return most;
}

/// A buckling factor, under what, and how the frame moves.
struct LowestFactor {
  double factor = 0.0;
  std::string combination;
  std::string way;
};

/// The lowest of a combination by its first order.
std::optional<LowestFactor> lowest_of(const model::Model& model, const solve::Response& response,
                                      std::size_t combination) {
  const auto& prepared = response.prepared[static_cast<std::size_t>(model::SpringSet::sway)];
  if (!prepared) return std::nullopt;
  solve::Loading loading = response.loadings.at(combination);
  loading.second_order = false;
  const auto state = solve::respond(*prepared, loading);
  if (!state) return std::nullopt;
  const auto modes = solve::buckling(*prepared, *state);
  if (!modes || modes->empty()) return std::nullopt;
  return LowestFactor{modes->front().factor, model.combinations[combination].name,
                      with_feet(how_it_gives(model, modes->front().shape), *state)};
}

/// With the stiffness after creep, under what lasts.
std::optional<LowestFactor> after_creep(const Answers& answers) {
  const bool is_at_mean = answers.creep_response != nullptr;
  const model::Model* model = is_at_mean ? answers.creep_model : answers.crept_model;
  const solve::Response* response = is_at_mean ? answers.creep_response : answers.crept_response;
  if (!response) return std::nullopt;
  for (std::size_t c = 0; c < model->combinations.size(); ++c) {
    if (lasts_on_the_frame(model->combinations[c])) return lowest_of(*model, *response, c);
  }
  return std::nullopt;
}

/// Of combinations that second order found to give way: they may lie lower than the one that was
/// looked at for all. A few speak for the rest.
std::optional<LowestFactor> of_those_that_buckle(const Answers& answers) {
  std::optional<LowestFactor> lowest;
  int looked_at = 0;
  constexpr int few = 5;
  for (std::size_t c = 0; c < answers.response.states.size() && looked_at < few; ++c) {
    const auto& state = answers.response.states[c];
    if (state || state.error().why != solve::Refusal::Why::buckles) continue;
    ++looked_at;
    const std::optional<LowestFactor> found = lowest_of(answers.model, answers.response, c);
    if (found && (!lowest || found->factor < lowest->factor)) lowest = found;
  }
  return lowest;
}

Finding start_buckling(const Answers& answers, const reference::Tables& tables) {
  Finding f;
  f.id = "frame/buckling";
  f.group = Group::carry;
  f.kind = Kind::safety;
  f.unit = quantity::Kind::ratio;
  f.limit_is_least = true;
  f.place = "the frame";
  f.rule =
      "the frame stands under its loads with the stiffness of its timber over gamma_M "
      "(EN 1995-1-1, 2.2.2 and 2.4.1)";
  f.source = model::stiffness_divisor(answers.model.parts, tables).source;
  return f;
}

std::string buckling_sentence(double factor, const std::string& way) {
  if (factor <= 1.0) {
    return fmt::format("The frame gives way sideways under {:.0f} % of its loads: {}.",
                       100.0 * factor, way);
  }
  return fmt::format("With its loads {:.{}f} times as large the frame would give way sideways: {}.",
                     factor, factor < 10.0 ? 1 : 0, way);
}

/// Some combinations are by second order that did not ask for it.
bool counts_where_feet_lift(const Answers& answers) {
  for (std::size_t c = 0; c < answers.model.combinations.size(); ++c) {
    if (answers.response.loadings.at(c).second_order &&
        !answers.model.combinations[c].second_order) {
      return true;
    }
  }
  return false;
}

std::string second_order_line(const Answers& answers, double factor, double lean) {
  if (answers.response.second_order) {
    return fmt::format(
        "second order is in every number, built 1/{:.0f} out of plumb where strength is asked; the "
        "sway under a shove in use grows by {:.1f} % through it",
        1.0 / lean, 100.0 * (largest_growth(answers) - 1.0));
  }
  const bool lifting = counts_where_feet_lift(answers);
  if (factor <= 1.0 && !lifting) {
    return "there is no second order beyond that: all other numbers are of the first";
  }
  return fmt::format(
      "second order is left out, but for what lasts on a frame built 1/{:.0f} out of plumb{}",
      1.0 / lean, lifting ? ", and for what lifts a foot and has so low a factor" : "");
}

}  // namespace

std::vector<Finding> frame_stability(const Answers& answers, const reference::Tables& tables) {
  const std::optional<solve::Stability>& stability = answers.response.stability;
  const std::optional<solve::Refusal>& refusal = answers.response.no_stability;
  if (!stability && !refusal) return {};  // nobody asked
  Finding f = start_buckling(answers, tables);
  const bool is_answered =
      std::any_of(answers.response.states.begin(), answers.response.states.end(),
                  [](const auto& state) { return state.has_value(); });
  if (refusal || !is_answered) {
    f.sentence = "Whether the frame gives way sideways is not judged.";
    leave_unjudged(f, refusal ? refusal->what : "no combination of loads has an answer");
    return {f};
  }
  // Nothing is pressed: nothing can give way.
  if (!std::isfinite(stability->factor)) return {};
  const double limit = model::stiffness_divisor(answers.model.parts, tables).value;
  std::string way = how_it_gives(answers.model, stability->shape);
  if (const auto& state = answers.response.states[stability->combination]) {
    way = with_feet(std::move(way), *state);
  }
  LowestFactor lowest{stability->factor, answers.model.combinations[stability->combination].name,
                      std::move(way)};
  f.working.push_back(fmt::format(
      "buckling factor {:.2f} under {}, sway springs, members between their nodes as cubics; "
      "second order counts below {:.0f} ({})",
      lowest.factor, lowest.combination, tables.limits.buckling.value,
      reference::citation(tables.limits.buckling.source)));
  f.working.push_back(second_order_line(answers, lowest.factor, tables.limits.lean.value));
  if (const bench::Bench& bench = answers.model.parts.bench; bench::leans(bench)) {
    f.working.push_back(fmt::format(
        "it leans with its floor besides, {}: in strength that share of all weights pushes the "
        "tops of its posts downhill",
        bench::fall_in_words(bench)));
  }
  if (const std::optional<LowestFactor> crept = after_creep(answers)) {
    f.working.push_back(fmt::format("after creep, under what lasts: {:.2f}", crept->factor));
    if (crept->factor < lowest.factor) lowest = *crept;
  }
  if (std::optional<LowestFactor> gives = of_those_that_buckle(answers)) {
    f.working.push_back(fmt::format("with the stiffness over gamma_M it gives way under {}: {:.2f}",
                                    gives->combination, gives->factor));
    // Not answered, it is not above the limit, whatever rounding says.
    gives->factor = std::min(gives->factor, 0.999 * limit);
    if (gives->factor < lowest.factor) lowest = *gives;
  }
  judge_against(f, lowest.factor, limit);
  f.combination = lowest.combination;
  f.sentence = buckling_sentence(lowest.factor, lowest.way);
  if (f.judgement == Judgement::exceeded) {
    f.advice = "a diagonal in that direction, or stiffer joints";
  }
  return {f};
}

}  // namespace standtrue::check
