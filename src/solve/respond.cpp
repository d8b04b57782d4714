// All numbers SI (m, N, Pa, rad).
#include <fmt/format.h>
#include <Eigen/LU>

#include <cmath>

#include "solve/contact.hpp"
#include "solve/prepared.hpp"
#include "standtrue/contract.hpp"

namespace standtrue::solve {

namespace {

/// Largest residual and loss of equilibrium, relative to the loads, that an answer may have:
/// rounding (1e-16) times the condition of a frame with members a million times stiffer than others
/// (1e9), with a factor of ten to spare. Six figures are then right.
constexpr double audit_limit = 1e-6;

/// Stiffness changes as k a a^T with `a` over own freedoms, by Woodbury's formula:
///     u' = u - Z (1/k + a^T Z)^-1 a^T u,   Z = K^-1 a.
class Changes {
 public:
  static OrRefusal<Changes> make(const Prepared::Inside& in,
                                 std::span<const StiffnessChange> changes) {
    Changes result;
    const auto n = static_cast<Eigen::Index>(changes.size());
    result.a_ = Eigen::MatrixXd::Zero(in.freedoms.size(), n);
    result.Z_ = Eigen::MatrixXd::Zero(in.freedoms.size(), n);
    result.k_ = Eigen::VectorXd::Zero(n);
    for (Eigen::Index j = 0; j < n; ++j) {
      const StiffnessChange& change = changes[static_cast<std::size_t>(j)];
      expects(std::isfinite(change.stiffness) && change.stiffness != 0.0,
              "respond: a stiffness change must be finite and not zero");
      const Eigen::Matrix<double, 6, 1> d = direction(change.rotation, change.along);
      const auto place = [&](model::NodeId node, double sign) {
        result.a_.col(j).segment<6>(static_cast<Eigen::Index>(6 * node)) +=
            sign * (in.freedoms.basis[node].transpose() * d);
      };
      place(change.a, change.b ? -1.0 : 1.0);
      if (change.b) place(*change.b, 1.0);
      result.k_(j) = change.stiffness;
      result.Z_.col(j) = in.solve(result.a_.col(j));
    }
    if (n == 0) return result;
    const Eigen::MatrixXd capacitance =
        Eigen::MatrixXd(result.k_.cwiseInverse().asDiagonal()) + result.a_.transpose() * result.Z_;
    const Eigen::VectorXd scale = result.k_.cwiseAbs().cwiseSqrt();
    result.scale_ = scale;
    result.lu_.compute(scale.asDiagonal() * capacitance * scale.asDiagonal());
    result.lu_.setThreshold(1e-10);
    if (!result.lu_.isInvertible()) {
      const StiffnessChange& first = changes.front();
      return tl::unexpected(Refusal{Refusal::Why::mechanism,
                                    fmt::format("without that stiffness node {} can move freely",
                                                in.model.nodes[first.a].name),
                                    "keep some of it", first.a});
    }
    return result;
  }

  [[nodiscard]] bool none() const { return k_.size() == 0; }
  [[nodiscard]] Eigen::VectorXd correct(const Eigen::VectorXd& movement) const {
    if (none()) return movement;
    const Eigen::VectorXd e = scale_.asDiagonal() * (a_.transpose() * movement);
    return movement - Z_ * (scale_.asDiagonal() * Eigen::VectorXd(lu_.solve(e)));
  }
  /// Own forces with which the changes resist a movement.
  [[nodiscard]] Eigen::VectorXd pull(const Eigen::VectorXd& movement) const {
    if (none()) return Eigen::VectorXd::Zero(movement.size());
    return a_ * (k_.asDiagonal() * (a_.transpose() * movement));
  }

 private:
  Eigen::MatrixXd a_, Z_;
  Eigen::VectorXd k_, scale_;
  Eigen::FullPivLU<Eigen::MatrixXd> lu_;
};

struct Answer {
  Eigen::VectorXd movement;  ///< own
  Eigen::VectorXd ground;
  std::vector<bool> open;       ///< per support
  double residual = 0.0;        ///< bound, by the sum of those of what is superposed
  Eigen::VectorXd held_forces;  ///< in the order of Freedoms::held

