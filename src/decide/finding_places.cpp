#include "decide/finding_places.hpp"

#include <algorithm>
#include <cctype>

#include "standtrue/bench/surface.hpp"

namespace standtrue::decide {

using quantity::in_si;

namespace {

/// "Front top rail, left end" as "front-top-rail-left-end": as ids are written.
std::string as_key(const std::string& text) {
  std::string key;
  for (const char c : text) {
    const bool is_plain = std::isalnum(static_cast<unsigned char>(c)) != 0;
    if (is_plain) key += static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    if (!is_plain && !key.empty() && key.back() != '-') key += '-';
  }
  if (!key.empty() && key.back() == '-') key.pop_back();
  return key;
}

struct Named {
  std::string key;
  Place at;
};

Place end_of(const model::Model& model, std::size_t member, bool at_end) {
  const model::Member& m = model.members[member];
  const model::Point& node = model.nodes[at_end ? m.end : m.start].at;
  const model::Point& off = at_end ? m.end_offset : m.start_offset;
  return {in_si(node.x + off.x), in_si(node.y + off.y), in_si(node.z + off.z)};
}

Place middle_of(const model::Model& model, const model::Part& part) {
  const Place a = end_of(model, part.members.front(), false);
  const Place b = end_of(model, part.members.back(), true);
  return {0.5 * (a[0] + b[0]), 0.5 * (a[1] + b[1]), 0.5 * (a[2] + b[2])};
}

/// Every thing of the bench that findings speak of.
std::vector<Named> named_places(const model::Model& model) {
  const bench::Bench& bench = model.parts.bench;
  std::vector<Named> all;
  for (const model::Part& part : model.parts.parts) {
    if (!part.members.empty()) all.push_back({as_key(part.name), middle_of(model, part)});
  }
  for (const model::RailEnd& end : model.parts.rail_ends) {
    all.push_back({as_key(end.name), end_of(model, end.member, end.at_end)});
  }
  for (const model::BraceEnd& end : model.parts.brace_ends) {
    all.push_back({as_key(end.name), end_of(model, end.member, end.at_end)});
  }
  for (const bench::Sheet& sheet : bench.sheets) {
    all.push_back({as_key(sheet.name),
                   {0.5 * in_si(sheet.x0 + sheet.x1), 0.5 * in_si(sheet.y0 + sheet.y1),
                    bench::lies(sheet) ? in_si(bench::surface_of(sheet))
                                       : 0.5 * in_si(sheet.z0 + sheet.z1)}});
  }
  for (const model::RailEnd& end : model.parts.rail_ends) {
    // A hard shove loads all joints: the first that turns that way stands for them.
    const bench::Rail& rail = bench.rails[model.parts.parts[end.rail].source];
    const bool is_rail = model.parts.parts[end.rail].role == model::Role::rail;
    if (is_rail && rail.level == bench::Level::top) {
      all.push_back({rail.along_x ? "joint-sum-along" : "joint-sum-across",
                     end_of(model, end.member, end.at_end)});
    }
  }
  for (const bench::Machine& machine : bench.machines) {
    all.push_back({as_key(machine.name),
                   {in_si(machine.x), in_si(machine.y),
                    in_si(bench::surface_of(bench.sheets[machine.sheet]))}});
  }
  for (const model::FootPlace& foot : model.parts.feet) {
    const bench::Post& post = bench.posts[foot.post];
    all.push_back({as_key(foot.name), {in_si(post.foot_x), in_si(post.foot_y), 0.0}});
  }
  return all;
}

/// How high the machine that a sentence names reaches over its sheet.
double head_over(const bench::Bench& bench, const std::string& sentence) {
  for (const bench::Machine& machine : bench.machines) {
    if (sentence.find(machine.name) != sentence.npos) return in_si(machine.kind.height);
  }
  return 0.0;
}

/// As whole words: a machine called "a" is not in "frame-buckling", and one without a letter of
/// ours is nowhere.
bool holds(const std::string& text, const std::string& key) {
  return !key.empty() && ("-" + text + "-").find("-" + key + "-") != std::string::npos;
}

/// The longest name that the text holds.
const Named* longest_in(const std::vector<Named>& all, const std::string& text) {
  const Named* found = nullptr;
  for (const Named& one : all) {
    if (!holds(text, one.key)) continue;
    if (!found || one.key.size() > found->key.size()) found = &one;
  }
  return found;
}

}  // namespace

std::map<std::string, Place> finding_places(const std::vector<check::Finding>& findings,
                                            const model::Model& model) {
  const std::vector<Named> all = named_places(model);
  double top = 0.0;
  for (const bench::Post& post : model.parts.bench.posts) top = std::max(top, in_si(post.top));
  std::map<std::string, Place> places;
  for (const check::Finding& f : findings) {
    // What is shoved over is named in the sentence alone.
    const bool is_shoved = f.id == "tipping/machine-top";
    const Named* found = longest_in(all, as_key(is_shoved ? f.sentence : f.id));
    if (!found) found = longest_in(all, as_key(f.place));
    if (!found) continue;
    Place at = found->at;
    if (f.group == check::Group::sway) at[2] = top;
    if (is_shoved) at[2] += head_over(model.parts.bench, f.sentence);
    places[f.id] = at;
  }
  return places;
}

}  // namespace standtrue::decide
