#pragma once

#include <string>
#include <vector>

#include "standtrue/bench/prices.hpp"
#include "standtrue/decide/parts_list.hpp"

namespace standtrue::decide {

/// What is bought, at the prices of the file.
struct Costs {
  std::string currency;
  struct Line {
    std::string of;   ///< "C24 45 x 95 mm"
    std::string how;  ///< "4 at 1.40", "9.6 m at 3.20 per m"
    double money = 0.0;
  };
  std::vector<Line> lines;
  double sum = 0.0;
  std::vector<std::string> without_price;  ///< bought, and no price has a text of its name
  std::vector<std::string> unused;         ///< prices of what is not bought
};

/// Of several prices that fit, that with the longest text.
[[nodiscard]] Costs costs(const PartsList& list, const bench::Prices& prices);

}  // namespace standtrue::decide
