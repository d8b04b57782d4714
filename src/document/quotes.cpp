#include "document/quotes.hpp"

#include <algorithm>

namespace standtrue::document {
namespace {

bool is_blank(char c) { return c == ' ' || c == '\t'; }
bool is_space(char c) { return is_blank(c) || c == '\n'; }

std::size_t skip(std::string_view text, std::size_t at, bool (*what)(char)) {
  while (at < text.size() && what(text[at])) ++at;
  return at;
}

}  // namespace

std::size_t quoted_end(std::string_view text, std::size_t at) {
  const char quote = text[at];
  for (std::size_t i = at + 1; i < text.size(); ++i) {
    if (quote == '"' && text[i] == '\\') {
      ++i;
    } else if (text[i] == quote) {
      const bool doubled = quote == '\'' && i + 1 < text.size() && text[i + 1] == quote;
      if (!doubled) return i + 1;
      ++i;
    }
  }
  return npos;
}

std::size_t plain_end(std::string_view text, std::size_t at, std::string_view value) {
  std::size_t i = 0;
  while (i < value.size() && at < text.size()) {
    if (is_space(value[i])) {
      i = skip(value, i, is_space);
      at = skip(text, at, is_space);
    } else if (value[i++] != text[at++]) {
      return npos;
    }
  }
  return at;
}

std::size_t cutting_comment(std::string_view text, std::size_t at) {
  if (at == npos) return npos;
  const std::size_t hash = skip(text, at, is_blank);
  const bool cuts = hash > at && hash + 1 < text.size() && text[hash] == '#' &&
                    !is_space(text[hash + 1]) && text[hash + 1] != '#';
  return cuts ? hash : npos;
}

std::string_view rest_of_line(std::string_view text, std::size_t at) {
  std::string_view rest = text.substr(at, text.find('\n', at) - at);
  while (!rest.empty() && is_blank(rest.back())) rest.remove_suffix(1);
  return rest;
}

std::string as_scalar(std::string_view value) {
  const bool plain = !value.empty() && value.find_first_of("\"'#&*!|>%@`[]{},?:-", 0) != 0 &&
                     value.find(" #") == npos && value.find(": ") == npos && value.back() != ':';
  const bool negative = value.size() > 1 && value[0] == '-' && value[1] >= '0' && value[1] <= '9';
  if (plain || negative) return std::string(value);
  std::string out = "\"";
  for (const char c : value) {
    if (c == '"' || c == '\\') out += '\\';
    out += c;
  }
  return out + "\"";
}

std::string as_entry(std::string_view key, std::string_view value) {
  return key.empty() ? std::string(value) : std::string(key) + ": " + std::string(value);
}

std::string_view last_key(std::string_view path) {
  if (!path.empty() && path.back() == ']') return {};
  const std::size_t dot = path.rfind('.');
  return dot == npos ? path : path.substr(dot + 1);
}

}  // namespace standtrue::document
