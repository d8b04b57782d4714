#include "decide/learning.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "decide/words.hpp"

namespace standtrue::decide {

using quantity::in_si;

namespace {

constexpr double contradicts_beyond = 3.0;  // deviations
constexpr double far_out_beyond = 3.0;
constexpr double hard_to_part = 0.7;  // correlation from which two can not be told apart (ours)

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

/// Those that this bench has a test for, as data.
void take_usable(const std::vector<bench::Reading>& readings, const reference::Tables& tables,
                 Learned& learned) {
  const std::vector<Told>& told = learned.learning.readings;
  for (std::size_t r = 0; r < readings.size(); ++r) {
    if (!told[r].why.empty()) continue;
    learned.asked.push_back({readings[r].test, told[r].force});
    Datum datum = datum_of(readings[r].test, told[r].force, told[r].moved, told[r].gauge, tables);
    datum.alike = static_cast<double>(
        std::count_if(readings.begin(), readings.end(),
                      [&](const bench::Reading& other) { return other.test == readings[r].test; }));
    learned.data.push_back(datum);
  }
}

std::optional<Fit> fitted(const Proving& proving, const Learned& learned, const Prior& prior,
                          const Work& work) {
  std::size_t solved = 0;
  const auto forecast = [&](const Logs& at) -> std::optional<std::vector<double>> {
    constexpr std::size_t about = 16;  // rounds of four
    ++solved;
    if (!work.keep_going(solved, std::max(about, solved + 1))) return std::nullopt;
    std::vector<double> logs;
    for (const Proving::Moved& moved : proving.moves(learned.asked, scales_at(at))) {
      if (!moved.why.empty()) return std::nullopt;
      logs.push_back(std::log(moved.by));
    }
    return logs;
  };
  std::optional<Fit> fit = learn(prior, learned.data, forecast);
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

void take_fit(Learned& learned, const Prior& prior) {
  const Fit& fit = *learned.fit;
  std::size_t used = 0;
  for (Told& t : learned.learning.readings) {
    if (!t.why.empty()) continue;
    t.fitted = std::exp(fit.log_foretold[used]);
    t.misfit = fit.misfit[used];
    t.contradicts = std::abs(t.misfit) > contradicts_beyond;
    const Logs left = left_by(prior, fit.slopes[used], learned.data[used].deviation());
    t.is_useless = true;
    for (std::size_t i = 0; i < 3; ++i) {
      if (left[i] < (1.0 - of_use) * prior.deviation[i]) t.is_useless = false;
    }
    ++used;
  }
  for (std::size_t i = 0; i < 3; ++i) learned.learning.known.push_back(known_of(prior, fit, i));
  learned.learning.timber_joints = fit.correlation(0, 1);
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

}  // namespace

bool Learned::is_clear() const {
  const std::vector<Told>& readings = learning.readings;
  const std::vector<Known>& known = learning.known;
  return !known.empty() && std::none_of(readings.begin(), readings.end(), [](const Told& t) {
    return t.contradicts || !t.why.empty();
  }) && std::none_of(known.begin(), known.end(), [](const Known& k) { return k.is_far_out; });
}

std::vector<std::string> Learned::narrowed() const {
  std::vector<std::string> kinds_of;
  for (const Known& k : learning.known) {
    if (k.is_narrowed) kinds_of.push_back(k.of);
  }
  return kinds_of;
}

Learned learned_from(const std::vector<bench::Reading>& readings, const Proving& proving,
                     const bench::Bench& bench, const reference::Tables& tables, const Work& work) {
  const Prior prior = usual(bench, tables);
  Learned learned;
  learned.learning.readings = told_of(proving, readings, prior);
  take_usable(readings, tables, learned);
  if (!learned.data.empty()) learned.fit = fitted(proving, learned, prior, work);
  if (learned.fit) take_fit(learned, prior);
  return learned;
}

std::vector<std::string> said_of(const Learned& learned, const bench::Bench& bench) {
  std::vector<std::string> answer;
  say_doubts(learned.learning, bench, answer);
  say_what_is_open(learned.learning, answer);
  if (!learned.fit && !learned.data.empty()) {
    answer.push_back("What would fit these readings was not found: they say nothing yet.");
  } else if (learned.fit && !learned.fit->settled) {
    answer.push_back("What fits these readings best was not found exactly.");
  }
  return answer;
}

}  // namespace standtrue::decide
