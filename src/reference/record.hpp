#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "standtrue/document/document.hpp"
#include "standtrue/quantity/unit_text.hpp"
#include "standtrue/reference/source.hpp"
#include "standtrue/reference/tables.hpp"

/// Record files are written as tables inside YAML:
///     timber:
///       - fixed: {species: softwood}                  # columns that hold for every row
///         source: [seen, "EN 338:2016", Table 1]      # of every value, unless told otherwise
///         sources: {a: [ours, why]}                   # others, by letter
///         table: |
///           key | names | f_m_k | E_0_mean
///           unit |      | N/mm2 | N/mm2               # optional
///           source |    |       | a                   # optional: of a whole column
///           C16 | softwood | 16 [a] | 8000            # [a]: of this value
/// A column `source` gives the letter of a row. The nearest counts: value, column, row, table.
/// Faults are bugs of ours: each throws std::logic_error with the place.
namespace standtrue::reference {

struct Cell {
  std::string_view text;
  std::size_t source = 0;  ///< index of RecordTable::sources
};

struct RecordTable {
  struct Column {
    std::string_view name;
    std::string_view unit;
  };
  struct Line {
    int number = 0;           ///< of the file
    std::size_t source = 0;   ///< of the row as a whole
    std::vector<Cell> cells;  ///< one per column
  };
  const document::Document* document = nullptr;
  std::string group;
  std::vector<std::pair<std::string, Source>> sources;  ///< [0] is the table's own
  std::vector<Column> columns;
  std::vector<Line> lines;
};

/// All tables of a file, in its order. `known` are the documents that a source may cite; the file
/// that lists them is read with none known and its tables need no source.
[[nodiscard]] std::vector<RecordTable> read_tables(const document::Document& document,
                                                   std::span<const SourceRecord> known);

/// Stops with what is wrong in a line of a record file, underlining `part` if the line holds it.
[[noreturn]] void record_fault(const RecordTable& table, int line, std::string_view part,
                               std::string what);

/// One row, read by column name. An absent or empty cell is the default of its type.
class Record {
 public:
  Record(const RecordTable& table, const RecordTable::Line& line, std::vector<bool>& asked)
      : table_(&table), line_(&line), asked_(&asked) {}

  [[nodiscard]] std::string key() const { return text("key"); }
  [[nodiscard]] std::string text(std::string_view column) const;
  [[nodiscard]] std::vector<std::string> names() const;  ///< column `names`, parted by commas
  [[nodiscard]] std::vector<std::string> list(std::string_view column) const;
  [[nodiscard]] bool yes(std::string_view column) const;
  [[nodiscard]] int count(std::string_view column) const;
  [[nodiscard]] double number(std::string_view column) const;  ///< also a fraction, 1/300
  [[nodiscard]] std::optional<double> number_if_any(std::string_view column) const;
  [[nodiscard]] double si(std::string_view column, quantity::Kind kind) const;
  template <class Quantity>
  [[nodiscard]] Quantity read(std::string_view column, quantity::Kind kind) const {
    return quantity::from_si<Quantity>(si(column, kind));
  }
  template <class Quantity>
  [[nodiscard]] Band<Quantity> band(const std::string& column, quantity::Kind kind) const {
    return {read<Quantity>(column + "_soft", kind), read<Quantity>(column + "_mean", kind),
            read<Quantity>(column + "_stiff", kind)};
  }
  /// The value that stands beside the cell's word in `words`.
  template <class Value, std::size_t n>
  [[nodiscard]] Value one_of(std::string_view column,
                             const std::pair<std::string_view, Value> (&words)[n]) const {
    const std::string_view word = cell(column).text;
    for (const auto& [known, value] : words) {
      if (known == word) return value;
    }
    fault(word, "no such " + std::string(column));
  }

  [[nodiscard]] Source source(std::string_view column) const;
  [[nodiscard]] Source source() const { return table_->sources[line_->source].second; }
  [[nodiscard]] RecordSource sources() const;
  [[nodiscard]] Row row() const;

  [[noreturn]] void fault(std::string_view part, std::string what) const;

 private:
  [[nodiscard]] Cell cell(std::string_view column) const;
  [[nodiscard]] double si_of(std::string_view text, std::string_view unit,
                             quantity::Kind kind) const;

  const RecordTable* table_;
  const RecordTable::Line* line_;
  std::vector<bool>* asked_;
};

}  // namespace standtrue::reference
