#pragma once

#include <mutex>
#include <vector>

/// What a frame is known to stand. All numbers SI.
namespace standtrue::solve {

/// Axial forces of the members (tension positive) and lifted springs under which a frame was found
/// not to buckle. The geometric stiffness of a member grows with its tension and that of the frame
/// with every spring that touches, so that what is pushed no harder and lifts no more stands too.
/// Several threads may use it at once.
class ProvedStanding {
 public:
  [[nodiscard]] bool covers(const std::vector<double>& N, const std::vector<bool>& lifted) const;
  void add(std::vector<double> N, std::vector<bool> lifted);

 private:
  struct Proof {
    std::vector<double> N;
    std::vector<bool> lifted;
  };
  mutable std::mutex guard_;
  std::vector<Proof> proofs_;
};

}  // namespace standtrue::solve
