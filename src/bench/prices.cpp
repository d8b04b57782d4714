#include "standtrue/bench/prices.hpp"

#include <fmt/format.h>

#include "bench/reader.hpp"

namespace standtrue::bench {

namespace {

constexpr const char* prices_example =
    "prices: {currency: EUR, C24: 3.20 per m, spruce plywood: 62, bracket: 1.40}";
constexpr const char* price_example = "3.20 per m, or 62";

bool ends_with(const std::string& text, const std::string& end) {
  return text.size() > end.size() && text.compare(text.size() - end.size(), end.size(), end) == 0;
}

/// "3.20 per m", "0.98 per ft", "62", "62 each".
std::optional<Price> price_of(const std::string& of, const Field& field,
                              std::vector<Diagnostic>& faults) {
  Price price{of};
  std::string text = field.text();
  double per = 1.0;
  for (const auto& [end, metres_of] : {std::pair{" per m", 1.0}, std::pair{" per ft", 0.3048}}) {
    if (!ends_with(text, end)) continue;
    text.resize(text.size() - std::string(end).size());
    price.per_metre = true;
    per = metres_of;
  }
  if (ends_with(text, " each")) text.resize(text.size() - 5);
  const auto number = quantity::parse_number(text);
  constexpr double most = 1e9;  // in any currency; what is added up stays a number
  if (number && *number >= 0.0 && *number <= most) {
    price.money = *number / per;
    return price;
  }
  faults.push_back(field.fault(fmt::format("'{}' is no price", field.text()),
                               fmt::format("{}: {}", of, price_example)));
  return std::nullopt;
}

}  // namespace

std::optional<Prices> read_prices(const document::Document& document,
                                  std::vector<Diagnostic>& diagnostics) {
  Map top(document::root(document), diagnostics, "prices: {...}");
  const auto field = top.find("prices");
  if (!field || !field->is(document::Node::Kind::map)) return std::nullopt;
  Map map(*field, diagnostics, prices_example);
  Prices prices;
  for (const auto& [of, value] : map.all()) {
    if (of == "currency") {
      prices.currency = value.text();
    } else if (auto price = price_of(of, value, diagnostics)) {
      prices.all.push_back(std::move(*price));
    }
  }
  return prices;
}

}  // namespace standtrue::bench
