#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

/// Lines and tables on a page of fixed width. Widths count code points and skip colour.
namespace standtrue::report {

[[nodiscard]] std::size_t columns(std::string_view text);
[[nodiscard]] std::string padded(std::string text, std::size_t width);

/// The words of `text` in lines of at most `width` columns. The first line begins with `first`, the
/// others with as many blanks as it has columns (with 6 if it has more than 16). A word longer than
/// a line is broken, at a hyphen or slash if it has one. Ends with a line end; empty for a text
/// without words.
[[nodiscard]] std::string wrapped(std::string_view first, std::string_view text, std::size_t width);

/// A heading underlined with `-`.
[[nodiscard]] std::string heading(std::string_view title);

/// Cells in columns two blanks apart; the first column flush left, numbers flush right. A table
/// that is wider than the page puts the first cell of each row on a line of its own; one that is
/// too wide even so names its cells in running text.
class Table {
 public:
  /// `left` of the columns (from the first) are flush left.
  explicit Table(std::vector<std::string> head, std::size_t left = 1);
  void add(std::vector<std::string> row);
  [[nodiscard]] bool empty() const { return rows_.empty(); }
  [[nodiscard]] const std::vector<std::string>& head() const { return head_; }
  [[nodiscard]] const std::vector<std::vector<std::string>>& rows() const { return rows_; }
  [[nodiscard]] bool is_left(std::size_t column) const { return column < left_; }
  [[nodiscard]] std::string text(std::size_t indent, std::size_t width) const;

 private:
  std::vector<std::string> head_;
  std::size_t left_;
  std::vector<std::vector<std::string>> rows_;
};

}  // namespace standtrue::report
