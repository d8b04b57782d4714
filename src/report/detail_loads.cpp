// Load cases and combinations.
#include <fmt/format.h>

#include <algorithm>

#include "report/layout.hpp"
#include "report/loading_text.hpp"
#include "report/page.hpp"
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

std::string cases_text(const model::Model& model, std::size_t width) {
  std::string text;
  for (model::CaseId place = 0; place < model.cases.size(); ++place) {
    if (!is_combined(model, place)) continue;
    const model::LoadCase& c = model.cases[place];
    std::string line = c.title.empty() ? c.name : fmt::format("{}: {}", c.name, c.title);
    if (c.self_weight) line += ", own weight";
    text += wrapped("  - ", fmt::format("{} ({})", line, reference::to_text(c.duration)), width);
  }
  return text;
}

std::string combinations_text(const model::Model& model, std::size_t width) {
  std::string text;
  for (const model::Combination& c : model.combinations) {
    const std::string title = c.title.empty() ? "" : " (" + c.title + ")";
    text += wrapped(
        "  - ",
        fmt::format("{}{}: {}; {}, {}, joints as for {}", c.name, title, terms_text(c.terms, model),
                    purpose_key(c.purpose), reference::to_text(c.duration),
                    c.springs == model::SpringSet::gravity ? "sag" : "sway"),
        width);
  }
  return text;
}

}  // namespace

std::string detail_loads(const decide::Assessment& assessment, const Style& style) {
  const auto width = static_cast<std::size_t>(style.width);
  const auto& model = assessment.mean.idealisation.model;
  if (!model) return {};
  return heading("Load cases") + cases_text(*model, width) +
         (model->bodies.empty() ? ""
                                : wrapped("  - ",
                                          "and 1 N and 1 N m each way at the middle of every "
                                          "machine, for how it swings and twists",
                                          width)) +
         wrapped("  ", "Values and partial factors with their sources: standtrue tables load",
                 width) +
         heading("Combinations") + combinations_text(*model, width);
}

}  // namespace standtrue::report
