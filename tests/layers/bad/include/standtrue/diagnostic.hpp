#pragma once

#include "standtrue/document/document.hpp"  // a header of no room that leans on one
