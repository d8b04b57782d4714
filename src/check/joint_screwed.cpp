#include "check/joint_screwed.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "check/fastener_units.hpp"
#include "check/words.hpp"

namespace standtrue::check {

using quantity::in_si;

namespace {

/// Why these screws do not fit this wood; empty if they do.
std::string screw_misfit(const Build& build, const Leg& leg, Length in_wood) {
  if (in_wood >= leg.behind) {
    return fmt::format("the screws come out at the back of the {}: {} in {}", leg.on,
                       shown(in_wood), shown(leg.behind));
  }
  const Length least = build.tables.constant("penetration lateral").value * build.screw.diameter;
  if (in_wood >= least) return {};
  return fmt::format("the screws reach {} into the {}, {} are needed", shown(in_wood), leg.on,
                     shown(least));
}

/// Of one screw, along and across it.
void add_resistances(Screwed& leg, const Build& build, Length in_wood) {
  const reference::Tables& tables = build.tables;
  const reference::JointKind& kind = build.kind;
  const reference::Screw& screw = build.screw;
  const Length d = screw.diameter;
  const Length thread = thread_length(screw, kind.fastener_length);
  const Length shank = kind.fastener_length - thread - kind.thickness;
  const Length d_ef = effective_diameter(screw, shank, tables);
  // Less the point, a diameter long.
  const OrWhy<Withdrawal> pulled =
      withdrawal(screw, std::min(thread, in_wood) - d, leg.leg.timber.rho_k, right_angle, tables);
  leg.F_ax_k = pulled ? pulled->F : Force{};
  const Force rope = leg.axial.count() > 0 ? leg.F_ax_k : Force{};
  const Stress f_h =
      embedment_screw(d_ef, leg.leg.timber, leg.lateral.predrilled, leg.leg.angle, tables);
  const bool tight = kind.clearance < tables.constant("thick plate clearance").value * d;
  leg.F_v_k = steel_to_timber({kind.thickness, tight, f_h, in_wood, d_ef, d, screw.M_y_k, rope,
                               tables.constant("rope limit screws").value},
                              tables)
                  .F;
}

}  // namespace

OrWhy<Screwed> screwed(const Build& build, Leg leg) {
  const Length in_wood = build.kind.fastener_length - build.kind.thickness;
  const std::string why = screw_misfit(build, leg, in_wood);
  if (!why.empty()) return tl::unexpected(why);
  Screwed found{std::move(leg), {}, {}, {}, {}, 0.0, 0.0};
  const Grid grid = grid_of(build.kind);
  const Length d = build.screw.diameter;
  found.lateral = lateral_pattern(grid, found.leg, d, Plate::steel, build.tables);
  found.axial = axial_pattern(grid, found.leg, d, build.tables);
  if (found.lateral.count() == 0) {
    return tl::unexpected(
        fmt::format("the bracket's screws sit too near an end or edge of the {}", found.leg.on));
  }
  add_resistances(found, build, in_wood);
  const int rows = static_cast<int>(found.lateral.rows.size());
  found.n_ef_row = rows;
  if (found.leg.along_grain) {
    found.n_ef_row =
        effective_in_row(rows, build.kind.pitch, d, found.lateral.predrilled, build.tables);
  }
  if (found.axial.columns > 0) {
    found.n_ef_axial = effective_axial(found.axial.columns, build.tables);
  }
  return found;
}

std::string said(const Screwed& s, const Build& build) {
  const Grid grid = grid_of(build.kind);
  // Told only: a piece that is thinner splits sooner where screws are pulled, by how much no rule
  // says.
  const Length deep = build.tables.constant("axial timber depths").value * build.screw.diameter;
  const std::string thin = s.leg.behind < deep
                               ? fmt::format("; the {} is {} deep there, Table 8.6 counts on {}",
                                             s.leg.on, shown(s.leg.behind), shown(deep))
                               : "";
  return fmt::format(
      "{} leg: {} of {} screws {} x {} keep their distances{}; across F_v,Rk = {} each, "
      "n_ef = {:.2f} a row; {} of them pulled, F_ax,Rk = {} each{}",
      s.leg.on, s.lateral.count(), grid.rows * grid.columns, shown(build.screw.diameter),
      shown(build.kind.fastener_length), s.lateral.predrilled ? ", holes pre-drilled" : "",
      shown(s.F_v_k), s.n_ef_row, s.axial.count(), shown(s.F_ax_k), thin);
}

double prying(const Screwed& s, Length toe, bool from_toe) {
  if (s.axial.count() == 0) return 0.0;
  const Arms a = arms(s.axial, toe, from_toe);
  return a.sum_r2 > 0.0 ? a.r_max / a.sum_r2 / s.n_ef_axial : 0.0;
}
double turning(const Screwed& s) {
  const Arms a = arms_about_centre(s.lateral);
  return a.sum_r2 > 0.0 ? a.r_max / a.sum_r2 : 0.0;
}
double along_leg(const Screwed& s) { return 1.0 / (s.lateral.columns * s.n_ef_row); }
double across_leg(const Screwed& s) { return 1.0 / s.lateral.count(); }
double first_row(const Screwed& s) { return s.n_ef_axial > 0.0 ? 1.0 / s.n_ef_axial : 0.0; }
double columns_pull(const Screwed& s, const Build& build) {
  if (s.axial.count() == 0) return 0.0;
  const double arm = s.axial.columns > 1 ? in_si(s.axial.across) : in_si(build.kind.width) / 2.0;
  return 1.0 / (arm * effective_axial(static_cast<int>(s.axial.rows.size()), build.tables));
}

FastenerGroup group_of(const Screwed& s, const Build& build) {
  FastenerGroup group;
  group.name = fmt::format("screws in the {}", s.leg.on);
  group.F_v_k = s.F_v_k;
  group.F_ax_k = s.F_ax_k;
  group.F_tens_k = build.screw.f_tens_k;
  group.ductile = true;
  return group;
}

}  // namespace standtrue::check
