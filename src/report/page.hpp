#pragma once

#include <string>
#include <variant>
#include <vector>

#include "report/layout.hpp"

namespace standtrue::report {

/// What the program says, as blocks: laid out last, for a terminal or for HTML, so that both say
/// the same.
class Page {
 public:
  struct Heading {
    std::string title;
  };
  struct Line {
    std::string first, text;
  };
  struct Cells {
    Table table;
    std::size_t indent = 2;
  };
  struct Plain {
    std::string lines, narrow;
  };
  struct Gap {};
  using Block = std::variant<Heading, Line, Cells, Plain, Gap>;

  void heading(std::string title);
  /// Words behind a mark, a label or blanks; nothing for a text without words.
  void line(std::string first, std::string text);
  void table(Table table, std::size_t indent = 2);
  /// Lines that are laid out already: a plan, an example. Where the longest is longer than the page
  /// is wide, `narrow` stands in their place, if there is any.
  void plain(std::string lines, std::string narrow = {});
  void gap();  ///< an empty line
  void add(Page other);
  [[nodiscard]] bool empty() const { return blocks_.empty(); }

  [[nodiscard]] std::string text(std::size_t width) const;
  /// Headings are <h{level}>. What begins a line says what it becomes: "-" and "1" an item of a
  /// list, "label:" a paragraph, another word a term with its description, blanks a paragraph, or,
  /// below the text of the line before, more of that. Classes: "wide" around a table, "n" of a
  /// column of numbers, "further" of a paragraph that stands deeper than others. Colour is left
  /// out. Contract: 1 <= level <= 6.
  [[nodiscard]] std::string html(int level) const;

 private:
  std::vector<Block> blocks_;
};

}  // namespace standtrue::report
