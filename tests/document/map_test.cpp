#include <doctest/doctest.h>

#include <ostream>
#include <string>
#include <vector>

#include "standtrue/document/document.hpp"
#include "tests/document/messages.hpp"

namespace map_test {

using namespace standtrue;
using namespace standtrue::document;
using quantity::in_si;
using quantity::Kind;

namespace {

Document document_of(std::string_view text) {
  Reading reading = parse("b.yaml", text);
  REQUIRE(reading.document);
  CHECK(messages(reading.diagnostics) == "");
  return *reading.document;
}

}  // namespace

TEST_CASE("map: every getter returns what the file says") {
  const Document document = document_of(
      "name: bench\nmass: 60 kg\nlength: 35 1/2 in\npush: 0.8 kN\nE: 11 GPa\nfriction: 0.3\n"
      "posts: 4\nbolted: yes\nguarded: false\nkind: grinder\nat: [300 mm, 1 ft]\n");
  std::vector<Diagnostic> faults;
  Map map(root(document), faults, "a bench");
  CHECK(map.text("name") == "bench");
  CHECK(in_si(*map.mass("mass")) == 60.0);
  CHECK(in_si(*map.length("length")) == 0.9017);
  CHECK(in_si(*map.force("push")) == 800.0);
  CHECK(map.si("E", Kind::stress) == 11e9);
  CHECK(in_si(*map.quantity_of<quantity::Stress>("E", Kind::stress)) == 11e9);
  CHECK(map.number("friction") == 0.3);
  CHECK(map.count("posts") == 4);
  CHECK(map.yes_no("bolted") == true);
  CHECK(map.yes_no("guarded") == false);
  CHECK(map.word("kind", {"drill press", "grinder"}) == "grinder");
  CHECK(read_si_list(*map.need("at", "at: [0 mm, 0 mm]"), Kind::length, 2, faults) ==
        std::vector<double>{0.3, 0.3048});
  CHECK(!map.has("shelf"));
  CHECK(!map.number("shelf"));
  map.finish();
  CHECK(messages(faults) == "");
}

TEST_CASE("map: malformed values are faults at their place, and reading goes on") {
  const Document document = document_of(
      "machines:\n  - mass: 60\n    at: 1,5 mm\n    speed:\n    lift: [1, 2]\n    posts: \"4.5\"\n"
      "    fixed: yse\n    E: 12  MPA\n");
  std::vector<Diagnostic> faults;
  Map top(root(document), faults, "a bench");
  Map map(top.find("machines")->items()[0], faults, "a machine");
  CHECK(!map.mass("mass"));
  CHECK(!map.length("at"));
  CHECK(!map.si("speed", Kind::speed));
  CHECK(!map.force("lift"));
  CHECK(!map.count("posts"));
  CHECK(!map.yes_no("fixed"));
  CHECK(!map.si("E", Kind::stress));
  CHECK(messages(faults) ==
        "b.yaml:2:11: '60' has no unit\n"
        "    - mass: 60\n"
        "            ^~\n"
        "  at machines[1].mass; write, for example: mass: 60 kg\n"
        "b.yaml:3:9: '1,5' has a decimal comma\n"
        "      at: 1,5 mm\n"
        "          ^~~\n"
        "  at machines[1].at; write, for example: at: 1.5 mm\n"
        "b.yaml:4:5: there is no value\n"
        "      speed:\n"
        "      ^~~~~\n"
        "  at machines[1].speed; write, for example: speed: 2850 rpm\n"
        "b.yaml:5:11: a list stands where one value is wanted\n"
        "      lift: [1, 2]\n"
        "            ^\n"
        "  at machines[1].lift; write, for example: lift: 800 N\n"
        "b.yaml:6:13: '4.5' is not a whole number\n"
        "      posts: \"4.5\"\n"
        "              ^~~\n"
        "  at machines[1].posts; write, for example: posts: 5\n"
        "b.yaml:7:12: 'yse' is not known here\n"
        "      fixed: yse\n"
        "             ^~~\n"
        "  at machines[1].fixed; write, for example: fixed: yes\n"
        "b.yaml:8:12: 'MPA' is not a unit\n"
        "      E: 12  MPA\n"
        "             ^~~\n"
        "  at machines[1].E; write, for example: E: 12  MPa\n");
}

TEST_CASE("map: a word off the list is answered with the nearest or with the list") {
  const Document document = document_of("kind: drilpress\nfloor: wood\n");
  std::vector<Diagnostic> faults;
  Map map(root(document), faults, "a bench");
  CHECK(!map.word("kind", {"drill press", "grinder"}));
  CHECK(!map.word("floor", {"concrete", "boards", "tiles"}));
  CHECK(messages(faults) ==
        "b.yaml:1:7: 'drilpress' is not known here\n"
        "  kind: drilpress\n"
        "        ^~~~~~~~~\n"
        "  at kind; write, for example: kind: drill press\n"
        "b.yaml:2:8: 'wood' is not known here\n"
        "  floor: wood\n"
        "         ^~~~\n"
        "  at floor; write, for example: floor: concrete, boards or tiles\n");
}

TEST_CASE("map: keys nobody asked for are faults with the nearest known key") {
  const Document document = document_of("length: 1 m\nlenght: 1 m\ncolour: red\n");
  std::vector<Diagnostic> faults;
  Map map(root(document), faults, "a bench");
  CHECK(map.has("length"));
  CHECK(!map.has("depth"));
  map.finish();
  CHECK(messages(faults) ==
        "b.yaml:2:1: 'lenght' is not a key here\n"
        "  lenght: 1 m\n"
        "  ^~~~~~\n"
        "  at lenght; write, for example: length\n"
        "b.yaml:3:1: 'colour' is not a key here\n"
        "  colour: red\n"
        "  ^~~~~~\n"
        "  at colour; write, for example: length or depth\n");
}

TEST_CASE("map: a missing key is a fault at the part that lacks it") {
  const Document document = document_of("machines:\n  - {kind: drill press}\nfloor:\n");
  std::vector<Diagnostic> faults;
  Map top(root(document), faults, "a bench");
  Map machine(top.find("machines")->items()[0], faults, "a machine");
  CHECK(!machine.need("mass", "mass: 60 kg"));
  Map floor(*top.find("floor"), faults, "a floor");
  CHECK(!floor.need("surface", "surface: concrete"));
  CHECK(messages(faults) ==
        "b.yaml:2:5: 'mass' is missing\n"
        "    - {kind: drill press}\n"
        "      ^\n"
        "  at machines[1]; write, for example: mass: 60 kg\n"
        "b.yaml:3:1: 'surface' is missing\n"
        "  floor:\n"
        "  ^~~~~\n"
        "  at floor; write, for example: surface: concrete\n");
}

TEST_CASE("map: what is no map is a fault once, and its keys are not missed") {
  const Document document = document_of("posts: four\nrails: [1]\n");
  std::vector<Diagnostic> faults;
  Map top(root(document), faults, "a bench");
  Map posts(*top.find("posts"), faults, "a map of posts: stations, section, turned");
  CHECK(!posts.need("section", "section: 38 x 89 mm"));
  posts.finish();
  Map rails(*top.find("rails"), faults, "a map of rails: top, lower");
  CHECK(messages(faults) ==
        "b.yaml:1:8: 'four' stands where a map is wanted\n"
        "  posts: four\n"
        "         ^~~~\n"
        "  at posts; write, for example: a map of posts: stations, section, turned\n"
        "b.yaml:2:8: a list stands where a map is wanted\n"
        "  rails: [1]\n"
        "         ^\n"
        "  at rails; write, for example: a map of rails: top, lower\n");
}

TEST_CASE("map: all() hands out every entry of a map whose keys are names") {
  const Document document = document_of("parts:\n  leg: 1 m\n  rail: 2 m\n");
  std::vector<Diagnostic> faults;
  Map top(root(document), faults, "a bench");
  Map parts(*top.find("parts"), faults, "parts by name");
  const auto entries = parts.all();
  REQUIRE(entries.size() == 2);
  CHECK(entries[1].first == "rail");
  CHECK(entries[1].second.path() == "parts.rail");
  CHECK(read_si(entries[1].second, Kind::length, faults) == 2.0);
  parts.finish();
  CHECK(messages(faults) == "");
}

TEST_CASE("field: a list of the wrong length or with bad items is a fault") {
  const Document document = document_of("a: [1 mm]\nb: 5 mm\nc: [1 mm, 2 kg]\n");
  std::vector<Diagnostic> faults;
  Map map(root(document), faults, "a bench");
  for (const char* key : {"a", "b", "c"}) {
    CHECK(!read_si_list(*map.find(key), Kind::length, 2, faults));
  }
  CHECK(messages(faults) ==
        "b.yaml:1:4: a list of 1 stands where a list of 2 is wanted\n"
        "  a: [1 mm]\n"
        "     ^\n"
        "  at a; write, for example: a: [600 mm, 600 mm]\n"
        "b.yaml:2:4: '5 mm' stands where a list of 2 is wanted\n"
        "  b: 5 mm\n"
        "     ^~~~\n"
        "  at b; write, for example: b: [600 mm, 600 mm]\n"
        "b.yaml:3:11: '2 kg' is a mass; a length is wanted\n"
        "  c: [1 mm, 2 kg]\n"
        "            ^~~~\n"
        "  at c[2]; write, for example: 600 mm\n");
}

TEST_CASE("field: spans count code points and skip the opening quote") {
  const Document document = document_of("a: \"\xC3\xA9 5\"\nb: 'it''s'\n");
  std::vector<Diagnostic> faults;
  Map map(root(document), faults, "a bench");
  const Diagnostic fault = map.find("a")->fault(
      quantity::TextFault{.offset = 3, .length = 1, .what = "here", .instead = ""});
  CHECK(fault.at.column == 7);
  CHECK(fault.length == 1);
  // An escape does not stand in the file as it reads: the beginning is all there is to show.
  CHECK(map.find("b")->fault("here", "").at.column == 4);
}

TEST_CASE("field: a proposal that YAML would misread is put in quotes") {
  const Document document = document_of("a: \"#2\"\n");
  std::vector<Diagnostic> faults;
  Map map(root(document), faults, "a bench");
  const quantity::TextFault fault{.offset = 0, .length = 2, .what = "bad", .instead = "x #3"};
  CHECK(map.find("a")->fault(fault).instead == "a: \"x #3\"");
  CHECK(to_text(map.find("a")->warning("odd", "")) ==
        "b.yaml:1:5: warning: odd\n"
        "  a: \"#2\"\n"
        "      ^~\n"
        "  at a\n");
}

}  // namespace map_test
