// The reference records as a list.
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "report/layout.hpp"
#include "report/paint.hpp"
#include "standtrue/report/report.hpp"

namespace standtrue::report {

namespace {

/// "320 numbers: 200 seen, 100 from memory, 20 ours."
std::string count_text(const std::array<int, 5>& by_status) {
  int all = 0;
  std::string parts;
  for (std::size_t s = 0; s < by_status.size(); ++s) {
    all += by_status[s];
    if (by_status[s] == 0) continue;
    parts += fmt::format("{}{} {}", parts.empty() ? "" : ", ", by_status[s],
                         reference::to_text(static_cast<reference::Status>(s)));
  }
  return fmt::format("{} numbers: {}.", all, parts);
}

}  // namespace

std::vector<std::string> table_groups(const reference::Tables& tables) {
  std::vector<std::string> groups;
  for (const reference::Row& row : reference::listing(tables)) {
    if (std::find(groups.begin(), groups.end(), row.group) == groups.end()) {
      groups.push_back(row.group);
    }
  }
  return groups;
}

std::string tables_text(const reference::Tables& tables, const std::string& group,
                        const Style& style) {
  const auto width = static_cast<std::size_t>(style.width);
  std::string page, last;
  std::array<int, 5> by_status{};
  for (const reference::Row& row : reference::listing(tables)) {
    if (!group.empty() && row.group != group) continue;
    if (row.group != last)
      page += (page.empty() ? "" : "\n") + painted(row.group, Paint::bold, style.colour) + "\n";
    last = row.group;
    page += wrapped("  " + row.key + ": ", row.values.empty() ? "-" : row.values, width);
    page += wrapped("      from ", row.source, width);
    for (std::size_t s = 0; s < by_status.size(); ++s) by_status[s] += row.by_status[s];
  }
  return page + "\n" + count_text(by_status) + "\n";
}

}  // namespace standtrue::report
