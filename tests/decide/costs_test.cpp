#include "standtrue/decide/costs.hpp"

#include <doctest/doctest.h>

#include "tests/bench/bench_files.hpp"

namespace costs_test {

using namespace standtrue;
using doctest::Approx;

namespace {

bench::Prices prices(const std::string& text, std::vector<Diagnostic>* faults = nullptr) {
  const document::Reading parsed = document::parse("b.yaml", "prices: " + text + "\n");
  REQUIRE(parsed.document);
  std::vector<Diagnostic> found;
  const auto read = bench::read_prices(*parsed.document, found);
  if (faults) *faults = found;
  if (!faults) CHECK_MESSAGE(found.empty(), bench_files::messages(found));
  return read.value_or(bench::Prices{});
}

decide::PartsList list() {
  decide::PartsList all;
  decide::TimberStock rails;
  rails.stock = "C24 45 x 95 mm";
  rails.bars.resize(3);
  rails.bought = quantity::metres(7.8);
  all.timber_stock.push_back(rails);
  decide::SheetStock sheet;
  sheet.sheet = "21 mm spruce plywood";
  sheet.sheets.resize(2);
  all.sheet_stock.push_back(sheet);
  all.hardware = {{"bracket, legs 100 mm", 8, ""}, {"ribbed bracket, legs 80 mm", 2, ""}};
  return all;
}

}  // namespace

TEST_CASE("decide/costs: sums by hand: by the metre, by the sheet, by the piece") {
  const decide::Costs paid = decide::costs(
      list(), prices("{currency: EUR, C24: 3.20 per m, spruce plywood: 62, bracket: 1.40}"));
  REQUIRE(paid.lines.size() == 4);
  CHECK(paid.lines[0].money == Approx(7.8 * 3.20));
  CHECK(paid.lines[0].how == "7.8 m at 3.20 per m");
  CHECK(paid.lines[1].money == Approx(2 * 62.0));
  CHECK(paid.lines[2].how == "8 at 1.40");
  CHECK(paid.sum == Approx(7.8 * 3.20 + 124.0 + 10 * 1.40));
  CHECK(paid.currency == "EUR");
  CHECK(paid.without_price.empty());
  CHECK(paid.unused.empty());
}

TEST_CASE("decide/costs: the longest text that fits; what has no price and what is not bought") {
  const decide::Costs paid =
      decide::costs(list(), prices("{bracket: 1, ribbed bracket: 5 each, castor: 9}"));
  REQUIRE(paid.lines.size() == 2);
  CHECK(paid.lines[0].money == Approx(8.0));
  CHECK(paid.lines[1].money == Approx(10.0));
  CHECK(paid.without_price == std::vector<std::string>{"C24 45 x 95 mm", "21 mm spruce plywood"});
  CHECK(paid.unused == std::vector<std::string>{"castor"});
}

TEST_CASE("decide/costs: a foot is 0.3048 m; a bar may have a price of its own") {
  const decide::Costs by_foot = decide::costs(list(), prices("{45 x 95 mm: 0.3048 per ft}"));
  REQUIRE(by_foot.lines.size() == 1);
  CHECK(by_foot.lines[0].money == Approx(7.8));
  const decide::Costs by_bar = decide::costs(list(), prices("{45 x 95 mm: 8}"));
  CHECK(by_bar.lines.at(0).money == Approx(24.0));
}

TEST_CASE("bench/prices: what is no price is told with its place") {
  std::vector<Diagnostic> faults;
  const bench::Prices read = prices("{bracket: cheap, C24: -1, screw: 0.05}", &faults);
  REQUIRE(faults.size() == 2);
  CHECK(to_text(faults[0]).find("b.yaml:1:19: 'cheap' is no price") == 0);
  CHECK(to_text(faults[1]).find("'-1' is no price") != std::string::npos);
  CHECK(read.all.size() == 1);
}

}  // namespace costs_test
