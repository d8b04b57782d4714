#include "check/grips.hpp"

#include <algorithm>
#include <cmath>

namespace standtrue::check {

void share_what_slips(std::vector<FootForce>& feet) {
  std::vector<bool> slips(feet.size(), false);
  for (std::size_t round = 0; round <= feet.size(); ++round) {
    Eigen::Vector2d lost = Eigen::Vector2d::Zero();
    double pressed = 0.0;  // by those that hold
    for (std::size_t i = 0; i < feet.size(); ++i) {
      FootForce& foot = feet[i];
      const double most = std::isinf(foot.mu) ? foot.mu : foot.mu * std::max(0.0, foot.N);
      const double H = foot.H.norm();
      if (H > most) {
        const Eigen::Vector2d held = most / H * foot.H;
        lost += foot.H - held;
        foot.H = held;
        slips[i] = true;
      }
      if (!slips[i]) pressed += std::max(0.0, foot.N);
    }
    if (lost.norm() == 0.0 || pressed == 0.0) return;
    for (std::size_t i = 0; i < feet.size(); ++i) {
      if (!slips[i]) feet[i].H += std::max(0.0, feet[i].N) / pressed * lost;
    }
  }
}

}  // namespace standtrue::check
