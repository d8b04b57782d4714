#include "standtrue/decide/decide.hpp"

#include <doctest/doctest.h>

#include <algorithm>

#include "decide/alter.hpp"
#include "decide/catalogue.hpp"
#include "standtrue/bench/variants.hpp"
#include "standtrue/document/overlay.hpp"
#include "tests/bench/bench_files.hpp"

namespace compare_test {

using namespace standtrue;
using bench_files::tables;
using decide::Option;
using decide::SideBySide;

namespace {

struct File {
  document::Document document;
  bench::Bench bench;
};

File file_of(const std::string& text) {
  const document::Reading reading = document::parse("bench.yaml", text);
  REQUIRE(reading.document);
  return {*reading.document, bench_files::sound(text)};
}

/// Strips, for speed: what is compared does not hang on plates here.
const std::string plain = R"(
standtrue: 1
size: 1600 x 700 x 900 mm
timber: C24 45 x 95 mm
joints: two corner brackets
top: {sheet: 18 mm spruce plywood, load: none}
analysis: {sheets: strip}
)";

const Option& named(const std::vector<Option>& options, const std::string& name) {
  for (const Option& option : options) {
    if (option.name == name) return option;
  }
  FAIL("no option " << name);
  return options.front();
}

}  // namespace

TEST_CASE("decide/compare: the first row is what check says of the file") {
  const File f = file_of(plain);
  const SideBySide c = decide::brace(f.document, f.bench, tables(), decide::Work::plain());
  REQUIRE(c.options.size() > 5);
  REQUIRE(c.options[0].figures);
  const decide::Figures own = decide::figures_of(decide::assess(f.bench, tables()));
  CHECK(c.options[0].figures->verdict == own.verdict);
  CHECK(c.options[0].figures->failing == own.failing);
  CHECK(c.options[0].figures->along->mean == own.along->mean);
  CHECK(c.complete);
}

TEST_CASE("decide/compare: what a row writes, put into the file, gives that row") {
  const File f = file_of(R"(
standtrue: 1
size: 1500 x 700 x 900 mm
timber: C24 45 x 95 mm
joints: two corner brackets
top: {sheet: 9 mm spruce plywood, layers: 2, layers_joined: glued, load: none}
braces: {side: back}
sheets: [{side: left, sheet: 9 mm spruce plywood}]
machines: [{kind: drill press, mass: 60 kg, at: middle}]
analysis: {sheets: strip}
)");
  const decide::Base base{f.document, f.bench, tables()};
  std::vector<Option> rows;
  for (const auto& ask : {decide::ply, decide::brace}) {
    const SideBySide c = ask(f.document, f.bench, tables(), decide::Work::plain());
    rows.insert(rows.end(), c.options.begin() + 1, c.options.end());
  }
  std::vector<Option> singles = decide::catalogue(base);
  std::vector<Option> adding, pairs;
  // Lists are joined, groups merged: what adds to a list, with the first of all and in a ring.
  for (const Option& o : singles) {
    if (o.write.rfind("b", 0) == 0 || o.write.rfind("sheets", 0) == 0) adding.push_back(o);
  }
  for (std::size_t i = 0; i < adding.size(); ++i) {
    pairs.push_back(decide::together(singles.front(), adding[i]));
    if (i > 0) pairs.push_back(decide::together(adding[i - 1], adding[i]));
  }
  decide::assess_all(singles, tables(), decide::Work::plain());
  decide::assess_all(pairs, tables(), decide::Work::plain());
  rows.insert(rows.end(), singles.begin(), singles.end());
  rows.insert(rows.end(), pairs.begin(), pairs.end());
  int tried = 0;
  for (const Option& row : rows) {
    CAPTURE(row.name);
    CAPTURE(row.write);
    if (!row.figures || row.write.empty()) continue;
    const document::Document written = document::overlaid(f.document, document::node_of(row.write));
    const bench::BenchReading reading = bench::read_bench(written, tables());
    REQUIRE_MESSAGE(reading.bench, bench_files::messages(reading.diagnostics));
    const decide::Figures now = decide::figures_of(decide::assess(*reading.bench, tables()));
    CHECK(now.mass == row.figures->mass);
    CHECK(now.failing == row.figures->failing);
    ++tried;
  }
  CHECK(tried > 30);
}

