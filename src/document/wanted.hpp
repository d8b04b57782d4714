#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "standtrue/document/document.hpp"

namespace standtrue::document {

/// True when the field is a scalar; else the fault "a list stands here; ..." is noted.
[[nodiscard]] bool is_scalar(const Field& field, std::string_view example,
                             std::vector<Diagnostic>& faults);

/// What stands there, for a sentence: "'abc'", "a list", "a map", "nothing".
[[nodiscard]] std::string what_stands_at(const Field& field);

/// "length", "length or depth", "length, depth or height".
[[nodiscard]] std::string listed(const std::vector<std::string>& words);

}  // namespace standtrue::document
