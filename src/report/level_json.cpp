#include <nlohmann/json.hpp>

#include "report/json_parts.hpp"
#include "standtrue/report/report.hpp"

namespace standtrue::report {

namespace {

Json reading_json(const check::LevelReading& read) {
  return {{"slope_x", number(read.x)},
          {"slope_y", number(read.y)},
          {"twist", number(read.twist)},
          {"warp", number(read.warp)}};
}

Json foot(const decide::FootToSet& foot) {
  return {
      {"name", foot.name},
      {"pitch", foot.pitch > 0.0 ? Json(foot.pitch) : Json()},
      {"out", number(foot.out)},
      {"turns", foot.pitch > 0.0 ? number(foot.out / foot.pitch) : Json()},
      {"for_floor", number(foot.for_floor)},
      {"for_load", number(foot.for_load)},
      {"stem", foot.pitch > 0.0 ? number(foot.stem) : Json()},
      {"per_metre_out",
       {{"slope_x", number(foot.x)}, {"slope_y", number(foot.y)}, {"twist", number(foot.twist)}}},
      {"force_before", number(foot.pressed)},
      {"force_after", number(foot.presses)}};
}

}  // namespace

std::string json(const decide::Levelling& levelling, const std::string& file,
                 const std::string& version) {
  Json document = {{"standtrue_level", 1}, {"file", file}, {"version", version}};
  if (!levelling.why_none.empty()) {
    document["why_none"] = levelling.why_none;
    return document.dump(2) + "\n";
  }
  const bool has_bed = !levelling.machine.empty();
  document["machine"] = has_bed ? Json(levelling.machine) : Json();
  document["precise"] = levelling.is_precise;
  document["bed_along_x"] = has_bed ? Json(levelling.along_x) : Json();
  document["level"] = levelling.is_level;
  document["flat"] = levelling.is_flat;
  document["all_feet_press"] = levelling.all_press;
  document["rounds"] = levelling.rounds;
  document["feet"] = Json::array();
  for (const decide::FootToSet& f : levelling.feet) document["feet"].push_back(foot(f));
  document["readings"] = {{"feet_alike", reading_json(levelling.alike)},
                          {"before", reading_json(levelling.now)},
                          {"after", reading_json(levelling.after)}};
  document["shims"] = Json();
  if (levelling.shims) {
    document["shims"] = {{"thickness", number(levelling.shims->thickness)},
                         {"under", levelling.shims->pads},
                         {"twist_by_feet_alone", number(levelling.shims->feet_alone)}};
  }
  return document.dump(2) + "\n";
}

}  // namespace standtrue::report
