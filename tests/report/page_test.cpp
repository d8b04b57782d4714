#include "report/page.hpp"

#include <doctest/doctest.h>

#include <optional>
#include <stdexcept>

#include "report/pages.hpp"
#include "report/paint.hpp"
#include "tests/report/assessments.hpp"
#include "tests/report/solved_bench.hpp"

namespace page_test {

using namespace standtrue;
using report::Page;
using report::Table;

namespace {

Table two_rows() {
  Table table({"     node", "x mm"});
  table.add({"  1  top", "0.24"});
  table.add({"", "-12"});
  return table;
}

bool contains(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

}  // namespace

TEST_CASE("report/page: text is what heading, wrapped and Table make of it") {
  Page page;
  CHECK(page.empty());
  page.heading("Feet");
  page.line("  - ", "one two three four");
  page.line("  - ", " \n\t");
  page.gap();
  page.table(two_rows());
  page.plain("  +--+\n");
  Page other;
  other.line("  ", "end");
  page.add(other);
  CHECK_FALSE(page.empty());
  CHECK(page.text(13) == report::heading("Feet") +
                             report::wrapped("  - ", "one two three four", 13) + "\n" +
                             two_rows().text(2, 13) + "  +--+\n  end\n");
}

TEST_CASE("report/page: a line without words is none") {
  Page page;
  page.line("  - ", "");
  page.line("  - ", " \n\t");
  CHECK(page.empty());
}

TEST_CASE("report/page: lines laid out already have another form for a narrow page") {
  Page page;
  page.plain("+----+   +--+\n", "+----+\n\n+--+\n");
  CHECK(page.text(13) == "+----+   +--+\n");
  CHECK(page.text(12) == "+----+\n\n+--+\n");
  CHECK(page.html(2) == "<pre>+----+   +--+</pre>\n");
}

TEST_CASE("report/page: nothing that a file says is markup, wherever it stands") {
  const std::string hostile = "<script>alert(\"1\" & '2')</script>";
  const std::string safe = "&lt;script&gt;alert(&quot;1&quot; &amp; &#39;2&#39;)&lt;/script&gt;";
  Page page;
  page.heading(hostile);
  page.line("  ", hostile);
  page.line("  - ", hostile);
  page.line("  " + hostile + ": ", hostile);
  page.line("  " + hostile + " ", hostile);
  page.plain(hostile + "\n");
  Table table({hostile, hostile});
  table.add({hostile, hostile});
  page.table(table);
  CHECK(page.html(3) == "<h3>" + safe + "</h3>\n<p>" + safe + "</p>\n<ul>\n<li>" + safe +
                            "</li>\n</ul>\n<p><strong>" + safe + ":</strong> " + safe +
                            "</p>\n<dl>\n<dt>" + safe + "</dt><dd>" + safe + "</dd>\n</dl>\n<pre>" +
                            safe +
                            "</pre>\n<div class=\"wide\"><table>\n<thead><tr><th scope=\"col\">" +
                            safe + "</th><th scope=\"col\">" + safe +
                            "</th></tr></thead>\n<tbody>\n<tr><th scope=\"row\">" + safe +
                            "</th><td>" + safe + "</td></tr>\n</tbody></table></div>\n");
}

TEST_CASE("report/page: colour stays on the terminal, and an ESC takes no text along") {
  Page page;
  page.line("  ", report::painted("STANDS", report::Paint::bold, true) + " and " +
                      report::painted("more", report::Paint::red_brown, true));
  page.plain(report::painted("||", report::Paint::chalk_blue, true));
  page.line("  ", "a\x1b[2 b\x1b c\x1b[");
  CHECK(page.text(80) ==
        "  \x1b[1mSTANDS\x1b[0m and \x1b[38;5;130mmore\x1b[0m\n"
        "\x1b[38;5;67m||\x1b[0m  a\x1b[2 b\x1b c\x1b[\n");
  CHECK(page.html(2) == "<p>STANDS and more</p>\n<pre>||</pre>\n<p>a[2 b c[</p>\n");
}

TEST_CASE("report/page: lines with marks and numbers are lists") {
  Page page;
  page.line("  - ", "one");
  page.line("  - ", "two");
  page.line("  1. ", "first");
  page.line("  2. ", "second");
  page.gap();
  page.line(" 12  ", "twelfth");
  page.line("  ", "after");
  CHECK(page.html(2) ==
        "<ul>\n<li>one</li>\n<li>two</li>\n</ul>\n"
        "<ol>\n<li value=\"1\">first</li>\n<li value=\"2\">second</li>\n</ol>\n"
        "<ol>\n<li value=\"12\">twelfth</li>\n</ol>\n"
        "<p>after</p>\n");
}

TEST_CASE("report/page: words before lines are terms, and blanks below them go on with them") {
  Page page;
  page.line("     check    ", "bending/rail");
  page.line("     working  ", "a = 1");
  page.line("              ", "b = 2");
  page.line("              ", "c = 3");
  page.line("  ", "back at the margin");
  CHECK(page.html(2) ==
        "<dl>\n<dt>check</dt><dd>bending/rail</dd>\n<dt>working</dt><dd>a = 1</dd>\n"
        "<dd>b = 2</dd>\n<dd>c = 3</dd>\n</dl>\n<p>back at the margin</p>\n");
}

TEST_CASE("report/page: labels are strong, and paragraphs that stand deeper are told apart") {
  Page page;
  page.line("  Take care: ", "of this.");
  page.line("             ", "And that.");
  page.line("      ", "0.6 m left");
  CHECK(page.html(2) ==
        "<p><strong>Take care:</strong> of this.</p>\n<p class=\"further\">And that.</p>\n"
        "<p class=\"further\">0.6 m left</p>\n");
}

TEST_CASE("report/page: a table has heads of columns and rows, but none without text") {
  Page page;
  page.table(two_rows());
  CHECK(
      page.html(2) ==
      "<div class=\"wide\"><table>\n"
      "<thead><tr><th scope=\"col\">node</th><th scope=\"col\" class=\"n\">x mm</th></tr></thead>\n"
      "<tbody>\n<tr><th scope=\"row\">1  top</th><td class=\"n\">0.24</td></tr>\n"
      "<tr><td></td><td class=\"n\">-12</td></tr>\n</tbody></table></div>\n");
}

TEST_CASE("report/page: a column of words is none of numbers, though it stands flush right") {
  Table table({"of", "length", "for"});
  table.add({"C16", "893 mm", "front post"});
  table.add({"C24", "leave it", "2nd rail"});
  table.add({"C24", "-", "back rail"});
  Page page;
  page.table(table);
  const std::string html = page.html(2);
  CHECK(contains(html, "<th scope=\"col\" class=\"n\">length</th><th scope=\"col\">for</th>"));
  CHECK(contains(html, "<td class=\"n\">leave it</td><td>2nd rail</td>"));
}

TEST_CASE("report/page: headings have levels 1 to 6") {
  Page page;
  page.heading("Feet");
  CHECK(page.html(6) == "<h6>Feet</h6>\n");
  CHECK_THROWS_AS((void)page.html(0), std::logic_error);
  CHECK_THROWS_AS((void)page.html(7), std::logic_error);
}

TEST_CASE("report/page: the engineer's pages in HTML say what the terminal says") {
  const decide::Assessment assessment = test::with_answers(test::depends());
  const std::string working = report::working_page(assessment).html(3);
  CHECK(contains(working, "<h3>Working</h3>\n<ol>\n<li value=\"1\">"));
  CHECK(contains(working, "<dt>check</dt><dd>"));
  CHECK(contains(report::findings_page(assessment).html(2), "<th scope=\"row\">1  "));
  CHECK(contains(report::understood_page(assessment).html(2), "<h2>As I understood it</h2>"));
  CHECK(contains(report::loads_page(assessment).html(2), "<h2>Combinations</h2>\n<ul>"));
  CHECK(contains(report::joints_and_feet_page(assessment).html(2), "<th scope=\"row\">left foot"));
  CHECK(contains(report::limits_page(assessment).html(2), "<h2>Not judged, and why</h2>"));
}

TEST_CASE("report/page: nothing judged has no working") {
  CHECK(report::working_page(decide::Assessment()).empty());
  CHECK(report::refusal_page(decide::Assessment()).empty());
}

}  // namespace page_test
