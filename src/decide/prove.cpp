#include "standtrue/decide/prove.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "decide/trials.hpp"
#include "decide/words.hpp"

namespace standtrue::decide {

using quantity::in_si;

namespace {

constexpr double contradicts_beyond = 3.0;  // deviations
constexpr double far_out_beyond = 3.0;
constexpr double hard_to_part = 0.7;  // correlation from which two can not be told apart (ours)

/// Readings that this bench has a test for, as data.
struct Usable {
  std::vector<std::size_t> readings;
  std::vector<Proving::Asked> asked;
  std::vector<Datum> data;
};

std::vector<Told> told_of(const Proving& proving, const std::vector<bench::Reading>& readings,
                          const Prior& prior) {
  std::vector<Proving::Asked> asked;
  for (const bench::Reading& reading : readings) {
    asked.push_back({reading.test, in_si(reading.force)});
  }
  const std::vector<Proving::Moved> moved = proving.moves(asked, scales_at(prior.mean));
  std::vector<Told> told;
  for (std::size_t r = 0; r < readings.size(); ++r) {
    Told t;
    t.name = bench::name_of(readings[r].test);
    t.force = in_si(readings[r].force);
    t.moved = in_si(readings[r].moves);
    t.gauge = in_si(readings[r].gauge);
    t.expected = moved[r].by;
    t.why = moved[r].why;
    told.push_back(std::move(t));
  }
  return told;
}

Usable usable(const std::vector<bench::Reading>& readings, const std::vector<Told>& told,
              const reference::Tables& tables) {
  Usable out;
  for (std::size_t r = 0; r < readings.size(); ++r) {
    if (!told[r].why.empty()) continue;
    out.readings.push_back(r);
    out.asked.push_back({readings[r].test, told[r].force});
    Datum datum = datum_of(readings[r].test, told[r].force, told[r].moved, told[r].gauge, tables);
    datum.alike = static_cast<double>(
        std::count_if(readings.begin(), readings.end(),
                      [&](const bench::Reading& other) { return other.test == readings[r].test; }));
    out.data.push_back(datum);
  }
  return out;
}

std::optional<Fit> fitted(const Proving& proving, const Usable& use, const Prior& prior,
                          const Work& work) {
  std::size_t solved = 0;
  const auto forecast = [&](const Logs& at) -> std::optional<std::vector<double>> {
    constexpr std::size_t about = 16;  // rounds of four
    ++solved;
    if (!work.keep_going(solved, std::max(about, solved + 1))) return std::nullopt;
    std::vector<double> logs;
    for (const Proving::Moved& moved : proving.moves(use.asked, scales_at(at))) {
      if (!moved.why.empty()) return std::nullopt;
      logs.push_back(std::log(moved.by));
    }
    return logs;
  };
  std::optional<Fit> fit = learn(prior, use.data, forecast);
  return work.keep_going(solved, solved) ? fit : std::nullopt;
}

Known known_of(const Prior& prior, const Fit& fit, std::size_t i) {
  const auto spread = [](double mean, double deviation, double sides) {
    return std::exp(mean + sides * nineteen_in_twenty * deviation);
  };
  Known k;
  k.of = kinds[i];
  k.usual_low = spread(prior.mean[i], prior.deviation[i], -1.0);
  k.usual = std::exp(prior.mean[i]);
  k.usual_high = spread(prior.mean[i], prior.deviation[i], 1.0);
  k.low = spread(fit.mean[i], fit.deviation(i), -1.0);
  k.median = std::exp(fit.mean[i]);
  k.high = spread(fit.mean[i], fit.deviation(i), 1.0);
  k.is_narrowed = fit.deviation(i) < (1.0 - of_use) * prior.deviation[i];
  k.is_far_out = std::abs(fit.mean[i] - prior.mean[i]) > far_out_beyond * prior.deviation[i];
  return k;
}

void take_fit(Learning& learning, const Usable& use, const Prior& prior, const Fit& fit) {
  for (std::size_t u = 0; u < use.readings.size(); ++u) {
    Told& t = learning.readings[use.readings[u]];
    t.fitted = std::exp(fit.log_foretold[u]);
    t.misfit = fit.misfit[u];
    t.contradicts = std::abs(fit.misfit[u]) > contradicts_beyond;
    const Logs left = left_by(prior, fit.slopes[u], use.data[u].deviation());
    t.is_useless = true;
    for (std::size_t i = 0; i < 3; ++i) {
      if (left[i] < (1.0 - of_use) * prior.deviation[i]) t.is_useless = false;
    }
  }
  for (std::size_t i = 0; i < 3; ++i) learning.known.push_back(known_of(prior, fit, i));
  learning.timber_joints = fit.correlation(0, 1);
}

/// Before, and where the readings agree after.
void judge(Learning& learning, const bench::Bench& bench, const reference::Tables& tables,
           const Work& work) {
  const bool is_clear =
      std::none_of(learning.readings.begin(), learning.readings.end(),
                   [](const Told& t) { return t.contradicts || !t.why.empty(); }) &&
      std::none_of(learning.known.begin(), learning.known.end(),
                   [](const Known& k) { return k.is_far_out; }) &&
      !learning.known.empty();
  const KnownScales scales = is_clear ? scales_of(learning.known) : KnownScales{};
  std::array<Assessment, 2> found;
  work.for_each(is_clear ? 2 : 1, [&](std::size_t i) {
    found[i] = assess(bench, tables, false, i == 1 ? &scales : nullptr);
  });
  learning.before = found[0].verdict;
  learning.summary_before = found[0].summary;
  if (!is_clear) return;
  learning.after = found[1].verdict;
  learning.summary_after = found[1].summary;
}

void say_doubts(const Learning& learning, const bench::Bench& bench,
                std::vector<std::string>& answer) {
  const auto length = [&](double value) {
    return quantity::print(value, quantity::Kind::length, bench.units);
  };
  for (const Told& t : learning.readings) {
    if (!t.why.empty()) {
      answer.push_back(fmt::format("The reading '{}' can not be used: {}.", t.name, t.why));
    } else if (t.contradicts) {
      answer.push_back(
          fmt::format("The reading '{}' does not agree with the rest: {} was read, {} would fit. "
                      "Read it again, "
                      "and look whether something rubbed, slipped or leaned.",
                      t.name, length(t.moved), length(t.fitted)));
    } else if (t.is_useless) {
      answer.push_back(
          fmt::format("The reading '{}' teaches nothing: on this bench it would come "
                      "out much the same whatever timber and joints are like.",
                      t.name));
    }
  }
  for (const Known& k : learning.known) {
    if (!k.is_far_out) continue;
    answer.push_back(
        fmt::format("The {} {} out {:.2g} times as stiff as usual, which is beyond belief: is "
                    "the bench built "
                    "as the file says, and are pull and gauge right?",
                    k.of, k.of == kinds[0] ? "comes" : "come", k.median));
  }
}

void say_what_is_open(const Learning& learning, std::vector<std::string>& answer) {
  if (learning.known.empty()) return;
  std::vector<std::string> open;
  for (const Known& k : learning.known) {
    if (!k.is_narrowed) open.push_back(k.of);
  }
  if (!open.empty()) {
    answer.push_back(
        fmt::format("Of the {} these readings tell nothing: as unknown as before.", joined(open)));
  }
  const bool is_mixed = learning.known[1].is_narrowed && !learning.known[0].is_narrowed;
  if (is_mixed || std::abs(learning.timber_joints) > hard_to_part) {
    answer.push_back("They do not tell soft timber from soft joints: the test 'loose rail' does.");
  }
}

std::vector<std::string> answer_without(const std::vector<Trial>& all) {
  std::vector<std::string> possible;
  for (const Trial& t : all) {
    if (t.why.empty()) possible.push_back(t.name);
  }
  if (possible.empty()) return {"No test can be made on this bench."};
  std::vector<std::string> answer = {fmt::format(
      "{} test{} can be made on this bench: {}. None of them can tip it, make it slide or overload "
      "it.",
      possible.size(), possible.size() == 1 ? "" : "s", joined(possible))};
  for (std::size_t i = 0; i < kinds.size(); ++i) {
    const Trial* best = nullptr;
    double least = 0.0;
    for (const Trial& t : all) {
      for (const Lesson& lesson : t.lessons) {
        if (lesson.of != kinds[i] || (best && lesson.after >= least)) continue;
        best = &t;
        least = lesson.after;
      }
    }
    answer.push_back(best ? fmt::format("Of the {} '{}' tells most.", kinds[i], best->name)
                          : fmt::format("None of them tells anything of the {}.", kinds[i]));
  }
  answer.push_back("Write what was read into the bench file under 'readings', and run this again.");
  return answer;
}

}  // namespace

KnownScales scales_of(const std::vector<Known>& known) {
  KnownScales scales;
  const auto at = [&](std::size_t i, double Known::*value) {
    return known[i].is_narrowed ? std::optional<double>(known[i].*value) : std::nullopt;
  };
  const auto median = &Known::median;
  scales.soft = {at(0, median), at(1, &Known::low), at(2, &Known::low)};
  scales.mean = {at(0, median), at(1, median), at(2, median)};
  scales.stiff = {at(0, median), at(1, &Known::high), at(2, &Known::high)};
  scales.poor = {at(0, &Known::low), at(1, &Known::low), at(2, &Known::low)};
  return scales;
}

bool ProvingPlan::is_sound() const {
  if (!learned) {
    return std::any_of(trials.begin(), trials.end(), [](const Trial& t) { return t.why.empty(); });
  }
  return learned->after.has_value();
}

ProvingPlan prove(const bench::Bench& bench, const std::vector<bench::Reading>& readings,
                  const reference::Tables& tables, const Work& work) {
  ProvingPlan plan;
  const Proving proving(bench, tables);
  plan.trials = trials(proving, bench, tables);
  if (readings.empty()) {
    plan.answer = answer_without(plan.trials);
    return plan;
  }
  const Prior prior = usual(bench, tables);
  Learning learning;
  learning.readings = told_of(proving, readings, prior);
  const Usable use = usable(readings, learning.readings, tables);
  std::optional<Fit> fit;
  if (!use.data.empty()) fit = fitted(proving, use, prior, work);
  if (fit) take_fit(learning, use, prior, *fit);
  judge(learning, bench, tables, work);
  say_doubts(learning, bench, plan.answer);
  say_what_is_open(learning, plan.answer);
  if (!fit && !use.data.empty()) {
    plan.answer.push_back("What would fit these readings was not found: they say nothing yet.");
  } else if (fit && !fit->settled) {
    plan.answer.push_back("What fits these readings best was not found exactly.");
  }
  plan.learned = std::move(learning);
  return plan;
}

}  // namespace standtrue::decide
