#include "decide/proving.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "standtrue/bench/ledger.hpp"

namespace standtrue::decide {

using bench::Test;
using quantity::in_si;

namespace {

std::size_t place_of(Test test) { return static_cast<std::size_t>(test); }
bool is_bare(Test test) { return test == Test::bare_along || test == Test::bare_across; }

/// Middles between neighbours, in order.
std::vector<double> middles(std::vector<double> lines, double low, double high) {
  constexpr double apart = 0.1;  // m: nearer ones leave no bay for a weight
  std::sort(lines.begin(), lines.end());
  std::vector<double> found;
  for (std::size_t i = 0; i + 1 < lines.size(); ++i) {
    const double middle = 0.5 * (lines[i] + lines[i + 1]);
    if (lines[i + 1] - lines[i] > apart && middle > low && middle < high) found.push_back(middle);
  }
  return found;
}

/// No weight can stand there.
bool is_cut_out(const bench::Sheet& sheet, double x, double y) {
  constexpr double half = 0.05;  // of its side
  return std::any_of(sheet.cut_outs.begin(), sheet.cut_outs.end(),
                     [&](const bench::Sheet::CutOut& hole) {
                       return x > in_si(hole.x0) - half && x < in_si(hole.x1) + half &&
                              y > in_si(hole.y0) - half && y < in_si(hole.y1) + half;
                     });
}

/// The middles of the bays of a lying sheet between what carries it.
std::vector<TopPlace> bays(const bench::Bench& bench, std::size_t sheet) {
  const bench::Sheet& top = bench.sheets[sheet];
  std::vector<double> x, y, ends;
  for (const std::size_t r : top.rails) {
    const bench::Rail& rail = bench.rails[r];
    const bench::Post& post = bench.posts[rail.from];
    const double at = in_si((rail.along_x ? post.y : post.x) + rail.aside);
    (rail.along_x ? y : x).push_back(at);
  }
  for (const std::size_t b : top.bearers) {
    const bench::Bearer& bearer = bench.bearers[b];
    const bool along_x = !bench.rails[bearer.from].along_x;
    (along_x ? y : x).push_back(in_si(bearer.at));
  }
  for (const bench::Post& post : bench.posts) ends.push_back(in_si(post.x));
  if (ends.empty()) return {};
  const double in = 5e-3;
  const double from = std::max(*std::min_element(ends.begin(), ends.end()), in_si(top.x0) + in);
  const double to = std::min(*std::max_element(ends.begin(), ends.end()), in_si(top.x1) - in);
  std::vector<TopPlace> found;
  for (const double across : middles(y, in_si(top.y0), in_si(top.y1))) {
    for (const double along : middles(x, from, to)) {
      if (!is_cut_out(top, along, across)) found.push_back({sheet, along, across, from, to});
    }
  }
  return found;
}

bench::FreeLoad one_newton(const TopPlace& place, std::size_t number) {
  bench::FreeLoad load;
  load.name = fmt::format("proving weight {}", number);
  load.sheet = place.sheet;
  load.x = quantity::metres(place.x);
  load.y = quantity::metres(place.y);
  load.fz = quantity::newtons(-1.0);
  return load;
}

bool rolls(const bench::Bench& bench) {
  return std::any_of(bench.posts.begin(), bench.posts.end(),
                     [](const bench::Post& post) { return post.foot.castor.has_value(); });
}

}  // namespace

bench::Bench emptied(const bench::Bench& bench) {
  bench::Bench out = bench;
  out.machines.clear();
  out.loads.clear();
  for (bench::Sheet& sheet : out.sheets) sheet.stored.reset();
  return out;
}

bench::Bench bare_frame(const bench::Bench& bench) {
  bench::Bench out = emptied(bench);
  out.sheets.clear();
  out.braces.clear();
  // A ledger is on the wall before anything ends on it.
  if (bench::ledger_of(bench) == nullptr) out.wall.clear();
  for (bench::Post& post : out.posts) post.foot.fixed = false;
  return out;
}

double LooseRail::sag(double force, double times) const {
  const double E = times * in_si(timber.E_0_mean), G = times * in_si(timber.G_mean);
  const double I = width * depth * depth * depth / 12.0, A_s = 5.0 / 6.0 * width * depth;
  return force * span * span * span / (48.0 * E * I) + force * span / (4.0 * G * A_s);
}

double LooseRail::stress(double force) const {
  return 0.25 * force * span / (width * depth * depth / 6.0);
}

Proving::Proving(const bench::Bench& bench, const reference::Tables& tables)
    : tables_(tables), bare_(bare_frame(bench)), finished_(emptied(bench)) {
  find_rail(bench);
  find_pulls(bare_, Test::bare_along, Test::bare_across);
  find_top();
  find_pulls(finished_, Test::finished_along, Test::finished_across);
}

const std::optional<PullPlace>& Proving::pull(Test test) const { return pulls_[place_of(test)]; }
const std::string& Proving::why_not(Test test) const { return why_not_[place_of(test)]; }
void Proving::not_here(Test test, std::string why) { why_not_[place_of(test)] = std::move(why); }

std::optional<LooseRail> loose_rail(const model::Model& model, quantity::UnitSystem units) {
  const model::Part* longest = nullptr;
  for (const model::Part& part : model.parts.parts) {
    if (part.role == model::Role::rail && (!longest || part.span > longest->span)) longest = &part;
  }
  if (longest == nullptr) return std::nullopt;
  // Between posts a rail is no longer than its span. Whole 50 mm or inches: blocks are set by a
  // rule.
  const double step = units == quantity::UnitSystem::metric ? 0.05 : 0.0254;
  const double within = std::max(0.5 * in_si(longest->span), in_si(longest->span) - 0.1);
  const double span = std::max(step, step * std::floor(within / step + 1e-9));
  LooseRail rail{longest->name,         span,  in_si(longest->width),
                 in_si(longest->depth), false, longest->timber};
  // A short and deep rail sags too little to be read on a rule; on its wide face it sags more.
  constexpr double heavy = 400.0, readable = 2e-3;
  if (rail.depth > rail.width && rail.sag(heavy) < readable) {
    std::swap(rail.width, rail.depth);
    rail.flat = true;
  }
  return rail;
}

void Proving::find_rail(const bench::Bench& bench) {
  const Rig rig(bench, tables_, {}, plates_);
  if (rig.model()) rail_ = loose_rail(*rig.model(), bench.units);
  if (!rail_) not_here(Test::loose_rail, "it has no rail");
}

void Proving::find_pulls(const bench::Bench& state, Test along, Test across) {
  const Rig rig(state, tables_, {}, plates_);
  for (const Test test : {along, across}) {
    if (rolls(state) && state.wall.empty()) {
      not_here(test, "on castors it rolls away");
      continue;
    }
    const bool is_along = test == along;
    pulls_[place_of(test)] =
        rig.softest(is_along ? model::ShoveWay::along : model::ShoveWay::across);
    if (!pulls_[place_of(test)]) not_here(test, "it does not stand by itself in that state");
  }
}

void Proving::find_top() {
  if (finished_.analysis.sheets != bench::Analysis::Sheets::shell) {
    return not_here(Test::top_sag, "the file does not ask for sheets as plates");
  }
  std::vector<TopPlace> places;
  for (std::size_t s = 0; s < finished_.sheets.size(); ++s) {
    if (finished_.sheets[s].place != bench::SheetPlace::top) continue;
    for (const TopPlace& place : bays(finished_, s)) places.push_back(place);
  }
  // Of many alike bays a dozen will hold one that is as bad as any.
  constexpr std::size_t most = 12;
  if (places.size() > most) places.resize(most);
  bench::Bench laden = finished_;
  for (std::size_t i = 0; i < places.size(); ++i) {
    laden.loads.push_back(one_newton(places[i], i + 1));
  }
  const Rig rig(laden, tables_, {}, plates_);
  double worst = 0.0;
  for (std::size_t i = 0; i < places.size(); ++i) {
    const auto sag = rig.sinks(places[i], i, 100.0);
    if (!sag || *sag <= (1.0 + 1e-6) * worst) continue;
    worst = *sag;
    top_ = places[i];
  }
  if (!top_) return not_here(Test::top_sag, "its top has no whole bay to put a weight on");
  finished_.loads.push_back(one_newton(*top_, 1));
}

Proving::Moved Proving::one(const Asked& asked, const model::Scales& scales, const Rig* bare,
                            const Rig* finished) const {
  if (!why_not(asked.test).empty()) return {0.0, why_not(asked.test)};
  if (asked.test == Test::loose_rail) {
    const auto own = scales.pieces.find(rail_->name);
    const double times = scales.timber.value_or(1.0);
    return {rail_->sag(asked.force, own == scales.pieces.end() ? times : times * own->second), {}};
  }
  const auto moved =
      asked.test == Test::top_sag
          ? finished->sinks(*top_, 0, asked.force)
          : (is_bare(asked.test) ? bare : finished)->follows(*pull(asked.test), asked.force);
  if (!moved) return {0.0, moved.error().what};
  if (!(*moved > 0.0)) return {0.0, "it would not move"};
  return {*moved, {}};
}

std::vector<Proving::Moved> Proving::moves(const std::vector<Asked>& asked,
                                           const model::Scales& scales) const {
  std::optional<Rig> bare, finished;
  std::vector<Moved> all;
  for (const Asked& a : asked) {
    if (is_bare(a.test) && !bare) bare.emplace(bare_, tables_, scales, plates_);
    const bool is_finished = !is_bare(a.test) && a.test != Test::loose_rail;
    if (is_finished && !finished) finished.emplace(finished_, tables_, scales, plates_);
    all.push_back(one(a, scales, bare ? &*bare : nullptr, finished ? &*finished : nullptr));
  }
  return all;
}

}  // namespace standtrue::decide
