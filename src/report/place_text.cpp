#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "report/pages.hpp"

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

std::string indented(const std::vector<std::string>& lines) {
  std::string text;
  for (const std::string& line : lines) text += ended("  " + line);
  return text;
}

/// Side by side where the page is wide enough.
Page pictures(const PlacePlan& plan) {
  Page page;
  const std::vector<std::string> first = picture(plan, plan.ways[0]);
  if (plan.is_alike_turned) {
    page.plain(indented(first));
    return page;
  }
  const std::vector<std::string> second = picture(plan, plan.ways[1]);
  std::vector<std::string> beside;
  for (std::size_t i = 0; i < first.size(); ++i) beside.push_back(first[i] + "   " + second[i]);
  page.plain(indented(beside), indented(first) + "\n" + indented(second));
  return page;
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

Page reasons_page(const PlacePlan& plan) {
  constexpr std::size_t most = 6;
  Page page;
  if (!plan.reasons.empty()) page.gap();
  for (std::size_t i = 0; i < std::min(most, plan.reasons.size()); ++i) {
    const decide::PlaceReason& r = plan.reasons[i];
    const std::string ratio =
        std::isfinite(r.ratio) ? fmt::format("up to {:.2f}", r.ratio) : "tips";
    page.line(r.stand == Stand::barred ? "  # " : "  + ",
              fmt::format("{} place{}, {} ({}). At the worst of them: {}", r.places,
                          r.places == 1 ? "" : "s", r.id, ratio, r.sentence));
  }
  if (plan.reasons.size() > most) {
    page.line("  ",
              fmt::format("and {} more reasons; --json has them all.", plan.reasons.size() - most));
  }
  return page;
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

/// The masses of the fields, the back uppermost.
std::string fields(const decide::LoadPlan& loads, const std::vector<double>& masses,
                   quantity::UnitSystem units) {
  std::string text;
  for (std::size_t row = loads.ny; row-- > 0;) {
    text += "  ";
    for (std::size_t i = 0; i < loads.nx; ++i) {
      text += fmt::format("{:>4}", whole(masses[row * loads.nx + i], units));
    }
    text += "\n";
  }
  return text;
}

Page stored_page(const decide::LoadPlan& loads, quantity::UnitSystem units) {
  Page page;
  page.heading("What may be stored where");
  if (!loads.none.empty()) {
    page.line("  ", "Not told: " + loads.none + ".");
    return page;
  }
  const auto carries_none = [](const std::vector<double>& masses) {
    return std::all_of(masses.begin(), masses.end(), [](double mass) { return !(mass > 0.0); });
  };
  const std::string sure = fields(loads, loads.mass, units);
  const std::string mean = fields(loads, loads.mean, units);
  const bool is_uncertain = sure != mean;
  if (carries_none(loads.mass) && !loads.why.empty()) {
    page.line("  ", fmt::format(
                        "Nothing more{}: with the machines where the file has them {} {} over its "
                        "limit already, or can not be judged.",
                        is_uncertain ? " for sure" : "", loads.why.front(),
                        is_uncertain ? "may be" : "is"));
    if (!is_uncertain) return page;
  } else {
    if (is_uncertain) page.line("  ", "Carried however joints and timber turn out:");
    page.plain(sure);
  }
  if (is_uncertain) {
    page.gap();
    page.line("  ", "Carried where they turn out as they are on average:");
    page.plain(mean);
  }
  page.gap();
  page.line("  ",
            fmt::format("{} on a patch of {} square in the middle of each field, for years, one "
                        "patch at a time, beside all that the file has and somebody standing on "
                        "the top, rounded down; {} means that or more. Sag counts with joints and "
                        "timber that are average.",
                        units == quantity::UnitSystem::metric ? "kg" : "lb",
                        quantity::print(quantity::in_si(loads.patch), Kind::length, units),
                        whole(loads.most, units)));
  return page;
}

Page how_sure(const PlacePlan& plan) {
  const decide::Confirmation& c = plan.confirmed;
  Page page;
  if (c.near_limit + c.others > 0) {
    page.line("  ",
              fmt::format("{} places near the limit and {} others were solved anew, each on a mesh "
                          "of its own: what governs differed by up to {:.1f} %; {} became another "
                          "mark.",
                          c.near_limit, c.others, 100.0 * c.furthest, c.changed) +
                  (c.left > 0 ? fmt::format(" {} more near the limit lie further from it than "
                                            "twice that.",
                                            c.left)
                              : ""));
  }
  if (!plan.not_judged.empty()) {
    std::string ids;
    for (const std::string& id : plan.not_judged) ids += (ids.empty() ? "" : ", ") + id;
    page.line("  ", "Not judged, at any place: " + ids + ".");
  }
  page.line("  ",
            "Strength, tipping, feet and sag that hang on the place. Shoves, sway, hum and the "
            "rest: standtrue check. A planning aid, not a certificate.");
  return page;
}

}  // namespace

Page page(const decide::PlacePlan& plan, quantity::UnitSystem units) {
  Page page;
  page.heading(fmt::format("Where the {} may stand", plan.machine));
  if (!plan.none.empty()) {
    page.line("  ", "No plan: " + plan.none + ".");
    return page;
  }
  for (const std::string& line : plan.answer) page.line("  ", line);
  if (!plan.complete) page.line("  ", "Stopped before all were looked at.");
  page.gap();
  page.add(pictures(plan));
  page.gap();
  page.line("  ", legend(plan));
  page.add(reasons_page(plan));
  page.add(stored_page(plan.loads, units));
  page.gap();
  page.add(how_sure(plan));
  return page;
}

std::string text(const decide::PlacePlan& plan, quantity::UnitSystem units, const Style& style) {
  return page(plan, units).text(static_cast<std::size_t>(style.width));
}

}  // namespace standtrue::report
