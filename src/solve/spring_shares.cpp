// All numbers SI (m, N, rad).
#include "solve/spring_shares.hpp"

namespace standtrue::solve {

namespace {

/// Twice the energy in the end springs of one member.
double in_end_springs(const Prepared::Inside& in, const Mode& mode, model::MemberId m) {
  const model::Member& member = in.model.members[m];
  const Vector12 F =
      in.kernels[m].end_forces_of(in.node_movements(m, mode.displacement), Vector12::Zero());
  double twice = 0.0;
  for (std::size_t i = 0; i < 12; ++i) {
    const model::EndSpring& end = i < 6 ? member.start_springs[i] : member.end_springs[i - 6];
    const double k = in.springs == model::SpringSet::gravity ? end.gravity : end.sway;
    if (end.kind != model::EndSpring::Kind::elastic || k == 0.0) continue;
    twice += F(static_cast<Eigen::Index>(i)) * F(static_cast<Eigen::Index>(i)) / k;
  }
  return twice;
}

/// Twice the energy in the slip of a plate's ties; what they press with is contact.
double in_slip(const Prepared::Inside& in, const Mode& mode, std::size_t place) {
  const model::Plate& plate = in.model.plates[place];
  double twice = 0.0;
  for (const model::PlateTie& tie : plate.ties) {
    if (tie.gravity_only && in.springs == model::SpringSet::sway) continue;
    const auto row = static_cast<Eigen::Index>(5 * plate.node(tie.i, tie.j));
    const Eigen::Matrix<double, 5, 1> mesh = mode.plates[place].block<5, 1>(row, 0);
    const Eigen::Vector3d of_frame =
        tie_of_node(in.model, plate, tie) *
        mode.displacement.segment<6>(static_cast<Eigen::Index>(6 * tie.node));
    const double u = mesh(0) + plate.tie_level * mesh(4) - of_frame(0);
    const double v = mesh(1) - plate.tie_level * mesh(3) - of_frame(1);
    twice += tie.stiffness[0] * u * u + tie.stiffness[1] * v * v;
  }
  return twice;
}

}  // namespace

Mode::InSprings shares_in_springs(const Prepared::Inside& in, const Mode& mode, double lambda) {
  Mode::InSprings shares;
  for (model::MemberId m = 0; m < in.model.members.size(); ++m) {
    shares.ends += in_end_springs(in, mode, m) / lambda;
  }
  for (std::size_t p = 0; p < in.plates.size(); ++p) shares.slip += in_slip(in, mode, p) / lambda;
  for (const model::Support& support : in.model.supports) {
    if (!support.stiffness) continue;
    const double moved =
        direction(support.rotation, support.along)
            .dot(mode.displacement.segment<6>(static_cast<Eigen::Index>(6 * support.node)));
    shares.supports += *support.stiffness * moved * moved / lambda;
  }
  return shares;
}

}  // namespace standtrue::solve
