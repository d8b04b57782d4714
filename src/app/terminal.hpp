#pragma once

namespace standtrue::app {

/// What standard output goes to.
struct Terminal {
  int width = 80;       ///< COLUMNS, else of the terminal, else 80; at least 50
  bool colour = false;  ///< only a terminal that can, and not with NO_COLOR
};
[[nodiscard]] Terminal look_at_terminal();

}  // namespace standtrue::app
