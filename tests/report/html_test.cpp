#include "standtrue/report/html.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <limits>

#include "report/axes.hpp"
#include "report/card_drawings.hpp"
#include "report/drawing.hpp"
#include "report/frame_drawings.hpp"
#include "tests/bench/bench_files.hpp"

namespace html_test {

using namespace standtrue;
using bench_files::tables;
using doctest::Approx;

namespace {

const report::Imprint imprint{"bench.yaml", "2026-01-31", "9.9.9"};

std::size_t count(const std::string& text, const std::string& what) {
  std::size_t n = 0;
  for (std::size_t at = text.find(what); at != text.npos; at = text.find(what, at + 1)) ++n;
  return n;
}

std::string report_of(const std::string& yaml) {
  const decide::Assessment a = decide::assess(bench_files::sound(yaml), tables());
  return report::html(a, decide::picture_of(a, tables()), std::nullopt, imprint);
}

/// Every start tag has its end, in order; those that stand alone are known.
void check_nesting(const std::string& html) {
  std::vector<std::string> open;
  for (std::size_t at = html.find('<'); at != html.npos; at = html.find('<', at + 1)) {
    const std::size_t end = html.find('>', at);
    REQUIRE(end != html.npos);
    std::string tag = html.substr(at + 1, end - at - 1);
    if (tag.front() == '!' || tag.back() == '/') continue;
    const bool closes = tag.front() == '/';
    if (closes) tag.erase(0, 1);
    const std::string name = tag.substr(0, tag.find_first_of(" \n"));
    if (name == "meta") continue;
    if (!closes) {
      open.push_back(name);
      continue;
    }
    REQUIRE(!open.empty());
    CHECK(open.back() == name);
    open.pop_back();
  }
  CHECK(open.empty());
}

const char* const loaded = R"(standtrue: 1
title: Corner bench
size: 1880 x 590 x 860 mm
timber: C16 38 x 89 mm
joints: {kind: corner brackets, width: 38 mm}
top: {sheet: 18 mm spruce plywood, load: 60 kg}
machines: [{kind: drill press, mass: 60 kg, at: middle}]
)";

/// Judged, sampled and written once: nobody changes them.
struct Told {
  decide::Assessment judged = decide::assess(bench_files::sound(loaded), tables());
  decide::Picture picture = decide::picture_of(judged, tables());
  std::string html = report::html(judged, picture, std::nullopt, imprint);
};

const Told& told() {
  static const Told made;
  return made;
}

}  // namespace

TEST_CASE("report/html: what a bench file says is never markup") {
  const std::string html = report_of(
      "standtrue: 1\ntitle: \"<script>alert(1)</script> & 'quotes' \\\"\"\n"
      "size: 1880 x 590 x 860 mm\ntimber: C16 38 x 89 mm\n"
      "joints: {kind: corner brackets, width: 38 mm}\ntop: 18 mm spruce plywood\n"
      "machines: [{kind: drill press, name: \"<img src=x onerror=alert(2)>\", mass: 60 kg, at: "
      "middle}]\n");
  CHECK(count(html, "<script") == 0);
  CHECK(count(html, "<img") == 0);
  CHECK(count(html, "&lt;script&gt;alert(1)&lt;/script&gt; &amp; &#39;quotes&#39; &quot;") > 0);
  check_nesting(html);
}

TEST_CASE("report/html: one file that asks nobody for anything") {
  const std::string& html = told().html;
  CHECK(count(html, "Content-Security-Policy") == 1);
  CHECK(count(html, "default-src 'none'") == 1);
  CHECK(count(html, "http") ==
        count(html, "http-equiv") + count(html, "xmlns=\"http://www.w3.org"));
  CHECK(count(html, "@import") == 0);
  CHECK(count(html, "<link") == 0);
  check_nesting(html);
}

