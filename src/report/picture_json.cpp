// A Picture as JSON: docs/picture.schema.json, version 1.
#include "standtrue/report/picture.hpp"

#include <array>

#include "report/json_parts.hpp"
#include "report/words.hpp"
#include "standtrue/bench/surface.hpp"

namespace standtrue::report {

using quantity::in_si;

namespace {

Json place_json(const decide::Place& at) { return {number(at[0]), number(at[1]), number(at[2])}; }

Json numbers_json(const std::vector<double>& values) {
  Json all = Json::array();
  for (const double value : values) all.push_back(number(value));
  return all;
}

/// Adds where the file speaks of a part, if it does.
Json written_at(Json json, const bench::WrittenParts& written, const std::string& part) {
  const auto found = written.find(part);
  if (found == written.end()) {
    json["written"] = nullptr;
    return json;
  }
  json["written"] = {{"path", found->second.path},
                     {"line", found->second.at.line},
                     {"column", found->second.at.column}};
  return json;
}

Json solids_json(const std::vector<decide::Solid>& solids, const bench::WrittenParts& written) {
  constexpr std::array<std::string_view, 6> words = {"post",  "rail",  "bearer",
                                                     "brace", "sheet", "foot"};
  Json all = Json::array();
  for (const decide::Solid& solid : solids) {
    Json corners = Json::array();
    for (const decide::Place& corner : solid.corners) corners.push_back(place_json(corner));
    const bool is_foot = solid.of == decide::Solid::Of::foot;
    all.push_back(written_at({{"of", words.at(static_cast<std::size_t>(solid.of))},
                              {"part", solid.name},
                              {"corners", std::move(corners)}},
                             written, is_foot ? "foot of " + solid.name : solid.name));
  }
  return all;
}

/// Where the flexible part of a member ends.
decide::Place end_of(const model::Model& model, model::MemberId member, bool at_end) {
  const model::Member& m = model.members.at(member);
  const model::Point& node = model.nodes.at(at_end ? m.end : m.start).at;
  const model::Point& off = at_end ? m.end_offset : m.start_offset;
  return {in_si(node.x + off.x), in_si(node.y + off.y), in_si(node.z + off.z)};
}

Json joints_json(const model::Model& model) {
  Json all = Json::array();
  const auto part = [&](model::PartId id) { return model.parts.parts.at(id).name; };
  for (const model::RailEnd& end : model.parts.rail_ends) {
    all.push_back({{"name", end.name},
                   {"part", part(end.rail)},
                   {"onto", part(end.onto)},
                   {"kind", end.joint.kind.key},
                   {"at", place_json(end_of(model, end.member, end.at_end))},
                   {"released", end.released}});
  }
  for (const model::BraceEnd& end : model.parts.brace_ends) {
    const bench::Brace& brace = model.parts.bench.braces.at(model.parts.parts.at(end.brace).source);
    all.push_back({{"name", end.name},
                   {"part", part(end.brace)},
                   {"onto", part(end.onto)},
                   {"kind", brace.joint.key},
                   {"at", place_json(end_of(model, end.member, end.at_end))},
                   {"released", false}});
  }
  return all;
}

/// `at` is the middle of its pads on the sheet, `pads` from there to the outer edges all round.
Json machines_json(const bench::Bench& bench, const bench::WrittenParts& written) {
  Json all = Json::array();
  for (const bench::Machine& m : bench.machines) {
    const bench::Sheet& sheet = bench.sheets.at(m.sheet);
    const double x = in_si(m.x), y = in_si(m.y), z = in_si(bench::surface_of(sheet));
    all.push_back(written_at({{"name", m.name},
                              {"kind", m.kind.key},
                              {"sheet", sheet.name},
                              {"mass", number(in_si(m.mass))},
                              {"at", place_json({x, y, z})},
                              {"pads_x", number(in_si(m.pads_x))},
                              {"pads_y", number(in_si(m.pads_y))},
                              {"pads", m.kind.pads},
                              {"pad", number(in_si(m.pad))},
                              {"height", number(in_si(m.kind.height))},
                              {"centre_of_mass", place_json({x + in_si(m.cg_x), y + in_si(m.cg_y),
                                                             z + in_si(m.cg_height)})},
                              {"bolted", m.bolted}},
                             written, "machine " + m.name));
  }
  return all;
}

Json feet_json(const std::vector<decide::FootPress>& feet) {
  Json all = Json::array();
  for (const decide::FootPress& foot : feet) {
    all.push_back({{"name", foot.name},
                   {"x", number(foot.x)},
                   {"y", number(foot.y)},
                   {"soft", number(foot.soft)},
                   {"mean", number(foot.mean)},
                   {"stiff", number(foot.stiff)},
                   {"most", number(foot.most)}});
  }
  return all;
}

Json lines_json(const std::vector<decide::AxisLine>& lines) {
  constexpr std::array<std::string_view, 6> words = {"post",  "rail",  "bearer",
                                                     "brace", "strip", "stem"};
  Json all = Json::array();
  for (const decide::AxisLine& line : lines) {
    Json at = Json::array(), moved = Json::array(), moment = Json::array();
    for (const decide::AxisPoint& point : line.points) {
      at.push_back(place_json(point.at));
      moved.push_back(place_json(point.moved));
      moment.push_back(place_json(point.moment));
    }
    all.push_back({{"part", line.piece},
                   {"role", words.at(static_cast<std::size_t>(line.role))},
                   {"at", std::move(at)},
                   {"moved", std::move(moved)},
                   {"moment", std::move(moment)}});
  }
  return all;
}

Json shape_json(const std::optional<decide::FrameShape>& shape) {
  if (!shape) return nullptr;
  return {{"title", shape->title},
          {"combination", shape->name},
          {"force", number(shape->force)},
          {"lines", lines_json(shape->lines)}};
}

Json fields_json(const std::vector<decide::SheetField>& fields) {
  Json all = Json::array();
  for (const decide::SheetField& field : fields) {
    all.push_back({{"sheet", field.sheet},
                   {"x", numbers_json(field.x)},
                   {"y", numbers_json(field.y)},
                   {"z", number(field.z)},
                   {"has_cell", field.has_cell},
                   {"w", numbers_json(field.w)},
                   {"M_x", numbers_json(field.M_x)},
                   {"M_y", numbers_json(field.M_y)}});
  }
  return all;
}

Json string_json(const std::optional<decide::StringLine>& string) {
  if (!string) return nullptr;
  Json below = Json::array();
  for (const auto& [x, by] : string->below) below.push_back({number(x), number(by)});
  return {{"y", number(string->y)},
          {"below", std::move(below)},
          {"most", number(string->most)},
          {"most_at", number(string->most_at)}};
}

Json swings_json(const std::vector<decide::Swing>& swings) {
  Json all = Json::array();
  for (const decide::Swing& swing : swings) {
    all.push_back({{"frequency", number(swing.frequency)},
                   {"words", swing.words},
                   {"lines", lines_json(swing.lines)},
                   {"sheets", fields_json(swing.sheets)}});
  }
  return all;
}

Json sways_json(const std::vector<decide::SwayPoint>& sways) {
  Json all = Json::array();
  for (const decide::SwayPoint& sway : sways) {
    all.push_back({{"joints", number(sway.joints)},
                   {"along", number(sway.along)},
                   {"across", number(sway.across)}});
  }
  return all;
}

}  // namespace

std::string json(const decide::Picture& picture, const decide::Assessment& assessment,
                 const bench::WrittenParts& written) {
  const bench::Bench& bench = assessment.bench;
  Json findings = Json::object();
  for (const auto& [id, at] : picture.places) findings[id] = place_json(at);
  const std::optional<model::Model>& model = assessment.mean.idealisation.model;
  const Json document = {{"standtrue_picture", 1},
                         {"length", number(in_si(bench.length))},
                         {"depth", number(in_si(bench.depth))},
                         {"height", number(in_si(bench.height))},
                         {"solids", solids_json(picture.solids, written)},
                         {"joints", model ? joints_json(*model) : Json::array()},
                         {"machines", machines_json(bench, written)},
                         {"feet", feet_json(picture.feet)},
                         {"findings", std::move(findings)},
                         {"loaded", shape_json(picture.loaded)},
                         {"bent", shape_json(picture.bent)},
                         {"pushed_along", shape_json(picture.pushed_along)},
                         {"pushed_across", shape_json(picture.pushed_across)},
                         {"sheets", fields_json(picture.sheets)},
                         {"string", string_json(picture.string)},
                         {"swings", swings_json(picture.swings)},
                         {"sways", sways_json(picture.sways)},
                         {"joint_band", number(picture.joint_band)}};
  return document.dump(-1, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace standtrue::report
