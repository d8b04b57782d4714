#include <algorithm>
#include <cmath>

#include "bench/own_strengths.hpp"
#include "bench/reader.hpp"

namespace standtrue::bench {
namespace {

using reference::Timber;

/// What to write, under the file's rules.
std::string_view timber_example(const Reader& reader) {
  return reader.bench.rules == Rules::allowable_stress ? "timber: SPF No.2 2x4"
                                                       : "timber: C16 38 x 89 mm";
}

constexpr std::string_view between_words = " \t,;";

struct Size {
  Length thickness, depth;
};

Size sorted(Length a, Length b) { return {std::min(a, b), std::max(a, b)}; }

/// The US size that is called by these whole inches, as `2x4` is; none for other sizes.
const reference::Section* called_by(const Reader& reader, const Size& size) {
  const double inch = 0.0254;
  const double a = in_si(size.thickness) / inch, b = in_si(size.depth) / inch;
  if (std::abs(a - std::round(a)) > 1e-6 || std::abs(b - std::round(b)) > 1e-6) return nullptr;
  const auto* section = reader.tables.section(fmt::format("{:.0f}x{:.0f}", a, b));
  return section != nullptr && section->family == "US dressed" ? section : nullptr;
}

/// US timber is called by sizes that it has not: who writes `2 x 4 in` may mean a `2x4`.
void warn_of_nominal(Reader& reader, const Field& field, const Size& size, std::string_view text,
                     std::size_t offset) {
  const bool is_metric = text.find('m') != std::string_view::npos;
  if (reader.bench.rules != Rules::allowable_stress || is_metric) return;
  const reference::Section* dressed = called_by(reader, size);
  if (dressed == nullptr) return;
  const auto inches = [](Length length) {
    return quantity::print(in_si(length), Kind::length, quantity::UnitSystem::imperial);
  };
  const std::string& whole = field.text();
  Diagnostic warning = field.fault(quantity::TextFault{
      .offset = offset,
      .length = text.size(),
      .what = fmt::format("{} x {} is taken as written; a dressed {} is {} x {}",
                          inches(size.thickness), inches(size.depth), dressed->key,
                          inches(dressed->thickness), inches(dressed->depth)),
      .instead = whole.substr(0, offset) + dressed->key + whole.substr(offset + text.size())});
  warning.severity = Severity::warning;
  reader.note_once("warn_of_nominal", std::move(warning));
}

/// The size in part of a scalar: `38 x 89 mm`. `offset` is where it begins there.
std::optional<Size> parse_size(Reader& reader, const Field& field, std::string_view text,
                               std::size_t offset) {
  const auto pair = quantity::parse_pair(text);
  if (!pair) {
    quantity::TextFault fault = pair.error();
    const std::string& whole = field.text();
    fault.instead = whole.substr(0, offset) + fault.instead + whole.substr(offset + text.size());
    fault.offset += offset;
    reader.note(field.fault(fault));
    return std::nullopt;
  }
  const Size size = sorted((*pair)[0], (*pair)[1]);
  if (size.thickness < millimetres(1.0) || size.depth > metres(2.0)) {
    reader.note(field.fault(fmt::format("'{}' is no size of a piece of timber", text),
                            "section: 38 x 89 mm"));
    return std::nullopt;
  }
  warn_of_nominal(reader, field, size, text, offset);
  return size;
}

/// What a text such as `C24 2x4` says: a class, a size, or both.
struct Words {
  std::optional<std::string> timber;
  std::optional<Size> size;
  bool sound = true;
};

Size size_of(const reference::Section& section) { return {section.thickness, section.depth}; }

/// `C24 2x4` or `CLS 4x2 C24`: the text parted at a blank so that one side is a size by name.
std::optional<Words> parted(const Reader& reader, const std::string& text) {
  for (std::size_t at = text.find(' '); at != std::string::npos; at = text.find(' ', at + 1)) {
    const std::string left = trimmed(std::string_view(text).substr(0, at), between_words);
    const std::string right = trimmed(std::string_view(text).substr(at), between_words);
    if (const auto* section = reader.tables.section(right)) return Words{left, size_of(*section)};
    if (const auto* section = reader.tables.section(left)) return Words{right, size_of(*section)};
  }
  return std::nullopt;
}

Words read_words(Reader& reader, const Field& field) {
  const std::string& text = field.text();
  if (const auto* section = reader.tables.section(text)) return {{}, size_of(*section)};
  const quantity::LengthRun run = quantity::find_length_run(text);
  if (run.length > 0) {
    const std::string_view written = std::string_view(text).substr(run.offset, run.length);
    Words words;
    words.size = parse_size(reader, field, written, run.offset);
    words.sound = words.size.has_value();
    const std::string rest = trimmed(
        text.substr(0, run.offset) + " " + text.substr(run.offset + run.length), between_words);
    if (!rest.empty()) words.timber = rest;
    return words;
  }
  if (reader.tables.timber(text) != nullptr) return {text, {}};
  if (const auto words = parted(reader, text)) return *words;
  const std::size_t figure = text.find(" x ");
  if (figure != std::string::npos) {  // a size without its unit
    const std::size_t before = text.rfind(' ', figure - 1);
    const std::size_t begin = before == std::string::npos || figure == 0 ? 0 : before + 1;
    Words words;
    words.size = parse_size(reader, field, std::string_view(text).substr(begin), begin);
    words.sound = false;
    return words;
  }
  return {trimmed(text, between_words), {}};
}

/// A class by name; `marked` is false when the name is only a word for a wood.
void take_class(Reader& reader, const Field& field, const std::string& name, Stock& stock) {
  const Timber* named = reader.tables.timber(name);
  if (named == nullptr) {
    const bool allowable = reader.bench.rules == Rules::allowable_stress;
    unknown_word(reader, field, name, "timber", reader.tables.timber_names(),
                 allowable ? "SPF No.2" : "C16");
    return;
  }
  stock.timber = by_rules(reader, field, name, *named);
  stock.marked = is_class_name(*named, name);
  if (!stock.marked) {
    reader.assume(fmt::format("{} timber where the file says '{}'", stock.timber.key, name));
  }
}

void assume_class(Reader& reader, Stock& stock) {
  stock.timber = unmarked_timber(reader);
  stock.marked = false;
  reader.assume(fmt::format("{} timber: the file names no class", stock.timber.key));
}

void no_size(Reader& reader, const Field& field) {
  reader.note(field.fault("this timber has no size", std::string(timber_example(reader))));
}

/// Timber of any kind is softer than 50 GPa and stiffer than 1 GPa, along the grain; strong enough
/// for 300 N/mm2 is none (ours, wide of any handbook's: from memory, 3 to 25 GPa).
constexpr double least_E = 1e9, most_E = 50e9, most_strength = 300e6;

void is_timber(Reader& reader, Map& map, std::string_view key, Stress value, double least,
               double most, std::string_view example) {
  if (in_si(value) >= least && in_si(value) <= most) return;
  const auto field = map.find(key);
  if (field) reader.note(field->fault("no timber is like that", std::string(example)));
}

/// E, G, density and strengths of the file in place of those of the class. What belongs to a value
/// (its 5 % value) moves in proportion.
bool read_own_timber_values(Reader& reader, Map& map, Timber& timber) {
  const std::size_t before = timber.source.exceptions.size();
  if (const auto E = positive_of<Stress>(reader, map, "E", Kind::stress)) {
    is_timber(reader, map, "E", *E, least_E, most_E, "E: 11 GPa");
    timber.E_0_05 *= in_si(*E) / in_si(timber.E_0_mean);
    timber.E_90_mean *= in_si(*E) / in_si(timber.E_0_mean);
    if (timber.allowable) timber.allowable->E_min *= in_si(*E) / in_si(timber.E_0_mean);
    timber.E_0_mean = *E;
    given(timber.source, "E_0_mean");
    given(timber.source, "E_0_05");
    given(timber.source, "E_90_mean");
  }
  if (const auto E_05 = positive_of<Stress>(reader, map, "E_low", Kind::stress)) {
    is_timber(reader, map, "E_low", *E_05, 0.5 * least_E, in_si(timber.E_0_mean),
              "E_low: " + quantity::print(0.67 * in_si(timber.E_0_mean), Kind::stress));
    timber.E_0_05 = *E_05;
    given(timber.source, "E_0_05");
  }
  if (const auto G = positive_of<Stress>(reader, map, "G", Kind::stress)) {
    timber.G_mean = *G;
    given(timber.source, "G_mean");
  }
  if (const auto rho = positive_of<quantity::Density>(reader, map, "density", Kind::density)) {
    timber.rho_k *= in_si(*rho) / in_si(timber.rho_mean);
    timber.rho_mean = *rho;
    given(timber.source, "rho_mean");
    given(timber.source, "rho_k");
  }
  if (const auto field = map.find("strengths")) {
    Map strengths(*field, reader.faults, "strengths: {bending: 16 N/mm2, shear: 3.2 N/mm2}");
    for (const OwnStrength& own : own_strengths) {
      const auto value = positive_of<Stress>(reader, strengths, own.key, Kind::stress);
      if (!value) continue;
      is_timber(reader, strengths, own.key, *value, 0.0, most_strength,
                std::string(own.key) + ": 3 N/mm2");
      timber.*own.value = *value;
      given(timber.source, std::string(own.key));
    }
    strengths.finish();
    if (timber.allowable) {
      reader.note(field->fault(
          "'strengths' are characteristic ones, and this file is judged by allowable stresses",
          "rules: limit states"));
    }
  }
  return timber.source.exceptions.size() > before;
}

std::optional<Stock> read_stock_map(Reader& reader, const Field& field,
                                    const std::optional<Stock>& usual) {
  Map map(field, reader.faults, timber_example(reader));
  Stock stock = usual.value_or(Stock{});
  bool has_size = usual.has_value();
  const std::optional<Field> name = map.find("class");
  if (name) {
    if (const auto text = text_of(reader, *name, "class: C16")) {
      stock.timber = unmarked_timber(reader);
      take_class(reader, *name, *text, stock);
    }
  } else if (!usual) {
    stock.timber = unmarked_timber(reader);
    stock.marked = false;
  }
  if (const auto section = map.find("section")) {
    has_size = true;  // or its fault is noted
    if (const auto text = text_of(reader, *section, "section: 38 x 89 mm")) {
      const auto* known = reader.tables.section(*text);
      const auto size = known != nullptr ? std::optional<Size>(size_of(*known))
                                         : parse_size(reader, *section, *text, 0);
      if (size) {
        stock.thickness = size->thickness;
        stock.depth = size->depth;
      }
    }
  }
  take_values_of_width(reader, field, stock);
  const std::string base = stock.timber.key;
  const bool own = read_own_timber_values(reader, map, stock.timber);
  if (own) {
    stock.timber.key = name ? base + " with own values" : "own values";
    stock.marked = true;
    if (!name)
      reader.assume(fmt::format("the values of {} where the file gives none of its own", base));
  } else if (!name && !usual) {
    assume_class(reader, stock);
  }
  map.finish();
  if (has_size) return stock;
  no_size(reader, field);
  return std::nullopt;
}

}  // namespace

std::optional<Stock> read_stock(Reader& reader, const Field& field,
                                const std::optional<Stock>& usual) {
  if (field.is(document::Node::Kind::map)) return read_stock_map(reader, field, usual);
  if (!text_of(reader, field, timber_example(reader))) return std::nullopt;
  const Words words = read_words(reader, field);
  Stock stock = usual.value_or(Stock{});
  if (words.size) {
    stock.thickness = words.size->thickness;
    stock.depth = words.size->depth;
  }
  if (words.timber) {
    stock.timber = unmarked_timber(reader);
    take_class(reader, field, *words.timber, stock);
  } else if (!usual && words.sound) {
    assume_class(reader, stock);
  }
  if (!words.sound) return std::nullopt;
  if (words.size || usual) {
    take_values_of_width(reader, field, stock);
    return stock;
  }
  if (reader.tables.timber(words.timber.value_or("")) != nullptr) no_size(reader, field);
  return std::nullopt;
}

std::optional<Stock> member_stock(Reader& reader, Map& map, const std::optional<Stock>& usual) {
  std::optional<Stock> stock = usual;
  if (const auto field = map.find("timber")) {
    // A section beside it completes a timber that names only its class.
    std::optional<Stock> base = usual;
    if (!base && map.has("section")) base = Stock{};
    if (const auto read = read_stock(reader, *field, base)) stock = read;
  }
  const auto field = map.find("section");
  if (!field) return stock;
  const auto text = text_of(reader, *field, "section: 38 x 89 mm");
  if (!text) return stock;
  const auto* known = reader.tables.section(*text);
  const auto size = known != nullptr ? std::optional<Size>(size_of(*known))
                                     : parse_size(reader, *field, *text, 0);
  if (!size) return stock;
  if (!stock) {
    stock = Stock{};
    assume_class(reader, *stock);
  }
  stock->thickness = size->thickness;
  stock->depth = size->depth;
  take_values_of_width(reader, *field, *stock);
  return stock;
}

void read_default_stock(Reader& reader, Map& top, bool is_needed) {
  const auto field = is_needed ? top.need("timber", timber_example(reader)) : top.find("timber");
  reader.stock_place = field;
  if (field) reader.stock = read_stock(reader, *field, std::nullopt);
  if (reader.stock || !is_needed) return;
  Stock stand_in;  // so that the rest of the file is read too; its fault has been noted
  stand_in.timber = unmarked_timber(reader);
  stand_in.thickness = millimetres(38.0);
  stand_in.depth = millimetres(89.0);
  reader.stock = stand_in;
}

}  // namespace standtrue::bench
