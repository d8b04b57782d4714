#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "standtrue/document/document.hpp"

/// Whole messages of a text, one after the other, as a person reads them.
[[nodiscard]] inline std::string messages(const std::vector<standtrue::Diagnostic>& diagnostics) {
  std::string out;
  for (const standtrue::Diagnostic& diagnostic : diagnostics) out += to_text(diagnostic);
  return out;
}

[[nodiscard]] inline std::string messages_of(std::string_view text) {
  return messages(standtrue::document::parse("b.yaml", text).diagnostics);
}
