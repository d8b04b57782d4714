#include <algorithm>

#include "bench/reader.hpp"

namespace standtrue::bench {
namespace {

constexpr double smallest_size = 1e-3;    // m
constexpr double largest_length = 100.0;  // m
constexpr std::size_t most_items = 200;

std::string last_key(const Field& field) {
  const std::string& path = field.path();
  const std::size_t dot = path.rfind('.');
  const std::string key = dot == std::string::npos ? path : path.substr(dot + 1);
  return key.find('[') == std::string::npos ? key + ": " : "";
}

std::optional<Length> within(Reader& reader, const Field& field, std::optional<double> metres_read,
                             double least) {
  if (!metres_read) return std::nullopt;
  const double m = *metres_read;
  if (m < least) {
    const std::string limit = least > 0.0 ? "1 mm" : least < 0.0 ? "-100 m" : "0 mm";
    reader.note(
        field.fault(fmt::format("'{}' is too small: {} is the least here", field.text(), limit),
                    last_key(field) + (least < 0.0 ? "0 mm" : "100 mm")));
    return std::nullopt;
  }
  if (m > largest_length) {
    reader.note(field.fault(
        fmt::format("'{}' is too large for a bench: 100 m is the most here", field.text()),
        last_key(field) + "100 mm"));
    return std::nullopt;
  }
  return metres(m);
}

std::optional<Length> read_within(Reader& reader, const Field& field, double least) {
  return within(reader, field, document::read_si(field, Kind::length, reader.faults), least);
}

/// What no bench reaches, in SI: a slip of units, most likely.
double absurd(Kind kind) {
  switch (kind) {
    case Kind::mass:
      return 1e5;
    case Kind::force:
      return 1e6;
    case Kind::moment:
      return 1e6;
    case Kind::density:
      return 2e4;
    case Kind::area_load:
      return 1e6;
    case Kind::speed:
      return 2e3;
    default:
      return 1e13;
  }
}

}  // namespace

void Reader::assume(const std::string& what) {
  const std::string line = "I assumed " + what;
  auto& lines = bench.assumptions;
  if (std::find(lines.begin(), lines.end(), line) == lines.end()) lines.push_back(line);
}

void Reader::note_once(const std::string& sort, Diagnostic diagnostic) {
  const std::string key = fmt::format("{} {}:{}", sort, diagnostic.at.line, diagnostic.at.column);
  if (std::find(noted.begin(), noted.end(), key) != noted.end()) return;
  noted.push_back(key);
  note(std::move(diagnostic));
}

const Field& Reader::place(const std::string& part, const Field& otherwise) const {
  const auto found = places.find(part);
  return found == places.end() ? otherwise : found->second;
}

std::optional<Length> read_size(Reader& reader, const Field& field) {
  return read_within(reader, field, smallest_size);
}

std::optional<Length> read_place(Reader& reader, const Field& field) {
  return read_within(reader, field, -largest_length);
}

std::optional<Length> size(Reader& reader, Map& map, std::string_view key) {
  const std::optional<Field> field = map.find(key);
  return field ? read_size(reader, *field) : std::nullopt;
}

std::optional<Length> size_or_zero(Reader& reader, Map& map, std::string_view key) {
  const std::optional<Field> field = map.find(key);
  return field ? read_within(reader, *field, 0.0) : std::nullopt;
}

std::optional<Length> place(Reader& reader, Map& map, std::string_view key) {
  const std::optional<Field> field = map.find(key);
  return field ? read_place(reader, *field) : std::nullopt;
}

std::optional<std::array<Length, 2>> place_pair(Reader& reader, const Field& field) {
  const auto values = document::read_si_list(field, Kind::length, 2, reader.faults);
  if (!values) return std::nullopt;
  const std::vector<Field> items = field.items();
  const auto x = within(reader, items[0], (*values)[0], -largest_length);
  const auto y = within(reader, items[1], (*values)[1], -largest_length);
  if (!x || !y) return std::nullopt;
  return std::array<Length, 2>{*x, *y};
}

std::optional<std::array<Length, 2>> place_pair(Reader& reader, Map& map, std::string_view key) {
  const std::optional<Field> field = map.find(key);
  return field ? place_pair(reader, *field) : std::nullopt;
}

std::optional<double> positive(Reader& reader, Map& map, std::string_view key, Kind kind,
                               bool zero) {
  const std::optional<Field> field = map.find(key);
  if (!field) return std::nullopt;
  const std::optional<double> value = document::read_si(*field, kind, reader.faults);
  if (!value) return std::nullopt;
  if (*value < 0.0 || (*value == 0.0 && !zero)) {
    reader.note(field->fault(
        fmt::format("'{}' must be {}", field->text(), zero ? "zero or more" : "more than zero"),
        ""));
    return std::nullopt;
  }
  if (*value > absurd(kind)) {
    reader.note(field->fault(fmt::format("'{}' is beyond any bench", field->text()), ""));
    return std::nullopt;
  }
  return value;
}

std::optional<int> few(Reader& reader, Map& map, std::string_view key) {
  const std::optional<Field> field = map.find(key);
  if (!field) return std::nullopt;
  const std::optional<int> count = document::read_count(*field, reader.faults);
  if (!count) return std::nullopt;
  if (*count < 1 || *count > static_cast<int>(most_items)) {
    reader.note(field->fault(fmt::format("'{}' is not from 1 to 200", field->text()),
                             fmt::format("{}: 2", key)));
    return std::nullopt;
  }
  return count;
}

std::optional<std::string> text_of(Reader& reader, const Field& field, std::string_view example) {
  if (field.is(document::Node::Kind::scalar)) return field.text();
  reader.note(field.fault("some text is wanted here", std::string(example)));
  return std::nullopt;
}

void unknown_word(Reader& reader, const Field& field, std::string_view word, std::string_view what,
                  const std::vector<std::string>& known, std::string_view example) {
  const std::string meant = quantity::nearest(word, known);
  const std::string shown = word.size() > 48 ? "a long text" : fmt::format("'{}'", word);
  const std::string& whole = field.text();
  const std::size_t at = whole.find(word);
  const bool inside = at != std::string::npos && !word.empty() && word.size() < whole.size();
  std::string instead = meant.empty() ? std::string(example) : meant;
  if (inside && !meant.empty()) {
    instead = whole.substr(0, at) + meant + whole.substr(at + word.size());
  }
  reader.note(
      field.fault(quantity::TextFault{.offset = inside ? at : 0,
                                      .length = inside ? word.size() : whole.size(),
                                      .what = fmt::format("{} is no {} that I know", shown, what),
                                      .instead = instead}));
}

std::vector<Field> items_of(Reader& reader, const Field& field) {
  if (field.is(document::Node::Kind::nothing)) return {};
  if (!field.is(document::Node::Kind::list)) return {field};
  std::vector<Field> items = field.items();
  if (items.size() <= most_items) return items;
  reader.note(
      field.fault(fmt::format("{} of them are too many: 200 is the most", items.size()), ""));
  items.erase(items.begin() + static_cast<std::ptrdiff_t>(most_items), items.end());
  return items;
}

std::string trimmed(std::string_view text, std::string_view marks) {
  const std::size_t begin = text.find_first_not_of(marks);
  if (begin == std::string_view::npos) return "";
  return std::string(text.substr(begin, text.find_last_not_of(marks) - begin + 1));
}

void given(reference::RecordSource& source, std::string value) {
  source.exceptions.push_back(
      {std::move(value), reference::Source{.key = "", .where = "given by the bench file"}});
}

bool is_text(const Field& field, std::string_view text) {
  return field.is(document::Node::Kind::scalar) && field.text() == text;
}

std::optional<Field> either(Reader& reader, Map& map, std::string_view key,
                            std::string_view other) {
  const std::optional<Field> first = map.find(key);
  const std::optional<Field> second = map.find(other);
  if (first && second) {
    reader.note(second->fault(fmt::format("'{}' and '{}' are the same thing", other, key),
                              fmt::format("one of them; '{}' is the usual word", key)));
  }
  return first ? first : second;
}

std::string called(const std::string& name) {
  return name.find(' ') == std::string::npos ? "'" + name + "'" : "the " + name;
}

std::string say(Length length, const Reader& reader) {
  return quantity::print(in_si(length), Kind::length, reader.bench.units);
}

}  // namespace standtrue::bench
