#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>

#include "standtrue/contract.hpp"
#include "standtrue/solve/buckling.hpp"
#include "standtrue/solve/solve.hpp"

namespace standtrue::solve {

namespace {

constexpr double last_bit = 1e-6;  // of equals, rounding must not choose

/// By tipping or sliding: then the push grows no further.
bool is_let_go(const OrRefusal<State>& state) {
  if (state) return false;
  const Refusal::Why why = state.error().why;
  return why == Refusal::Why::tips || why == Refusal::Why::slides;
}

/// The largest share of one term under which the frame still stands, by halving: 14 times leaves a
/// six-thousandth of it unknown. By first order; what second order takes off it is found by steps
/// of a tenth back. A frame that tips without that term stays refused.
OrRefusal<State> respond_up_to_tipping(const Prepared& prepared, Loading& loading,
                                       std::size_t limited) {
  const double full = loading.terms.at(limited).factor;
  OrRefusal<State> state = respond(prepared, loading);
  if (!is_let_go(state)) return state;
  Loading tried = loading;
  tried.terms[limited].factor = 0.0;
  if (!respond(prepared, tried)) return state;
  tried.second_order = false;
  double stands = 0.0, falls = 1.0;  // shares of the full push
  const auto stands_at = [&](double share) {
    tried.terms[limited].factor = share * full;
    return respond(prepared, tried).has_value();
  };
  if (stands_at(1.0)) {
    stands = 1.0;
  } else {
    for (int i = 0; i < 14; ++i) {
      const double middle = 0.5 * (stands + falls);
      (stands_at(middle) ? stands : falls) = middle;
    }
  }
  constexpr double step = 0.9, least = 0.1;
  for (double share = stands;; share = share > least * stands ? step * share : 0.0) {
    loading.terms[limited].factor = share * full;
    state = respond(prepared, loading);
    if (state || share == 0.0) return state;
  }
}

/// Sideways movement of the frame: the root of the sum of squares over its nodes.
double sideways(const State& state) {
  double sum = 0.0;
  for (Eigen::Index i = 0; i + 1 < state.displacement.size(); i += 6) {
    sum += state.displacement.segment<2>(i).squaredNorm();
  }
  return std::sqrt(sum);
}

/// A model being answered: its factorisations, made when first asked for.
class Answering {
 public:
  Answering(const model::Model& model, PlateCache& plates, Response& response)
      : model_(model), plates_(plates), response_(response) {}

  OrRefusal<Prepared> with(model::SpringSet springs) {
    std::optional<Prepared>& prepared = response_.prepared[static_cast<std::size_t>(springs)];
    if (!prepared) {
      OrRefusal<Prepared> made = prepare(model_, springs, plates_);
      if (!made) return made;
      prepared = *made;
    }
    return *prepared;
  }

  enum class By { first_order, what_they_ask, second_order };

  /// All combinations, or once more `only` these.
  std::optional<Refusal> answer(By by, bool known_to_stand = false,
                                const std::vector<bool>* only = nullptr) {
    if (!only) {
      response_.states.clear();
      response_.loadings.clear();
    }
    for (std::size_t c = 0; c < model_.combinations.size(); ++c) {
      const model::Combination& combination = model_.combinations[c];
      if (only && !(*only)[c]) continue;
      Loading loading = loading_of(combination);
      if (by != By::what_they_ask) loading.second_order = by == By::second_order;
      loading.known_to_stand = known_to_stand;
      const OrRefusal<Prepared> prepared = with(combination.springs);
      if (!prepared) return prepared.error();
      OrRefusal<State> state = combination.limited
                                   ? respond_up_to_tipping(*prepared, loading, *combination.limited)
                                   : respond(*prepared, loading);
      if (only) {
        response_.states[c] = std::move(state);
        response_.loadings[c] = std::move(loading);
      } else {
        response_.states.push_back(std::move(state));
        response_.loadings.push_back(std::move(loading));
      }
    }
    return std::nullopt;
  }

