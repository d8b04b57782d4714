#include "decide/words.hpp"

namespace standtrue::decide {

std::string joined(const std::vector<std::string>& words) {
  std::string text;
  for (std::size_t i = 0; i < words.size(); ++i) {
    text += (i == 0 ? "" : i + 1 == words.size() ? " and " : ", ") + words[i];
  }
  return text;
}

std::string say(double value, quantity::Kind kind, const bench::Bench& bench) {
  return quantity::print(value, kind, bench.units);
}

}  // namespace standtrue::decide
