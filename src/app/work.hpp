#pragma once

#include "standtrue/decide/work.hpp"

namespace standtrue::app {

/// Work on all cores, with its progress on standard error where that is a terminal. Once it has
/// told of some an interrupt (Ctrl-C) stops it cleanly and a second one ends the program; before,
/// the first does.
[[nodiscard]] decide::Work threaded_work();
/// Whether such work was stopped.
[[nodiscard]] bool was_interrupted();

}  // namespace standtrue::app
