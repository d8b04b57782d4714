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

  [[nodiscard]] Eigen::VectorXd correct(const Eigen::VectorXd& movement) const {
    if (k_.size() == 0) return movement;
    const Eigen::VectorXd e = scale_.asDiagonal() * (a_.transpose() * movement);
    return movement - Z_ * (scale_.asDiagonal() * Eigen::VectorXd(lu_.solve(e)));
  }
  /// Own forces with which the changes resist a movement.
  [[nodiscard]] Eigen::VectorXd pull(const Eigen::VectorXd& movement) const {
    if (k_.size() == 0) return Eigen::VectorXd::Zero(movement.size());
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
  std::vector<bool> open;  ///< per support
};

double spring_or_frame_stiffness(const Prepared::Inside& in, const model::Support& support) {
  if (support.stiffness) return *support.stiffness;
  const Eigen::Matrix<double, 6, 1> n = in.own_direction(support);
  const auto at = static_cast<Eigen::Index>(6 * support.node);
  double k = 0.0;
  for (Eigen::Index i = 0; i < 6; ++i) k += n(i) * n(i) * in.K.coeff(at + i, at + i);
  return k;
}

/// Lets press-only supports go where they would pull.
OrRefusal<Answer> with_contact(const Prepared::Inside& in, const Changes& changes,
                               Eigen::VectorXd movement, const Eigen::VectorXd& load) {
  const std::size_t n = in.contact_fields.size();
  Answer answer{std::move(movement), in.ground, std::vector<bool>(in.model.supports.size(), false)};
  if (n == 0) return answer;
  const auto forces = [&](const Eigen::VectorXd& u, const Eigen::VectorXd& ground,
                          const Eigen::VectorXd& f) {
    return in.support_forces(u, ground, in.K * u + changes.pull(u) - f);
  };
  const auto size = static_cast<Eigen::Index>(n);
  ContactProblem problem{Eigen::VectorXd(size), Eigen::MatrixXd(size, size), Eigen::VectorXd(size),
                         std::vector<bool>(n), std::vector<std::size_t>(n, 0)};
  std::vector<Eigen::VectorXd> fields;
  const auto n_supports = static_cast<Eigen::Index>(in.model.supports.size());
  const std::vector<double> base =
      forces(answer.movement, answer.ground, load + in.ground_forces(answer.ground));
  for (std::size_t j = 0; j < n; ++j) {
    const std::size_t s = in.contact_fields[j].support;
    const model::Support& support = in.model.supports[s];
    const auto J = static_cast<Eigen::Index>(j);
    fields.push_back(changes.correct(in.contact_fields[j].movement));
    const Eigen::VectorXd unit = Eigen::VectorXd::Unit(n_supports, static_cast<Eigen::Index>(s));
    const std::vector<double> changed = forces(fields.back(), unit, in.ground_forces(unit));
    problem.force(J) = base[s];
    problem.stiffness(J) = spring_or_frame_stiffness(in, support);
    problem.press_only[j] = support.press_only;
    for (std::size_t i = 0; i < n; ++i) {
      problem.change(static_cast<Eigen::Index>(i), J) = changed[in.contact_fields[i].support];
      if (support.rides_on == in.contact_fields[i].support) problem.rides_on[j] = i;
    }
  }
  OrRefusal<ContactSolution> solution = solve_contact(problem);
  if (!solution) return tl::unexpected(solution.error());
  for (std::size_t j = 0; j < n; ++j) {
    const std::size_t s = in.contact_fields[j].support;
    const double moved = solution->ground(static_cast<Eigen::Index>(j));
    answer.movement += moved * fields[j];
    answer.ground(static_cast<Eigen::Index>(s)) += moved;
    answer.open[s] =
        problem.press_only[j] ? solution->open[j] : solution->open[problem.rides_on[j]];
  }
  return answer;
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
    const MemberKernel& kernel = in.kernels[m];
    const Vector12 inner = kernel.inner(in.node_movements(m, state.displacement), f[m]);
    const Vector12 forces = kernel.end_forces(inner, f[m]);
    for (std::size_t i = 0; i < 12; ++i)
      state.end_forces[m][i] = forces(static_cast<Eigen::Index>(i));
  }
}

