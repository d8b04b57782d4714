#include <fmt/format.h>

#include <algorithm>

#include "report/card_drawings.hpp"

namespace standtrue::report {

using decide::PartsList;
using quantity::in_si;

namespace {

constexpr double stock_label = 4.4, bar_height = 4.4, cut_gap = 1.4, sheet_gap = 5.0;
constexpr std::size_t sheets_abreast = 3;

struct Cutting {
  quantity::UnitSystem units;
  double scale, y = 0.0;

  [[nodiscard]] std::string said(double si) const {
    return quantity::print(si, quantity::Kind::length, units);
  }
};

/// What of a text fits into a width, or nothing.
std::string fitting(const std::string& words, double width) {
  return text_width(words, 2.2) < width - 1.0 ? words : std::string();
}

void cut_bar(Svg& svg, const Cutting& c, const decide::TimberStock::Bar& one, double x) {
  const double whole = x + c.scale * in_si(one.length);
  for (std::size_t i = 0; i < one.cuts.size(); ++i) {
    const double wide = c.scale * in_si(one.cuts[i]);
    svg.rect({x, c.y}, wide, bar_height, "seen");
    svg.text({x + 0.5 * wide, c.y + 3.0}, fitting(one.pieces[i], wide), "small", Anchor::middle);
    x += wide;
  }
  if (whole > x) svg.rect({x, c.y}, whole - x, bar_height, "smear");
}

/// Two beside each other.
void cut_bars(Svg& svg, Cutting& c, const decide::TimberStock& stock, double width) {
  if (stock.bars.empty()) return;
  svg.text({0, c.y + 3.2}, stock.stock, "name");
  c.y += stock_label;
  for (std::size_t i = 0; i < stock.bars.size(); ++i) {
    cut_bar(svg, c, stock.bars[i], i % 2 == 0 ? 0.0 : 0.5 * (width + sheet_gap));
    if (i % 2 == 1 || i + 1 == stock.bars.size()) c.y += bar_height + cut_gap;
  }
}

void cut_sheets(Svg& svg, Cutting& c, const decide::SheetStock& stock, double width) {
  if (stock.sheets.empty()) return;
  svg.text({0, c.y + 3.2}, stock.sheet, "name");
  c.y += stock_label;
  const double scale =
      (width - (sheets_abreast - 1) * sheet_gap) / sheets_abreast / in_si(stock.length);
  const double wide = scale * in_si(stock.length), high = scale * in_si(stock.width);
  for (std::size_t s = 0; s < stock.sheets.size(); ++s) {
    const double x0 = static_cast<double>(s % sheets_abreast) * (wide + sheet_gap);
    svg.rect({x0, c.y}, wide, high, "smear");
    for (const decide::SheetStock::Placed& p : stock.sheets[s]) {
      const Flat at{x0 + scale * in_si(p.from_along), c.y + scale * in_si(p.from_across)};
      const double w = scale * in_si(p.along), h = scale * in_si(p.across);
      svg.rect(at, w, h, "paper");
      svg.rect(at, w, h, "seen");
      svg.text({at[0] + 0.5 * w, at[1] + 0.5 * h}, fitting(p.piece, w), "", Anchor::middle);
      svg.text({at[0] + 0.5 * w, at[1] + 0.5 * h + 3.4},
               fitting(c.said(in_si(p.along)) + " x " + c.said(in_si(p.across)), w), "small",
               Anchor::middle);
    }
    if (s % sheets_abreast == sheets_abreast - 1 || s + 1 == stock.sheets.size())
      c.y += high + cut_gap;
  }
}

double height_of(const PartsList& list, double width) {
  double height = 2.0;
  for (const decide::TimberStock& s : list.timber_stock) {
    const std::size_t rows = (s.bars.size() + 1) / 2;
    if (rows > 0) height += stock_label + (bar_height + cut_gap) * static_cast<double>(rows);
  }
  for (const decide::SheetStock& s : list.sheet_stock) {
    if (s.sheets.empty()) continue;
    const double wide = (width - (sheets_abreast - 1) * sheet_gap) / sheets_abreast;
    const double high = wide * in_si(s.width) / in_si(s.length);
    const std::size_t rows = (s.sheets.size() + sheets_abreast - 1) / sheets_abreast;
    height += stock_label + (high + cut_gap) * static_cast<double>(rows);
  }
  return height;
}

}  // namespace

std::optional<Captioned> cutting_drawing(const PartsList& list, quantity::UnitSystem units,
                                         double width) {
  double longest = 0.0;
  for (const decide::TimberStock& s : list.timber_stock) {
    for (const decide::TimberStock::Bar& b : s.bars) longest = std::max(longest, in_si(b.length));
  }
  if (!(longest > 0.0)) return std::nullopt;
  Svg svg(width, height_of(list, width), "How stock and sheets are cut",
          "Each bar and sheet to buy with the pieces that it gives.");
  Cutting cutting{units, 0.5 * (width - sheet_gap) / longest};
  for (const decide::TimberStock& s : list.timber_stock) cut_bars(svg, cutting, s, width);
  for (const decide::SheetStock& s : list.sheet_stock) cut_sheets(svg, cutting, s, width);
  return Captioned{
      std::move(svg),
      "How stock and sheets are cut; hatched is what is left. The face grain of sheets "
      "runs from left to right."};
}

}  // namespace standtrue::report
