#pragma once

#include <string>
#include <tl/expected.hpp>
#include <vector>

#include "standtrue/app/run.hpp"

namespace standtrue::app {

/// The text of a file, or of standard input for "-"; or a line for people why it can not be read.
/// Reads little more than the largest file that is taken.
[[nodiscard]] tl::expected<std::string, std::string> read_file(const std::string& name);

/// The frame cases (*.yaml) of a folder in order of their names.
[[nodiscard]] tl::expected<std::vector<File>, std::string> read_folder(const std::string& name);

}  // namespace standtrue::app
