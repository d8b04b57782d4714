#include <doctest/doctest.h>

#include <cmath>
#include <cstdint>
#include <cstring>
#include <limits>
#include <ostream>
#include <random>
#include <stdexcept>
#include <string>

#include "standtrue/quantity/unit_text.hpp"

namespace print_test {

using namespace standtrue::quantity;

namespace {

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

double from_bits(std::uint64_t bits) {
  double value = 0.0;
  std::memcpy(&value, &bits, sizeof value);
  return value;
}

std::uint64_t bits_of(double value) {
  std::uint64_t bits = 0;
  std::memcpy(&bits, &value, sizeof bits);
  return bits;
}

/// Printing rounds to three figures (half a unit of the third is at most 0.5 %), lengths in inches
/// to a sixteenth.
double rounding(double value_si, Kind kind, UnitSystem system) {
  const double three_figures = 0.00501 * std::abs(value_si);
  const bool sixteenths = kind == Kind::length && system == UnitSystem::imperial;
  return sixteenths ? std::max(three_figures, 0.0254 / 32 * 1.0001) : three_figures;
}

}  // namespace

TEST_CASE("print: metric texts have the unit of the trade and three figures") {
  CHECK(print(1.45, Kind::length) == "1450 mm");
  CHECK(print(0.0381, Kind::length) == "38.1 mm");
  CHECK(print(0.038, Kind::length) == "38 mm");
  CHECK(print(0.00234, Kind::length) == "2.34 mm");
  CHECK(print(0.0, Kind::length) == "0 mm");
  CHECK(print(-0.002, Kind::length) == "-2 mm");
  CHECK(print(3382e-6, Kind::area) == "3382 mm2");
  CHECK(print(1.394, Kind::area) == "1.39 m2");
  CHECK(print(60, Kind::mass) == "60 kg");
  CHECK(print(588.4, Kind::force) == "588 N");
  CHECK(print(58840, Kind::force) == "58.8 kN");
  CHECK(print(16e6, Kind::stress) == "16 N/mm2");
  CHECK(print(490.3, Kind::area_load) == "0.49 kN/m2");
  CHECK(print(6000, Kind::rotational_stiffness) == "6 kN m/rad");
  CHECK(print(11.7, Kind::mass_per_area) == "11.7 kg/m2");
  CHECK(print(-75.91, Kind::moment_per_length) == "-75.9 N m/m");
  CHECK(print(47.5, Kind::speed) == "2850 rpm");
  CHECK(print(0.0125, Kind::slope) == "1 in 80");
  CHECK(print(-0.0125, Kind::slope) == "-1 in 80");
  CHECK(print(0.5, Kind::slope) == "50 %");
  CHECK(print(0, Kind::slope) == "0 %");
  CHECK(print(4e-5, Kind::slope) == "0.04 mm/m");
  CHECK(print(-1.234e-4, Kind::slope) == "-0.123 mm/m");
  CHECK(print(0.333333, Kind::ratio) == "0.333");
  CHECK(print(315576000, Kind::time) == "10 years");
  CHECK(print(86400, Kind::time) == "1 day");
  CHECK(print(1.5e-9, Kind::length) == "1.50e-06 mm");
}

TEST_CASE("print: imperial texts; inches to the sixteenth, small ones in decimals") {
  const auto imperial = [](double value, Kind kind) {
    return print(value, kind, UnitSystem::imperial);
  };
  CHECK(imperial(1.45, Kind::length) == "57 1/16 in");
  CHECK(imperial(0.9017, Kind::length) == "35 1/2 in");
  CHECK(imperial(-0.9017, Kind::length) == "-35 1/2 in");
  CHECK(imperial(0.0254, Kind::length) == "1 in");
  CHECK(imperial(0.01905, Kind::length) == "3/4 in");
  CHECK(imperial(0.0023, Kind::length) == "0.0906 in");
  CHECK(imperial(4e-5, Kind::slope) == "0.00048 in/ft");
  CHECK(imperial(0.0125, Kind::slope) == "1 in 80");
  CHECK(imperial(60, Kind::mass) == "132 lb");
  CHECK(imperial(588.4, Kind::force) == "132 lbf");
  CHECK(imperial(11e9, Kind::stress) == "1595415 psi");
  CHECK(imperial(47.5, Kind::speed) == "2850 rpm");
}

TEST_CASE("print: what is not finite is never a plain figure") {
  CHECK(print(std::numeric_limits<double>::infinity(), Kind::ratio) == "infinite");
  CHECK(print(-std::numeric_limits<double>::infinity(), Kind::ratio) == "-infinite");
  CHECK(print(std::numeric_limits<double>::quiet_NaN(), Kind::length) == "not a number");
  CHECK_THROWS_AS((void)print_exact(std::numeric_limits<double>::quiet_NaN(), Kind::length),
                  std::logic_error);
}

TEST_CASE("print: reads back within its rounding, in both systems and every kind") {
  std::mt19937 random(11);
  for (const Kind kind : all_kinds) {
    for (const UnitSystem system : {UnitSystem::metric, UnitSystem::imperial}) {
      for (int i = 0; i < 400; ++i) {
        const double exponent = static_cast<double>(random() % 24000) / 1000.0 - 12.0;
        const double sign = random() % 2 == 0 ? 1.0 : -1.0;
        const double value = sign * std::pow(10.0, exponent);
        const std::string text = print(value, kind, system);
        INFO(text << " for " << value);
        const Parsed<double> back = parse_si(text, kind);
        REQUIRE_MESSAGE(back, back.error().what);
        CHECK(std::abs(*back - value) <= rounding(value, kind, system));
      }
    }
  }
}

TEST_CASE("print_exact: plain SI units, shortest digits") {
  CHECK(print_exact(0.9017, Kind::length) == "0.9017 m");
  CHECK(print_exact(11e9, Kind::stress) == "11000000000 Pa");
  CHECK(print_exact(6000, Kind::rotational_stiffness) == "6000 N m/rad");
  CHECK(print_exact(0.1, Kind::ratio) == "0.1");
  CHECK(print_exact(0.0125, Kind::slope) == "0.0125 m/m");
  CHECK(print_exact(50, Kind::speed) == "50 Hz");
}

TEST_CASE("print_exact: reads back bit for bit, whatever the magnitude") {
  constexpr double most = 1e300;  // beyond it a value is refused: in millimetres it had no end
  std::mt19937_64 random(5);
  for (const Kind kind : all_kinds) {
    for (int i = 0; i < 1000; ++i) {
      const double value = from_bits(random());
      if (!(std::abs(value) < most)) continue;
      const std::string text = print_exact(value, kind);
      INFO(text);
      const Parsed<double> back = parse_si(text, kind);
      REQUIRE_MESSAGE(back, back.error().what);
      CHECK(bits_of(*back) == bits_of(value));
    }
  }
  const double smallest = std::numeric_limits<double>::denorm_min();
  const double largest = std::nextafter(most, 0.0);
  for (const double value : {0.0, -0.0, smallest, -smallest, largest, -largest}) {
    CHECK(bits_of(*parse_si(print_exact(value, Kind::force), Kind::force)) == bits_of(value));
  }
}

}  // namespace print_test
