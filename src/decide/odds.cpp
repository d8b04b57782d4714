#include "standtrue/decide/odds.hpp"

#include <algorithm>
#include <atomic>
#include <boost/math/distributions/binomial.hpp>
#include <cmath>
#include <limits>
#include <set>

#include "decide/bounded.hpp"
#include "decide/findings.hpp"
#include "decide/ratio_surface.hpp"
#include "decide/taught.hpp"

namespace standtrue::decide {

namespace {

using check::Finding;
using check::Judgement;
using check::Kind;
using Findings = std::vector<Finding>;

/// Solved in full to hold the surfaces against: their mean square is then known within a fifth.
constexpr std::size_t held_against = 12;
/// A check whose ratio stays below this at all points, out to three deviations, is not drawn.
constexpr double of_interest = 0.8;

/// Benches of a population, solved in full: sheets are condensed once for all of them.
class Workshop {
 public:
  Workshop(const bench::Bench& bench, const reference::Tables& tables)
      : population(bench, tables), bench_(bench), tables_(tables) {
    mean_ = solved(bench_, tables_, {}, plates_);
    released_ = let_go(bench_, tables_, {}, mean_, plates_);
  }

  /// Findings with everything at its mean, and what the mean alone shows.
  [[nodiscard]] Findings at_mean() {
    model::Assumptions crept{model::Bound::mean, true, released_};
    const Bounded after_creep = solved(bench_, tables_, crept, plates_, &mean_);
    return merge({}, judged(mean_, after_creep, true, tables_), {});
  }
  [[nodiscard]] bool has_answer() const { return mean_.response.has_value(); }
  [[nodiscard]] std::string why_none() const {
    if (mean_.refusal) return mean_.refusal->what;
    const std::vector<std::string>& faults = mean_.idealisation.faults;
    return faults.empty() ? "there is no frame" : faults.front();
  }

  [[nodiscard]] Findings build(const Drawn& drawn) const {
    solve::PlateCache plates = plates_.copy();
    model::Assumptions assumptions;
    assumptions.scales = population.scales(drawn);
    Bounded at_once = solved(bench_, tables_, assumptions, plates);
    assumptions.released = let_go(bench_, tables_, assumptions.scales, at_once, plates);
    assumptions.after_creep = true;
    const Bounded after_creep = solved(bench_, tables_, assumptions, plates, &at_once);
    return judged(at_once, after_creep, false, tables_);
  }

  const Population population;

 private:
  const bench::Bench& bench_;
  const reference::Tables& tables_;
  solve::PlateCache plates_;
  Bounded mean_;
  std::set<std::string> released_;
};

/// Benches by chance, by what readings say of this one where they do.
class Draws {
 public:
  Draws(const Population& population, const std::optional<Taught>& taught, std::uint64_t seed)
      : population_(population), taught_(taught), random_(seed), errors_(seed + apart) {}

  [[nodiscard]] Drawn next(bool alike) {
    Drawn drawn = population_.draw(random_, alike);
    if (taught_) taught_->tell(drawn, errors_, alike);
    return drawn;
  }

 private:
  /// Errors of readings have chances of their own, so that the population is drawn alike with
  /// readings and without. The number is the golden section's, as good as any.
  static constexpr std::uint64_t apart = 0x9E3779B97F4A7C15;

