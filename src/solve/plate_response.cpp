// All numbers SI (m, N, rad).
#include "standtrue/solve/plate_response.hpp"

#include <algorithm>

#include "solve/prepared.hpp"
#include "solve/shell_element.hpp"
#include "standtrue/contract.hpp"

namespace standtrue::solve {

namespace {

Corners corners_of(const model::Plate& plate, std::size_t i, std::size_t j) {
  Corners c;
  c << plate.x[i], plate.y[j], plate.x[i + 1], plate.y[j], plate.x[i + 1], plate.y[j + 1],
      plate.x[i], plate.y[j + 1];
  return c;
}

std::array<std::size_t, 4> nodes_of(const model::Plate& plate, std::size_t i, std::size_t j) {
  return {plate.node(i, j), plate.node(i + 1, j), plate.node(i + 1, j + 1), plate.node(i, j + 1)};
}

struct CellMovements {
  Eigen::Matrix<double, 8, 1> flat;
  Eigen::Matrix<double, 12, 1> bent;
};

CellMovements movements_of(const model::Plate& plate, const PlateMovements& movements,
                           std::size_t i, std::size_t j, Eigen::Index column) {
  CellMovements cell;
  Eigen::Index corner = 0;
  for (const std::size_t n : nodes_of(plate, i, j)) {
    const auto row = static_cast<Eigen::Index>(5 * n);
    cell.flat.segment<2>(2 * corner) = movements.block<2, 1>(row, column);
    cell.bent.segment<3>(3 * corner) = movements.block<3, 1>(row + 2, column);
    ++corner;
  }
  return cell;
}

/// A place within a cell, (ξ, η) in [-1, 1]²; places beside the plate take its nearest cell.
struct Spot {
  std::size_t i = 0, j = 0;
  double xi = 0.0, eta = 0.0;
};

Spot spot_at(const model::Plate& plate, double x, double y) {
  const auto cell_of = [](const std::vector<double>& lines, double at) {
    const auto above = std::upper_bound(lines.begin() + 1, lines.end() - 1, at);
    return static_cast<std::size_t>(above - lines.begin()) - 1;
  };
  Spot spot{cell_of(plate.x, x), cell_of(plate.y, y), 0.0, 0.0};
  const auto natural = [](const std::vector<double>& lines, std::size_t c, double at) {
    return std::clamp(2.0 * (at - lines[c]) / (lines[c + 1] - lines[c]) - 1.0, -1.0, 1.0);
  };
  spot.xi = natural(plate.x, spot.i, x);
  spot.eta = natural(plate.y, spot.j, y);
  return spot;
}

void add(PlateForces& sum, const PlateForces& f, double factor) {
  sum.N_x += factor * f.N_x;
  sum.N_y += factor * f.N_y;
  sum.N_xy += factor * f.N_xy;
  sum.M_x += factor * f.M_x;
  sum.M_y += factor * f.M_y;
  sum.M_xy += factor * f.M_xy;
  sum.Q_x += factor * f.Q_x;
  sum.Q_y += factor * f.Q_y;
}

/// Forces in one rectangular cell. Its fields are bilinear: f = f_m + f_x x + f_y y + f_xy x y from
/// the middle.
class CellForces {
 public:
  CellForces(const model::Plate& plate, const PlateMovements& movements, std::size_t i,
             std::size_t j, Eigen::Index column)
      : s_(plate.stiffness),
        creep_(plate.creep),
        a_(plate.x[i + 1] - plate.x[i]),
        b_(plate.y[j + 1] - plate.y[j]) {
    const std::array<std::size_t, 4> nodes = nodes_of(plate, i, j);
    for (Eigen::Index f = 0; f < 5; ++f) {
      std::array<double, 4> at{};
      for (std::size_t c = 0; c < 4; ++c) {
        at[c] = movements(static_cast<Eigen::Index>(5 * nodes[c]) + f, column);
      }
      fields_[static_cast<std::size_t>(f)] = {
          0.25 * (at[0] + at[1] + at[2] + at[3]), 0.5 * (at[1] + at[2] - at[0] - at[3]) / a_,
          0.5 * (at[2] + at[3] - at[0] - at[1]) / b_, (at[0] - at[1] + at[2] - at[3]) / (a_ * b_)};
    }
  }

