// All numbers SI (N, m).
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

#include "check/answered.hpp"
#include "check/fastener_units.hpp"
#include "check/printer.hpp"
#include "check/tie_answers.hpp"
#include "check/tipping_sheet.hpp"
#include "check/words.hpp"
#include "standtrue/bench/surface.hpp"
#include "standtrue/check/fasteners.hpp"
#include "standtrue/check/is_worse.hpp"
#include "standtrue/check/plates.hpp"

namespace standtrue::check {

using quantity::in_si;

namespace {

/// One screw of a seam, characteristic.
struct ScrewStrength {
  double lateral = 0.0, axial = 0.0;
  bool head_governs = false;
  std::string said;
};

OrWhy<ScrewStrength> screw_strength(const bench::Sheet& sheet, const model::Part& part,
                                    const reference::Tables& tables) {
  const bench::Screws& screws = sheet.screws;
  const reference::Screw& screw = screws.screw;
  const Length d = screw.diameter;
  const Length t_1 = sheet.panel.thickness * static_cast<double>(sheet.layers);
  const Length t_2 = screws.length - t_1;
  const Length least = tables.constant("penetration lateral").value * d;
  if (t_2 < least) {
    return tl::unexpected(fmt::format("screws {} long reach {} into the {}, {} are needed",
                                      shown(screws.length), shown(std::max(t_2, Length{})),
                                      part.name, shown(least)));
  }
  const Length thread = thread_length(screw, screws.length);
  const Length d_ef = effective_diameter(screw, screws.length - thread - t_1, tables);
  const OrWhy<Stress> in_panel =
      embedment_panel(d_ef, t_1, sheet.panel.rho_k, sheet.family.material, tables);
  if (!in_panel) return tl::unexpected(in_panel.error());
  const bool predrilled = must_predrill(d, part.timber.rho_k, tables);
  const Force head = head_pull_through(screw, sheet.panel.rho_k, tables);
  // Less the point, a diameter long.
  const OrWhy<Withdrawal> out =
      withdrawal(screw, std::min(thread, t_2) - d, part.timber.rho_k, right_angle, tables);
  const Force axial = out ? std::min(head, out->F) : Force{};
  const Lateral lateral =
      timber_to_timber({*in_panel, embedment_screw(d_ef, part.timber, predrilled, 0.0, tables), t_1,
                        t_2, d_ef, screw.M_y_k, axial, tables.constant("rope limit screws").value},
                       tables);
  ScrewStrength found{in_si(lateral.F), in_si(axial), out && head < out->F, {}};
  found.said = fmt::format("{} x {} screws: mode {}: F_v,Rk = {}, F_ax,Rk = {}{}", shown(d),
                           shown(screws.length), lateral.mode, shown(lateral.F), shown(axial),
                           found.head_governs ? " (its head pulls through)" : "");
  return found;
}

/// Force on one screw.
struct ScrewForce {
  double lateral = 0.0, pull = 0.0;  ///< pull: the sheet lifts
  double at = 0.0;                   ///< along the seam, own coordinate
};

/// The seam's forces over one screw's spacing, its middle at every tie in turn.
std::vector<ScrewForce> screws_along(const model::Plate& plate, const model::Seam& seam,
                                     const std::vector<std::array<double, 3>>& ties, double every) {
  const auto place = [&](std::size_t tie) {
    return seam.along_x ? plate.x[plate.ties[tie].i] : plate.y[plate.ties[tie].j];
  };
  // A post's screw is a seam of one tie.
  std::vector<ScrewForce> screws;
  for (std::size_t middle = seam.first; middle < seam.last; ++middle) {
    ScrewForce screw{0.0, 0.0, place(middle)};
    std::array<double, 3> sum{};
    for (std::size_t tie = seam.first; tie < seam.last; ++tie) {
      const double length = in_si(seam.lengths[tie - seam.first]);
      const double low = std::max(place(tie) - 0.5 * length, screw.at - 0.5 * every);
      const double high = std::min(place(tie) + 0.5 * length, screw.at + 0.5 * every);
      if (high <= low) continue;
      for (std::size_t k = 0; k < 3; ++k) sum[k] += ties[tie][k] * (high - low) / length;
    }
    screw.lateral = std::hypot(sum[0], sum[1]);
    screw.pull = sum[2];
    screws.push_back(screw);
  }
  return screws;
}

struct WorstScrew {
  double ratio = 0.0;
  ScrewForce screw;
  const model::Seam* seam = nullptr;
  std::size_t combination = 0;
  ScrewStrength strength;
  double k_mod = 0.0;
};

/// One plate with its screws.
struct AskedScrews {
  const Answers& answers;
  const reference::Tables& tables;
  std::size_t plate;

