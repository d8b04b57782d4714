#include "standtrue/reference/tables.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cctype>
#include <set>
#include <stdexcept>

namespace tables_test {

using namespace standtrue;
using namespace standtrue::reference;
using quantity::in_si;
using quantity::millimetres;

namespace {

const Tables& tables() {
  static const Tables loaded = load_tables();
  return loaded;
}

}  // namespace

TEST_CASE("reference/tables: a builder's words find the record in any case and spacing") {
  REQUIRE(tables().timber("c16") != nullptr);
  CHECK(tables().timber("c16")->key == "C16");
  CHECK(tables().timber("softwood")->key == "C16");
  CHECK(tables().timber("GL 24h")->key == "GL24h");
  CHECK(tables().section("38x89mm")->key == "38 x 89 mm");
  CHECK(in_si(tables().section("2x4")->depth) == doctest::Approx(0.0889));
  CHECK(tables().joint_kind("Corner Bracket")->key == "corner brackets");
  CHECK(tables().joint_kind("end grain screws")->key == "end-grain screws");
  CHECK(tables().machine("grinder")->key == "bench grinder");
  CHECK(tables().machine("engineers vice")->key == "vice");
  CHECK(tables().foot("m10")->key == "M10");
  CHECK(tables().floor("boards")->key == "timber floor");
  CHECK(tables().duty("hand planing")->key == "planing");
  CHECK(tables().air("garage")->service_class == ServiceClass::sc2);
  CHECK(tables().panel_family("ply")->key == "spruce plywood");
  CHECK(tables().steel("8.8")->key == "8.8");
  CHECK(tables().source("EN 338:2016") != nullptr);
}

TEST_CASE("reference/tables: what is not known is nullptr, never a guess") {
  CHECK(tables().timber("C17") == nullptr);
  CHECK(tables().timber("") == nullptr);
  CHECK(tables().machine("cider press") == nullptr);
  CHECK(tables().panel("spruce plywood", millimetres(13)) == nullptr);
  CHECK(tables().panel("marble", millimetres(18)) == nullptr);
  CHECK(tables().panel_thicknesses("marble").empty());
  CHECK(tables().screw(millimetres(7)) == nullptr);
  CHECK(tables().bolt("M7") == nullptr);
  CHECK(tables().castor(millimetres(90)) == nullptr);
}

TEST_CASE("reference/tables: sizes find the record by what they measure") {
  CHECK(tables().panel("birch ply", millimetres(18))->thickness == millimetres(17.6));
  CHECK(tables().panel("plywood", millimetres(18.26))->nominal == millimetres(18));
  CHECK(tables().screw(millimetres(4.5))->key == "4.5 mm");
  CHECK(tables().bolt(millimetres(8))->key == "M8");
  CHECK(tables().castor(millimetres(75)) != nullptr);
  const std::vector<quantity::Length> spruce = tables().panel_thicknesses("ply");
  CHECK(spruce.size() == 7);
  CHECK(std::is_sorted(spruce.begin(), spruce.end()));
}

TEST_CASE("reference/tables: a record that the program itself needs and misses is a bug") {
  CHECK_THROWS_AS((void)tables().constant("gamma_X"), std::logic_error);
  CHECK_THROWS_AS((void)tables().load("earthquake"), std::logic_error);
  CHECK_THROWS_AS((void)Tables{}.material(Material::mdf), std::logic_error);
}

TEST_CASE("reference/tables: no word stands for two things") {
  const auto letters = [](const std::string& name) {
    std::string out;
    for (const char c : name) {
      if (c != ' ' && c != '-' && c != '_' && c != '\'') out += static_cast<char>(std::tolower(c));
    }
    return out;
  };
  for (const auto& names :
       {tables().timber_names(), tables().panel_names(), tables().section_names(),
        tables().joint_names(), tables().foot_names(), tables().floor_names(),
        tables().machine_names(), tables().duty_names(), tables().air_names()}) {
    CHECK(!names.empty());
    std::set<std::string> seen;
    for (const std::string& name : names) {
      CAPTURE(name);
      CHECK(seen.insert(letters(name)).second);
    }
  }
}

TEST_CASE("reference/tables: every word of the lists is understood") {
  for (const std::string& name : tables().machine_names()) CHECK(tables().machine(name) != nullptr);
  for (const std::string& name : tables().joint_names())
    CHECK(tables().joint_kind(name) != nullptr);
  for (const std::string& name : tables().timber_names()) CHECK(tables().timber(name) != nullptr);
  for (const std::string& name : tables().section_names()) CHECK(tables().section(name) != nullptr);
}

TEST_CASE(
    "reference/tables: k_mod and k_def by air and duration, empty where the code gives none") {
  const MaterialFactors& timber = tables().material(Material::solid_timber);
  CHECK(timber.k_mod_in(ServiceClass::sc2, Duration::permanent)->value == 0.60);
  CHECK(timber.k_mod_in(ServiceClass::sc3, Duration::instantaneous)->value == 0.90);
  CHECK(timber.k_def_in(ServiceClass::sc2)->value == 0.80);
  CHECK(citation(timber.k_def_in(ServiceClass::sc2)->source) == "EN 1995-1-1, Table 3.2");
  const MaterialFactors& mdf = tables().material(Material::mdf);
  CHECK(!mdf.k_mod_in(ServiceClass::sc2, Duration::permanent).has_value());
  CHECK(!mdf.k_def_in(ServiceClass::sc2).has_value());
}

}  // namespace tables_test