  void add(const Field& field, double factor) {
    movement += factor * field.movement;
    residual += std::abs(factor) * field.residual;
    held_forces += factor * field.held_forces;
  }
};

double spring_or_frame_stiffness(const Prepared::Inside& in, const model::Support& support) {
  if (support.stiffness) return *support.stiffness;
  const Eigen::Matrix<double, 6, 1> n = in.own_direction(support);
  const auto at = static_cast<Eigen::Index>(6 * support.node);
  double k = 0.0;
  for (Eigen::Index i = 0; i < 6; ++i) k += n(i) * n(i) * in.K.coeff(at + i, at + i);
  return k;
}

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
};

/// The contact problem of a loading, and what its grounds do to the frame.
struct Contact {
  ContactProblem problem;
  std::vector<Field> fields;
};

Contact contact_of(const Changed& frame, const Answer& answer) {
  const Prepared::Inside& in = frame.in;
  const std::size_t n = in.contact_fields.size();
  const auto size = static_cast<Eigen::Index>(n);
  Contact contact{{Eigen::VectorXd(size), in.contact_change, Eigen::VectorXd(size),
                   std::vector<bool>(n), std::vector<std::size_t>(n, 0)},
                  {}};
  ContactProblem& problem = contact.problem;
  const auto n_supports = static_cast<Eigen::Index>(in.model.supports.size());
  const std::vector<double> base =
      in.support_forces(answer.movement, answer.ground, answer.held_forces);
  for (std::size_t j = 0; j < n; ++j) {
    const std::size_t s = in.contact_fields[j].support;
    const model::Support& support = in.model.supports[s];
    const auto J = static_cast<Eigen::Index>(j);
    problem.force(J) = base[s];
    problem.stiffness(J) = spring_or_frame_stiffness(in, support);
    problem.press_only[j] = support.press_only;
    for (std::size_t i = 0; i < n; ++i) {
      if (support.rides_on == in.contact_fields[i].support) problem.rides_on[j] = i;
    }
    if (frame.changes.none()) continue;
    const Eigen::VectorXd unit = Eigen::VectorXd::Unit(n_supports, static_cast<Eigen::Index>(s));
    contact.fields.push_back(frame.field(in.contact_fields[j].field, in.ground_forces(unit)));
    const std::vector<double> changed =
        in.support_forces(contact.fields.back().movement, unit, contact.fields.back().held_forces);
    for (std::size_t i = 0; i < n; ++i) {
      problem.change(static_cast<Eigen::Index>(i), J) = changed[in.contact_fields[i].support];
    }
  }
  return contact;
}

/// Lets press-only supports go where they would pull.
std::optional<Refusal> let_go(const Changed& frame, Answer& answer) {
  const Prepared::Inside& in = frame.in;
  const std::size_t n = in.contact_fields.size();
  if (n == 0) return std::nullopt;
  const Contact contact = contact_of(frame, answer);
  const ContactProblem& problem = contact.problem;
  const OrRefusal<ContactSolution> solution = solve_contact(problem);
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
  }
  return std::nullopt;
}

void recover_members(const Prepared::Inside& in, const Loading& loading, State& state) {
  std::vector<Vector12> f(in.model.members.size(), Vector12::Zero());
  for (const model::Factored& term : loading.terms) {
    for (const MemberLoad& load : in.cases[term.load_case].member_loads) {
      f[load.member] += term.factor * load.f;
    }
  }
  state.end_forces.resize(in.model.members.size());
  for (model::MemberId m = 0; m < in.model.members.size(); ++m) {
    const Vector12 forces =
        in.kernels[m].end_forces_of(in.node_movements(m, state.displacement), f[m]);
    for (std::size_t i = 0; i < 12; ++i)
      state.end_forces[m][i] = forces(static_cast<Eigen::Index>(i));
  }
}

