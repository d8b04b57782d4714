#include "standtrue/check/finding.hpp"  // to the right
#include "standtrue/contract.hpp"       // allowed: in no room
#include "standtrue/model/model.hpp"    // allowed: to the left
#include "standtrue/utils/handy.hpp"    // no such room
