#pragma once

#include <memory>
#include <vector>

#include "solve/condensed_plate.hpp"
#include "solve/layouts.hpp"
#include "standtrue/model/model.hpp"

/// The plates of a model as part of its frame. All numbers SI.
namespace standtrue::solve {

/// A condensed plate with the answers to its loads while the tied points rest: one column per load
/// case of the model, then one per body, whose load is the unit pattern of its pads. The same for
/// every stiffness of ties and joints, and for any creep.
struct AnsweredPlate {
  std::shared_ptr<const CondensedPlate> condensed;
  std::vector<double> asked;  ///< what the loads were made of, one number after the other
  PlateLoads loads;
  /// Per case, own axes about own origin: force (3), moment (3), and the sum of force magnitudes.
  Eigen::Matrix<double, 7, Eigen::Dynamic> resultants;
  PlateAnswer answer;
  Eigen::MatrixXd warp;  ///< bodies x columns: q of each body, before creep
};

/// Condensed plates, kept so that models that differ in joints, ties or creep share them; and how
/// the factors of such models are laid out, which is much alike.
struct PlateCache::Inside {
  std::shared_ptr<Layouts> layouts = std::make_shared<Layouts>();  ///< of all copies
  std::vector<std::shared_ptr<const CondensedPlate>> condensed;
  std::vector<std::shared_ptr<const AnsweredPlate>> answered;
};

/// One plate of a Prepared. The bodies' twist is eliminated:
///     λ = C^-1 (φ q_f + G^T c),  C = diag(1/k) + φ Γ,     S' = S/φ + G C^-1 G^T,
/// c the movements of the tied points, G the condensed patterns, Γ and q_f parts of `warp`, φ the
/// creep divisor. λ is the force pattern on the pads.
struct PreparedPlate {
  std::shared_ptr<const AnsweredPlate> answered;
  double creep = 1.0;
  Eigen::Index first = 0;     ///< of its freedoms among all own ones
  Eigen::MatrixXd stiffness;  ///< S'
  Eigen::MatrixXd patterns;   ///< G
  Eigen::MatrixXd give;       ///< C^-1

  [[nodiscard]] Eigen::Index size() const { return answered->condensed->size(); }
  /// The first own freedom of a tied mesh node.
  [[nodiscard]] Eigen::Index freedom_of(std::size_t mesh_node) const;
  /// What the frame feels of load case `column`.
  [[nodiscard]] Eigen::VectorXd load_on_ties(Eigen::Index column) const;
  /// Movements of the mesh, one column per loading: `factors` over cases (rows), `of_ties` rows 3
  /// per tied point.
  [[nodiscard]] Panel movements(const Panel& of_ties, const Eigen::MatrixXd& factors) const;
  /// λ of the bodies, one column per loading.
  [[nodiscard]] Eigen::MatrixXd body_forces(const Panel& of_ties,
                                            const Eigen::MatrixXd& factors) const;
};

[[nodiscard]] OrRefusal<std::vector<PreparedPlate>> prepare_plates(const model::Model& model,
                                                                   PlateCache& cache);

/// A tie's springs between the six freedoms of its frame node and the three of its tied point,
/// global and own axes: stiffness over both.
[[nodiscard]] Eigen::Matrix<double, 9, 9> tie_stiffness(const model::Model& model,
                                                        const model::Plate& plate,
                                                        const model::PlateTie& tie);
/// Rows: own x, y, normal. How far the frame's side of a tie moves, per movement of its node.
[[nodiscard]] Eigen::Matrix<double, 3, 6> tie_of_node(const model::Model& model,
                                                      const model::Plate& plate,
                                                      const model::PlateTie& tie);
/// Rows: the plate's x, y, normal; v_own = R v_global.
[[nodiscard]] Eigen::Matrix3d axes_of(const model::Plate& plate);
[[nodiscard]] Eigen::Vector3d position_of(const model::Plate& plate, double x, double y,
                                          double along_normal);

}  // namespace standtrue::solve
