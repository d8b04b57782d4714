#include "check/own.hpp"           // allowed: private to this room
#include "neighbour.hpp"           // not written from the room
#include "solve/beam_element.hpp"  // private to solve
