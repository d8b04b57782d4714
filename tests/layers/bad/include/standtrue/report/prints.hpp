#pragma once

#include <iostream>  // the core does not print
#include <string>    // allowed
