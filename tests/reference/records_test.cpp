// Every record is in a plausible band and agrees with its neighbours. Units and sources were tested
// by loading: a value without either does not load.

#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>
#include <string>

#include "standtrue/reference/tables.hpp"
#include "tests/reference/bands.hpp"

namespace records_test {

using namespace standtrue;
using namespace standtrue::tests;

TEST_CASE("reference/records: values from memory may only become fewer") {
  std::array<int, 5> count{};
  for (const Row& row : listing(tables())) {
    for (std::size_t i = 0; i < count.size(); ++i) count[i] += row.by_status[i];
  }
  const int from_memory = count[static_cast<std::size_t>(Status::from_memory)];
  const int present = 240;  // lower it when pages have been opened; never raise it
  CHECK(from_memory <= present);
  CHECK_MESSAGE(from_memory == present, "fewer than stated: write the new count here");
}

TEST_CASE("reference/records: every row says something and where it is from") {
  for (const Row& row : listing(tables())) {
    CAPTURE(row.group);
    CAPTURE(row.key);
    CHECK(!row.key.empty());
    if (row.group == "sources") continue;
    CHECK(!row.source.empty());
    CHECK(row.source != "ours");
    if (row.group == "panel family" || row.group == "scatter") continue;
    CHECK(std::accumulate(row.by_status.begin(), row.by_status.end(), 0) > 0);
  }
}

TEST_CASE("reference/records: every listed document is cited, none twice") {
  for (const SourceRecord& source : tables().sources) {
    CAPTURE(source.key);
    CHECK(!source.title.empty());
    CHECK(!source.edition.empty());
    CHECK(!source.read.empty());
    CHECK(std::any_of(tables().rows.begin(), tables().rows.end(), [&](const Row& row) {
      return row.group != "sources" && row.source.find(source.key) != std::string::npos;
    }));
    CHECK(std::count_if(tables().sources.begin(), tables().sources.end(),
                        [&](const SourceRecord& other) { return other.key == source.key; }) == 1);
  }
}

TEST_CASE("reference/records: sections and sizes are those of benches") {
  for (const Section& s : tables().sections) {
    CAPTURE(s.key);
    CHECK(mm_between(s.thickness, 15, 150));
    CHECK(mm_between(s.depth, 30, 300));
    CHECK(s.thickness <= s.depth);
    CHECK(!s.family.empty());
  }
  for (const Tolerance& t : tables().tolerances) {
    CHECK(mm_between(t.below, 0.5, 3));
    CHECK(mm_between(t.above, 0.5, 5));
  }
  for (const StockLength& s : tables().stock_lengths) CHECK(mm_between(s.length, 1000, 7000));
  for (const SheetSize& s : tables().sheet_sizes) {
    CHECK(mm_between(s.width, 1000, 1600));
    CHECK(s.width <= s.length);
  }
}

TEST_CASE("reference/records: screws grow with their diameter and hold the ranges of EN 1995-1-1") {
  const Screw* below = nullptr;
  for (const Screw& s : tables().screws) {
    CAPTURE(s.key);
    CHECK(s.root < s.shank);
    CHECK(s.shank < s.diameter);
    CHECK(in_si(s.root) / in_si(s.diameter) >= 0.6);
    CHECK(in_si(s.root) / in_si(s.diameter) <= 0.75);
    CHECK(in_si(s.head) / in_si(s.diameter) == doctest::Approx(2.0).epsilon(0.1));
    // The tearing force belongs to hardened steel of 700 to 1200 N/mm2 on the root.
    const double area = 3.14159265358979 / 4.0 * in_si(s.root) * in_si(s.root);
    CHECK(in_si(s.f_tens_k) / area > 700e6);
    CHECK(in_si(s.f_tens_k) / area < 1200e6);
    CHECK(mpa_between(s.f_ax_k, 8, 16));
    CHECK(mpa_between(s.f_head_k, 6, 20));
    CHECK(!s.lengths.empty());
    CHECK(std::is_sorted(s.lengths.begin(), s.lengths.end()));
    if (below != nullptr) {
      CHECK(s.M_y_k > below->M_y_k);
      CHECK(s.f_tens_k > below->f_tens_k);
    }
    below = &s;
  }
}

TEST_CASE("reference/records: threads agree with their standard's formulas") {
  // ISO 724 and EN ISO 898-1: pitch P, root d3 = d - 1.22687 P, stress diameter d - 0.9382 P.
  const auto agrees = [](double d, double root, double area) {
    const double pitch = (d - root) / 1.22687;
    const double stress_diameter = d - 0.9382 * pitch;
    CHECK(area ==
          doctest::Approx(3.14159265358979 / 4 * stress_diameter * stress_diameter).epsilon(0.003));
  };
  for (const Bolt& b : tables().bolts) {
    CAPTURE(b.key);
    agrees(in_si(b.diameter), in_si(b.root), in_si(b.stress_area));
    CHECK(in_si(b.washer) >= 3.0 * in_si(b.diameter));  // EN 1995-1-1, 10.4.3
    CHECK(in_si(b.washer_thickness) >= 0.3 * in_si(b.diameter) * 0.99);
  }
  for (const Foot& f : tables().feet) {
    CAPTURE(f.key);
    agrees(in_si(f.diameter), in_si(f.root), in_si(f.stress_area));
    CHECK(f.plastic_rating < f.steel_rating);
    CHECK(in_si(f.steel_rating) < in_si(f.stress_area) * in_si(f.f_y));
    CHECK(mm_between(f.pad, 30, 120));
    CHECK(f.insert_flange > f.insert_barrel);
    CHECK(f.insert_barrel > f.diameter);
  }
  for (const Steel& s : tables().steels) {
    CHECK(mpa_between(s.f_y, 200, 1000));
    CHECK(s.f_u > s.f_y);
    CHECK(mpa_between(s.E, 200000, 215000));
  }
  for (const Castor& c : tables().castors) {
    CHECK(c.height > c.wheel);
    CHECK(between(c.rating, 200, 2000));
  }
}

TEST_CASE("reference/records: joints have a band and the parts that their kind needs") {
  for (const JointKind& j : tables().joint_kinds) {
    CAPTURE(j.key);
    if (j.fastening != Fastening::none) {
      CHECK(rising(j.bend));
      CHECK(between(j.bend.mean, 0.1e3, 100e3));
    } else {
      CHECK(in_si(j.bend.stiff) == 0.0);
    }
    if (j.fastening == Fastening::bracket) {
      CHECK(tables().steel(j.plate_steel) != nullptr);
      CHECK(mm_between(j.thickness, 1, 5));
      CHECK(j.first + j.pitch < j.leg);
    }
    if (j.fastening == Fastening::bolts) {
      CHECK(tables().steel(j.bolt_steel) != nullptr);
      CHECK(tables().bolt(j.fastener_diameter) != nullptr);
    }
    if (j.fastening == Fastening::gusset) {
      CHECK(tables().panel(j.gusset_family, j.thickness) != nullptr);
    }
    if (j.fastening == Fastening::bracket || j.fastening == Fastening::gusset ||
        j.fastening == Fastening::end_grain_screws) {
      const Screw* screw = tables().screw(j.fastener_diameter);
      REQUIRE(screw != nullptr);
      CHECK(std::find(screw->lengths.begin(), screw->lengths.end(), j.fastener_length) !=
            screw->lengths.end());
      CHECK(j.fasteners > 0);
      CHECK(in_si(j.radius) > 0.0);
    }
  }
}

TEST_CASE("reference/records: floors hold and rub within the tables of friction") {
  for (const Floor& f : tables().floors) {
    CAPTURE(f.key);
    CHECK(rising(f.contact));
    CHECK(between(f.contact.mean, 0.5e6, 100e6));
    CHECK(between(f.foot_load, 1000, 10000));
    for (const FootMaterial foot :
         {FootMaterial::rubber, FootMaterial::plastic, FootMaterial::steel, FootMaterial::timber}) {
      CHECK(f.friction(foot) >= 0.15);
      CHECK(f.friction(foot) <= 0.85);
    }
  }
}

TEST_CASE("reference/records: machines are of a size that stands on a bench") {
  for (const Machine& m : tables().machines) {
    CAPTURE(m.key);
    CHECK(m.mass_min <= m.mass);
    CHECK(m.mass <= m.mass_max);
    CHECK(between(m.mass, 5, 300));
    CHECK(mm_between(m.pads_length, 80, 1200));
    CHECK(mm_between(m.pads_depth, 80, 500));
    CHECK(m.pads == 4);
    CHECK(mm_between(m.pad, 20, 100));
    CHECK(m.cg_height < m.height);
    CHECK(m.speed_min <= m.speed_max);
    CHECK(m.unbalanced_to <= m.speed_max);
    CHECK(between(m.speed_max, 0, 6000.0 / 60.0));
    CHECK((m.drive == Drive::hand) == (in_si(m.speed_max) == 0.0 && m.key != "machine"));
    CHECK(rising(m.bed_twist));
    CHECK(!m.advice.empty());
    // A fast, heavy unbalance would shake any bench: at its fastest under 1 kN.
    const double w = 2.0 * 3.14159265358979 * in_si(m.unbalanced_to);
    CHECK(in_si(m.rotating) * in_si(m.eccentricity) * w * w < 1000.0);
  }
}

TEST_CASE("reference/records: factors are complete and fall with time and wet") {
  CHECK(tables().materials.size() == material_count);
  for (const MaterialFactors& m : tables().materials) {
    CAPTURE(to_text(m.material));
    CHECK(m.gamma_M.value >= 1.2);
    CHECK(m.gamma_M.value <= 1.35);
    CHECK(m.k_cr.value > 0.5);
    CHECK(m.k_cr.value <= 1.0);
    CHECK(m.k_def[0].has_value());
    for (std::size_t sc = 0; sc < 3; ++sc) {
      const auto& k_mod = m.k_mod[sc];
      CHECK(m.k_def[sc].has_value() == k_mod[0].has_value());
      for (std::size_t i = 0; i < 5; ++i) {
        if (!k_mod[i]) continue;
        CHECK(*k_mod[i] >= 0.2);
        CHECK(*k_mod[i] <= 1.1);
        if (i > 0) CHECK(*k_mod[i] > *k_mod[i - 1]);
        if (sc > 0) CHECK(*k_mod[i] <= *m.k_mod[sc - 1][i]);
      }
      if (sc > 0 && m.k_def[sc]) CHECK(*m.k_def[sc] > *m.k_def[sc - 1]);
    }
  }
  for (const PanelFamily& family : tables().panel_families) {
    CAPTURE(family.key);
    const auto sc = static_cast<std::size_t>(family.wettest);
    CHECK(tables().material(family.material).k_mod[sc][0].has_value());
  }
  for (const Timber& t : tables().timbers) CHECK(tables().material(t.material).gamma_M.value > 1);
  for (const BearingFactor& b : tables().bearing_factors) {
    CHECK(b.k_c_90 >= 1.0);
    CHECK(b.k_c_90 <= 1.75);
  }
}

TEST_CASE("reference/records: spacings are a few diameters and predrilling lets them be less") {
  for (const SpacingRule& s : tables().spacing_rules) {
    CAPTURE(s.key);
    CHECK(s.a1 >= 3);
    CHECK(s.a1 + s.a1_cos <= 15);
    CHECK(s.a2 >= 3);
    CHECK(s.a3t + s.a3t_cos <= 20);
    CHECK(s.a4c >= 3);
  }
  CHECK(tables().spacing_rule("screws, predrilled").a1 < tables().spacing_rule("screws").a1);
  CHECK(tables().spacing_rule("screws, dense").a3c > tables().spacing_rule("screws").a3c);
}

TEST_CASE("reference/records: loads have an effect, a duration and a known combination") {
  for (const Load& l : tables().loads) {
    CAPTURE(l.key);
    const bool has_own_weight = l.key == "self weight";
    CHECK((has_own_weight || in_si(l.down) > 0 || in_si(l.sideways) > 0 || in_si(l.spread) > 0 ||
           l.share > 0));
    CHECK(l.strength >= 1.0);
    CHECK(l.strength <= 1.5);
    CHECK(l.tipping >= 1.0);
    CHECK(l.favourable <= 1.0);
    if (!l.combination.empty()) CHECK(tables().combination(l.combination).psi_0 <= 1.0);
    if (l.key.ends_with("test")) CHECK(l.strength == 1.0);
  }
  CHECK(in_si(tables().load("stored on shelf").spread) == doctest::Approx(50 * 9.80665));
  CHECK(in_si(tables().load("disc test").down) == doctest::Approx(128.2 * 9.80665).epsilon(1e-3));
}

TEST_CASE("reference/records: every limit is set, has a source, and stands in its order") {
  const Limits& l = tables().limits;
  const auto set = [](const auto& sourced) {
    CHECK(in_si(sourced.value) > 0.0);
    CHECK(!sourced.source.where.empty());
  };
  const auto set_number = [](const Sourced<double>& sourced) {
    CHECK(sourced.value > 0.0);
    CHECK(!sourced.source.where.empty());
  };
  for (const Sourced<double>& number :
       {l.sag_permanent, l.sag_final, l.sag_good, l.overhang, l.tipping, l.sliding,
        l.height_to_depth, l.buckling, l.lean, l.bed_twist, l.bed_twist_good, l.vibration_good,
        l.vibration, l.vibration_stop, l.resonance_from, l.resonance_to, l.damping_low,
        l.damping_high, l.one_foot_share}) {
    set_number(number);
  }
  for (const Sourced<quantity::Length>& length :
       {l.sag_least, l.overhang_least, l.unevenness, l.unevenness_levelled, l.free_stem, l.disc_sag,
        l.knock_low, l.knock_low_height, l.knock_high, l.knock_high_height, l.rack_set}) {
    set(length);
  }
  set(l.sway_firm);
  set(l.sway_little);
  set(l.sway_rocks);
  set(l.vibration_slowest);
  set(l.knock_energy);

  CHECK(l.sag_good.value < l.sag_permanent.value);
  CHECK(l.sag_permanent.value < l.sag_final.value);
  CHECK(l.sag_final.value < l.overhang.value);
  CHECK(l.sway_rocks.value < l.sway_little.value);
  CHECK(l.sway_little.value < l.sway_firm.value);
  CHECK(l.bed_twist.value == doctest::Approx(4e-5));
  CHECK(l.bed_twist_good.value < l.bed_twist.value);
  CHECK(l.vibration_good.value < l.vibration.value);
  CHECK(l.vibration.value < l.vibration_stop.value);
  CHECK(l.resonance_from.value < 1.0);
  CHECK(l.resonance_to.value > 1.0);
  CHECK(in_si(l.vibration_slowest.value) == doctest::Approx(10.0));
  for (const Duty& d : tables().duties) {
    CHECK(d.sway >= l.sway_rocks.value);
    CHECK(d.sway <= l.sway_firm.value);
  }
}

TEST_CASE("reference/records: factors that two places state are the same number") {
  CHECK(tables().load("self weight").strength == tables().constant("gamma_G").value);
  CHECK(tables().load("self weight").tipping_favourable ==
        tables().constant("gamma_G tipping favourable").value);
  CHECK(tables().load("lean").strength == tables().constant("gamma_Q").value);
  CHECK(tables().limits.tipping.value == tables().constant("gamma_Q tipping").value);
}

TEST_CASE("reference/records: scatter and correlation make a valid pair of tables") {
  for (const Scatter& s : tables().scatters) {
    CHECK(s.cov > 0.0);
    CHECK(s.cov < 1.0);
  }
  // The three correlations together: determinant of the 3 x 3 matrix is positive.
  const double a = tables().correlation("f_m, E").rho, b = tables().correlation("f_m, rho").rho,
               c = tables().correlation("E, rho").rho;
  CHECK(1.0 + 2.0 * a * b * c - a * a - b * b - c * c > 0.0);
}

}  // namespace records_test
