// All numbers SI (m, N, Pa, rad).
#include <fmt/format.h>

#include <cmath>

#include "solve/audit.hpp"
#include "solve/changes.hpp"
#include "solve/contact_problem.hpp"
#include "solve/prepared.hpp"
#include "solve/second_order.hpp"
#include "standtrue/contract.hpp"

namespace standtrue::solve {

namespace {

struct Answer {
  Eigen::VectorXd movement;  ///< own
  Eigen::VectorXd ground;
  std::vector<bool> open;  ///< per support
  std::vector<bool> sliding;
  double residual = 0.0;        ///< bound, by the sum of those of what is superposed
  Eigen::VectorXd held_forces;  ///< in the order of Freedoms::held

  void add(const Field& field, double factor) {
    movement += factor * field.movement;
    residual += std::abs(factor) * field.residual;
    held_forces += factor * field.held_forces;
  }
};

/// The frame as it is, with its changes: what moves, and what then holds.
struct Changed {
  const Prepared::Inside& in;
  const Changes& changes;

  [[nodiscard]] Field field(const Field& unchanged, const Eigen::VectorXd& own_forces) const {
    if (changes.none()) return unchanged;
    Eigen::VectorXd movement = changes.correct(unchanged.movement);
    const Eigen::VectorXd pull = changes.pull(movement);
    return in.balance(std::move(movement), own_forces - pull);
  }
  [[nodiscard]] Field moved_by(const Eigen::VectorXd& own_forces, bool audited) const {
    if (!audited && changes.none()) return in.roughly(own_forces);
    return field(in.balance(in.solve(own_forces), own_forces), own_forces);
  }
};

/// The contact problem of a loading, and what its grounds do to the frame.
struct Contact {
  ContactProblem problem;
  std::vector<Field> fields;
};

Contact contact_of(const Changed& frame, const Answer& answer) {
  const Prepared::Inside& in = frame.in;
  Contact contact{
      contact_problem(in, in.support_forces(answer.movement, answer.ground, answer.held_forces)),
      {}};
  if (frame.changes.none()) return contact;
  contact.problem.lifts.resize(0, 0);  // a change may hold the frame against the ground
  const std::size_t n = in.contact_fields.size();
  const auto n_supports = static_cast<Eigen::Index>(in.model.supports.size());
  for (std::size_t j = 0; j < n; ++j) {
    const auto s = static_cast<Eigen::Index>(in.contact_fields[j].support);
    const Eigen::VectorXd unit = Eigen::VectorXd::Unit(n_supports, s);
    contact.fields.push_back(frame.field(in.contact_fields[j].field, in.ground_forces(unit)));
    const std::vector<double> changed =
        in.support_forces(contact.fields.back().movement, unit, contact.fields.back().held_forces);
    for (std::size_t i = 0; i < n; ++i) {
      contact.problem.change(static_cast<Eigen::Index>(i), static_cast<Eigen::Index>(j)) =
          changed[in.contact_fields[i].support];
    }
  }
  return contact;
}

/// With friction or, without it, as if every foot that presses held.
OrRefusal<FrictionSolution> let_go_of(const Prepared::Inside& in, const ContactProblem& problem,
                                      bool slides) {
  if (slides) return solve_friction(problem, grips_of(in, problem));
  OrRefusal<ContactSolution> held = solve_contact(problem);
  if (!held) return tl::unexpected(held.error());
  std::vector<bool> sliding(problem.press_only.size(), false);
  for (std::size_t j = 0; j < sliding.size(); ++j) {
    sliding[j] = !problem.press_only[j] && held->slipping[problem.rides_on[j]];
  }
  return FrictionSolution{std::move(held->ground), std::move(held->open), std::move(sliding)};
}

/// Lets press-only supports go where they would pull, and feet slide where friction is overcome.
std::optional<Refusal> let_go(const Changed& frame, Answer& answer, bool slides) {
  const Prepared::Inside& in = frame.in;
  const std::size_t n = in.contact_fields.size();
  if (n == 0) return std::nullopt;
  const Contact contact = contact_of(frame, answer);
  const ContactProblem& problem = contact.problem;
  const OrRefusal<FrictionSolution> solution = let_go_of(in, problem, slides);
  if (!solution) return solution.error();
  for (std::size_t j = 0; j < n; ++j) {
    const std::size_t s = in.contact_fields[j].support;
    const double moved = solution->ground(static_cast<Eigen::Index>(j));
    if (moved != 0.0) {
      answer.add(frame.changes.none() ? in.contact_fields[j].field : contact.fields[j], moved);
      answer.ground(static_cast<Eigen::Index>(s)) += moved;
    }
    answer.open[s] =
        problem.press_only[j] ? solution->open[j] : solution->open[problem.rides_on[j]];
    answer.sliding[s] = solution->sliding[j];
  }
  return std::nullopt;
}

void recover_members(const Prepared::Inside& in, const std::vector<Vector12>& f, State& state) {
  state.end_forces.resize(in.model.members.size());
  for (model::MemberId m = 0; m < in.model.members.size(); ++m) {
    const Vector12 forces =
        in.kernels[m].end_forces_of(in.node_movements(m, state.displacement), f[m]);
    for (std::size_t i = 0; i < 12; ++i)
      state.end_forces[m][i] = forces(static_cast<Eigen::Index>(i));
  }
}

/// Sums the cases and loads of a loading with its factors: what the frame does with all feet down.
struct Superposed {
  Answer answer;
  Eigen::VectorXd load;  ///< own, with what the weights press on their seats with
  Resultant resultant;
  Eigen::VectorXd seat_forces;
};

OrRefusal<Superposed> superpose(const Prepared::Inside& in, const Loading& loading) {
  Superposed sum{{Eigen::VectorXd::Zero(in.freedoms.size()), in.ground,
                  std::vector<bool>(in.model.supports.size(), false),
                  std::vector<bool>(in.model.supports.size(), false), 0.0,
                  Eigen::VectorXd::Zero(static_cast<Eigen::Index>(in.freedoms.held.size()))},
                 Eigen::VectorXd::Zero(in.freedoms.size()),
                 {},
                 Eigen::VectorXd::Zero(in.seats.count())};
  sum.answer.add(in.ground_field, 1.0);
  for (const model::Factored& term : loading.terms) {
    const SolvedCase& solved = in.cases.at(term.load_case);
    if (solved.refusal) return tl::unexpected(*solved.refusal);
    sum.load += term.factor * solved.load;
    if (solved.seat_forces.size() > 0) sum.seat_forces += term.factor * solved.seat_forces;
    sum.answer.add(in.case_field(term.load_case), term.factor);
    sum.resultant.add(solved.resultant, term.factor);
  }
  if (!in.seats.none()) sum.load += in.seats.own_load(sum.seat_forces);
  if (loading.node_loads.empty()) return sum;
  const Eigen::VectorXd global = node_forces(in.model, loading.node_loads, false);
  for (model::NodeId node = 0; node < in.model.nodes.size(); ++node) {
    const auto at = static_cast<Eigen::Index>(6 * node);
    sum.resultant.add(vector_of(in.model.nodes[node].at), global.segment<3>(at),
                      global.segment<3>(at + 3));
  }
  const Eigen::VectorXd own = in.freedoms.to_own(global);
  sum.load += own;
  sum.answer.add(in.balance(in.solve(own), own), 1.0);
  return sum;
}

void move_grounds(const Changed& frame, const Loading& loading, Answer& answer) {
  const Prepared::Inside& in = frame.in;
  for (const GroundMove& move : loading.grounds) {
    const auto s = static_cast<Eigen::Index>(move.support);
    const Eigen::VectorXd unit = Eigen::VectorXd::Unit(answer.ground.size(), s);
    const auto known =
        std::find_if(in.contact_fields.begin(), in.contact_fields.end(),
                     [&](const GroundField& field) { return field.support == move.support; });
    const Field field =
        known != in.contact_fields.end()
            ? known->field
            : in.fields({{in.ground_forces(unit), in.held_movements(unit)}}).front();
    answer.add(frame.field(field, in.ground_forces(unit)), move.by);
    answer.ground(s) += move.by;
  }
}

/// Of an answer: movements, support forces and end forces, `f` what loads each member.
State recovered(const Prepared::Inside& in, const Answer& answer, const std::vector<Vector12>& f) {
  State state;
  const Eigen::VectorXd global = in.freedoms.to_global(answer.movement);
  state.displacement = global.head(in.freedoms.of_nodes());
  state.tied_points = global.tail(global.size() - in.freedoms.of_nodes());
  state.support_forces = in.support_forces(answer.movement, answer.ground, answer.held_forces);
  state.touching.assign(in.model.supports.size(), true);
  state.sliding = answer.sliding;
  for (std::size_t s = 0; s < answer.open.size(); ++s) {
    if (!answer.open[s]) continue;
    state.touching[s] = false;
    state.support_forces[s] = 0.0;
  }
  recover_members(in, f, state);
  return state;
}

std::vector<Vector12> member_loads(const Prepared::Inside& in, const Loading& loading) {
  std::vector<Vector12> f(in.model.members.size(), Vector12::Zero());
  for (const model::Factored& term : loading.terms) {
    for (const MemberLoad& load : in.cases[term.load_case].member_loads) {
      f[load.member] += term.factor * load.f;
    }
  }
  return f;
}

Refusal buckles() {
  return {Refusal::Why::buckles, "the frame gives way sideways under its own load: it buckles",
          "a diagonal, stiffer joints, or less load", std::nullopt};
}

Refusal contact_unsettled() {
  return {Refusal::Why::contact_unsettled,
          "where the frame moves to under its loads does not settle",
          "check gaps and stiffness of its supports", std::nullopt};
}

/// Repeats an answer with the axial forces' push on what has moved, until it repeats itself.
class MovedEquilibrium {
 public:
  /// `sum` takes the push among its loads.
  MovedEquilibrium(const Changed& frame, const Loading& loading, Superposed& sum)
      : frame_(frame),
        loading_(loading),
        loads_(member_loads(frame.in, loading)),
        first_(sum),
        sum_(sum),
        second_(frame.in, loading) {}

