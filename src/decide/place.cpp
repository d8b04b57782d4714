#include "standtrue/decide/place.hpp"

#include <algorithm>
#include <cmath>

#include "decide/load_plan.hpp"
#include "decide/place_bounds.hpp"
#include "decide/place_survey.hpp"
#include "decide/placing.hpp"
#include "standtrue/bench/turned.hpp"
#include "standtrue/check/is_worse.hpp"
#include "standtrue/model/move_machine.hpp"

namespace standtrue::decide {

using quantity::in_si;

namespace {

/// Under shoves, out of plumb, or of the frame as a whole.
bool is_by_what_is_left_out(const check::Finding& f) {
  return f.id.rfind("frame/", 0) == 0 || f.combination.find("shove") != std::string::npos ||
         f.combination.find("askew") != std::string::npos;
}

/// Moving a machine may change it by more than is left (ours).
bool is_near(const check::Finding& f) {
  constexpr double near = 0.85;
  return std::max({f.ratio, f.ratio_soft, f.ratio_stiff, f.ratio_poor}) > near;
}

class Placing {
 public:
  Placing(const bench::Bench& bench, std::size_t machine, const reference::Tables& tables,
          const Work& work)
      : bench_(bench),
        machine_(machine),
        own_(bench.machines.at(machine)),
        sheet_(bench.sheets.at(own_.sheet)),
        tables_(tables),
        work_(work),
        survey_(bench, machine, tables, work) {}

  PlacePlan plan() {
    describe();
    if (sheet_.place != bench::SheetPlace::top) {
      plan_.none = "the " + own_.name + " stands on the " + sheet_.name + " and not on a top";
      return std::move(plan_);
    }
    lay_out();
    if (bench_.analysis.sheets == bench::Analysis::Sheets::shell) {
      by_influence();
    } else {
      plan_.loads.none = "the sheets are not computed as plates";
      survey_.solve_all();
    }
    plan_.complete = survey_.complete;
    if (!plan_.none.empty()) return std::move(plan_);
    plan_.not_judged = survey_.not_judged;
    gather();
    look_besides();
    plan_.answer = place_words(plan_, bench_.units);
    return std::move(plan_);
  }

 private:
  void describe() {
    plan_.machine = own_.name;
    plan_.mass = own_.mass;
    plan_.sheet = sheet_.name;
    plan_.x0 = sheet_.x0;
    plan_.y0 = sheet_.y0;
    plan_.length = sheet_.x1 - sheet_.x0;
    plan_.depth = sheet_.y1 - sheet_.y0;
    const Cells cells = cells_over(sheet_);
    plan_.nx = cells.nx;
    plan_.ny = cells.ny;
    plan_.is_alike_turned = std::abs(in_si(own_.pads_x - own_.pads_y)) < 1e-6 &&
                            std::abs(in_si(own_.cg_x)) + std::abs(in_si(own_.cg_y)) < 1e-6;
  }

  [[nodiscard]] bench::Machine at(Spot spot) const {
    bench::Machine there = spot.way == 0 ? own_ : bench::turned_a_quarter(own_);
    there.x = plan_.x(spot.cell);
    there.y = plan_.y(spot.cell);
    return there;
  }

  void lay_out() {
    const std::size_t n = plan_.nx * plan_.ny;
    plan_.ways.resize(2);
    plan_.ways[1].turned = true;
    mark_others(n);
    for (std::size_t way = 0; way < 2; ++way) {
      plan_.ways[way].at.resize(n);
      if (way == 1 && plan_.is_alike_turned) continue;
      for (std::size_t cell = 0; cell < n; ++cell) {
        const bench::Machine there = at({way, cell});
        const std::string why = in_the_way(bench_, machine_, there);
        if (why.empty()) {
          survey_.candidates.push_back({Spot{way, cell}, there, {}, false});
          continue;
        }
        PlaceStatus& status = plan_.ways[way].at[cell];
        status.stand = Stand::barred;
        status.has_room = false;
        status.why = why;
      }
    }
    survey_.candidates.push_back({std::nullopt, own_, {}, false});
  }

