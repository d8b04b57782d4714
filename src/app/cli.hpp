#pragma once

#include <string>
#include <vector>

namespace standtrue::app {

/// The terminal door: arguments (without the program's name) to an exit code; reads files, writes
/// to standard output and standard error.
[[nodiscard]] int command_line(const std::vector<std::string>& arguments);

}  // namespace standtrue::app
