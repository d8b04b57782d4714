// Doubles in SI where they multiply end forces.
#include <fmt/format.h>

#include <algorithm>

#include "check/glue_line.hpp"
#include "check/joint_legs.hpp"
#include "check/joint_strength.hpp"
#include "check/words.hpp"
#include "standtrue/bench/let_in.hpp"

namespace standtrue::check {

using quantity::in_si;

namespace {

/// What is left of the rail, half as thick.
std::vector<SimpleMode> strip_modes(const Site& site, const reference::Tables& tables) {
  using enum Component;
  const double b = 0.5 * in_si(site.rail->width), h = in_si(site.rail->depth);
  const reference::Timber& timber = site.rail->timber;
  SimpleMode bent{
      "bending of the halved rail", {}, in_si(timber.f_m_k) * b * h * h / 6.0, false, false};
  bent.demand[top] = bent.demand[bottom] = 1.0;
  const double k_cr = tables.material(timber.material).k_cr.value;
  SimpleMode sheared{"shear of the halved rail",
                     {},
                     in_si(timber.f_v_k) * k_cr * b * h / tables.constant("shear rectangle").value,
                     false,
                     false};
  sheared.demand[down] = sheared.demand[up] = 1.0;
  return {bent, sheared};
}

/// The shoulder in the post that the end of the rail stands on: pressed across the rail's grain and
/// along the post's, as broad as what is left of the rail is thick. None for a bearer let into a
/// rail, nor where the post ends less than the rail's width under it: from there on what would
/// split off bears more in shear along the grain than the shoulder does (ours).
/// Source (second hand): EN 1995-1-1, 6.1.4 and 6.1.5, pressure on the shoulder, k_c,90 = 1.
double shoulder_of_lap(const Site& site, double l) {
  if (!site.onto_post || site.below < site.rail->width) return 0.0;
  const Stress f = std::min(site.rail->timber.f_c_90_k, site.onto->timber.f_c_0_k);
  return in_si(f) * 0.5 * in_si(site.rail->width) * l;
}

/// How much of the lap counts: where a lap from another direction meets it in the post, both are
/// mitred there, and each keeps three quarters of its length (own geometry).
double share_of_lap(const model::Model& model, const model::RailEnd& end) {
  const model::Part& onto = model.parts.parts.at(end.onto);
  if (onto.role != model::Role::post) return 1.0;
  const std::size_t rail = model.parts.parts.at(end.rail).source;
  return bench::is_crossed_lap(model.parts.bench, onto.source, rail) ? 0.75 : 1.0;
}

void stand_on_shoulder(JointStrength& joint, SimpleMode& glue, double F_k) {
  if (!(F_k > 0.0)) return;
  SimpleMode shoulder{"the rail pressed on the post's shoulder", {}, F_k, false, false};
  shoulder.demand[Component::down] = 1.0;
  joint.modes.push_back(shoulder);
  glue.demand[Component::down] = 0.0;
  joint.working.push_back(
      fmt::format("what presses down goes to the post's shoulder: F_Rk = f_c,90 l b/2 = {}",
                  shown(quantity::newtons(F_k))));
}

}  // namespace

/// Rail and post cut to half their thickness and glued over the lap: one glue line in torsion and
/// shear, the half of the rail that is left, and under it the shoulder in the post, which bears
/// what presses down. An estimate: no test of such joints in softwood was found.
/// Source (second hand): EN 1995-1-1, 6.1.6 and 6.1.7, what is left of the rail.
JointStrength half_lap_strength(const model::Model& model, const model::RailEnd& end,
                                const reference::Tables& tables) {
  using enum Component;
  JointStrength joint;
  const Site site = site_of(model, end);
  const double share = share_of_lap(model, end);
  const double l = share * in_si(lap_length(model, end)), h = in_si(site.rail->depth);
  const GlueLine glue = glue_line(l, h, 1.0, *site.rail, *site.onto, tables);
  SimpleMode line{"the glue of the lap", {}, 1.0, false, false};
  for (const Component c : {pull, push, down, up}) line.demand[c] = 1.0 / glue.F_k;
  line.demand[top] = line.demand[bottom] = 1.0 / glue.M_k;
  // Prised off it is pulled across the grain.
  const double f_t = in_si(std::min(site.rail->timber.f_t_90_k, site.onto->timber.f_t_90_k)) *
                     tables.constant("glue home share").value;
  line.demand[sideways] = 1.0 / (f_t * l * h);
  line.demand[flat] = 1.0 / (f_t * h * l * l / 6.0);
  line.demand[twist] = 1.0 / (f_t * l * h * h / 6.0);
  joint.modes = strip_modes(site, tables);
  joint.working = {
      glue.said,
      fmt::format("prised off, across the grain at {:.3g} of f_t,90 = {}: {:.0f} N sideways, "
                  "{:.1f} N m flat, {:.1f} N m of twist",
                  tables.constant("glue home share").value,
                  shown(quantity::pascals(f_t / tables.constant("glue home share").value)),
                  1.0 / line.demand[sideways], 1.0 / line.demand[flat], 1.0 / line.demand[twist]),
      "an estimate: tests of such joints in softwood were not found; screws beside the glue are "
      "not added to it"};
  if (share < 1.0) {
    joint.working.emplace_back(
        "a lap from another direction meets it in the post: mitred, three quarters of it count");
  }
  stand_on_shoulder(joint, line, shoulder_of_lap(site, l));
  joint.modes.push_back(line);
  joint.advice = "a bracket or a gusset as well, or write its resistance from a test";
  return joint;
}

}  // namespace standtrue::check
