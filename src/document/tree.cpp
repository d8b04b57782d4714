#include "document/tree.hpp"

#include <fmt/format.h>

#include <utility>

#include "document/syntax.hpp"

namespace standtrue::document {
namespace {

constexpr std::size_t deepest = 32;
constexpr int most_nodes = 50000;
constexpr std::size_t most_faults = 100;

}  // namespace

void Tree::add_nothing(Position at) {
  count_node(at);
  Node node;
  node.at = at;
  put(std::move(node));
}

void Tree::add_scalar(Position at, std::string text, bool quoted) {
  count_node(at);
  Node node;
  node.kind = Node::Kind::scalar;
  node.text = std::move(text);
  node.quoted = quoted;
  node.at = at;
  put(std::move(node));
}

void Tree::open(Node::Kind kind, Position at) {
  count_node(at);
  if (frames_.size() == deepest) {
    refuse(at, 1, fmt::format("lists and maps are nested deeper than {}", deepest),
           "a flatter file");
    throw Stop{};
  }
  frames_.emplace_back();
  frames_.back().node.kind = kind;
  frames_.back().node.at = at;
}

void Tree::close() {
  Node node = std::move(frames_.back().node);
  frames_.pop_back();
  put(std::move(node));
}

void Tree::count_node(Position at) {
  if (++nodes_ <= most_nodes) return;
  refuse(at, 1, fmt::format("the file has more than {} values", most_nodes), "a smaller file");
  throw Stop{};
}

void Tree::put(Node node) {
  if (frames_.empty()) {
    root_ = std::move(node);
    return;
  }
  Frame& frame = frames_.back();
  if (frame.node.kind == Node::Kind::list) {
    frame.node.items.push_back(std::move(node));
  } else if (!frame.pending) {
    put_key(frame, std::move(node));
  } else {
    frame.pending->value = std::move(node);
    mend_missing_space(frame);
    if (!frame.pending_is_bad) frame.node.entries.push_back(std::move(*frame.pending));
    frame.pending.reset();
  }
}

void Tree::mend_missing_space(Frame& map) {
  Entry& entry = *map.pending;
  const std::size_t colon = colon_without_space(entry.key);
  const bool lacks_space = entry.value.kind == Node::Kind::nothing && !map.pending_is_quoted &&
                           colon != std::string::npos;
  if (!lacks_space) return;
  const std::string value = entry.key.substr(colon + 1);
  entry.key.resize(colon);
  const int column = entry.key_at.column + static_cast<int>(colon);
  refuse({entry.key_at.line, column}, 1, "a space is missing after ':'", entry.key + ": " + value);
  map.pending_is_bad = !map.keys.insert(entry.key).second;  // of two equal keys the first stays
  entry.value.kind = Node::Kind::scalar;
  entry.value.text = value;
  entry.value.at = {entry.key_at.line, column + 1};
}

void Tree::put_key(Frame& map, Node key) {
  map.pending_is_bad = false;
  map.pending_is_quoted = key.quoted;
  if (key.kind == Node::Kind::nothing) {
    refuse(key.at, 1, "a key is missing before ':'", "name: value");
    map.pending_is_bad = true;
  } else if (key.kind != Node::Kind::scalar) {
    refuse(key.at, 1, "a key must be plain text, not a list or a map", "name: value");
    map.pending_is_bad = true;
  } else if (!map.keys.insert(key.text).second) {
    int first_line = 0;
    for (const Entry& entry : map.node.entries) {
      if (entry.key == key.text) first_line = entry.key_at.line;
    }
    refuse(key.at, code_points(key.text),
           fmt::format("'{}' is given twice, first on line {}", key.text, first_line),
           fmt::format("'{}' only once", key.text));
    map.pending_is_bad = true;
  }
  map.pending = Entry{.key = std::move(key.text), .key_at = key.at, .value = {}};
}

void Tree::refuse(Position at, int length, std::string what, std::string instead) {
  note(diagnostic_at(*source_, at, length, std::move(what), std::move(instead)));
}

void Tree::warn(Position at, int length, std::string what, std::string instead) {
  Diagnostic warning = diagnostic_at(*source_, at, length, std::move(what), std::move(instead));
  warning.severity = Severity::warning;
  note(std::move(warning));
}

void Tree::note(Diagnostic fault) {
  if (faults_->size() >= most_faults) {
    if (fault.severity == Severity::warning) return;
    faults_->push_back(
        diagnostic_at(*source_, fault.at, 1,
                      fmt::format("more than {} faults; the rest is not read", most_faults),
                      "first what is right in the faults above"));
    throw Stop{};
  }
  fault.path = path();
  faults_->push_back(std::move(fault));
}

std::string Tree::path() const {
  std::string path;
  for (const Frame& frame : frames_) {
    if (frame.node.kind == Node::Kind::list) {
      path += fmt::format("[{}]", frame.node.items.size() + 1);
    } else if (frame.pending) {
      path += (path.empty() ? "" : ".") + frame.pending->key;
    }
  }
  return path;
}

std::optional<Position> Tree::open_at() const {
  return frames_.empty() ? std::nullopt : std::optional<Position>(frames_.back().node.at);
}

std::string Tree::pending_key() const {
  return frames_.empty() || !frames_.back().pending ? "" : frames_.back().pending->key;
}

}  // namespace standtrue::document
