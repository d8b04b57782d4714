#pragma once

#include <optional>
#include <string>
#include <vector>

#include "standtrue/app/run.hpp"

/// The words of both doors.
namespace standtrue::app {

/// In the order in which help lists them.
[[nodiscard]] const std::vector<std::string>& command_names();
[[nodiscard]] std::optional<Command> command_named(const std::string& name);

[[nodiscard]] std::optional<model::Bound> bound_named(const std::string& name);

/// "standard" or "fine": whether it is fine.
[[nodiscard]] std::optional<bool> mesh_named(const std::string& name);

}  // namespace standtrue::app
