#include <fmt/format.h>

#include "model/combining.hpp"

namespace standtrue::model {

using quantity::in_si;

namespace {

Combination start(const Combining& make, std::string name, std::string title, Leading leading,
                  Duration duration) {
  return make.start("allowable-" + std::move(name), std::move(title), Purpose::allowable, leading,
                    duration);
}

void lasting(Combining& make) {
  Combination c = start(make, "permanent", "bench and machines, for years", Leading::permanent,
                        Duration::permanent);
  make.bench(c, 1.0);
  make.machines(c, 1.0, 0.0);
  make.added(c, 1.0, Duration::permanent);
  make.keep(c);
  c = start(make, "stored", "and what is stored", Leading::stored, Duration::long_term);
  make.bench(c, 1.0);
  make.machines(c, 1.0, 0.0);
  make.stored(c, 1.0);
  make.added(c, 1.0, Duration::long_term);
  make.keep(c);
  for (const Duration duration : {Duration::medium_term, Duration::short_term}) {
    if (!make.has_added(duration)) continue;
    const bool is_medium = duration == Duration::medium_term;
    c = start(make, is_medium ? "added-medium" : "added", "and the added loads", Leading::stored,
              duration);
    make.bench(c, 1.0);
    make.machines(c, 1.0, is_medium ? 0.0 : 1.0);
    make.stored(c, 1.0);
    make.added(c, 1.0, duration);
    make.keep(c);
  }
}

void people(Combining& make) {
  for (std::size_t p = 0; p < make.parts().persons.size(); ++p) {
    const PersonPlace& place = make.parts().persons[p];
    Combination c = start(make, "stand-" + slug(place.name), "and somebody stands: " + place.name,
                          Leading::stand, Duration::short_term);
    c.place = p;
    make.bench(c, 1.0);
    make.machines(c, 1.0, 1.0);
    make.stored(c, 1.0);
    make.added(c, 1.0, Duration::short_term);
    c.terms.push_back({place.load_case, in_si(make.load("stand").down) / 1e3});
    c.lean = make.askew_towards(place);
    make.keep(c);
  }
}

struct Shove {
  const char* name;
  const char* load;
  bool laden;
};

void shove(Combining& make, std::size_t s, double sense, const Shove& kind) {
  const ShovePlace& place = make.parts().shoves[s];
  const reference::Load& load = make.load(kind.load);
  const bool once = load.strength == 1.0;
  const char* to = sense > 0 ? "forth" : "back";
  Combination c =
      start(make, fmt::format("{}-{}-{}", kind.name, slug(place.name), to),
            fmt::format("and a {:.0f} N shove {}, {}{}", in_si(load.sideways), place.towards(sense),
                        place.name, kind.laden ? "" : ", nothing on it"),
            once ? Leading::strong_shove : Leading::shove, Duration::instantaneous);
  c.place = s;
  c.springs = SpringSet::sway;
  make.bench(c, 1.0);
  if (kind.laden) {
    make.machines(c, 1.0, once ? 0.0 : 1.0);
    make.stored(c, 1.0);
    make.added(c, 1.0, Duration::instantaneous);
  }
  c.terms.push_back({place.case_of(sense), sense * in_si(load.sideways)});
  c.limited = c.terms.size() - 1;
  c.lean = make.askew(place.way, sense);
  make.keep(c);
}

}  // namespace

void build_allowable(Combining& make) {
  lasting(make);
  people(make);
  for (std::size_t s = 0; s < make.parts().shoves.size(); ++s) {
    for (const double sense : {1.0, -1.0}) {
      shove(make, s, sense, {"shove", "shove", true});
      shove(make, s, sense, {"shove-light", "shove", false});
      shove(make, s, sense, {"shove-once", "shove once", true});
    }
  }
}

}  // namespace standtrue::model
