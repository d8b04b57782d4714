#include "standtrue/decide/parts_list.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

#include "decide/alter.hpp"
#include "decide/packing.hpp"
#include "decide/parts_notes.hpp"
#include "standtrue/bench/ledger.hpp"
#include "standtrue/bench/surface.hpp"
#include "standtrue/bench/usual_sheet.hpp"

namespace standtrue::decide {

using bench::Bench;
using quantity::in_si;
using quantity::Length;
using quantity::metres;

namespace {

constexpr double kerf = 0.003;  // common practice, no source
// Common practice, no source: 2.4 m and 3 m; where inches are read, 8 ft and 10 ft.
constexpr std::array<double, 2> metric_bars = {2.4, 3.0}, imperial_bars = {2.4384, 3.048};

double degrees(double radians) { return radians * 180.0 / 3.14159265358979323846; }

/// As the builder of the file measures. Sheets, screws and feet stay in millimetres, as they are
/// sold.
std::string size_text(Length length, const Bench& bench) {
  if (bench.units == quantity::UnitSystem::metric) return written(length);
  return quantity::print(in_si(length), quantity::Kind::length, bench.units);
}
std::string size_text(Length a, Length b, const Bench& bench) {
  const std::string first = size_text(a, bench);
  return first.substr(0, first.size() - 3) + " x " + size_text(b, bench);  // less " mm" or " in"
}

TimberPiece piece_of(const std::string& name, const bench::Stock& stock, double length,
                     const Bench& bench) {
  TimberPiece piece;
  piece.name = name;
  piece.stock = stock.timber.key + " " + size_text(stock.thickness, stock.depth, bench);
  piece.thickness = stock.thickness;
  piece.depth = stock.depth;
  piece.length = metres(std::round(2e3 * length) / 2e3);  // to the half millimetre
  return piece;
}

TimberPiece post_piece(const Bench& bench, const bench::Post& post) {
  const double run = std::hypot(in_si(post.foot_x - post.x), in_si(post.foot_y - post.y));
  const double rise = in_si(post.top - post.bottom);
  TimberPiece piece = piece_of(post.name, post.stock, std::hypot(run, rise), bench);
  piece.angle_a = piece.angle_b = degrees(std::atan2(run, rise));
  return piece;
}

TimberPiece ledger_piece(const Bench& bench, const bench::Rail& ledger) {
  TimberPiece piece =
      piece_of(ledger.name, ledger.stock, in_si(bench::ledger_length(bench, ledger)), bench);
  piece.note = "in one piece, drilled for its screws into the wall";
  return piece;
}

/// Between the faces of its posts, or over their outer faces where it passes them.
TimberPiece rail_piece(const Bench& bench, const bench::Rail& rail) {
  if (rail.on_wall) return ledger_piece(bench, rail);
  const bench::Post& from = bench.posts[rail.from];
  const bench::Post& to = bench.posts[rail.to];
  const double axes = rail.along_x ? in_si(to.x - from.x) : in_si(to.y - from.y);
  const double sides =
      0.5 * in_si(rail.along_x ? from.along_x + to.along_x : from.along_y + to.along_y);
  const bool is_between = rail.seat == bench::Seat::between;
  const bool is_let_in = rail.start.kind.fastening == reference::Fastening::half_lap;
  double length = axes + (is_between && !is_let_in ? -sides : sides);
  TimberPiece piece = piece_of(rail.name, rail.stock, 0.0, bench);
  if (rail.start.kind.fastening == reference::Fastening::tenon) {
    length += in_si(rail.start.kind.leg) + in_si(rail.end.kind.leg);
    piece.note = "with its tenons";
  }
  if (is_let_in) piece.note = "halved at both ends";
  if (rail.notch > Length{})
    piece.note = fmt::format("notched {} over its seats", size_text(rail.notch, bench));
  piece.length = metres(std::round(2e3 * length) / 2e3);
  return piece;
}

TimberPiece bearer_piece(const Bench& bench, const bench::Bearer& bearer) {
  const bench::Rail& from = bench.rails[bearer.from];
  const bench::Rail& to = bench.rails[bearer.to];
  const auto axis = [&](const bench::Rail& rail) {
    const bench::Post& post = bench.posts[rail.from];
    return in_si((rail.along_x ? post.y : post.x) + rail.aside);
  };
  const double length = std::abs(axis(to) - axis(from)) - 0.5 * in_si(from.width + to.width);
  return piece_of(bearer.name, bearer.stock, length, bench);
}

/// From axis to axis, and on past its bolts at both ends.
TimberPiece brace_piece(const Bench& bench, const bench::Brace& brace,
                        const reference::Tables& tables) {
  const bench::Post& low = bench.posts[brace.post];
  double run = 0.0, rise = 0.0;
  if (brace.to_post) {
    const bench::Post& high = bench.posts[*brace.to_post];
    run = std::hypot(in_si(high.x - low.x), in_si(high.y - low.y));
    rise = in_si(brace.to_at - brace.post_height);
  } else {
    const bench::Rail& rail = bench.rails[*brace.to_rail];
    const bench::Post& from = bench.posts[rail.from];
    run = std::abs(in_si((rail.along_x ? from.x - low.x : from.y - low.y) + brace.to_at));
    rise = in_si(rail.height - brace.post_height);
  }
  double past = 0.0;
  std::string note = "cut to stand against posts or rails";
  if (brace.joint.fastening == reference::Fastening::bolts) {
    const reference::SpacingRule& rule = tables.spacing_rule("bolts");
    const double d = in_si(brace.joint.fastener_diameter);
    past = std::max(rule.a3t * d, in_si(rule.a3t_min)) + 0.5 * (rule.a1 + rule.a1_cos) * d;
    note = fmt::format("{} past the middle of its bolts at both ends",
                       size_text(metres(std::round(1e3 * past) / 1e3), bench));
  }
  TimberPiece piece = piece_of(brace.name, brace.stock, std::hypot(run, rise) + 2.0 * past, bench);
  piece.note = note;
  const double angle = degrees(std::atan2(rise, run));
  piece.angle_a = piece.angle_b =
      brace.joint.fastening == reference::Fastening::bolts ? 0.0 : angle;
  return piece;
}

bool are_alike(const TimberPiece& a, const TimberPiece& b) {
  return a.stock == b.stock && a.note == b.note && std::abs(in_si(a.length - b.length)) < 0.6e-3 &&
         std::abs(a.angle_a - b.angle_a) < 0.05 && std::abs(a.angle_b - b.angle_b) < 0.05;
}

void join_alike(std::vector<TimberPiece>& all, TimberPiece piece) {
  for (TimberPiece& other : all) {
    if (!are_alike(other, piece)) continue;
    other.name += ", " + piece.name;
    ++other.count;
    return;
  }
  all.push_back(std::move(piece));
}

std::vector<TimberPiece> timber_of(const Bench& bench, const reference::Tables& tables) {
  std::vector<TimberPiece> all;
  for (const bench::Post& post : bench.posts) {
    if (!post.on_wall) join_alike(all, post_piece(bench, post));
  }
  for (const bench::Rail& rail : bench.rails) join_alike(all, rail_piece(bench, rail));
  for (const bench::Bearer& bearer : bench.bearers) join_alike(all, bearer_piece(bench, bearer));
  for (const bench::Brace& brace : bench.braces) join_alike(all, brace_piece(bench, brace, tables));
  return all;
}

SheetPiece sheet_piece(const Bench& bench, const bench::Sheet& sheet) {
  SheetPiece piece;
  piece.name = sheet.name;
  piece.sheet = written(sheet.panel.nominal) + " " + sheet.family.key;
  const Length dx = sheet.x1 - sheet.x0, dy = sheet.y1 - sheet.y0, dz = sheet.z1 - sheet.z0;
  const bool in_x = bench::lies(sheet) || sheet.place == bench::SheetPlace::back;
  const Length level = in_x ? dx : dy, other = !bench::lies(sheet) ? dz : dy;
  piece.along = sheet.grain_along_x ? level : other;
  piece.across = sheet.grain_along_x ? other : level;
  piece.count = sheet.layers;
  for (const bench::Sheet::CutOut& hole : sheet.cut_outs) {
    piece.cut_outs.push_back(fmt::format("{} at {} from the left and {} from the front",
                                         size_text(hole.x1 - hole.x0, hole.y1 - hole.y0, bench),
                                         size_text(hole.x0 - sheet.x0, bench),
                                         size_text(hole.y0 - sheet.y0, bench)));
  }
  return piece;
}

std::vector<TimberStock> buy_timber(const std::vector<TimberPiece>& pieces, const Bench& bench) {
  std::map<std::string, std::vector<std::pair<std::string, double>>> by_stock;
  for (const TimberPiece& piece : pieces) {
    for (int i = 0; i < piece.count; ++i) {
      by_stock[piece.stock].push_back({piece.name, in_si(piece.length)});
    }
  }
  std::vector<TimberStock> all;
  for (const auto& [stock, wanted] : by_stock) {
    std::vector<double> lengths;
    for (const auto& [name, length] : wanted) lengths.push_back(length);
    const auto& bars = bench.units == quantity::UnitSystem::metric ? metric_bars : imperial_bars;
    const Cutting plan = cut(lengths, {bars.begin(), bars.end()}, kerf);
    TimberStock bought;
    bought.stock = stock;
    bought.exact = plan.exact;
    bought.bought = metres(plan.bought());
    for (const std::size_t i : plan.too_long)
      bought.too_long.push_back(size_text(metres(lengths[i]), bench));
    for (const Bar& bar : plan.bars) {
      TimberStock::Bar one{metres(bar.stock), {}, metres(bar.stock)};
      for (const std::size_t i : bar.pieces) {
        one.pieces.push_back(size_text(metres(lengths[i]), bench));
        one.cuts.push_back(metres(lengths[i]));
        one.left -= metres(lengths[i]);
        bought.used += metres(lengths[i]);
      }
      one.left -= metres(kerf * static_cast<double>(bar.pieces.size() - 1));
      bought.bars.push_back(std::move(one));
    }
    all.push_back(std::move(bought));
  }
  return all;
}

std::vector<SheetStock> buy_sheets(const std::vector<SheetPiece>& pieces,
                                   quantity::UnitSystem units) {
  const bench::UsualSheet usual = bench::usual_sheet(units);
  const Rectangle sheet{in_si(usual.along), in_si(usual.across)};
  std::map<std::string, std::vector<const SheetPiece*>> by_sheet;
  for (const SheetPiece& piece : pieces) {
    for (int i = 0; i < piece.count; ++i) by_sheet[piece.sheet].push_back(&piece);
  }
  std::vector<SheetStock> all;
  for (const auto& [name, wanted] : by_sheet) {
    std::vector<Rectangle> rectangles;
    for (const SheetPiece* piece : wanted) {
      rectangles.push_back({in_si(piece->along), in_si(piece->across)});
    }
    const SheetPlan plan = lay_out(rectangles, sheet, kerf);
    SheetStock bought{name, metres(sheet.along), metres(sheet.across), {}, 0.0, plan.exact, {}};
    for (const std::size_t i : plan.too_large) bought.too_large.push_back(wanted[i]->name);
    double used = 0.0;
    for (const std::vector<LaidPiece>& placed : plan.sheets) {
      std::vector<SheetStock::Placed> one;
      for (const LaidPiece& p : placed) {
        used += rectangles[p.piece].along * rectangles[p.piece].across;
        one.push_back({wanted[p.piece]->name, wanted[p.piece]->along, wanted[p.piece]->across,
                       metres(p.along), metres(p.across)});
      }
      bought.sheets.push_back(std::move(one));
    }
    if (!plan.sheets.empty()) {
      bought.used = used / (sheet.along * sheet.across * static_cast<double>(plan.sheets.size()));
    }
    all.push_back(std::move(bought));
  }
  return all;
}

class Hardware {
 public:
  void add(const std::string& name, int count, const std::string& note = "") {
    if (count <= 0) return;
    for (Item& item : items_) {
      if (item.name != name) continue;
      item.count += count;
      return;
    }
    items_.push_back({name, count, note});
  }
  [[nodiscard]] std::vector<Item> all() && { return std::move(items_); }

