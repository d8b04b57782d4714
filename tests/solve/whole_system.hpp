#pragma once

#include <Eigen/Dense>
#include <array>
#include <functional>
#include <utility>
#include <vector>

#include "solve/member_kernel.hpp"
#include "solve/shell_element.hpp"
#include "standtrue/model/model.hpp"

/// A frame with plates as one dense system, nothing condensed, for tests: six freedoms per node,
/// five per mesh node. Only members and elements are the program's own. SI.
namespace standtrue::tests {

/// Cells that a patch between mesh lines covers, and the share of each corner in an even load of 1:
/// a quarter of the cell's part of the area.
inline void spread(const model::Plate& p, const model::Patch& patch,
                   const std::function<void(std::size_t, double)>& give) {
  std::vector<std::pair<std::array<std::size_t, 4>, double>> cells;
  double area = 0.0;
  for (std::size_t j = 0; j + 1 < p.y.size(); ++j) {
    for (std::size_t i = 0; i + 1 < p.x.size(); ++i) {
      const double x = 0.5 * (p.x[i] + p.x[i + 1]), y = 0.5 * (p.y[j] + p.y[j + 1]);
      if (x < patch.x0 || x > patch.x1 || y < patch.y0 || y > patch.y1 || !p.has_cell(i, j))
        continue;
      const double a = (p.x[i + 1] - p.x[i]) * (p.y[j + 1] - p.y[j]);
      cells.push_back(
          {{p.node(i, j), p.node(i + 1, j), p.node(i + 1, j + 1), p.node(i, j + 1)}, a});
      area += a;
    }
  }
  for (const auto& [corners, a] : cells) {
    for (const std::size_t n : corners) give(n, 0.25 * a / area);
  }
}

class Whole {
 public:
  explicit Whole(const model::Model& model, model::SpringSet springs = model::SpringSet::gravity)
      : Whole(model, springs, springs == model::SpringSet::gravity) {}
  /// `is_seated`: with the ties that hold by weight alone.
  Whole(const model::Model& model, model::SpringSet springs, bool is_seated)
      : m_(model), springs_(springs), is_seated_(is_seated) {
    Eigen::Index size = of_nodes();
    for (const model::Plate& p : m_.plates) {
      first_.push_back(size);
      size += static_cast<Eigen::Index>(5 * p.lines());
    }
    K_ = Eigen::MatrixXd::Zero(size, size);
    f_ = Eigen::VectorXd::Zero(size);
    held_.assign(static_cast<std::size_t>(size), false);
    add_frame();
    for (std::size_t p = 0; p < m_.plates.size(); ++p) add_plate(p);
    if (m_.cases.empty()) return;
    for (const model::PatchLoad& load : m_.cases[0].patch_loads) {
      const model::Plate& p = m_.plates[load.plate];
      const Eigen::Vector3d own =
          axes(p) * Eigen::Vector3d(load.force[0], load.force[1], load.force[2]);
      spread(p, load.where,
             [&](std::size_t n, double share) { f_.segment<3>(at(load.plate, n)) += share * own; });
    }
  }

  /// Movements of everything under case 0 and forces on nodes.
  [[nodiscard]] Eigen::VectorXd solve(const std::vector<model::NodeLoad>& loads) const {
    Eigen::VectorXd f = f_;
    for (const model::NodeLoad& load : loads) {
      f.segment<3>(static_cast<Eigen::Index>(6 * load.node)) += solve::vector_of(load.force);
    }
    std::vector<Eigen::Index> free;
    for (Eigen::Index i = 0; i < K_.rows(); ++i) {
      if (!held_[static_cast<std::size_t>(i)]) free.push_back(i);
    }
    // Element by element: g++ 12 warns of Eigen's indexed views.
    const auto n = static_cast<Eigen::Index>(free.size());
    Eigen::MatrixXd K(n, n);
    Eigen::VectorXd g(n);
    for (Eigen::Index i = 0; i < n; ++i) {
      const Eigen::Index at = free[static_cast<std::size_t>(i)];
      g(i) = f(at);
      for (Eigen::Index j = 0; j < n; ++j) K(i, j) = K_(at, free[static_cast<std::size_t>(j)]);
    }
    const Eigen::PartialPivLU<Eigen::MatrixXd> lu(K);
    Eigen::VectorXd x = lu.solve(g);
    for (int twice = 0; twice < 2; ++twice) x += lu.solve(Eigen::VectorXd(g - K * x));
    Eigen::VectorXd all = Eigen::VectorXd::Zero(K_.rows());
    for (Eigen::Index i = 0; i < n; ++i) all(free[static_cast<std::size_t>(i)]) = x(i);
    return all;
  }

