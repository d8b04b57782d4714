#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "check/each_part.hpp"
#include "check/laps.hpp"
#include "check/worst.hpp"
#include "standtrue/check/members.hpp"
#include "standtrue/check/strength.hpp"
#include "standtrue/contract.hpp"

namespace standtrue::check {

using quantity::in_si;

namespace {

Stress size_of(Stress s) { return s < Stress{} ? -s : s; }

}  // namespace

AboutAxes<Stress> bending_stress(AboutAxes<Moment> M, Length width, Length depth) {
  expects(width > Length{} && depth > Length{}, "bending_stress: sides must be positive");
  const auto b = width, h = depth;
  return {6.0 * M.y / (b * h * h), 6.0 * M.z / (h * b * b)};
}

double bending_ratio(AboutAxes<Stress> sigma_m, AboutAxes<Stress> f_m, double k_m) {
  expects(f_m.y > Stress{} && f_m.z > Stress{}, "bending_ratio: strengths must be positive");
  const double about_y = size_of(sigma_m.y) / f_m.y;
  const double about_z = size_of(sigma_m.z) / f_m.z;
  return std::max(about_y + k_m * about_z, k_m * about_y + about_z);
}

double bending_tension_ratio(AboutAxes<Stress> sigma_m, Stress sigma_t, const Strengths& f) {
  expects(f.f_t_0 > Stress{}, "bending_tension_ratio: the strength must be positive");
  return size_of(sigma_t) / f.f_t_0 + bending_ratio(sigma_m, f.f_m, f.k_m);
}

double bending_compression_ratio(AboutAxes<Stress> sigma_m, Stress sigma_c, const Strengths& f) {
  expects(f.f_c_0 > Stress{}, "bending_compression_ratio: the strength must be positive");
  const double along = sigma_c / f.f_c_0;
  return along * along + bending_ratio(sigma_m, f.f_m, f.k_m);
}

namespace {

/// Stresses of a cut; sigma_N > 0 is tension.
struct Normal {
  AboutAxes<Stress> sigma_m;
  Stress sigma_N;
};

Normal normal_stress(const Station& s, const model::Part& part) {
  return {bending_stress({s.M_y, s.M_z}, part.width, part.depth), s.N / (part.width * part.depth)};
}

double normal_ratio(const Normal& s, const Strengths& f) {
  return s.sigma_N < Stress{} ? bending_compression_ratio(s.sigma_m, s.sigma_N, f)
                              : bending_tension_ratio(s.sigma_m, s.sigma_N, f);
}

/// `part`: with the sides that it has there.
void tell_bending(Finding& finding, const model::Part& part, const Worst& worst) {
  const Normal s = normal_stress(worst.station, part);
  const Strengths& f = worst.f;
  finding.working.push_back(fmt::format(
      "sigma_m,y = 6 M_y/(b h^2) = {}, f_m,y,d = k_h k_mod f_m,k/gamma_M = {:.3f} x {} x {} / {} = "
      "{}",
      shown(s.sigma_m.y), f.k_h.y, f.k_mod, shown(part.timber.f_m_k), f.gamma_M, shown(f.f_m.y)));
  finding.working.push_back(
      fmt::format("sigma_m,z = 6 M_z/(h b^2) = {}, f_m,z,d = {} (k_h = {:.3f})", shown(s.sigma_m.z),
                  shown(f.f_m.z), f.k_h.z));
  if (s.sigma_N < Stress{}) {
    finding.working.push_back(
        fmt::format("sigma_c,0 = {}, f_c,0,d = {}", shown(-s.sigma_N), shown(f.f_c_0)));
    finding.working.push_back(
        fmt::format("(6.19), (6.20): (sigma_c/f_c)^2 + sigma_my/f_my + k_m sigma_mz/f_mz, k_m = {} "
                    "on the lesser: "
                    "{:.3f}",
                    f.k_m, worst.ratio));
  } else {
    finding.working.push_back(fmt::format("sigma_t,0 = {}, f_t,0,d = {} (k_h = {:.3f})",
                                          shown(s.sigma_N), shown(f.f_t_0), f.k_h_tension));
    finding.working.push_back(fmt::format(
        "(6.17), (6.18): sigma_t/f_t + sigma_my/f_my + k_m sigma_mz/f_mz, k_m = {} on the lesser: "
        "{:.3f}",
        f.k_m, worst.ratio));
  }
}

Finding bending_of(const Answers& answers, const SectionForces& forces, const model::Part& part,
                   const reference::Tables& tables) {
  Finding finding =
      about(part, "bending", "EN 1995-1-1, 6.1.6, 6.2.3 and 6.2.4, eq. (6.11) to (6.20)",
            source_of(part, "f_m_k"));
  finding.sentence = fmt::format("Whether the {} stands its bending is not judged.", part.name);
  const Laps laps(answers.model, part);
  const OrWhy<std::optional<Worst>> worst = worst_of(
      answers, forces, part, tables,
      [&](const model::Member& member, const Station& s, const Strengths& f) {
        return normal_ratio(
            laps.none() ? normal_stress(s, part) : normal_stress(s, laps.left(member, s)), f);
      });
  if (!tell_worst(finding, answers, part, worst)) return finding;
  const model::Part there =
      laps.left(answers.model.members.at((*worst)->member), (*worst)->station);
  tell_bending(finding, there, **worst);
  const bool is_cut = tell_left(finding, part, there);
  if (finding.judgement == Judgement::not_judged) return finding;
  finding.sentence =
      fmt::format("The {} is bent to {} its strength.", part.name, share_of(finding.ratio));
  if (finding.judgement == Judgement::exceeded) {
    finding.advice = is_cut ? cure_of_laps(part)
                            : fmt::format("a deeper {}, a shorter span, or less on it", part.name);
  }
  return finding;
}

}  // namespace

std::vector<Finding> bending(const Answers& answers, const SectionForces& forces,
                             const reference::Tables& tables) {
  return each_part(answers, is_timber_member, [&](const model::Part& part, model::PartId) {
    return bending_of(answers, forces, part, tables);
  });
}

}  // namespace standtrue::check
