#include "standtrue/decide/moving.hpp"

#include <cmath>

#include "decide/place_bounds.hpp"
#include "decide/placing.hpp"
#include "standtrue/contract.hpp"

namespace standtrue::decide {

struct Moving::Inside {
  const reference::Tables& tables;
  std::vector<bench::Machine> places;
  quantity::Length cell_length, cell_depth;
  InfluenceBounds bounds;
};

tl::expected<Moving, std::string> Moving::make(const bench::Bench& bench, std::size_t machine,
                                               const reference::Tables& tables, const Work& work) {
  const bench::Machine& own = bench.machines.at(machine);
  const bench::Sheet& sheet = bench.sheets.at(own.sheet);
  if (sheet.place != bench::SheetPlace::top) {
    return tl::unexpected("the " + own.name + " stands on the " + sheet.name + " and not on a top");
  }
  if (bench.analysis.sheets != bench::Analysis::Sheets::shell) {
    return tl::unexpected(std::string("the sheets are not computed as plates"));
  }
  Elsewhere elsewhere;
  elsewhere.machine = machine;
  const Cells cells = cells_over(sheet);
  const quantity::Length length = (sheet.x1 - sheet.x0) / static_cast<double>(cells.nx);
  const quantity::Length depth = (sheet.y1 - sheet.y0) / static_cast<double>(cells.ny);
  for (std::size_t row = 0; row < cells.ny; ++row) {
    for (std::size_t column = 0; column < cells.nx; ++column) {
      bench::Machine there = own;
      there.x = sheet.x0 + length * (static_cast<double>(column) + 0.5);
      there.y = sheet.y0 + depth * (static_cast<double>(row) + 0.5);
      if (in_the_way(bench, machine, there).empty()) elsewhere.places.push_back(there);
    }
  }
  if (elsewhere.places.empty()) return tl::unexpected("the " + own.name + " finds no room");
  auto bounds = InfluenceBounds::make(bench, tables, elsewhere, work);
  if (!bounds) return tl::unexpected(bounds.error());
  return Moving(std::make_shared<const Inside>(
      Inside{tables, std::move(elsewhere.places), length, depth, std::move(*bounds)}));
}

const std::vector<bench::Machine>& Moving::places() const { return inside_->places; }

quantity::Length Moving::cell_length() const { return inside_->cell_length; }

quantity::Length Moving::cell_depth() const { return inside_->cell_depth; }

MovedTo Moving::at(std::size_t place) const {
  expects(place < places().size(), "Moving: no such place");
  AtBounds found;
  found.mean = superposed_at_mean(inside_->bounds, place, std::nullopt, inside_->tables, true);
  const JudgedPlace judged = status_of(found);
  MovedTo to{judged.status.stand, judged.status.why, judged.sentence, judged.status.ratio, {}};
  for (const check::Finding& f : found.mean) {
    if (f.id.rfind("sag-total/", 0) != 0 || !std::isfinite(f.ratio)) continue;
    if (!to.sag || f.ratio > to.sag->demand / to.sag->limit) to.sag = {f.demand, f.limit};
  }
  return to;
}

}  // namespace standtrue::decide
