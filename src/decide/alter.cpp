#include "decide/alter.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "standtrue/bench/ledger.hpp"
#include "standtrue/bench/stock_text.hpp"
#include "standtrue/document/overlay.hpp"

namespace standtrue::decide {

namespace {

/// What a key with a single value means as a group: `rails: 45 x 120 mm` is `rails: {section:
/// ...}`.
struct ShortForm {
  std::string_view key, inner;
};
constexpr std::array<ShortForm, 7> short_forms = {{{"rails", "section"},
                                                   {"posts", "section"},
                                                   {"top", "sheet"},
                                                   {"shelf", "sheet"},
                                                   {"joints", "kind"},
                                                   {"feet", "thread"},
                                                   {"floor", "surface"}}};

const document::Node* value_of(const document::Node& map, std::string_view key) {
  for (const document::Entry& entry : map.entries) {
    if (entry.key == key) return &entry.value;
  }
  return nullptr;
}

/// A change of a group must not lose the single value that stands in its place: it is written
/// along.
std::string with_single_values(const document::Document& document, std::string yaml) {
  const document::Node changes = document::node_of(yaml);
  for (const ShortForm& form : short_forms) {
    const document::Node* change = value_of(changes, form.key);
    const document::Node* now = value_of(document.root, form.key);
    if (!change || change->kind != document::Node::Kind::map) continue;
    // Said anew: "timber" brings its section.
    if (value_of(*change, form.inner) || value_of(*change, "timber")) continue;
    if (!now || now->kind != document::Node::Kind::scalar || now->text == "none") continue;
    const std::string opens = std::string(form.key) + ": {";
    const std::size_t at = yaml.find(opens);
    if (at == std::string::npos) continue;
    const std::string value = now->quoted ? "\"" + now->text + "\"" : now->text;
    yaml.insert(at + opens.size(), fmt::format("{}: {}, ", form.inner, value));
  }
  return yaml;
}

}  // namespace

Option with_keys(const document::Document& document, std::string name, std::string yaml) {
  yaml = with_single_values(document, std::move(yaml));
  Option option;
  option.name = std::move(name);
  option.document = document::overlaid(document, document::node_of(yaml));
  option.write = std::move(yaml);
  return option;
}

Option with_keys(const Base& base, std::string name, std::string yaml) {
  return with_keys(base.document, std::move(name), std::move(yaml));
}

Option with_one_more(const Base& base, std::string name, std::string_view key,
                     const std::string& item) {
  Option option;
  option.name = std::move(name);
  option.document = document::with_item(base.document, key, document::node_of(item));
  option.write = line_of(option.document, key);
  return option;
}

std::string line_of(const document::Document& document, std::string_view key) {
  const document::Node* value = value_of(document.root, key);
  return value ? fmt::format("{}: {}", key, document::flow_text(*value)) : std::string();
}

Option as_it_is(const Base& base, std::string name) {
  Option option;
  option.name = std::move(name);
  option.document = base.document;
  return option;
}

std::string written(quantity::Length length) {
  // To the tenth of a millimetre: sizes are given no finer, and 45.000000000000007 is no size.
  return fmt::format("{:.6g} mm", std::round(1e4 * quantity::in_si(length)) / 10.0);
}

std::string written(quantity::Length thickness, quantity::Length depth) {
  const std::string first = written(thickness);
  return first.substr(0, first.size() - 3) + " x " + written(depth);
}

std::string written(const bench::Stock& stock) { return bench::stock_text(stock); }

std::string written(bench::Bond bond) {
  return bond == bench::Bond::glued ? "glued" : bond == bench::Bond::screwed ? "screwed" : "loose";
}

std::optional<bench::Stock> next_deeper(const bench::Stock& stock,
                                        const reference::Tables& tables) {
  constexpr double same = 1e-3;  // m: sizes by name may be a millimetre off the ones written
  std::optional<bench::Stock> next;
  const std::string* family = nullptr;
  double nearest = same;  // 38 x 63 mm and 38.1 x 63.5 mm are of two families
  for (const reference::Section& section : tables.sections) {
    const double off = std::max(std::abs(quantity::in_si(section.thickness - stock.thickness)),
                                std::abs(quantity::in_si(section.depth - stock.depth)));
    if (off >= nearest) continue;
    nearest = off;
    family = &section.family;
  }
  for (const reference::Section& section : tables.sections) {
    if (family != nullptr && section.family != *family) continue;
    if (std::abs(quantity::in_si(section.thickness - stock.thickness)) >= same) continue;
    if (quantity::in_si(section.depth - stock.depth) < same) continue;
    if (next && section.depth >= next->depth) continue;
    next = stock;
    next->depth = section.depth;
  }
  return next;
}

std::vector<quantity::Length> thicknesses(const bench::Sheet& sheet,
                                          const reference::Tables& tables) {
  return tables.panel_thicknesses(sheet.family.key);
}

std::string with_ledger_of(const Base& base, const bench::Stock& stock) {
  if (bench::ledger_of(base.bench) == nullptr) return {};
  for (const document::Entry& entry : base.document.root.entries) {
    const bool is_group = entry.value.kind == document::Node::Kind::map;
    if (entry.key == "wall" && is_group) return fmt::format("wall: {{ledger: {}}}", written(stock));
  }
  return {};
}

const bench::Sheet* top_of(const bench::Bench& bench) {
  for (const bench::Sheet& sheet : bench.sheets) {
    if (sheet.place == bench::SheetPlace::top) return &sheet;
  }
  return nullptr;
}

bool is_listed(const document::Document& document) {
  const auto& entries = document.root.entries;
  return std::any_of(entries.begin(), entries.end(),
                     [](const document::Entry& entry) { return entry.key == "parts"; });
}

}  // namespace standtrue::decide
