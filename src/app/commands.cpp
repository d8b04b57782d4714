#include "app/commands.hpp"

#include <algorithm>
#include <utility>

namespace standtrue::app {

namespace {

const std::vector<std::pair<std::string, Command>>& commands_by_name() {
  static const std::vector<std::pair<std::string, Command>> all = {
      {"check", Command::check},     {"ply", Command::ply},           {"brace", Command::brace},
      {"improve", Command::improve}, {"variants", Command::variants}, {"level", Command::level},
      {"parts", Command::parts},     {"place", Command::place},       {"prove", Command::prove},
      {"odds", Command::odds},       {"draw", Command::draw},         {"model", Command::model},
      {"solve", Command::solve},     {"tables", Command::tables}};
  return all;
}

}  // namespace

const std::vector<std::string>& command_names() {
  static const std::vector<std::string> names = [] {
    std::vector<std::string> all;
    for (const auto& [name, command] : commands_by_name()) all.push_back(name);
    return all;
  }();
  return names;
}

std::optional<Command> command_named(const std::string& name) {
  for (const auto& [known, command] : commands_by_name()) {
    if (known == name) return command;
  }
  return std::nullopt;
}

std::optional<model::Bound> bound_named(const std::string& name) {
  if (name == "soft") return model::Bound::soft;
  if (name == "mean") return model::Bound::mean;
  if (name == "stiff") return model::Bound::stiff;
  return std::nullopt;
}

std::optional<bool> mesh_named(const std::string& name) {
  if (name == "standard") return false;
  if (name == "fine") return true;
  return std::nullopt;
}

}  // namespace standtrue::app
