#include "quantity/wording.hpp"

#include <utility>

namespace standtrue::quantity {

std::string quoted(std::string_view text) {
  constexpr std::size_t longest = 48;
  if (text.size() <= longest) return "'" + std::string(text) + "'";
  std::size_t end = longest - 3;
  // Never cut inside a code point: step back over UTF-8 continuation bytes.
  while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xC0U) == 0x80U) --end;
  return "'" + std::string(text.substr(0, end)) + "...'";
}

std::string replaced(std::string_view text, std::size_t offset, std::size_t length,
                     std::string_view with) {
  std::string out(text.substr(0, offset));
  out += with;
  out += text.substr(offset + length);
  return out;
}

std::string lower_case(std::string_view text) {
  std::string out(text);
  for (char& c : out) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  return out;
}

bool is_space(char c) { return c == ' ' || c == '\t' || c == '\n'; }
bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }

std::size_t skip_spaces(std::string_view text, std::size_t at) {
  while (at < text.size() && is_space(text[at])) ++at;
  return at;
}

std::string_view without_trailing_spaces(std::string_view text) {
  while (!text.empty() && is_space(text.back())) text.remove_suffix(1);
  return text;
}

std::string_view trimmed(std::string_view text) {
  text = without_trailing_spaces(text);
  return text.substr(skip_spaces(text, 0));
}

std::size_t word_end(std::string_view text, std::size_t at) {
  while (at < text.size() && !is_space(text[at])) ++at;
  return at;
}

tl::unexpected<TextFault> fault_at(std::size_t offset, std::size_t length, std::string what,
                                   std::string instead) {
  return tl::unexpected<TextFault>(TextFault{
      .offset = offset, .length = length, .what = std::move(what), .instead = std::move(instead)});
}

tl::unexpected<TextFault> left_over(std::string_view text, std::size_t end, std::size_t from) {
  const std::string_view rest = trimmed(text.substr(from));
  const std::string_view kept = trimmed(text.substr(0, end));
  return fault_at(from, rest.size(), quoted(rest) + " is left over after " + quoted(kept),
                  std::string(kept));
}

}  // namespace standtrue::quantity