  [[nodiscard]] PlateForces at(double xi, double eta) const {
    const double x = 0.5 * a_ * xi, y = 0.5 * b_ * eta;
    const Field &u = fields_[0], &v = fields_[1], &w = fields_[2], &rx = fields_[3],
                &ry = fields_[4];
    const double e_x = u.x + u.xy * y, e_y = v.y + v.xy * x;
    const double e_xy = u.y + u.xy * x + v.x + v.xy * y;
    const double by = 1.0 / creep_;
    PlateForces f;
    f.N_x = by * (s_.A_11 * e_x + s_.A_12 * e_y);
    f.N_y = by * (s_.A_12 * e_x + s_.A_22 * e_y);
    f.N_xy = by * s_.A_66 * e_xy;
    f.Q_x = by * s_.S_x * (w.x + ry.mean);
    f.Q_y = by * s_.S_y * (w.y - rx.mean);
    // M_xy,y = -D_66 rx,xy and M_xy,x = D_66 ry,xy.
    f.M_x =
        by * (s_.D_11 * (ry.x + ry.xy * y) - s_.D_12 * rx.y) + x * (f.Q_x + by * s_.D_66 * rx.xy);
    f.M_y =
        by * (s_.D_12 * ry.x - s_.D_22 * (rx.y + rx.xy * x)) + y * (f.Q_y - by * s_.D_66 * ry.xy);
    f.M_xy = by * s_.D_66 * (ry.y + ry.xy * x - rx.x - rx.xy * y);
    return f;
  }

