#include <fmt/format.h>

#include "report/charts.hpp"
#include "report/drawing.hpp"
#include "report/frame_drawings.hpp"
#include "report/ink.hpp"
#include "standtrue/report/html.hpp"

namespace standtrue::report {

namespace {

constexpr double sheet_width = 186.0;

std::optional<Captioned> picture_of(const std::string& name, const Drawn& drawn) {
  const double w = sheet_width;
  if (name == "shop") return shop_drawing(drawn, balloons_of(drawn.assessment), w);
  if (name == "rod") return Captioned{rod_drawing(drawn.assessment, 0.6 * w), ""};
  if (name == "front") return elevation_drawing(drawn, View::front(), "Front", w);
  if (name == "end") return elevation_drawing(drawn, View::left_end(), "Left end", 0.6 * w);
  if (name == "plan") return elevation_drawing(drawn, View::plan(), "Plan", w);
  if (name == "solid") return solid_drawing(drawn, w);
  if (name == "loaded") return loaded_drawing(drawn, w);
  if (name == "pushed-along") return pushed_drawing(drawn, true, w);
  if (name == "pushed-across") return pushed_drawing(drawn, false, w);
  if (name == "moments") return moment_drawing(drawn, w);
  if (name == "sticks") return winding_sticks(drawn, w);
  if (name == "swings") return swing_drawing(drawn, w);
  if (name == "sag") return sag_split(drawn, w);
  if (name == "sway") return sway_chart(drawn, w);
  if (name == "speeds") return speed_chart(drawn, w);
  return std::nullopt;
}

}  // namespace

const std::vector<std::string>& picture_names() {
  static const std::vector<std::string> names = {
      "shop",          "rod",     "front",  "end",    "plan", "solid", "loaded", "pushed-along",
      "pushed-across", "moments", "sticks", "swings", "sag",  "sway",  "speeds"};
  return names;
}

bool picture_wants_places(const std::string& name) { return name == "shop"; }

std::string picture_svg(const std::string& name, const decide::Assessment& assessment,
                        const decide::Picture& picture,
                        const std::optional<decide::PlacePlan>& places) {
  if (picture.solids.empty()) return {};
  const auto drawn = picture_of(name, {assessment, picture, places ? &*places : nullptr});
  return drawn ? standalone(drawn->svg) : std::string();
}

}  // namespace standtrue::report