  void mark_others(std::size_t n) {
    plan_.taken.resize(n);
    for (std::size_t m = 0; m < bench_.machines.size(); ++m) {
      const bench::Machine& other = bench_.machines[m];
      if (m == machine_ || other.sheet != own_.sheet) continue;
      const double hx = 0.5 * in_si(other.pads_x + other.pad);
      const double hy = 0.5 * in_si(other.pads_y + other.pad);
      for (std::size_t cell = 0; cell < n; ++cell) {
        const bool is_over = std::abs(in_si(plan_.x(cell) - other.x)) <= hx &&
                             std::abs(in_si(plan_.y(cell) - other.y)) <= hy;
        if (is_over) plan_.taken[cell] = plan_.others.size();
      }
      plan_.others.push_back(other.name);
    }
  }

  void by_influence() {
    const Elsewhere beside = stored_beside();
    Elsewhere elsewhere;
    elsewhere.machine = machine_;
    for (const Candidate& c : survey_.candidates) elsewhere.places.push_back(c.there);
    if (!beside.stays) elsewhere.patches = beside.patches;
    auto bounds = InfluenceBounds::make(bench_, tables_, elsewhere, work_);
    if (!bounds) {
      plan_.none = bounds.error();
      return;
    }
    bounds_.emplace(std::move(*bounds));
    plan_.none = survey_.superpose(*bounds_, plan_.nx);
    if (!plan_.none.empty()) return;
    plan_.confirmed = survey_.confirm();
    work_.for_each(2, [&](std::size_t i) {
      if (i == 0) {
        plan_loads(beside);
      } else {
        as_it_is_ = assess(bench_, tables_, false, nullptr, work_).findings;
      }
    });
  }

  /// The patches of the load plan, the machine at its own place. The bed of one that is bolted
  /// stays there and takes part.
  [[nodiscard]] Elsewhere stored_beside() {
    Elsewhere beside;
    beside.machine = machine_;
    beside.places = {own_};
    beside.stays = own_.bolted;
    plan_.loads = empty_load_plan(sheet_);
    for (std::size_t cell = 0; cell < plan_.loads.nx * plan_.loads.ny; ++cell) {
      const Elsewhere::Patch patch = load_patch(plan_.loads, sheet_, cell);
      if (is_cut_out(patch)) continue;
      beside.patches.push_back(patch);
      load_cells_.push_back(cell);
    }
    return beside;
  }

  /// By the fields of the places where the machine only stands; else by its own.
  void plan_loads(const Elsewhere& beside) {
    std::optional<InfluenceBounds> own;
    if (beside.stays) {
      auto made = InfluenceBounds::make(bench_, tables_, beside, work_);
      if (!made) {
        plan_.loads.none = made.error();
        return;
      }
      own.emplace(std::move(*made));
    }
    const InfluenceBounds& known = own ? *own : *bounds_;
    const auto others = OtherBounds::make(bench_, tables_, beside, known, work_);
    if (!others) {
      plan_.loads.none = others.error();
      return;
    }
    const std::size_t own_place = own ? 0 : survey_.candidates.size() - 1;
    fill_load_plan(plan_.loads, {known, *others, own_place}, load_cells_, tables_, work_);
  }

  [[nodiscard]] bool is_cut_out(const Elsewhere::Patch& patch) const {
    return std::any_of(
        sheet_.cut_outs.begin(), sheet_.cut_outs.end(), [&](const bench::Sheet::CutOut& cut) {
          return patch.x > cut.x0 && patch.x < cut.x1 && patch.y > cut.y0 && patch.y < cut.y1;
        });
  }

  void gather() {
    for (std::size_t i = 0; i < survey_.candidates.size(); ++i) {
      const Candidate& c = survey_.candidates[i];
      if (!c.spot) {
        plan_.own = c.judged.status;
        continue;
      }
      plan_.ways[c.spot->way].at[c.spot->cell] = c.judged.status;
      count_reason(i);
      choose_best(c);
    }
    tell_reasons();
    if (plan_.is_alike_turned) plan_.ways[1].at = plan_.ways[0].at;
    std::stable_sort(plan_.reasons.begin(), plan_.reasons.end(),
                     [](const PlaceReason& a, const PlaceReason& b) {
                       if (a.stand != b.stand) return a.stand == Stand::barred;
                       return a.places > b.places;
                     });
  }

  /// What the plan does not look at would make of the bench as it is. A joint that the plan finds
  /// good under gravity may fail under a shove.
  void look_besides() {
    if (!as_it_is_) as_it_is_ = assess(bench_, tables_, false, nullptr, work_).findings;
    for (const check::Finding& f : *as_it_is_) {
      if (f.kind != check::Kind::safety) continue;
      if (is_failing(f)) {
        if (survey_.fails.count(f.id) == 0 || is_by_what_is_left_out(f)) {
          plan_.besides.push_back(f.id);
        }
      } else if (is_by_what_is_left_out(f) && is_near(f)) {
        plan_.nearly.push_back(f.id);
      }
    }
  }

