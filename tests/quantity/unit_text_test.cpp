#include "standtrue/quantity/unit_text.hpp"

#include <doctest/doctest.h>

#include <ostream>
#include <random>
#include <string>

namespace unit_text_test {

using namespace standtrue::quantity;

namespace {

struct Good {
  Kind kind;
  std::string text;
  double value_si;
};

struct Bad {
  Kind kind;
  std::string text;
  std::size_t offset;
  std::size_t length;
  const char* what;
  const char* instead;
};

void check_good(const Good& good) {
  INFO(good.text);
  const Parsed<double> value = parse_si(good.text, good.kind);
  REQUIRE_MESSAGE(value, value.error().what);
  CHECK(*value == doctest::Approx(good.value_si).epsilon(1e-15));
}

void check_bad(const Bad& bad) {
  INFO(bad.text);
  const Parsed<double> value = parse_si(bad.text, bad.kind);
  REQUIRE(!value);
  CHECK(value.error().what == bad.what);
  CHECK(value.error().instead == bad.instead);
  CHECK(value.error().offset == bad.offset);
  CHECK(value.error().length == bad.length);
}

constexpr double lbf = 0.45359237 * 9.80665;
constexpr double inch = 0.0254;
constexpr double pi = 3.14159265358979323846;

constexpr Kind all_kinds[] = {Kind::length,
                              Kind::area,
                              Kind::section_modulus,
                              Kind::second_moment,
                              Kind::mass,
                              Kind::density,
                              Kind::force,
                              Kind::moment,
                              Kind::stress,
                              Kind::area_load,
                              Kind::line_load,
                              Kind::linear_stiffness,
                              Kind::rotational_stiffness,
                              Kind::mass_moment,
                              Kind::speed,
                              Kind::acceleration,
                              Kind::angle,
                              Kind::slope,
                              Kind::ratio,
                              Kind::time,
                              Kind::mass_per_area,
                              Kind::moment_per_length};

}  // namespace

TEST_CASE("unit_text: lengths in metric and imperial, fractions, sums and marks") {
  for (const Good& good : {
           Good{Kind::length, "2100 mm", 2.1},
           Good{Kind::length, "210cm", 2.1},
           Good{Kind::length, " 2.1 m ", 2.1},
           Good{Kind::length, "+.5 m", 0.5},
           Good{Kind::length, "-2 mm", -0.002},
           Good{Kind::length, "2.1e3 mm", 2.1},
           Good{Kind::length, "12 \xC2\xB5m", 12e-6},
           Good{Kind::length, "12 \xCE\xBCm", 12e-6},
           Good{Kind::length, "1 in", inch},
           Good{Kind::length, "35 1/2 in", 0.9017},
           Good{Kind::length, "35 1/2\"", 0.9017},
           Good{Kind::length, "3/4 inch", 0.75 * inch},
           Good{Kind::length, "7/2 inches", 3.5 * inch},
           Good{Kind::length, "1 foot", 12 * inch},
           Good{Kind::length, "6 feet", 72 * inch},
           Good{Kind::length, "6 ft 2 in", 1.8796},
           Good{Kind::length, "6' 2\"", 1.8796},
           Good{Kind::length, "6'2 1/2\"", 74.5 * inch},
           Good{Kind::length, "6\xE2\x80\xB2 2\xE2\x80\xB3", 1.8796},
           Good{Kind::length, "6\xE2\x80\x99 2\xE2\x80\x9D", 1.8796},
           Good{Kind::length, "-6 ft 2 in", -1.8796},
           Good{Kind::length, "2 m 50 mm", 2.05},
           Good{Kind::length, "1e-300 mm", 1e-303},
       }) {
    check_good(good);
  }
}

TEST_CASE("unit_text: 35 1/2 in and 2100 mm round only once") {
  CHECK(*parse_si("35 1/2 in", Kind::length) == 0.9017);
  CHECK(*parse_si("2100 mm", Kind::length) == 2.1);
  CHECK(*parse_si("0.7 mm", Kind::length) == 0.0007);
}

TEST_CASE("unit_text: areas, section values, masses and densities") {
  for (const Good& good : {
           Good{Kind::area, "3380 mm2", 3380e-6},
           Good{Kind::area, "3380 mm^2", 3380e-6},
           Good{Kind::area, "3380 mm\xC2\xB2", 3380e-6},
           Good{Kind::area, "33.8 cm2", 3380e-6},
           Good{Kind::area, "1 in2", inch * inch},
           Good{Kind::section_modulus, "50 cm3", 50e-6},
           Good{Kind::section_modulus, "50 mm\xC2\xB3", 50e-9},
           Good{Kind::second_moment, "5 mm4", 5e-12},
           Good{Kind::second_moment, "5 cm\xE2\x81\xB4", 5e-8},
           Good{Kind::second_moment, "1 in^4", inch * inch * inch * inch},
           Good{Kind::mass, "60 kg", 60},
           Good{Kind::mass, "500 g", 0.5},
           Good{Kind::mass, "1.2 t", 1200},
           Good{Kind::mass, "100 lb", 45.359237},
           Good{Kind::mass, "100 lbs", 45.359237},
           Good{Kind::mass, "1 lb 8 oz", 1.5 * 0.45359237},
           Good{Kind::density, "420 kg/m3", 420},
           Good{Kind::density, "1 lb/ft3", 0.45359237 / (0.3048 * 0.3048 * 0.3048)},
           Good{Kind::mass_moment, "0.4 kg m2", 0.4},
           Good{Kind::mass_moment, "0.4 kg.m2", 0.4},
           Good{Kind::mass_per_area, "12 kg/m2", 12},
           Good{Kind::mass_per_area, "2 lb/ft2", 2 * 0.45359237 / (0.3048 * 0.3048)},
       }) {
    check_good(good);
  }
}

TEST_CASE("unit_text: forces, moments, stresses and stiffnesses") {
  for (const Good& good : {
           Good{Kind::force, "800 N", 800},
           Good{Kind::force, "0.8 kN", 800},
           Good{Kind::force, "80 daN", 800},
           Good{Kind::force, "100 lbf", 100 * lbf},
           Good{Kind::force, "1 kip", 1000 * lbf},
           Good{Kind::moment, "5 N m", 5},
           Good{Kind::moment, "5 N.m", 5},
           Good{Kind::moment, "5 Nm", 5},
           Good{Kind::moment, "5 N\xC2\xB7m", 5},
           Good{Kind::moment, "5 N*m", 5},
           Good{Kind::moment, "5 N-m", 5},
           Good{Kind::moment, "5 N mm", 0.005},
           Good{Kind::moment, "5 kN m", 5000},
           Good{Kind::moment, "5 kN.m", 5000},
           Good{Kind::moment, "5 kNm", 5000},
           Good{Kind::moment, "5 lb in", 5 * lbf * inch},
           Good{Kind::moment, "5 lbf in", 5 * lbf * inch},
           Good{Kind::moment, "5 kip in", 5000 * lbf * inch},
           Good{Kind::stress, "16 N/mm2", 16e6},
           Good{Kind::stress, "16 MPa", 16e6},
           Good{Kind::stress, "11 GPa", 11e9},
           Good{Kind::stress, "11 kN/mm2", 11e9},
           Good{Kind::stress, "5 kPa", 5e3},
           Good{Kind::stress, "5 Pa", 5},
           Good{Kind::stress, "5 N/m2", 5},
           Good{Kind::stress, "1 psi", lbf / (inch * inch)},
           Good{Kind::stress, "1 ksi", 1000 * lbf / (inch * inch)},
           Good{Kind::rotational_stiffness, "6 kN.m/rad", 6000},
           Good{Kind::rotational_stiffness, "6e7 N mm/rad", 60000},
           Good{Kind::rotational_stiffness, "6 kNm/rad", 6000},
           Good{Kind::rotational_stiffness, "1 kip in/rad", 1000 * lbf * inch},
           Good{Kind::rotational_stiffness, "1 N m/deg", 180 / pi},
           Good{Kind::linear_stiffness, "2000 N/mm", 2e6},
           Good{Kind::linear_stiffness, "2 kN/mm", 2e6},
           Good{Kind::linear_stiffness, "2 kN/m", 2e3},
           Good{Kind::linear_stiffness, "2 N / m", 2},
           Good{Kind::linear_stiffness, "100 lb/in", 100 * lbf / inch},
           Good{Kind::linear_stiffness, "1 kip/in", 1000 * lbf / inch},
           Good{Kind::moment_per_length, "75.9 N m/m", 75.9},
           Good{Kind::moment_per_length, "75.9 N mm/mm", 75.9},
           Good{Kind::moment_per_length, "75.9 N", 75.9},
           Good{Kind::moment_per_length, "2 kN m/m", 2000},
       }) {
    check_good(good);
  }
}

TEST_CASE("unit_text: masses count with standard gravity in loads per area and length") {
  for (const Good& good : {
           Good{Kind::area_load, "0.5 kN/m2", 500},
           Good{Kind::area_load, "50 kg/m2", 50 * 9.80665},
           Good{Kind::area_load, "10 lb/ft2", 10 * lbf / (0.3048 * 0.3048)},
           Good{Kind::area_load, "10 psf", 10 * lbf / (0.3048 * 0.3048)},
           Good{Kind::line_load, "0.8 kN/m", 800},
           Good{Kind::line_load, "80 kg/m", 80 * 9.80665},
           Good{Kind::line_load, "10 lb/ft", 10 * lbf / 0.3048},
           Good{Kind::line_load, "1 kip/in", 1000 * lbf / inch},
       }) {
    check_good(good);
  }
}

TEST_CASE("unit_text: speeds, angles, slopes, ratios, times and accelerations") {
  for (const Good& good : {
           Good{Kind::speed, "3000 rpm", 50},
           Good{Kind::speed, "3000 1/min", 50},
           Good{Kind::speed, "3000/min", 50},
           Good{Kind::speed, "50 Hz", 50},
           Good{Kind::angle, "1.5 rad", 1.5},
           Good{Kind::angle, "180 deg", pi},
           Good{Kind::angle, "180\xC2\xB0", pi},
           Good{Kind::slope, "1 in 80", 0.0125},
           Good{Kind::slope, "-1 in 80", -0.0125},
           Good{Kind::slope, "1:80", 0.0125},
           Good{Kind::slope, "1 : 80", 0.0125},
           Good{Kind::slope, "2 %", 0.02},
           Good{Kind::slope, "2%", 0.02},
           Good{Kind::slope, "5 mm/m", 0.005},
           Good{Kind::slope, "1/4 in/ft", 0.25 / 12},
           Good{Kind::ratio, "0.3", 0.3},
           Good{Kind::ratio, "30 %", 0.3},
           Good{Kind::ratio, "3/4", 0.75},
           Good{Kind::time, "90 s", 90},
           Good{Kind::time, "1 h 30 min", 5400},
           Good{Kind::time, "1 day", 86400},
           Good{Kind::time, "10 years", 315576000},
           Good{Kind::time, "6 months", 15778800},
           Good{Kind::acceleration, "9.81 m/s2", 9.81},
           Good{Kind::acceleration, "1 ft/s2", 0.3048},
       }) {
    check_good(good);
  }
}

TEST_CASE("unit_text: a wrong dimension is named, and a mass and its weight are exchanged") {
  for (const Bad& bad : {
           Bad{Kind::length, "60 kg", 0, 5, "'60 kg' is a mass; a length is wanted", "600 mm"},
           Bad{Kind::length, "5 mm2", 0, 5, "'5 mm2' is an area; a length is wanted", "600 mm"},
           Bad{Kind::mass, "600 N", 0, 5, "'600 N' is a force; a mass is wanted", "61.2 kg"},
           Bad{Kind::force, "60 kg", 0, 5, "'60 kg' is a mass; a force is wanted", "588 N"},
           Bad{Kind::force, "60 lb", 0, 5, "'60 lb' is a mass; a force is wanted", "60 lbf"},
           Bad{Kind::rotational_stiffness, "6 kN m", 0, 6,
               "'6 kN m' is a moment; a rotational stiffness is wanted", "6 kN m/rad"},
           Bad{Kind::linear_stiffness, "100 kg/m", 0, 8,
               "'100 kg/m' is a mass per length; a stiffness is wanted", "2000 N/mm"},
           Bad{Kind::stress, "50 kg/m2", 0, 8, "'50 kg/m2' is a mass per area; a stress is wanted",
               "16 N/mm2"},
           Bad{Kind::slope, "5 in", 0, 4, "'5 in' is a length; a slope is wanted", "1 in 80"},
           Bad{Kind::ratio, "0.3 mm", 0, 6, "'0.3 mm' is a length; a plain number is wanted",
               "0.3"},
           Bad{Kind::length, "6 ft 2 kg", 5, 4, "'2 kg' is a mass; a length is wanted", "600 mm"},
       }) {
    check_bad(bad);
  }
}

TEST_CASE("unit_text: a bare number is refused with its usual unit") {
  for (const Bad& bad : {
           Bad{Kind::length, "2100", 0, 4, "'2100' has no unit", "2100 mm"},
           Bad{Kind::length, "0", 0, 1, "'0' has no unit", "0 mm"},
           Bad{Kind::length, " 35 1/2 ", 1, 6, "'35 1/2' has no unit", " 35 1/2 mm"},
           Bad{Kind::length, "6 ft 2", 5, 1, "'2' has no unit", "6 ft 2 in"},
           Bad{Kind::mass, "60", 0, 2, "'60' has no unit", "60 kg"},
           Bad{Kind::stress, "16", 0, 2, "'16' has no unit", "16 N/mm2"},
           Bad{Kind::slope, "0.02", 0, 4, "'0.02' has no unit", "1 in 50"},
           Bad{Kind::slope, "1/80", 0, 4, "'1/80' has no unit", "1 in 80"},
       }) {
    check_bad(bad);
  }
}

TEST_CASE("unit_text: an unknown unit is refused with the nearest, and slips of case are mended") {
  for (const Bad& bad : {
           Bad{Kind::length, "5 MM", 2, 2, "'MM' is not a unit", "5 mm"},
           Bad{Kind::length, "5 Mm", 2, 2, "'Mm' is a megametre", "5 mm"},
           Bad{Kind::length, "5 nm", 2, 2, "'nm' is not a unit", "5 mm"},
           Bad{Kind::length, "5 inchs", 2, 5, "'inchs' is not a unit", "5 inch"},
           Bad{Kind::length, "5 furlong", 2, 7, "'furlong' is not a unit", "600 mm"},
           Bad{Kind::length, "5 \xE2\x82\xAC", 2, 3, "'\xE2\x82\xAC' is not a unit", "600 mm"},
           Bad{Kind::length, "5 m/", 4, 0, "a unit is missing at the end", "600 mm"},
           Bad{Kind::mass, "5 Kg", 2, 2, "'Kg' is not a unit", "5 kg"},
           Bad{Kind::mass, "2 tons", 2, 4,
               "'tons' are 907, 1000 or 1016 kg, depending on the country", "2 t"},
           Bad{Kind::force, "5 KN", 2, 2, "'KN' is not a unit", "5 kN"},
           Bad{Kind::stress, "12 mpa", 3, 3, "'mpa' is not a unit", "12 MPa"},
           Bad{Kind::line_load, "12 KN/M", 3, 2, "'KN' is not a unit", "12 kN/m"},
       }) {
    check_bad(bad);
  }
}

TEST_CASE("unit_text: numbers of other grammars are refused") {
  for (const Bad& bad : {
           Bad{Kind::length, "", 0, 0, "there is no value", "600 mm"},
           Bad{Kind::length, "  ", 0, 0, "there is no value", "600 mm"},
           Bad{Kind::length, "1,5 mm", 0, 3, "'1,5' has a decimal comma", "1.5 mm"},
           Bad{Kind::length, "0,500 mm", 0, 5, "'0,500' has a decimal comma", "0.500 mm"},
           Bad{Kind::length, "2,100 mm", 0, 5, "'2,100' has commas between its thousands",
               "2100 mm"},
           Bad{Kind::length, "1,234.5 mm", 0, 7, "'1,234.5' has commas between its thousands",
               "1234.5 mm"},
           Bad{Kind::length, "1.234,5 mm", 0, 7, "'1.234,5' has a decimal comma", "1234.5 mm"},
           Bad{Kind::length, "2 100 mm", 0, 5, "'2 100' has spaces between its thousands",
               "2100 mm"},
           Bad{Kind::length, "nan", 0, 3, "'nan' is not a number", "600 mm"},
           Bad{Kind::length, ".inf mm", 0, 4, "'.inf' is not a number", "600 mm"},
           Bad{Kind::length, "-inf mm", 0, 4, "'-inf' is not a number", "600 mm"},
           Bad{Kind::length, "abc", 0, 3, "'abc' is not a number", "600 mm"},
           Bad{Kind::length, "1e999 mm", 0, 5, "'1e999' is too large", "600 mm"},
           Bad{Kind::length, "1e308 m", 0, 7, "'1e308 m' is too large", "600 mm"},
           Bad{Kind::length, "1e308 km", 0, 8, "'1e308 km' is too large", "600 mm"},
           Bad{Kind::length, "0x10 mm", 0, 4, "'0x10' is not a decimal number", "600 mm"},
           Bad{Kind::length, "3/0 in", 0, 3, "'3/0' divides by zero", "600 mm"},
           Bad{Kind::length, "1.5/2 in", 0, 5, "'1.5/2' is not a fraction of whole numbers",
               "600 mm"},
           Bad{Kind::length, "3 5/4 in", 2, 3,
               "'5/4' is not less than one, so it can not follow a whole number", "600 mm"},
           Bad{Kind::length, "35-1/2 in", 0, 6, "'35-1/2' has a hyphen before its fraction",
               "35 1/2 in"},
           Bad{Kind::length,
               "\xE2\x88\x92"
               "5 mm",
               0, 3, "'\xE2\x88\x92' is not the minus sign of the keyboard", "-5 mm"},
           Bad{Kind::slope, "1 in 0", 0, 6, "'1 in 0' divides by zero", "1 in 80"},
       }) {
    check_bad(bad);
  }
}

TEST_CASE("unit_text: what follows a quantity is refused") {
  for (const Bad& bad : {
           Bad{Kind::length, "5 mm thick", 5, 5, "'thick' is left over after '5 mm'", "5 mm"},
           Bad{Kind::length, "35 in.", 5, 1, "'.' is left over after '35 in'", "35 in"},
           Bad{Kind::length, "2 in 6 ft", 5, 4, "'6 ft' is left over after '2 in'", "2 in"},
           Bad{Kind::mass, "60 kg at middle", 6, 9, "'at middle' is left over after '60 kg'",
               "60 kg"},
           Bad{Kind::stress, "5 N/mm2/3", 7, 2, "'/3' is left over after '5 N/mm2'", "5 N/mm2"},
           Bad{Kind::force, "5 kN 200 N", 5, 5, "'200 N' is left over after '5 kN'", "5 kN"},
           Bad{Kind::slope, "1 in 80 to back", 8, 7, "'to back' is left over after '1 in 80'",
               "1 in 80"},
       }) {
    check_bad(bad);
  }
}

TEST_CASE("unit_text: a long text is not repeated in full") {
  const std::string text(200, 'a');
  const Parsed<double> value = parse_si(text, Kind::length);
  REQUIRE(!value);
  CHECK(value.error().what == "'" + std::string(45, 'a') + "...' is not a number");
}

TEST_CASE("unit_text: whatever the text, a fault lies inside it and its proposal can be read") {
  const std::string parts[] = {"1",  "25",       "1.5", "1,5", "1/2",   "0x1",  " ", " ",
                               "mm", "MM",       "in",  "\"",  "'",     "kg",   "N", "/",
                               "m2", "rad",      "%",   "x",   ":",     "-",    ".", "e5",
                               "Kn", "\xC2\xB0", "lb",  "^",   "1e308", "in 80"};
  std::mt19937 random(7);
  for (int i = 0; i < 20000; ++i) {
    std::string text;
    for (std::size_t n = random() % 7; n-- > 0;) text += parts[random() % std::size(parts)];
    const Kind kind = all_kinds[random() % std::size(all_kinds)];
    const Parsed<double> value = parse_si(text, kind);
    if (value) {
      CHECK(*value - *value == 0.0);  // finite
      continue;
    }
    INFO("'" << text << "' as kind " << static_cast<int>(kind));
    CHECK(value.error().offset + value.error().length <= text.size());
    CHECK(!value.error().what.empty());
    CHECK(parse_si(value.error().instead, kind));
  }
}

}  // namespace unit_text_test