  OrRefusal<State> settle() {
    const OrRefusal<bool> is_settled = repeat();
    if (!is_settled) return tl::unexpected(is_settled.error());
    if (*is_settled) {
      if (const auto refusal = answer(true)) return tl::unexpected(why(*refusal));
    }
    // Past the buckling load there is a balance too, on the wrong side.
    if ((!*is_settled || !loading_.known_to_stand) && !second_.stands(state_)) {
      return tl::unexpected(buckles());
    }
    if (!*is_settled) return tl::unexpected(contact_unsettled());
    state_.askew = second_.askew(push_);
    return std::move(state_);
  }

 private:
  /// Whether it repeats itself. The push that is then left is of the last answer: one step further.
  OrRefusal<bool> repeat() {
    constexpr int most = 50;
    constexpr double repeated = 1e-9;
    // What rounding keeps from settling, by a frame of stiff and soft parts, is refined.
    constexpr int long_for_rounding = 20;
    for (int round = 0; round < most; ++round) {
      const Eigen::VectorXd before = state_.displacement;
      if (const auto refusal = answer(round >= long_for_rounding)) {
        return tl::unexpected(why(*refusal));
      }
      const double size = state_.displacement.cwiseAbs().maxCoeff();
      if (!std::isfinite(size)) break;
      const bool is_settled =
          round > 0 && (state_.displacement - before).cwiseAbs().maxCoeff() <= repeated * size;
      const Eigen::VectorXd next = second_.push_of(state_, f_);
      push_ = round == 0 ? next : repetition_.next(push_, next);
      if (is_settled) return true;
    }
    return false;
  }
  /// The answer to the loads with the push.
  std::optional<Refusal> answer(bool audited) {
    f_ = loads_;
    sum_ = first_;
    if (push_.size() > 0) {
      const Eigen::VectorXd own = second_.own_load(push_, sum_.resultant);
      sum_.load += own;
      sum_.answer.add(frame_.moved_by(own, audited), 1.0);
      for (std::size_t m = 0; m < f_.size(); ++m) {
        f_[m] += push_.segment<12>(static_cast<Eigen::Index>(12 * m));
      }
    }
    if (auto refusal = let_go(frame_, sum_.answer, loading_.slides)) return refusal;
    state_ = recovered(frame_.in, sum_.answer, f_);
    return std::nullopt;
  }
  /// What grows without end lifts its feet on the way.
  [[nodiscard]] Refusal why(const Refusal& refusal) const {
    return push_.size() > 0 && !second_.stands(state_) ? buckles() : refusal;
  }