TEST_CASE("decide/brace: pieces are those more than the file has") {
  const std::string bare = plain;
  const auto pieces = [](const std::string& text, const char* row) {
    const File f = file_of(text);
    return named(decide::brace(f.document, f.bench, tables(), decide::Work::plain()).options, row)
        .pieces;
  };
  CHECK(pieces(bare, "a cross in the back") == 2);
  const File f = file_of(bare);
  const SideBySide c = decide::brace(f.document, f.bench, tables(), decide::Work::plain());
  CHECK(named(c.options, "no brace at all").write.empty());
  const std::string drawn = bare + "braces: [{side: left}, {side: right}]\n";
  CHECK(pieces(drawn, "no brace at all") == -2);
  CHECK(pieces(drawn, "a diagonal in each end (as it is drawn)") == 0);
  CHECK(pieces(drawn, "a diagonal in the back and in each end") == 1);
}

TEST_CASE("decide/brace: a diagonal in the back helps along, ends across; both do both") {
  const File f = file_of(plain);
  const SideBySide c = decide::brace(f.document, f.bench, tables(), decide::Work::plain());
  const Option& none = named(c.options, "no brace at all");
  const Option& back = named(c.options, "one diagonal in the back, rising to the right");
  const Option& ends = named(c.options, "a diagonal in each end");
  REQUIRE(none.figures);
  REQUIRE(back.figures);
  REQUIRE(ends.figures);
  const auto times = [&](const Option& o, bool along) {
    return along ? o.figures->along->mean / none.figures->along->mean
                 : o.figures->across->mean / none.figures->across->mean;
  };
  CHECK(times(back, true) > 1.1);
  // A shove at one end turns the bench in plan: what holds one way helps the other a little too.
  const Option& both = named(c.options, "a diagonal in the back and in each end");
  CHECK(times(both, true) > 1.1);
  CHECK(times(both, false) > 1.1);
  CHECK(times(ends, false) > 1.1);
  CHECK_FALSE(c.answer.empty());
}

TEST_CASE("decide/brace: what it calls enough harms nothing; a light bench is told of its feet") {
  const std::string heavy = R"(
standtrue: 1
size: 1600 x 800 x 900 mm
timber: C24 45 x 95 mm
joints: two corner brackets
top: {sheet: 18 mm spruce plywood, load: none}
shelf: {sheet: 18 mm spruce plywood, load: 90 kg/m2}
feet: {thread: M8, extension: 24 mm}
)";  // enough to stay on its feet, which are thin
  const File f = file_of(heavy);
  const decide::SideBySide c = decide::brace(f.document, f.bench, tables(), decide::Work::plain());
  const auto says = [](const std::vector<std::string>& answer, const std::string& words) {
    return std::any_of(answer.begin(), answer.end(), [&](const std::string& line) {
      return line.find(words) != std::string::npos;
    });
  };
  CHECK(says(c.answer, "It needs a brace or a sheet along and across: without"));
  // With a back sheet, across alone.
  const File backed = file_of(heavy + "sheets: [{side: back, sheet: 9 mm spruce plywood}]\n");
  CHECK(says(decide::brace(backed.document, backed.bench, tables(), decide::Work::plain()).answer,
             "As it is drawn it is not sure to be enough across: it sways"));
  // Diagonals both ways are stiff enough; they bring more of a shove to one foot, whose stem then
  // fails. So they are not called enough, and what they harm is named.
  const Option& both = named(c.options, "a diagonal in the back and in each end");
  REQUIRE(both.figures->failing == std::vector<std::string>{"foot/stem"});
  CHECK_FALSE(says(c.answer, "is enough: "));
  CHECK(says(c.answer, "is stiff enough: "));
  CHECK(says(c.answer, "another check fails, or may: foot stem."));
  for (const Option& option : c.options) {
    if (!option.figures || !says(c.answer, "is stiff enough: " + option.name + ".")) continue;
    for (const std::string& id : option.figures->failing) CHECK(id.rfind("sway/", 0) != 0);
  }
  CHECK_FALSE(says(c.answer, "A shove can tip it"));
  const File light = file_of(plain);
  CHECK(says(decide::brace(light.document, light.bench, tables(), decide::Work::plain()).answer,
             "A shove can tip it"));
}

