#include "standtrue/app/web.hpp"

#include <fmt/format.h>

#include <exception>

#include "app/commands.hpp"
#include "app/web_request.hpp"
#include "standtrue/version.hpp"

namespace standtrue::app {

namespace {

using AnswerJson = nlohmann::ordered_json;

/// Text that is not UTF-8 is replaced and not thrown at.
std::string written(const AnswerJson& json) {
  return json.dump(-1, ' ', false, AnswerJson::error_handler_t::replace);
}

AnswerJson diagnostics_json(const std::vector<Diagnostic>& diagnostics) {
  AnswerJson all = AnswerJson::array();
  for (const Diagnostic& d : diagnostics) {
    all.push_back({{"severity", d.severity == Severity::error ? "error" : "warning"},
                   {"line", d.at.line},
                   {"column", d.at.column},
                   {"length", d.length},
                   {"path", d.path},
                   {"what", d.what},
                   {"instead", d.instead}});
  }
  return all;
}

/// Whether the answer of a command is JSON; that of the others is text.
bool answers_in_json(Command command) {
  switch (command) {
    case Command::draw:
    case Command::solve:
    case Command::model:
    case Command::tables:
      return false;
    default:
      return true;
  }
}

/// What is JSON already is put in as it is: a check has megabytes of it.
std::string assembled(const WebRequest& request, const Outcome& outcome) {
  const bool is_json = answers_in_json(request.command) && !outcome.out.empty();
  const auto text_or_null = [](const std::string& text) {
    return text.empty() ? AnswerJson(nullptr) : AnswerJson(text);
  };
  AnswerJson rest = {{"standtrue_web", 1},
                     {"version", version},
                     {"command", request.command_name},
                     {"code", outcome.code},
                     {"diagnostics", diagnostics_json(outcome.diagnostics)},
                     {"message", outcome.err},
                     {"text", is_json ? AnswerJson(nullptr) : text_or_null(outcome.out)},
                     {"page", text_or_null(outcome.page)},
                     {"report", text_or_null(outcome.report)}};
  if (outcome.code == our_fault) rest["fault"] = outcome.err;
  std::string answer = written(rest);
  answer.pop_back();
  answer += ",\"answer\":" + (is_json ? outcome.out : "null");
  answer += ",\"picture\":" + (outcome.picture.empty() ? "null" : outcome.picture);
  return answer + "}";
}

}  // namespace

std::string web_fault(const std::string& what) {
  return written({{"standtrue_web", 1}, {"fault", what}});
}

std::string web_answer(const std::string& request, const decide::Work& work) {
  return web_guarded([&] {
    auto read = read_web_request(request);
    if (!read) return web_fault(read.error());
    read->options.json = answers_in_json(read->command);
    read->options.work = work;
    return assembled(*read, run(read->command, read->options, read->file, read->text));
  });
}

}  // namespace standtrue::app
