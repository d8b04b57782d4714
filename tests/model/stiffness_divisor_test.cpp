#include "standtrue/model/stiffness_divisor.hpp"

#include <doctest/doctest.h>

namespace stiffness_divisor_test {

using namespace standtrue;

TEST_CASE(
    "model/stiffness_divisor: the largest gamma_M of posts and rails (EN 1995-1-1, 2.4.1(2))") {
  const reference::Tables tables = reference::load_tables();
  const auto part = [&](model::Role role, const char* timber) {
    model::Part made;
    made.role = role;
    made.timber = *tables.timber(timber);
    return made;
  };
  model::Parts parts;
  CHECK(model::stiffness_divisor(parts, tables).value == 1.0);
  // EN 1995-1-1, Table 2.3: glulam 1.25, solid timber 1.30.
  parts.parts = {part(model::Role::rail, "GL24h"), part(model::Role::brace, "C24")};
  CHECK(model::stiffness_divisor(parts, tables).value == 1.25);
  parts.parts.push_back(part(model::Role::post, "C16"));
  const reference::Sourced<double> most = model::stiffness_divisor(parts, tables);
  CHECK(most.value == 1.30);
  CHECK(most.source.where.find("2.3") != std::string::npos);
}

}  // namespace stiffness_divisor_test
