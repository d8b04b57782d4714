#include "app/cli.hpp"

int main(int argc, char** argv) {
  return standtrue::app::command_line(
      std::vector<std::string>(argv + (argc > 0 ? 1 : 0), argv + argc));
}
