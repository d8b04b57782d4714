#include "report/case_tables.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "report/end_forces.hpp"
#include "report/layout.hpp"

namespace standtrue::report {

namespace {

using model::Freedom;
using quantity::Kind;

/// How a kind is printed in a table.
struct Unit {
  Kind kind;
  double per_si;
  std::string_view text;
};
constexpr std::array table_units = {Unit{Kind::length, 1e3, "mm"}, Unit{Kind::angle, 1e3, "mrad"},
                                    Unit{Kind::force, 1.0, "N"}, Unit{Kind::moment, 1e-3, "kN m"}};

const Unit& unit_of(Kind kind) {
  return *std::find_if(table_units.begin(), table_units.end(),
                       [kind](const Unit& unit) { return unit.kind == kind; });
}

/// A column of numbers, SI, of one kind.
struct Column {
  std::string name;
  Kind kind = Kind::length;
  std::vector<double> values;
};

double largest(const std::vector<Column>& columns, Kind kind) {
  double found = 0.0;
  for (const Column& column : columns) {
    if (column.kind != kind) continue;
    for (const double value : column.values) found = std::max(found, std::abs(value));
  }
  return found;
}

/// Five figures; what is only rounding beside the largest of its kind reads as nought.
std::string figure(double si, Kind kind, double scale) {
  if (std::abs(si) <= 1e-10 * scale) return "0";
  return fmt::format("{:.5g}", si * unit_of(kind).per_si);
}

bool is_nought(const Column& column, double scale) {
  return std::all_of(column.values.begin(), column.values.end(),
                     [scale](double value) { return std::abs(value) <= 1e-10 * scale; });
}

std::string table_of(std::string first, const std::vector<std::string>& names,
                     const std::vector<Column>& columns, std::size_t width) {
  std::vector<std::string> head = {std::move(first)};
  std::vector<const Column*> shown;
  for (const Column& column : columns) {
    if (is_nought(column, largest(columns, column.kind))) continue;
    head.push_back(fmt::format("{} [{}]", column.name, unit_of(column.kind).text));
    shown.push_back(&column);
  }
  if (shown.empty() || names.empty()) return {};
  Table table(std::move(head));
  for (std::size_t row = 0; row < names.size(); ++row) {
    std::vector<std::string> cells = {names[row]};
    for (const Column* column : shown) {
      cells.push_back(figure(column->values[row], column->kind, largest(columns, column->kind)));
    }
    table.add(std::move(cells));
  }
  return "\n" + table.text(2, width);
}

std::vector<Column> end_force_columns() {
  return {{"N", Kind::force, {}},  {"V_y", Kind::force, {}},  {"V_z", Kind::force, {}},
          {"T", Kind::moment, {}}, {"M_y", Kind::moment, {}}, {"M_z", Kind::moment, {}}};
}

struct DiagramColumn {
  std::string_view name;
  Kind kind;
  solve::Diagram solve::MemberDiagrams::*diagram;
};
constexpr std::array components = {DiagramColumn{"N", Kind::force, &solve::MemberDiagrams::N},
                                   DiagramColumn{"V_y", Kind::force, &solve::MemberDiagrams::V_y},
                                   DiagramColumn{"V_z", Kind::force, &solve::MemberDiagrams::V_z},
                                   DiagramColumn{"T", Kind::moment, &solve::MemberDiagrams::T},
                                   DiagramColumn{"M_y", Kind::moment, &solve::MemberDiagrams::M_y},
                                   DiagramColumn{"M_z", Kind::moment, &solve::MemberDiagrams::M_z},
                                   DiagramColumn{"u", Kind::length, &solve::MemberDiagrams::u},
                                   DiagramColumn{"v", Kind::length, &solve::MemberDiagrams::v},
                                   DiagramColumn{"w", Kind::length, &solve::MemberDiagrams::w}};

/// Of two ends that are alike but for rounding, the start.
solve::Diagram::Extremes extremes_from_start(const solve::Diagram& diagram) {
  solve::Diagram::Extremes extremes = diagram.extremes();
  const double first = diagram.at(0.0);
  for (solve::Diagram::Place* place : {&extremes.least, &extremes.greatest}) {
    if (std::abs(place->value - first) <= 1e-12 * std::abs(first)) *place = {0.0, first};
  }
  return extremes;
}

struct OnPlate {
  double x = 0.0, y = 0.0, w = 0.0;
};

/// Of places that are alike but for rounding, the first.
OnPlate largest_w(const model::Plate& plate, const solve::PlateMovements& movements) {
  OnPlate most;
  for (std::size_t j = 0; j < plate.y.size(); ++j) {
    for (std::size_t i = 0; i < plate.x.size(); ++i) {
      const double w = movements(static_cast<Eigen::Index>(5 * plate.node(i, j) + 2), 0);
      if (std::abs(w) > (1.0 + 1e-9) * std::abs(most.w)) most = {plate.x[i], plate.y[j], w};
    }
  }
  return most;
}

}  // namespace

std::string node_table(const model::Model& model, const solve::State& state, std::size_t width) {
  std::vector<Column> columns = {{"x", Kind::length, {}}, {"y", Kind::length, {}},
                                 {"z", Kind::length, {}}, {"rx", Kind::angle, {}},
                                 {"ry", Kind::angle, {}}, {"rz", Kind::angle, {}}};
  std::vector<std::string> names;
  for (model::NodeId node = 0; node < model.nodes.size(); ++node) {
    names.push_back(model.nodes[node].name);
    for (const Freedom freedom : model::all_freedoms) {
      columns[static_cast<std::size_t>(freedom)].values.push_back(state.at(node, freedom));
    }
  }
  return table_of("node", names, columns, width);
}

std::string support_table(const model::Model& model, const solve::State& state, std::size_t width) {
  const double force = [&] {
    double found = 0.0;
    for (std::size_t s = 0; s < model.supports.size(); ++s) {
      found = std::max(found, std::abs(state.support_forces[s]));
    }
    return found;
  }();
  Table table({"support", "force", "", ""});
  for (std::size_t s = 0; s < model.supports.size(); ++s) {
    const model::Support& support = model.supports[s];
    const Kind kind = support.rotation ? Kind::moment : Kind::force;
    const bool is_open = !state.touching.at(s);
    if (!is_open && std::abs(state.support_forces[s]) <= 1e-10 * force) continue;
    table.add({support.name, figure(state.support_forces[s], kind, force),
               std::string(unit_of(kind).text), is_open ? "off the ground" : ""});
  }
  return table.empty() ? "" : "\n" + table.text(2, width);
}

std::string end_force_table(const model::Model& model, const solve::State& state,
                            std::size_t width) {
  std::vector<Column> columns = end_force_columns();
  std::vector<std::string> names;
  for (model::MemberId m = 0; m < model.members.size(); ++m) {
    for (const bool at_end : {false, true}) {
      names.push_back(model.members[m].name + (at_end ? " end" : " start"));
      const EndForces f = internal_forces(state, m, at_end);
      const std::array values = {f.N, f.V_y, f.V_z, f.T, f.M_y, f.M_z};
      for (std::size_t c = 0; c < values.size(); ++c) columns[c].values.push_back(values[c]);
    }
  }
  return table_of("member", names, columns, width);
}

std::string extreme_table(const model::Model& model, const decide::SolvedLoading& loading,
                          std::size_t width) {
  if (!loading.prepared || !loading.state) return {};
  struct Row {
    std::string member;
    const DiagramColumn* component;
    solve::Diagram::Extremes extremes;
  };
  std::vector<Row> rows;
  std::array<double, components.size()> scale{};
  for (model::MemberId m = 0; m < model.members.size(); ++m) {
    const solve::MemberDiagrams diagrams =
        solve::diagrams(*loading.prepared, m, loading.loading, *loading.state);
    for (std::size_t c = 0; c < components.size(); ++c) {
      rows.push_back({model.members[m].name, &components[c],
                      extremes_from_start(diagrams.*components[c].diagram)});
      for (std::size_t k = 0; k < components.size(); ++k) {
        if (components[k].kind != components[c].kind) continue;
        scale[k] = std::max(scale[k], std::abs(rows.back().extremes.largest_magnitude().value));
      }
    }
  }
  Table table({"member", "", "least", "at [mm]", "greatest", "at [mm]", ""}, 2);
  std::string last;
  for (const Row& row : rows) {
    const double largest = scale[static_cast<std::size_t>(row.component - components.data())];
    if (std::abs(row.extremes.largest_magnitude().value) <= 1e-10 * largest) continue;
    const auto& [least, greatest] = row.extremes;
    table.add(
        {row.member == last ? "" : row.member, std::string(row.component->name),
         figure(least.value, row.component->kind, largest), fmt::format("{:.5g}", least.x * 1e3),
         figure(greatest.value, row.component->kind, largest),
         fmt::format("{:.5g}", greatest.x * 1e3), std::string(unit_of(row.component->kind).text)});
    last = row.member;
  }
  return table.empty() ? "" : "\n" + table.text(2, width);
}

std::string plate_table(const model::Model& model, const decide::SolvedLoading& loading,
                        std::size_t width) {
  Table table({"plate", "largest w [mm]", "at x [mm]", "at y [mm]"});
  for (std::size_t p = 0; p < loading.plates.size(); ++p) {
    const OnPlate most = largest_w(model.plates[p], loading.plates[p]);
    if (most.w == 0.0) continue;
    const auto length = [](double si) { return figure(si, Kind::length, 0.0); };
    table.add({model.plates[p].name, length(most.w), length(most.x), length(most.y)});
  }
  return table.empty() ? "" : "\n" + table.text(2, width);
}

std::string seven_figures(double si, Kind kind) {
  struct Long {
    Kind kind;
    double per_si;
    std::string_view unit;
  };
  constexpr std::array units = {Long{Kind::length, 1e3, " mm"},
                                Long{Kind::area, 1e6, " mm2"},
                                Long{Kind::second_moment, 1e12, " mm4"},
                                Long{Kind::force, 1.0, " N"},
                                Long{Kind::moment, 1.0, " N m"},
                                Long{Kind::linear_stiffness, 1e-3, " N/mm"},
                                Long{Kind::rotational_stiffness, 1.0, " N m/rad"},
                                Long{Kind::angle, 1.0, " rad"},
                                Long{Kind::moment_per_length, 1.0, " N m/m"},
                                Long{Kind::line_load, 1e-3, " N/mm"}};
  for (const Long& unit : units) {
    if (unit.kind == kind) return fmt::format("{:.7g}{}", si * unit.per_si, unit.unit);
  }
  return fmt::format("{:.7g}", si);
}

}  // namespace standtrue::report
