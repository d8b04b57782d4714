// A moment is force times length. The torque of the units library carries 1/rad and must not pass.
#include <boost/units/systems/si/torque.hpp>

#include "standtrue/quantity/quantity.hpp"

using namespace standtrue::quantity;

#ifdef SHOULD_FAIL
Moment moment = boost::units::quantity<boost::units::si::torque>{};
#else
Moment moment = newtons(1.0) * metres(1.0);
#endif
