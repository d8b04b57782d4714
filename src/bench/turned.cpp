#include "standtrue/bench/turned.hpp"

#include <utility>

namespace standtrue::bench {

Machine turned_a_quarter(Machine machine) {
  std::swap(machine.pads_x, machine.pads_y);
  using Axis = Machine::Axis;
  if (machine.spindle != Axis::z) machine.spindle = machine.spindle == Axis::x ? Axis::y : Axis::x;
  const Length x = machine.cg_x;
  machine.cg_x = Length{} - machine.cg_y;
  machine.cg_y = x;
  return machine;
}

}  // namespace standtrue::bench
