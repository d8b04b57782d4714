#include <doctest/doctest.h>

#include <ostream>
#include <string>
#include <vector>

#include "standtrue/quantity/unit_text.hpp"

namespace nearest_test {

using standtrue::quantity::nearest;

TEST_CASE("nearest: one slip in a word is forgiven, a different word is not") {
  const std::vector<std::string> known = {"length", "depth", "height", "timber", "top"};
  CHECK(nearest("lenght", known) == "length");  // swapped
  CHECK(nearest("heigth", known) == "height");
  CHECK(nearest("dept", known) == "depth");      // left out
  CHECK(nearest("timmber", known) == "timber");  // doubled
  CHECK(nearest("Length", known) == "length");   // case
  CHECK(nearest("tap", known) == "top");         // changed
  CHECK(nearest("colour", known) == "");
  CHECK(nearest("", known) == "");
  CHECK(nearest("length", {}) == "");
  CHECK(nearest(std::string(100000, 'l'), known) == "");
}

TEST_CASE("nearest: equally near words go by case and then by order") {
  CHECK(nearest("mn", {"MN", "mm"}) == "MN");
  CHECK(nearest("xm", {"mm", "cm"}) == "mm");
}

}  // namespace nearest_test
