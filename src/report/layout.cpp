#include "report/layout.hpp"

#include <algorithm>
#include <utility>

#include "standtrue/contract.hpp"

namespace standtrue::report {

std::size_t columns(std::string_view text) {
  std::size_t n = 0;
  bool in_colour = false;  // from ESC to its 'm'
  for (const char c : text) {
    if (c == '\x1b') in_colour = true;
    const bool continues = (static_cast<unsigned char>(c) & 0xC0U) == 0x80U;
    if (!in_colour && !continues) ++n;
    if (in_colour && c == 'm') in_colour = false;
  }
  return n;
}

std::string padded(std::string text, std::size_t width) {
  const std::size_t n = columns(text);
  if (n < width) text.append(width - n, ' ');
  return text;
}

namespace {

std::vector<std::string_view> words_of(std::string_view text) {
  std::vector<std::string_view> words;
  std::size_t at = 0;
  while ((at = text.find_first_not_of(" \n\t", at)) != std::string_view::npos) {
    const std::size_t end = std::min(text.find_first_of(" \n\t", at), text.size());
    words.push_back(text.substr(at, end - at));
    at = end;
  }
  return words;
}

/// How much of a word that is longer than a line stays on it: up to the last '-' or '/', else all
/// that fits. In bytes.
std::size_t break_of(std::string_view word, std::size_t room) {
  std::size_t bytes = 0, after_mark = 0;
  for (std::size_t n = 0; bytes < word.size() && n < room; ++n) {
    const char c = word[bytes];
    do {
      ++bytes;
    } while (bytes < word.size() && (static_cast<unsigned char>(word[bytes]) & 0xC0U) == 0x80U);
    if (c == '-' || c == '/') after_mark = bytes;
  }
  return after_mark > 0 ? after_mark : bytes;
}

/// Lines being filled with words.
class Lines {
 public:
  Lines(std::string_view first, std::size_t width)
      : indent_(columns(first) <= 16 ? columns(first) : 6, ' '),
        width_(width),
        text_(first),
        used_(columns(first)) {}

  void add(std::string_view word) {
    if (!is_at_start_ && used_ + 1 + columns(word) > width_) next_line();
    if (!is_at_start_) put(" ");
    const std::size_t room = std::max<std::size_t>(width_, indent_.size() + 1) - indent_.size();
    while (used_ + columns(word) > width_ && columns(word) > room) {
      const std::size_t piece = break_of(word, width_ > used_ ? width_ - used_ : 1);
      put(word.substr(0, piece));
      word.remove_prefix(piece);
      next_line();
    }
    put(word);
    is_at_start_ = false;
  }
  [[nodiscard]] std::string finished() { return std::move(text_ += '\n'); }

 private:
  void put(std::string_view piece) {
    text_ += piece;
    used_ += columns(piece);
  }
  void next_line() {
    text_ += '\n';
    text_ += indent_;
    used_ = indent_.size();
    is_at_start_ = true;
  }

  std::string indent_;
  std::size_t width_;
  std::string text_;
  std::size_t used_;
  bool is_at_start_ = true;
};

}  // namespace

std::string wrapped(std::string_view first, std::string_view text, std::size_t width) {
  const std::vector<std::string_view> words = words_of(text);
  if (words.empty()) return {};
  Lines lines(first, width);
  for (const std::string_view word : words) lines.add(word);
  return lines.finished();
}

std::string heading(std::string_view title) {
  return "\n" + std::string(title) + "\n" + std::string(columns(title), '-') + "\n";
}

Table::Table(std::vector<std::string> head, std::size_t left)
    : head_(std::move(head)), left_(left) {}

void Table::add(std::vector<std::string> row) {
  expects(row.size() == head_.size(), "Table: a row has another number of cells than the head");
  rows_.push_back(std::move(row));
}

namespace {

std::string line_of(const std::vector<std::string>& row, const std::vector<std::size_t>& widths,
                    std::size_t left, std::size_t from) {
  std::string line;
  for (std::size_t c = from; c < row.size(); ++c) {
    if (c > from) line += "  ";
    const std::string blanks(widths[c] - std::min(widths[c], columns(row[c])), ' ');
    line += c < left ? row[c] + blanks : blanks + row[c];
  }
  line.erase(line.find_last_not_of(' ') + 1);
  return line;
}

/// "sense sag; soft 1 kN m/rad; stiff 3 kN m/rad": all cells but the first, those without text left
/// out.
std::string named_cells(const std::vector<std::string>& head, const std::vector<std::string>& row) {
  std::string text;
  for (std::size_t c = 1; c < row.size(); ++c) {
    if (row[c].empty()) continue;
    if (!text.empty()) text += "; ";
    text += head[c].empty() ? row[c] : head[c] + " " + row[c];
  }
  return text;
}

}  // namespace

std::string Table::text(std::size_t indent, std::size_t width) const {
  std::vector<std::size_t> widths;
  for (const std::string& cell : head_) widths.push_back(columns(cell));
  for (const auto& row : rows_) {
    for (std::size_t c = 0; c < row.size(); ++c) widths[c] = std::max(widths[c], columns(row[c]));
  }
  std::size_t whole = indent;
  for (const std::size_t w : widths) whole += w + 2;
  whole -= 2;
  const std::size_t rest = whole - widths.front();
  std::string out;
  const auto put = [&](const std::vector<std::string>& row) {
    const std::string blanks(indent, ' ');
    if (whole <= width) {
      out += blanks + line_of(row, widths, left_, 0) + "\n";
      return;
    }
    if (!row.front().empty()) out += wrapped(blanks, row.front(), width);
    if (rest <= width) {
      out += blanks + "  " + line_of(row, widths, left_, 1) + "\n";
    } else if (&row != &head_) {
      out += wrapped(blanks + "  ", named_cells(head_, row), width);
    }
  };
  put(head_);
  for (const auto& row : rows_) put(row);
  return out;
}

}  // namespace standtrue::report
