#include "standtrue/decide/costs.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>

namespace standtrue::decide {

namespace {

class Till {
 public:
  explicit Till(const bench::Prices& prices) : prices_(prices) {
    costs_.currency = prices.currency;
  }

  /// `length`: of all of it in metres; zero for what has none.
  void add(const std::string& of, std::size_t count, double length = 0.0) {
    if (count == 0) return;
    const bench::Price* price = price_of(of, length > 0.0);
    if (price == nullptr) {
      costs_.without_price.push_back(of);
      return;
    }
    const double n = price->per_metre ? length : static_cast<double>(count);
    const std::string how = price->per_metre
                                ? fmt::format("{:.4g} m at {:.2f} per m", length, price->money)
                                : fmt::format("{} at {:.2f}", count, price->money);
    costs_.lines.push_back({of, how, n * price->money});
    costs_.sum += costs_.lines.back().money;
  }

  [[nodiscard]] Costs paid() && {
    for (const bench::Price& price : prices_.all) {
      if (used_.count(price.of) == 0) costs_.unused.push_back(price.of);
    }
    return std::move(costs_);
  }

 private:
  const bench::Price* price_of(const std::string& of, bool has_length) {
    const bench::Price* best = nullptr;
    for (const bench::Price& price : prices_.all) {
      if (of.find(price.of) == of.npos || (price.per_metre && !has_length)) continue;
      if (best == nullptr || price.of.size() > best->of.size()) best = &price;
    }
    if (best != nullptr) used_.insert(best->of);
    return best;
  }

  const bench::Prices& prices_;
  std::set<std::string> used_;
  Costs costs_;
};

}  // namespace

Costs costs(const PartsList& list, const bench::Prices& prices) {
  Till till(prices);
  for (const TimberStock& s : list.timber_stock) {
    till.add(s.stock, s.bars.size(), quantity::in_si(s.bought));
  }
  for (const SheetStock& s : list.sheet_stock) till.add(s.sheet, s.sheets.size());
  for (const Item& item : list.hardware) {
    till.add(item.name, static_cast<std::size_t>(std::max(0, item.count)));
  }
  return std::move(till).paid();
}

}  // namespace standtrue::decide
