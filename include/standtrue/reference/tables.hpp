#pragma once

#include <array>
#include <string>
#include <string_view>
#include <vector>

#include "standtrue/quantity/quantity.hpp"
#include "standtrue/reference/factors.hpp"
#include "standtrue/reference/fastener.hpp"
#include "standtrue/reference/foot.hpp"
#include "standtrue/reference/joint.hpp"
#include "standtrue/reference/limit.hpp"
#include "standtrue/reference/load.hpp"
#include "standtrue/reference/machine.hpp"
#include "standtrue/reference/panel.hpp"
#include "standtrue/reference/section.hpp"
#include "standtrue/reference/source.hpp"
#include "standtrue/reference/timber.hpp"

namespace standtrue::reference {

/// One record for a list: `values` reads "f_m_k 16 N/mm2, f_t_0_k 8.5 N/mm2, ...".
struct Row {
  std::string group;  ///< "timber"
  std::string key;    ///< "C16"
  std::string values;
  std::string source;              ///< as citation(), several joined by "; "
  std::array<int, 5> by_status{};  ///< how many of its numbers have each Status
};

/// All records. Look-ups take a key or any other name of the thing, in any case and spacing, and
/// answer nullptr when nothing is known by it. Pointers live as long as the Tables and do not
/// survive a change of them.
struct Tables {
  std::vector<SourceRecord> sources;
  std::vector<Timber> timbers;
  std::vector<Scatter> scatters;
  std::vector<Correlation> correlations;
  std::vector<PanelFamily> panel_families;
  std::vector<Panel> panels;
  std::vector<VeneerValues> veneers;
  std::vector<SheetSize> sheet_sizes;
  std::vector<Section> sections;
  std::vector<Tolerance> tolerances;
  std::vector<StockLength> stock_lengths;
  std::vector<Screw> screws;
  std::vector<Bolt> bolts;
  std::vector<Steel> steels;
  std::vector<JointKind> joint_kinds;
  std::vector<Foot> feet;
  std::vector<Castor> castors;
  std::vector<Floor> floors;
  std::vector<Machine> machines;
  std::vector<Duty> duties;
  std::vector<Air> airs;
  std::vector<MaterialFactors> materials;
  std::vector<BearingFactor> bearing_factors;
  std::vector<CombinationFactors> combinations;
  std::vector<SpacingRule> spacing_rules;
  std::vector<Constant> constants;
  std::vector<Load> loads;
  Limits limits;
  std::vector<Row> rows;  ///< what listing() answers

  [[nodiscard]] const Timber* timber(std::string_view name) const;
  [[nodiscard]] const PanelFamily* panel_family(std::string_view name) const;
  /// The sheet of that family whose nominal thickness is within 0.3 mm.
  [[nodiscard]] const Panel* panel(std::string_view family, quantity::Length nominal) const;
  /// The nominal thicknesses of a family, rising; empty if it is unknown.
  [[nodiscard]] std::vector<quantity::Length> panel_thicknesses(std::string_view family) const;
  [[nodiscard]] const VeneerValues* veneer(std::string_view name) const;
  [[nodiscard]] const Section* section(std::string_view name) const;
  [[nodiscard]] const Screw* screw(quantity::Length diameter) const;  ///< within 0.05 mm
  [[nodiscard]] const Bolt* bolt(std::string_view thread) const;
  [[nodiscard]] const Bolt* bolt(quantity::Length diameter) const;
  [[nodiscard]] const Steel* steel(std::string_view name) const;
  [[nodiscard]] const JointKind* joint_kind(std::string_view name) const;
  [[nodiscard]] const Foot* foot(std::string_view thread) const;
  [[nodiscard]] const Castor* castor(quantity::Length wheel) const;
  [[nodiscard]] const Floor* floor(std::string_view surface) const;
  [[nodiscard]] const Machine* machine(std::string_view kind) const;
  [[nodiscard]] const Duty* duty(std::string_view name) const;
  [[nodiscard]] const Air* air(std::string_view name) const;
  [[nodiscard]] const SourceRecord* source(std::string_view key) const;

  // These are asked for by the program and not by a file: a missing one is our fault and throws.
  [[nodiscard]] const MaterialFactors& material(Material material) const;
  [[nodiscard]] const BearingFactor& bearing_factor(std::string_view key) const;
  [[nodiscard]] const CombinationFactors& combination(std::string_view key) const;
  [[nodiscard]] const SpacingRule& spacing_rule(std::string_view key) const;
  [[nodiscard]] const Constant& constant(std::string_view key) const;
  [[nodiscard]] const Load& load(std::string_view key) const;
  [[nodiscard]] const Scatter& scatter(std::string_view key) const;
  [[nodiscard]] const Correlation& correlation(std::string_view key) const;

  // Every word that a look-up understands, for offering the nearest.
  [[nodiscard]] std::vector<std::string> timber_names() const;
  [[nodiscard]] std::vector<std::string> panel_names() const;
  [[nodiscard]] std::vector<std::string> section_names() const;
  [[nodiscard]] std::vector<std::string> joint_names() const;
  [[nodiscard]] std::vector<std::string> foot_names() const;
  [[nodiscard]] std::vector<std::string> floor_names() const;
  [[nodiscard]] std::vector<std::string> machine_names() const;
  [[nodiscard]] std::vector<std::string> duty_names() const;
  [[nodiscard]] std::vector<std::string> air_names() const;
};

/// The records embedded in the program. Throws std::logic_error with the place and the fault if
/// they are not well formed: that is a bug of ours.
[[nodiscard]] Tables load_tables();

/// Every record in the order of the files.
[[nodiscard]] const std::vector<Row>& listing(const Tables& tables);

}  // namespace standtrue::reference
