#pragma once

#include <string>
#include <vector>

#include "decide/alter.hpp"

namespace standtrue::decide {

/// Single changes that a builder may make to a bench, each with what it costs: pieces bought and
/// joints made. Those that make no sense here (a deeper rail where none is sold) are left out.
[[nodiscard]] std::vector<Option> catalogue(const Base& base);

/// One change after another: the keys of `second` on the document of `first`; lists (braces,
/// bearers, sheets) are joined.
[[nodiscard]] Option together(const Option& first, const Option& second);

}  // namespace standtrue::decide
