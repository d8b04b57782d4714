#include <algorithm>
#include <cmath>

#include "decide/proving.hpp"
#include "standtrue/solve/plate_response.hpp"

namespace standtrue::decide {

using quantity::in_si;

namespace {

/// The bench's own weight, and then so much of one case.
solve::Loading with(const model::Model& model, std::optional<model::CaseId> load_case = {},
                    double factor = 0.0) {
  solve::Loading loading;
  if (model.parts.self_case) loading.terms.push_back({*model.parts.self_case, 1.0});
  if (load_case) loading.terms.push_back({*load_case, factor});
  return loading;
}

/// Empty where no post is: on a ledger.
std::string post_at(const model::Model& model, model::NodeId node) {
  for (const model::Part& part : model.parts.parts) {
    if (part.role != model::Role::post) continue;
    for (const model::MemberId m : part.members) {
      if (model.members[m].start == node || model.members[m].end == node) return part.name;
    }
  }
  return {};
}

solve::Refusal no_model(const model::Idealisation& idealisation) {
  solve::Refusal refusal;
  refusal.what = "it could not be turned into a frame";
  for (const std::string& fault : idealisation.faults) refusal.what += ": " + fault;
  return refusal;
}

/// Of the pushes at the same place and to the same side.
void take_limits(PullPlace& pull, const std::vector<check::Push>& pushes) {
  for (const check::Push& push : pushes) {
    if (push.as_planned || push.where != pull.place.name || push.sense != pull.sense) continue;
    pull.towards = push.towards();
    pull.tips_at = std::min(push.tips_at, push.tips_at_frame);
    pull.slides_at = push.slides_at;
    pull.first_slips_at = push.first_slips_at;
  }
}

/// What it takes before anything lets go.
double takes(const PullPlace& pull) {
  return std::min({pull.tips_at, pull.slides_at, pull.first_slips_at});
}

/// Away from the bench, at one post; none where the place is spread, or nobody can pull: at a
/// ledger.
std::optional<PullPlace> pull_at(const model::Model& model, const model::ShovePlace& place,
                                 double sense) {
  const auto& loads = model.cases[place.case_of(sense)].node_loads;
  if (loads.size() != 1 || post_at(model, loads.front().node).empty()) return std::nullopt;
  return PullPlace{place, loads.front().node, sense, post_at(model, loads.front().node), {}, 0, 0,
                   0};
}

}  // namespace

Rig::Rig(const bench::Bench& bench, const reference::Tables& tables, const model::Scales& scales,
         solve::PlateCache& plates)
    : plates_(plates) {
  model::Assumptions assumptions;
  assumptions.scales = scales;
  idealisation_ = model::idealise(bench, tables, assumptions);
}

const solve::OrRefusal<solve::Prepared>& Rig::prepared(model::SpringSet springs) const {
  auto& made = prepared_[static_cast<std::size_t>(springs)];
  if (!made && idealisation_.model) made = solve::prepare(*idealisation_.model, springs, plates_);
  if (!made) made = tl::unexpected(no_model(idealisation_));
  return *made;
}

solve::OrRefusal<double> Rig::follows(const PullPlace& pull, double force) const {
  const auto& frame = prepared(model::SpringSet::sway);
  if (!frame) return tl::unexpected(frame.error());
  const model::Model& model = *idealisation_.model;
  const auto rest = solve::respond(*frame, with(model));
  if (!rest) return tl::unexpected(rest.error());
  const auto pulled =
      solve::respond(*frame, with(model, pull.place.case_of(pull.sense), pull.sense * force));
  if (!pulled) return tl::unexpected(pulled.error());
  const model::Freedom way =
      pull.place.way == model::ShoveWay::along ? model::Freedom::x : model::Freedom::y;
  return pull.sense * (pulled->at(pull.node, way) - rest->at(pull.node, way));
}

solve::OrRefusal<double> Rig::sinks(const TopPlace& top, std::size_t load, double force) const {
  const auto& frame = prepared(model::SpringSet::gravity);
  if (!frame) return tl::unexpected(frame.error());
  const model::Model& model = *idealisation_.model;
  const auto& sheets = model.parts.plate_sheets;
  const auto plate =
      static_cast<std::size_t>(std::find(sheets.begin(), sheets.end(), top.sheet) - sheets.begin());
  std::array<double, 2> below{};
  for (const bool laden : {false, true}) {
    const solve::Loading loading =
        laden ? with(model, model.parts.added_cases.at(load), force) : with(model);
    const auto state = solve::respond(*frame, loading);
    if (!state) return tl::unexpected(state.error());
    const solve::Answered answered{&loading, &*state};
    const solve::PlateMovements movements =
        solve::plate_movements(*frame, plate, std::span<const solve::Answered>(&answered, 1));
    const auto w = [&](double x) {
      return solve::plate_w(model.plates[plate], movements, x, top.y, 0);
    };
    const double t = (top.x - top.from) / (top.to - top.from);
    below[laden ? 1 : 0] = (1.0 - t) * w(top.from) + t * w(top.to) - w(top.x);
  }
  return below[1] - below[0];
}

std::vector<check::Push> Rig::pushes() const {
  if (!idealisation_.model) return {};
  solve::Response response;
  const auto& frame = prepared(model::SpringSet::sway);
  if (frame) response.prepared[static_cast<std::size_t>(model::SpringSet::sway)] = *frame;
  const check::Answers answers{*idealisation_.model, response};
  return check::pushes(answers, check::PushesBy::sliding);
}

std::optional<PullPlace> Rig::softest(model::ShoveWay way) const {
  constexpr double light = 10.0;  // N
  if (!idealisation_.model) return std::nullopt;
  const model::Model& model = *idealisation_.model;
  // Towards the front or the left, unless it takes clearly more the other way.
  std::optional<PullPlace> softest;
  double most = 0.0;
  for (const model::ShovePlace& place : model.parts.shoves) {
    if (place.way != way) continue;
    const auto pull = pull_at(model, place, -1.0);
    const auto moved = pull ? follows(*pull, light) : solve::OrRefusal<double>(0.0);
    if (!moved || *moved <= (1.0 + 1e-6) * most) continue;
    most = *moved;
    softest = pull;
  }
  const std::vector<check::Push> all = pushes();
  if (!softest) return std::nullopt;
  take_limits(*softest, all);
  auto other = pull_at(model, softest->place, 1.0);
  if (!other) return softest;
  take_limits(*other, all);
  constexpr double clearly = 1.5;
  return takes(*other) > clearly * takes(*softest) ? other : softest;
}

}  // namespace standtrue::decide
