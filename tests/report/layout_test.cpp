#include "report/layout.hpp"

#include <doctest/doctest.h>

#include <stdexcept>

#include "report/paint.hpp"

namespace layout_test {

using namespace standtrue::report;

TEST_CASE("report/layout: columns count code points and skip colour") {
  CHECK(columns("abc") == 3);
  CHECK(columns("\xc3\xa9t\xc3\xa9") == 3);
  CHECK(columns(painted("STANDS", Paint::bold, true)) == 6);
}

TEST_CASE("report/layout: text wraps under its first word") {
  CHECK(wrapped("  - ", "one two three four", 13) == "  - one two\n    three\n    four\n");
  CHECK(wrapped("  - ", "joint/front-rail is", 12) == "  - joint/\n    front-\n    rail is\n");
  CHECK(wrapped("- ", "abcdefghij k", 6) == "- abcd\n  efgh\n  ij k\n");
  CHECK(wrapped("a label that is longer: ", "one two", 28) ==
        "a label that is longer: one\n      two\n");
  CHECK(wrapped("  - ", "  \n ", 20).empty());
}

TEST_CASE("report/layout: a table lines up, and on a narrow page its first cell stands alone") {
  Table table({"node", "x mm", "z mm"});
  table.add({"B", "0.24", "-12"});
  table.add({"top-left", "0", "1.5"});
  CHECK(table.text(2, 40) ==
        "  node      x mm  z mm\n"
        "  B         0.24   -12\n"
        "  top-left     0   1.5\n");
  CHECK(table.text(2, 20) ==
        "  node\n"
        "    x mm  z mm\n"
        "  B\n"
        "    0.24   -12\n"
        "  top-left\n"
        "       0   1.5\n");
  CHECK(table.text(2, 12) ==
        "  node\n"
        "  B\n"
        "    x mm\n    0.24; z\n    mm -12\n"
        "  top-left\n"
        "    x mm 0;\n    z mm 1.5\n");
  CHECK_THROWS_AS(table.add({"one"}), std::logic_error);
}

}  // namespace layout_test
