#include "model/frame_writer.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cctype>

namespace standtrue::model {

namespace {

bool is_plain_character(char c) {
  const auto byte = static_cast<unsigned char>(c);
  return byte >= 0x80 || std::isalnum(byte) != 0 || c == '_' || c == '-' || c == '.' || c == '/' ||
         c == ' ' || c == '(' || c == ')' || c == '+' || c == '=';
}

bool is_plain(std::string_view text) {
  constexpr std::array<std::string_view, 3> nothing = {"null", "Null", "NULL"};
  if (text.empty() || std::find(nothing.begin(), nothing.end(), text) != nothing.end()) {
    return false;
  }
  const auto first = static_cast<unsigned char>(text.front());
  return (std::isalnum(first) != 0 || first >= 0x80) && text.back() != ' ' &&
         std::all_of(text.begin(), text.end(), is_plain_character);
}

}  // namespace

std::string yaml_text(std::string_view text) {
  if (is_plain(text)) return std::string(text);
  std::string quoted = "\"";
  for (const char c : text) {
    if (c == '\n') {
      quoted += "\\n";
    } else if (c == '\t') {
      quoted += "\\t";
    } else {
      if (c == '"' || c == '\\') quoted += '\\';
      quoted += c;
    }
  }
  return quoted + '"';
}

std::string exact_number(double value) {
  return quantity::print_exact(value, quantity::Kind::ratio);
}

std::string exact(const Direction& d) {
  return "[" + exact_number(d.x) + ", " + exact_number(d.y) + ", " + exact_number(d.z) + "]";
}

std::string flow_list(const std::vector<std::string>& items) {
  std::string text = "[";
  for (std::size_t i = 0; i < items.size(); ++i) text += (i > 0 ? ", " : "") + items[i];
  return text + "]";
}

}  // namespace standtrue::model
