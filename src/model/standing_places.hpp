#pragma once

#include <string>
#include <vector>

#include "model/idealising.hpp"

namespace standtrue::model {

/// Where somebody stands or leans on a top, middles of the feet's patch (m).
struct StandingPlace {
  std::string name;
  double x = 0.0, y = 0.0;
};

/// The middle of a top, its edges and corners; the middle of every rail and bearer under it and of
/// every bay between them, where one piece or one bay is worst; beside its cut-outs; and at the
/// quarters of its edges where a bed of precision stands, which twists most when leaned on beside
/// its own middle. Some may lie over a cut-out.
[[nodiscard]] std::vector<StandingPlace> standing_places(const Idealising& work,
                                                         const bench::Sheet& sheet);

}  // namespace standtrue::model
