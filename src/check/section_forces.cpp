// Doubles in SI base units until they become quantities.
#include "check/section_forces.hpp"

#include <algorithm>
#include <array>

#include "standtrue/contract.hpp"

namespace standtrue::check {

namespace {

using solve::Diagram;

/// All forces at a place; of the left piece where two meet and `from_left`.
Station cut(const solve::MemberDiagrams& d, double x, bool from_left) {
  using quantity::newton_metres;
  using quantity::newtons;
  return {quantity::metres(x),
          newtons(d.N.at(x, from_left)),
          newtons(d.V_y.at(x, from_left)),
          newtons(d.V_z.at(x, from_left)),
          newton_metres(d.T.at(x, from_left)),
          newton_metres(d.M_y.at(x, from_left)),
          newton_metres(d.M_z.at(x, from_left))};
}

struct Place {
  double x = 0.0;
  bool from_left = false;
  bool operator<(const Place& other) const {
    return x < other.x || (x == other.x && from_left && !other.from_left);
  }
  bool operator==(const Place& other) const { return x == other.x && from_left == other.from_left; }
};

/// Ends of pieces from both sides, and where V_z or V_y vanishes inside a piece: there M_y or M_z
/// is extreme. N, V_y and V_z have no extreme inside but where a line load changes its sign.
std::vector<Place> places(const solve::MemberDiagrams& d) {
  std::vector<Place> found;
  const std::vector<Diagram::Piece>& pieces = d.V_z.pieces();
  found.push_back({pieces.front().from, false});
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    const double length = pieces[i].to - pieces[i].from;
    const auto add = [&](const std::array<double, Diagram::terms>& c) {
      for (const double t : solve::roots_within(c, length)) {
        found.push_back({pieces[i].from + t, false});
      }
    };
    for (const Diagram* force : {&d.V_z, &d.V_y, &d.N}) {
      const std::array<double, Diagram::terms>& c = force->pieces()[i].c;
      if (force != &d.N) add(c);
      add({c[1], 2.0 * c[2], 3.0 * c[3]});
    }
    found.push_back({pieces[i].to, true});
    if (i + 1 < pieces.size()) found.push_back({pieces[i].to, false});
  }
  std::sort(found.begin(), found.end());
  found.erase(std::unique(found.begin(), found.end()), found.end());
  return found;
}

bool is_judged(const model::Combination& combination, bench::Rules rules) {
  if (rules == bench::Rules::allowable_stress) {
    return combination.purpose == model::Purpose::allowable;
  }
  return combination.purpose == model::Purpose::strength ||
         combination.purpose == model::Purpose::as_given;
}

}  // namespace

SectionForces::SectionForces(const Answers& answers, bench::Rules rules)
    : SectionForces(answers, [rules](const model::Combination& combination) {
        return is_judged(combination, rules);
      }) {}

SectionForces::SectionForces(const Answers& answers, const Wanted& wanted)
    : members_(answers.model.members.size()) {
  const model::Model& model = answers.model;
  expects(answers.response.states.size() == model.combinations.size(),
          "SectionForces: response of another model");
  ranges_.resize(model.combinations.size() * members_);
  for (std::size_t c = 0; c < model.combinations.size(); ++c) {
    if (!wanted(model.combinations[c])) continue;
    if (!answers.response.states[c]) {
      refused_.push_back(c);
      continue;
    }
    combinations_.push_back(c);
    for (std::size_t m = 0; m < members_; ++m) {
      const solve::MemberDiagrams d = solve::force_diagrams(answers.response, c, m);
      Range& range = ranges_[c * members_ + m];
      range.from = stations_.size();
      for (const Place& place : places(d)) {
        stations_.push_back(cut(d, place.x, place.from_left));
      }
      range.to = stations_.size();
    }
  }
}

std::span<const Station> SectionForces::of(model::MemberId member, std::size_t combination) const {
  const Range& range = ranges_.at(combination * members_ + member);
  return std::span<const Station>(stations_).subspan(range.from, range.to - range.from);
}

}  // namespace standtrue::check
