#include <algorithm>
#include <array>
#include <stdexcept>

#include "reference/record.hpp"
#include "standtrue/diagnostic.hpp"

namespace standtrue::reference {
namespace {

using document::Field;
using document::Node;

[[noreturn]] void stop(const Diagnostic& diagnostic) {
  throw std::logic_error(to_text(diagnostic));
}

std::string_view trimmed(std::string_view text) {
  const std::size_t begin = text.find_first_not_of(' ');
  if (begin == std::string_view::npos) return {};
  return text.substr(begin, text.find_last_not_of(' ') - begin + 1);
}

std::vector<std::string_view> split(std::string_view text, char by) {
  std::vector<std::string_view> parts;
  for (std::size_t begin = 0; begin <= text.size();) {
    const std::size_t end = std::min(text.find(by, begin), text.size());
    parts.push_back(trimmed(text.substr(begin, end - begin)));
    begin = end + 1;
  }
  return parts;
}

/// `[seen, "EN 338:2016", Table 1]`, `[from memory, what it is]`, `[ours, why]`.
Source read_source(const Field& field, std::span<const SourceRecord> known) {
  const std::vector<Field> items = field.items();
  if (items.size() < 2 || items.size() > 3) {
    stop(field.fault("a source has two or three parts", "[seen, \"EN 338:2016\", Table 1]"));
  }
  constexpr std::array all{Status::seen, Status::second_hand, Status::from_memory,
                           Status::common_practice, Status::ours};
  const auto* status =
      std::find_if(all.begin(), all.end(), [&](Status s) { return to_text(s) == items[0].text(); });
  if (status == all.end()) {
    stop(items[0].fault("no such way to know a value", "seen, second hand, from memory, ours"));
  }
  const bool documented = *status == Status::seen || *status == Status::second_hand;
  const bool private_reason = *status == Status::common_practice || *status == Status::ours;
  if ((documented && items.size() != 3) || (private_reason && items.size() != 2)) {
    stop(field.fault("a value that was read names its document, practice and choice a reason only",
                     "[seen, \"EN 338:2016\", Table 1]"));
  }
  Source source{.key = "", .where = items.back().text(), .status = *status};
  if (items.size() == 3) source.key = items[1].text();
  const bool listed = source.key.empty() ||
                      std::any_of(known.begin(), known.end(), [&](const SourceRecord& record) {
                        return record.key == source.key;
                      });
  if (!listed) stop(items[1].fault("no such document in sources.yaml", "a key of sources.yaml"));
  return source;
}

std::size_t source_index(const RecordTable& table, int line, std::string_view letter) {
  for (std::size_t i = 1; i < table.sources.size(); ++i) {
    if (table.sources[i].first == letter) return i;
  }
  record_fault(table, line, letter, "no such source in this table");
}

/// Takes ` [a]` off the end of a cell.
std::string_view take_letter(std::string_view& cell) {
  if (cell.empty() || cell.back() != ']') return {};
  const std::size_t open = cell.rfind('[');
  if (open == std::string_view::npos) return {};
  const std::string_view letter = cell.substr(open + 1, cell.size() - open - 2);
  cell = trimmed(cell.substr(0, open));
  return letter;
}

void add_line(RecordTable& table, int number, const std::vector<std::string_view>& parts,
              const std::vector<std::string_view>& column_letters) {
  constexpr std::size_t none = static_cast<std::size_t>(-1);
  RecordTable::Line line;
  line.number = number;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    if (table.columns[i].name == "source" && !parts[i].empty()) {
      line.source = source_index(table, number, parts[i]);
    }
  }
  for (std::size_t i = 0; i < parts.size(); ++i) {
    Cell cell{.text = parts[i], .source = none};
    const std::string_view letter = take_letter(cell.text);
    if (!letter.empty()) {
      cell.source = source_index(table, number, letter);
    } else if (!column_letters[i].empty()) {
      cell.source = source_index(table, number, column_letters[i]);
    } else {
      cell.source = line.source;
    }
    line.cells.push_back(cell);
  }
  table.lines.push_back(std::move(line));
}

void read_text(RecordTable& table, const Field& text) {
  std::vector<std::string_view> lines = split(text.text(), '\n');
  while (!lines.empty() && lines.back().empty()) lines.pop_back();
  if (lines.empty()) stop(text.fault("the table is empty", "key | names | ..."));
  for (const std::string_view name : split(lines[0], '|')) table.columns.push_back({name, ""});
  std::vector<std::string_view> letters(table.columns.size());

  for (std::size_t i = 1; i < lines.size(); ++i) {
    const int number = text.node().at.line + 1 + static_cast<int>(i);
    const std::vector<std::string_view> parts = split(lines[i], '|');
    if (parts.size() != table.columns.size()) {
      record_fault(table, number, "",
                   "this line has " + std::to_string(parts.size()) + " cells, the head " +
                       std::to_string(table.columns.size()));
    }
    if (parts[0] == "unit") {
      for (std::size_t c = 1; c < parts.size(); ++c) table.columns[c].unit = parts[c];
    } else if (parts[0] == "source") {
      for (std::size_t c = 1; c < parts.size(); ++c) letters[c] = parts[c];
    } else {
      add_line(table, number, parts, letters);
    }
  }
}

/// Columns that hold for every row, with the source that `fixed_source` names or else the row's.
void add_fixed(RecordTable& table, const Field& fixed, std::string_view letter) {
  const std::size_t named = letter.empty() ? 0 : source_index(table, fixed.node().at.line, letter);
  for (const document::Entry& entry : fixed.node().entries) {
    table.columns.push_back({entry.key, ""});
    for (RecordTable::Line& line : table.lines) {
      line.cells.push_back(
          {.text = entry.value.text, .source = letter.empty() ? line.source : named});
    }
  }
}

RecordTable read_table(const document::Document& document, const std::string& group,
                       const Field& field, std::span<const SourceRecord> known) {
  std::vector<Diagnostic> faults;
  document::Map map(field, faults, "a table: source, sources, fixed, table");
  RecordTable table;
  table.document = &document;
  table.group = group;
  const std::optional<Field> fixed = map.find("fixed");
  const std::string fixed_letter = map.text("fixed_source").value_or("");
  const std::optional<Field> own =
      known.empty() ? std::nullopt : map.need("source", "source: [ours, why]");
  table.sources.emplace_back("", own ? read_source(*own, known) : Source{});
  if (const std::optional<Field> others = map.find("sources")) {
    document::Map letters(*others, faults, "sources by letter");
    for (const auto& [letter, source] : letters.all()) {
      table.sources.emplace_back(letter, read_source(source, known));
    }
  }
  const std::optional<Field> text = map.need("table", "table: |");
  map.finish();
  if (!faults.empty()) stop(faults.front());
  read_text(table, *text);
  if (fixed) add_fixed(table, *fixed, fixed_letter);
  return table;
}

}  // namespace

