#pragma once

#include <map>
#include <string>
#include <vector>

#include "standtrue/decide/picture.hpp"

namespace standtrue::decide {

/// Where on the bench each finding is, by the names in its id and in its place; those of the whole
/// bench are left out.
[[nodiscard]] std::map<std::string, Place> finding_places(
    const std::vector<check::Finding>& findings, const model::Model& model);

}  // namespace standtrue::decide