/// Loads and support forces (and changes against the ground) must balance, moments about the middle
/// of the frame: about a far origin rounding would grow with the distance.
double lost_equilibrium(const Prepared::Inside& in, const Resultant& loads,
                        std::span<const StiffnessChange> changes, const State& state) {
  Resultant all = loads;
  std::vector<Eigen::Vector3d> places;
  for (const model::Node& node : in.model.nodes) places.push_back(vector_of(node.at));
  for (const model::Plate& plate : in.model.plates) {
    places.push_back(position_of(plate, plate.x.front(), plate.y.front(), 0.0));
    places.push_back(position_of(plate, plate.x.back(), plate.y.back(), 0.0));
  }
  Eigen::Vector3d middle = Eigen::Vector3d::Zero();
  for (const Eigen::Vector3d& place : places) middle += place;
  middle /= static_cast<double>(places.size());
  double reach = 0.0;
  for (const Eigen::Vector3d& place : places) reach = std::max(reach, (place - middle).norm());
  const auto push = [&](model::NodeId node, bool rotation, const model::Direction& along,
                        double force) {
    const Eigen::Vector3d d = force * vector_of(along).normalized();
    const Eigen::Vector3d none = Eigen::Vector3d::Zero();
    all.add(vector_of(in.model.nodes[node].at), rotation ? none : d, rotation ? d : none);
  };
  for (std::size_t s = 0; s < in.model.supports.size(); ++s) {
    const model::Support& support = in.model.supports[s];
    push(support.node, support.rotation, support.along, state.support_forces[s]);
  }
  for (const StiffnessChange& change : changes) {
    if (change.b) continue;
    const Eigen::Matrix<double, 6, 1> d = direction(change.rotation, change.along);
    const auto at = static_cast<Eigen::Index>(6 * change.a);
    push(change.a, change.rotation, change.along,
         -change.stiffness * d.dot(state.displacement.segment<6>(at)));
  }
  const double arm = std::max(reach, 1e-3);
  const double scale = all.size + all.couples / arm;
  if (scale == 0.0) return 0.0;
  const Eigen::Vector3d moment = all.moment - middle.cross(all.force);
  return std::max(all.force.norm(), moment.norm() / arm) / scale;
}

/// Sums the cases and loads of a loading with its factors: what the frame does with all feet down.
struct Superposed {
  Answer answer;
  Eigen::VectorXd load;
  Resultant resultant;
};

OrRefusal<Superposed> superpose(const Prepared::Inside& in, const Loading& loading) {
  Superposed sum{{Eigen::VectorXd::Zero(in.freedoms.size()), in.ground,
                  std::vector<bool>(in.model.supports.size(), false), 0.0,
                  Eigen::VectorXd::Zero(static_cast<Eigen::Index>(in.freedoms.held.size()))},
                 Eigen::VectorXd::Zero(in.freedoms.size()),
                 {}};
  sum.answer.add(in.ground_field, 1.0);
  for (const model::Factored& term : loading.terms) {
    const SolvedCase& solved = in.cases.at(term.load_case);
    if (solved.refusal) return tl::unexpected(*solved.refusal);
    sum.load += term.factor * solved.load;
    sum.answer.add(solved.field, term.factor);
    sum.resultant.add(solved.resultant, term.factor);
  }
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

std::optional<Refusal> out_of_balance(const Audit& audit) {
  if (audit.residual <= audit_limit && audit.equilibrium <= audit_limit) return std::nullopt;
  return Refusal{Refusal::Why::audit_failed,
                 fmt::format("the answer does not balance: residual {:.1e}, equilibrium {:.1e}",
                             audit.residual, audit.equilibrium),
                 "stiff and soft parts differ too much; make extremes rigid or free", std::nullopt};
}

}  // namespace

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
  if (const std::optional<Refusal> refusal = let_go(frame, answer)) return tl::unexpected(*refusal);

  State state;
  const Eigen::VectorXd global = in.freedoms.to_global(answer.movement);
  state.displacement = global.head(in.freedoms.of_nodes());
  state.tied_points = global.tail(global.size() - in.freedoms.of_nodes());
  state.support_forces = in.support_forces(answer.movement, answer.ground, answer.held_forces);
  state.touching.assign(in.model.supports.size(), true);
  for (std::size_t s = 0; s < answer.open.size(); ++s) {
    if (!answer.open[s]) continue;
    state.touching[s] = false;
    state.support_forces[s] = 0.0;
  }
  recover_members(in, loading, state);
  const double size = std::max(sum->load.norm(), in.ground_forces(answer.ground).norm());
  state.audit.residual = size > 0.0 ? answer.residual / size : 0.0;
  add_holds(in, loading, state, sum->resultant);
  state.audit.equilibrium = lost_equilibrium(in, sum->resultant, changes, state);
  if (const std::optional<Refusal> refusal = out_of_balance(state.audit)) {
    return tl::unexpected(*refusal);
  }
  return state;
}

}  // namespace standtrue::solve
