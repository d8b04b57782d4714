#include <algorithm>
#include <array>
#include <string>
#include <vector>

#include "quantity/number.hpp"
#include "quantity/unit.hpp"
#include "quantity/wording.hpp"
#include "standtrue/quantity/unit_text.hpp"

namespace standtrue::quantity {
namespace {

/// Length of the `x`, `X` or `×` at `at` that joins two figures, else 0.
std::size_t times_at(std::string_view text, std::size_t at) {
  const bool cross = text.substr(at, 2) == "\xC3\x97";
  const bool letter = at < text.size() && (text[at] == 'x' || text[at] == 'X');
  if (!cross && !letter) return 0;
  const std::size_t size = cross ? 2 : 1;
  const std::size_t next = skip_spaces(text, at + size);
  const bool figure_follows = next < text.size() && (is_digit(text[next]) || text[next] == '.' ||
                                                     text[next] == '-' || text[next] == '+');
  return figure_follows ? size : 0;
}

struct Piece {
  std::size_t offset = 0;
  std::size_t length = 0;
};

/// The trimmed ranges between the times signs.
std::vector<Piece> split(std::string_view text) {
  std::vector<Piece> pieces;
  std::size_t begin = 0;
  for (std::size_t at = 0; at <= text.size(); ++at) {
    const std::size_t times = at < text.size() ? times_at(text, at) : 1;
    if (times == 0) continue;
    const std::size_t offset = skip_spaces(text, begin);
    const std::size_t end = offset < at ? at : offset;
    pieces.push_back({offset, without_trailing_spaces(text.substr(offset, end - offset)).size()});
    begin = at + times;
    at += times - 1;
  }
  return pieces;
}

bool is_number_alone(std::string_view piece) {
  const Parsed<Number> number = read_number(piece, 0);
  return number && number->end == piece.size();
}

/// The unit of a last piece that is one number and one unit, else empty.
std::string_view unit_at_the_end(std::string_view piece) {
  const Parsed<Number> number = read_number(piece, 0);
  if (!number) return {};
  const std::size_t at = skip_spaces(piece, number->end);
  return read_length_unit(piece, at).end == piece.size() ? piece.substr(at) : std::string_view{};
}

/// One of the lengths; a fault counts from the start of the whole text.
Parsed<double> parse_piece(std::string_view text, Piece range, std::string_view shared_unit) {
  const std::string_view piece = text.substr(range.offset, range.length);
  std::string written(piece);
  if (is_number_alone(piece) && !shared_unit.empty()) written += " " + std::string(shared_unit);
  Parsed<double> size = parse_si(written, Kind::length);
  if (size) return size;
  TextFault& fault = size.error();
  fault.instead = replaced(text, range.offset, range.length, fault.instead);
  fault.length = std::min(fault.length, piece.size() - std::min(fault.offset, piece.size()));
  fault.offset += range.offset;
  return size;
}

template <std::size_t n>
Parsed<std::array<Length, n>> parse_sizes(std::string_view text, std::string_view example) {
  text = without_trailing_spaces(text);
  const std::size_t begin = skip_spaces(text, 0);
  if (begin >= text.size()) return fault_at(0, 0, "there is no value", std::string(example));
  const std::vector<Piece> pieces = split(text);
  if (pieces.size() != n) {
    const std::string wanted = n == 2 ? "two" : "three";
    return fault_at(begin, text.size() - begin,
                    quoted(text.substr(begin)) + " is not " + wanted + " lengths joined by 'x'",
                    std::string(example));
  }
  const std::string_view last = text.substr(pieces.back().offset, pieces.back().length);
  const std::string_view shared_unit = unit_at_the_end(last);
  std::array<Length, n> sizes{};
  // The last first: when it is bad, the others may lack only the unit that it should have given.
  for (std::size_t i = n; i-- > 0;) {
    const Parsed<double> size = parse_piece(text, pieces[i], shared_unit);
    if (!size) return tl::unexpected<TextFault>(size.error());
    sizes[i] = metres(*size);
  }
  return sizes;
}

struct Scan {
  std::size_t end = 0;  ///< 0: no figure here
  bool has_unit = false;
};

/// A figure such as `38`, `1 1/2 in` or `6 ft 2 in` that begins at `at`.
Scan scan_figure(std::string_view text, std::size_t at) {
  Scan scan;
  while (at < text.size() && is_digit(text[at])) {
    const Parsed<Number> number = read_number(text, at);
    if (!number) break;
    const std::size_t unit_at = skip_spaces(text, number->end);
    const std::size_t unit_end = read_length_unit(text, unit_at).end;
    if (unit_end == unit_at) {
      if (scan.end == 0) scan.end = number->end;
      break;
    }
    scan = {unit_end, true};
    at = skip_spaces(text, unit_end);
  }
  return scan;
}

/// The run of one to three figures joined by times signs that begins at `at`; 0 if its last figure
/// has no unit.
std::size_t scan_run(std::string_view text, std::size_t at) {
  Scan figure = scan_figure(text, at);
  for (int i = 1; i < 3 && figure.end > 0; ++i) {
    const std::size_t times = skip_spaces(text, figure.end);
    const std::size_t size = times_at(text, times);
    if (size == 0) break;
    const Scan next = scan_figure(text, skip_spaces(text, times + size));
    if (next.end == 0) break;
    figure = next;
  }
  return figure.has_unit ? figure.end : 0;
}

}  // namespace

Parsed<std::array<Length, 2>> parse_pair(std::string_view text) {
  return parse_sizes<2>(text, "38 x 89 mm");
}

Parsed<std::array<Length, 3>> parse_triple(std::string_view text) {
  return parse_sizes<3>(text, "2050 x 680 x 900 mm");
}

LengthRun find_length_run(std::string_view text) {
  for (std::size_t at = 0; at < text.size(); ++at) {
    const bool may_begin = is_digit(text[at]) && (at == 0 || is_space(text[at - 1]));
    if (!may_begin) continue;
    if (const std::size_t end = scan_run(text, at)) return {at, end - at};
  }
  return {};
}

}  // namespace standtrue::quantity
