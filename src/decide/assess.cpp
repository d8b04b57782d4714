#include "standtrue/decide/assess.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <set>

#include "decide/settle.hpp"
#include "decide/summary.hpp"
#include "standtrue/check/cautions.hpp"
#include "standtrue/check/joints.hpp"

namespace standtrue::decide {

namespace {

using check::Finding;
using check::Judgement;

/// One bound: idealised and solved, or why not. After creep it is of second order where the mean
/// bound is, `as_mean`: its own factor decides nothing.
Bounded solved(const bench::Bench& bench, const reference::Tables& tables,
               const model::Assumptions& assumptions, solve::PlateCache& plates,
               const Bounded* as_mean = nullptr) {
  Bounded at;
  at.bound = assumptions.bound;
  at.idealisation = model::idealise(bench, tables, assumptions);
  if (!at.idealisation.model) return at;
  double below = tables.limits.buckling.value;
  if (as_mean && as_mean->response) {
    below = as_mean->response->second_order ? std::numeric_limits<double>::infinity() : 0.0;
  }
  solve::OrRefusal<solve::Response> response =
      solve::static_response(*at.idealisation.model, plates, below);
  if (response) {
    at.response = std::move(*response);
  } else {
    at.refusal = response.error();
  }
  return at;
}

/// Lets ductile joints go that gravity overloads, until no more are. A set whose release would
/// leave a frame that can move is not let go: those joints are then found overloaded.
std::set<std::string> let_go(const bench::Bench& bench, const reference::Tables& tables,
                             const model::Scales& scales, Bounded& mean,
                             solve::PlateCache& plates) {
  constexpr int most_rounds = 5;
  std::set<std::string> released;
  for (int round = 0; round < most_rounds && mean.response; ++round) {
    std::set<std::string> wanted = released;
    for (std::string& name :
         check::overloaded_ductile_joints({*mean.idealisation.model, *mean.response}, tables)) {
      wanted.insert(std::move(name));
    }
    if (wanted == released) break;
    model::Assumptions assumptions{model::Bound::mean, false, wanted};
    assumptions.scales = scales;
    Bounded next = solved(bench, tables, assumptions, plates);
    if (!next.response) break;
    mean = std::move(next);
    released = std::move(wanted);
  }
  return released;
}

/// `after_creep` is given to one bound alone: it has mean joints, and its findings hold for all.
std::vector<Finding> judged(const Bounded& at, const Bounded& after_creep,
                            const reference::Tables& tables) {
  if (!at.response) return {};
  check::Answers answers{*at.idealisation.model, *at.response};
  answers.at_mean = at.bound == model::Bound::mean;
  if (after_creep.response) {
    answers.creep_model = &*after_creep.idealisation.model;
    answers.creep_response = &*after_creep.response;
  }
  return check::check_all(answers, tables);
}

/// The frame as a whole: it can move, or could not be made or solved.
Finding no_answer(const Bounded& mean) {
  Finding f;
  f.id = "frame/solved";
  f.place = "the frame";
  f.rule = "statics of the frame";
  f.source = {"", "a frame that nothing holds carries nothing", reference::Status::ours};
  f.ratio = std::numeric_limits<double>::quiet_NaN();
  if (!mean.refusal) {
    f.sentence = "The bench could not be turned into a frame.";
    for (const std::string& fault : mean.idealisation.faults) {
      f.why += (f.why.empty() ? "" : "; ") + fault;
    }
    return f;
  }
  f.advice = mean.refusal->instead;
  using Why = solve::Refusal::Why;
  if (mean.refusal->why == Why::mechanism || mean.refusal->why == Why::loose_part) {
    f.id = "frame/moves";
    f.sentence = fmt::format("The frame can move: {}.", mean.refusal->what);
    f.ratio = std::numeric_limits<double>::infinity();
    f.judgement = Judgement::exceeded;
  } else {
    f.sentence = "The frame could not be solved.";
    f.why = mean.refusal->what;
  }
  return f;
}

/// Richardson's estimate: what falls with h² differs by three times its error from mesh to half the
/// mesh.
void estimate_mesh_errors(std::vector<Finding>& findings, const bench::Bench& bench,
                          const reference::Tables& tables, const std::set<std::string>& released,
                          const model::Scales& scales) {
  solve::PlateCache plates;
  model::Assumptions assumptions{model::Bound::mean, false, released};
  assumptions.scales = scales;
  assumptions.coarse_mesh = true;
  const Bounded coarse = solved(bench, tables, assumptions, plates);
  if (!coarse.response || coarse.idealisation.model->plates.empty()) return;
  assumptions.after_creep = true;
  const Bounded crept = solved(bench, tables, assumptions, plates, &coarse);
  const std::vector<Finding> rough = judged(coarse, crept, tables);
  for (Finding& f : findings) {
    const auto same = std::find_if(rough.begin(), rough.end(),
                                   [&f](const Finding& other) { return other.id == f.id; });
    // By the ratio: two ways of a sheet may be nearly as bad, and the worse of them change places.
    if (same == rough.end() || !(f.ratio > 0.0) || !std::isfinite(f.ratio)) continue;
    if (!std::isfinite(same->ratio)) continue;
    f.mesh_error = std::abs(f.ratio - same->ratio) / (3.0 * f.ratio);
  }
}

std::vector<std::string> all_assumptions(const Assessment& assessment) {
  std::vector<std::string> all = assessment.bench.assumptions;
  const std::vector<std::string>& made = assessment.mean.idealisation.assumptions;
  all.insert(all.end(), made.begin(), made.end());
  return all;
}

}  // namespace

Assessment assess(const bench::Bench& bench, const reference::Tables& tables, bool mesh_errors,
                  const KnownScales* known) {
  const KnownScales scales = known ? *known : KnownScales{};
  Assessment out;
  out.bench = bench;
  out.soft.bound = model::Bound::soft;
  out.stiff.bound = model::Bound::stiff;
  out.poor.bound = model::Bound::soft;
  solve::PlateCache plates;  // the same sheets at every bound
  std::set<std::string> released;
  const auto at = [&](model::Bound bound, const model::Scales& s) {
    model::Assumptions assumptions{bound, false, released};
    assumptions.scales = s;
    return assumptions;
  };
  out.mean = solved(bench, tables, at(model::Bound::mean, scales.mean), plates);
  released = let_go(bench, tables, scales.mean, out.mean, plates);
  if (out.mean.response) {
    out.soft = solved(bench, tables, at(model::Bound::soft, scales.soft), plates);
    out.stiff = solved(bench, tables, at(model::Bound::stiff, scales.stiff), plates);
    model::Assumptions poor = at(model::Bound::soft, scales.poor);
    poor.low_timber = true;
    out.poor = solved(bench, tables, poor, plates);
    model::Assumptions crept = at(model::Bound::mean, scales.mean);
    crept.after_creep = true;
    out.after_creep = solved(bench, tables, crept, plates, &out.mean);
    out.findings = merge(judged(out.soft, {}, tables), judged(out.mean, out.after_creep, tables),
                         judged(out.stiff, {}, tables), judged(out.poor, {}, tables));
    if (!known) tell_what_settles(out.findings, out, tables);
    if (mesh_errors) estimate_mesh_errors(out.findings, bench, tables, released, scales.mean);
  } else {
    out.findings = merge({}, {no_answer(out.mean)}, {});
  }
  out.released.assign(released.begin(), released.end());
  out.assumptions = all_assumptions(out);
  out.cautions = check::cautions(bench);
  out.verdict = verdict_of(out.findings);
  out.summary = summary_of(out.verdict, out.findings, bench);
  return out;
}

}  // namespace standtrue::decide
