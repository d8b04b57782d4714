#include "reference/readers.hpp"

namespace standtrue::reference {

using quantity::Density;
using quantity::in_si;
using quantity::Stress;

namespace {

/// G is oven-dry mass over oven-dry volume; the wood holds m % of water and has swollen with it:
///     ρ = ρ_water G/(1 + 0.009 m G) (1 + m/100).
/// Source (second hand): NDS Supplement 2018, 3.1.3.
Density mean_density(double G, const Tables& tables) {
  constexpr double water = 1000.0;  // kg/m3
  const double m = tables.constant("moisture of density").value;
  const double swelling = tables.constant("swelling of density").value;
  return quantity::from_si<Density>(water * G / (1.0 + swelling * m * G) * (1.0 + m / 100.0));
}

/// The tabulated E is apparent: in a simple beam under an even load, 21 times as long as deep, it
/// also holds the shear, (384/5)(1/8)(6/5)(E/G)/12 (h/L)² = 3.5 % with E/G = 16. The frame is given
/// its shear apart, so E is freed of it: by 1.03, with which E_min is made.
/// Source (second hand): NDS 2018, Appendix D.
void set_moduli(Timber& t, Stress E, const Tables& tables) {
  t.E_0_mean = E * tables.constant("E shear-free").value;
  t.E_90_mean = t.E_0_mean / tables.constant("E_90 softwood").value;
  t.G_mean = t.E_0_mean / tables.constant("G divisor").value;
  t.E_0_05 = t.allowable->E_min * tables.constant("E_min divisor").value;
}

/// Joints are judged by characteristic strengths: the 5 % values of short tests from which the
/// allowable ones were made, by the divisors that made them; without size factor, which is cautious
/// up to 12 in. Across the grain the relation of softwoods.
/// Source (from memory): ASTM D245, Table 8; the relation across the grain is ours.
void set_strengths_of_joints(Timber& t, const Tables& tables) {
  const Allowable& a = *t.allowable;
  t.f_m_k = a.F_b * tables.constant("F_b divisor").value;
  t.f_t_0_k = a.F_t * tables.constant("F_t divisor").value;
  t.f_c_0_k = a.F_c * tables.constant("F_c divisor").value;
  t.f_v_k = a.F_v * tables.constant("F_v divisor").value;
  t.f_t_90_k = quantity::pascals(tables.constant("f_t_90 softwood").value);
  t.f_c_90_k = quantity::pascals(1e6 * tables.constant("f_c_90 of density").value * in_si(t.rho_k));
}

}  // namespace

void read_visual_grade(const Record& r, Tables& out) {
  Timber t;
  t.key = r.key();
  t.names = r.names();
  t.species = Species::softwood;
  t.material = Material::solid_timber;
  t.allowable = Allowable{.F_b = stress(r, "F_b"),
                          .F_t = stress(r, "F_t"),
                          .F_v = stress(r, "F_v"),
                          .F_c_perp = stress(r, "F_c_perp"),
                          .F_c = stress(r, "F_c"),
                          .E_min = stress(r, "E_min"),
                          .specific_gravity = r.number("specific_gravity"),
                          .sized = r.yes("sized")};
  set_moduli(t, stress(r, "E"), out);
  t.rho_mean = mean_density(t.allowable->specific_gravity, out);
  constexpr double one_in_twenty = 1.644854;  // of the normal distribution
  t.rho_k = t.rho_mean * (1.0 - one_in_twenty * out.scatter("rho").cov);
  set_strengths_of_joints(t, out);
  t.source = r.sources();
  out.timbers.push_back(std::move(t));
}

}  // namespace standtrue::reference
