// All numbers SI (N, m, N m).
#include "check/tipping_sheet.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "check/answered.hpp"
#include "check/printer.hpp"
#include "standtrue/bench/surface.hpp"
#include "standtrue/check/is_worse.hpp"
#include "standtrue/check/stability.hpp"

namespace standtrue::check {

using quantity::in_si;

namespace {

/// Outer corners of the rails under a sheet, and of the posts that they end on.
std::vector<PlanPoint> corners_of_carriers(const bench::Bench& bench, const bench::Sheet& sheet) {
  std::vector<PlanPoint> corners;
  for (const std::size_t r : sheet.rails) {
    const bench::Rail& rail = bench.rails.at(r);
    const double aside = in_si(rail.aside), half = 0.5 * in_si(rail.width);
    for (const std::size_t p : {rail.from, rail.to}) {
      const bench::Post& post = bench.posts.at(p);
      const double along = 0.5 * in_si(rail.along_x ? post.along_x : post.along_y);
      for (const double side : {-1.0, 1.0}) {
        for (const double end : {-1.0, 1.0}) {
          const double dx = rail.along_x ? end * along : aside + side * half;
          const double dy = rail.along_x ? aside + side * half : end * along;
          corners.push_back({in_si(post.x) + dx, in_si(post.y) + dy});
        }
      }
    }
  }
  return corners;
}

bool stands_on(const bench::Bench& bench, const model::Weight& weight, std::size_t sheet) {
  const std::string& name = bench.sheets.at(sheet).name;
  switch (weight.of) {
    case model::Weight::Of::bench:
      return weight.name == name;
    case model::Weight::Of::stored:
      return weight.name == name && is_planned(bench, weight);
    case model::Weight::Of::machine:
      return std::any_of(bench.machines.begin(), bench.machines.end(),
                         [&](const bench::Machine& machine) {
                           return machine.name == weight.name && machine.sheet == sheet;
                         });
    case model::Weight::Of::added:
      break;
  }
  return false;
}

}  // namespace

std::optional<SheetTipping> sheet_tipping(const model::Parts& parts, std::size_t sheet,
                                          const reference::Tables& tables) {
  const bench::Bench& bench = parts.bench;
  const reference::Load& self = tables.load("self weight");
  const reference::Load& machine = tables.load("machine");
  const reference::Load& stand = tables.load("stand");
  const double underside = in_si(bench.sheets.at(sheet).underside);
  std::vector<Action> persons = leaned(bench, on_corners(bench, stand), underside);
  for (Action& person : persons) person.sideways = 0.0;
  std::optional<SheetTipping> worst;
  for (const TippingEdge& edge : edges_round(corners_of_carriers(bench, bench.sheets.at(sheet)))) {
    SheetTipping about{edge, 0.0, 0.0, false};
    for (const model::Weight& weight : parts.weights) {
      if (!stands_on(bench, weight, sheet)) continue;
      const PlanPoint at =
          leaned(bench, {in_si(weight.x), in_si(weight.y)}, in_si(weight.z) - underside);
      const double moment = in_si(weight.force) * edge.inside(at.x, at.y);
      if (moment >= 0.0) {
        about.holds += self.tipping_favourable * moment;
      } else {
        const bool is_machine = weight.of == model::Weight::Of::machine;
        about.tips -= (is_machine ? machine : self).tipping * moment;
      }
    }
    double person = 0.0;
    for (const Action& action : persons) {
      if (action.by == bench.sheets.at(sheet).name) person = std::max(person, action.about(edge));
    }
    about.by_person = person > 0.0 && !(about.tips > about.holds);
    about.tips += person;
    if (!worst || is_worse(about.ratio(), worst->ratio())) worst = about;
  }
  return worst;
}

std::vector<Finding> tipping_of_sheets(const Answers& answers, const reference::Tables& tables) {
  const model::Parts& parts = answers.model.parts;
  const Printer print(parts.bench);
  std::vector<Finding> findings;
  for (std::size_t s = 0; s < parts.bench.sheets.size(); ++s) {
    const bench::Sheet& sheet = parts.bench.sheets[s];
    if (!lies(sheet) || sheet.bond != bench::Bond::loose) continue;
    const std::optional<SheetTipping> about = sheet_tipping(parts, s, tables);
    if (!about) continue;
    Finding f;
    f.id = id_of("sheet-tips", sheet.name);
    f.group = Group::sheet;
    f.kind = Kind::safety;
    f.unit = quantity::Kind::moment;
    f.rule = "EN 1990, Table A1.2(A), EQU: 0.9 G against what tips the loose sheet";
    f.source = tables.load("stand").source.of("tipping");
    judge_against(f, about->tips, std::max(about->holds, 1e-6));
    f.place = sheet.name;
    if (answers.words) {
      const std::string by =
          about->by_person ? " with somebody standing on its edge" : " by itself";
      f.sentence = f.judgement == Judgement::exceeded
                       ? fmt::format("The loose {} tips {} over what carries it{}.", sheet.name,
                                     about->edge.towards(), by)
                       : fmt::format("The loose {} stays down on what carries it.", sheet.name);
      f.working.push_back(fmt::format("over its carriers {}: {} beyond them, held by {}",
                                      about->edge.towards(), print.moment(about->tips),
                                      print.moment(about->holds)));
      if (f.judgement == Judgement::exceeded) {
        f.advice = "screw it down, or let it reach less far past its rails";
      }
    }
    findings.push_back(std::move(f));
  }
  return findings;
}

}  // namespace standtrue::check
