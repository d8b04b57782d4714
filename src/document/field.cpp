#include <fmt/core.h>

#include <algorithm>
#include <utility>

#include "document/quotes.hpp"
#include "document/source_text.hpp"
#include "standtrue/document/document.hpp"

namespace standtrue::document {
namespace {

struct Span {
  Position at;
  int length = 1;
};

/// What to underline of a scalar that begins at `at`. Escapes, folded lines and block texts do not
/// stand in the file as they read: then the place where the scalar begins is all there is to show.
Span span_of(const Document& document, const Node& node, Position at, std::size_t offset,
             std::size_t length) {
  const std::string line = shown_line(document.lines, at.line);
  const std::size_t begin = byte_of_column(line, at.column) + (node.quoted ? 1 : 0);
  const std::string_view text(node.text);
  if (text.empty() || line.compare(std::min(begin, line.size()), text.size(), text) != 0) {
    return {at, 1};
  }
  offset = std::min(offset, text.size());
  const int before = code_points(text.substr(0, offset)) + (node.quoted ? 1 : 0);
  return {{at.line, at.column + before}, std::max(1, code_points(text.substr(offset, length)))};
}

/// Length of the key that begins at `at`, for a field without a value.
int key_length(std::string_view path) { return std::max(1, code_points(last_key(path))); }

}  // namespace

Field::Field(const Document& document, const Node& node, std::string path, Position at)
    : document_(&document), node_(&node), path_(std::move(path)), at_(at) {}

Field root(const Document& document) { return {document, document.root, "", document.root.at}; }

std::vector<Field> Field::items() const {
  std::vector<Field> fields;
  for (const Node& item : node_->items) {
    fields.emplace_back(*document_, item, fmt::format("{}[{}]", path_, fields.size() + 1), item.at);
  }
  return fields;
}

Diagnostic Field::fault(std::string what, std::string instead) const {
  Span span{at_, 1};
  if (is(Node::Kind::scalar)) span = span_of(*document_, *node_, at_, 0, node_->text.size());
  if (is(Node::Kind::nothing)) span.length = key_length(path_);
  return {.severity = Severity::error,
          .file = document_->name,
          .at = span.at,
          .length = span.length,
          .source_line = shown_line(document_->lines, span.at.line),
          .path = path_,
          .what = std::move(what),
          .instead = std::move(instead)};
}

Diagnostic Field::fault(const quantity::TextFault& fault) const {
  const std::string instead =
      fault.instead.empty() ? "" : as_entry(last_key(path_), as_scalar(fault.instead));
  Diagnostic diagnostic = this->fault(fault.what, instead);
  if (is(Node::Kind::scalar)) {
    const Span span = span_of(*document_, *node_, at_, fault.offset, fault.length);
    diagnostic.at = span.at;
    diagnostic.length = span.length;
  }
  return diagnostic;
}

Diagnostic Field::warning(std::string what, std::string instead) const {
  Diagnostic diagnostic = fault(std::move(what), std::move(instead));
  diagnostic.severity = Severity::warning;
  return diagnostic;
}

}  // namespace standtrue::document
