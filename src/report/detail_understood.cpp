// What the program took the bench to be.
#include <fmt/format.h>

#include "report/pages.hpp"
#include "report/words.hpp"

namespace standtrue::report {

namespace {

using quantity::in_si;
using quantity::Kind;

std::string_view role_word(model::Role role) {
  switch (role) {
    case model::Role::post:
      return "post";
    case model::Role::rail:
      return "rail";
    case model::Role::bearer:
      return "bearer";
    case model::Role::brace:
      return "brace";
    case model::Role::strip:
      return "strip of a sheet";
    case model::Role::stem:
      return "stem of a foot";
  }
  return "";
}

Table parts_table(const model::Parts& parts) {
  const quantity::UnitSystem units = parts.bench.units;
  const auto length = [units](quantity::Length l) {
    return quantity::print(in_si(l), Kind::length, units);
  };
  Table table({"part", "what", "timber", "width", "depth", "clear span"}, 3);
  for (const model::Part& part : parts.parts) {
    table.add({part.name, std::string(role_word(part.role)), part.timber.key, length(part.width),
               length(part.depth), length(part.span)});
  }
  return table;
}

}  // namespace

Page understood_page(const decide::Assessment& assessment) {
  Page page;
  page.heading("As I understood it");
  for (const std::string& assumption : assessment.assumptions) {
    page.line("  - ", capital(sentence(assumption)));
  }
  if (assessment.assumptions.empty()) page.line("  ", "Nothing was assumed.");
  if (const auto& model = assessment.mean.idealisation.model) {
    page.gap();
    Table table = parts_table(model->parts);
    if (!table.empty()) page.table(std::move(table));
  }
  return page;
}

}  // namespace standtrue::report
