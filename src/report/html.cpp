#include "standtrue/report/html.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "report/advice.hpp"
#include "report/drawing.hpp"
#include "report/escaped.hpp"
#include "report/figures.hpp"
#include "report/governing.hpp"
#include "report/html_page.hpp"
#include "report/html_sheets.hpp"
#include "report/pages.hpp"
#include "report/words.hpp"

namespace standtrue::report {

namespace {

const char* word_class(decide::Verdict verdict) {
  if (verdict == decide::Verdict::do_not_load) return " stop";
  return verdict == decide::Verdict::stands ? "" : " wait";
}

/// What is found and what is allowed; then how it comes about, unless that hangs on the joints:
/// the sentence is about their mean, and would sound as if all were well.
std::string line_of(const Balloon& b, const decide::Assessment& assessment) {
  const check::Finding& f = *b.finding;
  const bool hangs = f.judgement == check::Judgement::depends;
  const std::string said =
      hangs && !f.place.empty() ? f.place + ": between good and too much" : f.sentence;
  std::string text = fmt::format("<li><b class=\"ring\">{}</b><span><b>{}: {}</b>. {}", b.number,
                                 group_key(f.group), escaped(amount(f, assessment.bench.units)),
                                 escaped(sentence(capital(said))));
  if (const auto cure = remedy(f, assessment)) {
    text += fmt::format("<span class=\"do\"><b>{}</b>{}</span>", escaped(cure->label),
                        escaped(sentence(cure->text)));
  }
  return text + "</span></li>\n";
}

/// What the numbers leave out, and where sizes come from.
std::string after_the_list(const decide::Assessment& assessment, std::size_t told) {
  const auto all = static_cast<std::size_t>(
      std::count_if(assessment.findings.begin(), assessment.findings.end(), is_over));
  if (all == 0) return {};
  const std::string more =
      all > told ? fmt::format("Of the same kinds {} more {} with the engineer's findings. ",
                               all - told, all - told == 1 ? "stands" : "stand")
                 : "";
  return fmt::format(
      "<p>{}Sizes to buy, and the fewest changes that cure it all, are told by "
      "<code>standtrue improve</code>.</p>",
      more);
}

/// Why there is no answer, and what nobody judged: never left for the pages behind.
std::string unjudged_lines(const decide::Assessment& assessment) {
  Page page = refusal_page(assessment);
  const std::string titles = unjudged_titles(assessment.findings);
  if (!titles.empty()) page.line("  Not judged: ", sentence(titles));
  return page.html(3);
}

const char* heading_of_list(const decide::Assessment& assessment) {
  const auto& all = assessment.findings;
  if (std::any_of(all.begin(), all.end(), is_over)) return "What is wrong, where, and what to do";
  if (std::none_of(all.begin(), all.end(), is_judged)) return "Nothing could be judged";
  return std::any_of(all.begin(), all.end(), is_left_unjudged)
             ? "Nothing that was judged is over its limit; the nearest to it"
             : "Nothing is over its limit; the nearest to it";
}

std::string first_sheet(const Drawn& drawn, const Imprint& imprint) {
  const decide::Assessment& a = drawn.assessment;
  const std::vector<Balloon> balloons = balloons_of(a);
  constexpr double paper = 186.0, column = 90.0;
  std::string page = "<section class=\"sheet first\">\n";
  page += title_block(a.bench.title.empty() ? "This bench" : a.bench.title, verdict_sentence(a),
                      std::string(verdict_word(a.verdict)), planned_load(a.bench), imprint,
                      word_class(a.verdict));
  if (!drawn.picture.solids.empty()) {
    const Captioned shop = shop_drawing(drawn, balloons, paper);
    page += figure(shop.svg, shop.caption);
  }
  page +=
      fmt::format("<div class=\"two\"><div><h2>{}</h2><ol class=\"numbered\">", heading_of_list(a));
  for (const Balloon& b : balloons) page += line_of(b, a);
  page += "</ol>" + after_the_list(a, balloons.size()) + unjudged_lines(a) +
          "</div><div><h2>How close each is to its limit</h2><div class=\"rod\">" +
          rod_drawing(a, column).text() + "</div>\n";
  std::string cautions;
  const std::vector<std::string> all = cautions_of(a);
  for (std::size_t i = 0; i < std::min<std::size_t>(3, all.size()); ++i) {
    cautions += fmt::format("<li>{}</li>", escaped(sentence(all[i])));
  }
  page += fmt::format(
      "<div class=\"cautions\"><b>Take care (told beside the verdict).</b><ul>{}</ul><p>A planning "
      "aid, not a certificate: "
      "timber and workmanship vary. Local codes and a licensed engineer come first where people "
      "can be hurt.</p></div></div></div>\n",
      cautions);
  return page + "</section>\n";
}

}  // namespace

std::string html(const decide::Assessment& assessment, const decide::Picture& picture,
                 const std::optional<decide::PlacePlan>& places, const Imprint& imprint) {
  const Drawn drawn{assessment, picture, places ? &*places : nullptr};
  const std::string& title = assessment.bench.title;
  return document(
      (title.empty() ? "Bench" : title) + ": " + std::string(verdict_word(assessment.verdict)),
      first_sheet(drawn, imprint) + drawing_sheets(drawn) + engineer_sheets(drawn));
}

}  // namespace standtrue::report
