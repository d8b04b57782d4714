#pragma once

#include <optional>
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

/// Why a file of that name could not be written beside one that is read; before long work, and
/// again by write_file. What is read is never written over.
[[nodiscard]] std::optional<std::string> why_not_writable(const std::string& name,
                                                          const std::string& read);
/// Writes a file as a whole or not at all: what stood there before stays until the new one is
/// complete. A line for people where it can not be written.
[[nodiscard]] std::optional<std::string> write_file(const std::string& name,
                                                    const std::string& text);

/// "2026-11-26": what the clock of this machine says.
[[nodiscard]] std::string today();

}  // namespace standtrue::app
