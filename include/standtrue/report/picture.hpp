#pragma once

#include <string>

#include "standtrue/bench/read.hpp"
#include "standtrue/decide/picture.hpp"

namespace standtrue::report {

/// What a drawing of an assessed bench is made of, for programs that draw it themselves:
/// docs/picture.schema.json, version 1. Lengths in m, forces in N, moments in N m; axes of
/// docs/conventions.md. `written` says of each part where the file speaks of it.
[[nodiscard]] std::string json(const decide::Picture& picture, const decide::Assessment& assessment,
                               const bench::WrittenParts& written);

}  // namespace standtrue::report
