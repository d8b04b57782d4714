#include "standtrue/model/stiffness_divisor.hpp"

namespace standtrue::model {

reference::Sourced<double> stiffness_divisor(const Parts& parts, const reference::Tables& tables) {
  reference::Sourced<double> most;
  most.value = 1.0;
  for (const Part& part : parts.parts) {
    if (part.role != Role::post && part.role != Role::rail) continue;
    const reference::Sourced<double>& gamma = tables.material(part.timber.material).gamma_M;
    if (gamma.value > most.value) most = gamma;
  }
  return most;
}

}  // namespace standtrue::model