  const Population& population_;
  const std::optional<Taught>& taught_;
  boost::random::mt19937_64 random_, errors_;
};

/// What readings teach of the population, or nothing; what is said of them goes to `by`.
std::optional<Taught> taught_by(const std::vector<bench::Reading>& readings,
                                const bench::Bench& bench, const reference::Tables& tables,
                                const Population& population, const Work& work, ByReadings& by) {
  const Proving proving(bench, tables);
  const Learned learned = learned_from(readings, proving, bench, tables, work);
  by.notes = said_of(learned, bench);
  by.agree = learned.is_clear();
  by.taught = learned.narrowed();
  if (!by.agree || by.taught.empty()) return std::nullopt;
  auto lines = lines_of(learned, proving, population, work);
  by.used = lines.has_value();
  if (lines) return Taught(population, std::move(*lines));
  by.notes.push_back("How this bench would move a little stiffer was not found.");
  return std::nullopt;
}

/// The check of one finding, over the benches of a population.
struct Check {
  Finding finding;
  RatioSurface surface;
  double error = 0.0;  ///< of ln ratio, root mean square
};

/// ln of a check's ratio at every point; nothing where one has none.
std::optional<std::vector<double>> logs_of(const std::string& id,
                                           const std::vector<Findings>& points) {
  std::vector<double> logs;
  for (const Findings& point : points) {
    const Finding* f = with_id(point, id);
    if (f == nullptr || !(f->ratio > 0.0) || !std::isfinite(f->ratio)) return std::nullopt;
    logs.push_back(std::log(f->ratio));
  }
  return logs;
}

/// Whether it is far from its limit at every point.
bool holds_everywhere(const std::string& id, const std::vector<Findings>& points) {
  return std::all_of(points.begin(), points.end(), [&id](const Findings& point) {
    const Finding* f = with_id(point, id);
    return f == nullptr || f->ratio < of_interest;
  });
}

std::set<std::string> ids_of(const std::vector<Findings>& points) {
  std::set<std::string> ids;
  for (const Findings& point : points) {
    for (const Finding& f : point) {
      if (decides(f)) ids.insert(f.id);
    }
  }
  return ids;
}

/// The checks to draw; into `left_out` those that are found at the mean alone, or not at all
/// points, unless they hold.
std::vector<Check> checks_of(const std::vector<Findings>& points, const Findings& mean,
                             std::size_t pieces, Findings& left_out) {
  std::vector<Check> checks;
  const std::set<std::string> ids = ids_of(points);
  for (const std::string& id : ids) {
    if (holds_everywhere(id, points)) continue;
    const Finding* f = with_id(mean, id);
    for (auto point = points.begin(); f == nullptr; ++point) f = with_id(*point, id);
    if (const auto logs = logs_of(id, points)) {
      checks.push_back({*f, RatioSurface(*logs, pieces)});
    } else {
      left_out.push_back(*f);
    }
  }
  for (const Finding& f : mean) {
    if (decides(f) && ids.count(f.id) == 0 && f.judgement != Judgement::satisfied) {
      left_out.push_back(f);
    }
  }
  return checks;
}

enum class Outcome { stands, carries_but, do_not_load };

/// `shift`: errors added to every ln ratio.
Outcome outcome_of(const std::vector<Check>& checks, const std::vector<double>& logs,
                   double shift) {
  Outcome outcome = Outcome::stands;
  for (std::size_t i = 0; i < checks.size(); ++i) {
    if (!(logs[i] + shift * checks[i].error > 0.0)) continue;
    if (checks[i].finding.kind == Kind::safety) return Outcome::do_not_load;
    outcome = Outcome::carries_but;
  }
  return outcome;
}

std::vector<double> logs_at(const std::vector<Check>& checks, const Drawn& drawn) {
  std::vector<double> logs;
  for (const Check& c : checks) logs.push_back(c.surface.log_at(drawn));
  return logs;
}

/// Counts with the surfaces as they are, and a confidence of 95 % that they are better or worse.
using Counts = std::array<std::size_t, 3>;
constexpr std::array<double, 3> shifts = {0.0, -1.96, 1.96};

/// In doubles throughout: alike where long double is no wider (a browser), and valgrind, which has
/// none wider, can run the program.
using Binomial = boost::math::binomial_distribution<
    double, boost::math::policies::policy<boost::math::policies::promote_double<false>>>;

Share share_of(const Counts& counts, std::size_t drawn) {
  constexpr double beyond = 0.025;
  const auto n = static_cast<double>(drawn);
  Share share{counts[0], 1.0, 0.0};
  for (const std::size_t count : counts) {
    const auto k = static_cast<double>(count);
    share.low = std::min(share.low, Binomial::find_lower_bound_on_p(n, k, beyond));
    share.high = std::max(share.high, Binomial::find_upper_bound_on_p(n, k, beyond));
  }
  return share;
}

/// Of a sorted list.
double quantile(const std::vector<double>& sorted, double p) {
  return sorted[static_cast<std::size_t>(p * static_cast<double>(sorted.size() - 1))];
}

struct Drawing {
  Outcomes outcomes;
  std::vector<Failing> failing;
};

Drawing draw(const std::vector<Check>& checks, Draws draws, std::size_t drawn, bool alike) {
  std::array<Counts, 3> by_outcome{};
  std::vector<Counts> failures(checks.size(), Counts{});
  std::vector<std::vector<double>> all(checks.size());
  for (std::size_t k = 0; k < drawn; ++k) {
    const std::vector<double> logs = logs_at(checks, draws.next(alike));
    for (std::size_t v = 0; v < shifts.size(); ++v) {
      ++by_outcome[static_cast<std::size_t>(outcome_of(checks, logs, shifts[v]))][v];
      for (std::size_t i = 0; i < checks.size(); ++i) {
        if (logs[i] + shifts[v] * checks[i].error > 0.0) ++failures[i][v];
      }
    }
    for (std::size_t i = 0; i < checks.size(); ++i) all[i].push_back(logs[i]);
  }
  Drawing result;
  result.outcomes = {share_of(by_outcome[0], drawn), share_of(by_outcome[1], drawn),
                     share_of(by_outcome[2], drawn)};
  for (std::size_t i = 0; i < checks.size(); ++i) {
    if (failures[i][0] == 0) continue;
    std::sort(all[i].begin(), all[i].end());
    result.failing.push_back({checks[i].finding, share_of(failures[i], drawn),
                              std::exp(quantile(all[i], 0.05)), std::exp(quantile(all[i], 0.5)),
                              std::exp(quantile(all[i], 0.95))});
  }
  std::stable_sort(result.failing.begin(), result.failing.end(),
                   [](const Failing& a, const Failing& b) {
                     if (a.share.count != b.share.count) return a.share.count > b.share.count;
                     return a.ratio_median > b.ratio_median;
                   });
  return result;
}

/// What the surfaces say of benches that were solved in full; sets their errors.
Fitted hold_against(std::vector<Check>& checks, const std::vector<Drawn>& drawn,
                    const std::vector<Findings>& in_full) {
  Fitted fit;
  fit.held = drawn.size();
  std::vector<std::vector<double>> true_logs(drawn.size());
  double all = 0.0;
  for (Check& c : checks) {
    double sum = 0.0, measured = 0.0;
    for (std::size_t k = 0; k < drawn.size(); ++k) {
      const Finding* f = with_id(in_full[k], c.finding.id);
      const double log_ratio = f ? std::log(f->ratio) : -std::numeric_limits<double>::infinity();
      true_logs[k].push_back(log_ratio);
      const double told = c.surface.log_at(drawn[k]);
      double off = told - log_ratio;
      if (!std::isfinite(log_ratio)) {
        // What a bench lacks, or exceeds without end, is at no distance: on the wrong side of the
        // limit a surface is at least as far off as the limit.
        const bool holds = log_ratio < 0.0;
        if (holds == (told <= 0.0)) continue;
        off = told;
      }
      sum += off * off;
      measured += 1.0;
      fit.worst = std::max(fit.worst, std::abs(std::expm1(off)));
    }
    c.error = measured > 0.0 ? std::sqrt(sum / measured) : 0.0;
    all += c.error * c.error;
  }
  if (!checks.empty()) fit.typical = std::sqrt(all / static_cast<double>(checks.size()));
  for (std::size_t k = 0; k < drawn.size(); ++k) {
    const Outcome told = outcome_of(checks, logs_at(checks, drawn[k]), 0.0);
    if (told != outcome_of(checks, true_logs[k], 0.0)) ++fit.other_verdict;
  }
  return fit;
}

/// Findings of each; none when the work is stopped.
std::vector<Findings> built(const Workshop& workshop, const std::vector<Drawn>& benches,
                            const Work& work) {
  std::vector<Findings> found(benches.size());
  std::atomic<std::size_t> done{0};
  std::atomic<bool> stopped{false};
  work.for_each(benches.size(), [&](std::size_t k) {
    if (stopped) return;
    found[k] = workshop.build(benches[k]);
    if (!work.keep_going(++done, benches.size())) stopped = true;
  });
  if (stopped) found.clear();
  return found;
}

}  // namespace

Odds odds(const bench::Bench& bench, const std::vector<bench::Reading>& readings,
          const reference::Tables& tables, const Work& work, std::size_t drawn,
          std::uint64_t seed) {
  Odds out;
  out.drawn = drawn;
  out.seed = seed;
  Workshop workshop(bench, tables);
  if (!workshop.has_answer()) {
    out.why_none = workshop.why_none();
    return out;
  }
  const Findings mean = workshop.at_mean();
  const Population& population = workshop.population;
  std::optional<Taught> taught;
  if (!readings.empty()) {
    taught = taught_by(readings, bench, tables, population, work, out.readings.emplace());
  }
  std::vector<Drawn> points = points_of_surface(population.pieces.size());
  out.fit.solved = points.size();
  Draws others(population, taught, ~seed);  // none of those that are counted
  std::vector<Drawn> held;
  for (std::size_t k = 0; k < held_against; ++k) held.push_back(others.next(k % 2 == 1));
  points.insert(points.end(), held.begin(), held.end());
  std::vector<Findings> found = built(workshop, points, work);
  if (found.empty()) {
    out.complete = false;
    return out;
  }
  const auto first_held = found.begin() + static_cast<std::ptrdiff_t>(out.fit.solved);
  const std::vector<Findings> in_full(first_held, found.end());
  found.erase(first_held, found.end());
  std::vector<Check> checks = checks_of(found, mean, population.pieces.size(), out.left_out);
  const std::size_t solved_benches = out.fit.solved;
  out.fit = hold_against(checks, held, in_full);
  out.fit.solved = solved_benches;
  const Draws draws(population, taught, seed);
  Drawing by_itself = draw(checks, draws, drawn, false);
  out.outcomes = by_itself.outcomes;
  out.failing = std::move(by_itself.failing);
  out.alike = draw(checks, draws, drawn, true).outcomes;
  return out;
}

}  // namespace standtrue::decide
