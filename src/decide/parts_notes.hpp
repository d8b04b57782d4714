#pragma once

#include <string>
#include <vector>

#include "standtrue/bench/bench.hpp"
#include "standtrue/reference/tables.hpp"

namespace standtrue::decide {

/// What goes with the pieces: pilot holes, screws into the wall, how far sawn timber is off. Holes
/// for screws are told where the rules want them drilled: near ends and edges, in dense wood,
/// thicker than 6 mm. 0.7 d is what the code asks for; for thin screws the root does as well.
[[nodiscard]] std::vector<std::string> notes_on_parts(const bench::Bench& bench,
                                                      const reference::Tables& tables);

}  // namespace standtrue::decide
