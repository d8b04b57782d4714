#pragma once

#include "reference/record.hpp"
#include "standtrue/reference/tables.hpp"

/// One reader per group of records: puts the row into its place among the tables.
namespace standtrue::reference {

void read_source_record(const Record& r, Tables& out);
void read_timber(const Record& r, Tables& out);
/// Wants the constants and scatters, which its values for joints come from.
void read_visual_grade(const Record& r, Tables& out);
void read_scatter(const Record& r, Tables& out);
void read_correlation(const Record& r, Tables& out);
void read_section(const Record& r, Tables& out);
void read_tolerance(const Record& r, Tables& out);
void read_stock_length(const Record& r, Tables& out);
void read_sheet_size(const Record& r, Tables& out);
void read_panel_family(const Record& r, Tables& out);
void read_veneer(const Record& r, Tables& out);
void read_panel(const Record& r, Tables& out);
void read_screw(const Record& r, Tables& out);
void read_bolt(const Record& r, Tables& out);
void read_steel(const Record& r, Tables& out);
void read_joint(const Record& r, Tables& out);
void read_foot(const Record& r, Tables& out);
void read_castor(const Record& r, Tables& out);
void read_floor(const Record& r, Tables& out);
void read_machine(const Record& r, Tables& out);
void read_duty(const Record& r, Tables& out);
void read_limit(const Record& r, Tables& out);
void read_load(const Record& r, Tables& out);
void read_material(const Record& r, Tables& out);
void read_k_def(const Record& r, Tables& out);
void read_k_mod(const Record& r, Tables& out);
void read_bearing_factor(const Record& r, Tables& out);
void read_combination(const Record& r, Tables& out);
void read_air(const Record& r, Tables& out);
void read_spacing_rule(const Record& r, Tables& out);
void read_constant(const Record& r, Tables& out);
/// After the duties, whose keys are its columns.
void read_table_test(const Record& r, Tables& out);

[[nodiscard]] inline quantity::Length length(const Record& r, std::string_view column) {
  return r.read<quantity::Length>(column, quantity::Kind::length);
}
[[nodiscard]] inline quantity::Stress stress(const Record& r, std::string_view column) {
  return r.read<quantity::Stress>(column, quantity::Kind::stress);
}
/// The material that a cell of that column names.
[[nodiscard]] Material material_in(const Record& r, std::string_view column);
/// 1, 2 or 3.
[[nodiscard]] ServiceClass service_class_in(const Record& r, std::string_view column);

}  // namespace standtrue::reference
