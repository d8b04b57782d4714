#pragma once

#include <optional>
#include <set>
#include <string>
#include <vector>

#include "document/source_text.hpp"
#include "standtrue/diagnostic.hpp"
#include "standtrue/document/document.hpp"

namespace standtrue::document {

/// Thrown by Tree when reading on would be of no use; the fault has been noted.
struct Stop {};

/// Builds the tree of nodes from the events of a parser, and holds the limits: depth 32, 50,000
/// nodes, 100 faults. Of two equal keys the first stays; a key that is not text is left out.
class Tree {
 public:
  Tree(const SourceText& source, std::vector<Diagnostic>& faults)
      : source_(&source), faults_(&faults) {}

  void add_nothing(Position at);
  void add_scalar(Position at, std::string text, bool quoted);
  void open(Node::Kind kind, Position at);
  void close();

  /// Notes a fault with the path of what is being read.
  void refuse(Position at, int length, std::string what, std::string instead);
  void warn(Position at, int length, std::string what, std::string instead);

  [[nodiscard]] std::string path() const;
  [[nodiscard]] Node& root() { return root_; }

  /// The innermost list or map that is still open, and the key whose value comes next.
  [[nodiscard]] std::optional<Position> open_at() const;
  [[nodiscard]] std::string pending_key() const;

 private:
  struct Frame {
    Node node;
    std::set<std::string> keys;
    std::optional<Entry> pending;  ///< a key whose value comes next
    bool pending_is_bad = false;   ///< its value is to be dropped
    bool pending_is_quoted = false;
  };

  void count_node(Position at);
  void put(Node node);
  void put_key(Frame& map, Node key);
  /// A key `length:2100 mm` without value: notes the fault and reads on as if the space were there.
  void mend_missing_space(Frame& map);
  void note(Diagnostic fault);

  const SourceText* source_;
  std::vector<Diagnostic>* faults_;
  Node root_;
  std::vector<Frame> frames_;
  int nodes_ = 0;
};

}  // namespace standtrue::document
