#include "app/terminal.hpp"

#include <sys/ioctl.h>
#include <unistd.h>

#include <algorithm>
#include <cstdlib>
#include <string>

#include "standtrue/report/report.hpp"

namespace standtrue::app {

namespace {

std::string variable(const char* name) {
  const char* const value = std::getenv(name);
  return value ? value : "";
}

/// Columns that COLUMNS names, or 0.
int named_columns() {
  const quantity::Parsed<int> columns = quantity::parse_count(variable("COLUMNS"));
  return columns && *columns > 0 ? *columns : 0;
}

int terminal_columns() {
  winsize size{};
  return ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) == 0 ? size.ws_col : 0;
}

}  // namespace

Terminal look_at_terminal() {
  const bool is_terminal = isatty(STDOUT_FILENO) == 1;
  Terminal terminal;
  int columns = named_columns();
  if (columns == 0 && is_terminal) columns = terminal_columns();
  if (columns > 0) terminal.width = std::max(columns, report::least_width);
  const std::string kind = variable("TERM");
  terminal.colour = is_terminal && variable("NO_COLOR").empty() && !kind.empty() && kind != "dumb";
  return terminal;
}

}  // namespace standtrue::app
