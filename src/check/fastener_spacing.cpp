#include <algorithm>
#include <cmath>
#include <string>

#include "standtrue/check/fasteners.hpp"
#include "standtrue/contract.hpp"

namespace standtrue::check {

using quantity::in_si;

Spacings least_spacings(const reference::SpacingRule& rule, Length d, double angle, Plate plate,
                        const reference::Tables& tables) {
  expects(d > Length{}, "least_spacings: the diameter must be positive");
  const double s = std::abs(std::sin(angle)), c = std::abs(std::cos(angle));
  double closer = 1.0;
  if (plate == Plate::panel) closer = tables.constant("spacing panel to timber").value;
  if (plate == Plate::steel) closer = tables.constant("spacing steel to timber").value;
  Spacings a;
  a.a_1 = closer * (rule.a1 + rule.a1_cos * c) * d;
  a.a_2 = closer * (rule.a2 + rule.a2_sin * s) * d;
  a.a_3t = std::max((rule.a3t + rule.a3t_cos * c) * d, rule.a3t_min);
  a.a_3c = std::max(rule.a3c, rule.a3c_one + rule.a3c_sin * s) * d;
  a.a_4t = std::max(rule.a4t + rule.a4t_sin * s, rule.a4c) * d;
  a.a_4c = rule.a4c * d;
  return a;
}

const reference::SpacingRule& screw_rule(Length d, Density rho_k, bool predrilled,
                                         const reference::Tables& tables) {
  const bool thin = in_si(d) < tables.constant("thin screws under").value;
  std::string key = thin ? "screws under 5 mm" : "screws";
  if (predrilled) {
    key += ", predrilled";
  } else if (in_si(rho_k) > tables.constant("dense above").value) {
    key += ", dense";
  }
  return tables.spacing_rule(key);
}

bool must_predrill(Length d, Density rho_k, const reference::Tables& tables) {
  return in_si(d) > tables.constant("predrill above diameter").value ||
         in_si(rho_k) > tables.constant("predrill above density").value;
}

}  // namespace standtrue::check
