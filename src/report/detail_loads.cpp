// Load cases and combinations.
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "report/loading_text.hpp"
#include "report/pages.hpp"
#include "report/words.hpp"

namespace standtrue::report {

std::string terms_text(const std::vector<model::Factored>& terms, const model::Model& model) {
  std::string text;
  for (const model::Factored& term : terms) {
    const std::string& name = model.cases.at(term.load_case).name;
    if (text.empty()) {
      text += term.factor < 0 ? "-" : "";
    } else {
      text += term.factor < 0 ? " - " : " + ";
    }
    const double factor = term.factor < 0 ? -term.factor : term.factor;
    text += factor == 1.0 ? name : fmt::format("{:.6g} {}", factor, name);
  }
  return text;
}

namespace {

/// Some case is there for more than statics: a unit load for what swings or twists.
bool is_combined(const model::Model& model, model::CaseId place) {
  return std::any_of(
      model.combinations.begin(), model.combinations.end(), [place](const model::Combination& c) {
        return std::any_of(c.terms.begin(), c.terms.end(), [place](const model::Factored& term) {
          return term.load_case == place;
        });
      });
}

std::string_view joints_as(model::SpringSet springs) {
  constexpr std::array<std::string_view, 3> words{"sag", "sway", "sway, the top on its posts"};
  return words.at(static_cast<std::size_t>(springs));
}

Page cases_page(const model::Model& model) {
  Page page;
  for (model::CaseId place = 0; place < model.cases.size(); ++place) {
    if (!is_combined(model, place)) continue;
    const model::LoadCase& c = model.cases[place];
    std::string line = c.title.empty() ? c.name : fmt::format("{}: {}", c.name, c.title);
    if (c.self_weight) line += ", own weight";
    page.line("  - ", fmt::format("{} ({})", line, reference::to_text(c.duration)));
  }
  return page;
}

Page combinations_page(const model::Model& model) {
  Page page;
  for (const model::Combination& c : model.combinations) {
    const std::string title = c.title.empty() ? "" : " (" + c.title + ")";
    page.line("  - ", fmt::format("{}{}: {}; {}, {}, joints as for {}", c.name, title,
                                  terms_text(c.terms, model), purpose_key(c.purpose),
                                  reference::to_text(c.duration), joints_as(c.springs)));
  }
  return page;
}

}  // namespace

Page loads_page(const decide::Assessment& assessment) {
  const auto& model = assessment.mean.idealisation.model;
  Page page;
  if (!model) return page;
  page.heading("Load cases");
  page.add(cases_page(*model));
  if (!model->bodies.empty()) {
    page.line("  - ",
              "and 1 N and 1 N m each way at the middle of every machine, for how it swings and "
              "twists");
  }
  page.line("  ", "Values and partial factors with their sources: standtrue tables load");
  page.heading("Combinations");
  page.add(combinations_page(*model));
  return page;
}

}  // namespace standtrue::report
