#include <algorithm>

#include "report/drawing.hpp"
#include "report/governing.hpp"

namespace standtrue::report {

using check::Finding;

std::vector<Balloon> balloons_of(const decide::Assessment& assessment) {
  constexpr std::size_t most = 8, nearest = 3;
  const std::vector<const Finding*> all = worst_first(assessment.findings);
  const bool any_fails =
      std::any_of(all.begin(), all.end(), [](const Finding* f) { return is_over(*f); });
  std::vector<Balloon> balloons;
  std::vector<check::Group> done;
  for (const Finding* f : all) {
    if (balloons.size() == (any_fails ? most : nearest)) break;
    if (!is_judged(*f) || (any_fails && !is_over(*f))) continue;
    if (std::find(done.begin(), done.end(), f->group) != done.end()) continue;
    done.push_back(f->group);
    balloons.push_back({static_cast<int>(balloons.size()) + 1, f, is_over(*f)});
  }
  return balloons;
}

}  // namespace standtrue::report
