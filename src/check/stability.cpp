#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "check/each_part.hpp"
#include "check/held.hpp"
#include "check/laps.hpp"
#include "check/worst.hpp"
#include "standtrue/check/members.hpp"
#include "standtrue/check/strength.hpp"
#include "standtrue/contract.hpp"

namespace standtrue::check {

using quantity::in_si;
using std::numbers::pi;

double relative_slenderness(Length L_ef, Length side, Stress f_c_0_k, Stress E_0_05) {
  expects(side > Length{} && E_0_05 > Stress{},
          "relative_slenderness: side and E must be positive");
  const double lambda = in_si(L_ef) * std::sqrt(12.0) / in_si(side);
  return lambda / pi * std::sqrt(in_si(f_c_0_k) / in_si(E_0_05));
}

double buckling_factor(double lambda_rel, double beta_c, const reference::Tables& tables) {
  const double free = tables.constant("lambda_rel free").value;
  if (lambda_rel <= free) return 1.0;
  const double k = 0.5 * (1.0 + beta_c * (lambda_rel - free) + lambda_rel * lambda_rel);
  return 1.0 / (k + std::sqrt(k * k - lambda_rel * lambda_rel));
}

AboutAxes<std::optional<double>> buckling_factors(AboutAxes<double> lambda_rel, double beta_c,
                                                  const reference::Tables& tables) {
  const double free = tables.constant("lambda_rel free").value;
  if (lambda_rel.y <= free && lambda_rel.z <= free) return {};
  return {buckling_factor(lambda_rel.y, beta_c, tables),
          buckling_factor(lambda_rel.z, beta_c, tables)};
}

double column_ratio(AboutAxes<Stress> sigma_m, Stress sigma_c, const Strengths& f,
                    AboutAxes<std::optional<double>> k_c) {
  if (!k_c.y || !k_c.z) return bending_compression_ratio(sigma_m, sigma_c, f);
  expects(f.f_m.y > Stress{} && f.f_m.z > Stress{} && f.f_c_0 > Stress{},
          "column_ratio: strengths must be positive");
  const double pressed = std::abs(in_si(sigma_c)) / in_si(f.f_c_0);
  const double about_y = std::abs(in_si(sigma_m.y)) / in_si(f.f_m.y);
  const double about_z = std::abs(in_si(sigma_m.z)) / in_si(f.f_m.z);
  return std::max(pressed / *k_c.y + about_y + f.k_m * about_z,
                  pressed / *k_c.z + f.k_m * about_y + about_z);
}

Stress critical_bending_stress(const reference::Timber& timber, Length width, Length depth,
                               SecondMoment J, Length l_ef, const reference::Tables& tables) {
  expects(width > Length{} && depth > Length{} && l_ef > Length{},
          "critical_bending_stress: sides and length must be positive");
  const double b = in_si(width), h = in_si(depth), E_0_05 = in_si(timber.E_0_05);
  if (timber.species == reference::Species::softwood &&
      timber.material == reference::Material::solid_timber) {
    return quantity::pascals(tables.constant("sigma_m_crit softwood").value * b * b * E_0_05 /
                             (h * in_si(l_ef)));
  }
  const double G_0_05 = E_0_05 / tables.constant("G divisor").value;
  const double I_z = h * b * b * b / 12.0;
  const double W_y = b * h * h / 6.0;
  return quantity::pascals(pi * std::sqrt(E_0_05 * I_z * G_0_05 * in_si(J)) / (in_si(l_ef) * W_y));
}

double k_crit(double lambda_rel_m, const reference::Tables& tables) {
  if (lambda_rel_m <= tables.constant("k_crit full to").value) return 1.0;
  if (lambda_rel_m <= tables.constant("k_crit middle to").value) {
    return tables.constant("k_crit intercept").value -
           tables.constant("k_crit slope").value * lambda_rel_m;
  }
  return 1.0 / (lambda_rel_m * lambda_rel_m);
}

namespace {

struct Column {
  Length L;  ///< whose multiples are the effective lengths
  AboutAxes<double> factor;
  AboutAxes<double> lambda_rel;
  std::string said;  ///< why these factors
};

Length length_of(const model::Model& model, const model::Part& part) {
  Length L{};
  for (const model::MemberId m : part.members) {
    L += model::member_frame(model, model.members[m]).length;
  }
  return L;
}

AboutAxes<double> slenderness(const model::Part& part, Length L, AboutAxes<double> factor) {
  const reference::Timber& t = part.timber;
  return {relative_slenderness(factor.y * L, part.depth, t.f_c_0_k, t.E_0_05),
          relative_slenderness(factor.z * L, part.width, t.f_c_0_k, t.E_0_05)};
}

Column column_of(const Answers& answers, const model::Part& part, const reference::Tables& tables) {
  const model::Model& model = answers.model;
  const double sway = tables.constant("effective length sway").value;
  const double held = tables.constant("effective length held").value;
  Column column;
  if (part.role == model::Role::brace) {
    column.L = length_of(model, part);
    column.factor = {held, held};
    column.said = "a brace is taken as pinned at both ends";
  } else {
    column.L = height_of(model, part);
    const bool y_bends_along = bends_along_x(model, part);  // about local y
    const Held is_held = held_planes(model, part);
    const auto factor = [&](bool along_x) {
      return (along_x ? is_held.along : is_held.across) ? held : sway;
    };
    column.factor = {factor(y_bends_along), factor(!y_bends_along)};
    if (answers.response.second_order) {
      column.factor = {held, held};
      column.lambda_rel = slenderness(part, column.L, column.factor);
      column.said = "its sway is in the moments, by second order: held at both ends between";
      return column;
    }
    column.said = fmt::format("first order: along {}; across {}", held_word(model, is_held.along),
                              held_word(model, is_held.across));
  }
  column.lambda_rel = slenderness(part, column.L, column.factor);
  return column;
}

AboutAxes<Stress> bent(const Station& s, const model::Part& part) {
  return bending_stress({s.M_y, s.M_z}, part.width, part.depth);
}
Stress pressed(const Station& s, const model::Part& part) {
  return s.N >= Force{} ? Stress{} : -s.N / (part.width * part.depth);  // keeps a NaN
}

/// `part`: with the sides that it has there.
void tell_column(Finding& finding, const model::Part& part, const Worst& worst,
                 const Column& column, const reference::Tables& tables) {
  const Strengths& f = worst.f;
  const AboutAxes<Stress> sigma_m = bent(worst.station, part);
  finding.working.push_back(fmt::format("effective length {} x {} about y, {} x {} about z: {}",
                                        column.factor.y, shown(column.L), column.factor.z,
                                        shown(column.L), column.said));
  finding.working.push_back(
      fmt::format("lambda_rel,y = {:.2f}, lambda_rel,z = {:.2f}, k_c,y = {:.3f}, k_c,z = {:.3f}",
                  column.lambda_rel.y, column.lambda_rel.z,
                  buckling_factor(column.lambda_rel.y, f.beta_c, tables),
                  buckling_factor(column.lambda_rel.z, f.beta_c, tables)));
  finding.working.push_back(
      fmt::format("sigma_c,0 = {}, f_c,0,d = {}; sigma_m,y = {}, f_m,y,d = {}; sigma_m,z = {}, "
                  "f_m,z,d = {}; k_m = {}",
                  shown(pressed(worst.station, part)), shown(f.f_c_0), shown(sigma_m.y),
                  shown(f.f_m.y), shown(sigma_m.z), shown(f.f_m.z), f.k_m));
}

Finding column_finding(const Answers& answers, const SectionForces& forces, const model::Part& part,
                       const reference::Tables& tables) {
  Finding finding = about(part, "buckling", "EN 1995-1-1, 6.3.2, eq. (6.21) to (6.28)",
                          source_of(part, "f_c_0_k"));
  finding.sentence = fmt::format("Whether the {} buckles is not judged.", part.name);
  const Column column = column_of(answers, part, tables);
  const AboutAxes<std::optional<double>> k_c = buckling_factors(
      column.lambda_rel, tables.material(part.timber.material).beta_c.value, tables);
  const Laps laps(answers.model, part);
  const auto ratio = [&](const Station& s, const model::Part& there, const Strengths& f) {
    return column_ratio(bent(s, there), pressed(s, there), f, k_c);
  };
  const OrWhy<std::optional<Worst>> worst =
      worst_of(answers, forces, part, tables,
               [&](const model::Member& member, const Station& s, const Strengths& f) {
                 return laps.none() ? ratio(s, part, f) : ratio(s, laps.left(member, s), f);
               });
  if (!tell_worst(finding, answers, part, worst)) return finding;
  const model::Part there =
      laps.left(answers.model.members.at((*worst)->member), (*worst)->station);
  tell_column(finding, there, **worst, column, tables);
  const bool is_cut = tell_left(finding, part, there);
  if (finding.judgement == Judgement::not_judged) return finding;
  finding.sentence = fmt::format("The {} is pressed and bent to {} what makes it buckle.",
                                 part.name, share_of(finding.ratio));
  if (finding.judgement == Judgement::exceeded) {
    finding.advice = part.role == model::Role::brace ? "a thicker brace, or a cross of two"
                     : is_cut                        ? cure_of_laps(part)
                              : "a diagonal in that plane, or a thicker post";
  }
  return finding;
}

}  // namespace

std::vector<Finding> column_stability(const Answers& answers, const SectionForces& forces,
                                      const reference::Tables& tables) {
  return each_part(answers, is_column, [&](const model::Part& part, model::PartId) {
    return column_finding(answers, forces, part, tables);
  });
}

}  // namespace standtrue::check
