#pragma once

#include <string>

namespace standtrue::app {

/// Help on a command, or on all of it for "" and for words that are no command.
[[nodiscard]] std::string help_text(const std::string& command);

}  // namespace standtrue::app
