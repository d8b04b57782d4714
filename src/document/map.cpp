#include <algorithm>
#include <utility>

#include "document/quotes.hpp"
#include "document/wanted.hpp"
#include "standtrue/document/document.hpp"

namespace standtrue::document {

Map::Map(const Field& field, std::vector<Diagnostic>& faults, std::string_view expected)
    : field_(field), faults_(&faults) {
  if (field.is(Node::Kind::map) || field.is(Node::Kind::nothing)) return;
  note(field.fault(what_stands_at(field) + " stands where a map is wanted", std::string(expected)));
}

bool Map::has(std::string_view key) { return find(key).has_value(); }

std::optional<Field> Map::find(std::string_view key) {
  if (std::find(known_.begin(), known_.end(), key) == known_.end()) known_.emplace_back(key);
  for (const Entry& entry : field_.node().entries) {
    if (entry.key == key) return entry_field(entry);
  }
  return std::nullopt;
}

Field Map::entry_field(const Entry& entry) const {
  const std::string path = (field_.path().empty() ? "" : field_.path() + ".") + entry.key;
  const bool empty = entry.value.kind == Node::Kind::nothing;
  return {*field_.document_, entry.value, path, empty ? entry.key_at : entry.value.at};
}

std::optional<Field> Map::need(std::string_view key, std::string_view example) {
  std::optional<Field> field = find(key);
  const bool is_map = field_.is(Node::Kind::map) || field_.is(Node::Kind::nothing);
  if (!field && is_map) {  // what is no map has been noted as such
    note(field_.fault("'" + std::string(key) + "' is missing", std::string(example)));
  }
  return field;
}

std::optional<std::string> Map::text(std::string_view key) {
  const std::optional<Field> field = find(key);
  if (!field || !is_scalar(*field, "some text", *faults_)) return std::nullopt;
  return field->text();
}

std::optional<double> Map::number(std::string_view key) {
  const std::optional<Field> field = find(key);
  return field ? read_number(*field, *faults_) : std::nullopt;
}

std::optional<int> Map::count(std::string_view key) {
  const std::optional<Field> field = find(key);
  return field ? read_count(*field, *faults_) : std::nullopt;
}

std::optional<bool> Map::yes_no(std::string_view key) {
  const std::optional<std::string> answer = word(key, {"yes", "no", "true", "false"});
  if (!answer) return std::nullopt;
  return *answer == "yes" || *answer == "true";
}

std::optional<double> Map::si(std::string_view key, quantity::Kind kind) {
  const std::optional<Field> field = find(key);
  return field ? read_si(*field, kind, *faults_) : std::nullopt;
}

std::optional<quantity::Length> Map::length(std::string_view key) {
  return quantity_of<quantity::Length>(key, quantity::Kind::length);
}

std::optional<quantity::Mass> Map::mass(std::string_view key) {
  return quantity_of<quantity::Mass>(key, quantity::Kind::mass);
}

std::optional<quantity::Force> Map::force(std::string_view key) {
  return quantity_of<quantity::Force>(key, quantity::Kind::force);
}

std::optional<std::string> Map::word(std::string_view key, const std::vector<std::string>& known) {
  const std::optional<Field> field = find(key);
  if (!field || !is_scalar(*field, listed(known), *faults_)) return std::nullopt;
  if (std::find(known.begin(), known.end(), field->text()) != known.end()) return field->text();
  const std::string meant = quantity::nearest(field->text(), known);
  note(field->fault(what_stands_at(*field) + " is not known here",
                    as_entry(key, meant.empty() ? listed(known) : meant)));
  return std::nullopt;
}

std::vector<std::pair<std::string, Field>> Map::all() {
  std::vector<std::pair<std::string, Field>> fields;
  for (const Entry& entry : field_.node().entries) {
    known_.push_back(entry.key);
    fields.emplace_back(entry.key, entry_field(entry));
  }
  return fields;
}

void Map::finish() {
  for (const Entry& entry : field_.node().entries) {
    if (std::find(known_.begin(), known_.end(), entry.key) != known_.end()) continue;
    const std::string meant = quantity::nearest(entry.key, known_);
    Node key;
    key.kind = Node::Kind::scalar;
    key.text = entry.key;
    const Field at_key(*field_.document_, key, entry_field(entry).path(), entry.key_at);
    note(at_key.fault(what_stands_at(at_key) + " is not a key here",
                      meant.empty() ? listed(known_) : meant));
  }
}

}  // namespace standtrue::document