  [[nodiscard]] Eigen::Index of_nodes() const {
    return static_cast<Eigen::Index>(6 * m_.nodes.size());
  }
  [[nodiscard]] const Eigen::MatrixXd& stiffness() const { return K_; }
  [[nodiscard]] const std::vector<bool>& held() const { return held_; }
  [[nodiscard]] const model::Model& model() const { return m_; }
  [[nodiscard]] model::SpringSet springs() const { return springs_; }
  [[nodiscard]] Eigen::Index at(std::size_t plate, std::size_t mesh_node) const {
    return first_[plate] + static_cast<Eigen::Index>(5 * mesh_node);
  }

  [[nodiscard]] static Eigen::Matrix3d axes(const model::Plate& p) {
    Eigen::Matrix3d R;
    R.row(0) << p.x_axis[0], p.x_axis[1], p.x_axis[2];
    R.row(1) << p.y_axis[0], p.y_axis[1], p.y_axis[2];
    R.row(2) = R.row(0).cross(R.row(1));
    return R;
  }

 private:
  void add_frame() {
    for (const model::Member& member : m_.members) {
      const solve::Matrix12 k = solve::member_kernel(m_, member, springs_).global_stiffness();
      const std::array<std::size_t, 2> ends{member.start, member.end};
      for (Eigen::Index r = 0; r < 2; ++r) {
        for (Eigen::Index c = 0; c < 2; ++c) {
          K_.block<6, 6>(static_cast<Eigen::Index>(6 * ends[static_cast<std::size_t>(r)]),
                         static_cast<Eigen::Index>(6 * ends[static_cast<std::size_t>(c)])) +=
              k.block<6, 6>(6 * r, 6 * c);
        }
      }
    }
    for (const model::Support& support : m_.supports) {  // along axes, as hold_node makes them
      const double d[3] = {support.along.x, support.along.y, support.along.z};
      const Eigen::Index i = static_cast<Eigen::Index>(6 * support.node) +
                             (support.rotation ? 3 : 0) +
                             (d[0] != 0.0   ? 0
                              : d[1] != 0.0 ? 1
                                            : 2);
      if (support.stiffness) {
        K_(i, i) += *support.stiffness;
      } else {
        held_[static_cast<std::size_t>(i)] = true;
      }
    }
  }

  void add_plate(std::size_t place) {
    const model::Plate& p = m_.plates[place];
    std::vector<bool> there(p.lines(), false);
    for (std::size_t j = 0; j + 1 < p.y.size(); ++j) {
      for (std::size_t i = 0; i + 1 < p.x.size(); ++i) {
        if (!p.has_cell(i, j)) continue;
        const std::array<std::size_t, 4> c{p.node(i, j), p.node(i + 1, j), p.node(i + 1, j + 1),
                                           p.node(i, j + 1)};
        for (const std::size_t n : c) there[n] = true;
        add_cell(place, c, p.x[i], p.x[i + 1], p.y[j], p.y[j + 1]);
      }
    }
    for (std::size_t j = 0; j < p.y.size(); ++j) {
      for (std::size_t i = 0; i < p.x.size(); ++i) {
        const auto n = static_cast<std::size_t>(at(place, p.node(i, j)));
        for (std::size_t f = 0; f < 5; ++f) {
          held_[n + f] = !there[p.node(i, j)];
          for (const model::PlateHold& h : p.holds) {
            held_[n + f] =
                held_[n + f] || (h.freedoms[f] && p.x[i] >= h.where.x0 && p.x[i] <= h.where.x1 &&
                                 p.y[j] >= h.where.y0 && p.y[j] <= h.where.y1);
          }
        }
      }
    }
    for (const model::PlateTie& tie : p.ties) {
      if (!tie.gravity_only || is_seated_) add_tie(place, tie);
    }
    for (const model::PlateBody& body : p.bodies) {
      Eigen::VectorXd q = Eigen::VectorXd::Zero(K_.rows());
      for (std::size_t pad = 0; pad < 4; ++pad) {
        spread(p, body.pads[pad], [&](std::size_t n, double share) {
          q(at(place, n) + 2) += pad % 2 == 0 ? share : -share;
        });
      }
      K_ += body.stiffness * q * q.transpose();
    }
  }

