#include "standtrue/model/idealise.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "model/idealising.hpp"

namespace standtrue::model {

namespace {

void say_how_plates(Idealising& work) {
  const auto glued = [&](const bench::Sheet& sheet) { return sheet.bond == bench::Bond::glued; };
  work.said.push_back(
      "sheets are plates of their own grain, tied to what carries them by screws that slip, spread "
      "along the rail and none near the posts");
  work.said.push_back(
      "a top presses on the ends of the posts under its loads; against a shove that does not "
      "count");
  for (const Plate& plate : work.model.plates) {
    for (const PlateBody& body : plate.bodies) {
      work.said.push_back(
          fmt::format("the {} is bolted down: its bed resists a twist of its pads (stiffness ours)",
                      body.name));
    }
  }
  for (const bench::Sheet& sheet : work.bench.sheets) {
    if (sheet.bond == bench::Bond::loose) {
      work.said.push_back(fmt::format(
          "the {} lies loose: it neither stiffens what carries it nor holds the frame square",
          sheet.name));
    }
    if (sheet.layers > 1 && sheet.between_layers != bench::Bond::glued) {
      work.said.push_back(fmt::format(
          "the layers of the {} bend side by side, as if nothing joined them", sheet.name));
    }
  }
  if (std::any_of(work.bench.sheets.begin(), work.bench.sheets.end(), glued)) {
    work.said.push_back("glue does not slip");
  }
}

void say_how_it_is_held(Idealising& work) {
  std::string fixed;
  std::size_t n = 0;
  for (const FootPlace& foot : work.model.parts.feet) {
    if (!work.bench.posts[foot.post].foot.fixed) continue;
    fixed += (n++ > 0 ? ", " : "") + foot.name;
  }
  const bool all = n > 0 && n == work.model.parts.feet.size();
  if (!all) {
    work.said.push_back(
        "feet press on the floor and never pull; they do not slide while they press");
  }
  if (n > 0) {
    work.said.push_back(fmt::format(
        "{} bolted to the floor: held there both ways as firmly as others press, free to turn; the "
        "bolts are not judged",
        all ? "all feet are" : fixed + (n == 1 ? " is" : " are")));
  }
  if (!work.model.parts.wall.empty()) {
    work.said.push_back(fmt::format(
        "each of the {} screws into the wall gives {} along, across and in pull; the wall itself "
        "does not give (ours)",
        work.model.parts.wall.size(),
        quantity::print(work.tables.constant("wall fixing").value, quantity::Kind::linear_stiffness,
                        work.bench.units)));
  }
}

void say_how(Idealising& work) {
  const bench::Bench& bench = work.bench;
  if (bench.rules == bench::Rules::allowable_stress) {
    work.said.push_back(
        "posts, rails, bearers and braces are judged by allowable stresses under loads without "
        "factors (NDS 2018, ASCE 7); joints, sheets, feet, tipping and the frame as a whole by "
        "partial factors (EN 1990, EN 1995-1-1)");
  }
  work.said.push_back(
      "rails are joined at the faces of the posts by springs whose stiffness comes from the "
      "joint's "
      "make; soft and stiff are a third and three times that (ours)");
  if (bench.analysis.sheets == bench::Analysis::Sheets::strip && !work.strips.empty()) {
    work.said.push_back(
        "the sheet carries a machine as strips under its pads, as wide as a point load spreads");
  }
  if (has_shells(bench)) say_how_plates(work);
  for (const ShearField& field : work.model.parts.shear_fields) {
    work.said.push_back(fmt::format(
        "the {} holds its posts square in its own plane, its screws slipping", field.sheet));
  }
  if (!has_shells(bench))
    work.said.push_back("stored loads and people press on the rails by the lever rule");
  say_how_it_is_held(work);
  if (!bench.braces.empty())
    work.said.push_back("braces are pinned at the middle of posts and rails");
}

}  // namespace

Idealisation idealise(const bench::Bench& bench, const reference::Tables& tables,
                      const Assumptions& assumptions) {
  Idealising work{bench, tables, assumptions, {}, {}, {}, {}, {}, {}, {}, {}, {}, {}};
  work.model.title = bench.title;
  work.model.parts.bench = bench;
  plan_spans(work);
  if (!work.faults.empty()) return {std::nullopt, std::move(work.said), std::move(work.faults)};
  if (has_shells(bench)) plan_plates(work);
  if (!work.faults.empty()) return {std::nullopt, std::move(work.said), std::move(work.faults)};
  plan_fixings(work);
  build_posts(work);
  build_ledgers(work);
  build_rails(work);
  build_braces(work);
  if (has_shells(bench)) {
    build_plates(work);
  } else {
    build_shear_fields(work);
    build_strips(work);
  }
  build_feet(work);
  build_fixings(work);
  build_cases(work);
  if (!work.faults.empty()) return {std::nullopt, std::move(work.said), std::move(work.faults)};
  build_combinations(work);
  say_how(work);
  return {std::move(work.model), std::move(work.said), {}};
}

}  // namespace standtrue::model
