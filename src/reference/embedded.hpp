#pragma once

#include <span>
#include <string_view>

namespace standtrue::reference {

/// One record file, compiled into the program.
struct EmbeddedFile {
  std::string_view name;  ///< without folder: "timber.yaml"
  std::string_view text;  ///< the file, byte for byte
};

/// Every `reference/*.yaml` (folders below it are not included), sorted by name. The build writes
/// the definition; the texts live as long as the program.
[[nodiscard]] std::span<const EmbeddedFile> embedded_files();

}  // namespace standtrue::reference
