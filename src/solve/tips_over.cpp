// All numbers SI (m, N).
#include "solve/tips_over.hpp"

#include <Eigen/SVD>
#include <algorithm>
#include <cmath>
#include <vector>

#include "solve/assembly.hpp"

namespace standtrue::solve {

namespace {

/// What a matrix of numbers about 1 takes to nothing, to rounding.
Eigen::MatrixXd kernel_of(const Eigen::MatrixXd& a) {
  constexpr double rounding = 1e-9;
  const Eigen::JacobiSVD<Eigen::MatrixXd> svd(a, Eigen::ComputeFullV);
  const Eigen::Index rank = (svd.singularValues().array() > rounding).count();
  return svd.matrixV().rightCols(a.cols() - rank);
}

/// What a support moves by when the frame moves by 1 along each axis and turns by 1/reach about
/// each axis through `middle`.
Eigen::RowVectorXd moved_by(const model::Model& model, const model::Support& support,
                            const Eigen::Vector3d& middle, double reach) {
  const Eigen::Vector3d along = vector_of(support.along).normalized();
  const Eigen::Vector3d arm = (vector_of(model.nodes[support.node].at) - middle) / reach;
  Eigen::RowVectorXd moved(6);
  if (support.rotation) {
    moved << 0.0, 0.0, 0.0, along.transpose();
  } else {
    moved << along.transpose(), arm.cross(along).transpose();
  }
  return moved;
}

/// Whether this lift, or its reverse, sinks nowhere and is gained by.
bool gains(const Eigen::VectorXd& lift, const Eigen::VectorXd& force) {
  constexpr double still = 1e-8;  // ten times the rounding of a kernel
  constexpr double clear = 1e-6;  // what answers may be out of balance by
  for (const double sign : {1.0, -1.0}) {
    const bool sinks = (sign * lift).minCoeff() < -still;
    if (!sinks && sign * lift.dot(force) < -clear * force.cwiseAbs().sum()) return true;
  }
  return false;
}

/// Edges of the cone: all but one of a movement's numbers are fixed by supports that it leaves
/// still.
bool any_edge_gains(const Eigen::MatrixXd& lifts, const Eigen::VectorXd& force,
                    std::vector<Eigen::Index>& still, Eigen::Index from) {
  if (static_cast<Eigen::Index>(still.size()) + 1 == lifts.cols()) {
    const Eigen::MatrixXd rows = lifts(still, Eigen::all);
    const Eigen::MatrixXd edge =
        still.empty() ? Eigen::MatrixXd::Identity(1, 1).eval() : kernel_of(rows);
    return edge.cols() == 1 && gains(lifts * edge.col(0), force);
  }
  for (Eigen::Index i = from; i < lifts.rows(); ++i) {
    still.push_back(i);
    if (any_edge_gains(lifts, force, still, i + 1)) return true;
    still.pop_back();
  }
  return false;
}

}  // namespace

Eigen::MatrixXd free_lifts(const model::Model& model) {
  for (const model::Plate& plate : model.plates) {
    if (!plate.holds.empty()) return {};
  }
  Eigen::Vector3d middle = Eigen::Vector3d::Zero();
  for (const model::Node& node : model.nodes) middle += vector_of(node.at);
  middle /= static_cast<double>(std::max<std::size_t>(model.nodes.size(), 1));
  double reach = 1e-3;
  for (const model::Support& support : model.supports) {
    reach = std::max(reach, (vector_of(model.nodes[support.node].at) - middle).norm());
  }
  const auto n = static_cast<Eigen::Index>(model.supports.size());
  Eigen::MatrixXd pressing(n, 6), others(n, 6);
  Eigen::Index n_pressing = 0, n_others = 0;
  for (const model::Support& support : model.supports) {
    const Eigen::RowVectorXd moved = moved_by(model, support, middle, reach);
    if (support.press_only) {
      pressing.row(n_pressing++) = moved;
    } else {
      others.row(n_others++) = moved;
    }
  }
  const Eigen::MatrixXd rigid =
      n_others > 0 ? kernel_of(others.topRows(n_others)) : Eigen::MatrixXd::Identity(6, 6).eval();
  return pressing.topRows(n_pressing) * rigid;
}

bool tips_over(const Eigen::MatrixXd& lifts, const Eigen::VectorXd& force) {
  if (lifts.size() == 0) return false;
  std::vector<Eigen::Index> still;
  return any_edge_gains(lifts, force, still, 0);
}

}  // namespace standtrue::solve
