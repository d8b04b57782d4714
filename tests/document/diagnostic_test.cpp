#include "standtrue/diagnostic.hpp"

#include <doctest/doctest.h>

#include <ostream>
#include <string>

namespace diagnostic_test {

using namespace standtrue;

namespace {

Diagnostic no_unit() {
  return {.severity = Severity::error,
          .file = "bench.yaml",
          .at = {5, 11},
          .length = 4,
          .source_line = "  length: 2100",
          .path = "frame.length",
          .what = "'2100' has no unit",
          .instead = "length: 2100 mm"};
}

}  // namespace

TEST_CASE("diagnostic: file, line and column, the line underlined, the path and what to write") {
  CHECK(to_text(no_unit()) ==
        "bench.yaml:5:11: '2100' has no unit\n"
        "    length: 2100\n"
        "            ^~~~\n"
        "  at frame.length; write, for example: length: 2100 mm\n");
}

TEST_CASE("diagnostic: a warning says so") {
  Diagnostic warning = no_unit();
  warning.severity = Severity::warning;
  CHECK(to_text(warning).substr(0, 46) == "bench.yaml:5:11: warning: '2100' has no unit\n ");
}

TEST_CASE("diagnostic: path, advice and line are left out when there are none") {
  Diagnostic fault = no_unit();
  fault.source_line.clear();
  fault.path.clear();
  CHECK(to_text(fault) ==
        "bench.yaml:5:11: '2100' has no unit\n"
        "  write, for example: length: 2100 mm\n");
  fault.instead.clear();
  CHECK(to_text(fault) == "bench.yaml:5:11: '2100' has no unit\n");
  fault.path = "frame.length";
  CHECK(to_text(fault) ==
        "bench.yaml:5:11: '2100' has no unit\n"
        "  at frame.length\n");
}

TEST_CASE("diagnostic: the caret stands below its place after tabs and accents") {
  Diagnostic fault = no_unit();
  fault.source_line = "\xC3\xA9t\xC3\xA9:\t2100";
  fault.at.column = 6;
  CHECK(to_text(fault) ==
        "bench.yaml:5:6: '2100' has no unit\n"
        "  \xC3\xA9t\xC3\xA9: 2100\n"
        "       ^~~~\n"
        "  at frame.length; write, for example: length: 2100 mm\n");
}

TEST_CASE("diagnostic: a span past the end of the line still has a caret, and no more than one") {
  Diagnostic fault = no_unit();
  fault.at.column = 40;
  fault.length = 9;
  fault.path.clear();
  fault.instead.clear();
  CHECK(to_text(fault) ==
        "bench.yaml:5:40: '2100' has no unit\n"
        "    length: 2100\n"
        "                ^\n");
}

TEST_CASE("diagnostic: a long line is clipped to about a hundred columns around the span") {
  Diagnostic fault = no_unit();
  fault.source_line = std::string(300, 'a') + "2100" + std::string(300, 'b');
  fault.at.column = 301;
  fault.path.clear();
  fault.instead.clear();
  CHECK(to_text(fault) == "bench.yaml:5:301: '2100' has no unit\n  ..." + std::string(48, 'a') +
                              "2100" + std::string(48, 'b') + "...\n" + std::string(53, ' ') +
                              "^~~~\n");
  fault.length = 400;
  const std::string wide = to_text(fault);
  CHECK(wide.find("^" + std::string(99, '~') + "\n") != std::string::npos);
}

TEST_CASE("diagnostic: a warning is not an error") {
  Diagnostic warning = no_unit();
  warning.severity = Severity::warning;
  CHECK(!any_error({}));
  CHECK(!any_error({warning}));
  CHECK(any_error({warning, no_unit()}));
}

}  // namespace diagnostic_test
