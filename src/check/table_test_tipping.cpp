// All numbers SI (N, m, N m).
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

#include "check/answered.hpp"
#include "check/overturning.hpp"
#include "check/printer.hpp"
#include "check/table_test.hpp"
#include "standtrue/check/is_worse.hpp"

namespace standtrue::check {

using quantity::in_si;

namespace {

/// The test about the line through the pads over which it comes nearest to tipping.
struct TestAbout {
  TippingEdge edge;
  Action action;
  Laden laden = Laden::empty;
  double overturning = 0.0, harms = 0.0, helps = 0.0;  ///< N m; of the test, of weights

  [[nodiscard]] double ratio() const { return (overturning + harms) / std::max(helps, 1e-6); }
  /// Of the test's load, that tips it.
  [[nodiscard]] double share() const { return std::max(0.0, helps - harms) / overturning; }
};

void look(std::optional<TestAbout>& worst, const model::Parts& parts,
          const std::vector<Action>& actions, Laden laden) {
  for (const TippingEdge& edge : free_edges(parts)) {
    double harms = 0.0, helps = 0.0;
    for (const model::Weight& weight : standing_weights(parts, laden)) {
      const double moment = in_si(weight.force) * edge.inside(in_si(weight.x), in_si(weight.y));
      (moment < 0.0 ? harms : helps) += std::abs(moment);
    }
    for (const Action& action : actions) {
      const TestAbout about{edge, action, laden, action.about(edge), harms, helps};
      if (!worst || is_worse(about.ratio(), worst->ratio())) worst = about;
    }
  }
}

void judge_tipping_test(Finding& f, const TestAbout& about, const Printer& print) {
  f.unit = quantity::Kind::moment;
  judge_against(f, about.overturning + about.harms, std::max(about.helps, 1e-6));
  f.place = "over the feet " + about.edge.towards();
  f.working.push_back(fmt::format(
      "rigid statics about the line through the pads, {}: overturning {} + weights beyond it {}, "
      "held by {}",
      about.laden == Laden::empty ? "empty" : "as planned", print.moment(about.overturning),
      print.moment(about.harms), print.moment(about.helps)));
  if (f.judgement == Judgement::exceeded) {
    f.advice =
        "fix the bench to the wall or the floor, set its feet wider apart, or weigh it down low";
  }
  settle_test(f);
}

std::optional<Finding> edge_test(const model::Parts& parts, const reference::Tables& tables) {
  const reference::Load* load = load_run(parts, tables, "edge test");
  if (load == nullptr) return std::nullopt;
  const Printer print(parts.bench);
  std::optional<TestAbout> worst;
  look(worst, parts, on_corners(parts.bench, *load), Laden::empty);
  if (!worst) return std::nullopt;
  Finding f = start_test("edge", Group::tip, load->source.of("down"));
  judge_tipping_test(f, *worst, print);
  f.sentence =
      fmt::format("A published test of office tables puts {} on the edge of the empty top: ",
                  print.as_mass(in_si(load->down)));
  const std::string tipped_by =
      worst->overturning > 0.0 ? print.as_mass(worst->share() * in_si(load->down)) : std::string();
  if (f.judgement == Judgement::exceeded) {
    f.sentence += fmt::format("it tips {}, at {}.", worst->edge.towards(), tipped_by);
  } else if (tipped_by.empty()) {
    f.sentence += "it stays down, as the edge lies inside the feet.";
  } else {
    f.sentence +=
        fmt::format("it stays down; {} would tip it {}.", tipped_by, worst->edge.towards());
  }
  return f;
}

std::optional<Finding> stability_test(const model::Parts& parts, const reference::Tables& tables) {
  const reference::Load* load = load_run(parts, tables, "stability test");
  if (load == nullptr) return std::nullopt;
  const Printer print(parts.bench);
  const std::vector<Action> actions = on_corners(parts.bench, *load);
  std::optional<TestAbout> worst;
  look(worst, parts, actions, Laden::empty);
  const bool is_planned = is_anything_planned(parts);
  if (is_planned) look(worst, parts, actions, Laden::as_planned);
  if (!worst) return std::nullopt;
  Finding f = start_test("stability", Group::tip, load->source.of("down"));
  judge_tipping_test(f, *worst, print);
  f.sentence = fmt::format(
      "A published test of tables presses {} down {} from the edges of the top and {} outwards: ",
      print.force(in_si(load->down)), print.length(in_si(load->edge)),
      print.force(in_si(load->sideways)));
  if (f.judgement == Judgement::exceeded) {
    const char* when = worst->laden == Laden::empty ? ", empty" : ", as planned";
    f.sentence += fmt::format("it tips {}{}, at {:.0f} % of that.", worst->edge.towards(),
                              is_planned ? when : "", std::floor(100.0 * worst->share()));
  } else {
    f.sentence += is_planned ? "it stays down, empty and as planned." : "it stays down.";
  }
  return f;
}

}  // namespace

std::vector<Finding> tipping_tests(const model::Parts& parts, const reference::Tables& tables) {
  std::vector<Finding> findings;
  for (std::optional<Finding> f : {edge_test(parts, tables), stability_test(parts, tables)}) {
    if (f) findings.push_back(*std::move(f));
  }
  return findings;
}

}  // namespace standtrue::check
