#include <doctest/doctest.h>

#include "standtrue/report/report.hpp"

namespace tables_text_test {

using namespace standtrue;

TEST_CASE("report/tables_text: every record is listed with its source, and a group alone") {
  const reference::Tables tables = reference::load_tables();
  report::Style style;
  const std::string all = report::tables_text(tables, "", style);
  const std::vector<std::string> groups = report::table_groups(tables);
  REQUIRE(groups.size() > 3);
  for (const std::string& group : groups) {
    CAPTURE(group);
    CHECK(("\n" + all).find("\n" + group + "\n") != std::string::npos);
  }
  for (const reference::Row& row : reference::listing(tables)) {
    CHECK_MESSAGE(all.find("  " + row.key + ": ") != std::string::npos,
                  row.group << " " << row.key);
    CHECK_FALSE(row.source.empty());
  }
  const std::string duty = report::tables_text(tables, "duty", style);
  CHECK(duty.rfind("duty\n", 0) == 0);
  CHECK(duty.find("planing: sway 120 N/mm") != std::string::npos);
  CHECK(duty.find("C16") == std::string::npos);
}

}  // namespace tables_text_test
