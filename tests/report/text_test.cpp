#include "standtrue/report/report.hpp"

#include <doctest/doctest.h>

#include <limits>
#include <vector>

#include "report/layout.hpp"
#include "report/page.hpp"
#include "tests/report/assessments.hpp"
#include "tests/report/golden.hpp"
#include "tests/report/solved_bench.hpp"

namespace text_test {

using namespace standtrue;
using check::Judgement;

namespace {

struct Named {
  std::string name;
  decide::Assessment assessment;
};

std::vector<Named> one_of_each() {
  return {{"stands", test::stands()},
          {"depends", test::depends()},
          {"carries-but", test::carries_but()},
          {"do-not-load", test::do_not_load()},
          {"not-judged", test::unjudged()}};
}

report::Style style_of(int width) {
  report::Style style;
  style.width = width;
  return style;
}

std::size_t longest_line(const std::string& text) {
  std::size_t longest = 0;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = std::min(text.find('\n', at), text.size());
    longest = std::max(longest, report::columns(text.substr(at, end - at)));
    at = end + 1;
  }
  return longest;
}

std::string without_colour(std::string text) {
  for (std::size_t at = text.find('\x1b'); at != std::string::npos; at = text.find('\x1b')) {
    text.erase(at, text.find('m', at) - at + 1);
  }
  return text;
}

}  // namespace

TEST_CASE("report/text: the page of every verdict, wide and narrow") {
  for (const Named& named : one_of_each()) {
    for (const int width : {80, 50}) {
      const std::string page = report::text(named.assessment, style_of(width));
      test::check_golden(named.name + "-" + std::to_string(width) + ".txt", page);
    }
  }
}

TEST_CASE("report/text: the page in inches and pounds") {
  decide::Assessment assessment = test::depends();
  assessment.bench.units = quantity::UnitSystem::imperial;
  test::check_golden("depends-imperial.txt", report::text(assessment, style_of(80)));
}

TEST_CASE("report/text: the engineer's pages") {
  report::Style style = style_of(80);
  style.detail = true;
  test::check_golden("depends-detail.txt", report::text(test::depends(), style));
  test::check_golden("not-judged-detail.txt", report::text(test::unjudged(), style));
  decide::Assessment released = test::with_answers(test::stands());
  released.released = {"top rail, left end"};
  for (decide::Bounded* bounded : {&released.soft, &released.mean, &released.stiff}) {
    bounded->idealisation.model->parts.rail_ends[0].released = true;
  }
  test::check_golden("solved-detail.txt", report::text(released, style));
}

TEST_CASE("report/text: no line is wider than the page, none ends with a blank") {
  std::vector<Named> all = one_of_each();
  all.push_back({"solved", test::with_answers(test::stands())});
  for (const Named& named : all) {
    for (const bool detail : {false, true}) {
      for (int width = report::least_width; width <= 120; ++width) {
        report::Style style = style_of(width);
        style.detail = detail;
        const std::string page = report::text(named.assessment, style);
        CHECK(longest_line(page) <= static_cast<std::size_t>(width));
        CHECK(page.find(" \n") == std::string::npos);
      }
    }
  }
}

TEST_CASE("report/text: colour changes no character of the page") {
  for (const Named& named : one_of_each()) {
    for (const int width : {80, 50}) {
      report::Style style = style_of(width);
      const std::string plain = report::text(named.assessment, style);
      CHECK(plain.find('\x1b') == std::string::npos);
      style.colour = true;
      const std::string coloured = report::text(named.assessment, style);
      CHECK(coloured.find("\x1b[1m") != std::string::npos);
      CHECK(without_colour(coloured) == plain);
    }
  }
}

TEST_CASE("report/text: the page speaks the shop's words and not the code's") {
  for (const Named& named : one_of_each()) {
    const std::string page = report::text(named.assessment, style_of(80));
    for (const char* word : {"utilisation", "characteristic", "percentile", "EN 1995", "nan"}) {
      CAPTURE(word);
      CHECK(page.find(word) == std::string::npos);
    }
  }
}

TEST_CASE("report/text: the worst finding of a group governs its rod; a caution never does") {
  decide::Assessment assessment = test::stands();
  check::Finding worse = test::sag({0.012, 0.009, 0.008}, 0.006, Judgement::exceeded);
  worse.id = "sag/top";
  worse.place = "top, middle";
  assessment.findings.push_back(worse);
  const std::string page = report::text(assessment, style_of(80));
  CHECK(page.find("8 to 12 mm, 6 allowed") != std::string::npos);
  CHECK(page.find("<- top, middle") != std::string::npos);
  CHECK(page.find("2.2 to 2.9 mm") == std::string::npos);
  CHECK(report::text(test::depends(), style_of(80)).find("\n  tip ") == std::string::npos);
}

TEST_CASE("report/text: a finding without a ratio is never drawn, whatever its judgement says") {
  decide::Assessment assessment = test::stands();
  for (check::Finding& f : assessment.findings) {
    f.ratio = f.ratio_soft = f.ratio_stiff = test::no_number;
  }
  const std::string page = report::text(assessment, style_of(80));
  CHECK(page.find("||") == std::string::npos);
  CHECK(page.find("Not judged: bending (front top rail); sag (front top rail); sway (across).") !=
        std::string::npos);
}

