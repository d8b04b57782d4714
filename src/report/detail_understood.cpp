// What the program took the bench to be.
#include <fmt/format.h>

#include "report/layout.hpp"
#include "report/page.hpp"

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

std::string capital(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z')
    text[0] = static_cast<char>(text[0] - 'a' + 'A');
  return text;
}

std::string parts_table(const model::Parts& parts, const Style& style) {
  const quantity::UnitSystem units = parts.bench.units;
  const auto length = [units](quantity::Length l) {
    return quantity::print(in_si(l), Kind::length, units);
  };
  Table table({"part", "what", "timber", "width", "depth", "clear span"}, 3);
  for (const model::Part& part : parts.parts) {
    table.add({part.name, std::string(role_word(part.role)), part.timber.key, length(part.width),
               length(part.depth), length(part.span)});
  }
  return table.empty() ? "" : table.text(2, static_cast<std::size_t>(style.width));
}

}  // namespace

std::string detail_understood(const decide::Assessment& assessment, const Style& style) {
  const auto width = static_cast<std::size_t>(style.width);
  std::string page = heading("As I understood it");
  for (const std::string& assumption : assessment.assumptions) {
    page += wrapped("  - ", capital(sentence(assumption)), width);
  }
  if (assessment.assumptions.empty()) page += "  Nothing was assumed.\n";
  if (const auto& model = assessment.mean.idealisation.model) {
    page += "\n" + parts_table(model->parts, style);
  }
  return page;
}

}  // namespace standtrue::report
