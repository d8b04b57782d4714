#include <fmt/format.h>

#include <utility>

#include "document/quotes.hpp"
#include "document/wanted.hpp"
#include "standtrue/document/document.hpp"

namespace standtrue::document {

std::string what_stands_at(const Field& field) {
  switch (field.node().kind) {
    case Node::Kind::nothing:
      return "nothing";
    case Node::Kind::list:
      return "a list";
    case Node::Kind::map:
      return "a map";
    case Node::Kind::scalar:
      break;
  }
  constexpr std::size_t longest = 48;
  if (field.text().size() <= longest) return "'" + field.text() + "'";
  return "a long text";
}

std::string listed(const std::vector<std::string>& words) {
  std::string out;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (i > 0) out += i + 1 < words.size() ? ", " : " or ";
    out += words[i];
  }
  return out;
}

bool is_scalar(const Field& field, std::string_view example, std::vector<Diagnostic>& faults) {
  if (field.is(Node::Kind::scalar)) return true;
  const bool empty = field.is(Node::Kind::nothing);
  faults.push_back(field.fault(quantity::TextFault{
      .offset = 0,
      .length = 0,
      .what =
          empty ? "there is no value" : what_stands_at(field) + " stands where one value is wanted",
      .instead = std::string(example)}));
  return false;
}

namespace {

/// The value of a scalar read by `parse`; its fault is noted at its place in the file.
template <class T, class Parse>
std::optional<T> read_with(const Field& field, std::vector<Diagnostic>& faults, Parse parse) {
  const std::string example = parse(std::string_view("")).error().instead;
  if (!is_scalar(field, example, faults)) return std::nullopt;
  const quantity::Parsed<T> value = parse(std::string_view(field.text()));
  if (value) return *value;
  faults.push_back(field.fault(value.error()));
  return std::nullopt;
}

}  // namespace

std::optional<double> read_si(const Field& field, quantity::Kind kind,
                              std::vector<Diagnostic>& faults) {
  return read_with<double>(
      field, faults, [kind](std::string_view text) { return quantity::parse_si(text, kind); });
}

std::optional<double> read_number(const Field& field, std::vector<Diagnostic>& faults) {
  return read_with<double>(field, faults, quantity::parse_number);
}

std::optional<int> read_count(const Field& field, std::vector<Diagnostic>& faults) {
  return read_with<int>(field, faults, quantity::parse_count);
}

std::optional<std::vector<double>> read_si_list(const Field& field, quantity::Kind kind,
                                                std::size_t n, std::vector<Diagnostic>& faults) {
  const std::vector<Field> items = field.items();
  if (!field.is(Node::Kind::list) || items.size() != n) {
    const std::string example = quantity::parse_si("", kind).error().instead;
    std::string list = "[";
    for (std::size_t i = 0; i < n; ++i) list += (i > 0 ? ", " : "") + example;
    const std::string found = field.is(Node::Kind::list) ? fmt::format("a list of {}", items.size())
                                                         : what_stands_at(field);
    faults.push_back(field.fault(fmt::format("{} stands where a list of {} is wanted", found, n),
                                 as_entry(last_key(field.path()), list + "]")));
    return std::nullopt;
  }
  std::vector<double> values;
  for (const Field& item : items) {
    if (const auto value = read_si(item, kind, faults)) values.push_back(*value);
  }
  if (values.size() != n) return std::nullopt;
  return values;
}

}  // namespace standtrue::document