  void count_reason(std::size_t place) {
    const PlaceStatus& s = survey_.candidates[place].judged.status;
    if (s.stand != Stand::barred && s.stand != Stand::care) return;
    auto found =
        std::find_if(plan_.reasons.begin(), plan_.reasons.end(),
                     [&](const PlaceReason& r) { return r.stand == s.stand && r.id == s.why; });
    if (found == plan_.reasons.end()) {
      plan_.reasons.push_back({s.stand, s.why, {}, 0, 0.0});
      worst_.push_back(place);
      found = plan_.reasons.end() - 1;
    }
    ++found->places;
    if (check::is_worse(s.ratio, found->ratio)) {
      found->ratio = s.ratio;
      worst_[static_cast<std::size_t>(found - plan_.reasons.begin())] = place;
    }
  }

  void tell_reasons() {
    if (bounds_) plan_.none = survey_.tell(*bounds_, worst_);
    for (std::size_t r = 0; r < worst_.size(); ++r) {
      plan_.reasons[r].sentence = survey_.candidates[worst_[r]].judged.sentence;
    }
  }

  /// Of places as good as each other that nearest to the middle, first as the file has it. None
  /// where the machine stands as well already.
  void choose_best(const Candidate& c) {
    if (c.judged.status.stand != Stand::clear) return;
    const auto off = [&](Spot spot) {
      return std::hypot(in_si(plan_.x(spot.cell) - plan_.x0 - plan_.length / 2.0),
                        in_si(plan_.y(spot.cell) - plan_.y0 - plan_.depth / 2.0));
    };
    constexpr double same = 0.01;  // of the limit: nobody feels that
    const double ratio = c.judged.status.ratio;
    const PlaceStatus& own = survey_.candidates.back().judged.status;
    if (own.stand == Stand::clear && !(ratio < own.ratio - same)) return;
    if (plan_.best) {
      const double held = plan_.ways[plan_.best->way].at[plan_.best->cell].ratio;
      if (ratio > held + same) return;
      if (ratio > held - same && off(*c.spot) >= off(*plan_.best) - 1e-9) return;
    }
    plan_.best = c.spot;
  }

  const bench::Bench& bench_;
  std::size_t machine_;
  const bench::Machine& own_;
  const bench::Sheet& sheet_;
  const reference::Tables& tables_;
  const Work& work_;
  PlacePlan plan_;
  PlaceSurvey survey_;
  std::optional<InfluenceBounds> bounds_;
  std::vector<std::size_t> load_cells_;  ///< of the load plan, that each of its patches lies in
  std::optional<std::vector<check::Finding>> as_it_is_;  ///< of the bench as the file has it
  std::vector<std::size_t> worst_;  ///< per reason of the plan: the worst of its places
};

}  // namespace

std::size_t PlaceGrid::count(Stand stand) const {
  return static_cast<std::size_t>(std::count_if(
      at.begin(), at.end(), [stand](const PlaceStatus& s) { return s.stand == stand; }));
}

quantity::Length PlacePlan::x(std::size_t cell) const {
  return x0 + length * ((static_cast<double>(cell % nx) + 0.5) / static_cast<double>(nx));
}
quantity::Length PlacePlan::y(std::size_t cell) const {
  return y0 + depth * ((static_cast<double>(cell / nx) + 0.5) / static_cast<double>(ny));
}

std::optional<std::size_t> machine_on_top(const bench::Bench& bench, const std::string& name) {
  std::optional<std::size_t> found;
  for (std::size_t m = 0; m < bench.machines.size(); ++m) {
    const bench::Machine& machine = bench.machines[m];
    if (!name.empty() && machine.name == name) return m;
    const bool on_top = bench.sheets.at(machine.sheet).place == bench::SheetPlace::top;
    if (!name.empty() || !on_top) continue;
    if (!found || machine.mass > bench.machines[*found].mass) found = m;
  }
  return found;
}

PlacePlan place(const bench::Bench& bench, std::size_t machine, const reference::Tables& tables,
                const Work& work) {
  return Placing(bench, machine, tables, work).plan();
}

}  // namespace standtrue::decide
