// All numbers SI (m, N, rad).
#include "solve/plates.hpp"

#include <Eigen/LU>
#include <Eigen/SparseCore>
#include <algorithm>

#include "solve/member_kernel.hpp"
#include "standtrue/contract.hpp"

namespace standtrue::solve {

using quantity::in_si;

namespace {

std::vector<std::size_t> tied_nodes(const model::Plate& plate) {
  std::vector<std::size_t> tied;
  for (const model::PlateTie& tie : plate.ties) tied.push_back(plate.node(tie.i, tie.j));
  std::sort(tied.begin(), tied.end());
  tied.erase(std::unique(tied.begin(), tied.end()), tied.end());
  return tied;
}

bool same(const model::PlateStiffness& a, const model::PlateStiffness& b) {
  return a.A_11 == b.A_11 && a.A_12 == b.A_12 && a.A_22 == b.A_22 && a.A_66 == b.A_66 &&
         a.D_11 == b.D_11 && a.D_12 == b.D_12 && a.D_22 == b.D_22 && a.D_66 == b.D_66 &&
         a.S_x == b.S_x && a.S_y == b.S_y;
}

/// Whether two plates condense alike.
bool alike(const model::Plate& a, const model::Plate& b) {
  const auto same_hold = [](const model::PlateHold& h, const model::PlateHold& g) {
    return h.where == g.where && h.freedoms == g.freedoms;
  };
  return a.x == b.x && a.y == b.y && a.holes == b.holes && a.tie_level == b.tie_level &&
         same(a.stiffness, b.stiffness) &&
         std::equal(a.holds.begin(), a.holds.end(), b.holds.begin(), b.holds.end(), same_hold) &&
         tied_nodes(a) == tied_nodes(b);
}

std::shared_ptr<const CondensedPlate> condensed(const model::Plate& plate, PlateCache& cache) {
  for (const auto& known : cache.inside->condensed) {
    if (alike(known->plate(), plate)) return known;
  }
  cache.inside->condensed.push_back(std::make_shared<const CondensedPlate>(plate));
  return cache.inside->condensed.back();
}

PlateLoads loads_on_plate(const model::Model& model, std::size_t place,
                          const CondensedPlate& plate) {
  const model::Plate& p = model.plates[place];
  const Eigen::Matrix3d R = axes_of(p);
  PlateLoads loads =
      plate.no_loads(static_cast<Eigen::Index>(model.cases.size() + p.bodies.size()));
  const auto press = [&](Eigen::Index column, const model::Patch& patch,
                         const Eigen::Vector3d& global) {
    const Eigen::Vector3d own = R * global;
    plate.press(loads, column, patch, {own(0), own(1), own(2)});
  };
  Eigen::Index column = 0;
  for (const model::LoadCase& load_case : model.cases) {
    if (load_case.self_weight && p.mass_per_area > 0.0) {
      const double weight = p.mass_per_area * p.area() * in_si(quantity::standard_gravity());
      press(column, {p.x.front(), p.x.back(), p.y.front(), p.y.back()}, {0.0, 0.0, -weight});
    }
    for (const model::PatchLoad& load : load_case.patch_loads) {
      if (load.plate != place) continue;
      press(column, load.where, {load.force[0], load.force[1], load.force[2]});
    }
    ++column;
  }
  for (const model::PlateBody& body : p.bodies) {
    double sign = 1.0;
    for (const model::Patch& pad : body.pads) {
      plate.press(loads, column, pad, {0.0, 0.0, sign});
      sign = -sign;
    }
    ++column;
  }
  return loads;
}

/// All numbers that loads on a plate are made of: equal numbers, equal loads.
std::vector<double> asked_of(const model::Model& model, std::size_t place) {
  const model::Plate& p = model.plates[place];
  std::vector<double> asked;
  const auto add = [&asked](const model::Patch& patch) {
    asked.insert(asked.end(), {patch.x0, patch.x1, patch.y0, patch.y1});
  };
  for (const auto* axis : {&p.x_axis, &p.y_axis})
    asked.insert(asked.end(), axis->begin(), axis->end());
  for (const model::LoadCase& load_case : model.cases) {
    asked.push_back(load_case.self_weight ? p.mass_per_area : 0.0);
    double count = 0.0;
    for (const model::PatchLoad& load : load_case.patch_loads) {
      if (load.plate != place) continue;
      add(load.where);
      asked.insert(asked.end(), load.force.begin(), load.force.end());
      count += 1.0;
    }
    asked.push_back(count);
  }
  for (const model::PlateBody& body : p.bodies) {
    for (const model::Patch& pad : body.pads) add(pad);
  }
  return asked;
}

Eigen::Matrix<double, 7, Eigen::Dynamic> resultants_of(const model::Plate& plate,
                                                       const PlateLoads& loads) {
  Eigen::Matrix<double, 7, Eigen::Dynamic> sum =
      Eigen::Matrix<double, 7, Eigen::Dynamic>::Zero(7, loads.cols());
  for (std::size_t j = 0; j < plate.y.size(); ++j) {
    for (std::size_t i = 0; i < plate.x.size(); ++i) {
      const auto n = static_cast<Eigen::Index>(5 * plate.node(i, j));
      const Eigen::Vector3d at(plate.x[i], plate.y[j], 0.0);
      for (Eigen::Index c = 0; c < loads.cols(); ++c) {
        const Eigen::Vector3d f = loads.block<3, 1>(n, c);
        if (f.isZero(0.0)) continue;
        sum.col(c).head<3>() += f;
        sum.col(c).segment<3>(3) += at.cross(f);
        sum(6, c) += f.norm();
      }
    }
  }
  return sum;
}

std::shared_ptr<const AnsweredPlate> answered(const model::Model& model, std::size_t place,
                                              std::shared_ptr<const CondensedPlate> plate,
                                              PlateCache& cache) {
  std::vector<double> asked = asked_of(model, place);
  for (const auto& known : cache.inside->answered) {
    if (known->condensed == plate && known->asked == asked) return known;
  }
  auto made = std::make_shared<AnsweredPlate>();
  made->asked = std::move(asked);
  made->loads = loads_on_plate(model, place, *plate);
  made->condensed = std::move(plate);
  made->answer = made->condensed->answer(made->loads);
  made->resultants = resultants_of(model.plates[place], made->loads);
  const auto n_bodies = static_cast<Eigen::Index>(model.plates[place].bodies.size());
  if (n_bodies > 0) {
    const Panel at_rest = made->condensed->movements(
        Panel::Zero(made->condensed->size(), made->loads.cols()), made->answer, 1.0);
    made->warp = made->loads.rightCols(n_bodies).transpose() * at_rest;
  } else {
    made->warp = Eigen::MatrixXd(0, made->loads.cols());
  }
  cache.inside->answered.push_back(made);
  return made;
}

}  // namespace

PlateCache::PlateCache() : inside(std::make_shared<Inside>()) {}

PlateCache PlateCache::copy() const {
  PlateCache other;
  *other.inside = *inside;
  return other;
}

void condense_plates(const model::Model& model, PlateCache& plates) {
  static_cast<void>(prepare_plates(model, plates));
}

Eigen::Index PreparedPlate::freedom_of(std::size_t mesh_node) const {
  const std::vector<std::size_t>& tied = answered->condensed->tied();
  return first + 3 * (std::lower_bound(tied.begin(), tied.end(), mesh_node) - tied.begin());
}

Eigen::VectorXd PreparedPlate::load_on_ties(Eigen::Index column) const {
  Eigen::VectorXd f = answered->answer.on_ties.col(column);
  if (give.size() > 0) f -= patterns * (give * (creep * answered->warp.col(column)));
  return f;
}

Eigen::MatrixXd PreparedPlate::body_forces(const Panel& of_ties,
                                           const Eigen::MatrixXd& factors) const {
  return give * (creep * (answered->warp.leftCols(factors.rows()) * factors) +
                 patterns.transpose() * of_ties);
}

Panel PreparedPlate::movements(const Panel& of_ties, const Eigen::MatrixXd& factors) const {
  const PlateAnswer& all = answered->answer;
  Eigen::MatrixXd weights = Eigen::MatrixXd::Zero(answered->loads.cols(), factors.cols());
  weights.topRows(factors.rows()) = factors;
  if (give.size() > 0) weights.bottomRows(give.rows()) = -body_forces(of_ties, factors);
  // Of hundreds of cases a loading has a dozen.
  const Eigen::SparseMatrix<double> few = weights.sparseView();
  const PlateAnswer loaded{all.in_plane * few, all.bending * few, all.turns * few, {}};
  return answered->condensed->movements(of_ties, loaded, creep);
}

OrRefusal<std::vector<PreparedPlate>> prepare_plates(const model::Model& model, PlateCache& cache) {
  std::vector<PreparedPlate> plates;
  for (std::size_t place = 0; place < model.plates.size(); ++place) {
    const model::Plate& plate = model.plates[place];
    std::shared_ptr<const CondensedPlate> seen = condensed(plate, cache);
    if (seen->refusal()) return tl::unexpected(*seen->refusal());
    PreparedPlate prepared;
    prepared.creep = plate.creep;
    prepared.stiffness = seen->stiffness() / plate.creep;
    prepared.answered = answered(model, place, std::move(seen), cache);
    const auto n = static_cast<Eigen::Index>(plate.bodies.size());
    if (n > 0) {
      prepared.patterns = prepared.answered->answer.on_ties.rightCols(n);
      Eigen::MatrixXd C = plate.creep * prepared.answered->warp.rightCols(n);
      for (Eigen::Index b = 0; b < n; ++b) {
        C(b, b) += 1.0 / plate.bodies[static_cast<std::size_t>(b)].stiffness;
      }
      prepared.give = C.inverse();
      prepared.stiffness.noalias() +=
          prepared.patterns * prepared.give * prepared.patterns.transpose();
    }
    plates.push_back(std::move(prepared));
  }
  return plates;
}

Eigen::Matrix3d axes_of(const model::Plate& plate) {
  const Eigen::Vector3d x(plate.x_axis[0], plate.x_axis[1], plate.x_axis[2]);
  const Eigen::Vector3d y(plate.y_axis[0], plate.y_axis[1], plate.y_axis[2]);
  Eigen::Matrix3d R;
  R << x.transpose(), y.transpose(), x.cross(y).transpose();
  return R;
}

Eigen::Vector3d position_of(const model::Plate& plate, double x, double y, double along_normal) {
  return Eigen::Vector3d(plate.origin[0], plate.origin[1], plate.origin[2]) +
         axes_of(plate).transpose() * Eigen::Vector3d(x, y, along_normal);
}

Eigen::Matrix<double, 3, 6> tie_of_node(const model::Model& model, const model::Plate& plate,
                                        const model::PlateTie& tie) {
  const Eigen::Matrix3d R = axes_of(plate);
  const Eigen::Vector3d arm = position_of(plate, plate.x[tie.i], plate.y[tie.j], plate.tie_level) -
                              vector_of(model.nodes[tie.node].at);
  Eigen::Matrix<double, 3, 6> b;
  b << R, -R * cross_matrix(arm);
  return b;
}

Eigen::Matrix<double, 9, 9> tie_stiffness(const model::Model& model, const model::Plate& plate,
                                          const model::PlateTie& tie) {
  Eigen::Matrix<double, 3, 9> b;
  b << tie_of_node(model, plate, tie), -Eigen::Matrix3d::Identity();
  const Eigen::Vector3d k(tie.stiffness[0], tie.stiffness[1], tie.stiffness[2]);
  return b.transpose() * k.asDiagonal() * b;
}

}  // namespace standtrue::solve