TEST_CASE(
    "decide/improve: what it proposes passes check, and nothing is proposed for a good bench") {
  const File f = file_of(plain);
  const SideBySide c = decide::improve(f.document, f.bench, tables(), decide::Work::plain());
  REQUIRE(c.options[0].figures);
  REQUIRE_FALSE(c.options[0].figures->failing.empty());
  REQUIRE(c.options.size() > 1);
  std::size_t cures = 0;
  for (std::size_t i = 1; i < c.options.size(); ++i) {
    const Option& option = c.options[i];
    REQUIRE(option.figures);
    CHECK(option.figures->uncut.empty());  // 1600 mm across the grain no usual sheet gives
    if (!option.figures->failing.empty()) continue;
    const bench::BenchReading reading = bench::read_bench(option.document, tables());
    REQUIRE(reading.bench);
    const decide::Assessment a = decide::assess(*reading.bench, tables());
    CHECK(a.verdict == decide::Verdict::stands);
    ++cures;
  }
  CHECK(cures > 0);
  CHECK(c.answer.at(0).find(c.options[1].name) != std::string::npos);
  const document::Document& cured = c.options[1].document;
  const bench::BenchReading good = bench::read_bench(cured, tables());
  const decide::SideBySide again =
      decide::improve(cured, *good.bench, tables(), decide::Work::plain());
  CHECK(again.options.size() == 1);
  CHECK(again.answer.at(0).find("Nothing fails") != std::string::npos);
  // Ranked by pieces, then joints.
  for (std::size_t i = 2; i < c.options.size(); ++i) {
    const bool both_cure =
        c.options[i - 1].figures->failing.empty() && c.options[i].figures->failing.empty();
    if (both_cure) CHECK(c.options[i - 1].pieces <= c.options[i].pieces);
  }
}

TEST_CASE("decide/improve: two changes together are both in the file") {
  const File f = file_of(plain + "braces: [{side: back}]\n");
  const decide::Base base{f.document, f.bench, tables()};
  const Option bearer = decide::with_one_more(base, "a", "braces", "{side: left}");
  const Option top = decide::with_keys(base, "b", "top: {sheet: 24 mm spruce plywood}");
  const Option one_more = decide::with_one_more(base, "c", "braces", "{side: right}");
  const Option both = decide::together(bearer, top);
  const bench::BenchReading reading = bench::read_bench(both.document, tables());
  REQUIRE(reading.bench);
  CHECK(reading.bench->braces.size() == 2);
  CHECK(quantity::in_si(reading.bench->sheets[0].panel.nominal) == doctest::Approx(0.024));
  const bench::BenchReading three =
      bench::read_bench(decide::together(bearer, one_more).document, tables());
  REQUIRE(three.bench);
  CHECK(three.bench->braces.size() == 3);
}

TEST_CASE("decide/catalogue: every change reads as a bench") {
  const File f = file_of(plain + "machines: [{kind: drill press, mass: 40 kg, at: middle}]\n");
  const decide::Base base{f.document, f.bench, tables()};
  const std::vector<Option> all = decide::catalogue(base);
  CHECK(all.size() > 8);
  int possible = 0;
  for (const Option& option : all) {
    const bench::BenchReading reading = bench::read_bench(option.document, tables());
    if (reading.bench) ++possible;
    CAPTURE(option.name);
    CAPTURE(bench_files::messages(reading.diagnostics));
    // A bench without a shelf has none to load.
    CHECK((reading.bench || option.name.find("shelf") != std::string::npos));
  }
  CHECK(possible > 8);
}

