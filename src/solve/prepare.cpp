// All numbers SI (m, N, Pa, rad).
#include <fmt/format.h>

#include "solve/prepared.hpp"
#include "solve/second_order.hpp"
#include "solve/tips_over.hpp"
#include "standtrue/contract.hpp"

namespace standtrue::solve {

namespace {

/// Below this the weakest movement is resisted by rounding alone.
constexpr double mechanism_condition = 1e-14;
/// Below this fewer than about three figures of an answer would be right.
constexpr double least_condition = 3e-13;

std::optional<Refusal> judge_factor(const Prepared::Inside& in) {
  const Factor& factor = *in.factor;
  if (factor.broke_down() || factor.reciprocal_condition() < mechanism_condition) {
    const Eigen::VectorXd own =
        in.freedoms.with_free_part(factor.weakest(), Eigen::VectorXd::Zero(in.freedoms.size()));
    return name_mechanism(in, in.freedoms.to_global(own));
  }
  if (factor.reciprocal_condition() < least_condition) {
    return Refusal{Refusal::Why::ill_conditioned,
                   fmt::format("stiff and soft parts differ too much for a trustworthy answer "
                               "(condition {:.1e})",
                               1.0 / factor.reciprocal_condition()),
                   "make extreme stiffnesses rigid or free instead", std::nullopt};
  }
  return std::nullopt;
}

/// Loads on a plate, from its own axes to the frame's.
void add_resultant(Resultant& resultant, const model::Plate& plate, const AnsweredPlate& answered,
                   Eigen::Index column) {
  const Eigen::Matrix3d to_global = axes_of(plate).transpose();
  const Eigen::Matrix<double, 7, 1> own = answered.resultants.col(column);
  const Eigen::Vector3d force = to_global * own.head<3>();
  resultant.force += force;
  resultant.moment +=
      to_global * own.segment<3>(3) + position_of(plate, 0.0, 0.0, 0.0).cross(force);
  resultant.size += own(6);
}

SolvedCase load_of(const Prepared::Inside& in, model::CaseId place) {
  SolvedCase solved;
  const model::LoadCase& load_case = in.model.cases[place];
  Eigen::VectorXd global = node_forces(in.model, load_case.node_loads, load_case.self_weight);
  for (model::NodeId node = 0; node < in.model.nodes.size(); ++node) {
    const auto at = static_cast<Eigen::Index>(6 * node);
    solved.resultant.add(vector_of(in.model.nodes[node].at), global.segment<3>(at),
                         global.segment<3>(at + 3));
  }
  for (model::MemberId m = 0; m < in.model.members.size(); ++m) {
    const MemberKernel& kernel = in.kernels[m];
    const model::Member& member = in.model.members[m];
    const Vector12 f = member_load(in.model, kernel, m, load_case);
    if (f.isZero(0.0)) continue;
    if (kernel.sets_spinning(f) && !solved.refusal) {
      solved.refusal =
          Refusal{Refusal::Why::mechanism,
                  fmt::format("member {} can turn about itself and load case {} turns it",
                              member.name, load_case.name),
                  "hold one of its ends against that turning", member.start};
    }
    solved.member_loads.push_back({m, f});
    const Vector12 at_nodes = kernel.global_load(f);
    global.segment<6>(static_cast<Eigen::Index>(6 * member.start)) += at_nodes.head<6>();
    global.segment<6>(static_cast<Eigen::Index>(6 * member.end)) += at_nodes.tail<6>();
    const Eigen::Matrix3d to_global = kernel.R.transpose();
    const auto add_end = [&](model::NodeId node, const model::Point& offset, Eigen::Index i) {
      solved.resultant.add(vector_of(in.model.nodes[node].at) + vector_of(offset),
                           to_global * f.segment<3>(i), to_global * f.segment<3>(i + 3));
    };
    add_end(member.start, member.start_offset, 0);
    add_end(member.end, member.end_offset, 6);
  }
  solved.load = in.freedoms.to_own(global);
  for (std::size_t p = 0; p < in.plates.size(); ++p) {
    const PreparedPlate& plate = in.plates[p];
    const auto column = static_cast<Eigen::Index>(place);
    solved.load.segment(plate.first, plate.size()) = plate.load_on_ties(column);
    add_resultant(solved.resultant, in.model.plates[p], *plate.answered, column);
  }
  if (load_case.weight && !in.seats.none()) solved.seat_forces = in.seats.forces(solved.load);
  return solved;
}

/// Forces of the supports that can let go, per movement of each of their grounds.
Eigen::MatrixXd contact_change(const Prepared::Inside& in) {
  const auto n = static_cast<Eigen::Index>(in.contact_fields.size());
  const auto n_supports = static_cast<Eigen::Index>(in.model.supports.size());
  Eigen::MatrixXd change(n, n);
  for (Eigen::Index j = 0; j < n; ++j) {
    const GroundField& moved = in.contact_fields[static_cast<std::size_t>(j)];
    const Eigen::VectorXd unit =
        Eigen::VectorXd::Unit(n_supports, static_cast<Eigen::Index>(moved.support));
    const std::vector<double> forces =
        in.support_forces(moved.field.movement, unit, moved.field.held_forces);
    for (Eigen::Index i = 0; i < n; ++i) {
      change(i, j) = forces[in.contact_fields[static_cast<std::size_t>(i)].support];
    }
  }
  return change;
}

/// With springs whose stiffness leaves out what holds by weight alone.
void make_seats(Prepared::Inside& in) {
  if (in.springs == model::SpringSet::gravity) return;
  Seats::Springs springs = Seats::springs(in.model, in.freedoms, in.plates);
  if (springs.stiffness.size() == 0) return;
  std::vector<Prepared::Inside::Asked> asked;
  for (Eigen::Index i = 0; i < springs.gaps.cols(); ++i) {
    asked.push_back({Eigen::VectorXd(springs.gaps.col(i)), {}});
  }
  const std::vector<Field> fields = in.fields(asked);
  Eigen::MatrixXd solved(in.freedoms.size(), springs.gaps.cols());
  for (std::size_t i = 0; i < fields.size(); ++i) {
    solved.col(static_cast<Eigen::Index>(i)) = fields[i].movement;
  }
  in.seats = Seats(std::move(springs), std::move(solved));
}

/// The load cases that the combinations with these springs name, or all.
std::vector<model::CaseId> answered_together(const Prepared::Inside& in, Together together) {
  std::vector<bool> is_named(in.model.cases.size(), together == Together::all);
  for (const model::Combination& combination : in.model.combinations) {
    if (combination.springs != in.springs) continue;
    for (const model::Factored& term : combination.terms) is_named[term.load_case] = true;
  }
  std::vector<model::CaseId> cases;
  for (model::CaseId c = 0; c < is_named.size(); ++c) {
    if (is_named[c]) cases.push_back(c);
  }
  return cases;
}

/// The answers to the ground as it is, to load cases, and to a unit movement of the ground of every
/// support that can let go: all in one go.
void solve_all(Prepared::Inside& in, Together together) {
  make_seats(in);
  for (model::CaseId c = 0; c < in.model.cases.size(); ++c) in.add(load_of(in, c));
  std::vector<Prepared::Inside::Asked> asked{
      {in.ground_forces(in.ground), in.held_movements(in.ground)}};
  const std::vector<model::CaseId> cases = answered_together(in, together);
  for (const model::CaseId c : cases) asked.push_back(in.asked_by(c));
  const auto n_supports = static_cast<Eigen::Index>(in.model.supports.size());
  for (std::size_t s = 0; s < in.model.supports.size(); ++s) {
    const model::Support& support = in.model.supports[s];
    if (!support.press_only && !support.rides_on) continue;
    const Eigen::VectorXd unit = Eigen::VectorXd::Unit(n_supports, static_cast<Eigen::Index>(s));
    asked.push_back({in.ground_forces(unit), in.held_movements(unit)});
    in.contact_fields.push_back({s, {}});
  }
  std::vector<Field> fields = in.fields(asked);
  auto next = fields.begin();
  in.ground_field = std::move(*next++);
  for (const model::CaseId c : cases) in.know(c, std::move(*next++));
  for (GroundField& moved : in.contact_fields) moved.field = std::move(*next++);
  in.contact_change = contact_change(in);
  in.lifts = free_lifts(in.model);
}

}  // namespace

void Resultant::add(const Eigen::Vector3d& at, const Eigen::Vector3d& f, const Eigen::Vector3d& m) {
  force += f;
  moment += m + at.cross(f);
  size += f.norm();
  couples += m.norm();
}

void Resultant::add(const Resultant& other, double factor) {
  force += factor * other.force;
  moment += factor * other.moment;
  size += std::abs(factor) * other.size;
  couples += std::abs(factor) * other.couples;
}

Eigen::VectorXd Prepared::Inside::solve(const Eigen::VectorXd& own_load) const {
  return freedoms.with_free_part(factor->solve(freedoms.free_part(own_load)),
                                 Eigen::VectorXd::Zero(freedoms.size()));
}

Prepared::Inside::Asked Prepared::Inside::asked_by(model::CaseId load_case) const {
  const SolvedCase& one = cases.at(load_case);
  Asked asked{one.load, {}};
  if (one.seat_forces.size() > 0) asked.forces += seats.own_load(one.seat_forces);
  return asked;
}

const Field& Prepared::Inside::case_field(model::CaseId load_case) const {
  CaseField& one = case_fields_.at(load_case);
  std::call_once(one.once, [&] { one.field = std::move(fields({asked_by(load_case)}).front()); });
  return one.field;
}

void Prepared::Inside::add(SolvedCase load_case) {
  cases.push_back(std::move(load_case));
  case_fields_.emplace_back();
}

void Prepared::Inside::know(model::CaseId load_case, Field field) {
  CaseField& one = case_fields_.at(load_case);
  std::call_once(one.once, [&] { one.field = std::move(field); });
}

const SparseLdlt& Prepared::Inside::laid_out() const {
  std::call_once(once_, [this] {
    const SparseMatrix places = geometric_matrix(*this, std::vector<double>(kernels.size(), 1.0));
    const SparseMatrix with_places = free_part(K + 0.0 * places, freedoms);
    laid_out_ = SparseLdlt::laid_out(with_places, layouts->of(with_places));
  });
  return laid_out_;
}

Vector12 Prepared::Inside::node_movements(model::MemberId member,
                                          const Eigen::VectorXd& global) const {
  Vector12 v;
  v << global.segment<6>(static_cast<Eigen::Index>(6 * model.members[member].start)),
      global.segment<6>(static_cast<Eigen::Index>(6 * model.members[member].end));
  return v;
}

const model::Model& Prepared::model() const { return inside_->model; }
double Prepared::reciprocal_condition() const { return inside_->factor->reciprocal_condition(); }

OrRefusal<Prepared> prepare(const model::Model& model, model::SpringSet springs) {
  PlateCache plates;
  return prepare(model, springs, plates);
}

OrRefusal<Prepared> prepare(const model::Model& model, model::SpringSet springs, PlateCache& plates,
                            Together together) {
  if (const std::optional<Refusal> loose = find_loose_part(model)) return tl::unexpected(*loose);
  auto in = std::make_shared<Prepared::Inside>();
  in->model = model;
  in->springs = springs;
  in->kernels.reserve(model.members.size());
  for (const model::Member& member : model.members) {
    in->kernels.push_back(member_kernel(model, member, springs));
  }
  OrRefusal<std::vector<PreparedPlate>> condensed = prepare_plates(model, plates);
  if (!condensed) return tl::unexpected(condensed.error());
  in->plates = std::move(*condensed);
  in->freedoms = freedoms(model, in->plates);
  in->runs = plated_runs(model, in->plates);
  in->gather_rigid_supports();
  in->K = stiffness_matrix(model, in->freedoms, in->kernels, in->plates, springs);
  in->layouts = plates.inside->layouts;
  in->factor.emplace(free_part(in->K, in->freedoms), *in->layouts);
  if (const std::optional<Refusal> refusal = judge_factor(*in)) return tl::unexpected(*refusal);
  in->ground = Eigen::VectorXd::Zero(static_cast<Eigen::Index>(model.supports.size()));
  for (std::size_t s = 0; s < model.supports.size(); ++s) {
    in->ground(static_cast<Eigen::Index>(s)) = model.supports[s].imposed - model.supports[s].gap;
  }
  solve_all(*in, together);
  return Prepared(in);
}

}  // namespace standtrue::solve
