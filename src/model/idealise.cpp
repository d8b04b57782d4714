#include "standtrue/model/idealise.hpp"

#include <fmt/format.h>

#include "model/idealising.hpp"

namespace standtrue::model {

namespace {

void say_how(Idealising& work) {
  const bench::Bench& bench = work.bench;
  work.said.push_back(
      "rails are joined at the faces of the posts by springs whose stiffness comes from the "
      "joint's "
      "make; soft and stiff are a third and three times that (ours)");
  if (bench.analysis.sheets == bench::Analysis::Sheets::strip && !work.strips.empty()) {
    work.said.push_back(
        "the sheet carries a machine as strips under its pads, as wide as a point load spreads");
  }
  for (const ShearField& field : work.model.parts.shear_fields) {
    work.said.push_back(fmt::format(
        "the {} holds its posts square in its own plane, its screws slipping", field.sheet));
  }
  work.said.push_back("stored loads and people press on the rails by the lever rule");
  work.said.push_back("feet press on the floor and never pull; they do not slide while they press");
  if (!bench.braces.empty())
    work.said.push_back("braces are pinned at the middle of posts and rails");
}

}  // namespace

Idealisation idealise(const bench::Bench& bench, const reference::Tables& tables,
                      const Assumptions& assumptions) {
  Idealising work{bench, tables, assumptions, {}, {}, {}, {}, {}, {}, {}, {}};
  work.model.title = bench.title;
  work.model.parts.bench = bench;
  plan_spans(work);
  if (!work.faults.empty()) return {std::nullopt, std::move(work.said), std::move(work.faults)};
  build_posts(work);
  build_rails(work);
  build_braces(work);
  build_shear_fields(work);
  build_strips(work);
  build_feet(work);
  build_cases(work);
  build_combinations(work);
  say_how(work);
  return {std::move(work.model), std::move(work.said), {}};
}

}  // namespace standtrue::model
