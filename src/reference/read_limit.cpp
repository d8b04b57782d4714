#include <array>
#include <type_traits>
#include <variant>

#include "reference/readers.hpp"

namespace standtrue::reference {
namespace {

using quantity::Frequency;
using quantity::Kind;
using quantity::Length;
using quantity::LinearStiffness;
using quantity::Moment;

/// Where the limit of that key goes.
struct Place {
  std::string_view key;
  Kind kind = Kind::ratio;
  std::variant<Sourced<double> Limits::*, Sourced<Length> Limits::*,
               Sourced<LinearStiffness> Limits::*, Sourced<Frequency> Limits::*,
               Sourced<Moment> Limits::*>
      member;
};

const std::array places{Place{"sag_permanent", Kind::ratio, &Limits::sag_permanent},
                        Place{"sag_final", Kind::ratio, &Limits::sag_final},
                        Place{"sag_good", Kind::ratio, &Limits::sag_good},
                        Place{"sag_least", Kind::length, &Limits::sag_least},
                        Place{"overhang", Kind::ratio, &Limits::overhang},
                        Place{"overhang_least", Kind::length, &Limits::overhang_least},
                        Place{"sway_firm", Kind::linear_stiffness, &Limits::sway_firm},
                        Place{"sway_little", Kind::linear_stiffness, &Limits::sway_little},
                        Place{"sway_rocks", Kind::linear_stiffness, &Limits::sway_rocks},
                        Place{"tipping", Kind::ratio, &Limits::tipping},
                        Place{"sliding", Kind::ratio, &Limits::sliding},
                        Place{"height_to_depth", Kind::ratio, &Limits::height_to_depth},
                        Place{"buckling", Kind::ratio, &Limits::buckling},
                        Place{"lean", Kind::ratio, &Limits::lean},
                        Place{"bed_twist", Kind::slope, &Limits::bed_twist},
                        Place{"bed_twist_good", Kind::slope, &Limits::bed_twist_good},
                        Place{"vibration_good", Kind::ratio, &Limits::vibration_good},
                        Place{"vibration", Kind::ratio, &Limits::vibration},
                        Place{"vibration_stop", Kind::ratio, &Limits::vibration_stop},
                        Place{"vibration_slowest", Kind::speed, &Limits::vibration_slowest},
                        Place{"resonance_from", Kind::ratio, &Limits::resonance_from},
                        Place{"resonance_to", Kind::ratio, &Limits::resonance_to},
                        Place{"damping_low", Kind::ratio, &Limits::damping_low},
                        Place{"damping_high", Kind::ratio, &Limits::damping_high},
                        Place{"unevenness", Kind::length, &Limits::unevenness},
                        Place{"unevenness_levelled", Kind::length, &Limits::unevenness_levelled},
                        Place{"free_stem", Kind::length, &Limits::free_stem},
                        Place{"one_foot_share", Kind::ratio, &Limits::one_foot_share},
                        Place{"disc_sag", Kind::length, &Limits::disc_sag},
                        Place{"knock_energy", Kind::moment, &Limits::knock_energy},
                        Place{"knock_low", Kind::length, &Limits::knock_low},
                        Place{"knock_low_height", Kind::length, &Limits::knock_low_height},
                        Place{"knock_high", Kind::length, &Limits::knock_high},
                        Place{"knock_high_height", Kind::length, &Limits::knock_high_height},
                        Place{"rack_set", Kind::length, &Limits::rack_set}};

template <class T>
void put(const Record& r, Kind kind, Sourced<T>& to) {
  if constexpr (std::is_same_v<T, double>) {
    to.value = r.si("value", kind);
  } else {
    to.value = r.read<T>("value", kind);
  }
  to.source = r.source("value");
}

}  // namespace

void read_limit(const Record& r, Tables& out) {
  const std::string key = r.key();
  for (const Place& place : places) {
    if (place.key != key) continue;
    std::visit([&](auto member) { put(r, place.kind, out.limits.*member); }, place.member);
    return;
  }
  r.fault(key, "no such limit");
}

}  // namespace standtrue::reference
