#pragma once

#include <string>
#include <variant>
#include <vector>

#include "standtrue/app/run.hpp"

namespace standtrue::app {

/// What the command line asks for. Width and colour are the terminal's unless `width` is given.
struct Request {
  bool is_verification = false;  ///< `file` is then a folder of frame cases
  Command command = Command::check;
  Options options;
  std::string file;
  int width = 0;            ///< 0: not given
  std::string report_file;  ///< to write; none when empty
};

/// The request; or an Outcome that ends the program: help, version, or what is wrong with the line.
/// `arguments` without the program's name.
[[nodiscard]] std::variant<Request, Outcome> read_arguments(
    const std::vector<std::string>& arguments);

}  // namespace standtrue::app
