#include "standtrue/decide/assess.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <limits>
#include <set>

#include "decide/bounded.hpp"
#include "decide/findings.hpp"
#include "decide/joint_choice.hpp"
#include "decide/settle.hpp"
#include "decide/summary.hpp"
#include "standtrue/check/cautions.hpp"

namespace standtrue::decide {

namespace {

using check::Finding;
using check::Judgement;

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

/// At mean joints on plates twice as coarse; none where there are no plates.
std::vector<Finding> found_on_coarse_mesh(const bench::Bench& bench,
                                          const reference::Tables& tables,
                                          model::Assumptions mean) {
  solve::PlateCache plates;
  mean.coarse_mesh = true;
  const Bounded coarse = solved(bench, tables, mean, plates);
  if (!coarse.response || coarse.idealisation.model->plates.empty()) return {};
  mean.after_creep = true;
  const Bounded crept = solved(bench, tables, mean, plates, &coarse);
  return judged(coarse, crept, true, tables);
}

/// Richardson's estimate: what falls with h² differs by three times its error from mesh to half the
/// mesh.
void estimate_mesh_errors(std::vector<Finding>& findings, const std::vector<Finding>& rough) {
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
                  const KnownScales* known, const Work& work) {
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
    const model::Assumptions mean = at(model::Bound::mean, scales.mean);
    std::vector<Finding> at_mean, at_soft, at_stiff, at_poor, on_coarse_mesh;
    const auto look = [&](Bounded& into, const model::Assumptions& assumptions) {
      solve::PlateCache own = plates.copy();
      into = solved(bench, tables, assumptions, own);
      return judged_at_bound(into, crept_frame(bench, tables, assumptions, into, own), tables);
    };
    const std::array<std::function<void()>, 5> looks{
        [&] {
          model::Assumptions crept = mean;
          crept.after_creep = true;
          solve::PlateCache own = plates.copy();
          out.after_creep = solved(bench, tables, crept, own, &out.mean);
          at_mean = judged(out.mean, out.after_creep, true, tables);
        },
        [&] {
          model::Assumptions poor = at(model::Bound::soft, scales.poor);
          poor.low_timber = true;
          at_poor = look(out.poor, poor);
        },
        [&] { at_soft = look(out.soft, at(model::Bound::soft, scales.soft)); },
        [&] { at_stiff = look(out.stiff, at(model::Bound::stiff, scales.stiff)); },
        [&] { on_coarse_mesh = found_on_coarse_mesh(bench, tables, mean); }};
    work.for_each(mesh_errors ? 5 : 4, [&](std::size_t i) { looks.at(i)(); });
    out.findings = merge(at_soft, at_mean, at_stiff, at_poor);
    if (!known) {
      tell_what_settles(out.findings, out, tables);
      if (auto none = joint_choice(out.findings, tables.constant("joint band").value)) {
        add_in_order(out.findings, std::move(*none));
      }
    }
    if (mesh_errors) estimate_mesh_errors(out.findings, on_coarse_mesh);
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

Assessment first_look(const bench::Bench& bench, const reference::Tables& tables) {
  Assessment out;
  out.bench = bench;
  solve::PlateCache plates;
  model::Assumptions assumptions;
  out.mean = solved(bench, tables, assumptions, plates);
  assumptions.released = let_go(bench, tables, assumptions.scales, out.mean, plates);
  out.findings = merge({},
                       out.mean.response ? judged(out.mean, {}, true, tables, false)
                                         : std::vector<Finding>{no_answer(out.mean)},
                       {});
  out.released.assign(assumptions.released.begin(), assumptions.released.end());
  out.assumptions = all_assumptions(out);
  out.cautions = check::cautions(bench);
  out.summary =
      "a first look, new and at joints as they are on average; how they may turn out, and what "
      "years do, comes next.";
  return out;
}

}  // namespace standtrue::decide
