#include "standtrue/check/cautions.hpp"

#include <doctest/doctest.h>

#include <algorithm>

#include "tests/bench/bench_files.hpp"

namespace cautions_test {

using namespace standtrue;

namespace {

std::vector<std::string> of(const std::string& machines) {
  return check::cautions(bench_files::sound(R"(
standtrue: 1
size: 1600 x 700 x 900 mm
timber: C24 45 x 95 mm
joints: two corner brackets
top: 18 mm spruce plywood
machines: )" + machines));
}

bool says(const std::vector<std::string>& lines, const std::string& words) {
  return std::any_of(lines.begin(), lines.end(), [&](const std::string& line) {
    return line.find(words) != std::string::npos;
  });
}

}  // namespace

TEST_CASE("check/cautions: from 45 kg on a machine is no load for one (common practice)") {
  bench::Machine machine;
  machine.mass = quantity::kilograms(44.9);
  CHECK_FALSE(check::is_too_heavy_for_one(machine));
  machine.mass = quantity::kilograms(45.0);
  CHECK(check::is_too_heavy_for_one(machine));
}

TEST_CASE("check/cautions: every answer says that it is no certificate and who comes first") {
  for (const char* machines : {"[]", "[{kind: bench grinder, at: middle}]"}) {
    const std::vector<std::string> lines = of(machines);
    CHECK(says(lines, "not a certificate"));
    CHECK(says(lines, "licensed engineer come first"));
  }
}

TEST_CASE("check/cautions: by kind of machine, none twice") {
  const std::vector<std::string> lines =
      of("[{kind: bench grinder, at: [300 mm, 300 mm]}, {kind: drill press, mass: 60 kg, at: [1100 "
         "mm, 300 mm]}]");
  CHECK(says(lines, "grinder"));
  CHECK(says(lines, "drill press"));
  std::vector<std::string> sorted = lines;
  std::sort(sorted.begin(), sorted.end());
  CHECK(std::adjacent_find(sorted.begin(), sorted.end()) == sorted.end());
}

TEST_CASE("check/cautions: a grinder that is bolted down is not told to be") {
  const auto told = [](const std::string& mounting) {
    return says(of("[{kind: bench grinder, at: middle" + mounting + "}]"), "Bolt the grinder");
  };
  CHECK(told(""));
  CHECK_FALSE(told(", mounting: bolted"));
}

TEST_CASE("check/cautions: of three machines the last alone follows an \"and\"") {
  const std::vector<std::string> lines =
      of("[{kind: drill press, name: one, mass: 60 kg, at: [300 mm, 300 mm]}, {kind: drill press, "
         "name: two, mass: 60 kg, at: [800 mm, 300 mm]}, {kind: drill press, name: three, mass: 60 "
         "kg, at: [1300 mm, 300 mm]}]");

  CHECK(says(lines, "Lift the one, the two and the three with two people"));
}

}  // namespace cautions_test
