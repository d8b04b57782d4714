#include "report/advice.hpp"
#include "report/pages.hpp"
#include "report/paint.hpp"
#include "report/words.hpp"

namespace standtrue::report {

namespace {

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

std::string text(const decide::Assessment& assessment, const Style& style) {
  const auto width = static_cast<std::size_t>(style.width);
  const std::string more = style.detail ? "" : " (--detail for clauses and working)";
  Page rest = advice_page(assessment);
  rest.line("  ", "A planning aid, not a certificate." + more);
  if (style.detail) {
    rest.add(understood_page(assessment));
    rest.add(findings_page(assessment));
    rest.add(working_page(assessment));
    rest.add(loads_page(assessment));
    rest.add(joints_and_feet_page(assessment));
    rest.add(limits_page(assessment));
  }
  return verdict_lines(assessment, style) + refusal_page(assessment).text(width) +
         rod_lines(assessment, style) + rest.text(width);
}

}  // namespace standtrue::report