  void add_cell(std::size_t place, const std::array<std::size_t, 4>& c, double x0, double x1,
                double y0, double y1) {
    const model::Plate& p = m_.plates[place];
    const model::PlateStiffness& s = p.stiffness;
    Eigen::Matrix3d A, D;
    A << s.A_11, s.A_12, 0, s.A_12, s.A_22, 0, 0, 0, s.A_66;
    D << s.D_11, s.D_12, 0, s.D_12, s.D_22, 0, 0, 0, s.D_66;
    solve::Corners corners;
    corners << x0, y0, x1, y0, x1, y1, x0, y1;
    const solve::Matrix8 flat = solve::membrane_stiffness(corners, A) / p.creep;
    const solve::PlateMatrix bent = solve::plate_stiffness(corners, D, {s.S_x, s.S_y}) / p.creep;
    for (std::size_t r = 0; r < 4; ++r) {
      for (std::size_t k = 0; k < 4; ++k) {
        const auto R = static_cast<Eigen::Index>(r), C = static_cast<Eigen::Index>(k);
        K_.block<2, 2>(at(place, c[r]), at(place, c[k])) += flat.block<2, 2>(2 * R, 2 * C);
        K_.block<3, 3>(at(place, c[r]) + 2, at(place, c[k]) + 2) += bent.block<3, 3>(3 * R, 3 * C);
      }
    }
  }

  /// The gap of a tie along own axes: its point on the plate, carried by the rotations of the mesh
  /// node, less its point on the frame, carried by the frame's node.
  void add_tie(std::size_t place, const model::PlateTie& tie) {
    const model::Plate& p = m_.plates[place];
    const Eigen::Matrix3d R = axes(p);
    const Eigen::Vector3d point =
        Eigen::Vector3d(p.origin[0], p.origin[1], p.origin[2]) +
        R.transpose() * Eigen::Vector3d(p.x[tie.i], p.y[tie.j], p.tie_level);
    const Eigen::Vector3d arm = point - solve::vector_of(m_.nodes[tie.node].at);
    const auto n = static_cast<Eigen::Index>(6 * tie.node);
    const Eigen::Index m = at(place, p.node(tie.i, tie.j));
    for (Eigen::Index axis = 0; axis < 3; ++axis) {
      Eigen::VectorXd gap = Eigen::VectorXd::Zero(K_.rows());
      gap(m + axis) = 1.0;
      if (axis == 0) gap(m + 4) = p.tie_level;   // u(z) = u + z ry
      if (axis == 1) gap(m + 3) = -p.tie_level;  // v(z) = v - z rx
      const Eigen::Vector3d e = R.row(axis);
      gap.segment<3>(n) = -e;
      gap.segment<3>(n + 3) = -arm.cross(e);  // e . (θ x arm) = θ . (arm x e)
      K_ += tie.stiffness[static_cast<std::size_t>(axis)] * gap * gap.transpose();
    }
  }

  const model::Model& m_;
  model::SpringSet springs_;
  bool is_seated_;
  std::vector<Eigen::Index> first_;
  Eigen::MatrixXd K_;
  Eigen::VectorXd f_;
  std::vector<bool> held_;
};

}  // namespace standtrue::tests
