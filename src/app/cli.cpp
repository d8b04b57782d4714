#include "app/cli.hpp"

#include <cerrno>
#include <csignal>
#include <iostream>

#include "app/arguments.hpp"
#include "app/files.hpp"
#include "app/terminal.hpp"
#include "app/work.hpp"

namespace standtrue::app {

namespace {

Outcome answer(Request request) {
  if (request.is_verification) {
    const auto cases = read_folder(request.file);
    return cases ? verification(*cases) : Outcome{"", cases.error(), wrong_file};
  }
  const Terminal terminal = look_at_terminal();
  request.options.style.width = request.width > 0 ? request.width : terminal.width;
  request.options.style.colour = terminal.colour;
  if (request.command == Command::tables) return run(request.command, request.options, "", "");
  request.options.work = threaded_work();
  if (!request.report_file.empty()) {
    if (const auto fault = why_not_writable(request.report_file, request.file)) {
      return {"", *fault, wrong_file};
    }
  }
  const auto text = read_file(request.file);
  if (!text) return {"", text.error(), wrong_file};
  const std::string name = request.file == "-" ? "standard input" : request.file;
  if (request.options.date.empty()) request.options.date = today();
  Outcome outcome = run(request.command, request.options, name, *text);
  // Its report would lack what was stopped; a decision's says so itself.
  if (request.command == Command::check && was_interrupted() && !outcome.report.empty()) {
    outcome.err += "standtrue: interrupted: the report is not written\n";
    outcome.code = not_good;
    outcome.report.clear();
  }
  if (!outcome.report.empty()) {
    if (const auto fault = write_file(request.report_file, outcome.report)) {
      outcome.err += *fault;
      outcome.code = wrong_file;
    }
  }
  return outcome;
}

/// Writes the outcome; a full disk is told, for the answer is not complete. A reader that has read
/// enough and gone (`| head`) is no fault.
int write(const Outcome& outcome) {
  std::cerr << outcome.err << std::flush;
  std::cout << outcome.out << std::flush;
  if (std::cout || errno == EPIPE) return outcome.code;
  std::cerr << "standtrue: the answer could not be written to the end\n";
  return wrong_file;
}

}  // namespace

int command_line(const std::vector<std::string>& arguments) {
#ifdef SIGPIPE
  std::signal(SIGPIPE, SIG_IGN);  // a reader that has gone shows as a failed write
#endif
  std::variant<Request, Outcome> parsed = read_arguments(arguments);
  if (auto* request = std::get_if<Request>(&parsed)) return write(answer(std::move(*request)));
  return write(std::get<Outcome>(parsed));
}

}  // namespace standtrue::app