TEST_CASE("report/html: the first page says what, where, and what to do") {
  const std::string& html = told().html;
  const std::size_t begin = html.find("<section");
  const std::string first = html.substr(begin, html.find("</section>") - begin);
  CHECK(count(first, "Corner bench") > 0);
  CHECK(count(first, "2026-01-31") == 1);
  CHECK(count(first, "bench.yaml") == 1);
  CHECK(count(first, "drill press 60 kg, 60 kg on the top") == 1);
  CHECK(count(first, "A planning aid, not a certificate") == 1);
  const auto balloons = report::balloons_of(told().judged);
  REQUIRE(!balloons.empty());
  for (const report::Balloon& b : balloons) {
    const std::string number = std::to_string(b.number);
    CHECK(count(first, "<b class=\"ring\">" + number + "</b>") == 1);  // in the list
    CHECK(count(first, ">" + number + "</text>") == 1);                // and on the drawing
  }
}

TEST_CASE("report/html: materials stand once, with their source (EN 338, Table 1, C16)") {
  const std::string& html = told().html;
  const std::size_t at = html.find("Engineer: materials");
  REQUIRE(at != html.npos);
  const std::string sheet = html.substr(at, html.find("</section>", at) - at);
  CHECK(count(sheet, ">C16<") == 1);
  CHECK(count(sheet, "16 N/mm2") == 1);  // f_m_k
  CHECK(count(sheet, "EN 338") == 1);
  CHECK(count(sheet, "18 mm spruce plywood") == 1);
}

TEST_CASE("report/html: every drawing says in words what it shows") {
  const std::string& html = told().html;
  CHECK(count(html, "role=\"img\"") > 8);
  CHECK(count(html, "<title>") == count(html, "role=\"img\"") + 1);  // and that of the page
  CHECK(count(html, "<desc>") == count(html, "role=\"img\""));
  CHECK(count(html, "nan") == 0);
  CHECK(count(html, "\"inf") == 0);
}

TEST_CASE("report/html: a frame that can move has a first page that says so") {
  const std::string html = report_of(
      "standtrue: 1\nsize: 1880 x 590 x 860 mm\ntimber: C16 38 x 89 mm\njoints: pinned\n"
      "top: 18 mm spruce plywood\nanalysis: {sheets: none}\n");
  CHECK(count(html, "DO NOT LOAD") > 0);
  CHECK(count(html, "The frame can move") > 0);
  check_nesting(html);
}

TEST_CASE("report/html: a ledger, strips, allowable stress and inches are drawn too") {
  for (const char* yaml :
       {"standtrue: 1\nsize: 1900 x 600 x 880 mm\ntimber: C24 45 x 95 mm\njoints: two corner "
        "brackets\ntop: 21 mm spruce plywood\nwall: {ledger: 45 x 95 mm, screws_every: 400 mm}\n",
        "standtrue: 1\nsize: 1880 x 590 x 860 mm\ntimber: C16 38 x 89 mm\njoints: corner "
        "brackets\ntop: 18 mm spruce plywood\nanalysis: {sheets: strip}\n"
        "machines: [{kind: drill press, mass: 60 kg, at: middle}]\n",
        "standtrue: 1\nsize: 74 x 24 x 34 in\ntimber: SPF No.2 1 1/2 x 3 1/2 in\njoints: corner "
        "brackets\ntop: 18 mm spruce plywood\nrules: allowable stress\n"}) {
    const std::string html = report_of(yaml);
    CHECK(count(html, "Shop drawing: front, left end and plan") == 1);
    check_nesting(html);
  }
}

TEST_CASE("report/html: every named picture is an SVG file of its own, or nothing") {
  const auto& [a, picture, html] = told();
  for (const std::string& name : report::picture_names()) {
    const std::string svg = report::picture_svg(name, a, picture, std::nullopt);
    INFO(name);
    CHECK(svg.rfind("<svg xmlns", 0) == 0);
    CHECK(count(svg, "<svg") == 1);
    CHECK(count(svg, "id=\"pencil\"") == 1);
    check_nesting(svg);
  }
  CHECK(report::picture_svg("no such picture", a, picture, std::nullopt).empty());
}

