#include <doctest/doctest.h>

#include <ostream>
#include <string>

#include "tests/document/messages.hpp"

namespace syntax_test {

TEST_CASE("syntax: a missing space after ':' is named") {
  CHECK(messages_of("a: 1\nlength:2100 mm\nb: 2\n") ==
        "b.yaml:2:7: a space is missing after ':'\n"
        "  length:2100 mm\n"
        "        ^\n"
        "  write, for example: length: 2100 mm\n");
  CHECK(messages_of("a: 1\nlength:2100 mm\n") ==
        "b.yaml:2:7: a space is missing after ':'\n"
        "  length:2100 mm\n"
        "        ^\n"
        "  at length; write, for example: length: 2100 mm\n");
}

TEST_CASE("syntax: a key that is mended where a space is missing is not given twice") {
  const standtrue::document::Reading reading =
      standtrue::document::parse("b.yaml", "a: 1\nb: 3\na:2\n");
  CHECK(messages(reading.diagnostics) ==
        "b.yaml:3:2: a space is missing after ':'\n"
        "  a:2\n"
        "   ^\n"
        "  at a; write, for example: a: 2\n");
  REQUIRE(reading.document);
  CHECK(reading.document->root.entries.size() == 2);
}

TEST_CASE("syntax: escapes for what can not be shown are refused") {
  CHECK(messages_of("a: 1\ntitle: \"red \\e[31m\"\n") ==
        "b.yaml:2:8: an escape in this text stands for a character that can not be shown\n"
        "  title: \"red \\e[31m\"\n"
        "         ^\n"
        "  at title; write, for example: the text without it\n");
  for (const char* escape : {"\\N", "\\_", "\\0", "\\x9f", "\\u0085"}) {
    const std::string told = messages_of(std::string("\"a") + escape + "b\": 1\n");
    CHECK(told.find("can not be shown") != std::string::npos);
  }
  // Behind a tag, which is refused itself, too.
  CHECK(messages_of("a: ! \"red \\e[31m\"\n").find("can not be shown") != std::string::npos);
  CHECK(messages_of("a: \"tab\\t, line\\n and \\u00d7\"\n") == "");
}

TEST_CASE("syntax: a ':' inside a value wants quotes") {
  CHECK(messages_of("note: see: this\n") ==
        "b.yaml:1:10: this ':' stands inside a value\n"
        "  note: see: this\n"
        "           ^\n"
        "  write, for example: note: \"see: this\"\n");
}

TEST_CASE("syntax: a line set in too far, or to no neighbour") {
  CHECK(messages_of("a: 1\n b: 2\n") ==
        "b.yaml:2:2: this line is set further in than line 1, which already has a value\n"
        "   b: 2\n"
        "   ^\n"
        "  write, for example: it with the indentation of the line above\n");
  CHECK(messages_of("a:\n  b: 1\n c: 2\n") ==
        "b.yaml:3:2: the indentation fits no line above\n"
        "   c: 2\n"
        "   ^\n"
        "  write, for example: it below the first letter of its neighbours\n");
}

TEST_CASE("syntax: a line without a key") {
  CHECK(messages_of("a: x\n\nfoo\nb: 1\n") ==
        "b.yaml:3:1: this line has no key\n"
        "  foo\n"
        "  ^~~\n"
        "  write, for example: name: foo\n");
}

TEST_CASE("syntax: lists and keys mixed") {
  CHECK(messages_of("a: 5 mm\n- b\n") ==
        "b.yaml:2:1: a list item stands where a key such as 'name:' must stand\n"
        "  - b\n"
        "  ^\n"
        "  write, for example: the list below its key, set in by two spaces\n");
  CHECK(messages_of("a: - x\n") ==
        "b.yaml:1:4: a list item can not begin here\n"
        "  a: - x\n"
        "     ^\n"
        "  at a; write, for example: the list on the lines below its key, or as [a, b]\n");
  CHECK(messages_of("- a: 1\n- b: 1\n c\n") ==
        "b.yaml:3:2: a list item '- ' must begin here, or the indentation fits no line above\n"
        "   c\n"
        "   ^\n"
        "  at [3]; write, for example: - value\n");
}

TEST_CASE("syntax: brackets without their other half") {
  CHECK(messages_of("a: [1, 2\nb: 3\n") ==
        "b.yaml:1:4: the '[' that opens here is never closed\n"
        "  a: [1, 2\n"
        "     ^\n"
        "  at a[3]; write, for example: ']' where it ends\n");
  CHECK(messages_of("a: {x: 1\n") ==
        "b.yaml:1:4: the '{' that opens here is never closed\n"
        "  a: {x: 1\n"
        "     ^\n"
        "  at a; write, for example: '}' where it ends\n");
  CHECK(messages_of("a: 1\n}\n") ==
        "b.yaml:2:1: this '}' closes nothing\n"
        "  }\n"
        "  ^\n"
        "  write, for example: the line without it\n");
}

TEST_CASE("syntax: a value that begins with a sign of YAML wants quotes") {
  CHECK(messages_of("a: @x\n") ==
        "b.yaml:1:4: a value can not begin with '@'\n"
        "  a: @x\n"
        "     ^~\n"
        "  at a; write, for example: a: \"@x\"\n");
}

TEST_CASE("syntax: quotes that end too early or too late") {
  CHECK(messages_of("c: \"35 1/2\"\"\n") ==
        "b.yaml:1:12: text follows a closing quote\n"
        "  c: \"35 1/2\"\"\n"
        "             ^\n"
        "  write, for example: the whole value in one pair of quotes, or without quotes\n");
  CHECK(messages_of("a: \"xyz\nb: \"foo\"\nc: 3\n") ==
        "b.yaml:1:4: the quote that opens here is closed only on line 2\n"
        "  a: \"xyz\n"
        "     ^\n"
        "  write, for example: the closing quote on the same line\n");
  CHECK(messages_of("a: \"\\q\"\n") ==
        "b.yaml:1:7: a '\\' in double quotes begins no known escape\n"
        "  a: \"\\q\"\n"
        "        ^\n"
        "  at a; write, for example: the text in single quotes, or '\\\\' for the stroke itself\n");
}

TEST_CASE("syntax: what the parser says is passed on when we know no better") {
  CHECK(messages_of("a: &x &y 1\n") ==
        "b.yaml:1:7: this is not YAML: cannot assign multiple anchors to the same node\n"
        "  a: &x &y 1\n"
        "        ^\n"
        "  at a; write, for example: name: value\n");
}

}  // namespace syntax_test
