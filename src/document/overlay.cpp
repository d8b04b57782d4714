#include "standtrue/document/overlay.hpp"

#include <algorithm>

#include "standtrue/contract.hpp"

namespace standtrue::document {

namespace {

auto entry_of(Node& map, std::string_view key) {
  return std::find_if(map.entries.begin(), map.entries.end(),
                      [key](const Entry& entry) { return entry.key == key; });
}

}  // namespace

Node overlaid(const Node& base, const Node& changes) {
  if (base.kind != Node::Kind::map || changes.kind != Node::Kind::map) return changes;
  Node result = base;
  for (const Entry& change : changes.entries) {
    const auto at = entry_of(result, change.key);
    if (at == result.entries.end()) {
      result.entries.push_back(change);
    } else {
      at->value = overlaid(at->value, change.value);
      at->key_at = change.key_at;
    }
  }
  return result;
}

Document overlaid(const Document& base, const Node& changes) {
  return {base.name, base.lines, overlaid(base.root, changes)};
}

Document with_item(const Document& document, std::string_view key, const Node& item) {
  Document result = document;
  const auto at = entry_of(result.root, key);
  if (at == result.root.entries.end()) {
    Node list;
    list.kind = Node::Kind::list;
    list.at = item.at;
    list.items = {item};
    result.root.entries.push_back({std::string(key), item.at, std::move(list)});
    return result;
  }
  Node& value = at->value;
  const bool is_none = value.kind == Node::Kind::nothing || value.text == "none";
  if (value.kind != Node::Kind::list) {
    Node list;
    list.kind = Node::Kind::list;
    list.at = value.at;
    if (!is_none) list.items.push_back(value);
    value = std::move(list);
  }
  value.items.push_back(item);
  return result;
}

Document without(const Document& document, std::string_view key) {
  Document result = document;
  const auto at = entry_of(result.root, key);
  if (at != result.root.entries.end()) result.root.entries.erase(at);
  return result;
}

namespace {

std::string scalar_text(const Node& node) {
  const bool wants_quotes = node.quoted || node.text.empty() ||
                            node.text.find_first_of(",[]{}:#\"'&*!|>%@`") != std::string::npos;
  if (!wants_quotes) return node.text;
  std::string text = "\"";
  for (const char c : node.text) {
    if (c == '\n' || c == '\t') {
      text += c == '\n' ? "\\n" : "\\t";
      continue;
    }
    if (c == '"' || c == '\\') text += '\\';
    text += c;
  }
  return text + "\"";
}

}  // namespace

std::string flow_text(const Node& node) {
  std::string text;
  switch (node.kind) {
    case Node::Kind::nothing:
      return "~";
    case Node::Kind::scalar:
      return scalar_text(node);
    case Node::Kind::list:
      for (const Node& item : node.items) text += (text.empty() ? "" : ", ") + flow_text(item);
      return "[" + text + "]";
    case Node::Kind::map:
      break;
  }
  for (const Entry& entry : node.entries) {
    text += (text.empty() ? "" : ", ") + entry.key + ": " + flow_text(entry.value);
  }
  return "{" + text + "}";
}

Node node_of(std::string_view text) {
  const Reading reading = parse("a change", text);
  expects(reading.document.has_value() && !any_error(reading.diagnostics),
          "node_of: text that does not parse");
  return reading.document->root;
}

}  // namespace standtrue::document
