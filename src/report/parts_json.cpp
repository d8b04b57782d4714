#include <nlohmann/json.hpp>

#include "report/json_parts.hpp"
#include "standtrue/report/report.hpp"

namespace standtrue::report {

namespace {

using quantity::in_si;

Json timber_stock(const decide::TimberStock& bought) {
  Json bars = Json::array();
  for (const decide::TimberStock::Bar& bar : bought.bars) {
    bars.push_back(
        {{"length", in_si(bar.length)}, {"pieces", bar.pieces}, {"left", in_si(bar.left)}});
  }
  return {{"stock", bought.stock}, {"bought", in_si(bought.bought)}, {"used", in_si(bought.used)},
          {"exact", bought.exact}, {"too_long", bought.too_long},    {"bars", bars}};
}

Json sheet_stock(const decide::SheetStock& bought) {
  Json sheets = Json::array();
  for (const auto& sheet : bought.sheets) {
    Json placed = Json::array();
    for (const decide::SheetStock::Placed& p : sheet) {
      placed.push_back({{"piece", p.piece},
                        {"along", in_si(p.along)},
                        {"across", in_si(p.across)},
                        {"from_along", in_si(p.from_along)},
                        {"from_across", in_si(p.from_across)}});
    }
    sheets.push_back(placed);
  }
  return {
      {"sheet", bought.sheet}, {"length", in_si(bought.length)}, {"width", in_si(bought.width)},
      {"used", bought.used},   {"exact", bought.exact},          {"too_large", bought.too_large},
      {"sheets", sheets}};
}

Json costs_json(const decide::Costs& costs) {
  Json lines = Json::array();
  for (const decide::Costs::Line& line : costs.lines) {
    lines.push_back({{"of", line.of}, {"how", line.how}, {"money", number(line.money)}});
  }
  return {{"currency", costs.currency},
          {"lines", lines},
          {"sum", number(costs.sum)},
          {"without_price", costs.without_price},
          {"unused", costs.unused}};
}

}  // namespace

std::string json(const decide::PartsList& list, const std::optional<decide::Costs>& costs,
                 const std::string& file, const std::string& version) {
  Json timber = Json::array(), sheets = Json::array(), hardware = Json::array();
  for (const decide::TimberPiece& p : list.timber) {
    timber.push_back({{"name", p.name},
                      {"stock", p.stock},
                      {"length", in_si(p.length)},
                      {"count", p.count},
                      {"angles", {p.angle_a, p.angle_b}},
                      {"note", p.note}});
  }
  for (const decide::SheetPiece& p : list.sheets) {
    sheets.push_back({{"name", p.name},
                      {"sheet", p.sheet},
                      {"along", in_si(p.along)},
                      {"across", in_si(p.across)},
                      {"count", p.count},
                      {"cut_outs", p.cut_outs}});
  }
  for (const decide::Item& item : list.hardware) {
    hardware.push_back({{"name", item.name}, {"count", item.count}, {"note", item.note}});
  }
  Json timber_bought = Json::array(), sheets_bought = Json::array();
  for (const decide::TimberStock& s : list.timber_stock) timber_bought.push_back(timber_stock(s));
  for (const decide::SheetStock& s : list.sheet_stock) sheets_bought.push_back(sheet_stock(s));
  const Json document = {{"standtrue_parts", 1},
                         {"file", file},
                         {"version", version},
                         {"timber", timber},
                         {"sheets", sheets},
                         {"hardware", hardware},
                         {"timber_stock", timber_bought},
                         {"sheet_stock", sheets_bought},
                         {"timber_mass", in_si(list.timber_mass)},
                         {"sheet_mass", in_si(list.sheet_mass)},
                         {"notes", list.notes},
                         {"costs", costs ? costs_json(*costs) : Json()}};
  return document.dump(2) + "\n";
}

}  // namespace standtrue::report