 private:
  struct Field {
    double mean = 0.0, x = 0.0, y = 0.0, xy = 0.0;
  };
  const model::PlateStiffness& s_;
  double creep_, a_, b_;
  std::array<Field, 5> fields_;
};

Eigen::Matrix3d orthotropic(double k_11, double k_12, double k_22, double k_66) {
  Eigen::Matrix3d k;
  k << k_11, k_12, 0.0, k_12, k_22, 0.0, 0.0, 0.0, k_66;
  return k;
}

Eigen::MatrixXd factors_of(const Prepared::Inside& in, std::span<const Answered> answered) {
  Eigen::MatrixXd factors = Eigen::MatrixXd::Zero(static_cast<Eigen::Index>(in.model.cases.size()),
                                                  static_cast<Eigen::Index>(answered.size()));
  for (std::size_t a = 0; a < answered.size(); ++a) {
    for (const model::Factored& term : answered[a].loading->terms) {
      factors(static_cast<Eigen::Index>(term.load_case), static_cast<Eigen::Index>(a)) +=
          term.factor;
    }
  }
  return factors;
}

/// Out-of-balance forces on the mesh nodes (five each): what the elements pull with, less the load.
Eigen::VectorXd pull_of(const model::Plate& plate, const PlateMovements& movements,
                        const Eigen::VectorXd& load) {
  const model::PlateStiffness& s = plate.stiffness;
  Eigen::VectorXd pull = -load;
  for (std::size_t j = 0; j + 1 < plate.y.size(); ++j) {
    for (std::size_t i = 0; i + 1 < plate.x.size(); ++i) {
      if (!plate.has_cell(i, j)) continue;
      const Corners c = corners_of(plate, i, j);
      const CellMovements cell = movements_of(plate, movements, i, j, 0);
      const Eigen::Matrix<double, 8, 1> flat =
          membrane_stiffness(c, orthotropic(s.A_11, s.A_12, s.A_22, s.A_66)) * cell.flat;
      const Eigen::Matrix<double, 12, 1> bent =
          plate_stiffness(c, orthotropic(s.D_11, s.D_12, s.D_22, s.D_66), {s.S_x, s.S_y}) *
          cell.bent;
      Eigen::Index corner = 0;
      for (const std::size_t n : nodes_of(plate, i, j)) {
        const auto row = static_cast<Eigen::Index>(5 * n);
        pull.segment<2>(row) += flat.segment<2>(2 * corner) / plate.creep;
        pull.segment<3>(row + 2) += bent.segment<3>(3 * corner) / plate.creep;
        ++corner;
      }
    }
  }
  return pull;
}

}  // namespace

PlateMovements plate_movements(const Prepared& prepared, std::size_t plate,
                               std::span<const Answered> answered) {
  const Prepared::Inside& in = prepared.inside();
  const PreparedPlate& p = in.plates.at(plate);
  Panel of_ties(p.size(), static_cast<Eigen::Index>(answered.size()));
  for (std::size_t a = 0; a < answered.size() && p.size() > 0; ++a) {
    of_ties.col(static_cast<Eigen::Index>(a)) =
        answered[a].state->tied_points.segment(p.first - in.freedoms.of_nodes(), p.size());
  }
  return p.movements(of_ties, factors_of(in, answered));
}

std::vector<PlateForces> plate_forces(const model::Plate& plate, const PlateMovements& movements,
                                      Eigen::Index column) {
  std::vector<PlateForces> sum(plate.lines());
  std::vector<int> cells(plate.lines(), 0);
  for (std::size_t j = 0; j + 1 < plate.y.size(); ++j) {
    for (std::size_t i = 0; i + 1 < plate.x.size(); ++i) {
      if (!plate.has_cell(i, j)) continue;
      const CellForces cell(plate, movements, i, j, column);
      for (const std::size_t up : {std::size_t{0}, std::size_t{1}}) {
        for (const std::size_t right : {std::size_t{0}, std::size_t{1}}) {
          const std::size_t n = plate.node(i + right, j + up);
          add(sum[n], cell.at(right == 0 ? -1.0 : 1.0, up == 0 ? -1.0 : 1.0), 1.0);
          ++cells[n];
        }
      }
    }
  }
  for (std::size_t n = 0; n < sum.size(); ++n) {
    if (cells[n] == 0) continue;
    PlateForces mean;
    add(mean, sum[n], 1.0 / cells[n]);
    sum[n] = mean;
  }
  return sum;
}

PlateForces plate_forces_at(const model::Plate& plate, const PlateMovements& movements, double x,
                            double y, Eigen::Index column) {
  const Spot spot = spot_at(plate, x, y);
  const Eigen::Vector4d N = shape_functions(spot.xi, spot.eta);
  PlateForces forces;
  Eigen::Index corner = 0;
  for (const auto& [right, up] : {std::pair{0u, 0u}, {1u, 0u}, {1u, 1u}, {0u, 1u}}) {
    const std::size_t I = spot.i + right, J = spot.j + up;
    PlateForces node;
    int cells = 0;
    for (std::size_t j = J == 0 ? 0 : J - 1; j < std::min(J + 1, plate.y.size() - 1); ++j) {
      for (std::size_t i = I == 0 ? 0 : I - 1; i < std::min(I + 1, plate.x.size() - 1); ++i) {
        if (!plate.has_cell(i, j)) continue;
        add(node,
            CellForces(plate, movements, i, j, column).at(i < I ? 1.0 : -1.0, j < J ? 1.0 : -1.0),
            1.0);
        ++cells;
      }
    }
    if (cells > 0) add(forces, node, N(corner) / cells);
    ++corner;
  }
  return forces;
}

PlateForces plate_forces_in_cell(const model::Plate& plate, const PlateMovements& movements,
                                 std::size_t i, std::size_t j, Eigen::Index column) {
  expects(plate.has_cell(i, j), "plate_forces_in_cell: the plate is missing there");
  return CellForces(plate, movements, i, j, column).at(0.0, 0.0);
}

PlateField plate_field(const model::Plate& plate, const PlateMovements& movements,
                       Eigen::Index column) {
  const auto n_nodes = static_cast<Eigen::Index>(plate.lines());
  const auto n_cells = static_cast<Eigen::Index>((plate.x.size() - 1) * (plate.y.size() - 1));
  PlateField field;
  field.at_nodes.setZero(6, n_nodes);
  field.in_cells.setZero(2, n_cells);
  std::vector<int> cells(plate.lines(), 0);
  const PlateMovements own = movements.col(column);  // side by side: read four times each
  Eigen::Index place = 0;
  for (std::size_t j = 0; j + 1 < plate.y.size(); ++j) {
    for (std::size_t i = 0; i + 1 < plate.x.size(); ++i, ++place) {
      if (!plate.has_cell(i, j)) continue;
      const CellForces cell(plate, own, i, j, 0);
      const PlateForces middle = cell.at(0.0, 0.0);
      field.in_cells.col(place) << middle.Q_x, middle.Q_y;
      for (const std::size_t up : {std::size_t{0}, std::size_t{1}}) {
        for (const std::size_t right : {std::size_t{0}, std::size_t{1}}) {
          const std::size_t n = plate.node(i + right, j + up);
          const PlateForces f = cell.at(right == 0 ? -1.0 : 1.0, up == 0 ? -1.0 : 1.0);
          auto node = field.at_nodes.col(static_cast<Eigen::Index>(n));
          node(0) += f.N_x;
          node(1) += f.N_y;
          node(2) += f.N_xy;
          node(3) += f.M_x;
          node(4) += f.M_y;
          node(5) += f.M_xy;
          ++cells[n];
        }
      }
    }
  }
  for (std::size_t n = 0; n < cells.size(); ++n) {
    if (cells[n] > 0) field.at_nodes.col(static_cast<Eigen::Index>(n)) *= 1.0 / cells[n];
  }
  return field;
}

double plate_w(const model::Plate& plate, const PlateMovements& movements, double x, double y,
               Eigen::Index column) {
  const Spot spot = spot_at(plate, x, y);
  const Eigen::Vector4d N = shape_functions(spot.xi, spot.eta);
  double w = 0.0;
  Eigen::Index corner = 0;
  for (const std::size_t n : nodes_of(plate, spot.i, spot.j)) {
    w += N(corner++) * movements(static_cast<Eigen::Index>(5 * n + 2), column);
  }
  return w;
}

std::vector<std::array<double, 3>> tie_forces(const Prepared& prepared, std::size_t plate,
                                              const State& state) {
  const Prepared::Inside& in = prepared.inside();
  const model::Plate& p = in.model.plates.at(plate);
  const PreparedPlate& made = in.plates.at(plate);
  std::vector<std::array<double, 3>> forces;
  forces.reserve(p.ties.size());
  Eigen::Index seat = in.seats.none() ? 0 : in.seats.first_of(plate);
  for (const model::PlateTie& tie : p.ties) {
    if (tie.gravity_only && in.springs == model::SpringSet::sway) {
      std::array<double, 3> pressed{};
      for (std::size_t axis = 0; axis < 3; ++axis) {
        if (tie.stiffness[axis] != 0.0) pressed[axis] = state.seat_forces(seat++);
      }
      forces.push_back(pressed);
      continue;
    }
    const Eigen::Index at = made.freedom_of(p.node(tie.i, tie.j)) - in.freedoms.of_nodes();
    const Eigen::Vector3d gap =
        state.tied_points.segment<3>(at) -
        tie_of_node(in.model, p, tie) *
            state.displacement.segment<6>(static_cast<Eigen::Index>(6 * tie.node));
    forces.push_back(
        {tie.stiffness[0] * gap(0), tie.stiffness[1] * gap(1), tie.stiffness[2] * gap(2)});
  }
  return forces;
}

void add_holds(const Prepared::Inside& in, const Loading& loading, const State& state,
               Resultant& resultant) {
  for (std::size_t place = 0; place < in.plates.size(); ++place) {
    const model::Plate& plate = in.model.plates[place];
    if (plate.holds.empty()) continue;
    const PreparedPlate& made = in.plates[place];
    const Answered one{&loading, &state};
    const Eigen::MatrixXd factors = factors_of(in, {&one, 1});
    const Panel of_ties =
        state.tied_points.segment(made.first - in.freedoms.of_nodes(), made.size());
    Eigen::VectorXd load = made.answered->loads.leftCols(factors.rows()) * factors;
    if (made.give.size() > 0) {
      load -= made.answered->loads.rightCols(made.give.rows()) * made.body_forces(of_ties, factors);
    }
    const Eigen::VectorXd pull = pull_of(plate, made.movements(of_ties, factors), load);
    const Eigen::Matrix3d to_global = axes_of(plate).transpose();
    for (std::size_t j = 0; j < plate.y.size(); ++j) {
      for (std::size_t i = 0; i < plate.x.size(); ++i) {
        const auto n = plate.node(i, j);
        const bool held =
            std::any_of(plate.holds.begin(), plate.holds.end(), [&](const model::PlateHold& hold) {
              constexpr double near = 1e-9;
              return plate.x[i] > hold.where.x0 - near && plate.x[i] < hold.where.x1 + near &&
                     plate.y[j] > hold.where.y0 - near && plate.y[j] < hold.where.y1 + near;
            });
        if (!held) continue;
        const Eigen::Matrix<double, 5, 1> f = pull.segment<5>(static_cast<Eigen::Index>(5 * n));
        resultant.add(position_of(plate, plate.x[i], plate.y[j], 0.0),
                      to_global * Eigen::Vector3d(f.head<3>()),
                      to_global * Eigen::Vector3d(f(3), f(4), 0.0));
      }
    }
  }
}

}  // namespace standtrue::solve
