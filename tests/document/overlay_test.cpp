#include "standtrue/document/overlay.hpp"

#include <doctest/doctest.h>

#include <stdexcept>

namespace overlay_test {

using namespace standtrue;
using document::Document;
using document::Node;

namespace {

Document parsed(std::string_view text) {
  const document::Reading reading = document::parse("a.yaml", text);
  REQUIRE(reading.document);
  return *reading.document;
}

/// Flow style, for comparing.
std::string flow(const Node& node) {
  std::string text;
  switch (node.kind) {
    case Node::Kind::nothing:
      return "~";
    case Node::Kind::scalar:
      return node.text;
    case Node::Kind::list:
      for (const Node& item : node.items) text += (text.empty() ? "" : ", ") + flow(item);
      return "[" + text + "]";
    case Node::Kind::map:
      for (const document::Entry& e : node.entries) {
        text += (text.empty() ? "" : ", ") + e.key + ": " + flow(e.value);
      }
      return "{" + text + "}";
  }
  return text;
}

std::string changed(const char* base, const char* changes) {
  return flow(document::overlaid(parsed(base), document::node_of(changes)).root);
}

}  // namespace

TEST_CASE("overlay: a node on one line reads back as it was") {
  for (const char* text :
       {"[{side: left}, {side: right, at: [200 mm, 1.5 m]}]", "none", "{a: \"x, y\", b: []}",
        "\"he said \\\"no\\\"\"", "{note: \"a: b # c\"}"}) {
    const document::Node node = document::node_of(std::string("k: ") + text).entries.at(0).value;
    CHECK(document::flow_text(node) == text);
  }
  // What is written stays on its line.
  const document::Node lines = document::node_of("k: |\n  one\n  two\n").entries[0].value;
  CHECK(document::flow_text(lines) == "\"one\\ntwo\\n\"");
  CHECK(document::node_of("k: " + document::flow_text(lines)).entries[0].value.text == lines.text);
  const document::Node block = document::node_of("k:\n  - side: left, for now\n  - ~\n");
  CHECK(document::flow_text(block.entries[0].value) == "[{side: \"left, for now\"}, ~]");
}

TEST_CASE("document/overlay: maps are merged key by key, in the order of the file") {
  CHECK(changed("{a: 1, b: {c: 2, d: 3}}", "{b: {d: 4, e: 5}, f: 6}") ==
        "{a: 1, b: {c: 2, d: 4, e: 5}, f: 6}");
}

TEST_CASE("document/overlay: scalars and lists are replaced whole, a map stands over a scalar") {
  CHECK(changed("{a: [1, 2, 3], b: x}", "{a: [4], b: y}") == "{a: [4], b: y}");
  CHECK(changed("{top: 18 mm ply}", "{top: {sheet: 24 mm ply}}") == "{top: {sheet: 24 mm ply}}");
  CHECK(changed("{a: {b: 1}}", "{a: none}") == "{a: none}");
}

TEST_CASE("document/overlay: one more item: of a list, of a single thing, of nothing") {
  const Node item = document::node_of("{side: left}");
  const auto with = [&](const char* base) {
    return flow(document::with_item(parsed(base), "braces", item).root);
  };
  CHECK(with("{braces: [{side: back}]}") == "{braces: [{side: back}, {side: left}]}");
  CHECK(with("{braces: {side: back}}") == "{braces: [{side: back}, {side: left}]}");
  CHECK(with("{braces: none}") == "{braces: [{side: left}]}");
  CHECK(with("{a: 1}") == "{a: 1, braces: [{side: left}]}");
}

TEST_CASE("document/overlay: a key left out; the base is untouched; our own text must parse") {
  const Document base = parsed("{a: 1, b: 2}");
  CHECK(flow(document::without(base, "a").root) == "{b: 2}");
  CHECK(flow(document::without(base, "z").root) == "{a: 1, b: 2}");
  CHECK(flow(base.root) == "{a: 1, b: 2}");
  CHECK_THROWS_AS((void)document::node_of("{a: [1"), std::logic_error);
}

}  // namespace overlay_test
