// Doubles in SI where they multiply end forces.
#include <fmt/format.h>

#include <algorithm>

#include "check/glue_line.hpp"
#include "check/joint_legs.hpp"
#include "check/joint_strength.hpp"
#include "check/tenon_room.hpp"
#include "check/words.hpp"

namespace standtrue::check {

using quantity::in_si;

namespace {

/// Empty if it can be judged.
std::string tenon_misfit(const Tenon& tenon, const Site& site) {
  if (tenon.h > in_si(site.rail->depth)) return "the tenon is higher than its rail";
  if (tenon.l >= in_si(site.onto_behind)) return "the tenon comes out at the back of the post";
  if (tenon.t < 0.25 * in_si(site.rail->width)) {
    return "tenons thinner than a quarter of the rail are outside what was tested";
  }
  if (tenon.l < 0.030) return "tenons shorter than 30 mm are outside what was tested";
  return {};
}

}  // namespace

/// A glued tenon: two cheeks of glue in torsion and shear, the tenon itself in bending and shear at
/// its shoulder. An estimate, set beside tests in hardwood only: red and white oak, tenon 32 x 38 x
/// 9.5 mm, 353 and 358 N m in the mean (Eckelman, Uysal, Haviarova 2016, BioResources 11(3) 7162).
/// Source (second hand): EN 1995-1-1, 6.1.6 and 6.1.7, the tenon itself.
JointStrength tenon_strength(const model::Model& model, const model::RailEnd& end,
                             const reference::Tables& tables) {
  using enum Component;
  JointStrength joint;
  const Site site = site_of(model, end);
  const reference::Timber& timber = site.rail->timber;
  Tenon tenon = tenon_of(model.parts, end);
  joint.why = tenon_misfit(tenon, site);
  joint.advice =
      "a deeper rail with a higher tenon, a bracket as well, or write its resistance from a test";
  if (!joint.why.empty()) {
    joint.advice = "a tenon a third of the rail's width, 40 to 50 mm long";
    return joint;
  }
  const std::optional<TenonRoom> room = tenon_room(model.parts, end);
  const bool is_cut = room && room->clear < tenon.l;
  if (is_cut) {
    tenon.l = room->clear;
    joint.why = tenon_misfit(tenon, site);
    if (!joint.why.empty()) {
      joint.why = fmt::format("it meets the tenon of the {} after {}", room->other->name,
                              shown(quantity::metres(tenon.l)));
      joint.advice = "rails at different heights, thinner tenons, or thicker posts";
      return joint;
    }
  }
  const GlueLine glue = glue_line(tenon.l, tenon.h, 2.0, *site.rail, *site.onto, tables);
  SimpleMode cheeks{"the glue of the tenon", {}, 1.0, false, false};
  cheeks.demand[pull] = cheeks.demand[down] = cheeks.demand[up] = 1.0 / glue.F_k;
  cheeks.demand[top] = cheeks.demand[bottom] = 1.0 / glue.M_k;
  const double f_m = in_si(timber.f_m_k);
  SimpleMode bent{
      "bending of the tenon", {}, f_m * tenon.t * tenon.h * tenon.h / 6.0, false, false};
  bent.demand[top] = bent.demand[bottom] = 1.0;
  SimpleMode flat_bent{
      "the tenon bent sideways", {}, f_m * tenon.h * tenon.t * tenon.t / 6.0, false, false};
  flat_bent.demand[flat] = 1.0;
  const double k_cr = tables.material(timber.material).k_cr.value;
  SimpleMode sheared{
      "shear of the tenon",
      {},
      in_si(timber.f_v_k) * k_cr * tenon.t * tenon.h / tables.constant("shear rectangle").value,
      false,
      false};
  sheared.demand[down] = sheared.demand[up] = sheared.demand[sideways] = 1.0;
  // A twist turns the tenon in its mortise: a couple of pressures over its height.
  SimpleMode twisted{"the tenon twisted in its mortise",
                     {},
                     in_si(site.onto->timber.f_c_90_k) * tenon.l * tenon.h * tenon.h / 6.0,
                     false,
                     false};
  twisted.demand[twist] = 1.0;
  joint.modes = {cheeks, bent, flat_bent, sheared, twisted};
  joint.working = {fmt::format("tenon {} thick, {} high, {} long", shown(quantity::metres(tenon.t)),
                               shown(quantity::metres(tenon.h)), shown(quantity::metres(tenon.l))),
                   glue.said,
                   "an estimate: tests of glued tenons in softwood of this size were not found; "
                   "in oak, 32 x 38 x 9.5 mm, 353 N m in the mean (BioResources 11(3) 7162)"};
  if (is_cut) {
    joint.working.push_back(
        fmt::format("cut short, or mitred, where it meets the tenon of the {}", room->other->name));
  }
  return joint;
}

}  // namespace standtrue::check