TEST_CASE("decide/catalogue: brackets take the place of laps and of screws (plain counting)") {
  const auto offers = [](const std::string& joints) {
    std::string text = plain;
    text.replace(text.find("two corner brackets"), 19, joints);
    const File f = file_of(text);
    const decide::Base base{f.document, f.bench, tables()};
    for (const Option& option : decide::catalogue(base)) {
      if (option.name.rfind("two corner brackets in place of ", 0) == 0) return option;
    }
    return Option{};
  };
  for (const std::string joints : {"bolted lap", "{kind: bolted lap, bolts: M6, first: 80 mm}",
                                   "screwed lap", "end-grain screws", "pocket screws"}) {
    CAPTURE(joints);
    const Option option = offers(joints);
    CHECK(option.write == "joints: two corner brackets");
    CHECK(option.pieces == 32);  // eight rails, two at each end
    const bench::BenchReading reading = bench::read_bench(option.document, tables());
    REQUIRE_MESSAGE(reading.bench, bench_files::messages(reading.diagnostics));
    for (const bench::Rail& rail : reading.bench->rails) {
      CHECK(rail.start.kind.key == "two corner brackets");
      CHECK(rail.end.kind.fastener_diameter == quantity::millimetres(4));
    }
  }
  CHECK(offers("bolted lap").name == "two corner brackets in place of bolted laps");
  CHECK(offers("pocket screws").name == "two corner brackets in place of pocket screws");
  for (const char* joints : {"two corner brackets", "half lap", "glued tenon"}) {
    CHECK(offers(joints).name.empty());
  }
}

TEST_CASE("decide/catalogue: what is there already, or changes nothing, is not offered") {
  const auto has = [](const std::string& text, const std::string& name) {
    const File f = file_of(text);
    const std::vector<Option> all = decide::catalogue({f.document, f.bench, tables()});
    return std::any_of(all.begin(), all.end(), [&](const Option& o) { return o.name == name; });
  };
  const std::string sheet = "sheets: [{side: back, sheet: 9 mm spruce plywood}]\n";
  const std::string end = "sheets: [{side: left, sheet: 9 mm spruce plywood}]\n";
  CHECK(has(plain, "a back sheet"));
  CHECK(has(plain + end, "a back sheet"));
  CHECK_FALSE(has(plain + sheet, "a back sheet"));
  CHECK(has(plain + sheet, "one diagonal in the back"));
  CHECK(has(plain, "the posts turned"));
  CHECK_FALSE(has(plain + "posts: 90 x 90 mm\n", "the posts turned"));
  CHECK_FALSE(has(plain + "posts: {turned: yes}\n", "the posts turned"));
}

TEST_CASE("decide/brace: what is drawn already is called so") {
  const File f = file_of(plain + "braces: [{side: left}, {side: right}]\n");
  const SideBySide c = decide::brace(f.document, f.bench, tables(), decide::Work::plain());
  CHECK(named(c.options, "a diagonal in each end (as it is drawn)").figures);
}

TEST_CASE("decide/variants: each is the file with some keys changed; faults point into the file") {
  const std::string text = plain + R"(variants:
  braced: {braces: [{side: back}]}
  thicker: {top: {sheet: 24 mm spruce plywood}}
)";
  const File f = file_of(text);
  const SideBySide c = decide::variants(f.document, f.bench, tables(), decide::Work::plain());
  REQUIRE(c.options.size() == 3);
  CHECK(c.options[1].name == "braced");
  REQUIRE(c.options[1].figures);
  CHECK(c.options[1].figures->along->mean > c.options[0].figures->along->mean);
  CHECK(c.options[2].figures->mass > c.options[0].figures->mass);

  const std::string broken = plain + "variants:\n  odd: {top: {sheet: 24 mm cardboard}}\n";
  const document::Reading reading = document::parse("bench.yaml", broken);
  std::vector<Diagnostic> faults;
  const auto all = bench::read_variants(*reading.document, tables(), faults);
  REQUIRE(all.size() == 1);
  REQUIRE_FALSE(all[0].reading.diagnostics.empty());
  CHECK(all[0].reading.diagnostics[0].at.line == 9);
}

TEST_CASE("decide/compare: work that is stopped says so and leaves the rest open") {
  const File f = file_of(plain);
  decide::Work work = decide::Work::plain();
  work.keep_going = [](std::size_t done, std::size_t) { return done < 3; };
  const SideBySide c = decide::brace(f.document, f.bench, tables(), work);
  CHECK_FALSE(c.complete);
  const auto looked_at = std::count_if(c.options.begin(), c.options.end(),
                                       [](const Option& o) { return o.figures.has_value(); });
  CHECK(looked_at == 3);
}

