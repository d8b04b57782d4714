#include "model/frame_reader.hpp"

#include <algorithm>
#include <cctype>
#include <cmath>

namespace standtrue::model {

std::string listed(const std::vector<std::string>& names) {
  constexpr std::size_t most = 8;
  std::string text;
  for (std::size_t i = 0; i < names.size() && i < most; ++i) {
    text += (i > 0 ? ", " : "") + names[i];
  }
  return names.size() > most ? text + " ..." : text;
}

std::optional<std::size_t> find_name(const document::Field& field,
                                     const std::vector<std::string>& names, std::string_view who,
                                     std::string_view where, FrameReader& reader) {
  if (!field.is(document::Node::Kind::scalar)) {
    reader.note(field.fault(fmt::format("here one name of '{}' is wanted", where), listed(names)));
    return std::nullopt;
  }
  for (std::size_t i = 0; i < names.size(); ++i) {
    if (names[i] == field.text()) return i;
  }
  const std::string near = quantity::nearest(field.text(), names);
  reader.note(field.fault(fmt::format("{} '{}', which is not in {}", who, field.text(), where),
                          !near.empty()   ? near
                          : names.empty() ? fmt::format("an entry '{}' in {}", field.text(), where)
                                          : "one of: " + listed(names)));
  return std::nullopt;
}

std::optional<std::size_t> need_name(document::Map& map, std::string_view key,
                                     const std::vector<std::string>& names, std::string_view who,
                                     std::string_view where, std::string_view example,
                                     FrameReader& reader) {
  const std::optional<document::Field> field = map.need(key, example);
  if (!field) return std::nullopt;
  return find_name(*field, names, who, where, reader);
}

std::optional<double> read_value(const document::Field& field, quantity::Kind kind,
                                 FrameReader& reader) {
  const std::optional<double> value = kind == quantity::Kind::ratio
                                          ? document::read_number(field, *reader.faults)
                                          : document::read_si(field, kind, *reader.faults);
  if (!value) return std::nullopt;
  const double size = std::abs(*value);
  const double most = kind == quantity::Kind::length ? 1e6 : 1e30;
  if (size == 0.0 || (size >= 1e-30 && size <= most)) return value;
  reader.note(field.fault(
      fmt::format("this value is too {} to compute with", size > most ? "large" : "small"),
      "zero, or a value of the size of a frame"));
  return std::nullopt;
}

std::optional<std::array<double, 3>> read_three(const document::Field& field, quantity::Kind kind,
                                                FrameReader& reader) {
  const auto checked = document::read_si_list(field, kind, 3, *reader.faults);
  if (!checked) return std::nullopt;
  const std::vector<document::Field> items = field.items();
  const auto x = read_value(items[0], kind, reader);
  const auto y = read_value(items[1], kind, reader);
  const auto z = read_value(items[2], kind, reader);
  if (!x || !y || !z) return std::nullopt;
  return std::array<double, 3>{*x, *y, *z};
}

double need_positive(document::Map& map, std::string_view key, quantity::Kind kind,
                     std::string_view example, FrameReader& reader) {
  const std::optional<document::Field> field = map.need(key, example);
  if (!field) return 0.0;
  const std::optional<double> value = read_value(*field, kind, reader);
  if (!value) return 0.0;
  if (!(*value > 0.0)) {
    reader.note(
        field->fault(fmt::format("{} must be greater than zero", key), std::string(example)));
  }
  return *value;
}

std::optional<double> not_negative(document::Map& map, std::string_view key, quantity::Kind kind,
                                   FrameReader& reader) {
  const std::optional<document::Field> field = map.find(key);
  if (!field) return std::nullopt;
  const std::optional<double> value = read_value(*field, kind, reader);
  if (value && *value < 0.0) {
    reader.note(field->fault(fmt::format("{} must not be negative", key),
                             fmt::format("{}: {}", key, without_sign(field->text()))));
    return std::nullopt;
  }
  return value;
}

bool is_word(std::string_view text) {
  return !text.empty() && std::isalpha(static_cast<unsigned char>(text.front())) != 0;
}

std::string without_sign(std::string_view text) {
  return std::string(text.substr(text.rfind('-', 0) == 0 ? 1 : 0));
}

std::optional<Length> station(const document::Field& field, std::string_view key, double at,
                              MemberId member, FrameReader& reader) {
  const std::optional<double> length =
      member < reader.flexible_length.size() ? reader.flexible_length[member] : std::nullopt;
  if (!length) return quantity::metres(at);
  const double slack = 1e-9 * *length;
  if (at >= -slack && at <= *length + slack) {
    return quantity::metres(std::clamp(at, 0.0, *length));
  }
  const std::string end = quantity::print(*length, quantity::Kind::length);
  reader.note(field.fault(fmt::format("this place lies beyond member '{}', whose flexible part is "
                                      "{} long",
                                      reader.out.model.members[member].name, end),
                          fmt::format("{}: {}", key, at < 0.0 ? "0 mm" : end)));
  return std::nullopt;
}

std::optional<Direction> find_direction(document::Map& map, std::string_view key,
                                        FrameReader& reader) {
  const std::optional<document::Field> field = map.find(key);
  if (!field) return std::nullopt;
  const std::vector<document::Field> items = field->items();
  if (items.size() != 3) {
    reader.note(field->fault(fmt::format("'{}' is a direction of three numbers", key),
                             fmt::format("{}: [0, 0, 1]", key)));
    return std::nullopt;
  }
  const auto x = document::read_number(items[0], *reader.faults);
  const auto y = document::read_number(items[1], *reader.faults);
  const auto z = document::read_number(items[2], *reader.faults);
  if (!x || !y || !z) return std::nullopt;
  const double length = std::hypot(*x, *y, *z);
  if (!(length > 1e-9 && length < 1e9)) {
    reader.note(
        field->fault(fmt::format("'{}' points nowhere", key), fmt::format("{}: [0, 0, 1]", key)));
    return std::nullopt;
  }
  return Direction{*x, *y, *z};
}

Direction unit_direction(const Direction& d) {
  const double length = std::hypot(d.x, d.y, d.z);
  if (std::abs(length - 1.0) < 1e-12) return d;
  return {d.x / length, d.y / length, d.z / length};
}

bool is_rotation(Freedom freedom) { return freedom >= Freedom::rx; }

quantity::Kind stiffness_kind(Freedom freedom) {
  return is_rotation(freedom) ? quantity::Kind::rotational_stiffness
                              : quantity::Kind::linear_stiffness;
}

Direction axis_of(Freedom freedom) {
  switch (freedom) {
    case Freedom::x:
    case Freedom::rx:
      return {1.0, 0.0, 0.0};
    case Freedom::y:
    case Freedom::ry:
      return {0.0, 1.0, 0.0};
    default:
      return {0.0, 0.0, 1.0};
  }
}

const std::string& word_of(Freedom freedom) {
  return freedom_words()[static_cast<std::size_t>(freedom)];
}

}  // namespace standtrue::model
