#pragma once

#include <vector>

#include "document/source_text.hpp"
#include "standtrue/diagnostic.hpp"
#include "standtrue/document/document.hpp"

namespace standtrue::document {

struct Events {
  Node root;
  bool is_complete = false;  ///< false: reading stopped half-way and the root is of no use
};

/// Runs the YAML parser over a readable text.
[[nodiscard]] Events read_events(const SourceText& source, std::vector<Diagnostic>& faults);

}  // namespace standtrue::document
