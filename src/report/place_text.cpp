#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "report/layout.hpp"
#include "standtrue/report/report.hpp"

namespace standtrue::report {

namespace {

using decide::PlaceGrid;
using decide::PlacePlan;
using decide::Stand;
using quantity::Kind;

char mark(const PlacePlan& plan, const PlaceGrid& grid, std::size_t cell) {
  if (plan.taken[cell]) return static_cast<char>('A' + *plan.taken[cell] % 26);
  switch (grid.at[cell].stand) {
    case Stand::clear:
      return '.';
    case Stand::care:
      return '+';
    case Stand::barred:
      return '#';
    case Stand::not_looked_at:
      break;
  }
  return '?';
}

/// The top from above, the back uppermost; all lines equally long.
std::vector<std::string> picture(const PlacePlan& plan, const PlaceGrid& grid) {
  const std::string edge = "+" + std::string(plan.nx, '-') + "+";
  std::vector<std::string> lines{edge};
  for (std::size_t row = plan.ny; row-- > 0;) {
    std::string line = "|";
    for (std::size_t i = 0; i < plan.nx; ++i) line += mark(plan, grid, row * plan.nx + i);
    lines.push_back(line + "|");
  }
  lines.push_back(edge);
  lines.push_back(plan.is_alike_turned ? "either way round"
                  : grid.turned        ? "turned a quarter"
                                       : "as in the file");
  const std::size_t width = std::max<std::size_t>(edge.size(), 16);
  for (std::string& line : lines) line = padded(std::move(line), width);
  return lines;
}

/// A line without blanks at its end.
std::string ended(std::string line) {
  line.erase(line.find_last_not_of(' ') + 1);
  return line + "\n";
}

/// Side by side where the page is wide enough.
std::string pictures(const PlacePlan& plan, std::size_t width) {
  const std::vector<std::string> first = picture(plan, plan.ways[0]);
  std::string text;
  const std::vector<std::string> second =
      plan.is_alike_turned ? std::vector<std::string>() : picture(plan, plan.ways[1]);
  const bool beside = !second.empty() && 2 + 2 * first.front().size() + 3 <= width;
  for (std::size_t i = 0; i < first.size(); ++i) {
    text += ended("  " + first[i] + (beside ? "   " + second[i] : ""));
  }
  if (beside || second.empty()) return text;
  text += "\n";
  for (const std::string& line : second) text += ended("  " + line);
  return text;
}

std::string legend(const PlacePlan& plan) {
  std::string text =
      "Seen from above, the front edge below. The middle of its pads on: . clear, + care, # "
      "barred, or no "
      "room for its pads";
  for (std::size_t i = 0; i < plan.others.size(); ++i) {
    text += fmt::format(", {} {}", static_cast<char>('A' + i % 26), plan.others[i]);
  }
  return text + ".";
}

std::string reasons_text(const PlacePlan& plan, std::size_t width) {
  constexpr std::size_t most = 6;
  std::string text;
  for (std::size_t i = 0; i < std::min(most, plan.reasons.size()); ++i) {
    const decide::PlaceReason& r = plan.reasons[i];
    const std::string ratio =
        std::isfinite(r.ratio) ? fmt::format("up to {:.2f}", r.ratio) : "tips";
    text += wrapped(r.stand == Stand::barred ? "  # " : "  + ",
                    fmt::format("{} place{}, {} ({}). At the worst of them: {}", r.places,
                                r.places == 1 ? "" : "s", r.id, ratio, r.sentence),
                    width);
  }
  if (plan.reasons.size() > most) {
    text += wrapped(
        "  ", fmt::format("and {} more reasons; --json has them all.", plan.reasons.size() - most),
        width);
  }
  return text.empty() ? text : "\n" + text;
}

/// Rounded down to 5 kg or 10 lb.
std::string whole(double mass, quantity::UnitSystem units) {
  if (!std::isfinite(mass)) return "-";
  constexpr double pound = 0.45359237;
  const bool metric = units == quantity::UnitSystem::metric;
  const double step = metric ? 5.0 : 10.0 * pound;
  const double steps = std::floor(mass / step + 1e-9);
  return fmt::format("{:.0f}", steps * (metric ? 5.0 : 10.0));
}

std::string loads_text(const PlacePlan& plan, quantity::UnitSystem units, std::size_t width) {
  const decide::LoadPlan& loads = plan.loads;
  std::string text = heading("What may be stored where");
  if (!loads.none.empty()) return text + wrapped("  ", "Not told: " + loads.none + ".", width);
  const bool is_full =
      std::all_of(loads.mass.begin(), loads.mass.end(), [](double mass) { return !(mass > 0.0); });
  if (is_full && !loads.why.empty()) {
    return text + wrapped("  ",
                          fmt::format("Nothing more: with the machines where the file has them {} "
                                      "is over its limit already.",
                                      loads.why.front()),
                          width);
  }
  for (std::size_t row = loads.ny; row-- > 0;) {
    std::string line = "  ";
    for (std::size_t i = 0; i < loads.nx; ++i) {
      line += fmt::format("{:>4}", whole(loads.mass[row * loads.nx + i], units));
    }
    text += line + "\n";
  }
  text += "\n";
  return text +
         wrapped(
             "  ",
             fmt::format("{} on a patch of {} square in the middle of each field, for years, "
                         "one patch at a time, beside all that the file has and somebody standing "
                         "on the top, rounded down; "
                         "{} means that or more.",
                         units == quantity::UnitSystem::metric ? "kg" : "lb",
                         quantity::print(quantity::in_si(loads.patch), Kind::length, units),
                         whole(loads.most, units)),
             width);
}

std::string how_sure(const PlacePlan& plan, std::size_t width) {
  const decide::Confirmation& c = plan.confirmed;
  std::string text;
  if (c.near_limit + c.others > 0) {
    text += wrapped(
        "  ",
        fmt::format("{} places near the limit and {} others were solved anew, each on a mesh of "
                    "its own: what governs differed by up to {:.1f} %; {} became another mark.",
                    c.near_limit, c.others, 100.0 * c.furthest, c.changed),
        width);
  }
  if (!plan.not_judged.empty()) {
    std::string ids;
    for (const std::string& id : plan.not_judged) ids += (ids.empty() ? "" : ", ") + id;
    text += wrapped("  ", "Not judged, at any place: " + ids + ".", width);
  }
  return text + wrapped("  ",
                        "Strength, tipping, feet and sag that hang on the place. Shoves, sway, hum "
                        "and the rest: standtrue check. A planning aid, not a certificate.",
                        width);
}

}  // namespace

std::string text(const decide::PlacePlan& plan, quantity::UnitSystem units, const Style& style) {
  const auto width = static_cast<std::size_t>(style.width);
  std::string page = heading(fmt::format("Where the {} may stand", plan.machine));
  if (!plan.none.empty()) return page + wrapped("  ", "No plan: " + plan.none + ".", width);
  for (const std::string& line : plan.answer) page += wrapped("  ", line, width);
  if (!plan.complete) page += wrapped("  ", "Stopped before all were looked at.", width);
  page += "\n" + pictures(plan, width) + "\n";
  page += wrapped("  ", legend(plan), width) + reasons_text(plan, width);
  page += loads_text(plan, units, width) + "\n";
  return page + how_sure(plan, width);
}

}  // namespace standtrue::report