TEST_CASE("report/html: what nobody judged stands on the first page, and is never called good") {
  decide::Assessment a;
  a.bench = bench_files::sound(loaded);
  check::Finding good, unknown;
  good.id = "sag/top";
  good.group = check::Group::sag;
  good.kind = check::Kind::service;
  good.judgement = check::Judgement::satisfied;
  good.ratio = good.ratio_soft = good.ratio_stiff = 0.4;
  unknown.id = "bending/front-top-rail";
  unknown.why = "its strength is not known";
  a.findings = {good, unknown};
  const auto first = [&] {
    const std::string html = report::html(a, decide::Picture{}, std::nullopt, imprint);
    return html.substr(html.find("<section"), html.find("</section>") - html.find("<section"));
  };
  CHECK(count(first(), "Nothing that was judged is over its limit") == 1);
  CHECK(count(first(), "bending (front top rail)") == 1);
  a.findings = {unknown};
  CHECK(count(first(), "Nothing could be judged") == 1);
  a.findings = {good};
  CHECK(count(first(), "Nothing is over its limit") == 1);
  CHECK(count(first(), "Not judged") == 0);
}

TEST_CASE("report/html: white on the plan is what was found clear, and nothing else") {
  decide::PlacePlan plan;
  plan.machine = "press";
  plan.nx = 4;
  plan.ny = 1;
  plan.length = quantity::metres(1.0);
  plan.depth = quantity::metres(0.5);
  plan.loads.none = "not asked for";
  plan.is_alike_turned = true;
  plan.ways.resize(1);
  plan.ways[0].at.resize(4);
  plan.ways[0].at[0].stand = decide::Stand::clear;
  plan.ways[0].at[1].stand = decide::Stand::care;
  plan.ways[0].at[2].stand = decide::Stand::barred;  // and nobody looked at the last
  const auto drawings = report::load_plan_drawings(plan, quantity::UnitSystem::metric, 186.0);
  REQUIRE(drawings.size() == 1);
  const std::string svg = drawings[0].svg.text();
  for (const char* ink : {"care", "barred", "unseen"}) {
    CHECK(count(svg, std::string("class=\"") + ink + "\"") == 2);  // the cell and its legend
  }
  CHECK(count(svg, "clear: 25 % of its room") == 1);
  CHECK(count(svg, "not looked at: 25 % of its room") == 1);
}

TEST_CASE("report/html: a bench that was not judged has no rod") {
  decide::SideBySide two;
  two.options.resize(2);
  two.options[0].name = "as it is";
  two.options[0].figures = decide::Figures{};
  two.options[1].name = "it can move";
  two.options[1].figures = decide::Figures{};
  const double never = std::numeric_limits<double>::infinity();
  two.options[1].figures->carry = decide::Span{never, never, never};
  const auto drawing = report::options_drawing(two, 186.0);
  REQUIRE(drawing);
  CHECK(count(drawing->svg.text(), "not judged") == 3);  // of the second its sag alone
  CHECK(count(drawing->svg.text(), "class=\"over\"") == 1);
}

TEST_CASE("report/html: the turn of a foot stands at that foot, whatever posts are called") {
  bench::Bench bench = bench_files::sound(loaded);
  decide::Levelling set;
  for (std::size_t p = 0; p < bench.posts.size(); ++p) {
    bench.posts[p].name = "leg " + std::to_string(p + 1);
    decide::FootToSet foot;
    foot.name = bench.posts[p].name + " foot";
    foot.post = p;
    foot.pitch = 0.0015;
    foot.out = 0.0;
    set.feet.push_back(foot);
  }
  const auto drawing = report::turns_drawing(set, bench, 186.0);
  REQUIRE(drawing);
  const std::string svg = drawing->svg.text();
  // Each name at a place of its own.
  std::vector<std::string> places;
  for (const decide::FootToSet& foot : set.feet) {
    const std::size_t name = svg.find(">" + foot.name + "<");
    REQUIRE(name != svg.npos);
    const std::size_t tag = svg.rfind("<text", name);
    places.push_back(svg.substr(tag, name - tag));
  }
  std::sort(places.begin(), places.end());
  CHECK(std::unique(places.begin(), places.end()) == places.end());
}

TEST_CASE("report/axes: a ratio is a length, wherever it stands (logarithms)") {
  const report::Axes axes({10.0, 90.0}, 100.0, 80.0, {0.1, 10.0}, {1.0, 100.0});
  CHECK(axes.x(0.1) == Approx(10.0));
  CHECK(axes.x(1.0) == Approx(60.0));
  CHECK(axes.x(10.0) == Approx(110.0));
  CHECK(axes.y(10.0) == Approx(50.0));
}

}  // namespace html_test
