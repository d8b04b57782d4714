#pragma once

#include <boost/units/quantity.hpp>
#include <boost/units/systems/si/acceleration.hpp>
#include <boost/units/systems/si/area.hpp>
#include <boost/units/systems/si/energy.hpp>
#include <boost/units/systems/si/force.hpp>
#include <boost/units/systems/si/frequency.hpp>
#include <boost/units/systems/si/length.hpp>
#include <boost/units/systems/si/mass.hpp>
#include <boost/units/systems/si/mass_density.hpp>
#include <boost/units/systems/si/moment_of_inertia.hpp>
#include <boost/units/systems/si/pressure.hpp>
#include <boost/units/systems/si/surface_tension.hpp>
#include <boost/units/systems/si/volume.hpp>

/// The quantities of the project. All are SI, so a stored number is always m, N, Pa, kg, s; other
/// units exist only as text (unit_text.hpp). Angles, slopes, strains and ratios are plain doubles,
/// angles in radians.
namespace standtrue::quantity {

namespace units = boost::units;
namespace si = boost::units::si;

using Length = units::quantity<si::length>;
using Area = units::quantity<si::area>;
using SectionModulus = units::quantity<si::volume>;
using SecondMoment =
    units::quantity<units::multiply_typeof_helper<si::area, si::area>::type>;  ///< m^4, I and J
using Mass = units::quantity<si::mass>;
using Density = units::quantity<si::mass_density>;
using Force = units::quantity<si::force>;
/// Force times length. Not si::torque, which carries 1/rad and would not convert. A rotational
/// stiffness, moment per radian, has the same type.
using Moment = units::quantity<si::energy>;
using RotationalStiffness = Moment;
using Stress = units::quantity<si::pressure>;           ///< also a modulus and a load per area
using LineLoad = units::quantity<si::surface_tension>;  ///< force per length
using LinearStiffness = LineLoad;
/// Second moment of mass, kg m^2: force length times time squared, without the 1/rad^2.
using MassMoment = units::quantity<units::multiply_typeof_helper<si::mass, si::area>::type>;
using Frequency = units::quantity<si::frequency>;
using Acceleration = units::quantity<si::acceleration>;

/// The only exit from a quantity: its number in SI base units.
template <class Unit>
[[nodiscard]] double in_si(const units::quantity<Unit>& q) {
  return q.value();
}

/// The only entry from a number: `from_si<Length>(1.2)` is 1.2 m.
template <class Quantity>
[[nodiscard]] Quantity from_si(double value) {
  return Quantity::from_value(value);
}

[[nodiscard]] inline Length metres(double v) { return from_si<Length>(v); }
[[nodiscard]] inline Length millimetres(double v) { return from_si<Length>(v * 1e-3); }
[[nodiscard]] inline Mass kilograms(double v) { return from_si<Mass>(v); }
[[nodiscard]] inline Force newtons(double v) { return from_si<Force>(v); }
[[nodiscard]] inline Moment newton_metres(double v) { return from_si<Moment>(v); }
[[nodiscard]] inline Stress pascals(double v) { return from_si<Stress>(v); }

/// Standard gravity, from memory (CGPM 1901): 9.80665 m/s^2.
[[nodiscard]] inline Acceleration standard_gravity() { return from_si<Acceleration>(9.80665); }

}  // namespace standtrue::quantity
