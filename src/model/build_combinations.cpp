#include <fmt/format.h>

#include "model/combining.hpp"

namespace standtrue::model {

using quantity::in_si;

namespace {

void strength(Combining& make) {
  const double G = make.load("self weight").strength;
  const double G_helps = make.load("self weight").favourable;
  const double Q = make.load("stored on shelf").strength;
  const double run = make.load("machine running, motor").strength;
  {
    Combination c = make.start("strength-permanent", "bench and machines, for years",
                               Purpose::strength, Leading::permanent, Duration::permanent);
    make.bench(c, G);
    make.machines(c, G, 0.0);
    make.added(c, G, Duration::permanent);
    make.keep(c);
  }
  {
    Combination c = make.start("strength-stored", "and what is stored", Purpose::strength,
                               Leading::stored, Duration::long_term);
    make.bench(c, G);
    make.machines(c, G, 0.0);
    make.stored(c, Q);
    make.added(c, Q, Duration::long_term);
    make.keep(c);
  }
  // What lasts, on a frame that was not built plumb; each way in which it may stand.
  const bool is_stored = !make.parts().stored_cases.empty() || make.has_added(Duration::long_term);
  for (const Askew& way : make.askew()) {
    Combination c = make.start(fmt::format("strength-askew-{}", way.name),
                               fmt::format("built out of plumb, to the {}", way.name),
                               Purpose::strength, is_stored ? Leading::stored : Leading::permanent,
                               is_stored ? Duration::long_term : Duration::permanent);
    c.second_order = true;
    c.springs = SpringSet::sway;
    c.lean = way.lean;
    make.bench(c, G);
    make.machines(c, G, 0.0);
    make.stored(c, Q);
    make.added(c, Q, Duration::long_term);
    make.keep(c);
  }
  for (const Duration duration : {Duration::medium_term, Duration::short_term}) {
    if (!make.has_added(duration)) continue;
    const bool is_medium = duration == Duration::medium_term;
    Combination c = make.start(is_medium ? "strength-added-medium" : "strength-added",
                               "and the added loads", Purpose::strength, Leading::stored, duration);
    make.bench(c, G);
    make.machines(c, G, is_medium ? 0.0 : run);
    make.stored(c, Q);
    make.added(c, Q, duration);
    make.keep(c);
  }
  for (std::size_t p = 0; p < make.parts().persons.size(); ++p) {
    const PersonPlace& place = make.parts().persons[p];
    const reference::Load& stand = make.load("stand");
    Combination c =
        make.start("strength-stand-" + slug(place.name), "and somebody stands: " + place.name,
                   Purpose::strength, Leading::stand, Duration::short_term);
    c.place = p;
    make.bench(c, G);
    make.machines(c, G, run);
    make.stored(c, Q);
    make.added(c, Q, Duration::short_term);
    const double down = in_si(stand.down) / 1e3;
    c.terms.push_back({place.load_case, stand.strength * down, down});
    c.lean = make.askew_towards(place);
    make.keep(c);
  }
  for (std::size_t s = 0; s < make.parts().shoves.size(); ++s) {
    const ShovePlace& place = make.parts().shoves[s];
    for (const double sense : {1.0, -1.0}) {
      const char* to = sense > 0 ? "forth" : "back";
      const auto shove = [&](const char* kind, const char* key, bool laden) {
        const reference::Load& load = make.load(key);
        const bool once = load.strength == 1.0;
        Combination c = make.start(
            fmt::format("strength-{}-{}-{}", kind, slug(place.name), to),
            fmt::format("and a {:.0f} N shove {}, {}{}", in_si(load.sideways), place.towards(sense),
                        place.name, laden ? "" : ", nothing on it"),
            Purpose::strength, once ? Leading::strong_shove : Leading::shove,
            Duration::instantaneous);
        c.place = s;
        c.springs = SpringSet::sway;
        make.bench(c, laden && !once ? G : G_helps);
        if (laden) {
          make.machines(c, once ? 1.0 : G, once ? 0.0 : run);
          make.stored(c, once ? 1.0 : Q);
          make.added(c, once ? 1.0 : Q, Duration::instantaneous);
        }
        c.terms.push_back({place.case_of(sense), sense * load.strength * in_si(load.sideways)});
        c.limited = c.terms.size() - 1;
        // Counts where the frame is soft enough for second order.
        c.lean = make.askew(place.way, sense);
        make.keep(c);
      };
      shove("shove", "shove", true);
      shove("shove-light", "shove", false);
      shove("shove-once", "shove once", true);
    }
  }
}

void service(Combining& make) {
  const auto at_rest = [&](Combination& c) {
    make.bench(c, 1.0);
    make.machines(c, 1.0, 0.0);
  };
  {
    Combination c = make.start("service-permanent", "bench and machines", Purpose::service,
                               Leading::permanent, Duration::permanent);
    at_rest(c);
    make.added(c, 1.0, Duration::permanent);
    make.keep(c);
  }
  {
    Combination c = make.start("service-stored", "and what is stored", Purpose::service,
                               Leading::stored, Duration::long_term);
    at_rest(c);
    make.stored(c, 1.0);
    make.added(c, 1.0, Duration::long_term);
    make.keep(c);
  }
  {
    if (make.has_added(Duration::medium_term) || make.has_added(Duration::short_term)) {
      Combination all = make.start("service-added", "and the added loads", Purpose::service,
                                   Leading::stored, Duration::short_term);
      at_rest(all);
      make.stored(all, 1.0);
      make.added(all, 1.0, Duration::short_term);
      make.keep(all);
    }
    // Read with the stiffness after creep. Only the share psi_2 of what is stored creeps; the rest
    // moves once: on the creeping model it counts 1/(1 + k_def).
    const double psi_2 = make.work().tables.combination("storage").psi_2;
    const double creep = 1.0 + make.work().k_def(reference::Material::solid_timber);
    Combination c = make.start("final", "after years, with creep", Purpose::service,
                               Leading::stored, Duration::long_term);
    at_rest(c);
    make.stored(c, psi_2 + (1.0 - psi_2) / creep);
    make.added(c, 1.0, Duration::long_term);
    make.keep(c);
  }
  for (std::size_t p = 0; p < make.parts().persons.size(); ++p) {
    const PersonPlace& place = make.parts().persons[p];
    Combination c =
        make.start("service-lean-" + slug(place.name), "and somebody leans: " + place.name,
                   Purpose::service, Leading::lean, Duration::short_term);
    c.place = p;
    at_rest(c);
    make.stored(c, 1.0);
    make.added(c, 1.0, Duration::short_term);
    c.terms.push_back({place.load_case, in_si(make.load("lean").down) / 1e3});
    make.keep(c);
  }
  {
    Combination c = make.start("sway-rest", "bench and machines, before a shove", Purpose::sway,
                               Leading::permanent, Duration::permanent);
    c.springs = SpringSet::sway;
    at_rest(c);
    make.stored(c, 1.0);
    make.added(c, 1.0, Duration::long_term);
    make.keep(c);
  }
  for (std::size_t s = 0; s < make.parts().shoves.size(); ++s) {
    const ShovePlace& place = make.parts().shoves[s];
    for (const double sense : {1.0, -1.0}) {
      Combination c = make.start(
          fmt::format("service-shove-{}-{}", slug(place.name), sense > 0 ? "forth" : "back"),
          fmt::format("a shove in use {}, {}", place.towards(sense), place.name), Purpose::service,
          Leading::shove, Duration::instantaneous);
      c.place = s;
      c.springs = SpringSet::sway;
      at_rest(c);
      make.stored(c, 1.0);
      make.added(c, 1.0, Duration::long_term);
      c.terms.push_back({place.case_of(sense), sense * in_si(make.load("shove in use").sideways)});
      c.limited = c.terms.size() - 1;
      make.keep(c);
    }
  }
}

}  // namespace

void build_combinations(Idealising& work) {
  Combining make(work);
  if (work.bench.analysis.as_given) {
    Combination c = make.start("as-given", "all loads as given, no factors", Purpose::as_given,
                               Leading::permanent, Duration::permanent);
    make.bench(c, 1.0);
    make.machines(c, 1.0, 0.0);
    make.stored(c, 1.0);
    make.added(c, 1.0, Duration::instantaneous);
    make.keep(c);
  }
  strength(make);
  if (work.bench.rules == bench::Rules::allowable_stress) build_allowable(make);
  service(make);
  build_test_combinations(work);
}

}  // namespace standtrue::model
