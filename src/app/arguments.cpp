#include "app/arguments.hpp"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <charconv>

#include "app/commands.hpp"
#include "app/help_text.hpp"
#include "standtrue/version.hpp"

namespace standtrue::app {

namespace {

const std::vector<std::string> known_options = {"--detail", "--json",  "--strict", "--mesh",
                                                "--width",  "--bound", "--seed",   "--report",
                                                "--date",   "--help",  "--version"};

bool contains(const std::vector<std::string>& all, const std::string& one) {
  return std::find(all.begin(), all.end(), one) != all.end();
}

Outcome wrong_usage(const std::string& what, const std::string& instead) {
  return {"", fmt::format("standtrue: {}; {}\n", what, instead), wrong_file};
}

bool is_file_name(const std::string& word) {
  return word == "-" || word.find('.') != std::string::npos || word.find('/') != std::string::npos;
}

/// What is wrong with the first word, if it is no command.
Outcome unknown_command(const std::string& word) {
  if (is_file_name(word)) {
    return wrong_usage(fmt::format("'{}' is no command", word),
                       fmt::format("to check that file, write: standtrue check {}", word));
  }
  if (!word.empty() && word.front() == '-') {
    return wrong_usage(fmt::format("the command comes before '{}'", word),
                       "write, for example: standtrue check bench.yaml " + word);
  }
  const std::string near = quantity::nearest(word, command_names());
  return wrong_usage(fmt::format("'{}' is no command", word),
                     near.empty() ? "standtrue --help lists them"
                                  : fmt::format("did you mean: standtrue {}", near));
}

struct Parser {
  CLI::App app;
  Request request;
  std::string bound, mesh, seed;

