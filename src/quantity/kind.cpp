#include "quantity/kind.hpp"

#include <array>

#include "standtrue/contract.hpp"

namespace standtrue::quantity {
namespace {

// clang-format off
constexpr std::array all_facts = {
    KindFacts{Kind::length,          "a length",                  {.m = 1},
              Weights::none,   "m",       "mm",       "600 mm"},
    KindFacts{Kind::area,            "an area",                   {.m = 2},
              Weights::none,   "m2",      "mm2",      "3380 mm2"},
    KindFacts{Kind::section_modulus, "a section modulus",         {.m = 3},
              Weights::none,   "m3",      "mm3",      "50200 mm3"},
    KindFacts{Kind::second_moment,   "a second moment of area",   {.m = 4},
              Weights::none,   "m4",      "mm4",      "2230000 mm4"},
    KindFacts{Kind::mass,            "a mass",                    {.kg = 1},
              Weights::none,   "kg",      "kg",       "60 kg"},
    KindFacts{Kind::density,         "a density",                 {.m = -3, .kg = 1},
              Weights::none,   "kg/m3",   "kg/m3",    "420 kg/m3"},
    KindFacts{Kind::force,           "a force",                   {.m = 1, .kg = 1, .s = -2},
              Weights::none,   "N",       "N",        "800 N"},
    KindFacts{Kind::moment,          "a moment",                  {.m = 2, .kg = 1, .s = -2},
              Weights::pounds, "N m",     "N m",      "1.2 kN m"},
    KindFacts{Kind::stress,          "a stress",                  {.m = -1, .kg = 1, .s = -2},
              Weights::none,   "Pa",      "N/mm2",    "16 N/mm2"},
    KindFacts{Kind::area_load,       "a load per area",           {.m = -1, .kg = 1, .s = -2},
              Weights::all,    "N/m2",    "kN/m2",    "0.5 kN/m2"},
    KindFacts{Kind::line_load,       "a load per length",         {.kg = 1, .s = -2},
              Weights::all,    "N/m",     "kN/m",     "0.8 kN/m"},
    KindFacts{Kind::linear_stiffness, "a stiffness",              {.kg = 1, .s = -2},
              Weights::pounds, "N/m",     "N/mm",     "2000 N/mm"},
    KindFacts{Kind::rotational_stiffness, "a rotational stiffness", {.m = 2, .kg = 1, .s = -2, .rad = -1},
              Weights::pounds, "N m/rad", "kN m/rad", "6 kN m/rad"},
    KindFacts{Kind::mass_moment,     "a mass moment of inertia",  {.m = 2, .kg = 1},
              Weights::none,   "kg m2",   "kg m2",    "0.4 kg m2"},
    KindFacts{Kind::speed,           "a speed of rotation",       {.s = -1},
              Weights::none,   "Hz",      "rpm",      "2850 rpm"},
    KindFacts{Kind::acceleration,    "an acceleration",           {.m = 1, .s = -2},
              Weights::none,   "m/s2",    "m/s2",     "9.81 m/s2"},
    KindFacts{Kind::angle,           "an angle",                  {.rad = 1},
              Weights::none,   "rad",     "deg",      "45 deg"},
    KindFacts{Kind::slope,           "a slope",                   {},
              Weights::none,   "m/m",     "%",        "1 in 80"},
    KindFacts{Kind::ratio,           "a plain number",            {},
              Weights::none,   "",        "",         "0.3"},
    KindFacts{Kind::time,            "a time",                    {.s = 1},
              Weights::none,   "s",       "s",        "10 years"},
    KindFacts{Kind::mass_per_area,   "a mass per area",           {.m = -2, .kg = 1},
              Weights::none,   "kg/m2",   "kg/m2",    "12 kg/m2"},
    KindFacts{Kind::moment_per_length, "a moment per length",     {.m = 1, .kg = 1, .s = -2},
              Weights::pounds, "N m/m",   "N m/m",    "60 N m/m"},
};
// clang-format on

struct Noun {
  Dimension dimension;
  std::string_view noun;
};

/// Dimensions without a kind of their own, or for which another word says it better when it turns
/// up where it is not wanted.
constexpr std::array nouns = {
    Noun{{.m = 3}, "a volume"},
    Noun{{.kg = 1, .s = -2}, "a force per length"},
    Noun{{.m = -1, .kg = 1, .s = -2}, "a stress or a load per area"},
    Noun{{.m = 2, .kg = 1, .s = -2, .rad = -1}, "a moment per angle"},
    Noun{{.m = -1, .kg = 1}, "a mass per length"},
    Noun{{.m = 1, .kg = 1}, "a mass times a length"},
    Noun{{.m = -2, .kg = 1, .s = -2}, "a force per volume"},
    Noun{{.m = 1, .s = -1}, "a speed along a line"},
    Noun{{.s = -1, .rad = 1}, "an angular speed"},
    Noun{{}, "a plain number"},
};

}  // namespace

const KindFacts& facts_of(Kind kind) {
  for (const KindFacts& facts : all_facts) {
    if (facts.kind == kind) return facts;
  }
  expects(false, "facts_of: a kind without facts");
  return all_facts[0];
}

std::string_view noun_of(Dimension dimension) {
  for (const Noun& noun : nouns) {
    if (noun.dimension == dimension) return noun.noun;
  }
  for (const KindFacts& facts : all_facts) {
    if (facts.dimension == dimension) return facts.noun;
  }
  return "something else";
}

}  // namespace standtrue::quantity
