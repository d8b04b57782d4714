// The speeds that machines run at against the frequencies at which the bench swings.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "report/axes.hpp"
#include "report/charts.hpp"

namespace standtrue::report {

using quantity::in_si;

namespace {

std::vector<const bench::Machine*> running(const bench::Bench& bench) {
  std::vector<const bench::Machine*> all;
  for (const bench::Machine& m : bench.machines) {
    if (in_si(m.speed_max) > 0.0) all.push_back(&m);
  }
  return all;
}

}  // namespace

std::optional<Captioned> speed_chart(const Drawn& drawn, double width) {
  const std::vector<const bench::Machine*> machines = running(drawn.assessment.bench);
  const std::vector<decide::Swing>& swings = drawn.picture.swings;
  if (machines.empty() || swings.empty()) return std::nullopt;
  double slowest = 60.0 * swings.front().frequency, fastest = 0.0;
  for (const bench::Machine* m : machines) {
    slowest = std::min(slowest, 60.0 * std::max(in_si(m->speed_min), 1.0));
    fastest = std::max(fastest, 60.0 * in_si(m->speed_max));
  }
  constexpr double row = 9.0, over = 22.0, under = 9.0, beside = 4.0, right = 6.0;
  const double height = row * static_cast<double>(machines.size()) + 4.0;
  Svg svg(width, over + height + under, "Speeds and swings",
          "Bars for the speeds of each machine, upright lines where the bench swings.");
  const Axes axes({beside, over + height}, width - beside - right, height,
                  {0.8 * slowest, 1.25 * std::max(fastest, 1.2 * slowest)}, {1.0, 2.0});
  axes.draw_x(
      svg, [](double v) { return fmt::format("{:.0f}", v); }, "turns a minute");
  double last = -1e9;
  std::size_t named = 0;
  for (const decide::Swing& swing : swings) {
    const double x = axes.x(60.0 * swing.frequency);
    if (x > axes.right()) break;
    svg.line({x, axes.bottom()}, {x, axes.top() - 1.0}, "mean");
    if (x - last < 5.0 || named == 8) continue;  // names that would run into each other
    svg.text({x + 0.8, axes.top() - 2.0}, swing.words, "small", Anchor::start, 35.0);
    last = x;
    ++named;
  }
  double y = axes.top() + 3.5;
  for (const bench::Machine* m : machines) {
    const double from = axes.x(60.0 * std::max(in_si(m->speed_min), 1.0));
    const double to = std::max(axes.x(60.0 * in_si(m->speed_max)), from + 0.8);
    svg.rect({from, y}, to - from, 3.0, "smear");
    const bool fits = from - axes.left() > text_width(m->name, 2.6) + 3.0;
    svg.text({fits ? from - 1.5 : from, fits ? y + 2.3 : y + 5.6}, m->name, "",
             fits ? Anchor::end : Anchor::start);
    y += row;
  }
  return Captioned{
      std::move(svg),
      "A machine shakes the bench most where its bar crosses a dotted line; a mode of "
      "a real bench lies within a fifth of the computed one. What that comes to stands "
      "with the findings (hum)."};
}

}  // namespace standtrue::report
