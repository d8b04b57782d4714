// All numbers SI (N, m, Pa).
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

#include "check/answered.hpp"
#include "check/glued_seam.hpp"
#include "check/printer.hpp"
#include "check/tie_answers.hpp"
#include "check/words.hpp"
#include "standtrue/bench/surface.hpp"
#include "standtrue/check/is_worse.hpp"
#include "standtrue/check/plates.hpp"

namespace standtrue::check {

using quantity::in_si;

namespace {

struct WorstGlue {
  double ratio = 0.0;
  GlueFlow flow;
  GlueStrengths f;
  double b = 0.0, reach = 0.0;
  const model::Seam* seam = nullptr;
  std::size_t combination = 0;
};

/// One glued plate.
struct AskedGlue {
  const Answers& answers;
  const reference::Tables& tables;
  std::size_t plate;

  [[nodiscard]] const model::Model& model() const { return answers.model; }
  [[nodiscard]] const bench::Sheet& sheet() const {
    return model().parts.bench.sheets.at(model().parts.plate_sheets.at(plate));
  }
  /// What a lying sheet has on posts are screws into their ends.
  [[nodiscard]] bool is_glued(const model::Seam& seam) const {
    const bool on_post_top =
        lies(sheet()) && model().parts.parts[seam.part].role == model::Role::post;
    return seam.plate == plate && !on_post_top;
  }
};

OrWhy<WorstGlue> worst_glue(const AskedGlue& asked) {
  const model::Model& model = asked.model();
  const model::Plate& plate = model.plates[asked.plate];
  const std::vector<TieAnswer> answers = tie_answers(asked.answers, asked.plate);
  std::optional<WorstGlue> worst;
  for (const model::Seam& seam : model.parts.seams) {
    if (!asked.is_glued(seam)) continue;
    const model::Part& part = model.parts.parts[seam.part];
    const double b = glue_width(model.parts, plate, seam);
    const double reach = in_si(part.depth);
    const GlueBeyond beyond = glue_beyond(model.parts, plate, seam);
    for (const auto& [c, ties] : answers) {
      const OrWhy<GlueStrengths> f = glue_strengths(model.parts.bench, asked.sheet(), part, b,
                                                    model.combinations[c].duration, asked.tables);
      if (!f) return tl::unexpected(f.error());
      for (const GlueFlow& flow : glue_flows(plate, seam, ties, reach, beyond)) {
        const double ratio = glue_ratio(flow, b, *f);
        if (worst && !is_worse(ratio, worst->ratio)) continue;
        worst = WorstGlue{ratio, flow, *f, b, reach, &seam, c};
      }
    }
  }
  if (worst) return *worst;
  return tl::unexpected(std::string("no loads for strength"));
}

void tell_working(Finding& f, const WorstGlue& worst, const reference::Tables& tables) {
  const auto stress = [](double pascals) { return shown(quantity::pascals(pascals)); };
  const double b = worst.b, pull = std::max(worst.flow.pull, 0.0);
  f.working.push_back(fmt::format(
      "{:.1f} N/mm along, {:.1f} across, pulled {:.1f}, mean over {} of glue {} wide: {}, {}, {}",
      1e-3 * std::abs(worst.flow.along), 1e-3 * std::abs(worst.flow.across), 1e-3 * pull,
      shown(quantity::metres(worst.reach)), shown(quantity::metres(b)),
      stress(std::abs(worst.flow.along) / b), stress(std::abs(worst.flow.across) / b),
      stress(pull / b)));
  f.working.push_back(fmt::format(
      "design strengths: rolling shear of the sheet {} ({:.2f} for the width), k_mod {:.2f}; "
      "glue by hand at {:.2f} of the timber: {} along, {} across and {} pulled are the least",
      stress(worst.f.f_r), worst.f.spread, worst.f.k_mod, tables.constant("glue home share").value,
      stress(worst.f.along), stress(worst.f.across), stress(worst.f.pull)));
  f.working.emplace_back("screws beside the glue are not added to it");
}

const char* carrier_word(model::Role role) {
  return role == model::Role::bearer ? "bearer" : role == model::Role::post ? "post" : "rail";
}

Finding check_glue(const AskedGlue& asked) {
  const model::Model& model = asked.model();
  const bench::Sheet& sheet = asked.sheet();
  Finding f;
  f.id = id_of("sheet-glue", sheet.name);
  f.group = Group::sheet;
  f.unit = quantity::Kind::ratio;
  f.rule = "EN 1995-1-1, 9.1.2(6) and (7), and half of the timber's shear for glue by hand";
  f.source = sheet.panel.source.of("f_r_0_k");
  f.place = sheet.name;
  const OrWhy<WorstGlue> worst = worst_glue(asked);
  if (!worst) {
    leave_unjudged(f, worst.error());
    f.sentence = fmt::format("The glue under the {} is not judged.", sheet.name);
    return f;
  }
  judge_against(f, worst->ratio, 1.0);
  if (!asked.answers.words) return f;
  const Printer print(model.parts.bench);
  const model::Plate& plate = model.plates[asked.plate];
  f.place = fmt::format(
      "{}, {} along it", worst->seam->name,
      print.length(worst->flow.at - (worst->seam->along_x ? plate.x : plate.y).front()));
  f.combination = model.combinations[worst->combination].name;
  f.sentence = fmt::format("The glue between the {} and what carries it takes {} its strength.",
                           sheet.name, share_of(f.ratio));
  tell_working(f, *worst, asked.tables);
  if (f.judgement == Judgement::exceeded) {
    f.advice = fmt::format(
        "a wider {} to glue on, or screws in place of the glue ('fixed: screwed') "
        "on a frame that carries without help from the {}",
        carrier_word(model.parts.parts[worst->seam->part].role), sheet.name);
  }
  return f;
}

}  // namespace

std::vector<Finding> plate_glue(const Answers& answers, const reference::Tables& tables) {
  std::vector<Finding> findings;
  for (std::size_t p = 0; p < answers.model.parts.plate_sheets.size(); ++p) {
    const AskedGlue asked{answers, tables, p};
    if (asked.sheet().bond == bench::Bond::glued) findings.push_back(check_glue(asked));
  }
  return findings;
}

}  // namespace standtrue::check
