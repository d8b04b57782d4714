#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "decide/case_modes.hpp"
#include "standtrue/decide/solve_case.hpp"
#include "standtrue/solve/buckling.hpp"

namespace standtrue::decide {

namespace {

using model::Expectation;
using model::FrameCase;
using model::Model;
using model::SpringSet;
using Of = Expectation::Of;

/// The factorisations of a model, each made when first asked for.
class Factorised {
 public:
  explicit Factorised(const Model& model) : model_(&model) {}
  const solve::OrRefusal<solve::Prepared>& with(SpringSet springs) {
    auto& prepared = prepared_.at(static_cast<std::size_t>(springs));
    if (!prepared) prepared = solve::prepare(*model_, springs, plates_);
    return *prepared;
  }

 private:
  const Model* model_;
  solve::PlateCache plates_;
  std::array<std::optional<solve::OrRefusal<solve::Prepared>>, 3> prepared_;
};

SolvedLoading solved_loading(Factorised& factorised, std::string name, model::LoadingRef of,
                             SpringSet springs, solve::Loading loading) {
  const solve::OrRefusal<solve::Prepared>& prepared = factorised.with(springs);
  solve::OrRefusal<solve::State> state =
      prepared ? solve::respond(*prepared, loading) : tl::unexpected(prepared.error());
  std::optional<solve::Prepared> kept;
  if (prepared) kept = *prepared;
  return {std::move(name), of, std::move(loading), std::move(kept), std::move(state), {}};
}

SpringSet springs_of(const Model& model, const model::LoadingRef& of) {
  return of.is_combination ? model.combinations[of.place].springs : SpringSet::gravity;
}

/// What the plates do, all loadings of one set of springs at once.
void move_plates(const Model& model, SpringSet springs, std::vector<SolvedLoading>& all) {
  std::vector<SolvedLoading*> moved;
  std::vector<solve::Answered> answered;
  for (SolvedLoading& loading : all) {
    if (!loading.state || springs_of(model, loading.of) != springs) continue;
    moved.push_back(&loading);
    answered.push_back({&loading.loading, &*loading.state});
  }
  if (moved.empty()) return;
  for (std::size_t plate = 0; plate < model.plates.size(); ++plate) {
    const solve::PlateMovements movements =
        solve::plate_movements(*moved.front()->prepared, plate, answered);
    for (std::size_t l = 0; l < moved.size(); ++l) {
      moved[l]->plates.emplace_back(movements.col(static_cast<Eigen::Index>(l)));
    }
  }
}

std::vector<SolvedLoading> solve_all(const Model& model) {
  Factorised factorised(model);
  std::vector<SolvedLoading> all;
  for (model::CaseId c = 0; c < model.cases.size(); ++c) {
    all.push_back(solved_loading(factorised, model.cases[c].name, {false, c}, SpringSet::gravity,
                                 {{{c, 1.0}}, {}}));
  }
  for (std::size_t c = 0; c < model.combinations.size(); ++c) {
    const model::Combination& combination = model.combinations[c];
    all.push_back(solved_loading(factorised, combination.name, {true, c}, combination.springs,
                                 solve::loading_of(combination)));
  }
  for (const SpringSet springs : {SpringSet::gravity, SpringSet::sway}) {
    move_plates(model, springs, all);
  }
  return all;
}

const solve::Diagram& diagram_of(const solve::MemberDiagrams& diagrams,
                                 Expectation::Component component) {
  using Component = Expectation::Component;
  switch (component) {
    case Component::N:
      return diagrams.N;
    case Component::V_y:
      return diagrams.V_y;
    case Component::V_z:
      return diagrams.V_z;
    case Component::T:
      return diagrams.T;
    case Component::M_y:
      return diagrams.M_y;
    case Component::M_z:
      return diagrams.M_z;
    case Component::u:
      return diagrams.u;
    case Component::v:
      return diagrams.v;
    case Component::w:
      return diagrams.w;
  }
  return diagrams.N;
}

double section_property(const model::Section& section, Expectation::Property property) {
  using Property = Expectation::Property;
  using quantity::in_si;
  switch (property) {
    case Property::A:
      return in_si(section.A);
    case Property::A_sy:
      return in_si(section.A_sy);
    case Property::A_sz:
      return in_si(section.A_sz);
    case Property::I_y:
      return in_si(section.I_y);
    case Property::I_z:
      return in_si(section.I_z);
    case Property::J:
      return in_si(section.J);
  }
  return 0.0;
}

/// How far the member's end has moved against its node: the spring pushes the end back with
/// -stiffness times that.
double spring_deformation(const model::Division& division, const Expectation& e, SpringSet springs,
                          const solve::State& state) {
  const std::vector<model::MemberId>& pieces = division.pieces[e.member];
  const model::MemberId piece = e.at_end ? pieces.back() : pieces.front();
  const model::Member& member = division.model.members[piece];
  const auto freedom = static_cast<std::size_t>(e.freedom);
  const model::EndSpring& spring = (e.at_end ? member.end_springs : member.start_springs)[freedom];
  const double stiffness = springs == SpringSet::gravity ? spring.gravity : spring.sway;
  return -state.end_forces[piece][freedom + (e.at_end ? 6 : 0)] / stiffness;
}

double plate_force(const solve::PlateForces& forces, Expectation::PlateComponent component) {
  using Component = Expectation::PlateComponent;
  switch (component) {
    case Component::N_x:
      return forces.N_x;
    case Component::N_y:
      return forces.N_y;
    case Component::N_xy:
      return forces.N_xy;
    case Component::M_x:
      return forces.M_x;
    case Component::M_y:
      return forces.M_y;
    case Component::M_xy:
      return forces.M_xy;
    case Component::Q_x:
      return forces.Q_x;
    case Component::Q_y:
      return forces.Q_y;
    default:
      break;
  }
  return 0.0;
}

/// All five movements have the shape of w within a cell.
double plate_movement(const model::Plate& plate, const solve::PlateMovements& movements,
                      Eigen::Index freedom, const Expectation& e) {
  constexpr Eigen::Index per_node = 5, w = 2;
  solve::PlateMovements as_w = solve::PlateMovements::Zero(movements.rows(), 1);
  for (Eigen::Index n = 0; n < movements.rows(); n += per_node) {
    as_w(n + w, 0) = movements(n + freedom, 0);
  }
  return solve::plate_w(plate, as_w, e.on_plate[0], e.on_plate[1], 0);
}

double on_plate(const model::Plate& plate, const Expectation& e,
                const solve::PlateMovements& movements) {
  const auto component = static_cast<Eigen::Index>(e.plate_component);
  if (e.plate_component <= Expectation::PlateComponent::ry) {
    return plate_movement(plate, movements, component, e);
  }
  return plate_force(solve::plate_forces_at(plate, movements, e.on_plate[0], e.on_plate[1], 0),
                     e.plate_component);
}

/// What was found, for expectations that ask for a number.
struct Found {
  double value = 0.0;
  std::optional<double> place;
};

/// A place on a member, on the piece of it that holds the place.
struct OnPiece {
  model::MemberId piece = 0;
  double at = 0.0;
};

OnPiece on_piece(const model::Division& division, model::MemberId member, double at,
                 bool from_left) {
  double rest = at;
  const std::vector<model::MemberId>& pieces = division.pieces[member];
  for (const model::MemberId piece : pieces) {
    const model::Model& model = division.model;
    const double length = quantity::in_si(model::member_frame(model, model.members[piece]).length);
    const double rounding = 1e-9 * length;
    const bool is_last = piece == pieces.back();
    if (is_last || rest < length - rounding || (from_left && rest < length + rounding)) {
      return {piece, std::min(rest, length)};
    }
    rest -= length;
  }
  return {member, at};
}

Found extreme_of(const model::Division& division, const Expectation& e,
                 const SolvedLoading& loading) {
  std::optional<Found> found;
  double start = 0.0;
  for (const model::MemberId piece : division.pieces[e.member]) {
    const solve::Diagram::Extremes extremes =
        diagram_of(solve::diagrams(*loading.prepared, piece, loading.loading, *loading.state),
                   e.component)
            .extremes();
    const bool least = e.which == Expectation::Which::least;
    const solve::Diagram::Place& place = least ? extremes.least : extremes.greatest;
    if (!found || (least ? place.value < found->value : place.value > found->value)) {
      found = Found{place.value, start + place.x};
    }
    start +=
        quantity::in_si(model::member_frame(division.model, division.model.members[piece]).length);
  }
  return *found;
}

Found find_number(const model::Division& division, const Expectation& e,
                  const SolvedLoading& loading) {
  const Model& model = division.model;
  const solve::State& state = *loading.state;
  switch (e.of) {
    case Of::displacement:
      return {state.at(e.node, e.freedom), {}};
    case Of::stiffness:
      return {e.pushed_with / state.at(e.node, e.freedom), {}};
    case Of::reaction:
      return {state.support_forces[e.support], {}};
    case Of::force: {
      const OnPiece on = on_piece(division, e.member, quantity::in_si(e.at), e.from_left);
      const solve::MemberDiagrams all =
          solve::diagrams(*loading.prepared, on.piece, loading.loading, state);
      return {diagram_of(all, e.component).at(on.at, e.from_left), {}};
    }
    case Of::extreme:
      return extreme_of(division, e, loading);
    case Of::spring:
      return {spring_deformation(division, e, springs_of(model, loading.of), state), {}};
    case Of::plate:
      return {on_plate(model.plates[e.plate], e, loading.plates[e.plate]), {}};
    case Of::tie: {
      const auto forces = solve::tie_forces(*loading.prepared, e.plate, state);
      return {forces[e.tie][static_cast<std::size_t>(e.tie_component)], {}};
    }
    case Of::section:
    case Of::refusal:
    case Of::buckling:
    case Of::frequency:
      break;
  }
  return {};
}

/// The buckling factor of one loading, or why there is none.
tl::expected<double, std::string> buckling_factor(const Expectation& e,
                                                  const SolvedLoading& loading) {
  const auto modes = solve::buckling(*loading.prepared, *loading.state, e.mode);
  if (!modes) return tl::unexpected("refused: " + modes.error().what);
  if (modes->size() < static_cast<std::size_t>(e.mode)) {
    return tl::unexpected(std::string("it does not buckle in so many ways"));
  }
  return modes->back().factor;
}

std::string refusal_word(solve::Refusal::Why why) {
  return model::refusal_words().at(static_cast<std::size_t>(why));
}

Comparison compare_refusal(const Expectation& e, const SolvedLoading& loading) {
  Comparison comparison;
  if (loading.state) {
    comparison.why_not = "it was solved";
  } else if (refusal_word(loading.state.error().why) != e.because) {
    comparison.why_not =
        "refused as " + refusal_word(loading.state.error().why) + ": " + loading.state.error().what;
  } else {
    comparison.met = true;
  }
  return comparison;
}

bool is_placed_right(const Model& model, const Expectation& e, const Found& found) {
  if (!e.place) return true;
  const double length = quantity::in_si(model::member_frame(model, model.members[e.member]).length);
  return found.place && std::abs(*found.place - quantity::in_si(*e.place)) <= 1e-6 * length;
}

Comparison compare_number(const Model& model, const Expectation& e, const Found& found) {
  Comparison comparison;
  comparison.got = found.value;
  comparison.got_place = found.place;
  const double got = e.magnitude ? std::abs(found.value) : found.value;
  const double expected = e.magnitude ? std::abs(e.value) : e.value;
  const double off = std::abs(got - expected);
  comparison.is_absolute = !e.within;
  comparison.error = e.within ? off / std::abs(expected) : off;
  const bool is_near = (!e.within || off <= *e.within * std::abs(expected)) &&
                       (!e.within_absolute || off <= *e.within_absolute);
  const bool has_tolerance = e.within || e.within_absolute;
  if (!std::isfinite(got)) {
    comparison.why_not = "the answer is not a number";
  } else if (!has_tolerance || !is_near) {
    comparison.why_not = "outside the tolerance";
  } else if (!is_placed_right(model, e, found)) {
    comparison.why_not = "the extreme lies elsewhere";
  } else {
    comparison.met = true;
  }
  return comparison;
}

const SolvedLoading& loading_of(const Expectation& e, const std::vector<SolvedLoading>& loadings,
                                std::size_t n_cases) {
  return loadings.at(e.under->place + (e.under->is_combination ? n_cases : 0));
}

Comparison not_found(std::string why) {
  Comparison comparison;
  comparison.why_not = std::move(why);
  return comparison;
}

Comparison compare_frequency(const FrameCase& frame_case, const Expectation& e) {
  const auto found = frequencies(frame_case, e.under, e.mode);
  if (found && found->size() >= static_cast<std::size_t>(e.mode)) {
    return compare_number(frame_case.model, e, {found->back(), {}});
  }
  Comparison comparison;
  comparison.why_not = found ? fmt::format("the frame has only {} modes", found->size())
                             : "refused: " + found.error().what;
  return comparison;
}

Comparison compare(const FrameCase& frame_case, const Expectation& e, const CaseAnswers& answers) {
  const Model& model = frame_case.model;
  if (e.of == Of::section) {
    const model::Section& section = frame_case.sections[e.section].section;
    return compare_number(model, e, {section_property(section, e.property), {}});
  }
  if (e.of == Of::frequency) return compare_frequency(frame_case, e);
  const SolvedLoading& loading = loading_of(e, answers.loadings, model.cases.size());
  if (e.of == Of::refusal) return compare_refusal(e, loading);
  if (!loading.state) return not_found("refused: " + loading.state.error().what);
  if (e.of == Of::buckling) {
    const auto factor = buckling_factor(e, loading);
    return factor ? compare_number(model, e, {*factor, {}}) : not_found(factor.error());
  }
  return compare_number(model, e, find_number(answers.division, e, loading));
}

}  // namespace

bool CaseAnswers::all_met() const {
  return std::all_of(comparisons.begin(), comparisons.end(),
                     [](const Comparison& c) { return c.met; });
}

CaseAnswers solve_case(const FrameCase& frame_case) {
  CaseAnswers answers;
  answers.division = model::divided(frame_case.model, frame_case.divide);
  answers.loadings = solve_all(answers.division.model);
  for (const Expectation& e : frame_case.expectations) {
    answers.comparisons.push_back(compare(frame_case, e, answers));
  }
  return answers;
}

}  // namespace standtrue::decide
