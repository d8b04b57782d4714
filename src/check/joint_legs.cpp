#include "check/joint_legs.hpp"

#include <algorithm>
#include <cmath>

#include "check/fastener_units.hpp"

namespace standtrue::check {

using quantity::in_si;
using quantity::metres;

namespace {

/// Where no end or edge is near.
const Length far_away = metres(100.0);
/// Rounding of sizes that are printed to the tenth of a millimetre.
const Length slack = metres(1e-6);

}  // namespace

Grid grid_of(const reference::JointKind& kind) {
  Grid grid;
  grid.columns = std::max(1, kind.rows);
  grid.rows = std::max(1, kind.fasteners / grid.columns);
  grid.first = kind.first;
  grid.pitch = kind.pitch;
  if (grid.columns == 1) return grid;
  // The record gives the root mean square distance from the centre; what the rows do not make up
  // of it lies across. A plate can not be narrower than what it holds.
  const double n = grid.rows;
  const double along2 = in_si(kind.pitch) * in_si(kind.pitch) * (n * n - 1.0) / 12.0;
  const double across2 = std::max(0.0, in_si(kind.radius) * in_si(kind.radius) - along2);
  const double m = grid.columns;
  grid.across = metres(std::sqrt(across2 * 12.0 / (m * m - 1.0)));
  if (kind.width > Length{}) {
    grid.across = std::min(grid.across, kind.width / static_cast<double>(grid.columns));
  }
  return grid;
}

Pattern pattern_of(const Grid& grid, const Leg& leg, const Spacings& a) {
  const Length row_pitch = leg.along_grain ? a.a_1 : a.a_2;
  const Length column_pitch = leg.along_grain ? a.a_2 : a.a_1;
  const Length lengthways = leg.along_grain ? a.a_3t : a.a_4t;
  const Length sideways = leg.along_grain ? a.a_4t : a.a_3t;
  Pattern found;
  const Length half_group = 0.5 * static_cast<double>(grid.columns - 1) * grid.across;
  const bool all_columns = (grid.columns == 1 || grid.across + slack >= column_pitch) &&
                           leg.half_width + slack >= half_group + sideways;
  if (all_columns) {
    found.columns = grid.columns;
    found.across = grid.columns > 1 ? grid.across : Length{};
  } else if (leg.half_width + slack >= sideways) {
    found.columns = 1;
  }
  if (found.columns == 0) return found;
  for (int i = 0; i < grid.rows; ++i) {
    const Length at = grid.first + static_cast<double>(i) * grid.pitch;
    const bool clear_of_ends = std::min(leg.back + at, leg.ahead - at) + slack >= lengthways;
    const bool clear_of_last = found.rows.empty() || at - found.rows.back() + slack >= row_pitch;
    if (clear_of_ends && clear_of_last) found.rows.push_back(at);
  }
  if (found.rows.empty()) found.columns = 0;
  return found;
}

Pattern lateral_pattern(const Grid& grid, const Leg& leg, Length d, Plate plate,
                        const reference::Tables& tables) {
  const auto with = [&](bool predrilled) {
    const reference::SpacingRule& rule = screw_rule(d, leg.timber.rho_k, predrilled, tables);
    Pattern pattern = pattern_of(grid, leg, least_spacings(rule, d, leg.angle, plate, tables));
    pattern.predrilled = predrilled;
    return pattern;
  };
  if (must_predrill(d, leg.timber.rho_k, tables)) return with(true);
  const Pattern plain = with(false);
  const Pattern drilled = with(true);
  return drilled.count() > plain.count() ? drilled : plain;
}

Pattern axial_pattern(const Grid& grid, const Leg& leg, Length d, const reference::Tables& tables) {
  const Spacings a =
      least_spacings(tables.spacing_rule("screws axial"), d, 0.0, Plate::none, tables);
  return pattern_of(grid, leg, a);
}

Arms arms(const Pattern& pattern, Length toe, bool from_toe) {
  Arms found;
  for (const Length& row : pattern.rows) {
    const double r = in_si(from_toe ? toe - row : row);
    found.sum_r2 += r * r;
    found.r_max = std::max(found.r_max, r);
  }
  return found;
}

Arms arms_about_centre(const Pattern& pattern) {
  Arms found;
  if (pattern.rows.empty()) return found;
  double centre = 0.0;
  for (const Length& row : pattern.rows) {
    centre += in_si(row) / static_cast<double>(pattern.rows.size());
  }
  for (const Length& row : pattern.rows) {
    for (int c = 0; c < pattern.columns; ++c) {
      const double aside = (c - 0.5 * (pattern.columns - 1)) * in_si(pattern.across);
      const double r = std::hypot(in_si(row) - centre, aside);
      found.sum_r2 += r * r;
      found.r_max = std::max(found.r_max, r);
    }
  }
  return found;
}

namespace {

/// Of `lines`, `apart` from each other, each of `in_line` fasteners:
/// r_max/sum r² = (n - 1) p/2 / (m p² n (n² - 1)/12)
double pried(double lines, double in_line, Length apart, Length to_edge) {
  if (lines < 2.0) return 1.0 / (in_line * in_si(to_edge));
  const double p = in_si(apart);
  return (lines - 1.0) / 2.0 * p / (in_line * p * p * lines * (lines * lines - 1.0) / 12.0);
}

}  // namespace

double pried_by_rows(const Pattern& pattern, Length to_edge) {
  const Length apart = pattern.rows.size() > 1 ? pattern.rows[1] - pattern.rows[0] : Length{};
  return pried(static_cast<double>(pattern.rows.size()), pattern.columns, apart, to_edge);
}
double pried_by_columns(const Pattern& pattern, Length to_edge) {
  return pried(pattern.columns, static_cast<double>(pattern.rows.size()), pattern.across, to_edge);
}

namespace {

Site on_post(const bench::Bench& bench, const model::Part& rail_part, const model::Part& post_part,
             bool at_end) {
  const bench::Rail& rail = bench.rails.at(rail_part.source);
  const bench::Post& post = bench.posts.at(at_end ? rail.to : rail.from);
  const Length side = rail.along_x ? post.along_y : post.along_x;
  const Length aside = rail.aside < Length{} ? -rail.aside : rail.aside;
  Site site{&rail_part, &post_part, true, rail.seat == bench::Seat::between, {}, {}, {}, {}, {}};
  site.post_half = side / 2.0 - aside;
  site.shoulder = side / 2.0 + aside - rail.width / 2.0;
  site.above = post.top - (rail.height + rail.depth / 2.0);
  site.below = rail.height - rail.depth / 2.0 - post.bottom;
  site.onto_behind = rail.seat == bench::Seat::post_face ? side
                     : rail.along_x                      ? post.along_x
                                                         : post.along_y;
  return site;
}

/// Heights of the edges of a rail or bearer.
struct Upright {
  Length low, high;
};
Upright upright_of(const bench::Bench& bench, const model::Part& part) {
  const auto of = [](const auto& piece) {
    return Upright{piece.height - piece.depth / 2.0, piece.height + piece.depth / 2.0};
  };
  return part.role == model::Role::bearer ? of(bench.bearers.at(part.source))
                                          : of(bench.rails.at(part.source));
}

/// A bearer on a rail, or a rail on the ledger.
Site on_rail(const bench::Bench& bench, const model::Part& piece, const model::Part& carrying) {
  const Upright own = upright_of(bench, piece), other = upright_of(bench, carrying);
  Site site{&piece, &carrying, false, true, far_away, far_away, {}, {}, {}};
  site.onto_behind = bench.rails.at(carrying.source).width;
  site.above = other.high - own.high;
  site.below = own.low - other.low;
  return site;
}

}  // namespace

Site site_of(const model::Model& model, const model::RailEnd& end) {
  const model::Part& rail = model.parts.parts.at(end.rail);
  const model::Part& onto = model.parts.parts.at(end.onto);
  return onto.role == model::Role::post ? on_post(model.parts.bench, rail, onto, end.at_end)
                                        : on_rail(model.parts.bench, rail, onto);
}

Length lap_length(const model::Model& model, const model::RailEnd& end) {
  const bench::Bench& bench = model.parts.bench;
  const model::Part& piece = model.parts.parts.at(end.rail);
  const model::Part& onto = model.parts.parts.at(end.onto);
  if (onto.role != model::Role::post) return onto.width;
  const bench::Rail& rail = bench.rails.at(piece.source);
  const bench::Post& post = bench.posts.at(end.at_end ? rail.to : rail.from);
  return rail.along_x ? post.along_x : post.along_y;
}

Leg rail_leg_under(const Site& site) {
  return {"rail", site.rail->timber, site.rail->depth, true,
          0.0,    Length{},          far_away,         site.rail->width / 2.0};
}

Leg onto_leg_under(const Site& site, bool is_above) {
  // The corner lies at the rail's underside (top); the leg goes on from there, away from the rail.
  const Length ahead = is_above ? site.above : site.below;
  const Length back = (is_above ? site.below : site.above) + site.rail->depth;
  if (site.onto_post) {
    return {"post", site.onto->timber, site.onto_behind, true, 0.0, back, ahead, site.post_half};
  }
  return {"carrying rail", site.onto->timber, site.onto_behind, false, right_angle, back,
          ahead,           far_away};
}

Leg rail_leg_beside(const Site& site) {
  return {"rail",      site.rail->timber, site.rail->width, true,
          right_angle, Length{},          far_away,         site.rail->depth / 2.0};
}

Leg onto_leg_beside(const Site& site) {
  const Length nearer_end = std::min(site.above, site.below) + site.rail->depth / 2.0;
  if (site.onto_post) {
    return {"post",
            site.onto->timber,
            site.onto_behind,
            false,
            0.0,
            site.post_half + site.rail->width / 2.0,
            site.shoulder,
            nearer_end};
  }
  return {"carrying rail", site.onto->timber, site.onto_behind, true,
          right_angle,     far_away,          far_away,         nearer_end};
}

}  // namespace standtrue::check
