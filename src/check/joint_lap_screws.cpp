// Doubles in SI where they multiply end forces.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

#include "check/fastener_units.hpp"
#include "check/joint_legs.hpp"
#include "check/joint_strength.hpp"
#include "check/words.hpp"

namespace standtrue::check {

using quantity::in_si;

namespace {

/// The rows that keep their distances in the rail and in the post. Both are counted from the end of
/// the rail, which is flush with the far edge of the post.
Pattern common(const Pattern& rail, const Pattern& post) {
  Pattern both;
  both.columns = std::min(rail.columns, post.columns);
  both.across = both.columns > 1 ? rail.across : Length{};
  both.predrilled = rail.predrilled || post.predrilled;
  for (const Length& row : rail.rows) {
    if (std::find(post.rows.begin(), post.rows.end(), row) != post.rows.end()) {
      both.rows.push_back(row);
    }
  }
  return both;
}

Pattern pattern_in_both(const reference::JointKind& kind, const Site& site, Length lap, Length d,
                        const reference::Tables& tables) {
  const Grid grid = grid_of(kind);
  const Leg rail{"rail",      site.rail->timber, site.rail->width, true,
                 right_angle, Length{},          site.rail->span,  site.rail->depth / 2.0};
  const Leg post{"post",
                 site.onto->timber,
                 site.onto_behind,
                 false,
                 0.0,
                 Length{},
                 lap,
                 std::min(site.above, site.below) + site.rail->depth / 2.0};
  return common(lateral_pattern(grid, rail, d, Plate::none, tables),
                lateral_pattern(grid, post, d, Plate::none, tables));
}

/// Deep enough in the post, and not out at its back.
bool ends_in_post(Length in_post, Length d, const Site& site, const reference::Tables& tables) {
  return in_post >= tables.constant("penetration lateral").value * d && in_post < site.onto_behind;
}

/// The longest of these screws that reach into the post, if two at least keep their distances.
std::optional<Length> length_that_fits(const reference::JointKind& kind, const Site& site,
                                       Length lap, const reference::Screw& screw,
                                       const reference::Tables& tables) {
  std::optional<Length> longest;
  for (const Length& length : screw.lengths) {
    if (longest && length < *longest) continue;
    if (ends_in_post(length - site.rail->width, screw.diameter, site, tables)) longest = length;
  }
  const bool two_fit = pattern_in_both(kind, site, lap, screw.diameter, tables).count() > 1;
  return two_fit ? longest : std::nullopt;
}

/// The thickest screws of the tables that fit in the lap where the file has them, or in its middle;
/// else brackets.
std::string cure_of_lap_screws(const reference::JointKind& kind, const Site& site, Length lap,
                               const reference::Tables& tables) {
  reference::JointKind best = kind;
  best.fastener_diameter = Length{};
  for (const Length& first : {kind.first, lap / 2.0}) {
    for (const reference::Screw& screw : tables.screws) {
      if (screw.diameter <= best.fastener_diameter) continue;
      reference::JointKind trial = kind;
      trial.first = first;
      const auto length = length_that_fits(trial, site, lap, screw, tables);
      if (!length) continue;
      best.first = first;
      best.fastener_diameter = screw.diameter;
      best.fastener_length = *length;
    }
  }
  if (best.fastener_diameter > Length{}) {
    return fmt::format("the thickest screws that fit: screws: {:g} x {}, first: {}",
                       in_mm(best.fastener_diameter), shown(best.fastener_length),
                       shown(best.first));
  }
  return "two corner brackets in place of the lap: no screws fit in it";
}

FastenerGroup lap_group(const Pattern& pattern, const Site& site, Length lap,
                        const reference::Screw& screw, const Lateral& lateral, Force F_ax,
                        const reference::Tables& tables) {
  using enum Component;
  const double n = pattern.count();
  const int rows = static_cast<int>(pattern.rows.size());
  const Arms arms = arms_about_centre(pattern);
  FastenerGroup group;
  group.name = "screws through the lap";
  group.ductile = true;
  group.F_v_k = lateral.F;
  group.F_ax_k = F_ax;
  group.F_tens_k = screw.f_tens_k;
  const Length pitch = rows > 1 ? pattern.rows[1] - pattern.rows[0] : Length{};
  const double in_row =
      rows > 1 ? effective_in_row(rows, pitch, screw.diameter, pattern.predrilled, tables) : 1.0;
  group.first[pull] = group.first[push] = 1.0 / (pattern.columns * in_row);
  group.second[down] = group.second[up] = 1.0 / n;
  if (arms.sum_r2 > 0.0) group.turning[top] = group.turning[bottom] = arms.r_max / arms.sum_r2;
  // What prises the rail off the post pulls at them: about an upright line its rows, about the rail
  // its columns.
  group.axial[sideways] = 1.0 / effective_axial(pattern.count(), tables);
  const Length first = pattern.rows.front();
  group.axial[flat] = pried_by_rows(pattern, std::min(first, lap - first));
  group.axial[twist] = pried_by_columns(pattern, site.rail->depth / 2.0);
  return group;
}

}  // namespace

/// Screws through the rail into the face of the post, as bolts are; holes pre-drilled where only so
/// they keep their distances.
/// Source (second hand): EN 1995-1-1, 8.2.2, 8.3.1, 8.7, Table 8.2.
JointStrength lap_screws_strength(const model::Model& model, const model::RailEnd& end,
                                  const reference::Tables& tables) {
  using enum Component;
  JointStrength joint;
  const reference::JointKind& kind = end.joint.kind;
  const reference::Screw* screw = tables.screw(kind.fastener_diameter);
  if (screw == nullptr || kind.fasteners < 1) {
    joint.why = "the screws are not known";
    return joint;
  }
  const Site site = site_of(model, end);
  const Length d = screw->diameter, in_post = kind.fastener_length - site.rail->width;
  const Length least = tables.constant("penetration lateral").value * d;
  const Length lap = lap_length(model, end);
  if (!ends_in_post(in_post, d, site, tables)) {
    joint.why = in_post < least ? fmt::format("the screws reach {} into the post, {} are needed",
                                              shown(in_post), shown(least))
                                : std::string("the screws come out at the back of the post");
    joint.advice = cure_of_lap_screws(kind, site, lap, tables);
    return joint;
  }
  const Pattern pattern = pattern_in_both(kind, site, lap, d, tables);
  if (pattern.count() == 0) {
    joint.why = "the screws sit too near the end of the rail or the edge of the post";
    joint.advice = cure_of_lap_screws(kind, site, lap, tables);
    return joint;
  }
  const Length thread = thread_length(*screw, kind.fastener_length);
  const Length d_ef =
      effective_diameter(*screw, kind.fastener_length - thread - site.rail->width, tables);
  const OrWhy<Withdrawal> pulled = withdrawal(*screw, std::min(thread, in_post) - d,
                                              site.onto->timber.rho_k, right_angle, tables);
  const Force F_ax =
      pulled ? std::min(pulled->F, head_pull_through(*screw, site.rail->timber.rho_k, tables))
             : Force{};
  const auto f_h = [&](const reference::Timber& timber) {
    return embedment_screw(d_ef, timber, pattern.predrilled, right_angle, tables);
  };
  const Lateral lateral =
      timber_to_timber({f_h(site.rail->timber), f_h(site.onto->timber), site.rail->width, in_post,
                        d_ef, screw->M_y_k, F_ax, tables.constant("rope limit screws").value},
                       tables);
  joint.groups = {lap_group(pattern, site, lap, *screw, lateral, F_ax, tables)};
  SimpleMode splitting{"splitting of the rail", {}, 0.0, false, false};
  splitting.demand[down] = splitting.demand[up] = 1.0;
  splitting.R_k = in_si(splitting_resistance(
      site.rail->width, site.rail->depth / 2.0 + pattern.across / 2.0, site.rail->depth, tables));
  joint.modes = {splitting};
  if (!(F_ax > Force{})) {
    joint.why_pull = "the screws are too short to be pulled";
    joint.pulls[sideways] = joint.pulls[flat] = joint.pulls[twist] = 1.0;
  }
  if (pattern.count() < 2) joint.why_bending = "one screw does not hold a rail against bending";
  joint.working = {fmt::format(
      "{} of {} screws {} x {} keep their distances{}; mode {}: F_v,Rk = {} each, F_ax,Rk = {}",
      pattern.count(), kind.fasteners, shown(d), shown(kind.fastener_length),
      pattern.predrilled ? ", holes pre-drilled" : "", lateral.mode, shown(lateral.F),
      shown(F_ax))};
  return joint;
}

}  // namespace standtrue::check
