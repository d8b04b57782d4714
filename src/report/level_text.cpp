#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "report/card_drawings.hpp"
#include "report/figures.hpp"
#include "report/pages.hpp"

namespace standtrue::report {

namespace {

using check::LevelReading;
using decide::FootToSet;
using decide::Levelling;
using quantity::Kind;
using quantity::UnitSystem;

/// What a level on this bench is read in, and how foot and packing are measured.
class Words {
 public:
  Words(const Levelling& levelling, UnitSystem units)
      : levelling_(levelling), metric_(units == UnitSystem::metric) {}

  /// To a hundredth of a millimetre or a thousandth of an inch: what feelers and shims come in.
  [[nodiscard]] std::string length(double metres) const {
    return metric_ ? fmt::format("{:.2f} mm", 1e3 * metres)
                   : fmt::format("{:.3f} in", metres / 0.0254);
  }
  [[nodiscard]] std::string slope(double value) const {
    const double size = std::abs(value);
    if (size < 5e-7) return metric_ ? "0 mm/m" : "0 in/ft";
    const double shown = metric_ ? 1e3 * size : 12.0 * size;
    const double step = metric_ ? 1e-3 : 1e-5;
    const double unit = std::max(step, std::pow(10.0, std::floor(std::log10(shown)) - 1.0));
    std::string text = fmt::format("{:.{}f}", std::round(shown / unit) * unit, metric_ ? 3 : 5);
    text.erase(text.find_last_not_of('0') + 1);
    if (text.back() == '.') text.pop_back();
    return text + (metric_ ? " mm/m" : " in/ft");
  }
  /// "0.3 mm/m, low in front"; more than 0 rises to the right or to the back.
  [[nodiscard]] std::string rises(double value, bool to_back) const {
    if (std::abs(value) < 5e-7) return "level";
    const bool up = value > 0.0;
    const char* low = to_back ? (up ? "in front" : "at the back") : up ? "left" : "right";
    return slope(value) + ", low " + low;
  }
  [[nodiscard]] std::string signed_slope(double value) const {
    if (std::abs(value) < 5e-7) return "0";
    const std::string text = slope(value);
    return (value > 0.0 ? "+" : "-") + text.substr(0, text.find(' '));
  }
  /// With its sign, as the table of quarter turns has it.
  [[nodiscard]] std::string twist(double value) const {
    const std::string text = slope(value);
    return text.front() == '0' && text[1] == ' ' ? text : (value > 0.0 ? "+" : "-") + text;
  }
  [[nodiscard]] const char* slope_unit() const { return metric_ ? "mm/m" : "in/ft"; }

  /// Along and across its bed.
  [[nodiscard]] double along(const LevelReading& r) const { return levelling_.along_x ? r.x : r.y; }
  [[nodiscard]] double across(const LevelReading& r) const {
    return levelling_.along_x ? r.y : r.x;
  }
  /// What its feet are under: a lathe has a bed, other machines a base.
  [[nodiscard]] const char* bed() const {
    const bool is_lathe = levelling_.machine.find("lathe") != std::string::npos;
    return levelling_.is_precise || is_lathe ? "bed" : "base";
  }
  [[nodiscard]] bool along_x() const { return levelling_.along_x; }
  [[nodiscard]] const char* near_end() const { return levelling_.along_x ? "left" : "front"; }
  [[nodiscard]] const char* far_end() const { return levelling_.along_x ? "right" : "back"; }

