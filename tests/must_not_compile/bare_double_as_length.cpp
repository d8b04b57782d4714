// A bare number is not a length: it must name its unit.
#include "standtrue/quantity/quantity.hpp"

using namespace standtrue::quantity;

#ifdef SHOULD_FAIL
Length span = 1.0;
#else
Length span = metres(1.0);
#endif
