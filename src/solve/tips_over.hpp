#pragma once

#include <Eigen/Core>

#include "standtrue/model/model.hpp"

/// Whether a frame tips, by statics alone. All numbers SI.
namespace standtrue::solve {

/// Rigid movements of the frame, small, that drag no support but those that only press: a column
/// each, what each press-only support (in the order of the model) then moves by along its
/// direction. On a level floor three: lifting, and turning about two axes in the floor. None where
/// plates are held.
[[nodiscard]] Eigen::MatrixXd free_lifts(const model::Model& model);

/// Whether no forces that press can balance the loads, however much the others grip: then some of
/// `lifts` sinks none of the press-only supports and the loads gain by it,
///     y >= 0   and   y . force < 0,
/// with `force` of these supports in any state of balance in which they may pull. Such movements
/// form a cone, and one of its edges does it if any does: turning about an edge of the figure that
/// the feet span. False where rounding could decide. By Farkas' lemma.
[[nodiscard]] bool tips_over(const Eigen::MatrixXd& lifts, const Eigen::VectorXd& force);

}  // namespace standtrue::solve
