#include "standtrue/model/move_machine.hpp"

#include <algorithm>

#include "model/idealising.hpp"
#include "standtrue/contract.hpp"

namespace standtrue::model {

using quantity::in_si;
using quantity::metres;

namespace {

double side_of(const bench::Machine& machine) { return std::max(in_si(machine.pad), 5e-3); }

void press_on(const Model& model, LoadCase& load_case, std::size_t sheet, const Patch& where,
              double force) {
  const std::optional<std::size_t> plate = plate_of(model, sheet);
  expects(plate && touches(model.plates[*plate], where), "move_machine: there is no plate there");
  load_case.patch_loads.push_back({*plate, where, {0.0, 0.0, -force}});
}

}  // namespace

LoadCase weight_at(const Model& model, const bench::Machine& machine) {
  LoadCase load_case;
  load_case.name = "machine-" + slug(machine.name) + "-there";
  load_case.title = "the " + machine.name + " at another place";
  load_case.weight = true;
  const bench::Sheet& sheet = model.parts.bench.sheets.at(machine.sheet);
  for (const Pad& pad : pads_of(machine)) {
    press_on(model, load_case, machine.sheet, patch_at(sheet, pad.x, pad.y, side_of(machine)),
             in_si(machine.mass) * g() * pad.share);
  }
  return load_case;
}

LoadCase kilogram_at(const Model& model, std::size_t sheet, Length x, Length y, Length side) {
  LoadCase load_case;
  load_case.name = "kilogram";
  load_case.title = "1 kg that is stored there";
  load_case.weight = true;
  load_case.duration = Duration::long_term;
  press_on(model, load_case, sheet,
           patch_at(model.parts.bench.sheets.at(sheet), in_si(x), in_si(y), in_si(side)), g());
  return load_case;
}

bool is_under(const Model& model, std::size_t sheet, Length x, Length y, Length side) {
  const std::optional<std::size_t> plate = plate_of(model, sheet);
  return plate && touches(model.plates[*plate], patch_at(model.parts.bench.sheets.at(sheet),
                                                         in_si(x), in_si(y), in_si(side)));
}

void move_machine(Model& model, std::size_t place, const bench::Machine& there) {
  Parts& parts = model.parts;
  parts.bench.machines.at(place) = there;
  for (Weight& weight : parts.weights) {
    if (weight.of != Weight::Of::machine || weight.name != there.name) continue;
    weight.x = there.x + there.cg_x;
    weight.y = there.y + there.cg_y;
  }
  const double half = 0.5 * side_of(there);
  const std::vector<Pad> pads = pads_of(there);
  std::size_t next = 0;
  for (PadPlace& pad : parts.pads) {
    if (pad.machine != place) continue;
    const Pad& at = pads.at(next++);
    pad.where = {at.x - half, at.x + half, at.y - half, at.y + half};
  }
}

}  // namespace standtrue::model