/// Loads and support forces (and changes against the ground) must balance, moments about the middle
/// of the frame: about a far origin rounding would grow with the distance.
double lost_equilibrium(const Prepared::Inside& in, const Resultant& loads,
                        std::span<const StiffnessChange> changes, const State& state) {
  Resultant all = loads;
  Eigen::Vector3d middle = Eigen::Vector3d::Zero();
  for (const model::Node& node : in.model.nodes) middle += vector_of(node.at);
  middle /= static_cast<double>(in.model.nodes.size());
  double reach = 0.0;
  for (const model::Node& node : in.model.nodes) {
    reach = std::max(reach, (vector_of(node.at) - middle).norm());
  }
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

}  // namespace

OrRefusal<State> respond(const Prepared& prepared, const Loading& loading,
                         std::span<const StiffnessChange> changes) {
  const Prepared::Inside& in = prepared.inside();
  Eigen::VectorXd load = Eigen::VectorXd::Zero(in.freedoms.size());
  Eigen::VectorXd movement = in.ground_movement;
  Resultant resultant;
  for (const model::Factored& term : loading.terms) {
    const SolvedCase& solved = in.cases.at(term.load_case);
    if (solved.refusal) return tl::unexpected(*solved.refusal);
    load += term.factor * solved.load;
    movement += term.factor * solved.movement;
    resultant.add(solved.resultant, term.factor);
  }
  if (!loading.node_loads.empty()) {
    const Eigen::VectorXd global = node_forces(in.model, loading.node_loads, false);
    for (model::NodeId node = 0; node < in.model.nodes.size(); ++node) {
      const auto at = static_cast<Eigen::Index>(6 * node);
      resultant.add(vector_of(in.model.nodes[node].at), global.segment<3>(at),
                    global.segment<3>(at + 3));
    }
    const Eigen::VectorXd own = in.freedoms.to_own(global);
    load += own;
    movement += in.solve(own);
  }
  const OrRefusal<Changes> update = Changes::make(in, changes);
  if (!update) return tl::unexpected(update.error());
  OrRefusal<Answer> answer = with_contact(in, *update, update->correct(movement), load);
  if (!answer) return tl::unexpected(answer.error());

  State state;
  state.displacement = in.freedoms.to_global(answer->movement);
  const Eigen::VectorXd pull = in.K * answer->movement + update->pull(answer->movement) - load -
                               in.ground_forces(answer->ground);
  state.support_forces = in.support_forces(answer->movement, answer->ground, pull);
  state.touching.assign(in.model.supports.size(), true);
  for (std::size_t s = 0; s < answer->open.size(); ++s) {
    if (!answer->open[s]) continue;
    state.touching[s] = false;
    state.support_forces[s] = 0.0;
  }
  recover_members(in, loading, state);
  const double size = std::max(load.norm(), in.ground_forces(answer->ground).norm());
  state.audit.residual = size > 0.0 ? in.freedoms.free_part(pull).norm() / size : 0.0;
  state.audit.equilibrium = lost_equilibrium(in, resultant, changes, state);
  if (!(state.audit.residual <= audit_limit) || !(state.audit.equilibrium <= audit_limit)) {
    return tl::unexpected(
        Refusal{Refusal::Why::audit_failed,
                fmt::format("the answer does not balance: residual {:.1e}, equilibrium {:.1e}",
                            state.audit.residual, state.audit.equilibrium),
                "stiff and soft parts differ too much; make extremes rigid or free", std::nullopt});
  }
  return state;
}

}  // namespace standtrue::solve
