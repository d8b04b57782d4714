#include "solve/proved_standing.hpp"

#include <algorithm>
#include <utility>

namespace standtrue::solve {

bool ProvedStanding::covers(const std::vector<double>& N, const std::vector<bool>& lifted) const {
  const std::lock_guard<std::mutex> lock(guard_);
  return std::any_of(proofs_.begin(), proofs_.end(), [&](const Proof& proof) {
    return std::equal(N.begin(), N.end(), proof.N.begin(), proof.N.end(),
                      [](double n, double proved) { return n >= proved; }) &&
           std::equal(lifted.begin(), lifted.end(), proof.lifted.begin(), proof.lifted.end(),
                      [](bool now, bool then) { return then || !now; });
  });
}

void ProvedStanding::add(std::vector<double> N, std::vector<bool> lifted) {
  const std::lock_guard<std::mutex> lock(guard_);
  proofs_.push_back({std::move(N), std::move(lifted)});
}

}  // namespace standtrue::solve
