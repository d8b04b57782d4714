#include <fmt/format.h>

#include <algorithm>
#include <limits>

#include "check/answered.hpp"
#include "check/footprint.hpp"
#include "check/printer.hpp"
#include "standtrue/check/stability.hpp"

namespace standtrue::check {

namespace {

Finding start_unanswered(const model::Combination& combination, bool tips) {
  Finding f;
  f.id = tips ? "unanswered/tips" : "unanswered/loads";
  f.kind = Kind::safety;
  f.place = "the bench";
  f.combination = combination.name;
  f.rule = "every combination of loads must have an answer";
  f.source = {"", "what has no answer is not judged", reference::Status::ours};
  f.unit = quantity::Kind::ratio;
  f.limit = 1.0;
  return f;
}

/// A foot that hangs in the air lets the bench rock before it lands.
bool has_short_foot(const bench::Bench& bench) {
  return std::any_of(bench.posts.begin(), bench.posts.end(), [](const bench::Post& post) {
    return !post.on_wall && post.foot.height_error > quantity::Length{};
  });
}

}  // namespace

std::vector<Finding> unanswered(const Answers& answers, const reference::Tables&) {
  std::vector<Finding> findings;
  bool tips_said = false, other_said = false;
  for (std::size_t c = 0; c < answers.model.combinations.size(); ++c) {
    const solve::OrRefusal<solve::State>& state = answers.response.states.at(c);
    // The frame's own finding speaks for what buckles.
    if (state || state.error().why == solve::Refusal::Why::buckles) continue;
    const model::Combination& combination = answers.model.combinations[c];
    // What a published test would do is told with that test.
    if (combination.purpose == model::Purpose::test) continue;
    const bool tips = state.error().why == solve::Refusal::Why::tips;
    if (tips ? tips_said : other_said) continue;  // the first of a kind speaks for the rest
    (tips ? tips_said : other_said) = true;
    Finding f = start_unanswered(combination, tips);
    if (tips) {
      f.group = Group::tip;
      f.sentence =
          fmt::format("The bench tips as it stands under its loads: {}.", combination.title);
      f.ratio = f.demand = std::numeric_limits<double>::infinity();
      f.judgement = Judgement::exceeded;
      f.advice = has_short_foot(answers.model.parts.bench)
                     ? "set the feet so that all touch: how far, a levelling tells"
                     : "spread the feet, or move the load inwards";
      if (const std::string on = on_middles(answers.model.parts); !on.empty()) {
        f.working.push_back("the frame model" + on + " tips; over their outer edges it takes more");
      }
      if (const auto beyond = beyond_feet(answers.model.parts, Laden::as_planned)) {
        f.working.push_back(fmt::format(
            "the middle of its planned weight lies {} beyond its feet, {}",
            Printer(answers.model.parts.bench).length(beyond->distance), beyond->edge.towards()));
      }
    } else {
      f.group = Group::carry;
      f.sentence = "Not every combination of loads has an answer.";
      leave_unjudged(f, fmt::format("{}: {}", combination.title, state.error().what));
      f.advice = state.error().instead;
    }
    findings.push_back(std::move(f));
  }
  return findings;
}

std::vector<Finding> under_added_loads(const Answers& answers, const reference::Tables&) {
  std::vector<Finding> findings;
  const bench::Bench& bench = answers.model.parts.bench;
  if (!answers.model.plates.empty()) return findings;  // a plate feels it on a patch
  for (const bench::FreeLoad& load : bench.loads) {
    if (quantity::in_si(load.fz) >= 0.0) continue;
    Finding f;
    f.id = id_of("sheet-under-load", load.name);
    f.group = Group::sheet;
    f.kind = Kind::safety;
    f.place = fmt::format("{}, under {}", bench.sheets.at(load.sheet).name, load.name);
    f.rule =
        "a load without a patch is passed to the rails; the sheet right under it is not looked at";
    f.source = {"", "what has no patch has no stress", reference::Status::ours};
    f.sentence = fmt::format("Whether the sheet holds right under {} is not judged.", load.name);
    leave_unjudged(f, "an added load has no pads");
    f.advice = "describe it as a machine with its pads, and the sheet is judged";
    findings.push_back(std::move(f));
  }
  return findings;
}

}  // namespace standtrue::check