TEST_CASE("decide/compare: a change of a group keeps the single value in its place") {
  const document::Reading parsed = document::parse(
      "b.yaml", "standtrue: 1\nrails: 45 x 120 mm\ntop: 18 mm OSB/3\nshelf: none\n");
  REQUIRE(parsed.document);
  const auto write = [&](const char* yaml) {
    return decide::with_keys(*parsed.document, "change", yaml).write;
  };
  CHECK(write("rails: {top: {short: {timber: C16 45 x 145 mm}}}") ==
        "rails: {section: 45 x 120 mm, top: {short: {timber: C16 45 x 145 mm}}}");
  CHECK(write("top: {grain: along}") == "top: {sheet: 18 mm OSB/3, grain: along}");
  // What is said anew stands, and nothing is kept of nothing.
  CHECK(write("rails: {timber: C16 45 x 145 mm}") == "rails: {timber: C16 45 x 145 mm}");
  CHECK(write("top: {sheet: 22 mm OSB/3}") == "top: {sheet: 22 mm OSB/3}");
  CHECK(write("shelf: {load: 10 kg}") == "shelf: {load: 10 kg}");
}

TEST_CASE("decide/compare: deeper rails keep the values that the file gives of its timber") {
  // What is read back must be what the file said: the reader is its own inverse.
  for (const std::string timber :
       {"{class: C24, section: 45 x 95 mm, E: 8.5 GPa, density: 405.5 kg/m3}",
        "{section: 45 x 95 mm, E: 9100 N/mm2, E_low: 6.3 GPa, G: 611 N/mm2, strengths: {bending: "
        "17 "
        "N/mm2, shear: 3.1 N/mm2}}",
        "C24 45 x 95 mm"}) {
    CAPTURE(timber);
    const File f = file_of(
        "standtrue: 1\nsize: 1900 x 650 x 880 mm\njoints: corner brackets\n"
        "top: 18 mm spruce plywood\ntimber: " +
        timber + "\n");
    const decide::Base base{f.document, f.bench, tables()};
    const reference::Timber& own = f.bench.rails.front().stock.timber;
    int deeper = 0;
    for (const Option& option : decide::catalogue(base)) {
      if (option.write.rfind("rails:", 0) != 0) continue;
      CAPTURE(option.write);
      const bench::BenchReading reading = bench::read_bench(option.document, tables());
      REQUIRE_MESSAGE(reading.bench, bench_files::messages(reading.diagnostics));
      for (const bench::Rail& rail : reading.bench->rails) {
        const reference::Timber& made = rail.stock.timber;
        deeper += rail.depth > f.bench.rails.front().depth ? 1 : 0;
        CHECK(made.key == own.key);
        for (const auto value :
             {&reference::Timber::E_0_mean, &reference::Timber::E_0_05, &reference::Timber::G_mean,
              &reference::Timber::f_m_k, &reference::Timber::f_v_k}) {
          CHECK(quantity::in_si(made.*value) ==
                doctest::Approx(quantity::in_si(own.*value)).epsilon(1e-12));
        }
        CHECK(quantity::in_si(made.rho_k) ==
              doctest::Approx(quantity::in_si(own.rho_k)).epsilon(1e-12));
      }
    }
    CHECK(deeper > 0);
  }
}

TEST_CASE("decide/compare: the next deeper size is one of those that are as thick") {
  // Common practice, no source: 38 x 89 mm where sizes are metric, 38.1 x 88.9 mm by the inch.
  const File f = file_of(
      "standtrue: 1\nsize: 1620 x 560 x 900 mm\njoints: corner brackets\ntop: 18 mm spruce "
      "plywood\n"
      "timber: C16 38 x 63 mm\n");
  const auto deeper = decide::next_deeper(f.bench.rails.front().stock, tables());
  REQUIRE(deeper);
  CHECK(quantity::in_si(deeper->depth) == doctest::Approx(0.089).epsilon(1e-9));
}

}  // namespace compare_test