  /// The lowest factor of the combinations of the largest loads. Where the same feet touch, the
  /// shapes are much alike: those under the one that presses the posts most tell which is lowest.
  void find_stability() {
    const OrRefusal<Prepared> prepared = with(model::SpringSet::sway);
    if (!prepared) {
      response_.no_stability = prepared.error();
      return;
    }
    constexpr double none = std::numeric_limits<double>::infinity();
    Stability lowest{none, 0, {}};
    lowest_on_all_feet_ = none;
    factors_.assign(model_.combinations.size(), none);
    for (const std::vector<std::size_t>& alike : pressed_alike()) {
      const State& most = *response_.states[alike.front()];
      const Buckling frame(*prepared, most);
      const auto shapes = frame.modes(most, alike.size() > 1 ? 3 : 1);
      // On the brink of tipping the rest may hold nothing: tipping is judged by itself.
      const bool is_tipping =
          !shapes && shapes.error().why == Refusal::Why::mechanism && !stands_on_all_feet(most);
      if (!shapes) is_known_ = false;
      if (!shapes && !is_tipping) response_.no_stability = shapes.error();
      if (!shapes || shapes->empty()) continue;
      const AlikeBuckling near(*prepared, most, *shapes);
      for (const std::size_t c : alike) factors_[c] = near.trial_factor(*response_.states[c]);
      const std::size_t worst = lowest_of(alike);
      const auto found = worst == alike.front() ? shapes : frame.modes(*response_.states[worst]);
      if (!found) {
        response_.no_stability = found.error();
        continue;
      }
      factors_[worst] = found->front().factor;
      if (stands_on_all_feet(most)) lowest_on_all_feet_ = found->front().factor;
      if (found->front().factor >= lowest.factor) continue;
      lowest = Stability{found->front().factor, worst, found->front().shape};
    }
    response_.stability = std::move(lowest);
  }

  /// So far above, and every one with a factor, that nothing else comes near.
  [[nodiscard]] bool surely_stands() const {
    constexpr double safe = 3.0;
    return is_known_ && !response_.no_stability && response_.stability->factor > safe;
  }

  /// Of the combinations that leave all feet on the floor: what decides for all.
  [[nodiscard]] double lowest_on_all_feet() const { return lowest_on_all_feet_; }

  /// Combinations that ask for second order, and those whose own factor lies below a number.
  [[nodiscard]] std::vector<bool> asking(double below) const {
    std::vector<bool> asks;
    for (std::size_t c = 0; c < model_.combinations.size(); ++c) {
      asks.push_back(model_.combinations[c].second_order || factors_[c] < below);
    }
    return asks;
  }

 private:
  /// The combinations of the largest loads by what touches; in each group the one that presses most
  /// is the first.
  [[nodiscard]] std::vector<std::vector<std::size_t>> pressed_alike() const {
    std::map<std::vector<bool>, std::vector<std::size_t>> groups;
    std::vector<double> pressed;
    for (std::size_t c = 0; c < model_.combinations.size(); ++c) {
      pressed.push_back(pressing(c));
      if (pressed[c] > 0.0) groups[response_.states[c]->touching].push_back(c);
    }
    std::vector<std::vector<std::size_t>> found;
    for (auto& [touching, group] : groups) {
      const auto most =
          std::max_element(group.begin(), group.end(), [&pressed](std::size_t a, std::size_t b) {
            return (1.0 + last_bit) * pressed[a] < pressed[b];
          });
      std::rotate(group.begin(), most, most + 1);
      found.push_back(std::move(group));
    }
    return found;
  }
  [[nodiscard]] std::size_t lowest_of(const std::vector<std::size_t>& group) const {
    std::size_t lowest = group.front();
    for (const std::size_t c : group) {
      if (factors_[c] < (1.0 - last_bit) * factors_[lowest]) lowest = c;
    }
    return lowest;
  }
  [[nodiscard]] static bool stands_on_all_feet(const State& state) {
    return std::all_of(state.touching.begin(), state.touching.end(), [](bool t) { return t; });
  }
  /// What a combination of the largest loads presses members with, as force times height: that is
  /// what works as the frame goes aside.
  [[nodiscard]] double pressing(std::size_t c) const {
    const model::Purpose purpose = model_.combinations[c].purpose;
    const bool is_full = purpose == model::Purpose::strength || purpose == model::Purpose::as_given;
    if (!is_full || !response_.states[c]) return 0.0;
    double sum = 0.0;
    for (model::MemberId m = 0; m < model_.members.size(); ++m) {
      const std::array<double, 12>& end = response_.states[c]->end_forces[m];
      const model::MemberFrame frame = model::member_frame(model_, model_.members[m]);
      const double height = std::abs(frame.axes[0].z) * quantity::in_si(frame.length);
      sum += std::max(0.0, 0.5 * (end[0] - end[6])) * height;
    }
    return sum;
  }

