#include "reference/load_tables.hpp"

#include <doctest/doctest.h>

#include <array>
#include <stdexcept>
#include <string>

namespace load_tables_test {

using namespace standtrue::reference;

namespace {

constexpr std::string_view sources = R"(sources:
  - table: |
      key | title | edition | read
      EN 1 | A standard | 2020 | read
)";

/// What loading `text` as a record file says.
std::string fault_of(std::string_view text) {
  const std::array<EmbeddedFile, 2> files{EmbeddedFile{"sources.yaml", sources},
                                          EmbeddedFile{"x.yaml", text}};
  try {
    (void)load_tables(files);
  } catch (const std::logic_error& error) {
    return error.what();
  }
  return "";
}

}  // namespace

TEST_CASE("reference/load_tables: letters, columns and fixed values find their sources") {
  const std::array<EmbeddedFile, 2> files{EmbeddedFile{"sources.yaml", sources},
                                          EmbeddedFile{"x.yaml", R"(tolerance:
  - source: [seen, EN 1, Table 1]
    sources:
      a: [from memory, EN 1, Table 2]
      b: [ours, because]
    table: |
      key | below | above | source
      unit | mm | mm |
      one | 1 | 3 |
      two | 2 | 4 | a
      three | 3 [b] | 5 [a] |
screw:
  - fixed: {rho_a: 350 kg/m3, root: 3 mm, head: 8 mm, M_y_k: 3 N m, f_tens_k: 5 kN, f_ax_k: 11 MPa, f_head_k: 10 MPa, all_thread_to: 40 mm, thread_share: 0.6, shank: 3 mm}
    fixed_source: b
    source: [seen, EN 1, Table 3]
    sources: {b: [ours, chosen], c: [common practice, stocked]}
    table: |
      key | diameter | lengths
      unit | mm | mm
      source | | c
      4 mm | 4 | 20, 30
)"}};
  const Tables tables = load_tables(files);
  REQUIRE(tables.tolerances.size() == 3);
  CHECK(citation(tables.tolerances[0].source) == "EN 1, Table 1");
  CHECK(citation(tables.tolerances[1].source) == "EN 1, Table 2 (from memory)");
  CHECK(citation(tables.tolerances[2].source) == "ours: because");
  REQUIRE(tables.screws.size() == 1);
  const RecordSource& screw = tables.screws[0].source;
  CHECK(citation(screw.of("diameter")) == "EN 1, Table 3");
  CHECK(citation(screw.of("root")) == "ours: chosen");
  CHECK(citation(screw.of("lengths")) == "common practice, no source: stocked");
  CHECK(tables.screws[0].lengths.size() == 2);

  REQUIRE(listing(tables).size() == 5);
  const Row& row = listing(tables)[3];
  CHECK(row.group == "tolerance");
  CHECK(row.key == "three");
  CHECK(row.values == "below 3 mm, above 5 mm");
  CHECK(row.source == "ours: because; EN 1, Table 2 (from memory)");
  CHECK(row.by_status == std::array<int, 5>{0, 0, 1, 0, 1});
}

TEST_CASE("reference/load_tables: a value that is no quantity is shown in its line") {
  CHECK(fault_of(R"(tolerance:
  - source: [ours, because]
    table: |
      key | below | above
      unit | mm | mm
      one | 1 | 3
      two | much | 4
)")
            .starts_with("x.yaml:7:13: "));
}

TEST_CASE("reference/load_tables: every slip in a record file stops the program with its place") {
  const std::string head = "tolerance:\n  - source: [ours, because]\n    table: |\n";
  CHECK(fault_of(head + "      key | below | above\n      one | 1 mm\n") ==
        "x.yaml:5:1: this line has 2 cells, the head 3\n"
        "        one | 1 mm\n"
        "  ^\n"
        "  at tolerance\n");
  CHECK(fault_of(head + "      key | below | above\n      one | 1 mm | 2 mm [z]\n") ==
        "x.yaml:5:26: no such source in this table\n"
        "        one | 1 mm | 2 mm [z]\n"
        "                           ^\n"
        "  at tolerance\n");
  CHECK(fault_of(head + "      key | below | above | beside\n      one | 1 mm | 2 mm | 3 mm\n")
            .find("no reader asks for column beside") != std::string::npos);
  CHECK(fault_of("tolerence:\n  - source: [ours, because]\n    table: |\n      key\n      a\n")
            .find("no such group of records") != std::string::npos);
  CHECK(
      fault_of(
          "limit:\n  - source: [ours, because]\n    table: |\n      key | value\n      sagg | 1\n")
          .find("no such limit") != std::string::npos);
}

TEST_CASE("reference/load_tables: a table without a sound source is refused") {
  const auto with_source = [](const std::string& source) {
    return fault_of("tolerance:\n  - source: " + source +
                    "\n    table: |\n      key | below | above\n      one | 1 mm | 2 mm\n");
  };
  CHECK(with_source("[ours, because]").empty());
  CHECK(with_source("[seen, EN 1, Table 1]").empty());
  CHECK(with_source("[from memory, EN 1, Table 1]").empty());
  CHECK(with_source("[from memory, sizes of the trade]").empty());
  CHECK(with_source("[seen, EN 2, Table 1]").find("no such document in sources.yaml") !=
        std::string::npos);
  CHECK(with_source("[heard, EN 1, Table 1]").find("no such way to know a value") !=
        std::string::npos);
  CHECK(!with_source("[seen, EN 1]").empty());
  CHECK(!with_source("[ours, EN 1, Table 1]").empty());
  CHECK(!with_source("[ours]").empty());
  CHECK(fault_of("tolerance:\n  - table: |\n      key | below | above\n      one | 1 mm | 2 mm\n")
            .find("'source' is missing") != std::string::npos);
}

}  // namespace load_tables_test
