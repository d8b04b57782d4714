// All numbers SI (m, N, rad).
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "check/answered.hpp"
#include "check/bed.hpp"
#include "check/printer.hpp"
#include "standtrue/check/is_worse.hpp"

namespace standtrue::check {

namespace {

/// Twist of the bare top under the pads, and of the bed that follows it.
struct Twist {
  double bare = 0.0, bed = 0.0;
};

/// With somebody leaning, and how much that changes.
struct Leaned {
  Twist twist, change;
  std::size_t combination = 0;
  std::optional<double> carried;  ///< of the bed's change, by the rails and bearers alone
};

/// A bed with its numbers.
struct Bed {
  const model::Model& model;
  const PlateAnswers& plates;
  const model::BedPlace& place;
  const bench::Machine& machine;
  BedShare share;
  Printer print;

  [[nodiscard]] double kappa() const { return place.stiffness / (place.breadth * place.breadth); }
  [[nodiscard]] Twist twist_of(double q) const {
    const double seen = q / place.breadth;
    return place.in_model ? Twist{seen / share.share, seen} : Twist{seen, seen * share.share};
  }
  [[nodiscard]] Twist twist(const PlateAnswers::View& view) const {
    return twist_of(warp_of(place, view.plate, view.movements, view.column));
  }
  [[nodiscard]] std::string where(std::size_t combination) const {
    const std::optional<std::size_t> person = model.combinations[combination].place;
    return person ? model.parts.persons.at(*person).name : model.combinations[combination].title;
  }
};

/// What the carriers alone would twist the bed by. A bed in the model has pushed them back already,
/// with k q/b²: that is taken off.
std::optional<double> carried(const Bed& bed, const Carriers& carriers,
                              const PlateAnswers::View& view) {
  std::optional<double> q = carried_warp_of(bed.place, carriers, view);
  if (!q) return std::nullopt;
  if (bed.place.in_model) {
    *q += *bed.share.of_carriers * bed.kappa() *
          warp_of(bed.place, view.plate, view.movements, view.column);
  }
  return *q * bed.share.share / bed.place.breadth;
}

std::vector<Leaned> all_leans(const Bed& bed, const PlateAnswers::View& rest) {
  std::vector<Leaned> leans;
  const Twist before = bed.twist(rest);
  const Carriers carriers(bed.model, bed.place.plate);
  const std::optional<double> carried_before = carried(bed, carriers, rest);
  for (const PlateAnswers::View& view : bed.plates.of(bed.place.plate, is_leaned_on)) {
    const Twist now = bed.twist(view);
    Leaned lean{now, {now.bare - before.bare, now.bed - before.bed}, view.combination, {}};
    if (carried_before) lean.carried = *carried(bed, carriers, view) - *carried_before;
    leans.push_back(lean);
  }
  return leans;
}

const Leaned& worst_lean(const std::vector<Leaned>& leans) {
  constexpr double small = 1e-6;  // radians: a micrometre in a metre
  const Leaned* worst = &leans.front();
  for (const Leaned& lean : leans) {
    if (is_worse(std::abs(lean.change.bed), std::abs(worst->change.bed), small)) worst = &lean;
  }
  return *worst;
}

/// What the lightest pad of a standing machine still presses with when the bed is twisted so far
/// beyond what it was levelled at; negative where the bed would rather lift it.
double lightest_pad(const Bed& bed, double change) {
  const auto& weights =
      bed.model.cases[bed.model.parts.machine_cases.at(bed.place.machine)].patch_loads;
  double least = 0.0, sign = 1.0;
  for (std::size_t p = 0; p < weights.size(); ++p) {
    // The bed pushes down what moved up.
    const double press = -weights[p].force[2] + sign * bed.kappa() * bed.place.breadth * change;
    if (p == 0 || press < least) least = press;
    sign = -sign;
  }
  return least;
}

std::string mounting_line(const Bed& bed, double change) {
  if (bed.place.in_model) return "bolted down: the bed is part of the model";
  if (bed.machine.bolted) return "bolted down; its bed is reckoned by the formula";
  const double least = lightest_pad(bed, change);
  if (least > 0.0) {
    return fmt::format(
        "it stands, and its bed follows as if bolted down: its lightest pad still presses with {}",
        bed.print.force(least));
  }
  return fmt::format(
      "judged as if bolted down; as it only stands, a pad lifts before that ({} short): the bed "
      "twists less, and rocks",
      bed.print.force(-least));
}

std::string leans_line(const Bed& bed, const std::vector<Leaned>& leans) {
  std::string line;
  for (const Leaned& lean : leans) {
    line += (line.empty() ? "leaning on the " : "; ") + bed.where(lean.combination) + ": " +
            bed.print.level(lean.change.bed);
  }
  return line;
}

std::string feet_line(const Bed& bed, const std::vector<FootTurn>& feet) {
  std::string line;
  for (const FootTurn& turn : feet) {
    if (turn.machine != bed.place.machine) continue;
    line += line.empty()
                ? fmt::format("a foot set {} higher twists the bed by: ", bed.print.length(1e-3))
                : ", ";
    line += bed.model.parts.feet[turn.foot].name + " ";
    if (!turn.presses) {
      line += "nothing (it hangs in the air)";
      continue;
    }
    line += bed.print.level(1e-3 * turn.per_metre);
    if (turn.lifts_another) line += " (until another foot lifts)";
  }
  return line;
}

void add_working(Finding& f, const Bed& bed, const Twist& rest, const std::vector<Leaned>& leans,
                 const std::vector<FootTurn>& feet, const reference::Limits& limits) {
  const Printer& print = bed.print;
  const Leaned& worst = worst_lean(leans);
  f.working.push_back(fmt::format(
      "twist = (w1 - w2 + w3 - w4)/b, pads in turn from the front left, b = {}; more than 0: its "
      "{} end leans to the {} against the other",
      print.length(bed.place.breadth), bed.place.along_x ? "right" : "back",
      bed.place.along_x ? "front" : "left"));
  f.working.push_back(fmt::format(
      "the bare top would twist {} at rest, {} leaned on; the bed takes 1/(1 + k G/b^2) = {:.2g} "
      "of it: k = {}{}, 1/G = {}",
      print.level(rest.bare), print.level(worst.twist.bare), bed.share.share,
      quantity::print(bed.place.stiffness, quantity::Kind::rotational_stiffness,
                      bed.model.parts.bench.units),
      bed.machine.bed_twist ? "" : " (assumed)", print.stiffness(1.0 / bed.share.compliance)));
  f.working.push_back(fmt::format("the bed: {} at rest, {} leaned on; {} is good",
                                  print.level(rest.bed), print.level(worst.twist.bed),
                                  print.level(limits.bed_twist_good.value)));
  f.working.push_back(leans_line(bed, leans));
  if (worst.carried) {
    f.working.push_back(fmt::format("of the worst the rails and bearers {}, the sheet itself {}",
                                    print.level(*worst.carried),
                                    print.level(worst.change.bed - *worst.carried)));
  }
  f.working.push_back(mounting_line(bed, worst.change.bed));
  for (std::string& line : level_lines(bed.model, bed.plates, bed.place.machine)) {
    f.working.push_back(std::move(line));
  }
  const std::string turns = feet_line(bed, feet);
  if (!turns.empty()) f.working.push_back(turns);
  f.working.emplace_back(
      "what it twists at rest is shimmed away, and again when the timber has settled (creep)");
}

/// Deeper rails cure what the rails twist. A thicker top (or bearers) holds the bed less back from
/// following them, and helps only against what the sheet itself twists.
std::string advice_of(const Leaned& worst) {
  const bool is_of_rails =
      !worst.carried || std::abs(*worst.carried) > 0.5 * std::abs(worst.change.bed);
  return is_of_rails ? "deeper rails under it, front and back alike; a thicker top alone would "
                       "pass more of their twist on to it"
                     : "a bearer under each end of it and deeper rails, front and back alike";
}

Finding start_twist(const bench::Machine& machine, const reference::Limits& limits) {
  Finding f;
  f.id = id_of("twist", machine.name);
  f.group = Group::twist;
  f.kind = Kind::service;
  f.unit = quantity::Kind::slope;
  f.place = machine.name;
  f.rule =
      "change of the bed's twist when somebody leans; ours, from a lathe's test chart. What it "
      "twists at rest is shimmed away";
  f.source = limits.bed_twist.source;
  return f;
}

Finding& left(Finding& f, const bench::Machine& machine, std::string why) {
  leave_unjudged(f, std::move(why));
  f.sentence = fmt::format("How far the bed of the {} twists is not judged.", machine.name);
  return f;
}

/// Of a bench at rest, or leaned on, without an answer.
std::string why_no_twist(const Answers& answers, const char* otherwise) {
  for (std::size_t c = 0; c < answers.model.combinations.size(); ++c) {
    const model::Combination& combination = answers.model.combinations[c];
    if (!is_at_rest(combination) && !is_leaned_on(combination)) continue;
    std::string why = refusal_of(answers.response, c);
    if (!why.empty()) return why;
  }
  return otherwise;
}

Finding judged(const Answers& answers, const Bed& bed, const std::vector<FootTurn>& feet,
               const reference::Limits& limits) {
  Finding f = start_twist(bed.machine, limits);
  const std::vector<PlateAnswers::View> rest = bed.plates.of(bed.place.plate, is_at_rest);
  if (rest.empty()) return left(f, bed.machine, why_no_twist(answers, "nobody leans on the bench"));
  const std::vector<Leaned> leans = all_leans(bed, rest.front());
  if (leans.empty())
    return left(f, bed.machine, why_no_twist(answers, "nobody leans on the bench"));
  const Leaned& worst = worst_lean(leans);
  judge_against(f, std::abs(worst.change.bed), limits.bed_twist.value);
  f.combination = bed.model.combinations[worst.combination].name;
  const std::string where = bed.where(worst.combination);
  f.place += ", leaned on at the " + where;
  f.sentence = fmt::format(
      "The bed of the {} twists by {} when somebody leans on the {}; {} is where it would want "
      "levelling again.",
      bed.machine.name, bed.print.level(f.demand), where, bed.print.level(f.limit));
  add_working(f, bed, bed.twist(rest.front()), leans, feet, limits);
  if (f.judgement == Judgement::exceeded) f.advice = advice_of(worst);
  return f;
}

/// Of a machine that does its work on a bed that twists a little: a number worth knowing.
Finding told_twist(const Answers& answers, const Bed& bed, const std::vector<FootTurn>& feet,
                   const reference::Limits& limits) {
  Finding f = judged(answers, bed, feet, limits);
  if (f.judgement != Judgement::not_judged) {
    f.sentence = fmt::format("The bed of the {} twists by {} when somebody leans on the bench.",
                             bed.machine.name, bed.print.level(f.demand));
  }
  tell(f, "told, not judged: only a metal lathe's bed is held against a test chart");
  return f;
}

}  // namespace

std::vector<Finding> bed_twist(const Answers& answers, const PlateAnswers& plates,
                               const reference::Tables& tables) {
  std::vector<Finding> findings;
  const model::Parts& parts = answers.model.parts;
  std::vector<std::size_t> beds;
  for (std::size_t b = 0; b < parts.beds.size(); ++b) {
    const bool is_precise = parts.bench.machines[parts.beds[b].machine].kind.precise_bed;
    if (is_precise || answers.at_mean) beds.push_back(b);
  }
  const Trials trials = trials_at_rest(answers, beds);
  for (std::size_t m = 0; m < parts.bench.machines.size(); ++m) {
    const bench::Machine& machine = parts.bench.machines[m];
    const auto share =
        std::find_if(trials.shares.begin(), trials.shares.end(),
                     [&](const BedShare& found) { return parts.beds[found.bed].machine == m; });
    if (share != trials.shares.end()) {
      const Bed bed{answers.model, plates, parts.beds[share->bed],
                    machine,       *share, Printer(parts.bench)};
      const auto found = machine.kind.precise_bed ? judged : told_twist;
      findings.push_back(found(answers, bed, trials.feet, tables.limits));
      continue;
    }
    if (!machine.kind.precise_bed) continue;
    const bool has_bed = std::any_of(parts.beds.begin(), parts.beds.end(),
                                     [m](const model::BedPlace& b) { return b.machine == m; });
    Finding f = start_twist(machine, tables.limits);
    findings.push_back(left(f, machine,
                            has_bed ? why_no_twist(answers, "a twist of its pads has no answer")
                                    : "the sheet that it stands on is not taken as a plate"));
  }
  return findings;
}

}  // namespace standtrue::check