  [[nodiscard]] const model::Model& model() const { return answers.model; }
  [[nodiscard]] const bench::Sheet& sheet() const {
    return model().parts.bench.sheets.at(model().parts.plate_sheets.at(plate));
  }
};

OrWhy<double> k_mod_of(const AskedScrews& asked, const model::Part& part,
                       reference::Duration duration) {
  const reference::ServiceClass air = asked.model().parts.bench.air.service_class;
  const OrWhy<double> timber = k_mod(part.timber.material, air, duration, asked.tables);
  if (!timber) return timber;
  const OrWhy<double> board = k_mod(asked.sheet().family.material, air, duration, asked.tables);
  if (!board) return board;
  return std::sqrt(*timber * *board);
}

constexpr double worth_judging = 1.0;  // N of pull: less is the rounding of a seam that presses

OrWhy<WorstScrew> worst_screw(const AskedScrews& asked) {
  const model::Model& model = asked.model();
  const double gamma_M = asked.tables.constant("gamma_M connections").value;
  const double every = in_si(asked.sheet().screws.every);
  const std::vector<TieAnswer> answers = tie_answers(asked.answers, asked.plate);
  std::optional<WorstScrew> worst;
  std::string why;
  for (const model::Seam& seam : model.parts.seams) {
    if (seam.plate != asked.plate) continue;
    const model::Part& part = model.parts.parts[seam.part];
    const OrWhy<ScrewStrength> strength = screw_strength(asked.sheet(), part, asked.tables);
    if (!strength) return tl::unexpected(strength.error());
    for (const auto& [c, ties] : answers) {
      const OrWhy<double> k = k_mod_of(asked, part, model.combinations[c].duration);
      if (!k) {
        why = k.error();
        continue;
      }
      for (const ScrewForce& screw : screws_along(model.plates[asked.plate], seam, ties, every)) {
        const double pull = screw.pull > worth_judging ? screw.pull : 0.0;
        if (pull > 0.0 && !(strength->axial > 0.0)) {
          why = "screws with less than 6 d of thread in the timber have no strength against pull";
          continue;
        }
        const double pulled = pull > 0.0 ? pull / design_value(strength->axial, *k, gamma_M) : 0.0;
        const double across = screw.lateral / design_value(strength->lateral, *k, gamma_M);
        const double ratio = lies(asked.sheet()) ? pulled : combined_ratio(pulled, across);
        if (worst && !is_worse(ratio, worst->ratio)) continue;
        worst = WorstScrew{ratio, screw, &seam, c, *strength, *k};
      }
    }
  }
  if (worst && why.empty()) return *worst;
  return tl::unexpected(why.empty() ? std::string("no loads for strength") : why);
}

Finding check_screws(const AskedScrews& asked) {
  const model::Model& model = asked.model();
  const bench::Sheet& sheet = asked.sheet();
  Finding f;
  f.id = id_of("sheet-screws", sheet.name);
  f.group = Group::sheet;
  f.unit = quantity::Kind::ratio;
  // On its rails it lies with or without them, unless it reaches so far past them that it tips.
  const std::size_t place = model.parts.plate_sheets.at(asked.plate);
  const auto tipping = lies(sheet) ? sheet_tipping(model.parts, place, asked.tables) : std::nullopt;
  const bool stays_down = !tipping || tipping->ratio() <= 1.0;
  if (lies(sheet) && stays_down) f.kind = Kind::service;
  f.rule = lies(sheet) ? "EN 1995-1-1, 8.7.2, screws pulled"
                       : "EN 1995-1-1, 8.2.2, 8.3.3 and 8.7, eq. (8.28)";
  f.source = asked.tables.constant("gamma_M connections").source;
  f.place = sheet.name;
  const OrWhy<WorstScrew> worst = worst_screw(asked);
  if (!worst) {
    leave_unjudged(f, worst.error());
    f.sentence = fmt::format("The screws of the {} are not judged.", sheet.name);
    f.advice = "longer screws";
    return f;
  }
  const Printer print(model.parts.bench);
  judge_against(f, worst->ratio, 1.0);
  if (!asked.answers.words) return f;
  f.place = fmt::format(
      "{}, {} along it", worst->seam->name,
      print.length(worst->screw.at - (worst->seam->along_x ? model.plates[asked.plate].x.front()
                                                           : model.plates[asked.plate].y.front())));
  f.combination = model.combinations[worst->combination].name;
  f.sentence = fmt::format("The screws of the {} take {} their strength{}.", sheet.name,
                           share_of(f.ratio), lies(sheet) ? " against being pulled out" : "");
  f.working.push_back(worst->strength.said);
  f.working.push_back(fmt::format("one screw every {}: across {}, pulled {}; k_mod {:.2f}",
                                  print.length(in_si(sheet.screws.every)),
                                  print.force(worst->screw.lateral),
                                  print.force(std::max(worst->screw.pull, 0.0)), worst->k_mod));
  if (lies(sheet)) {
    f.working.emplace_back(
        "across themselves screws slip before they fail, and the rail then bends without the "
        "sheet: "
        "the soft bound");
  }
  if (f.judgement == Judgement::exceeded)
    f.advice = "screws closer together, or thicker and longer";
  return f;
}

/// A loose sheet is held down by its weight alone; the model holds it both ways.
std::optional<Finding> lifting(const AskedScrews& asked) {
  const model::Model& model = asked.model();
  const std::vector<TieAnswer> answers = tie_answers(asked.answers, asked.plate);
  double most = 0.0;
  std::size_t when = 0;
  for (const model::Seam& seam : model.parts.seams) {
    if (seam.plate != asked.plate) continue;
    constexpr double reach = 0.25;  // m: what a hand's breadth or two of a seam is pulled with
    for (const auto& [c, ties] : answers) {
      for (const ScrewForce& screw : screws_along(model.plates[asked.plate], seam, ties, reach)) {
        if (screw.pull <= most) continue;
        most = screw.pull;
        when = c;
      }
    }
  }
  constexpr double worth_telling = 20.0;  // N
  if (most < worth_telling) return std::nullopt;
  const Printer print(model.parts.bench);
  Finding f;
  f.id = id_of("sheet-lifts", asked.sheet().name);
  f.group = Group::sheet;
  f.kind = Kind::caution;
  f.judgement = Judgement::exceeded;
  f.rule = "pull on the seam of a loose sheet";
  f.source = {"", "a loose sheet is not held down", reference::Status::ours};
  f.place = asked.sheet().name;
  f.combination = model.combinations[when].name;
  f.sentence = fmt::format("The loose {} would lift off what carries it with {}: screw it down.",
                           asked.sheet().name, print.force(most));
  f.why = "the model holds it down; nothing else does";
  return f;
}

}  // namespace

std::vector<Finding> plate_screws(const Answers& answers, const reference::Tables& tables) {
  std::vector<Finding> findings;
  for (std::size_t p = 0; p < answers.model.parts.plate_sheets.size(); ++p) {
    const AskedScrews asked{answers, tables, p};
    if (asked.sheet().bond == bench::Bond::screwed) findings.push_back(check_screws(asked));
    if (asked.sheet().bond == bench::Bond::loose && answers.words) {
      if (std::optional<Finding> lifts = lifting(asked)) findings.push_back(std::move(*lifts));
    }
  }
  return findings;
}

}  // namespace standtrue::check