TEST_CASE("report/text: one change for each group, three in all; three cautions and places") {
  decide::Assessment assessment = test::unjudged();
  const check::Group groups[] = {check::Group::carry, check::Group::sheet, check::Group::tip,
                                 check::Group::feet};
  for (int i = 0; i < 8; ++i) {
    const std::string number = std::to_string(i);
    check::Finding f = test::share_of_strength("bending/rail-" + number, groups[i / 2],
                                               {1.9 - 0.1 * i, 1.3, 1.2}, Judgement::exceeded);
    f.advice = "cure " + number;
    assessment.findings.push_back(f);
    assessment.findings.push_back(test::not_judged("stem/foot-" + number, "no data"));
    assessment.cautions.push_back("Caution " + number);
  }
  const std::string page = report::text(assessment, style_of(80));
  CHECK(page.find("  Change, for carry: cure 0.\n  Change, for sheet: cure 2.\n"
                  "  Change, for tip: cure 4.\n  Take care: ") != std::string::npos);
  CHECK(page.find("Caution 1.") != std::string::npos);
  CHECK(page.find("Caution 2") == std::string::npos);
  CHECK(page.find("(6 more with --detail)") != std::string::npos);
  CHECK(page.find("stem (foot 0, foot 1, foot 2, 5 more)") != std::string::npos);
}

TEST_CASE("report/text: unmet tests of tables come after the bench's own cautions, met ones not") {
  decide::Assessment assessment = test::unjudged();
  assessment.cautions = {"A general one"};
  const auto add = [&](const char* id, check::Kind kind, const char* sentence) {
    check::Finding f =
        test::share_of_strength(id, check::Group::carry, {1.2, 1.2, 1.2}, Judgement::exceeded);
    f.kind = kind;
    f.sentence = sentence;
    assessment.findings.push_back(f);
  };
  add("table-test/static", check::Kind::caution, "A published test is not met");
  add("table-test/disc", check::Kind::told, "Another is met");
  add("tipping/empty", check::Kind::caution, "Empty, it tips");
  const std::string page = report::text(assessment, style_of(80));
  CHECK(page.find("  Take care: Empty, it tips.\n             A published test is not met.\n"
                  "             A general one.\n") != std::string::npos);
  CHECK(page.find("Another is met") == std::string::npos);
  // A caution that is met is none; what has no limit, like a speed to keep off, is one.
  check::Finding met = assessment.findings.back();
  met.id = "sliding/empty";
  met.sentence = "Empty, it slides at a push of 319 N";
  met.judgement = Judgement::satisfied;
  met.ratio = 0.94;
  assessment.findings.push_back(met);
  met.sentence = "Keep off 1200 rpm";
  met.ratio = std::numeric_limits<double>::quiet_NaN();
  assessment.findings.push_back(met);
  const std::string care = report::text(assessment, style_of(80));
  CHECK(care.find("319 N") == std::string::npos);
  CHECK(care.find("Keep off 1200 rpm") != std::string::npos);
}

TEST_CASE("report/text: a row owns up to what of its group is not judged") {
  decide::Assessment assessment = test::unjudged();
  CHECK(report::text(assessment, style_of(80)).find("\n  joints  not judged\n") !=
        std::string::npos);
  assessment.findings.push_back(test::share_of_strength("joint/good", check::Group::joints,
                                                        {0.3, 0.3, 0.3}, Judgement::satisfied));
  CHECK(report::text(assessment, style_of(100))
            .find("at most 1/3 of the joint's strength  <- some not judged\n") !=
        std::string::npos);
}

TEST_CASE("report/text: what would let a safety check be judged is told") {
  decide::Assessment assessment = test::unjudged();
  assessment.findings[1].advice = "drill first, or take thinner screws";
  CHECK(report::text(assessment, style_of(80))
            .find("\n  To judge joints: drill first, or take thinner screws.\n") !=
        std::string::npos);
}

TEST_CASE("report/text: a stiffness that a pull shows on no rule asks for a gauge") {
  decide::Assessment assessment = test::depends();
  assessment.findings[2] = test::sway({90.0, 130.0, 200.0}, 120.0, Judgement::depends);
  const std::string page = report::text(assessment, style_of(200));
  CHECK(page.find("read with a dial or feeler gauge how far it moves: 0.82 mm or less is good") !=
        std::string::npos);
}

TEST_CASE("report/text: what no measurement would save is changed, not measured") {
  decide::Assessment assessment = test::depends();
  CHECK(report::text(assessment, style_of(200)).find("Measure: ") != std::string::npos);
  assessment.verdict = decide::Verdict::do_not_load;
  const std::string page = report::text(assessment, style_of(200));
  CHECK(page.find("Measure: ") == std::string::npos);
  CHECK(page.find("Change, for sway: ") != std::string::npos);
}

TEST_CASE("report/text: a frame that can not be solved says why, and what would hold it") {
  decide::Assessment assessment = test::bench_titled("Wobbly");
  solve::Refusal refusal;
  refusal.what = "node front-left-top can slide along x: nothing resists it";
  refusal.instead = "a brace or a panel in the back";
  assessment.mean.refusal = refusal;
  assessment.verdict = decide::Verdict::do_not_load;
  assessment.summary = "the frame can move.";
  const std::string page = report::text(assessment, style_of(80));
  CHECK(page ==
        "Wobbly    DO NOT LOAD: the frame can move.\n"
        "  Why: node front-left-top can slide along x: nothing resists it; a brace or a\n"
        "       panel in the back.\n"
        "  Take care: Fix and guard machines as their makers say.\n"
        "  A planning aid, not a certificate. (--detail for clauses and working)\n");
}

}  // namespace text_test
