// Sheets of the decisions, to take to the shop or to sit over.
#include "report/advice.hpp"
#include "report/card_drawings.hpp"
#include "report/frame_drawings.hpp"
#include "report/html_page.hpp"
#include "report/pages.hpp"
#include "report/words.hpp"
#include "standtrue/report/html.hpp"

namespace standtrue::report {

namespace {

constexpr double card_width = 186.0;

constexpr const char* last_line =
    "<p class=\"cautions\">Local codes and a licensed engineer come first where people can be "
    "hurt. "
    "Fix and guard machines as their makers say.</p>\n";

std::string name_of(const bench::Bench& bench) {
  return bench.title.empty() ? "This bench" : bench.title;
}

/// One sheet: title block, drawings, words.
std::string card(const bench::Bench& bench, const std::string& question, const std::string& word,
                 const std::vector<Captioned>& drawings, const Page& page, const Imprint& imprint) {
  std::string body = "<section class=\"sheet card\">\n" +
                     title_block(name_of(bench), question, word, planned_load(bench), imprint);
  for (const Captioned& drawing : drawings) body += figure(drawing.svg, drawing.caption);
  body += page.html(2) + last_line + "</section>\n";
  return document(name_of(bench) + ": " + question, body);
}

std::vector<Captioned> one(std::optional<Captioned> drawing) {
  std::vector<Captioned> all;
  if (drawing) all.push_back(std::move(*drawing));
  return all;
}

}  // namespace

std::string html(const decide::SideBySide& comparison, const bench::Bench& bench,
                 const Imprint& imprint) {
  return card(bench, comparison.question, "", one(options_drawing(comparison, card_width)),
              page(comparison, bench.units), imprint);
}

std::string html(const decide::Levelling& levelling, const bench::Bench& bench,
                 const Imprint& imprint) {
  return card(bench, "How to set the feet", "", one(turns_drawing(levelling, bench, card_width)),
              page(levelling, bench), imprint);
}

std::string html(const decide::PartsList& list, const std::optional<decide::Costs>& costs,
                 const bench::Bench& bench, const Imprint& imprint) {
  return card(bench, "What to cut and to buy", "",
              one(cutting_drawing(list, bench.units, card_width)), page(list, costs, bench),
              imprint);
}

std::string html(const decide::ProvingPlan& plan, const bench::Bench& bench,
                 const Imprint& imprint) {
  std::string word;
  if (plan.learned && plan.learned->after) word = verdict_word(*plan.learned->after);
  return card(bench, "Tests to make on the bench, and what they teach", word,
              one(readings_drawing(plan, bench.units, card_width)), page(plan, bench), imprint);
}

std::string html(const decide::Odds& odds, const bench::Bench& bench, const Imprint& imprint) {
  std::string word;
  if (odds.why_none.empty() && odds.drawn > 0) {
    const std::string told = of_thousand(odds.outcomes.stand, odds.drawn);
    word = told.substr(0, told.find(' '));
    word = odds.of_this_bench() ? "stands: " + word + " in 1000" : word + " of 1000 stand";
  }
  const char* question = odds.of_this_bench() ? "With what chance this bench passes"
                                              : "How many such benches would pass";
  return card(bench, question, word, one(odds_drawing(odds, card_width)), page(odds, bench),
              imprint);
}

std::string html(const decide::PlacePlan& plan, const bench::Bench& bench, const Imprint& imprint) {
  return card(bench, "Where the " + plan.machine + " may stand", "",
              load_plan_drawings(plan, bench.units, card_width), page(plan, bench.units), imprint);
}

}  // namespace standtrue::report
