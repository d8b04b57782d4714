#include <doctest/doctest.h>

#include <ostream>
#include <string>

#include "standtrue/quantity/unit_text.hpp"

namespace bare_number_test {

using namespace standtrue::quantity;

namespace {

struct Bad {
  std::string text;
  const char* what;
  const char* instead;
};

template <class T>
void check_bad(const Parsed<T>& value, const Bad& bad) {
  INFO(bad.text);
  REQUIRE(!value);
  CHECK(value.error().what == bad.what);
  CHECK(value.error().instead == bad.instead);
}

}  // namespace

TEST_CASE("bare_number: numbers without a unit") {
  CHECK(*parse_number("0.3") == 0.3);
  CHECK(*parse_number(" -1e-6 ") == -1e-6);
  CHECK(*parse_number("+2") == 2.0);
  CHECK(*parse_number("1 1/2") == 1.5);
  CHECK(*parse_number("0777") == 777.0);  // decimal, not octal
  CHECK(*parse_number("1e-999") == 0.0);
  CHECK(*parse_number("4.9406564584124654e-324") == 4.9406564584124654e-324);
  CHECK(*parse_number("1.7976931348623157e308") == 1.7976931348623157e308);
}

TEST_CASE("bare_number: what is no number, or more than one, is refused") {
  for (const Bad& bad : {
           Bad{"", "there is no value", "0.3"},
           Bad{"0.3 mm", "'mm' is a unit; a plain number is wanted", "0.3"},
           Bad{"0,3", "'0,3' has a decimal comma", "0.3"},
           Bad{"1 2", "'2' is left over after '1'", "1"},
           Bad{"1.2.3", "'.3' is left over after '1.2'", "1.2"},
           Bad{"1_000", "'_000' is left over after '1'", "1"},
           Bad{"1e", "'e' is left over after '1'", "1"},
           Bad{"NaN", "'NaN' is not a number", "0.3"},
           Bad{"infinity", "'infinity' is not a number", "0.3"},
           Bad{"--5", "'--5' is not a number", "0.3"},
           Bad{"1e400", "'1e400' is too large", "0.3"},
       }) {
    check_bad(parse_number(bad.text), bad);
  }
}

TEST_CASE("bare_number: counts are whole and fit an int") {
  CHECK(*parse_count("4") == 4);
  CHECK(*parse_count(" -2 ") == -2);
  CHECK(*parse_count("2147483647") == 2147483647);
  for (const Bad& bad : {
           Bad{"", "there is no value", "2"},
           Bad{"3.0", "'3.0' is not a whole number", "3"},
           Bad{"1/2", "'1/2' is not a whole number", "1"},
           Bad{"1e3", "'1e3' is not a whole number", "1000"},
           Bad{"2147483648", "'2147483648' is too large", "2"},
           Bad{"four", "'four' is not a number", "2"},
           Bad{"4 posts", "'posts' is left over after '4'", "4"},
       }) {
    check_bad(parse_count(bad.text), bad);
  }
}

}  // namespace bare_number_test
