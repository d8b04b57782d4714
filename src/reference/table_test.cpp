#include "standtrue/reference/table_test.hpp"

#include <algorithm>
#include <string>

#include "reference/readers.hpp"

namespace standtrue::reference {

namespace {

/// Each cell is a constant of its own.
std::string constant_key(std::string_view test, std::string_view duty) {
  return std::string(test) + " for " + std::string(duty);
}

}  // namespace

void read_table_test(const Record& r, Tables& out) {
  for (const Duty& duty : out.duties) {
    out.constants.push_back({.key = constant_key(r.key(), duty.key),
                             .value = r.number(duty.key),
                             .source = r.source(duty.key)});
  }
}

bool runs_table_test(const Tables& tables, std::string_view test, std::string_view duty) {
  const std::string key = constant_key(test, duty);
  return std::any_of(tables.constants.begin(), tables.constants.end(),
                     [&key](const Constant& c) { return c.key == key && c.value > 0.0; });
}

}  // namespace standtrue::reference
