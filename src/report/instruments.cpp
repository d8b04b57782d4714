#include "report/instruments.hpp"

#include <algorithm>
#include <cmath>

#include "report/figures.hpp"
#include "report/governing.hpp"

namespace standtrue::report {

using check::Finding;
using quantity::in_si;

namespace {

constexpr double instrument_line = 2.8;

/// What a ratio comes to on the sheet, the limit being `allowed`; never more than three of those.
double on_sheet(double ratio, double allowed) { return allowed * std::clamp(ratio, 0.0, 3.0); }

/// The end of the next line: at a comma or an "at", and at a "to" where it would be too long.
std::size_t line_end(const std::string& words) {
  constexpr double room = 15.0;  // mm
  const std::size_t end = std::min(words.find(", "), words.find(" at "));
  if (text_width(words.substr(0, end), 2.2) <= room) return end;
  const std::size_t to = words.find(" to ");
  return to == words.npos ? end : std::min(end, to + 3);
}

/// "1.2 mm, 2.8 allowed" as lines of their own.
void tell_lines(Svg& svg, Flat at, const char* first, std::string words, Anchor anchor,
                bool fails) {
  const char* const ink = fails ? "small red" : "small blue";
  svg.text(at, first, "small", anchor);
  while (!words.empty()) {
    at[1] += instrument_line;
    const std::size_t end = line_end(words);
    svg.text(at, words.substr(0, end), ink, anchor);
    words = end == words.npos ? "" : words.substr(words.find_first_not_of(", ", end));
  }
}

Extent posts_in(const Drawn& drawn, const View& view) {
  std::vector<Solid> posts;
  for (const Solid& s : drawn.picture.solids) {
    if (s.of == Solid::Of::post) posts.push_back(s);
  }
  return extent_of(posts.empty() ? drawn.picture.solids : posts, view);
}

/// The worst sag but that of shelves and of what carries them: the string lies along the top.
const Finding* sag_of_the_top(const decide::Assessment& assessment) {
  const bench::Bench& bench = assessment.bench;
  const Finding* worst = nullptr;
  const auto lies_below = [&](const Finding& f) {
    for (const bench::Sheet& s : bench.sheets) {
      if (s.place == bench::SheetPlace::shelf && f.place.rfind(s.name, 0) == 0) return true;
    }
    for (const bench::Rail& r : bench.rails) {
      if (r.level != bench::Level::top && f.place.rfind(r.name, 0) == 0) return true;
    }
    return false;
  };
  for (const Finding& f : assessment.findings) {
    if (f.group != check::Group::sag || !is_judged(f) || lies_below(f)) continue;
    if (!worst || ratios(f)->greatest > ratios(*worst)->greatest) worst = &f;
  }
  return worst;
}

}  // namespace

double head_of(const bench::Machine& machine) {
  return std::max({in_si(machine.kind.height), 1.2 * in_si(machine.cg_height), 0.08});
}

void draw_string(Svg& svg, const Drawn& drawn, const View& front) {
  const auto& string = drawn.picture.string;
  const Finding* f = sag_of_the_top(drawn.assessment);
  if (!string || string->below.size() < 2 || !(string->most > 0.0) || !f) return;
  constexpr double above = 8.4, allowed = 2.4;
  const Extent extent = extent_of(drawn.picture.solids, front);
  const double y = extent.y0 - above;
  const double times = on_sheet(ratios(*f)->greatest, allowed) / string->most;
  const double x0 = front.at({string->below.front()[0], 0, 0})[0];
  const double x1 = front.at({string->below.back()[0], 0, 0})[0];
  svg.line({x0, y}, {x1, y}, "string");
  for (const double x : {x0, x1}) svg.line({x, y - 0.8}, {x, extent.y0}, "string");
  std::vector<Flat> curve;
  for (const auto& [x, below] : string->below) {
    curve.push_back({front.at({x, 0, 0})[0], y + times * below});
  }
  svg.path(curve, "sagged");
  const double middle = front.at({string->most_at, 0, 0})[0];
  for (const double off : {0.0, 0.7}) {
    svg.line({middle - 3.0, y + allowed + off}, {middle + 3.0, y + allowed + off}, "knife");
  }
  tell_lines(svg, {x0 - 1.5, y - 1.0}, "string: top sags", amount(*f, drawn.assessment.bench.units),
             Anchor::end, is_over(*f));
}

void draw_bob(Svg& svg, const Drawn& drawn, const View& view, const char* id) {
  const auto& all = drawn.assessment.findings;
  const auto f =
      std::find_if(all.begin(), all.end(), [id](const Finding& g) { return g.id == id; });
  if (f == all.end() || !is_judged(*f)) return;
  constexpr double allowed = 2.4;
  const Extent posts = posts_in(drawn, view);
  const double lean = on_sheet(ratios(*f)->greatest, allowed);
  const double x = posts.x1, floor = view.origin[1], top = posts.y0, hangs = x + lean;
  svg.line({x, floor - 1.0}, {hangs, top}, "sagged");
  svg.line({x, top}, {hangs, top}, "string");
  svg.line({hangs, top}, {hangs, floor - 3.8}, "bob");
  svg.path({{hangs - 0.9, floor - 3.8}, {hangs + 0.9, floor - 3.8}, {hangs, floor - 0.6}},
           "bobweight", true);
  for (const double off : {0.0, 0.7}) {
    svg.line({x + allowed + off, floor - 3.0}, {x + allowed + off, floor + 1.8}, "knife");
  }
  const double right = std::max(hangs, x + allowed) + 2.4;
  tell_lines(svg, {right, 0.5 * (top + floor) - 4.0}, "plumb bob: sways",
             amount(*f, drawn.assessment.bench.units), Anchor::start, is_over(*f));
}

}  // namespace standtrue::report
