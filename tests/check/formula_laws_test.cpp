// What every formula must obey, over all records of the reference tables: more wood, a stronger
// class, a shorter load is never worse. No source but sense; each law is a claim of its own.
#include <doctest/doctest.h>

#include <array>
#include <cmath>
#include <limits>
#include <string>
#include <vector>

#include "standtrue/check/strength.hpp"
#include "standtrue/model/model.hpp"

namespace formula_laws_test {

using namespace standtrue;
using namespace standtrue::check;
using namespace standtrue::quantity;
using reference::Duration;
using reference::Material;
using reference::ServiceClass;
using reference::Timber;

namespace {

constexpr double rounding = 1e-12;

const reference::Tables& tables() {
  static const reference::Tables loaded = reference::load_tables();
  return loaded;
}

constexpr std::array all_airs{ServiceClass::sc1, ServiceClass::sc2, ServiceClass::sc3};
/// From the longest to the shortest.
constexpr std::array all_durations{Duration::permanent, Duration::long_term, Duration::medium_term,
                                   Duration::short_term, Duration::instantaneous};

/// Classes of one family in the order of their names, each stronger than the one before.
std::vector<std::vector<Timber>> chains() {
  std::vector<std::vector<Timber>> found(2);
  for (const Timber& timber : tables().timbers) {
    if (timber.material != Material::solid_timber || timber.allowable) continue;
    found[timber.species == reference::Species::softwood ? 0 : 1].push_back(timber);
  }
  return found;
}

struct Side {
  double b, h;  ///< mm
};
constexpr std::array sides{Side{18, 60}, Side{38, 38},   Side{38, 63},  Side{38, 89},
                           Side{45, 95}, Side{45, 145},  Side{45, 245}, Side{70, 70},
                           Side{95, 95}, Side{145, 145}, Side{145, 45}, Side{240, 60}};

model::Part part_of(const Timber& timber, Side side) {
  model::Part part;
  part.timber = timber;
  part.width = millimetres(side.b);
  part.depth = millimetres(side.h);
  return part;
}

/// A value that must not fall as one goes on.
struct Rising {
  double last = -std::numeric_limits<double>::infinity();
  void operator()(double value) {
    CHECK(value >= last - rounding * std::abs(last));
    last = value;
  }
};

}  // namespace

TEST_CASE("check/formula_laws: both chains of classes are there") {
  REQUIRE(chains().at(0).size() >= 9);
  REQUIRE(chains().at(1).size() >= 5);
}

TEST_CASE(
    "check/formula_laws: a stronger class has no lower design strength, in any air and time") {
  for (const std::vector<Timber>& chain : chains()) {
    for (const Side side : sides) {
      for (const ServiceClass air : all_airs) {
        for (const Duration duration : all_durations) {
          std::array<Rising, 7> rise;
          for (const Timber& timber : chain) {
            CAPTURE(timber.key);
            const OrWhy<Strengths> f = strengths(part_of(timber, side), air, duration, tables());
            REQUIRE(f.has_value());
            const std::array values{f->f_m.y, f->f_m.z, f->f_t_0, f->f_c_0, f->f_c_90, f->f_v};
            for (std::size_t i = 0; i < values.size(); ++i) rise[i](in_si(values[i]));
          }
        }
      }
    }
  }
}

TEST_CASE("check/formula_laws: a stronger class makes no column weaker, however slender (6.3.2)") {
  // With k_c throughout. At λ_rel = 0.3 the code steps from squares of the pressure to its first
  // power (6.3.2(2)), and of two classes the stronger may lie beyond: the next test holds the step.
  for (const std::vector<Timber>& chain : chains()) {
    for (const Side side : sides) {
      for (double L = 100; L <= 4000; L += 130) {
        Rising rise;
        for (const Timber& timber : chain) {
          CAPTURE(timber.key);
          const model::Part part = part_of(timber, side);
          const Strengths f = *strengths(part, ServiceClass::sc2, Duration::short_term, tables());
          const auto k_c = [&](Length side_of) {
            return buckling_factor(
                relative_slenderness(millimetres(L), side_of, timber.f_c_0_k, timber.E_0_05),
                f.beta_c, tables());
          };
          rise(-column_ratio({pascals(2e6), pascals(1e6)}, pascals(1.5e6), f,
                             {k_c(part.depth), k_c(part.width)}));
        }
      }
    }
  }
}

TEST_CASE(
    "check/formula_laws: a column is never better for being longer, over the step (6.3.2(2))") {
  for (const Timber& timber : tables().timbers) {
    for (const Side side : sides) {
      const model::Part part = part_of(timber, side);
      const Strengths f = *strengths(part, ServiceClass::sc2, Duration::short_term, tables());
      Rising rise;
      for (double L = 50; L <= 4000; L += 25) {
        const auto k_c = buckling_factors(
            {relative_slenderness(millimetres(L), part.depth, timber.f_c_0_k, timber.E_0_05),
             relative_slenderness(millimetres(L), part.width, timber.f_c_0_k, timber.E_0_05)},
            f.beta_c, tables());
        rise(column_ratio({pascals(2e6), pascals(1e6)}, pascals(1.5e6), f, k_c));
      }
    }
  }
}

TEST_CASE("check/formula_laws: a stronger class tips sideways no sooner (6.3.3)") {
  for (const std::vector<Timber>& chain : chains()) {
    for (const Side side : sides) {
      const Length b = millimetres(side.b), h = millimetres(side.h);
      const model::Section section = model::rectangle(b, h);
      for (double l_ef = 200; l_ef <= 5000; l_ef += 160) {
        Rising rise;
        for (const Timber& timber : chain) {
          CAPTURE(timber.key);
          CAPTURE(l_ef);
          CAPTURE(side.h);
          const Stress critical =
              critical_bending_stress(timber, b, h, section.J, millimetres(l_ef), tables());
          rise(k_crit(std::sqrt(timber.f_m_k / critical), tables()) * in_si(timber.f_m_k));
        }
      }
    }
  }
}

TEST_CASE("check/formula_laws: a deeper or wider member bears more moment, push and twist") {
  for (const Timber& timber : tables().timbers) {
    for (const bool deeper : {true, false}) {
      std::array<Rising, 5> rise;
      for (double grown = 40; grown <= 260; grown += 5) {
        const Side side = deeper ? Side{45, grown} : Side{grown, 95};
        const model::Part part = part_of(timber, side);
        const model::Section s = model::rectangle(part.width, part.depth);
        const Strengths f = *strengths(part, ServiceClass::sc2, Duration::short_term, tables());
        const AboutAxes<Stress> unit =
            bending_stress({newton_metres(1), newton_metres(1)}, part.width, part.depth);
        rise[0](f.f_m.y / unit.y);
        rise[1](f.f_m.z / unit.z);
        rise[2](f.f_v /
                shear_stress({newtons(0), newtons(1)}, part.width, part.depth, f.k_cr, tables()));
        rise[3](k_shape(part.width, part.depth, tables()) * f.f_v /
                torsion_stress(newton_metres(1), s.J, part.width, part.depth));
        const double lambda = relative_slenderness(
            millimetres(1500), std::min(part.width, part.depth), timber.f_c_0_k, timber.E_0_05);
        rise[4](buckling_factor(lambda, f.beta_c, tables()) * side.b * side.h);
      }
    }
  }
}

TEST_CASE("check/formula_laws: a load that lasts longer is never borne better (Table 3.1)") {
  for (const reference::MaterialFactors& factors : tables().materials) {
    for (const ServiceClass air : all_airs) {
      Rising rise;
      for (const Duration duration : all_durations) {
        const OrWhy<double> k = k_mod(factors.material, air, duration, tables());
        if (k) rise(*k);
      }
    }
  }
}

TEST_CASE("check/formula_laws: damper air is never better, and creeps no less (Tables 3.1, 3.2)") {
  for (const reference::MaterialFactors& factors : tables().materials) {
    CAPTURE(to_text(factors.material));
    for (const Duration duration : all_durations) {
      Rising rise;
      for (const ServiceClass air : all_airs) {
        const OrWhy<double> k = k_mod(factors.material, air, duration, tables());
        if (k) rise(-*k);
      }
    }
    Rising creep;
    for (const ServiceClass air : all_airs) {
      if (const auto k_def = factors.k_def_in(air)) creep(k_def->value);
    }
  }
}

TEST_CASE("check/formula_laws: more stress is never a smaller ratio") {
  const Strengths f = *strengths(part_of(tables().timbers.front(), {45, 95}), ServiceClass::sc2,
                                 Duration::permanent, tables());
  const AboutAxes<std::optional<double>> k_c{0.6, 0.4};
  std::array<Rising, 4> rise;
  for (double load = 0.0; load < 3.0; load += 0.05) {
    const AboutAxes<Stress> sigma_m{pascals(load * 4e6), pascals(-load * 2e6)};
    const Stress sigma = pascals(load * 3e6);
    rise[0](bending_ratio(sigma_m, f.f_m, f.k_m));
    rise[1](bending_tension_ratio(sigma_m, sigma, f));
    rise[2](bending_compression_ratio(sigma_m, -sigma, f));
    rise[3](column_ratio(sigma_m, sigma, f, k_c));
  }
}

}  // namespace formula_laws_test
