#include <doctest/doctest.h>

#include <ostream>
#include <string>
#include <vector>

#include "standtrue/document/document.hpp"
#include "tests/document/messages.hpp"

namespace parse_test {

using namespace standtrue;
using namespace standtrue::document;

namespace {

/// `key@line:column=value` and so on: a tree as one line.
std::string outline(const Node& node) {
  const std::string place =
      "@" + std::to_string(node.at.line) + ":" + std::to_string(node.at.column);
  std::string out;
  switch (node.kind) {
    case Node::Kind::nothing:
      return "~";
    case Node::Kind::scalar:
      return (node.quoted ? "\"" + node.text + "\"" : node.text) + place;
    case Node::Kind::list:
      for (const Node& item : node.items) out += (out.empty() ? "" : ", ") + outline(item);
      return "[" + out + "]" + place;
    case Node::Kind::map:
      for (const Entry& entry : node.entries) {
        out += (out.empty() ? "" : ", ") + entry.key + "@" + std::to_string(entry.key_at.line) +
               ":" + std::to_string(entry.key_at.column) + ": " + outline(entry.value);
      }
      return "{" + out + "}" + place;
  }
  return out;
}

std::string outline_of(std::string_view text) {
  const Reading reading = parse("b.yaml", text);
  CHECK(messages(reading.diagnostics) == "");
  return reading.document ? outline(reading.document->root) : "no document";
}

std::string times(std::size_t n, const std::string& part) {
  std::string out;
  for (std::size_t i = 0; i < n; ++i) out += part;
  return out;
}

}  // namespace

TEST_CASE("parse: maps, lists, scalars and missing values, each with its place") {
  CHECK(outline_of("a: 1\nb: {c: 2, d: [x, y]}\n") ==
        "{a@1:1: 1@1:4, b@2:1: {c@2:5: 2@2:8, d@2:11: [x@2:15, y@2:18]@2:14}@2:4}@1:1");
  CHECK(outline_of("- a: 1\n  b: 2\n- ~\n") == "[{a@1:3: 1@1:6, b@2:3: 2@2:6}@1:3, ~]@1:1");
  CHECK(outline_of("a:\nb: ~\nc: null\n") == "{a@1:1: ~, b@2:1: ~, c@3:1: ~}@1:1");
  CHECK(outline_of("size: 35 1/2\"\nat: 6' 2\"\n") ==
        "{size@1:1: 35 1/2\"@1:7, at@2:1: 6' 2\"@2:5}@1:1");
}

TEST_CASE("parse: an empty text is a document that holds nothing") {
  CHECK(outline_of("") == "~");
  CHECK(outline_of("# a comment\n") == "~");
}

TEST_CASE("parse: quoted texts lose their quotes and keep their words") {
  CHECK(outline_of("a: 'it''s'\nb: \"x # y\"\n") ==
        "{a@1:1: \"it's\"@1:4, b@2:1: \"x # y\"@2:4}@1:1");
}

TEST_CASE("parse: columns count code points, not bytes") {
  CHECK(outline_of("\xC3\xA9\xC3\xA9: \xE2\x82\xAC x\nb: {\xC3\xA9: 1}\n") ==
        "{\xC3\xA9\xC3\xA9@1:1: \xE2\x82\xAC x@1:5, b@2:1: {\xC3\xA9@2:5: 1@2:8}@2:4}@1:1");
}

TEST_CASE("parse: a byte order mark and Windows line ends change nothing") {
  const std::string plain = outline_of("a: 1\nb:\n  - c d\n");
  CHECK(outline_of("\xEF\xBB\xBF"
                   "a: 1\r\nb:\r\n  - c d\r\n") == plain);
}

TEST_CASE("parse: words that YAML reads as truth, numbers or dates stay text") {
  CHECK(outline_of("a: [no, on, 0777, 1e3, 2020-01-01, .nan]\n") ==
        "{a@1:1: [no@1:5, on@1:9, 0777@1:13, 1e3@1:19, 2020-01-01@1:24, .nan@1:36]@1:4}@1:1");
}

TEST_CASE("parse: a file above 1 MiB is refused") {
  CHECK(messages_of(std::string((1U << 20U) + 1, ' ')) ==
        "b.yaml:1:1: the file is larger than 1 MiB\n"
        "  write, for example: a bench in a few hundred lines\n");
  CHECK(messages_of(std::string(1U << 20U, ' ')) == "");
}

TEST_CASE("parse: nesting deeper than 32 is refused") {
  CHECK(messages_of(times(31, "- ") + "x") == "");
  const std::string fault = messages_of(times(40, "- ") + "x");
  CHECK(fault.substr(0, fault.find('\n')) ==
        "b.yaml:1:65: lists and maps are nested deeper than 32");
  for (const std::string open : {"[", "{", "{a: ", "- ", "? "}) {
    const Reading reading = parse("b.yaml", times(100000, open));
    CHECK(!reading.document);
    REQUIRE(reading.diagnostics.size() == 1);
    CHECK(reading.diagnostics[0].what == "lists and maps are nested deeper than 32");
  }
}

TEST_CASE("parse: more than 50,000 values are refused") {
  CHECK(messages_of("[" + times(49999, "1, ") + "]") == "");
  const Reading reading = parse("b.yaml", "[" + times(50000, "1, ") + "]");
  CHECK(!reading.document);
  REQUIRE(reading.diagnostics.size() == 1);
  CHECK(reading.diagnostics[0].what == "the file has more than 50000 values");
}

TEST_CASE("parse: anchors, aliases and tags are refused, each at its place") {
  CHECK(messages_of("a: &x 3\nb: *x\nc: !!str 5\nd: !post {x: 1}\ne: ! 5\n") ==
        "b.yaml:1:4: anchors (&name) are not accepted\n"
        "  a: &x 3\n"
        "     ^~\n"
        "  at a; write, for example: the values themselves\n"
        "b.yaml:2:4: aliases (*name) are not accepted\n"
        "  b: *x\n"
        "     ^\n"
        "  at b; write, for example: the values themselves\n"
        "b.yaml:3:4: tags (!name) are not accepted\n"
        "  c: !!str 5\n"
        "     ^\n"
        "  at c; write, for example: the value alone\n"
        "b.yaml:4:4: tags (!name) are not accepted\n"
        "  d: !post {x: 1}\n"
        "     ^\n"
        "  at d; write, for example: the value alone\n"
        "b.yaml:5:4: tags (!name) are not accepted\n"
        "  e: ! 5\n"
        "     ^\n"
        "  at e; write, for example: the value alone\n");
}

TEST_CASE("parse: nested and cyclic aliases come to an end") {
  std::string bomb = "a0: &a0 [x]\n";
  for (int i = 1; i < 12; ++i) {
    const std::string last = "*a" + std::to_string(i - 1);
    bomb +=
        "a" + std::to_string(i) + ": &a" + std::to_string(i) + " [" + times(9, last + ", ") + "]\n";
  }
  CHECK(any_error(parse("b.yaml", bomb).diagnostics));
  CHECK(any_error(parse("b.yaml", "a: &a [*a]\n").diagnostics));
}

TEST_CASE("parse: a second document is refused") {
  CHECK(messages_of("a: 1\n---\nb: 2\n") ==
        "b.yaml:2:1: a second document begins here\n"
        "  ---\n"
        "  ^~~\n"
        "  write, for example: one document per file\n");
  CHECK(messages_of("---\na: 1\n...\n") == "");
}

TEST_CASE("parse: keys must be text") {
  CHECK(messages_of("[1]: 2\n: 3\n") ==
        "b.yaml:1:1: a key must be plain text, not a list or a map\n"
        "  [1]: 2\n"
        "  ^\n"
        "  write, for example: name: value\n"
        "b.yaml:2:1: a key is missing before ':'\n"
        "  : 3\n"
        "  ^\n"
        "  write, for example: name: value\n");
}

TEST_CASE("parse: a key given twice is refused, and the first stays") {
  const Reading reading = parse("b.yaml", "machines:\n  - {mass: 60 kg, kind: x, mass: 6 kg}\n");
  CHECK(messages(reading.diagnostics) ==
        "b.yaml:2:28: 'mass' is given twice, first on line 2\n"
        "    - {mass: 60 kg, kind: x, mass: 6 kg}\n"
        "                             ^~~~\n"
        "  at machines[1]; write, for example: 'mass' only once\n");
  REQUIRE(reading.document);
  CHECK(reading.document->root.entries[0].value.items[0].entries[0].value.text == "60 kg");
}

TEST_CASE("parse: a quote that is never closed is refused where it opens") {
  for (const std::string quote : {"\"", "'"}) {
    CHECK(messages_of("a: 1\nb: " + quote + "xyz\nc: 2\n") ==
          "b.yaml:2:4: the quote that opens here is never closed\n"
          "  b: " +
              quote +
              "xyz\n"
              "     ^\n"
              "  at b; write, for example: b: " +
              quote + "xyz" + quote + "\n");
  }
  CHECK(messages_of("a: \"long text\n  that ends\"\nb: 2\n") == "");
}

TEST_CASE("parse: control characters and bytes that are not UTF-8 are refused") {
  CHECK(messages_of("a: \x01\nb: \xFF\n") ==
        "b.yaml:1:4: there is a control character, 01 (hexadecimal)\n"
        "  a: \xEF\xBF\xBD\n"
        "     ^\n"
        "  write, for example: the line without it\n"
        "b.yaml:2:4: the byte FF (hexadecimal) is not UTF-8\n"
        "  b: \xEF\xBF\xBD\n"
        "     ^\n"
        "  write, for example: save the file as UTF-8\n");
  using namespace std::string_view_literals;
  for (const std::string_view bad :
       {"a\0b"sv, "a\rb"sv, "a\x7F"sv, "\xC2\x85"sv, "\xC0\x80"sv, "\xE0\x80\x80"sv,
        "\xED\xA0\x80"sv, "\xF4\x90\x80\x80"sv, "\xE2\x82"sv,
        "\xFF\xFE"
        "a\0"sv,
        "\x80"sv}) {
    const Reading reading = parse("b.yaml", bad);
    CHECK(!reading.document);
    CHECK(any_error(reading.diagnostics));
  }
}

TEST_CASE("parse: tabs in the indentation are refused, all of them; elsewhere they do no harm") {
  CHECK(messages_of("a:\n\tb: 1\n  \tc: 2\n") ==
        "b.yaml:2:1: a tab indents this line\n"
        "   b: 1\n"
        "  ^\n"
        "  write, for example: spaces\n"
        "b.yaml:3:3: a tab indents this line\n"
        "     c: 2\n"
        "    ^\n"
        "  write, for example: spaces\n");
  CHECK(messages_of("a:\t1\n\t\n\t# comment\n") == "");
}

TEST_CASE("parse: a '#' that cuts a text short is warned of, a comment is not") {
  CHECK(messages_of("name: bench #2\nb: 1 # an ordinary comment\nc: x#y\nd: \"x #2\"\n") ==
        "b.yaml:1:13: warning: text after ' #' is a comment: the value ends at 'bench'\n"
        "  name: bench #2\n"
        "              ^~\n"
        "  at name; write, for example: name: \"bench #2\"\n");
  CHECK(messages_of("name: #2\n") ==
        "b.yaml:1:7: warning: text after ' #' is a comment: there is no value\n"
        "  name: #2\n"
        "        ^~\n"
        "  at name; write, for example: name: \"#2\"\n");
}

TEST_CASE("parse: a file of nothing but faults stops at a hundred; warnings do not stop it") {
  const Reading faults = parse("b.yaml", times(5000, "a: 1\n"));
  CHECK(!faults.document);
  REQUIRE(faults.diagnostics.size() == 101);
  CHECK(faults.diagnostics.back().what == "more than 100 faults; the rest is not read");
  const Reading warnings = parse("b.yaml", times(5000, "- x #y\n"));
  CHECK(warnings.document);
  CHECK(warnings.diagnostics.size() == 100);
  CHECK(!any_error(warnings.diagnostics));
}

}  // namespace parse_test