void record_fault(const RecordTable& table, int line, std::string_view part, std::string what) {
  Diagnostic diagnostic;
  diagnostic.file = table.document->name;
  diagnostic.at.line = line;
  diagnostic.path = table.group;
  diagnostic.what = std::move(what);
  const std::size_t index = static_cast<std::size_t>(line) - 1;
  if (index < table.document->lines.size()) {
    diagnostic.source_line = table.document->lines[index];
    const std::size_t at = part.empty() ? 0 : diagnostic.source_line.find(part);
    if (!part.empty() && at != std::string::npos) {
      diagnostic.at.column = static_cast<int>(at) + 1;
      diagnostic.length = static_cast<int>(part.size());
    }
  }
  stop(diagnostic);
}

std::vector<RecordTable> read_tables(const document::Document& document,
                                     std::span<const SourceRecord> known) {
  std::vector<RecordTable> tables;
  std::vector<Diagnostic> faults;
  document::Map map(document::root(document), faults, "groups of tables");
  for (const auto& [group, list] : map.all()) {
    if (!list.is(Node::Kind::list)) stop(list.fault("a group is a list of tables", "- table: |"));
    for (const Field& field : list.items()) {
      tables.push_back(read_table(document, group, field, known));
    }
  }
  if (!faults.empty()) stop(faults.front());
  return tables;
}

}  // namespace standtrue::reference
