#pragma once

#include "standtrue/quantity/quantity.hpp"
#include "standtrue/reference/tables.hpp"

/// Slip of single fasteners, mean values for service; N/m.
namespace standtrue::model {

/// Across the fastener, per shear plane: K_ser = ρ_m^1.5 d / 23 (ρ_m in kg/m³, d in mm), twice that
/// where one side is steel. Two timbers: pass the root of the product of their mean densities.
/// Source (second hand): EN 1995-1-1, Table 7.1, screws and bolts.
/// Source (second hand): EN 1995-1-1, 7.1, eq. (7.1) and 7.1(3).
[[nodiscard]] double lateral_slip(const reference::Tables& tables, quantity::Density rho_mean,
                                  quantity::Length diameter, bool to_steel);

/// Along a screw: K_ax = 780 d^0.2 l_ef^0.4 (N/mm, mm), l_ef the thread in the timber.
/// Source (from memory): Approvals of self-tapping screws, K_ax.
[[nodiscard]] double axial_slip(const reference::Tables& tables, quantity::Length diameter,
                                quantity::Length thread_in_timber);

[[nodiscard]] quantity::Density mean_of(quantity::Density a, quantity::Density b);

}  // namespace standtrue::model
