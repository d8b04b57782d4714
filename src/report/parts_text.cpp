#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <map>

#include "report/figures.hpp"
#include "report/pages.hpp"

namespace standtrue::report {

namespace {

using decide::PartsList;
using quantity::Kind;

/// Cut to the half millimetre, or as inches are read.
std::string cut_length(quantity::Length value, quantity::UnitSystem units) {
  const double si = quantity::in_si(value);
  if (units == quantity::UnitSystem::metric) return fmt::format("{:.6g} mm", 1e3 * si);
  return quantity::print(si, Kind::length, units);
}

std::string angles(const decide::TimberPiece& piece) {
  if (std::abs(piece.angle_a) < 0.05 && std::abs(piece.angle_b) < 0.05) return "square";
  return fmt::format("{:.1f} and {:.1f} degrees", piece.angle_a, piece.angle_b);
}

Table timber(const PartsList& list, quantity::UnitSystem units) {
  Table table({"timber", "pieces", "length", "ends", "for"}, 1);
  for (const decide::TimberPiece& piece : list.timber) {
    table.add({piece.stock, std::to_string(piece.count), cut_length(piece.length, units),
               angles(piece), piece.name + (piece.note.empty() ? "" : " (" + piece.note + ")")});
  }
  return table;
}

Page sheets(const PartsList& list, quantity::UnitSystem units) {
  Page page;
  for (const decide::SheetPiece& piece : list.sheets) {
    page.line("  ", fmt::format("{} of {}: {} along the face grain x {} across, for the {}",
                                piece.count, piece.sheet, cut_length(piece.along, units),
                                cut_length(piece.across, units), piece.name));
    for (const std::string& hole : piece.cut_outs) page.line("      ", "cut out " + hole);
  }
  return page;
}

/// "6 of 3000 mm and 1 of 2400 mm", the longest first.
std::string bars_of(const decide::TimberStock& bought, quantity::UnitSystem units) {
  std::map<double, int, std::greater<>> counts;
  for (const decide::TimberStock::Bar& bar : bought.bars) ++counts[quantity::in_si(bar.length)];
  std::string text;
  for (const auto& [length, count] : counts) {
    text += fmt::format("{}{} of {}", text.empty() ? "" : " and ", count,
                        quantity::print(length, Kind::length, units));
  }
  return text;
}

Page stock(const decide::TimberStock& bought, quantity::UnitSystem units) {
  const double used = quantity::in_si(bought.used) / std::max(1e-9, quantity::in_si(bought.bought));
  Page page;
  page.line("  ", fmt::format(
                      "{}: {}, {:.0f} % used{}", bought.stock, bars_of(bought, units), 100.0 * used,
                      bought.exact ? "; no less can be bought" : "; found by a short search"));
  for (const std::string& piece : bought.too_long) {
    page.line("      ", piece + " is longer than any stock: order it, or join it");
  }
  return page;
}

Page cuts_of(const decide::TimberStock& bought, quantity::UnitSystem units) {
  Page page;
  if (bought.bars.empty()) return page;
  page.line("  ", "out of the bars of " + bought.stock);
  for (const decide::TimberStock::Bar& bar : bought.bars) {
    std::string pieces;
    for (const std::string& piece : bar.pieces) pieces += (pieces.empty() ? "" : " + ") + piece;
    page.line("      ",
              fmt::format("{}: {}, {} left",
                          quantity::print(quantity::in_si(bar.length), Kind::length, units), pieces,
                          cut_length(bar.left, units)));
  }
  return page;
}

Page stock(const decide::SheetStock& bought, quantity::UnitSystem units) {
  Page page;
  if (bought.sheets.empty()) {
    page.line("  ", bought.sheet + ": no usual sheet will do");
  } else {
    page.line("  ",
              fmt::format("{}: {} sheet{} of {} x {}, {:.0f} % used{}", bought.sheet,
                          bought.sheets.size(), bought.sheets.size() == 1 ? "" : "s",
                          cut_length(bought.length, units), cut_length(bought.width, units),
                          100.0 * bought.used, bought.exact ? "" : "; found by a short search"));
  }
  for (const std::string& piece : bought.too_large) {
    page.line("      ", "the " + piece +
                            " is larger than a sheet with its grain that way: turn the grain, or "
                            "join it over a bearer");
  }
  return page;
}

std::string together(const std::vector<std::string>& names) {
  std::string text;
  for (const std::string& name : names) text += (text.empty() ? "" : "; ") + name;
  return text;
}

Page costs_of(const decide::Costs& costs) {
  Page page;
  page.heading("What it costs");
  const std::string unit = costs.currency.empty() ? "" : " " + costs.currency;
  Table table({"bought", "how", "cost" + unit}, 2);
  for (const decide::Costs::Line& line : costs.lines) {
    table.add({line.of, line.how, fmt::format("{:.2f}", line.money)});
  }
  table.add({"in all", "", fmt::format("{:.2f}", costs.sum)});
  page.table(std::move(table));
  if (!costs.without_price.empty()) {
    page.line("  ", "Without a price: " + together(costs.without_price) + ".");
  }
  if (!costs.unused.empty()) {
    page.line("  ", "Prices that nothing here has: " + together(costs.unused) +
                        ". A price holds for what has its text in its name.");
  }
  return page;
}

}  // namespace

Page page(const PartsList& list, const std::optional<decide::Costs>& costs,
          const bench::Bench& bench) {
  const quantity::UnitSystem units = bench.units;
  Page page;
  page.heading("What to buy for " + bench.title);
  for (const decide::TimberStock& bought : list.timber_stock) page.add(stock(bought, units));
  for (const decide::SheetStock& bought : list.sheet_stock) page.add(stock(bought, units));
  for (const decide::Item& item : list.hardware) {
    page.line("  ", fmt::format("{} x {}{}", item.count, item.name,
                                item.note.empty() ? "" : ", " + item.note));
  }
  if (costs) page.add(costs_of(*costs));
  page.heading("What to cut");
  page.table(timber(list, units));
  page.gap();
  for (const decide::TimberStock& bought : list.timber_stock) page.add(cuts_of(bought, units));
  page.gap();
  page.add(sheets(list, units));
  page.gap();
  for (const std::string& note : list.notes) page.line("  ", note + ".");
  page.line("  ",
            fmt::format("Timber {}, sheets {}; hardware comes to it. 3 mm are lost at each cut.",
                        rough(quantity::in_si(list.timber_mass), Kind::mass, units),
                        rough(quantity::in_si(list.sheet_mass), Kind::mass, units)));
  return page;
}

std::string text(const PartsList& list, const std::optional<decide::Costs>& costs,
                 const bench::Bench& bench, const Style& style) {
  return page(list, costs, bench).text(static_cast<std::size_t>(style.width));
}

}  // namespace standtrue::report