  const Changed& frame_;
  const Loading& loading_;
  std::vector<Vector12> loads_;
  Superposed first_;
  Superposed& sum_;
  SecondOrder second_;
  Repetition repetition_;
  Eigen::VectorXd push_;
  std::vector<Vector12> f_;  ///< what loads each member, with the push
  State state_;
};

}  // namespace

Loading loading_of(const model::Combination& combination) {
  Loading loading;
  loading.terms = combination.terms;
  loading.second_order = combination.second_order;
  loading.lean = combination.lean;
  loading.stiffness_over = combination.stiffness_over;
  loading.slides = combination.slides;
  return loading;
}

OrRefusal<State> respond(const Prepared& prepared, const Loading& loading,
                         std::span<const StiffnessChange> changes) {
  const Prepared::Inside& in = prepared.inside();
  OrRefusal<Superposed> sum = superpose(in, loading);
  if (!sum) return tl::unexpected(sum.error());
  Answer& answer = sum->answer;
  const OrRefusal<Changes> update = Changes::make(in, changes);
  if (!update) return tl::unexpected(update.error());
  const Changed frame{in, *update};
  if (!update->none()) {
    const Field field = frame.field({answer.movement, 0.0, answer.held_forces},
                                    sum->load + in.ground_forces(answer.ground));
    answer.movement = field.movement;
    answer.residual = field.residual;
    answer.held_forces = field.held_forces;
  }
  move_grounds(frame, loading, answer);
  State state;
  if (loading.second_order) {
    OrRefusal<State> moved = MovedEquilibrium(frame, loading, *sum).settle();
    if (!moved) return moved;
    state = std::move(*moved);
  } else {
    if (const auto refusal = let_go(frame, answer, loading.slides)) {
      return tl::unexpected(*refusal);
    }
    state = recovered(in, answer, member_loads(in, loading));
  }
  state.seat_forces = std::move(sum->seat_forces);
  const double size = std::max(sum->load.norm(), in.ground_forces(answer.ground).norm());
  state.audit.residual = size > 0.0 ? answer.residual / size : 0.0;
  add_holds(in, loading, state, sum->resultant);
  state.audit.equilibrium = lost_equilibrium(in, sum->resultant, changes, state);
  if (const std::optional<Refusal> refusal = audit_refusal(state.audit)) {
    return tl::unexpected(*refusal);
  }
  return state;
}

}  // namespace standtrue::solve