 private:
  std::vector<Item> items_;
};

std::string screw(Length d, Length l) { return "screw " + written(d, l); }

void add_joint(Hardware& hardware, const reference::JointKind& kind, const Bench& bench) {
  using reference::Fastening;
  const std::string screws = screw(kind.fastener_diameter, kind.fastener_length);
  switch (kind.fastening) {
    case Fastening::bracket:
      hardware.add(
          fmt::format("{}bracket, legs {}, {} of steel", kind.ribbed ? "ribbed " : "",
                      size_text(kind.leg, bench), size_text(kind.width, kind.thickness, bench)),
          kind.pieces);
      hardware.add(screws, 2 * kind.pieces * kind.fasteners, "for brackets");
      return;
    case Fastening::gusset:
      hardware.add(fmt::format("gusset {} of {} {}", size_text(kind.leg, kind.leg, bench),
                               size_text(kind.thickness, bench), kind.gusset_family),
                   kind.pieces);
      hardware.add(screws, 2 * kind.pieces * kind.fasteners, "for gussets");
      return;
    case Fastening::bolts:
      hardware.add(
          fmt::format("bolt M{:.0f} with nut and two washers", 1e3 * in_si(kind.fastener_diameter)),
          kind.fasteners);
      return;
    case Fastening::lap_screws:
    case Fastening::pocket_screws:
    case Fastening::end_grain_screws:
      hardware.add(screws, kind.fasteners);
      return;
    case Fastening::glue:
    case Fastening::half_lap:
    case Fastening::tenon:
    case Fastening::none:
      return;
  }
}

/// Along every rail and bearer under it, one every so far.
int screws_of(const Bench& bench, const bench::Sheet& sheet) {
  if (sheet.bond != bench::Bond::screwed || !(sheet.screws.every > Length{})) return 0;
  int n = 0;
  const auto along = [&](double length) {
    const double clear = std::max(0.0, length - 2.0 * in_si(sheet.screws.clear_of_post));
    n += static_cast<int>(std::ceil(clear / in_si(sheet.screws.every))) + 1;
  };
  for (const std::size_t r : sheet.rails) along(in_si(rail_piece(bench, bench.rails[r]).length));
  for (const std::size_t b : sheet.bearers) {
    along(in_si(bearer_piece(bench, bench.bearers[b]).length));
  }
  if (!bench::lies(sheet)) {
    const double height = in_si(sheet.z1 - sheet.z0);
    along(height);
    along(height);
  }
  return n;
}

std::vector<Item> hardware_of(const Bench& bench) {
  Hardware hardware;
  for (const bench::Rail& rail : bench.rails) {
    add_joint(hardware, rail.start.kind, bench);
    add_joint(hardware, rail.end.kind, bench);
  }
  for (const bench::Bearer& bearer : bench.bearers) {
    add_joint(hardware, bearer.start.kind, bench);
    add_joint(hardware, bearer.end.kind, bench);
  }
  for (const bench::Brace& brace : bench.braces) {
    add_joint(hardware, brace.joint, bench);
    add_joint(hardware, brace.joint, bench);
  }
  for (const bench::Sheet& sheet : bench.sheets) {
    hardware.add(screw(sheet.screws.screw.diameter, sheet.screws.length), screws_of(bench, sheet),
                 "for sheets");
  }
  for (const bench::Post& post : bench.posts) {
    if (post.on_wall || post.foot.bare) continue;
    if (post.foot.castor) {
      hardware.add(post.foot.castor->key, 1);
    } else {
      hardware.add(fmt::format("levelling foot {}, pad {}, with its insert", post.foot.thread.key,
                               written(post.foot.pad)),
                   1);
    }
  }
  return std::move(hardware).all();
}

}  // namespace

std::vector<SheetStock> sheets_to_buy(const Bench& bench) {
  std::vector<SheetPiece> pieces;
  for (const bench::Sheet& sheet : bench.sheets) pieces.push_back(sheet_piece(bench, sheet));
  return buy_sheets(pieces, bench.units);
}

PartsList parts_list(const Bench& bench, const reference::Tables& tables) {
  PartsList list;
  list.timber = timber_of(bench, tables);
  for (const bench::Sheet& sheet : bench.sheets) list.sheets.push_back(sheet_piece(bench, sheet));
  list.hardware = hardware_of(bench);
  list.timber_stock = buy_timber(list.timber, bench);
  list.sheet_stock = buy_sheets(list.sheets, bench.units);
  const auto weigh = [&](const bench::Stock& stock, Length length) {
    list.timber_mass += stock.timber.rho_mean * stock.thickness * stock.depth * length;
  };
  for (const bench::Post& post : bench.posts) {
    if (!post.on_wall) weigh(post.stock, post_piece(bench, post).length);
  }
  for (const bench::Rail& rail : bench.rails) weigh(rail.stock, rail_piece(bench, rail).length);
  for (const bench::Bearer& b : bench.bearers) weigh(b.stock, bearer_piece(bench, b).length);
  for (const bench::Brace& b : bench.braces) weigh(b.stock, brace_piece(bench, b, tables).length);
  for (std::size_t i = 0; i < bench.sheets.size(); ++i) {
    const SheetPiece& piece = list.sheets[i];
    list.sheet_mass += bench.sheets[i].panel.rho_mean * bench.sheets[i].panel.thickness *
                       piece.along * piece.across * static_cast<double>(piece.count);
  }
  list.notes = notes_on_parts(bench, tables);
  return list;
}

}  // namespace standtrue::decide
