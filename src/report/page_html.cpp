// A page as HTML: what a line begins with decides what it becomes.
#include <fmt/format.h>

#include <string_view>
#include <utility>

#include "report/escaped.hpp"
#include "report/page.hpp"
#include "standtrue/contract.hpp"

namespace standtrue::report {

namespace {

/// Colour is for terminals: "\x1b[38;5;67m" is left out as a whole. An ESC that begins no colour is
/// left to `escaped`, lest it take the text behind it along.
std::string uncoloured(std::string_view text) {
  std::string plain;
  for (std::size_t at = 0; at < text.size();) {
    if (text.substr(at, 2) == "\x1b[") {
      const std::size_t end = text.find_first_not_of("0123456789;", at + 2);
      if (end != std::string_view::npos && text[end] == 'm') {
        at = end + 1;
        continue;
      }
    }
    plain += text[at++];
  }
  return plain;
}

std::string safe(std::string_view text) { return escaped(uncoloured(text)); }

std::string_view trimmed(std::string_view text) {
  const std::size_t from = text.find_first_not_of(' ');
  if (from == std::string_view::npos) return {};
  return text.substr(from, text.find_last_not_of(' ') - from + 1);
}

enum class Beginning { nothing, dash, number, label, word };

/// "12" of "12" and of "12.", nothing of anything else.
std::string_view digits_of(std::string_view first) {
  if (!first.empty() && first.back() == '.') first.remove_suffix(1);
  const bool is_number = first.find_first_not_of("0123456789") == std::string_view::npos;
  return is_number ? first : std::string_view();
}

Beginning beginning_of(std::string_view first) {
  if (first.empty()) return Beginning::nothing;
  if (first == "-") return Beginning::dash;
  if (!digits_of(first).empty()) return Beginning::number;
  return first.back() == ':' ? Beginning::label : Beginning::word;
}

/// "" for what is a paragraph.
std::string_view list_of(Beginning beginning) {
  switch (beginning) {
    case Beginning::dash:
      return "ul";
    case Beginning::number:
      return "ol";
    case Beginning::word:
      return "dl";
    case Beginning::label:
    case Beginning::nothing:
      break;
  }
  return "";
}

bool begins_with_number(std::string_view text) {
  if (!text.empty() && (text.front() == '+' || text.front() == '-')) text.remove_prefix(1);
  return !text.empty() && text.front() >= '0' && text.front() <= '9';
}

/// Flush right on the terminal, and not words: those may be long, and would not wrap.
bool is_of_numbers(const Table& table, std::size_t column) {
  if (table.is_left(column)) return false;
  std::size_t numbers = 0, words = 0;
  for (const std::vector<std::string>& row : table.rows()) {
    const std::string_view said = trimmed(row[column]);
    if (said.empty() || said == "-") continue;
    ++(begins_with_number(said) ? numbers : words);
  }
  return numbers >= words;
}

/// A cell that is empty heads nothing.
std::string html_cell(std::string_view text, std::string_view scope, bool is_number) {
  const std::string said = safe(trimmed(text));
  const bool heads = !scope.empty() && !said.empty();
  return fmt::format("<{0}{1}{2}>{3}</{0}>", heads ? "th" : "td",
                     heads ? fmt::format(" scope=\"{}\"", scope) : "",
                     is_number ? " class=\"n\"" : "", said);
}

std::string html_table(const Table& table) {
  std::vector<bool> is_number;
  std::string html = "<div class=\"wide\"><table>\n<thead><tr>";
  for (std::size_t c = 0; c < table.head().size(); ++c) {
    is_number.push_back(is_of_numbers(table, c));
    html += html_cell(table.head()[c], "col", is_number[c]);
  }
  html += "</tr></thead>\n<tbody>\n";
  for (const std::vector<std::string>& row : table.rows()) {
    html += "<tr>";
    for (std::size_t c = 0; c < row.size(); ++c) {
      html += html_cell(row[c], c == 0 ? "row" : "", is_number[c]);
    }
    html += "</tr>\n";
  }
  return html + "</tbody></table></div>\n";
}

/// Blocks being written one after the other; a list stays open as long as lines go on with it.
class HtmlOfPage {
 public:
  explicit HtmlOfPage(int level) : level_(level) {}

  void operator()(const Page::Heading& block) {
    to_list("");
    html_ += fmt::format("<h{0}>{1}</h{0}>\n", level_, safe(block.title));
  }
  void operator()(const Page::Cells& block) {
    to_list("");
    html_ += html_table(block.table);
  }
  void operator()(const Page::Plain& block) {
    to_list("");
    std::string lines = safe(block.lines);
    lines.erase(lines.find_last_not_of('\n') + 1);
    html_ += "<pre>" + lines + "</pre>\n";
  }
  void operator()(const Page::Gap&) { to_list(""); }

  void operator()(const Page::Line& block) {
    const std::string_view first = trimmed(block.first);
    const std::size_t indent = columns(block.first);
    const std::string said = safe(trimmed(block.text));
    const Beginning beginning = beginning_of(first);
    if (beginning == Beginning::nothing && indent == hangs_at_) {
      html_ += list_ == "dl" ? "<dd>" + said + "</dd>\n" : further(said);
      return;
    }
    to_list(list_of(beginning));
    html_ += begun(beginning, first, said, indent);
    const bool goes_on = beginning == Beginning::word || beginning == Beginning::label;
    hangs_at_ = goes_on ? indent : nowhere;
  }

  [[nodiscard]] std::string finished() {
    to_list("");
    return std::move(html_);
  }

 private:
  static constexpr std::size_t nowhere = std::string::npos;
  static constexpr std::size_t usual_indent = 2;

  static std::string further(const std::string& said) {
    return "<p class=\"further\">" + said + "</p>\n";
  }
  static std::string begun(Beginning beginning, std::string_view first, const std::string& said,
                           std::size_t indent) {
    switch (beginning) {
      case Beginning::dash:
        return "<li>" + said + "</li>\n";
      case Beginning::number:
        return fmt::format("<li value=\"{}\">{}</li>\n", digits_of(first), said);
      case Beginning::label:
        return fmt::format("<p><strong>{}</strong> {}</p>\n", safe(first), said);
      case Beginning::word:
        return fmt::format("<dt>{}</dt><dd>{}</dd>\n", safe(first), said);
      case Beginning::nothing:
        break;
    }
    return indent > usual_indent ? further(said) : "<p>" + said + "</p>\n";
  }
  /// Closes the list that is open, unless it is that one, and opens that one.
  void to_list(std::string_view list) {
    hangs_at_ = nowhere;
    if (list == list_) return;
    if (!list_.empty()) html_ += fmt::format("</{}>\n", list_);
    if (!list.empty()) html_ += fmt::format("<{}>\n", list);
    list_ = list;
  }

  int level_;
  std::string html_;
  std::string_view list_;           ///< "ul", "ol", "dl", or "" for none
  std::size_t hangs_at_ = nowhere;  ///< column of the text that a line of blanks goes on with
};

}  // namespace

std::string Page::html(int level) const {
  expects(level >= 1 && level <= 6, "Page::html: headings have levels 1 to 6");
  HtmlOfPage html(level);
  for (const Block& block : blocks_) std::visit(html, block);
  return html.finished();
}

}  // namespace standtrue::report
