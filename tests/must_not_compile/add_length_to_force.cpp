// A length and a force have no sum.
#include "standtrue/quantity/quantity.hpp"

using namespace standtrue::quantity;

#ifdef SHOULD_FAIL
auto sum() { return metres(1.0) + newtons(1.0); }
#else
auto sum() { return metres(1.0) + metres(1.0); }
#endif
