#include "report/page.hpp"

#include <algorithm>
#include <iterator>
#include <string_view>
#include <utility>

namespace standtrue::report {

namespace {

std::size_t longest_line(std::string_view lines) {
  std::size_t longest = 0;
  for (std::size_t at = 0; at < lines.size();) {
    const std::size_t end = std::min(lines.find('\n', at), lines.size());
    longest = std::max(longest, columns(lines.substr(at, end - at)));
    at = end + 1;
  }
  return longest;
}

/// Each block as the terminal shows it.
struct OnTerminal {
  std::size_t width;

  std::string operator()(const Page::Heading& block) const { return heading(block.title); }
  std::string operator()(const Page::Line& block) const {
    return wrapped(block.first, block.text, width);
  }
  std::string operator()(const Page::Cells& block) const {
    return block.table.text(block.indent, width);
  }
  std::string operator()(const Page::Plain& block) const {
    const bool fits = block.narrow.empty() || longest_line(block.lines) <= width;
    return fits ? block.lines : block.narrow;
  }
  std::string operator()(const Page::Gap&) const { return "\n"; }
};

}  // namespace

void Page::heading(std::string title) { blocks_.emplace_back(Heading{std::move(title)}); }

void Page::line(std::string first, std::string text) {
  if (text.find_first_not_of(" \n\t") == std::string::npos) return;
  blocks_.emplace_back(Line{std::move(first), std::move(text)});
}

void Page::table(Table table, std::size_t indent) {
  blocks_.emplace_back(Cells{std::move(table), indent});
}

void Page::plain(std::string lines, std::string narrow) {
  blocks_.emplace_back(Plain{std::move(lines), std::move(narrow)});
}

void Page::gap() { blocks_.emplace_back(Gap{}); }

void Page::add(Page other) {
  std::move(other.blocks_.begin(), other.blocks_.end(), std::back_inserter(blocks_));
}

std::string Page::text(std::size_t width) const {
  std::string text;
  for (const Block& block : blocks_) text += std::visit(OnTerminal{width}, block);
  return text;
}

}  // namespace standtrue::report
