// A solved frame case: the response of each loading, then what was expected of it.
#include <fmt/format.h>

#include "report/case_tables.hpp"
#include "report/loading_text.hpp"
#include "report/pages.hpp"
#include "report/paint.hpp"
#include "report/words.hpp"
#include "standtrue/report/report.hpp"

namespace standtrue::report {

namespace {

using model::Expectation;
using model::FrameCase;

std::string loading_heading(const decide::SolvedLoading& loading, const model::Model& model) {
  if (!loading.of.is_combination) return heading("Under " + loading.name);
  const model::Combination& combination = model.combinations.at(loading.of.place);
  std::string text = heading("Under " + loading.name);
  return text + "  " + terms_text(combination.terms, model) +
         fmt::format("  ({} springs{}{})\n", springs_key(combination.springs),
                     combination.second_order ? ", second order" : "",
                     combination.slides ? ", feet may slide" : "");
}

std::string loading_text(const model::Model& model, const decide::SolvedLoading& loading,
                         const Style& style) {
  const auto width = static_cast<std::size_t>(style.width);
  std::string text = loading_heading(loading, model);
  if (!loading.state) {
    const solve::Refusal& refusal = loading.state.error();
    text += wrapped("  No answer: ", sentence(refusal.what), width);
    if (!refusal.instead.empty()) text += wrapped("  Try: ", sentence(refusal.instead), width);
    return text;
  }
  return text + node_table(model, *loading.state, width) +
         support_table(model, *loading.state, width) +
         end_force_table(model, *loading.state, width) + extreme_table(model, loading, width) +
         plate_table(model, loading, width) +
         fmt::format("\n  audit: residual {:.1e}, equilibrium {:.1e}\n",
                     loading.state->audit.residual, loading.state->audit.equilibrium);
}

/// "0.5 %", "3e-15": a share of the expected value.
std::string relative(double share) {
  if (share >= 1e-4) return fmt::format("{:.2g} %", 100.0 * share);
  std::string text = fmt::format("{:.0e}", share);
  const std::size_t zero = text.find("-0");
  if (zero != std::string::npos) text.erase(zero + 1, 1);
  return share == 0.0 ? "0" : text;
}

std::string tolerance_text(const Expectation& e, const model::Model& model) {
  std::string text;
  if (e.within) text = relative(*e.within);
  if (e.within_absolute) {
    if (!text.empty()) text += " and ";
    text += quantity::print(*e.within_absolute, model::value_kind(e, model));
  }
  return text;
}

std::string expectation_text(const FrameCase& frame_case, const Expectation& e,
                             const decide::Comparison& comparison, std::size_t width) {
  std::string text = model::describe(e, frame_case);
  if (e.of != Expectation::Of::refusal) {
    const quantity::Kind kind = model::value_kind(e, frame_case.model);
    text += fmt::format(": {} expected", seven_figures(e.value, kind));
    if (comparison.got) {
      text += fmt::format(", {} found, off by {}", seven_figures(*comparison.got, kind),
                          comparison.is_absolute ? quantity::print(comparison.error, kind)
                                                 : relative(comparison.error));
    }
    const std::string tolerance = tolerance_text(e, frame_case.model);
    if (!tolerance.empty()) text += ", " + tolerance + " allowed";
  }
  if (!comparison.met) text += "; " + comparison.why_not;
  return wrapped(comparison.met ? "  met     " : "  MISSED  ", text, width);
}

std::string expectations_text(const FrameCase& frame_case, const decide::CaseAnswers& answers,
                              const Style& style) {
  if (frame_case.expectations.empty()) return "\nThe case expects nothing.\n";
  std::string text = heading("Expected");
  std::size_t met = 0;
  for (std::size_t i = 0; i < answers.comparisons.size(); ++i) {
    met += answers.comparisons[i].met ? 1 : 0;
    text += expectation_text(frame_case, frame_case.expectations.at(i), answers.comparisons[i],
                             static_cast<std::size_t>(style.width));
  }
  const std::size_t all = answers.comparisons.size();
  const std::string total = met == all
                                ? fmt::format("All {} expectations met.", all)
                                : fmt::format("{} of {} expectations MISSED.", all - met, all);
  return text + "\n" +
         painted(all == 1 && met == 1 ? "The expectation is met." : total, Paint::bold,
                 style.colour) +
         "\n";
}

}  // namespace

std::string text(const FrameCase& frame_case, const decide::CaseAnswers& answers,
                 const Style& style) {
  const std::string title = frame_case.title.empty() ? "Frame case" : frame_case.title;
  const auto width = static_cast<std::size_t>(style.width);
  std::string page =
      wrapped("", title, width) +
      wrapped("",
              "Movements in mm and mrad, forces in N, moments in kN m. Columns and rows of "
              "noughts are left out.",
              width);
  for (const decide::SolvedLoading& loading : answers.loadings) {
    page += loading_text(answers.division.model, loading, style);
  }
  return page + expectations_text(frame_case, answers, style);
}

}  // namespace standtrue::report
