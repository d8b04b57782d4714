// Any bytes as a YAML document: it is read with its places, or refused with them.
#include "standtrue/document/overlay.hpp"
#include "tests/fuzz/laws.hpp"

namespace {

using namespace standtrue::document;
using fuzz::law;

struct Tally {
  int nodes = 0;
  int lines = 0;
};

void hold_node(const Node& node, int depth, Tally& tally) {
  law(depth <= 32, "a document is no deeper than 32");
  ++tally.nodes;
  law(node.at.line >= 1 && node.at.line <= tally.lines + 1 && node.at.column >= 1,
      "a node has its place");
  law(fuzz::is_printable(node.text), "a value has no control characters", node.text);
  for (const Node& item : node.items) hold_node(item, depth + 1, tally);
  for (std::size_t i = 0; i < node.entries.size(); ++i) {
    const Entry& entry = node.entries[i];
    law(fuzz::is_printable(entry.key), "a key has no control characters", entry.key);
    ++tally.nodes;
    // Of two equal keys the second is refused, and not in the document.
    if (node.entries.size() < 50) {
      for (std::size_t j = 0; j < i; ++j) {
        law(node.entries[j].key != entry.key, "a key is given once", entry.key);
      }
    }
    hold_node(entry.value, depth + 1, tally);
  }
}

bool same(const Node& a, const Node& b) {
  if (a.kind != b.kind || a.text != b.text || a.items.size() != b.items.size() ||
      a.entries.size() != b.entries.size()) {
    return false;
  }
  for (std::size_t i = 0; i < a.items.size(); ++i) {
    if (!same(a.items[i], b.items[i])) return false;
  }
  for (std::size_t i = 0; i < a.entries.size(); ++i) {
    if (a.entries[i].key != b.entries[i].key || !same(a.entries[i].value, b.entries[i].value)) {
      return false;
    }
  }
  return true;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text = fuzz::text_of(data, size);
  const Reading reading = fuzz::document_of(text);
  if (!reading.document) return 0;
  Tally tally{.nodes = 0, .lines = fuzz::lines_of(text)};
  hold_node(reading.document->root, 0, tally);
  law(tally.nodes <= 50000, "a document has no more than 50,000 values");
  law(same(overlaid(reading.document->root, reading.document->root), reading.document->root),
      "a document laid over itself is itself");
  return 0;
}