  void add_file(CLI::App& command, const char* what) {
    command.add_option("file", request.file, what)->required();
  }
  void add_width(CLI::App& command) { command.add_option("--width", request.width); }
  void add_report(CLI::App& command) {
    command.add_option("--report", request.report_file);
    command.add_option("--date", request.options.date);
  }
};

void describe_line(Parser& p) {
  p.app.set_help_flag();
  CLI::App& check = *p.app.add_subcommand("check");
  p.add_file(check, "bench");
  check.add_flag("--detail", p.request.options.style.detail);
  check.add_flag("--json", p.request.options.json);
  check.add_flag("--strict", p.request.options.strict);
  check.add_option("--mesh", p.mesh);
  p.add_width(check);
  p.add_report(check);
  for (const char* name : {"ply", "brace", "improve", "variants", "level", "parts", "prove"}) {
    CLI::App& compare = *p.app.add_subcommand(name);
    p.add_file(compare, "bench");
    compare.add_flag("--json", p.request.options.json);
    p.add_width(compare);
    p.add_report(compare);
  }
  CLI::App& place = *p.app.add_subcommand("place");
  p.add_file(place, "bench");
  place.add_option("machine", p.request.options.machine);
  place.add_flag("--json", p.request.options.json);
  p.add_width(place);
  p.add_report(place);
  CLI::App& odds = *p.app.add_subcommand("odds");
  p.add_file(odds, "bench");
  odds.add_option("--seed", p.seed);
  odds.add_flag("--json", p.request.options.json);
  p.add_width(odds);
  p.add_report(odds);
  CLI::App& draw = *p.app.add_subcommand("draw");
  p.add_file(draw, "bench");
  draw.add_option("picture", p.request.options.picture);
  CLI::App& solve = *p.app.add_subcommand("solve");
  p.add_file(solve, "frame case");
  p.add_width(solve);
  CLI::App& model = *p.app.add_subcommand("model");
  p.add_file(model, "bench");
  model.add_option("--bound", p.bound);
  CLI::App& tables = *p.app.add_subcommand("tables");
  tables.add_option("group", p.request.options.group);
  p.add_width(tables);
  p.add_file(*p.app.add_subcommand("verification"), "folder");
  for (CLI::App* command : p.app.get_subcommands({})) command->set_help_flag();
}

/// The words that no option or file takes.
Outcome left_over(const std::string& command, const std::vector<std::string>& words) {
  const std::string& word = words.front();
  if (word.size() > 1 && word.front() == '-') {
    const std::string name = word.substr(0, word.find('='));
    const std::string near = quantity::nearest(name, known_options);
    const std::string hint = near.empty() || near == name
                                 ? fmt::format("see: standtrue {} --help", command)
                                 : fmt::format("did you mean {}", near);
    return wrong_usage(fmt::format("'{}' does not know '{}'", command, name), hint);
  }
  return wrong_usage(
      fmt::format("'{}' takes one file, and '{}' is one word too many", command, word),
      "give each file its own run");
}

/// Figures alone: what would turn round or be cut off is no seed.
bool read_seed(const std::string& text, std::uint64_t& seed) {
  constexpr std::size_t most_figures = 19;
  const char* const end = text.data() + text.size();
  return text.size() <= most_figures && std::from_chars(text.data(), end, seed).ptr == end;
}

std::variant<Request, Outcome> parse(const std::vector<std::string>& arguments) {
  const std::string& command = arguments.front();
  Parser p;
  describe_line(p);
  p.app.allow_extras();
  for (CLI::App* sub : p.app.get_subcommands({})) sub->allow_extras();
  try {
    p.app.parse(std::vector<std::string>(arguments.rbegin(), arguments.rend()));
  } catch (const CLI::RequiredError&) {
    const std::vector<std::string> extra = p.app.remaining(true);
    if (!extra.empty()) return left_over(command, extra);
    return wrong_usage(fmt::format("'{}' wants a file", command),
                       fmt::format("write, for example: standtrue {} {}", command,
                                   command == "solve" ? "frame.yaml" : "bench.yaml"));
  } catch (const CLI::ParseError&) {
    return wrong_usage(fmt::format("an option of '{}' has no value or a wrong one", command),
                       fmt::format("see: standtrue {} --help", command));
  }
  const std::vector<std::string> extra = p.app.remaining(true);
  if (!extra.empty()) return left_over(command, extra);
  const auto bound = bound_named(p.bound.empty() ? "mean" : p.bound);
  if (!bound) {
    return wrong_usage(fmt::format("--bound does not know '{}'", p.bound),
                       "it takes soft, mean or stiff");
  }
  p.request.options.bound = *bound;
  const auto is_fine = mesh_named(p.mesh.empty() ? "standard" : p.mesh);
  if (!is_fine) {
    return wrong_usage(fmt::format("--mesh does not know '{}'", p.mesh),
                       "it takes standard or fine");
  }
  p.request.options.fine_mesh = *is_fine;
  if (!p.seed.empty() && !read_seed(p.seed, p.request.options.seed)) {
    return wrong_usage(fmt::format("--seed does not know '{}'", p.seed),
                       "it takes a whole number from 0 on, of 19 figures at most");
  }
  p.request.options.report = !p.request.report_file.empty();
  return p.request;
}

}  // namespace

std::variant<Request, Outcome> read_arguments(const std::vector<std::string>& arguments) {
  if (arguments.empty()) return Outcome{"", help_text(""), wrong_file};
  const auto asks_for = [&](const char* word) { return contains(arguments, word); };
  const std::string& first = arguments.front();
  if (asks_for("--help") || asks_for("-h")) return Outcome{help_text(first), "", all_good};
  if (first == "--version") return Outcome{fmt::format("standtrue {}\n", version), "", all_good};
  if (!command_named(first) && first != "verification") return unknown_command(first);
  std::variant<Request, Outcome> parsed = parse(arguments);
  if (auto* request = std::get_if<Request>(&parsed)) {
    request->is_verification = first == "verification";
    request->command = command_named(first).value_or(Command::check);
    const bool is_given = std::any_of(arguments.begin(), arguments.end(), [](const std::string& a) {
      return a.rfind("--width", 0) == 0;
    });
    if (is_given && request->width < report::least_width) {
      return wrong_usage(fmt::format("--width {} is too narrow for a page", request->width),
                         fmt::format("give {} or more", report::least_width));
    }
  }
  return parsed;
}

}  // namespace standtrue::app
