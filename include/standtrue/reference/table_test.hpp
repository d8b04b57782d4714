#pragma once

#include <string_view>

#include "standtrue/reference/tables.hpp"

namespace standtrue::reference {

/// Whether a published test of tables, named by the key of its load ("disc test"), is run for a
/// duty. Not for a duty or a test that is not listed.
/// Source (ours): reference/tests.yaml, which also says what is borrowed from where.
[[nodiscard]] bool runs_table_test(const Tables& tables, std::string_view test,
                                   std::string_view duty);

}  // namespace standtrue::reference
