#include "check/grips.hpp"

#include <algorithm>

namespace standtrue::check {

void share_what_slips(std::vector<FootForce>& feet) {
  std::vector<bool> slips(feet.size(), false);
  for (std::size_t round = 0; round <= feet.size(); ++round) {
    double lost_x = 0.0, lost_y = 0.0;
    double pressed = 0.0;  // by those that hold
    for (std::size_t i = 0; i < feet.size(); ++i) {
      FootForce& foot = feet[i];
      const double most = std::isinf(foot.mu) ? foot.mu : foot.mu * std::max(0.0, foot.N);
      if (const double H = foot.H(); H > most) {
        const double share = most / H;
        lost_x += (1.0 - share) * foot.x;
        lost_y += (1.0 - share) * foot.y;
        foot.x *= share;
        foot.y *= share;
        slips[i] = true;
      }
      if (!slips[i]) pressed += std::max(0.0, foot.N);
    }
    if ((lost_x == 0.0 && lost_y == 0.0) || pressed == 0.0) return;
    for (std::size_t i = 0; i < feet.size(); ++i) {
      if (slips[i]) continue;
      const double share = std::max(0.0, feet[i].N) / pressed;
      feet[i].x += share * lost_x;
      feet[i].y += share * lost_y;
    }
  }
}

}  // namespace standtrue::check
