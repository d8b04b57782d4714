#pragma once

#include <algorithm>
#include <string>
#include <vector>

#include "standtrue/check/finding.hpp"

/// Picking among findings.
namespace standtrue::decide {

/// What a verdict hangs on.
[[nodiscard]] inline bool decides(const check::Finding& f) {
  return f.kind == check::Kind::safety || f.kind == check::Kind::service;
}

/// Null if there is none.
[[nodiscard]] inline const check::Finding* with_id(const std::vector<check::Finding>& findings,
                                                   const std::string& id) {
  const auto found = std::find_if(findings.begin(), findings.end(),
                                  [&id](const check::Finding& f) { return f.id == id; });
  return found == findings.end() ? nullptr : &*found;
}

/// Among findings as `merge` leaves them, where it belongs.
void add_in_order(std::vector<check::Finding>& findings, check::Finding more);

}  // namespace standtrue::decide