  const model::Model& model_;
  PlateCache& plates_;
  Response& response_;
  std::vector<double> factors_;  ///< of the largest loads: of each, near or above its lowest
  double lowest_on_all_feet_ = 0.0;
  bool is_known_ = true;  ///< no combination was left without a factor
};

}  // namespace

OrRefusal<Response> static_response(const model::Model& model) {
  PlateCache plates;
  return static_response(model, plates);
}

OrRefusal<Response> static_response(const model::Model& model, PlateCache& plates,
                                    double second_order_below) {
  Response response;
  Answering answering(model, plates, response);
  response.growth.assign(model.combinations.size(), 1.0);
  using By = Answering::By;
  const By first_by = second_order_below > 0.0 ? By::first_order : By::what_they_ask;
  if (const auto refusal = answering.answer(first_by)) return tl::unexpected(*refusal);
  if (second_order_below <= 0.0) return response;
  answering.find_stability();
  if (!response.stability) return response;
  const bool known_to_stand = answering.surely_stands();
  const double factor = answering.lowest_on_all_feet();
  if (factor <= 1.0) return response;
  if (factor >= second_order_below) {
    const std::vector<bool> asking = answering.asking(second_order_below);
    const auto refusal = answering.answer(By::second_order, known_to_stand, &asking);
    if (refusal) return tl::unexpected(*refusal);
    return response;
  }
  const std::vector<OrRefusal<State>> first = std::move(response.states);
  const std::vector<Loading> under = std::move(response.loadings);
  response.second_order = true;
  if (const auto refusal = answering.answer(By::second_order, known_to_stand)) {
    return tl::unexpected(*refusal);
  }
  for (std::size_t c = 0; c < first.size(); ++c) {
    if (!first[c] || !response.states[c]) continue;
    const std::optional<std::size_t> push = model.combinations[c].limited;
    const bool is_cut =
        push && under[c].terms[*push].factor != response.loadings[c].terms[*push].factor;
    const double before = sideways(*first[c]);
    if (before > 0.0 && !is_cut) response.growth[c] = sideways(*response.states[c]) / before;
  }
  return response;
}

namespace {

const Prepared& prepared_for(const Response& response, std::size_t combination) {
  expects(response.states.at(combination).has_value(), "diagrams: that combination has no answer");
  const auto any = std::find_if(response.prepared.begin(), response.prepared.end(),
                                [](const auto& prepared) { return prepared.has_value(); });
  expects(any != response.prepared.end(), "diagrams: nothing was prepared");
  const model::SpringSet springs = (*any)->model().combinations.at(combination).springs;
  return response.prepared[static_cast<std::size_t>(springs)].value();
}

}  // namespace

MemberDiagrams diagrams(const Response& response, std::size_t combination, model::MemberId member) {
  return diagrams(prepared_for(response, combination), member, response.loadings.at(combination),
                  *response.states[combination]);
}

MemberDiagrams force_diagrams(const Response& response, std::size_t combination,
                              model::MemberId member) {
  return force_diagrams(prepared_for(response, combination), member,
                        response.loadings.at(combination), *response.states[combination]);
}

}  // namespace standtrue::solve
