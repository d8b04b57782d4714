#pragma once

#include "standtrue/decide/compare.hpp"

namespace standtrue::app {

/// Work on all cores, with its progress on standard error where that is a terminal. An interrupt
/// (Ctrl-C) stops it cleanly; a second one ends the program.
[[nodiscard]] decide::Work threaded_work();

}  // namespace standtrue::app
