#include <algorithm>
#include <array>
#include <cmath>

#include "standtrue/check/fasteners.hpp"
#include "standtrue/contract.hpp"

// Inside the kernels: N, m, Pa. The formulas hold in any consistent units.
namespace standtrue::check {

using quantity::in_si;

namespace {

struct JohansenMode {
  char letter;
  double johansen;
  bool has_rope;
};

/// Least of the modes, each with its rope: F_ax/4, not over `limit` times its Johansen part.
template <std::size_t n>
Lateral least(const std::array<JohansenMode, n>& modes, double F_ax, double limit,
              const reference::Tables& tables) {
  const double share = tables.constant("rope share of F_ax").value;
  Lateral found;
  bool first = true;
  for (const JohansenMode& mode : modes) {
    const double rope = mode.has_rope ? std::min(share * F_ax, limit * mode.johansen) : 0.0;
    const double F = mode.johansen + rope;
    if (!first && !(F < in_si(found.F))) continue;
    found = {quantity::newtons(F), mode.letter, quantity::newtons(rope)};
    first = false;
  }
  return found;
}

}  // namespace

Lateral timber_to_timber(const TwoTimbers& joint, const reference::Tables& tables) {
  const double f_1 = in_si(joint.f_h_1), f_2 = in_si(joint.f_h_2);
  const double t_1 = in_si(joint.t_1), t_2 = in_si(joint.t_2);
  const double d = in_si(joint.d), M_y = in_si(joint.M_y), F_ax = in_si(joint.F_ax);
  expects(f_1 > 0.0 && f_2 > 0.0 && t_1 > 0.0 && t_2 > 0.0 && d > 0.0 && M_y > 0.0 && F_ax >= 0.0,
          "timber_to_timber: sizes and strengths must be positive");
  const double beta = f_2 / f_1;
  const double tau = t_2 / t_1;
  const double beta2 = beta * beta, beta3 = beta2 * beta;
  const double de = tables.constant("mode d factor").value;
  const double f = tables.constant("mode f factor").value;
  // clang-format off
  const double a = f_1 * t_1 * d;
  const double b = f_2 * t_2 * d;
  const double c = f_1 * t_1 * d / (1.0 + beta)
      * (std::sqrt(beta + 2.0 * beta2 * (1.0 + tau + tau * tau) + beta3 * tau * tau)
         - beta * (1.0 + tau));
  const double m_d = de * f_1 * t_1 * d / (2.0 + beta)
      * (std::sqrt(2.0 * beta * (1.0 + beta)
                   + 4.0 * beta * (2.0 + beta) * M_y / (f_1 * d * t_1 * t_1)) - beta);
  const double e = de * f_1 * t_2 * d / (1.0 + 2.0 * beta)
      * (std::sqrt(2.0 * beta2 * (1.0 + beta)
                   + 4.0 * beta * (1.0 + 2.0 * beta) * M_y / (f_1 * d * t_2 * t_2)) - beta);
  const double m_f = f * std::sqrt(2.0 * beta / (1.0 + beta)) * std::sqrt(2.0 * M_y * f_1 * d);
  // clang-format on
  return least(std::array{JohansenMode{'a', a, false}, JohansenMode{'b', b, false},
                          JohansenMode{'c', c, true}, JohansenMode{'d', m_d, true},
                          JohansenMode{'e', e, true}, JohansenMode{'f', m_f, true}},
               F_ax, joint.rope_limit, tables);
}

Lateral steel_to_timber(const SteelAndTimber& joint, const reference::Tables& tables) {
  const double f_h = in_si(joint.f_h), t_1 = in_si(joint.t_1), d = in_si(joint.d);
  const double M_y = in_si(joint.M_y), F_ax = in_si(joint.F_ax), plate = in_si(joint.plate);
  expects(f_h > 0.0 && t_1 > 0.0 && d > 0.0 && M_y > 0.0 && F_ax >= 0.0 && plate > 0.0 &&
              joint.d_nominal > Length{},
          "steel_to_timber: sizes and strengths must be positive");
  const Lateral thin = least(
      std::array{
          JohansenMode{'a', tables.constant("thin plate bearing").value * f_h * t_1 * d, false},
          JohansenMode{'b',
                       tables.constant("thin plate factor").value * std::sqrt(2.0 * M_y * f_h * d),
                       true}},
      F_ax, joint.rope_limit, tables);
  const double d_nominal = in_si(joint.d_nominal);
  const double thin_to = tables.constant("thin plate to").value * d_nominal;
  const double thick_from = tables.constant("thick plate from").value * d_nominal;
  if (plate <= thin_to || !joint.tight) return thin;
  const double m_c = f_h * t_1 * d * (std::sqrt(2.0 + 4.0 * M_y / (f_h * d * t_1 * t_1)) - 1.0);
  const Lateral thick = least(
      std::array{
          JohansenMode{'c', m_c, true},
          JohansenMode{'d', tables.constant("thick plate factor").value * std::sqrt(M_y * f_h * d),
                       true},
          JohansenMode{'e', f_h * t_1 * d, false}},
      F_ax, joint.rope_limit, tables);
  if (plate >= thick_from) return thick;
  const double share = (plate - thin_to) / (thick_from - thin_to);
  return {thin.F + share * (thick.F - thin.F), share < 0.5 ? thin.mode : thick.mode,
          thin.rope + share * (thick.rope - thin.rope)};
}

double effective_in_row(int n, Length a_1, Length d, bool predrilled,
                        const reference::Tables& tables) {
  expects(n >= 1 && d > Length{}, "effective_in_row: at least one fastener");
  if (n == 1) return 1.0;
  struct Point {
    double spacing, k_ef;
  };
  const std::array points = {Point{4.0, tables.constant("k_ef at 4d predrilled").value},
                             Point{7.0, tables.constant("k_ef at 7d").value},
                             Point{10.0, tables.constant("k_ef at 10d").value},
                             Point{14.0, tables.constant("k_ef at 14d").value}};
  const double spacing = in_si(a_1) / in_si(d);
  const std::size_t least_point = predrilled ? 0 : 1;
  if (!(spacing >= points[least_point].spacing)) return 1.0;
  double k_ef = points.back().k_ef;
  for (std::size_t i = least_point; i + 1 < points.size(); ++i) {
    if (spacing >= points[i + 1].spacing) continue;
    const double share =
        (spacing - points[i].spacing) / (points[i + 1].spacing - points[i].spacing);
    k_ef = points[i].k_ef + share * (points[i + 1].k_ef - points[i].k_ef);
    break;
  }
  return std::pow(static_cast<double>(n), k_ef);
}

double effective_bolts(int n, Length a_1, Length d, const reference::Tables& tables) {
  expects(n >= 1 && d > Length{}, "effective_bolts: at least one bolt");
  if (n == 1) return 1.0;  // no row
  const double spacing = in_si(a_1) / (tables.constant("n_ef bolts spacing").value * in_si(d));
  return std::min(static_cast<double>(n),
                  std::pow(n, tables.constant("n_ef bolts exponent").value) *
                      std::pow(spacing, tables.constant("n_ef bolts root").value));
}

Force splitting_resistance(Length b, Length h_e, Length h, const reference::Tables& tables) {
  const double b_mm = 1e3 * in_si(b), h_e_mm = 1e3 * in_si(h_e);
  const double share = in_si(h_e) / in_si(h);
  expects(b_mm > 0.0 && share > 0.0 && share < 1.0, "splitting_resistance: h_e must be inside h");
  return quantity::newtons(tables.constant("splitting factor").value * b_mm *
                           std::sqrt(h_e_mm / (1.0 - share)));
}

}  // namespace standtrue::check
