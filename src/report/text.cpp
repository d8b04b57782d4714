#include <fmt/format.h>

#include "report/layout.hpp"
#include "report/page.hpp"
#include "report/paint.hpp"
#include "report/words.hpp"
#include "standtrue/report/report.hpp"

namespace standtrue::report {

namespace {

/// "DEPENDS: safe to load; ..."; "CARRIES, BUT sways ..." goes on without a colon, and without
/// saying again that it is safe to load.
std::string verdict_sentence(const decide::Assessment& assessment) {
  const std::string word(verdict_word(assessment.verdict));
  const bool goes_on = assessment.verdict == decide::Verdict::carries_but;
  std::string said = assessment.summary;
  const std::string_view known = "safe to load; ";
  if (goes_on && said.rfind(known, 0) == 0) said.erase(0, known.size());
  if (said.empty()) return goes_on ? word + " ..." : word;
  return word + (goes_on ? " " : ": ") + sentence(said);
}

std::string verdict_lines(const decide::Assessment& assessment, const Style& style) {
  const auto width = static_cast<std::size_t>(style.width);
  const std::string title = assessment.bench.title.empty() ? "This bench" : assessment.bench.title;
  const std::string said = verdict_sentence(assessment);
  const std::string gap = "    ";
  const bool fits = columns(title) + gap.size() + columns(said) <= width;
  std::string lines =
      fits ? title + gap + said + "\n" : wrapped("", title, width) + wrapped("", said, width);
  if (!style.colour) return lines;
  const std::string word(verdict_word(assessment.verdict));
  // The word may be broken over two lines on a narrow page: it is then left as it is.
  const std::size_t at = lines.find(word, fits ? title.size() : columns(title));
  if (at != std::string::npos) lines.replace(at, word.size(), painted(word, Paint::bold, true));
  return lines;
}

}  // namespace

std::string sentence(std::string text) {
  const bool ends =
      !text.empty() && std::string_view(".!?").find(text.back()) != std::string_view::npos;
  return ends ? text : text + ".";
}

std::string text(const decide::Assessment& assessment, const Style& style) {
  std::string page = verdict_lines(assessment, style) + refusal_lines(assessment, style) +
                     rod_lines(assessment, style) + advice_lines(assessment, style);
  const std::string more = style.detail ? "" : " (--detail for clauses and working)";
  page += wrapped("  ", "A planning aid, not a certificate." + more,
                  static_cast<std::size_t>(style.width));
  if (style.detail) {
    page += detail_understood(assessment, style) + detail_findings(assessment, style) +
            detail_loads(assessment, style) + detail_model(assessment, style) +
            detail_limits_of_the_answer(assessment, style);
  }
  return page;
}

}  // namespace standtrue::report
