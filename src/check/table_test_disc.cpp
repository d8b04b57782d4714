// All numbers SI (N, m).
#include <fmt/format.h>

#include <algorithm>
#include <optional>

#include "check/answered.hpp"
#include "check/carriers.hpp"
#include "check/printer.hpp"
#include "check/sag_line.hpp"
#include "check/table_test.hpp"
#include "check/words.hpp"
#include "standtrue/check/is_worse.hpp"

namespace standtrue::check {

using quantity::in_si;

namespace {

/// How far the top sinks under the disc, of its force alone: below the plane of the post tops, and
/// of that the sheet's own below what carries it.
struct DiscSag {
  double whole = 0.0, own = 0.0;
  std::size_t place = 0, combination = 0;
};

struct Below {
  double plane = 0.0;
  std::optional<double> carriers;
};

Below below(const Answers& answers, const PlateAnswers::View& view, std::size_t plate,
            const model::TestPlace& at) {
  const double x = in_si(at.x), y = in_si(at.y);
  const Reference plane =
      plane_of_post_tops(answers.model, *state_of(answers.response, view.combination));
  const double down = view.down(x, y);
  Below found{down - plane(x, y), {}};
  const std::optional<double> rest = Carriers(answers.model, plate).at(view, x, y);
  if (rest) found.carriers = down - *rest;
  return found;
}

bool is_rest(const model::Combination& c) { return judges_test(c) && c.name == "test-at-rest"; }

std::optional<DiscSag> deepest(const Answers& answers, const PlateAnswers& plates,
                               const std::string& test) {
  const model::Parts& parts = answers.model.parts;
  std::optional<DiscSag> found;
  for (std::size_t p = 0; p < parts.plate_sheets.size(); ++p) {
    const std::vector<PlateAnswers::View> rest = plates.of(p, is_rest);
    if (rest.empty()) continue;
    for (const PlateAnswers::View& view : plates.of(p, is_disc_test)) {
      const std::size_t place = *answers.model.combinations[view.combination].place;
      const model::TestPlace& at = parts.tests.at(place);
      if (at.test != test || at.sheet != parts.plate_sheets[p]) continue;
      const Below under = below(answers, view, p, at);
      const Below before = below(answers, rest.front(), p, at);
      DiscSag sunk{under.plane - before.plane, 0.0, place, view.combination};
      if (under.carriers && before.carriers) sunk.own = *under.carriers - *before.carriers;
      if (!found || is_worse(sunk.whole, found->whole, readable)) found = sunk;
    }
  }
  return found;
}

/// The lighter disc has no published limit of sag; its strength is looked at all the same.
void judge_disc(Finding& f, const DiscSag& sunk, const StrengthUnder& under, bool has_limit,
                const reference::Tables& tables) {
  const bool fails = under.ratio > 1.0;
  if (!has_limit || fails) {
    judge_by_strength(f, under);
    return;
  }
  f.unit = quantity::Kind::length;
  judge_against(f, std::max(0.0, sunk.whole), in_si(tables.limits.disc_sag.value));
  f.source = tables.limits.disc_sag.source;
}

/// "it sinks 2.1 mm, 3.2 mm allowed there", and what of its strength it takes where that counts.
std::string sinks(const DiscSag& sunk, const StrengthUnder& under, bool has_limit,
                  const reference::Tables& tables, const Printer& print) {
  std::string text = "it sinks " + print.movement(sunk.whole);
  if (has_limit) {
    text += fmt::format(", {} allowed there", print.length(in_si(tables.limits.disc_sag.value)));
  }
  if (under.ratio > 1.0) return text + "; " + goes_on(under.sentence) + ".";
  if (has_limit) return text + ".";
  return text + fmt::format(" and takes at most {} its strength{}.", share_of(under.ratio),
                            under.as_far());
}

Finding disc_finding(const Answers& answers, const PlateAnswers& plates,
                     const reference::Load& load, const reference::Tables& tables) {
  const model::Parts& parts = answers.model.parts;
  const Printer print(parts.bench);
  const bool has_limit = load.key == "disc test";
  Finding f = start_test("disc", Group::sag, load.source.of("down"));
  f.sentence =
      fmt::format("A published test of office stands presses {} on a disc of {} in mid top: ",
                  print.as_mass(in_si(load.down)), print.length(in_si(load.patch)));
  const std::optional<DiscSag> sunk = deepest(answers, plates, load.key);
  if (!sunk) {
    leave_unjudged(f, "no answer under it");
    f.sentence += "no answer.";
    return f;
  }
  const StrengthUnder under = strength_under(answers, plates, is_disc_test, tables);
  judge_disc(f, *sunk, under, has_limit, tables);
  if (f.unit == quantity::Kind::length) {
    f.place = parts.tests[sunk->place].name;
    f.combination = answers.model.combinations[sunk->combination].name;
    f.advice = "a bearer under the middle of the top, or a thicker sheet";
  }
  f.sentence += sinks(*sunk, under, has_limit, tables, print);
  f.working.push_back(fmt::format(
      "{}, a square of the disc's area: of its force alone {} below the post tops, of that the "
      "sheet {} and what carries it {}; at most {:.2f} of a strength",
      parts.tests[sunk->place].name, print.length(sunk->whole), print.length(sunk->own),
      print.length(sunk->whole - sunk->own), under.ratio));
  settle_test(f);
  return f;
}

}  // namespace

std::vector<Finding> disc_test(const Answers& answers, const PlateAnswers& plates,
                               const reference::Tables& tables) {
  const model::Parts& parts = answers.model.parts;
  const reference::Load* load = load_run(parts, tables, "disc test", "light disc test");
  const bool has_place = load != nullptr && std::any_of(parts.tests.begin(), parts.tests.end(),
                                                        [&](const model::TestPlace& place) {
                                                          return place.test == load->key;
                                                        });
  if (!has_place) return {};
  return {disc_finding(answers, plates, *load, tables)};
}

}  // namespace standtrue::check
