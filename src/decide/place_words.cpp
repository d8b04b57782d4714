#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <functional>

#include "decide/placing.hpp"
#include "decide/words.hpp"

namespace standtrue::decide {

using quantity::in_si;

namespace {

/// Rows and columns of cells [x0, x1) x [y0, y1).
struct Field {
  std::size_t x0 = 0, x1 = 0, y0 = 0, y1 = 0;
};

struct Looking {
  const PlacePlan& plan;
  const PlaceGrid& grid;
  quantity::UnitSystem units;

  [[nodiscard]] const PlaceStatus& at(std::size_t i, std::size_t j) const {
    return grid.at[j * plan.nx + i];
  }
  [[nodiscard]] std::size_t count(const Field& f,
                                  const std::function<bool(const PlaceStatus&)>& is) const {
    std::size_t n = 0;
    for (std::size_t j = f.y0; j < f.y1; ++j) {
      for (std::size_t i = f.x0; i < f.x1; ++i) n += is(at(i, j)) ? 1 : 0;
    }
    return n;
  }
  [[nodiscard]] std::string length(double cells, bool along) const {
    const double whole = in_si(along ? plan.length : plan.depth);
    const double n = static_cast<double>(along ? plan.nx : plan.ny);
    // To the nearest 5 mm, or as inches are read: a cell is no finer.
    const double si = std::round(cells * whole / n / 5e-3) * 5e-3;
    return quantity::print(si, quantity::Kind::length, units);
  }
};

const std::string nowhere = "nowhere";

bool has_room(const PlaceStatus& s) { return s.has_room; }
bool is_clear(const PlaceStatus& s) { return s.has_room && s.stand == Stand::clear; }
bool is_bad(const PlaceStatus& s) { return s.has_room && s.stand != Stand::clear; }

/// The cells that have room.
Field room_of(const Looking& look) {
  Field room{look.plan.nx, 0, look.plan.ny, 0};
  for (std::size_t j = 0; j < look.plan.ny; ++j) {
    for (std::size_t i = 0; i < look.plan.nx; ++i) {
      if (!look.at(i, j).has_room) continue;
      room = {std::min(room.x0, i), std::max(room.x1, i + 1), std::min(room.y0, j),
              std::max(room.y1, j + 1)};
    }
  }
  return room;
}

/// A field without its first or last row or column.
std::vector<Field> trimmed(const Field& f) {
  return {{f.x0, f.x1, f.y0 + 1, f.y1},
          {f.x0, f.x1, f.y0, f.y1 - 1},
          {f.x0 + 1, f.x1, f.y0, f.y1},
          {f.x0, f.x1 - 1, f.y0, f.y1}};
}

/// What is left when the sides that hold most of what is not clear are taken off, one by one; both
/// sides at once where they are alike.
Field clear_field(const Looking& look, const Field& room) {
  Field field = room;
  while (field.x0 < field.x1 && field.y0 < field.y1 && look.count(field, is_bad) > 0) {
    const std::size_t bad = look.count(field, is_bad);
    const std::size_t all = look.count(field, has_room);
    double most = -1.0;
    Field next = field;
    for (const Field& one : trimmed(field)) {
      const std::size_t off = all - look.count(one, has_room);
      const std::size_t bad_off = bad - look.count(one, is_bad);
      const double share = off == 0 ? 0.0 : static_cast<double>(bad_off) / static_cast<double>(off);
      if (share <= most + 1e-12) continue;
      most = share;
      next = one;
    }
    field = next;
  }
  return field;
}

/// "within 150 mm of the front edge": only where more is cut off than the pads' own room.
std::string all_but(const Looking& look, const Field& room, const Field& field) {
  std::vector<std::string> parts;
  const auto add = [&](std::size_t cells, bool along, const char* side) {
    parts.push_back(
        fmt::format("within {} of the {}", look.length(static_cast<double>(cells), along), side));
  };
  if (field.y0 > room.y0) add(field.y0, false, "front edge");
  if (field.y1 < room.y1) add(look.plan.ny - field.y1, false, "back edge");
  if (field.x0 > room.x0) add(field.x0, true, "left end");
  if (field.x1 < room.x1) add(look.plan.nx - field.x1, true, "right end");
  return joined(parts);
}

/// Most of what has room there: whoever reads of a strip goes and puts the machine down in it.
bool is_mostly_clear(const Looking& look, const Field& strip) {
  return 2 * look.count(strip, is_clear) > look.count(strip, has_room);
}

/// Where nothing is clear between two columns but most is at both ends; or the same of rows.
std::string only_outside(const Looking& look, const Field& room) {
  const auto strip = [&](std::size_t first, std::size_t end, bool along) {
    return along ? Field{first, end, room.y0, room.y1} : Field{room.x0, room.x1, first, end};
  };
  const auto is_free = [&](std::size_t line, bool along) {
    return look.count(strip(line, line + 1, along), is_clear) == 0;
  };
  for (const bool along : {true, false}) {
    const std::size_t low = along ? room.x0 : room.y0, high = along ? room.x1 : room.y1;
    const std::size_t n = along ? look.plan.nx : look.plan.ny;
    std::size_t from = n / 2, to = n / 2;
    while (from > low && is_free(from - 1, along)) --from;
    while (to < high && is_free(to, along)) ++to;
    if (to <= from || from == low || to == high) continue;
    if (!is_mostly_clear(look, strip(low, from, along)) ||
        !is_mostly_clear(look, strip(to, high, along))) {
      continue;
    }
    if (along && 3 * (to - from) <= n) {
      return fmt::format("only outside the middle {} of its length",
                         look.length(static_cast<double>(to - from), true));
    }
    return along
               ? fmt::format("only towards the ends: within {} of the left end or {} of the right",
                             look.length(static_cast<double>(from), true),
                             look.length(static_cast<double>(n - to), true))
               : fmt::format(
                     "only near the front and back rails: within {} of the front edge or "
                     "{} of the back",
                     look.length(static_cast<double>(from), false),
                     look.length(static_cast<double>(n - to), false));
  }
  return {};
}

std::string where(const Looking& look) {
  const Field room = room_of(look);
  const Field whole{0, look.plan.nx, 0, look.plan.ny};
  const std::size_t n_room = look.count(whole, has_room);
  const std::size_t n_clear = look.count(whole, is_clear);
  if (n_room == 0) return "nowhere: its pads find no room";
  if (n_clear == n_room) return "anywhere that its pads find room";
  if (n_clear == 0) {
    const std::size_t care = look.count(
        whole, [](const PlaceStatus& s) { return s.has_room && s.stand == Stand::care; });
    if (care == n_room) return "anywhere that its pads find room, but with care";
    return care == 0 ? nowhere
                     : fmt::format("nowhere without care, and with care at {} of {} places", care,
                                   n_room);
  }
  const Field field = clear_field(look, room);
  if (3 * look.count(field, is_clear) >= 2 * n_clear) {
    return "anywhere but " + all_but(look, room, field);
  }
  const std::string outside = only_outside(look, room);
  if (!outside.empty()) return outside;
  return fmt::format("only where the plan has dots, {} of {} places", n_clear, n_room);
}

const PlaceStatus& middle_of(const Looking& look) {
  return look.at(look.plan.nx / 2, look.plan.ny / 2);
}

std::string mid_span(const Looking& look) {
  const PlaceStatus& s = middle_of(look);
  const std::string& name = look.plan.machine;
  switch (s.stand) {
    case Stand::clear:
      return fmt::format("The {} may stand mid-span", name);
    case Stand::care:
      return fmt::format("The {} may stand mid-span with care", name);
    case Stand::barred:
      return fmt::format("The {} may not stand mid-span", name);
    case Stand::not_looked_at:
      break;
  }
  return fmt::format("The {}", name);
}

/// Mid-span, and where else.
std::string answer(const Looking& look) {
  const std::string there = where(look);
  const std::string& name = look.plan.machine;
  if (there == nowhere) {
    const Stand own = look.plan.own.stand;
    if (own == Stand::clear || own == Stand::care) {
      return fmt::format(
          "The {} may stand where the file has it{}, and at none of the places tried "
          "beside it.",
          name, own == Stand::care ? " with care" : "");
    }
    return fmt::format("The {} may not stand anywhere on this top.", name);
  }
  if (!middle_of(look).has_room) {
    return fmt::format("In the middle there is no room for the {}. Elsewhere it may stand {}.",
                       name, there);
  }
  return mid_span(look) + ": " + there + ".";
}

std::string best(const PlacePlan& plan, quantity::UnitSystem units) {
  if (!plan.best) {
    const bool is_own = plan.complete && plan.own.stand == Stand::clear;
    return is_own ? "It stands best where the file has it." : "";
  }
  const auto print = [units](quantity::Length l) {
    return quantity::print(std::round(in_si(l) / 5e-3) * 5e-3, quantity::Kind::length, units);
  };
  const Spot& spot = *plan.best;
  return fmt::format(
      "It stands best with the middle of its pads {} from the left end and {} from "
      "the front edge{}: there {:.2f} of what is allowed is used.",
      print(plan.x(spot.cell) - plan.x0), print(plan.y(spot.cell) - plan.y0),
      plan.ways[spot.way].turned ? ", turned a quarter" : "",
      plan.ways[spot.way].at[spot.cell].ratio);
}

std::string own(const PlacePlan& plan) {
  switch (plan.own.stand) {
    case Stand::clear:
      return fmt::format("Where the file has it now it is clear ({:.2f} of what is allowed).",
                         plan.own.ratio);
    case Stand::care:
      return fmt::format("Where the file has it now it asks for care ({}, {:.2f}).", plan.own.why,
                         plan.own.ratio);
    case Stand::barred:
      return fmt::format("Where the file has it now it is barred ({}, {:.2f}).", plan.own.why,
                         plan.own.ratio);
    case Stand::not_looked_at:
      break;
  }
  return {};
}

/// Three, and how many more; --json has all.
std::string first_few(const std::vector<std::string>& ids) {
  constexpr std::size_t few = 3;
  if (ids.size() <= few + 1) return joined(ids);
  std::vector<std::string> told(ids.begin(), ids.begin() + few);
  told.push_back(fmt::format("{} more", ids.size() - few));
  return joined(told);
}

}  // namespace

std::vector<std::string> place_words(const PlacePlan& plan, quantity::UnitSystem units) {
  std::vector<std::string> words;
  const Looking straight{plan, plan.ways[0], units};
  words.push_back(answer(straight));
  if (!plan.is_alike_turned) {
    const Looking turned{plan, plan.ways[1], units};
    words.push_back("Turned a quarter: " + where(turned) + ".");
  }
  words.push_back(own(plan));
  if (!plan.besides.empty()) {
    words.push_back(
        fmt::format("But the bench itself fails, or may fail, what this plan does not "
                    "look at ({}): first cure what standtrue check tells.",
                    first_few(plan.besides)));
  }
  if (plan.besides.empty() && !plan.nearly.empty()) {  // else there is more to cure first
    words.push_back(fmt::format(
        "What it does not look at is near its limit already ({}): check the bench again "
        "with the machine where it is to stand.",
        first_few(plan.nearly)));
  }
  words.push_back(best(plan, units));
  words.erase(std::remove(words.begin(), words.end(), std::string()), words.end());
  return words;
}

}  // namespace standtrue::decide
