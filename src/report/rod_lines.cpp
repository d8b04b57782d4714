#include <algorithm>

#include "report/figures.hpp"
#include "report/governing.hpp"
#include "report/pages.hpp"
#include "report/paint.hpp"
#include "report/rod.hpp"
#include "report/words.hpp"

namespace standtrue::report {

using check::Finding;
using check::Group;
using check::Judgement;

namespace {

constexpr std::size_t rod_at = 10;  ///< column of the rod's left edge
constexpr int cells = 30;

std::string drawn_rod(const Finding& f, bool colour) {
  const Range range = *ratios(f);
  const Rod drawn = rod(range.least, range.greatest, cells);
  const bool is_good = f.judgement == Judgement::satisfied;
  return "|" + drawn.before + painted(drawn.knife, Paint::chalk_blue, colour) +
         (is_good ? drawn.after : painted(drawn.after, Paint::red_brown, colour));
}

std::string label(Group group) { return padded("  " + std::string(group_key(group)), rod_at); }

/// `remark`: what governs, or that something of the group is not judged.
std::string rod_line(const Finding& f, const std::string& remark, quantity::UnitSystem units,
                     const Style& style) {
  const auto width = static_cast<std::size_t>(style.width);
  const std::string blanks(rod_at, ' ');
  std::string line = label(f.group) + drawn_rod(f, style.colour);
  const std::string numbers = amount(f, units);
  std::string above;
  if (columns(line) + 2 + columns(numbers) <= width) {
    line += "  " + numbers;
  } else {
    line.erase(line.find_last_not_of(' ') + 1);
    above = line + "\n";
    line = blanks + numbers;
  }
  if (remark.empty()) return above + line + "\n";
  const std::string arrow = "<- ";
  if (columns(line) + 2 + arrow.size() + columns(remark) <= width) {
    return above + line + "  " + arrow + remark + "\n";
  }
  return above + line + "\n" + wrapped(blanks + arrow, remark, width);
}

}  // namespace

std::string rod_lines(const decide::Assessment& assessment, const Style& style) {
  std::string lines;
  const bool tips =
      std::any_of(assessment.findings.begin(), assessment.findings.end(), [](const Finding& f) {
        return f.id == "unanswered/tips" && f.judgement != Judgement::satisfied;
      });
  for (const Group group : {Group::carry, Group::joints, Group::sheet, Group::sag, Group::sway,
                            Group::twist, Group::hum, Group::tip, Group::slide, Group::feet}) {
    const Finding* f = governing(assessment.findings, group);
    const bool is_partial =
        std::any_of(assessment.findings.begin(), assessment.findings.end(),
                    [group](const Finding& g) { return g.group == group && is_left_unjudged(g); });
    if (f) {
      const bool is_good = f->judgement == Judgement::satisfied;
      const bool is_of_loads = group == Group::carry || group == Group::joints ||
                               group == Group::sheet || group == Group::sag;
      const std::string remark = !is_good              ? f->place
                                 : tips && is_of_loads ? "but for loads that tip it"
                                 : is_partial          ? "some not judged"
                                                       : "";
      lines += rod_line(*f, remark, assessment.bench.units, style);
    } else if (is_partial) {
      lines += label(group) + "not judged\n";
    }
  }
  return lines;
}

}  // namespace standtrue::report