 private:
  const Levelling& levelling_;
  bool metric_;
};

/// "1/4 turn", "1 3/8 turns"; to a sixteenth.
std::string in_sixteenths(double turns) {
  const int sixteenths = static_cast<int>(std::lround(16.0 * turns));
  if (sixteenths == 0) return "leave it";
  const int whole = sixteenths / 16, part = sixteenths % 16;
  std::string text = whole > 0 ? std::to_string(whole) : "";
  if (part > 0) {
    const int common = std::gcd(part, 16);
    text += fmt::format("{}{}/{}", whole > 0 ? " " : "", part / common, 16 / common);
  }
  return text + (sixteenths > 16 ? " turns" : " turn");
}

/// "85 deg", "1 turn 20 deg"; to five degrees: a metal lathe's bed shows less than a sixteenth.
std::string in_degrees(double turns) {
  constexpr int step = 5;
  const int degrees = step * static_cast<int>(std::lround(360.0 / step * turns));
  if (degrees == 0) return "leave it";
  const int whole = degrees / 360, part = degrees % 360;
  std::string text = whole > 0 ? fmt::format("{} turn{}", whole, whole > 1 ? "s" : "") : "";
  if (part > 0) text += fmt::format("{}{} deg", whole > 0 ? " " : "", part);
  return text;
}

}  // namespace

std::string turn_of(const Levelling& levelling, const FootToSet& foot) {
  if (foot.pitch == 0.0) return foot.out < 5e-6 ? "leave it" : "pack up";
  const double turns = foot.out / foot.pitch;
  return levelling.is_precise ? in_degrees(turns) : in_sixteenths(turns);
}

namespace {

bool is_set_already(const Levelling& levelling) {
  return std::all_of(levelling.feet.begin(), levelling.feet.end(),
                     [&](const FootToSet& foot) { return turn_of(levelling, foot) == "leave it"; });
}

std::string answer(const Levelling& levelling, const Words& words) {
  const std::string what = levelling.machine.empty() ? "the top" : "the " + levelling.machine;
  if (!levelling.all_press) {
    return "There is no setting of the feet that makes " + what +
           " level and leaves every foot pressing. The one below comes nearest.";
  }
  if (!levelling.is_level) {
    return "The feet alone can not make " + what + " level. The setting below comes nearest.";
  }
  if (is_set_already(levelling) && !levelling.shims) {
    return fmt::format(
        "Leave the feet as they are: {} stands as level as a turn of a foot can make it.", what);
  }
  if (levelling.machine.empty()) {
    return "Set the feet as below: then the top is level, and every foot presses.";
  }
  if (levelling.shims) {
    return fmt::format(
        "The feet alone can not take the twist out of its {0}: a foot would lift before. Set the "
        "feet as below and put shims under the {1}: then it stands level, its {0} has no twist, "
        "and "
        "every foot presses.",
        words.bed(), levelling.machine);
  }
  return fmt::format(
      "Set the feet as below: then {} stands level, its {} has no twist, and every foot presses.",
      what, words.bed());
}

Table feet_table(const Levelling& levelling, const Words& words, UnitSystem units) {
  std::vector<std::string> head = {"foot", "out", "turns"};
  if (levelling.falls) head.insert(head.end(), {"for the floor", "for the load"});
  head.insert(head.end(), {"carries now", "then"});
  Table table(head, 1);
  const auto bears = [&](double force) {
    const double g = quantity::in_si(quantity::standard_gravity());
    return force > 0.0 ? rough(force / g, Kind::mass, units) : std::string("nothing");
  };
  for (const FootToSet& foot : levelling.feet) {
    std::vector<std::string> row = {foot.name, words.length(foot.out), turn_of(levelling, foot)};
    if (levelling.falls) {
      row.push_back(words.length(foot.for_floor));
      row.push_back(words.length(foot.for_load));
    }
    row.push_back(bears(foot.pressed));
    row.push_back(bears(foot.presses));
    table.add(row);
  }
  return table;
}

Page how_to_turn(const Levelling& levelling, const Words& words) {
  const auto screwed = [](const FootToSet& foot) { return foot.pitch > 0.0; };
  Page page;
  if (std::any_of(levelling.feet.begin(), levelling.feet.end(), screwed)) {
    page.line("  ",
              "Out makes the foot longer: turn the stem clockwise as seen from above. Slacken its "
              "lock nut before, tighten it after. Begin with the foot that has most to go, and "
              "take the weight off it while you turn.");
  }
  if (!std::all_of(levelling.feet.begin(), levelling.feet.end(), screwed)) {
    page.line("  ", "Pack up: put so much packing under that foot, wheel or post.");
  }
  if (levelling.falls) {
    page.line("  ",
              "For the floor: what the fall of the floor asks for, from feet that are all out "
              "alike. For the load: what feet of unlike height and the bench under its load ask "
              "for beyond that. What all feet would share is left out.");
  }
  std::string long_stems;
  for (const FootToSet& foot : levelling.feet) {
    if (foot.pitch == 0.0 || foot.out < 5e-3) continue;
    long_stems += fmt::format("{}the {} {}", long_stems.empty() ? "" : ", ", foot.name,
                              words.length(foot.stem));
  }
  if (!long_stems.empty()) {
    page.line("  ", fmt::format("Then these stand out far: {}. See that enough thread stays in the "
                                "post{}",
                                long_stems,
                                levelling.falls
                                    ? "; feet set for the fall are checked with what it asks "
                                      "for on top of the file's extension: do not add it there."
                                    : ", write the extension in the file and check again."));
  }
  return page;
}

struct LevelPlace {
  std::string name;
  bool to_back = false;  ///< the level lies across the bench
  double (*read)(const Words&, const LevelReading&) = nullptr;
};

/// Where the level is put: across a bed at both its ends, and along it.
std::vector<LevelPlace> places(const Levelling& levelling, const Words& words) {
  const auto along = [](const Words& w, const LevelReading& r) { return w.along(r); };
  const auto across = [](const Words& w, const LevelReading& r) { return w.across(r); };
  const bool across_to_back = words.along_x();
  if (levelling.machine.empty()) {
    return {{"along the top", !across_to_back, along}, {"across the top", across_to_back, across}};
  }
  return {
      {fmt::format("across the {} at its {} end", words.bed(), words.near_end()), across_to_back,
       [](const Words& w, const LevelReading& r) { return w.across(r) - 0.5 * r.twist; }},
      {fmt::format("across the {} at its {} end", words.bed(), words.far_end()), across_to_back,
       [](const Words& w, const LevelReading& r) { return w.across(r) + 0.5 * r.twist; }},
      {fmt::format("along the {}", words.bed()), !across_to_back, along}};
}

Table readings_table(const Levelling& levelling, const Words& words) {
  std::vector<std::string> head = {"the level"};
  if (levelling.falls) head.emplace_back("feet all alike");
  head.insert(head.end(), {levelling.falls ? "fall taken up" : "before", "after"});
  Table table(head, head.size());
  for (const LevelPlace& place : places(levelling, words)) {
    std::vector<std::string> row = {place.name};
    const auto add = [&](const LevelReading& r) {
      row.push_back(words.rises(place.read(words, r), place.to_back));
    };
    if (levelling.falls) add(levelling.alike);
    add(levelling.now);
    add(levelling.after);
    table.add(row);
  }
  if (!levelling.machine.empty()) {
    std::vector<std::string> row = {"twist: one end against the other"};
    if (levelling.falls) row.push_back(words.twist(levelling.alike.twist));
    row.push_back(words.twist(levelling.now.twist));
    row.push_back(words.twist(levelling.after.twist));
    table.add(row);
  }
  return table;
}

/// What one quarter turn does, or half a millimetre of packing.
Page effects(const Levelling& levelling, const Words& words) {
  const bool has_bed = !levelling.machine.empty();
  std::vector<std::string> head = {"a quarter turn out of", "left to right", "front to back"};
  if (has_bed) head.emplace_back("twist");
  Table table(head, 1);
  for (const FootToSet& foot : levelling.feet) {
    const double by = foot.pitch > 0.0 ? 0.25 * foot.pitch : 0.5e-3;
    const LevelReading r{by * foot.x, by * foot.y, by * foot.twist, 0.0, {}, {}};
    std::vector<std::string> row = {
        foot.name + (foot.pitch > 0.0 ? "" : " (" + words.length(by) + ")"),
        words.signed_slope(r.x), words.signed_slope(r.y)};
    if (has_bed) row.push_back(words.signed_slope(r.twist));
    table.add(row);
  }
  std::string signs =
      fmt::format("In {}. More than 0 rises to the right or to the back", words.slope_unit());
  if (has_bed) {
    signs +=
        fmt::format("; twist more than 0: the {} end comes to rise more to the {} than the {} end",
                    words.far_end(), words.along_x() ? "back" : "right", words.near_end());
  }
  Page page;
  page.table(std::move(table));
  page.line("  ", signs + ".");
  return page;
}

Page procedure(const Levelling& levelling, const Words& words) {
  Page page;
  const auto step = [&page](int n, const std::string& what) {
    page.line(fmt::format("  {}. ", n), what);
  };
  step(
      1,
      "Load the bench as it will stand: machines in place, what is stored put away, nobody leaning "
      "on it.");
  if (levelling.machine.empty()) {
    step(2, "Put the level on the top along the bench, then across it, and note what it reads.");
  } else {
    step(2,
         fmt::format("Put the level across the {0} at its {1} end, then at its {2} end, turned the "
                     "same way; then along the {0}. Note all three.",
                     words.bed(), words.near_end(), words.far_end()));
  }
  const bool has_threads = std::any_of(levelling.feet.begin(), levelling.feet.end(),
                                       [](const auto& foot) { return foot.pitch > 0.0; });
  step(3, fmt::format("{} the feet as above, wait until the bench is at rest, and read again.",
                      has_threads ? "Turn" : "Pack up"));
  step(4, fmt::format(
              "The level decides, not the sum: floor and joints differ from what was reckoned. "
              "Correct what is left by the table of quarter turns; two or three rounds do.{}",
              levelling.is_precise ? fmt::format(" Stop when both ends read alike to within {}.",
                                                 words.slope(levelling.good_twist))
                                   : ""));
  step(5,
       "Read it again after a month and after the first heating season: timber settles and dries.");
  return page;
}

Page remarks(const Levelling& levelling, const Words& words) {
  Page page;
  if (levelling.shims) {
    page.line(
        "  ",
        fmt::format("Shims: {} under the {} and the {} foot of the {}. Without them its {} keeps a "
                    "twist of {} at best.",
                    words.length(levelling.shims->thickness), levelling.shims->pads[0],
                    levelling.shims->pads[1], levelling.machine, words.bed(),
                    words.slope(levelling.shims->feet_alone)));
  }
  if (!levelling.machine.empty() && !levelling.is_precise) {
    page.line("  ",
              fmt::format("Only a metal lathe needs a straight bed: for the {} it is enough that "
                          "it stands about level and every foot presses.",
                          levelling.machine));
  }
  if (!levelling.why_no_bed.empty()) {
    page.line("  ", "Take note: " + levelling.why_no_bed + ".");
  }
  if (levelling.leaves_wall) {
    page.line("  ",
              "It is fixed to the wall: loosen those screws before, and tighten them after. It is "
              "reckoned without them.");
  }
  return page;
}

}  // namespace

Page page(const Levelling& levelling, const bench::Bench& bench) {
  const Words words(levelling, bench.units);
  Page page;
  page.heading("Levelling of " + bench.title);
  if (!levelling.why_none.empty()) {
    page.line("  ", "It can not be reckoned: " + levelling.why_none + ".");
    return page;
  }
  page.line("  ", answer(levelling, words));
  page.add(remarks(levelling, words));
  page.gap();
  page.table(feet_table(levelling, words, bench.units));
  if (!is_set_already(levelling)) {
    page.gap();
    page.add(how_to_turn(levelling, words));
  }
  page.heading("What the level reads");
  page.table(readings_table(levelling, words));
  page.heading("How to go about it");
  page.add(procedure(levelling, words));
  page.gap();
  page.add(effects(levelling, words));
  page.gap();
  page.line("  ",
            "A top is taken as flat and the feet as the file has them before the load comes on. A "
            "planning aid, not a certificate.");
  return page;
}

std::string text(const Levelling& levelling, const bench::Bench& bench, const Style& style) {
  return page(levelling, bench).text(static_cast<std::size_t>(style.width));
}

}  // namespace standtrue::report
