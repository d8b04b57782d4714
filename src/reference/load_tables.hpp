#pragma once

#include <span>

#include "reference/embedded.hpp"
#include "standtrue/reference/tables.hpp"

namespace standtrue::reference {

/// As load_tables(), from any files. "sources.yaml" must be among them.
[[nodiscard]] Tables load_tables(std::span<const EmbeddedFile> files);

}  // namespace standtrue::reference
