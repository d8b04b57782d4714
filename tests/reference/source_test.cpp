#include <doctest/doctest.h>

#include "standtrue/reference/source.hpp"

namespace source_test {

using namespace standtrue::reference;

TEST_CASE("reference/source: a citation reads like a reference in a book") {
  CHECK(citation({.key = "EN 338:2016", .where = "Table 1", .status = Status::seen}) ==
        "EN 338:2016, Table 1");
  CHECK(citation({.key = "EN 1995-1-1", .where = "6.1.7(2)", .status = Status::from_memory}) ==
        "EN 1995-1-1, 6.1.7(2) (from memory)");
  CHECK(citation({.key = "EN 300", .where = "", .status = Status::second_hand}) ==
        "EN 300 (second hand)");
  CHECK(citation({.key = "", .where = "sizes of the trade", .status = Status::from_memory}) ==
        "sizes of the trade (from memory)");
  CHECK(citation({.key = "", .where = "keep it short", .status = Status::common_practice}) ==
        "common practice, no source: keep it short");
  CHECK(citation({.key = "", .where = "", .status = Status::ours}) == "ours");
}

TEST_CASE("reference/source: a value has its own source or else that of the record") {
  const RecordSource record{
      .whole = {.key = "A", .where = "1", .status = Status::seen},
      .exceptions = {
          {.value = "f_v_k", .source = {.key = "B", .where = "2", .status = Status::ours}}}};
  CHECK(record.of("f_v_k").key == "B");
  CHECK(record.of("f_m_k").key == "A");
}

}  // namespace source_test
