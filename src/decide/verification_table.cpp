#include <fmt/format.h>

#include "standtrue/decide/solve_case.hpp"

namespace standtrue::decide {

namespace {

using model::Expectation;
using model::FrameCase;

/// A layout with enough figures to see seven of them, in the units of the sources.
struct Layout {
  quantity::Kind kind;
  double factor;
  const char* unit;
};
constexpr Layout layouts[] = {
    {quantity::Kind::length, 1e3, " mm"},
    {quantity::Kind::area, 1e6, " mm2"},
    {quantity::Kind::second_moment, 1e12, " mm4"},
    {quantity::Kind::force, 1.0, " N"},
    {quantity::Kind::moment, 1.0, " N m"},
    {quantity::Kind::linear_stiffness, 1e-3, " N/mm"},
    {quantity::Kind::rotational_stiffness, 1.0, " N m/rad"},
    {quantity::Kind::angle, 1.0, " rad"},
    {quantity::Kind::moment_per_length, 1.0, " N m/m"},
    {quantity::Kind::line_load, 1e-3, " N/mm"},
    {quantity::Kind::speed, 1.0, " Hz"},
};

std::string figures(double si, quantity::Kind kind) {
  for (const Layout& layout : layouts) {
    if (layout.kind == kind) return fmt::format("{:.7g}{}", si * layout.factor, layout.unit);
  }
  return fmt::format("{:.7g}", si);
}

/// A bar would end the cell.
std::string cell(std::string text) {
  for (std::size_t at = text.find('|'); at != std::string::npos; at = text.find('|', at + 2)) {
    text.replace(at, 1, "\\|");
  }
  return text;
}

std::string row(const NamedCase& named, const Expectation& e, const Comparison& comparison) {
  const FrameCase& frame_case = named.frame_case;
  const std::string& source = e.source.empty() ? frame_case.source : e.source;
  std::string expected = "refusal", got = comparison.met ? "refused" : "", error, tolerance;
  if (e.of != Expectation::Of::refusal) {
    const quantity::Kind kind = model::value_kind(e, frame_case.model);
    expected = figures(e.value, kind);
    if (comparison.got) got = figures(*comparison.got, kind);
    error = comparison.is_absolute ? figures(comparison.error, kind)
                                   : fmt::format("{:.1e}", comparison.error);
    tolerance = e.within            ? fmt::format("{:.0e}", *e.within)
                : e.within_absolute ? figures(*e.within_absolute, kind)
                                    : "";
    if (!e.why.empty()) tolerance += " (" + e.why + ")";
  }
  if (!comparison.met) got += " NOT MET: " + comparison.why_not;
  return fmt::format("| {} | {} | {} | {} | {} | {} | {} |\n", cell(named.name), cell(source),
                     cell(model::describe(e, frame_case)), expected, cell(got), error,
                     cell(tolerance));
}

}  // namespace

std::string verification_table(const std::vector<NamedCase>& cases) {
  std::string table =
      "| case | source | quantity | expected | got | error | tolerance |\n"
      "|---|---|---|---|---|---|---|\n";
  for (const NamedCase& named : cases) {
    const CaseAnswers answers = solve_case(named.frame_case);
    for (std::size_t i = 0; i < answers.comparisons.size(); ++i) {
      table += row(named, named.frame_case.expectations[i], answers.comparisons[i]);
    }
  }
  return table;
}

}  // namespace standtrue::decide
