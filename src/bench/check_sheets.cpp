#include <algorithm>
#include <cmath>

#include "bench/plan.hpp"
#include "bench/reader.hpp"

namespace standtrue::bench {
namespace {

/// The top of the rail that lies nearest to a height.
Length nearest_support(const Bench& bench, Length height) {
  Length best = height;
  double least = 1e3;
  for (const Rail& rail : bench.rails) {
    const double off = std::abs(in_si(heights(rail).high - height));
    if (off >= least) continue;
    least = off;
    best = heights(rail).high;
  }
  return best;
}

void check_carried(Reader& reader, const Sheet& sheet, const Field& field) {
  if (!sheet.rails.empty() || !sheet.bearers.empty()) return;
  if (!lies(sheet)) {
    reader.note(field.fault(fmt::format("the {} meets no rail between {} and {} above the floor",
                                        sheet.name, say(sheet.z0, reader), say(sheet.z1, reader)),
                            "from: 150 mm, to: 850 mm"));
    return;
  }
  reader.note(field.fault(
      fmt::format("the {} floats: no rail or bearer has its top at {}, where its underside is",
                  sheet.name, say(sheet.underside, reader)),
      fmt::format("underside: {}", say(nearest_support(reader.bench, sheet.underside), reader))));
}

void check_cut_outs(Reader& reader, const Sheet& sheet, const Field& field) {
  for (const Sheet::CutOut& cut : sheet.cut_outs) {
    if (cut.x0 >= sheet.x0 - Range::slack() && cut.x1 <= sheet.x1 + Range::slack() &&
        cut.y0 >= sheet.y0 - Range::slack() && cut.y1 <= sheet.y1 + Range::slack()) {
      continue;
    }
    reader.note(field.fault(
        fmt::format("a cut-out reaches over the edge of the {}, which is {} by {}", sheet.name,
                    say(sheet.x1 - sheet.x0, reader), say(sheet.y1 - sheet.y0, reader)),
        "cut_outs: [{from: [600 mm, 200 mm], to: [800 mm, 350 mm]}]"));
  }
}

void check_free_of_rails(Reader& reader, const Sheet& sheet, const Field& field) {
  const Range own{sheet.z0, sheet.z1};
  for (const Rail& rail : reader.bench.rails) {
    if (!heights(rail).meets(own)) continue;
    if (!plan_of(reader.bench, rail).meets(plan_of(sheet))) continue;
    reader.note(field.fault(
        fmt::format("the {} runs through the {}, which lies from {} to {} above the floor",
                    sheet.name, rail.name, say(heights(rail).low, reader),
                    say(heights(rail).high, reader)),
        fmt::format("underside: {}", say(heights(rail).high, reader))));
    return;
  }
}

/// In the same place by more than planing and rounding.
bool shares_place(const Range& a, const Range& b) {
  return std::min(a.high, b.high) - std::max(a.low, b.low) > millimetres(1.0);
}

/// An upright sheet lies flat on the posts: no rail can lie on the same faces of them.
void check_free_of_outer_rails(Reader& reader, const Sheet& sheet, const Field& field) {
  const Plan own = plan_of(sheet);
  for (const Rail& rail : reader.bench.rails) {
    const Plan plan = plan_of(reader.bench, rail);
    if (!shares_place(heights(rail), {sheet.z0, sheet.z1})) continue;
    if (!shares_place(plan.x, own.x) || !shares_place(plan.y, own.y)) continue;
    reader.note(field.fault(
        fmt::format("the {} can not lie flat on the posts: {} lies on the same faces of them",
                    sheet.name, called(rail.name)),
        "rails: {seat: between, joint: corner brackets}"));
    return;
  }
}

void check_free_of_sheets(Reader& reader, std::size_t i, const Field& field) {
  const Sheet& sheet = reader.bench.sheets[i];
  for (std::size_t j = 0; j < i; ++j) {
    const Sheet& other = reader.bench.sheets[j];
    if (!lies(other) || !Range{sheet.z0, sheet.z1}.meets({other.z0, other.z1})) continue;
    if (!plan_of(sheet).meets(plan_of(other))) continue;
    reader.note(
        field.fault(fmt::format("the {} and the {} lie in the same place", other.name, sheet.name),
                    "another 'underside', or 'from' and 'to' for a part of the length"));
  }
}

}  // namespace

void check_sheets(Reader& reader, const Field& root) {
  for (std::size_t i = 0; i < reader.bench.sheets.size(); ++i) {
    const Sheet& sheet = reader.bench.sheets[i];
    const Field& field = reader.place(sheet.name, root);
    check_carried(reader, sheet, field);
    if (!lies(sheet)) {
      check_free_of_outer_rails(reader, sheet, field);
      continue;
    }
    check_cut_outs(reader, sheet, field);
    check_free_of_rails(reader, sheet, field);
    check_free_of_sheets(reader, i, field);
  }
}

}  // namespace standtrue::bench
