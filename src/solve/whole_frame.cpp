// All numbers SI (m, N, rad).
#include "solve/whole_frame.hpp"

#include "solve/cell_stiffness.hpp"

namespace standtrue::solve {

namespace {

/// From (u, v) of the mid-plane to the tied point: u_t = u + a ry, v_t = v - a rx.
Panel tied_movements(const CondensedPlate& plate, const Panel& mesh) {
  const double a = plate.plate().tie_level;
  Panel tied(plate.size(), mesh.cols());
  for (std::size_t p = 0; p < plate.tied().size(); ++p) {
    const auto n = static_cast<Eigen::Index>(5 * plate.tied()[p]);
    const auto t = static_cast<Eigen::Index>(3 * p);
    tied.row(t) = mesh.row(n) + a * mesh.row(n + 4);
    tied.row(t + 1) = mesh.row(n + 1) - a * mesh.row(n + 3);
    tied.row(t + 2) = mesh.row(n + 2);
  }
  return tied;
}

/// The transpose: forces on tied points as forces on the mesh.
void add_tied_forces(const CondensedPlate& plate, const Panel& on_tied, Eigen::Index first,
                     Panel& forces) {
  const double a = plate.plate().tie_level;
  for (std::size_t p = 0; p < plate.tied().size(); ++p) {
    const Eigen::Index n = first + static_cast<Eigen::Index>(5 * plate.tied()[p]);
    const auto t = static_cast<Eigen::Index>(3 * p);
    forces.middleRows<3>(n) += on_tied.middleRows<3>(t);
    forces.row(n + 3) -= a * on_tied.row(t + 1);
    forces.row(n + 4) += a * on_tied.row(t);
  }
}

/// The last columns; a panel without rows has nothing to point at.
Panel last_columns(const Panel& all, Eigen::Index n) {
  return all.rows() == 0 ? Panel(0, n) : Panel(all.rightCols(n));
}

}  // namespace

WholeFrame::WholeFrame(const Prepared::Inside& in) : in_(in), size_(in.freedoms.of_nodes()) {
  for (const PreparedPlate& plate : in_.plates) {
    first_.push_back(size_);
    const CondensedPlate& condensed = *plate.answered->condensed;
    size_ += static_cast<Eigen::Index>(5 * condensed.plate().lines());
    const Eigen::Index n_bodies = plate.give.rows();
    const PlateAnswer& all = plate.answered->answer;
    const PlateAnswer patterns{last_columns(all.in_plane, n_bodies),
                               last_columns(all.bending, n_bodies),
                               last_columns(all.turns, n_bodies),
                               {}};
    pattern_movements_.emplace_back(
        n_bodies == 0 ? Eigen::MatrixXd(5 * condensed.plate().lines(), 0)
                      : Eigen::MatrixXd(condensed.movements(Panel::Zero(condensed.size(), n_bodies),
                                                            patterns, 1.0)));
  }
}

bool WholeFrame::press(SparseMatrix K_G) {
  K_G_ = std::move(K_G);
  pressed_.emplace(free_part(in_.K + K_G_, in_.freedoms), *in_.layouts);
  return !pressed_->broke_down();
}

Panel WholeFrame::movements_under(const Panel& forces) const {
  const Eigen::Index columns = forces.cols();
  Panel own = Panel::Zero(in_.freedoms.size(), columns);
  own.topRows(of_nodes()) = forces.topRows(of_nodes());
  std::vector<PlateAnswer> answers;
  std::vector<Eigen::MatrixXd> warps;  // q of each body, creep counted, tied points at rest
  for (std::size_t p = 0; p < in_.plates.size(); ++p) {
    const PreparedPlate& plate = in_.plates[p];
    const Panel on_mesh = forces.middleRows(first_[p], pattern_movements_[p].rows());
    answers.push_back(plate.answered->condensed->answer(on_mesh));
    own.middleRows(plate.first, plate.size()) = answers[p].on_ties;
    warps.emplace_back(plate.creep * (pattern_movements_[p].transpose() * on_mesh));
    if (plate.give.size() == 0) continue;
    own.middleRows(plate.first, plate.size()) -= plate.patterns * (plate.give * warps[p]);
  }
  Panel free(in_.freedoms.unknowns, columns);
  for (Eigen::Index i = 0; i < own.rows(); ++i) {
    if (is_free(i)) free.row(in_.freedoms.number[static_cast<std::size_t>(i)]) = own.row(i);
  }
  const Panel solved = (pressed_ ? *pressed_ : *in_.factor).solve(free);
  for (Eigen::Index i = 0; i < own.rows(); ++i) {
    if (is_free(i)) {
      own.row(i) = solved.row(in_.freedoms.number[static_cast<std::size_t>(i)]);
    } else {
      own.row(i).setZero();
    }
  }
  Panel moved(size_, columns);
  moved.topRows(of_nodes()) = own.topRows(of_nodes());
  for (std::size_t p = 0; p < in_.plates.size(); ++p) {
    const PreparedPlate& plate = in_.plates[p];
    const Panel of_ties = own.middleRows(plate.first, plate.size());
    if (plate.give.size() > 0) {
      const Eigen::MatrixXd pushed =
          plate.give * (warps[p] + plate.patterns.transpose() * of_ties);  // λ of its bodies
      const PlateAnswer& all = plate.answered->answer;
      const Eigen::Index n_bodies = plate.give.rows();
      answers[p].in_plane -= last_columns(all.in_plane, n_bodies) * pushed;
      answers[p].bending -= last_columns(all.bending, n_bodies) * pushed;
      answers[p].turns -= last_columns(all.turns, n_bodies) * pushed;
    }
    moved.middleRows(first_[p], pattern_movements_[p].rows()) =
        plate.answered->condensed->movements(of_ties, answers[p], plate.creep);
  }
  return moved;
}

Panel WholeFrame::forces_of(const Panel& movements) const {
  Panel own = Panel::Zero(in_.freedoms.size(), movements.cols());
  own.topRows(of_nodes()) = movements.topRows(of_nodes());
  for (std::size_t p = 0; p < in_.plates.size(); ++p) {
    const PreparedPlate& plate = in_.plates[p];
    own.middleRows(plate.first, plate.size()) = tied_movements(
        *plate.answered->condensed, movements.middleRows(first_[p], pattern_movements_[p].rows()));
  }
  Panel pulled = in_.K * own;
  if (K_G_.size() > 0) pulled += K_G_ * own;
  Panel forces = Panel::Zero(size_, movements.cols());
  forces.topRows(of_nodes()) = pulled.topRows(of_nodes());
  for (std::size_t p = 0; p < in_.plates.size(); ++p) {
    // What the ties alone pull the tied points with: all of K less the condensed plate.
    const PreparedPlate& plate = in_.plates[p];
    const Panel on_tied = pulled.middleRows(plate.first, plate.size()) -
                          plate.stiffness * own.middleRows(plate.first, plate.size());
    add_tied_forces(*plate.answered->condensed, on_tied, first_[p], forces);
    pull_mesh(p, movements, forces);
  }
  hold(forces);
  return forces;
}

void WholeFrame::pull_mesh(std::size_t place, const Panel& movements, Panel& forces) const {
  const PreparedPlate& prepared = in_.plates[place];
  const CondensedPlate& condensed = *prepared.answered->condensed;
  const model::Plate& plate = condensed.plate();
  const double by = 1.0 / prepared.creep;
  const Eigen::Index columns = movements.cols();
  CellStiffnesses cells(plate.stiffness);
  Panel flat(8, columns), bent(12, columns), on_flat(8, columns), on_bent(12, columns);
  for (std::size_t j = 0; j + 1 < plate.y.size(); ++j) {
    for (std::size_t i = 0; i + 1 < plate.x.size(); ++i) {
      if (!plate.has_cell(i, j)) continue;
      const CellStiffness& cell =
          cells.of(plate.x[i + 1] - plate.x[i], plate.y[j + 1] - plate.y[j]);
      const std::array<std::size_t, 4> corners{plate.node(i, j), plate.node(i + 1, j),
                                               plate.node(i + 1, j + 1), plate.node(i, j + 1)};
      for (std::size_t c = 0; c < 4; ++c) {
        const Eigen::Index row = first_[place] + static_cast<Eigen::Index>(5 * corners[c]);
        const auto k = static_cast<Eigen::Index>(c);
        flat.middleRows<2>(2 * k) = movements.middleRows<2>(row);
        bent.middleRows<3>(3 * k) = movements.middleRows<3>(row + 2);
      }
      on_flat.noalias() = cell.in_plane * flat;
      on_bent.noalias() = cell.bending * bent;
      for (std::size_t c = 0; c < 4; ++c) {
        const Eigen::Index row = first_[place] + static_cast<Eigen::Index>(5 * corners[c]);
        const auto k = static_cast<Eigen::Index>(c);
        forces.middleRows<2>(row) += by * on_flat.middleRows<2>(2 * k);
        forces.middleRows<3>(row + 2) += by * on_bent.middleRows<3>(3 * k);
      }
    }
  }
  const Eigen::Index rows = pattern_movements_[place].rows();
  const auto& bodies = in_.model.plates[place].bodies;
  const auto n_bodies = static_cast<Eigen::Index>(bodies.size());
  if (n_bodies > 0) {
    const Eigen::MatrixXd pads = prepared.answered->loads.rightCols(n_bodies);
    Eigen::MatrixXd twist = pads.transpose() * movements.middleRows(first_[place], rows);
    for (Eigen::Index b = 0; b < n_bodies; ++b) {
      twist.row(b) *= bodies[static_cast<std::size_t>(b)].stiffness;
    }
    forces.middleRows(first_[place], rows) += pads * twist;
  }
}

void WholeFrame::hold(Panel& forces) const {
  for (Eigen::Index i = 0; i < of_nodes(); ++i) {
    if (!is_free(i)) forces.row(i).setZero();
  }
  for (std::size_t p = 0; p < in_.plates.size(); ++p) {
    const CondensedPlate& plate = *in_.plates[p].answered->condensed;
    for (std::size_t n = 0; n < plate.plate().lines(); ++n) {
      for (std::size_t f = 0; f < 5; ++f) {
        if (plate.moves(n, f)) continue;
        forces.row(first_[p] + static_cast<Eigen::Index>(5 * n + f)).setZero();
      }
    }
  }
}

Eigen::VectorXd WholeFrame::load_of(model::CaseId load_case) const {
  Panel load(size_, 1);
  load.topRows(of_nodes()) = in_.cases[load_case].load.head(of_nodes());
  for (std::size_t p = 0; p < in_.plates.size(); ++p) {
    load.middleRows(first_[p], pattern_movements_[p].rows()) =
        in_.plates[p].answered->loads.col(static_cast<Eigen::Index>(load_case));
  }
  hold(load);
  return load.col(0);
}

}  // namespace standtrue::solve
