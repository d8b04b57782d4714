#pragma once

#include <string>

#include "standtrue/decide/solve_case.hpp"

/// The answers to one loading as tables, in mm, mrad, N and kN m, five figures. A column in which
/// nothing happens is left out; so is a row, but for the nodes and supports.
namespace standtrue::report {

[[nodiscard]] std::string node_table(const model::Model& model, const solve::State& state,
                                     std::size_t width);
[[nodiscard]] std::string support_table(const model::Model& model, const solve::State& state,
                                        std::size_t width);
[[nodiscard]] std::string end_force_table(const model::Model& model, const solve::State& state,
                                          std::size_t width);
/// Where each internal force and movement of a member is least and greatest.
[[nodiscard]] std::string extreme_table(const model::Model& model,
                                        const decide::SolvedLoading& loading, std::size_t width);

/// Where each plate moves most along its normal.
[[nodiscard]] std::string plate_table(const model::Model& model,
                                      const decide::SolvedLoading& loading, std::size_t width);

/// "0.2448337 mm": for comparing with a printed value.
[[nodiscard]] std::string seven_figures(double si, quantity::Kind kind);

}  // namespace standtrue::report
