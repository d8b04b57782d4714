// The engineer's pages: what the terminal says with --detail, as tables.
#include <fmt/format.h>

#include "report/escaped.hpp"
#include "report/html_sheets.hpp"
#include "report/pages.hpp"

namespace standtrue::report {

std::string engineer_sheets(const Drawn& drawn) {
  const decide::Assessment& a = drawn.assessment;
  std::string all;
  const auto sheet = [&](const char* title, const Page& page, const char* columns = "") {
    if (page.empty()) return;
    all += fmt::format("<section class=\"sheet engineer{}\"><h2>{}</h2>\n{}</section>\n", columns,
                       escaped(title), page.html(3));
  };
  constexpr const char* two = " cols";  // on paper
  sheet("Engineer: inputs as understood", understood_page(a));
  sheet("Engineer: materials", materials_page(a));
  sheet("Engineer: findings", findings_page(a), two);
  sheet("Engineer: working", working_page(a), two);
  sheet("Engineer: loads", loads_page(a), two);
  sheet("Engineer: joints and feet", joints_and_feet_page(a));
  sheet("Engineer: limits of the answer", limits_page(a));
  return all;
}

}  // namespace standtrue::report
