#pragma once

#include <string>
#include <vector>

#include "standtrue/model/model.hpp"

namespace standtrue::report {

/// "1.35 self + 1.5 stored-top - shove-along".
[[nodiscard]] std::string terms_text(const std::vector<model::Factored>& terms,
                                     const model::Model& model);

}  // namespace standtrue::report
