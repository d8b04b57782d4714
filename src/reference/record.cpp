#include "reference/record.hpp"

#include <algorithm>
#include <array>

namespace standtrue::reference {

Cell Record::cell(std::string_view column) const {
  for (std::size_t i = 0; i < table_->columns.size(); ++i) {
    if (table_->columns[i].name == column) {
      (*asked_)[i] = true;
      return line_->cells[i];
    }
  }
  return {.text = "", .source = line_->source};
}

void Record::fault(std::string_view part, std::string what) const {
  record_fault(*table_, line_->number, part, std::move(what));
}

std::string Record::text(std::string_view column) const { return std::string(cell(column).text); }

std::vector<std::string> Record::names() const { return list("names"); }

std::vector<std::string> Record::list(std::string_view column) const {
  const std::string_view text = cell(column).text;
  std::vector<std::string> parts;
  for (std::size_t begin = 0; begin < text.size();) {
    const std::size_t end = std::min(text.find(',', begin), text.size());
    std::string_view part = text.substr(begin, end - begin);
    part.remove_prefix(std::min(part.find_first_not_of(' '), part.size()));
    if (part.empty()) fault(text, "an empty part between commas");
    parts.emplace_back(part);
    begin = end + 1;
  }
  return parts;
}

bool Record::yes(std::string_view column) const {
  const std::string_view word = cell(column).text;
  if (word == "yes") return true;
  if (!word.empty() && word != "no") fault(word, "neither yes nor no");
  return false;
}

int Record::count(std::string_view column) const {
  const std::string_view word = cell(column).text;
  if (word.empty()) return 0;
  const quantity::Parsed<int> parsed = quantity::parse_count(word);
  if (!parsed) fault(word, parsed.error().what);
  return *parsed;
}

double Record::number(std::string_view column) const { return number_if_any(column).value_or(0.0); }

std::optional<double> Record::number_if_any(std::string_view column) const {
  const std::string_view word = cell(column).text;
  if (word.empty()) return std::nullopt;
  return si_of(word, "", quantity::Kind::ratio);
}

double Record::si(std::string_view column, quantity::Kind kind) const {
  for (std::size_t i = 0; i < table_->columns.size(); ++i) {
    if (table_->columns[i].name != column) continue;
    (*asked_)[i] = true;
    const std::string_view word = line_->cells[i].text;
    return word.empty() ? 0.0 : si_of(word, table_->columns[i].unit, kind);
  }
  return 0.0;
}

double Record::si_of(std::string_view text, std::string_view unit, quantity::Kind kind) const {
  std::string whole(text);
  if (!unit.empty()) whole.append(" ").append(unit);
  const quantity::Parsed<double> parsed = quantity::parse_si(whole, kind);
  if (!parsed) fault(text, parsed.error().what);
  return *parsed;
}

Source Record::source(std::string_view column) const {
  return table_->sources[cell(column).source].second;
}

namespace {

/// Cells that describe and are not values.
bool is_word(std::string_view column) {
  constexpr std::array<std::string_view, 5> words{"key", "names", "source", "note", "advice"};
  return std::find(words.begin(), words.end(), column) != words.end();
}

}  // namespace

RecordSource Record::sources() const {
  RecordSource out{.whole = source(), .exceptions = {}};
  for (std::size_t i = 0; i < table_->columns.size(); ++i) {
    const Cell& cell = line_->cells[i];
    if (is_word(table_->columns[i].name) || cell.text.empty() || cell.source == line_->source) {
      continue;
    }
    out.exceptions.push_back(
        {std::string(table_->columns[i].name), table_->sources[cell.source].second});
  }
  return out;
}

Row Record::row() const {
  Row out{.group = table_->group, .key = key(), .values = "", .source = "", .by_status = {}};
  std::vector<std::size_t> cited;
  const auto count = [&](std::size_t source) {
    ++out.by_status[static_cast<std::size_t>(table_->sources[source].second.status)];
  };
  const auto cite = [&](std::size_t source) {
    if (std::find(cited.begin(), cited.end(), source) != cited.end()) return;
    if (!cited.empty()) out.source += "; ";
    out.source += citation(table_->sources[source].second);
    cited.push_back(source);
  };
  for (std::size_t i = 0; i < table_->columns.size(); ++i) {
    const auto& [name, unit] = table_->columns[i];
    const Cell& cell = line_->cells[i];
    if (is_word(name) || cell.text.empty()) continue;
    if (!out.values.empty()) out.values += ", ";
    out.values.append(name).append(" ").append(cell.text);
    if (!unit.empty()) out.values.append(" ").append(unit);
    cite(cell.source);
    const char first = cell.text.front();
    if (first == '-' || (first >= '0' && first <= '9')) count(cell.source);
  }
  if (cited.empty()) {  // the key is the value: a stock length
    cite(line_->source);
    count(line_->source);
  }
  return out;
}

}  // namespace standtrue::reference
