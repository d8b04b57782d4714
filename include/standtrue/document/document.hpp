#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "standtrue/diagnostic.hpp"
#include "standtrue/quantity/quantity.hpp"
#include "standtrue/quantity/unit_text.hpp"

/// YAML text to a tree of fields that know where they stand. Guarded against hostile input: more
/// than 1 MiB, depth over 32, over 50,000 nodes, anchors, aliases, tags, a second document, keys
/// that are not plain text, keys given twice, quotes left open, control characters and bad UTF-8
/// are refused with their place. What the fields mean is not known here.
namespace standtrue::document {

struct Entry;

/// A scalar, list or map. A missing value (`key:` or `~`) is `nothing`.
struct Node {
  enum class Kind { nothing, scalar, list, map };
  Kind kind = Kind::nothing;
  std::string text;  ///< of a scalar, as written (unquoted)
  bool quoted = false;
  Position at;
  std::vector<Node> items;     ///< of a list
  std::vector<Entry> entries;  ///< of a map, in the order of the file
};

struct Entry {
  std::string key;
  Position key_at;
  Node value;
};

struct Document {
  std::string name;                ///< as the caller named the file
  std::vector<std::string> lines;  ///< the text, for showing faults
  Node root;
};

/// The document, or nothing when it can not be read at all; with every fault and warning found.
struct Reading {
  std::optional<Document> document;
  std::vector<Diagnostic> diagnostics;
};
[[nodiscard]] Reading parse(std::string_view name, std::string_view text);

/// A node with the path that leads to it; light, copied freely, valid as long as its Document.
class Field {
 public:
  Field(const Document& document, const Node& node, std::string path, Position at);

  [[nodiscard]] const Node& node() const { return *node_; }
  [[nodiscard]] const std::string& path() const { return path_; }
  [[nodiscard]] const std::string& text() const { return node_->text; }  ///< "" unless a scalar
  [[nodiscard]] bool is(Node::Kind kind) const { return node_->kind == kind; }
  /// Of a list, else empty. Paths count from 1, as lines do: "feet[2]" is the second foot.
  [[nodiscard]] std::vector<Field> items() const;

  /// A fault of this field (whole field, or `offset`/`length` in bytes of its scalar).
  [[nodiscard]] Diagnostic fault(std::string what, std::string instead) const;
  [[nodiscard]] Diagnostic fault(const quantity::TextFault& fault) const;
  [[nodiscard]] Diagnostic warning(std::string what, std::string instead) const;

 private:
  const Document* document_;
  const Node* node_;
  std::string path_;
  Position at_;  ///< of the node, or of its key when the node is empty
  friend class Map;
};

/// The top field of a document.
[[nodiscard]] Field root(const Document& document);

/// Reads a map key by key, collecting faults. A getter returns nothing when the key is missing or
/// malformed (then a fault was noted); the caller goes on, so that all faults are found in one run.
/// Call `finish` last: it faults every key that was never asked for, with the nearest known key.
class Map {
 public:
  /// `field` must be a map (or nothing: an empty map); else a fault is noted saying what was
  /// wanted: `expected` reads like "a map of posts: stations, section, turned".
  Map(const Field& field, std::vector<Diagnostic>& faults, std::string_view expected);

  [[nodiscard]] const Field& field() const { return field_; }
  [[nodiscard]] bool has(std::string_view key);  ///< also marks it as known
  [[nodiscard]] std::optional<Field> find(std::string_view key);
  /// As find, but a missing key is a fault at the map: "'mass' is missing"; `example` is "mass: 60
  /// kg".
  [[nodiscard]] std::optional<Field> need(std::string_view key, std::string_view example);

  [[nodiscard]] std::optional<std::string> text(std::string_view key);
  [[nodiscard]] std::optional<double> number(std::string_view key);  ///< without unit
  [[nodiscard]] std::optional<int> count(std::string_view key);
  [[nodiscard]] std::optional<bool> yes_no(std::string_view key);  ///< yes, no, true, false
  [[nodiscard]] std::optional<double> si(std::string_view key, quantity::Kind kind);
  template <class Quantity>
  [[nodiscard]] std::optional<Quantity> quantity_of(std::string_view key, quantity::Kind kind) {
    const std::optional<double> v = si(key, kind);
    return v ? std::optional<Quantity>(quantity::from_si<Quantity>(*v)) : std::nullopt;
  }
  [[nodiscard]] std::optional<quantity::Length> length(std::string_view key);
  [[nodiscard]] std::optional<quantity::Mass> mass(std::string_view key);
  [[nodiscard]] std::optional<quantity::Force> force(std::string_view key);
  /// One word of a closed list; another is a fault that names the nearest.
  [[nodiscard]] std::optional<std::string> word(std::string_view key,
                                                const std::vector<std::string>& known);
  /// All entries, for maps whose keys are names given by the file; marks them all as known.
  [[nodiscard]] std::vector<std::pair<std::string, Field>> all();

  void note(Diagnostic diagnostic) { faults_->push_back(std::move(diagnostic)); }
  void finish();

 private:
  [[nodiscard]] Field entry_field(const Entry& entry) const;

  Field field_;
  std::vector<Diagnostic>* faults_;
  std::vector<std::string> known_;
};

/// Scalar readers for list items and other loose fields; note a fault and return nothing if bad.
[[nodiscard]] std::optional<double> read_si(const Field& field, quantity::Kind kind,
                                            std::vector<Diagnostic>& faults);
[[nodiscard]] std::optional<double> read_number(const Field& field,
                                                std::vector<Diagnostic>& faults);
[[nodiscard]] std::optional<int> read_count(const Field& field, std::vector<Diagnostic>& faults);
/// A list of `n` quantities, `[0 mm, 340 mm]`; wrong count or kind is a fault.
[[nodiscard]] std::optional<std::vector<double>> read_si_list(const Field& field,
                                                              quantity::Kind kind, std::size_t n,
                                                              std::vector<Diagnostic>& faults);

}  // namespace standtrue::document
