#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "report/card_drawings.hpp"
#include "report/figures.hpp"
#include "report/pages.hpp"
#include "report/words.hpp"

namespace standtrue::report {

std::string of_thousand(const decide::Share& share, std::size_t drawn) {
  const double p = static_cast<double>(share.count) / static_cast<double>(drawn);
  const auto say = [](double q) {
    return 1000.0 * q < 9.95 ? fmt::format("{:.1f}", 1000.0 * q)
                             : fmt::format("{:.0f}", 1000.0 * q);
  };
  return fmt::format("{} ({} to {})", say(p), say(share.low), say(share.high));
}

namespace {

using decide::Odds;
using decide::Outcomes;
using decide::Share;

/// "About 6 in 10", "All but 3 in a thousand", "4 in a thousand", "None".
std::string in_words(const Share& share, std::size_t drawn) {
  const double p = static_cast<double>(share.count) / static_cast<double>(drawn);
  const auto per_mille = [](double q) { return std::max(1.0, std::round(1000.0 * q)); };
  if (share.count == drawn) return "All";
  if (share.count == 0) return "None";
  if (p > 0.95) return fmt::format("All but {:.0f} in a thousand", per_mille(1.0 - p));
  if (p < 0.05) return fmt::format("{:.0f} in a thousand", per_mille(p));
  return fmt::format("About {:.0f} in 10", std::clamp(std::round(10.0 * p), 1.0, 9.0));
}

/// "about 6 in 10", "997 in a thousand"; of a share that is neither all nor nothing.
std::string chance(const Share& share, std::size_t drawn) {
  const double p = static_cast<double>(share.count) / static_cast<double>(drawn);
  if (p > 0.05 && p < 0.95) return fmt::format("about {:.0f} in 10", std::round(10.0 * p));
  return fmt::format("{:.0f} in a thousand", std::clamp(std::round(1000.0 * p), 1.0, 999.0));
}

std::string name_of(const check::Finding& f) {
  const std::string group(group_key(f.group));
  return f.place.empty() ? group : fmt::format("{}: {}", group, f.place);
}

std::string answer(const Odds& odds) {
  const Outcomes& all = odds.outcomes;
  std::string text = fmt::format("{} of the benches that could be built from this file would stand",
                                 in_words(all.stand, odds.drawn));
  text += odds.left_out.empty() ? "." : ", leaving aside what is not drawn (below).";
  const auto add = [&](const Share& share, const char* what) {
    if (share.count == 0 || share.count == odds.drawn) return;
    text += fmt::format(" {} {}.", in_words(share, odds.drawn), what);
  };
  if (all.carry_but.count == odds.drawn) text += " All carry, but fail in service.";
  if (all.do_not_load.count == odds.drawn) text += " None should be loaded.";
  add(all.carry_but, "would carry, but fail in service");
  add(all.do_not_load, "should not be loaded");
  if (!odds.failing.empty()) {
    text += fmt::format(" What fails most often: {}.", name_of(odds.failing.front().finding));
  }
  return text;
}

/// Of one bench, which is built: no shares, but chances.
std::string answer_of_this(const Odds& odds) {
  const Outcomes& all = odds.outcomes;
  const auto is_all = [&](const Share& share) { return share.count == odds.drawn; };
  std::string text = "By what its readings say this bench ";
  if (is_all(all.stand)) {
    text += "is all but certain to stand";
  } else if (all.stand.count == 0) {
    text += "is all but certain not to stand";
  } else {
    text += fmt::format("stands with a chance of {}", chance(all.stand, odds.drawn));
  }
  text += odds.left_out.empty() ? "." : ", leaving aside what is not drawn (below).";
  const auto add = [&](const Share& share, const char* it, const char* that_it) {
    if (is_all(share)) text += fmt::format(" It {}.", it);
    if (share.count == 0 || is_all(share)) return;
    text += fmt::format(" The chance that it {} is {}.", that_it, chance(share, odds.drawn));
  };
  add(all.carry_but, "carries, but fails in service", "carries, but fails in service,");
  add(all.do_not_load, "should not be loaded", "should not be loaded");
  if (!odds.failing.empty()) {
    text += fmt::format(" What is likeliest to fail: {}.", name_of(odds.failing.front().finding));
  }
  return text;
}

/// What became of the readings, and why.
Page by_readings(const Odds& odds) {
  Page page;
  if (!odds.readings) return page;
  const decide::ByReadings& by = *odds.readings;
  page.heading("What the readings say");
  if (by.used) {
    page.line("  ", fmt::format("Drawn by what the readings of this bench say of its stiffness: {} "
                                "('standtrue prove' tells more).",
                                fmt::join(by.taught, ", ")));
  } else {
    page.line("  ", fmt::format("Not used: {}. Benches are drawn as they are without readings.",
                                !by.agree           ? "they do not agree, or not with this bench"
                                : by.taught.empty() ? "they tell nothing"
                                                    : "what they say was not found"));
  }
  for (const std::string& note : by.notes) page.line("  ", note);
  return page;
}

Page outcomes(const Odds& odds) {
  const bool is_one = odds.of_this_bench();
  Table table({is_one ? "chance in 1000" : "of 1000 benches", "each piece by itself",
               is_one ? "all its timber alike" : "all timber of a bench alike"},
              1);
  const auto row = [&](const char* name, const Share& own, const Share& alike) {
    table.add({name, of_thousand(own, odds.drawn), of_thousand(alike, odds.drawn)});
  };
  row(is_one ? "stands" : "stand", odds.outcomes.stand, odds.alike.stand);
  row(is_one ? "carries, but" : "carry, but", odds.outcomes.carry_but, odds.alike.carry_but);
  row("do not load", odds.outcomes.do_not_load, odds.alike.do_not_load);
  Page page;
  page.table(std::move(table));
  page.line("  ", "In brackets: bounds that hold with 95 %, with what the fit may be off.");
  if (!is_one) return page;
  const std::vector<std::string>& taught = odds.readings->taught;
  if (std::find(taught.begin(), taught.end(), "timber") != taught.end()) {
    page.line(
        "  ",
        "By itself a loose rail that was read tells of itself alone; alike it speaks for all.");
  }
  return page;
}

Page failing(const Odds& odds) {
  Page page;
  if (odds.failing.empty()) return page;
  Table table({"check", odds.of_this_bench() ? "fails, in 1000" : "fail, of 1000", "ratio: middle",
               "nine in ten"},
              1);
  constexpr std::size_t most = 8;
  const std::size_t shown = std::min(most, odds.failing.size());
  for (std::size_t i = 0; i < shown; ++i) {
    const decide::Failing& f = odds.failing[i];
    table.add({name_of(f.finding), of_thousand(f.share, odds.drawn),
               fmt::format("{:.2f}", f.ratio_median),
               fmt::format("{:.2f} to {:.2f}", f.ratio_low, f.ratio_high)});
  }
  page.heading(odds.of_this_bench() ? "What may fail" : "What fails");
  page.table(std::move(table));
  page.line("  ", fmt::format("A ratio of 1 is the limit.{}",
                              shown < odds.failing.size()
                                  ? fmt::format(" {} more fail less often, or by less (--json).",
                                                odds.failing.size() - shown)
                                  : ""));
  return page;
}

Page left_out(const Odds& odds) {
  Page page;
  if (odds.left_out.empty()) return page;
  page.heading("Not drawn");
  for (const check::Finding& f : odds.left_out) {
    const bool is_judged = f.judgement != check::Judgement::not_judged;
    const double least = std::min(f.ratio_soft, f.ratio_stiff);
    const double greatest = std::max(f.ratio_soft, f.ratio_stiff);
    const bool has_range = is_judged && std::isfinite(greatest) && greatest > 0.0;
    page.line("  ", fmt::format("{}: {}.", name_of(f),
                                has_range       ? share(least, greatest) + " the limit, by 'check'"
                                : is_judged     ? "it does not answer in all benches"
                                : f.why.empty() ? "not judged"
                                                : "not judged: " + f.why));
  }
  return page;
}

Page how(const Odds& odds) {
  const bool is_one = odds.of_this_bench();
  Page page;
  page.heading("How it was found");
  page.line("  ", fmt::format("Drawn are the stiffness of each piece of timber, of the joints and "
                              "of the sheets' screws{}. Not drawn: strength, whose scatter is in "
                              "the partial factors of the rules, loads, and the floor.",
                              is_one ? ", by what the readings of this bench say" : ""));
  const decide::Fitted& fit = odds.fit;
  page.line(
      "  ",
      fmt::format("{} {} (seed {}), their ratios by surfaces through {} that were solved. {} "
                  "others were drawn and solved in full: the ratios are off by {:.1f} % (root mean "
                  "square), {:.1f} % at worst, and {} of the {} come out with another verdict.",
                  odds.drawn, is_one ? "benches that this one may be" : "benches", odds.seed,
                  fit.solved, fit.held, 100.0 * fit.typical, 100.0 * fit.worst,
                  fit.other_verdict == 0 ? "none" : std::to_string(fit.other_verdict), fit.held));
  page.line("  ", is_one ? "It is the chance of this one bench, and of no other that is built from "
                           "the file. A planning aid, not a certificate."
                         : "How far joints scatter is our estimate: a pull on the finished bench "
                           "tells more ('standtrue prove'). A planning aid, not a certificate.");
  return page;
}

}  // namespace

Page page(const Odds& odds, const bench::Bench& bench) {
  Page page;
  page.heading("Odds of " + bench.title);
  if (!odds.why_none.empty()) {
    page.line("  ", "They can not be reckoned: " + odds.why_none + ".");
    return page;
  }
  if (!odds.complete) {
    page.line("  ", "Stopped before enough benches were solved: no answer.");
    return page;
  }
  page.line("  ", odds.of_this_bench() ? answer_of_this(odds) : answer(odds));
  if (odds.readings && !odds.readings->used) {
    page.line("  ", "The readings of the file are not used (below).");
  }
  page.gap();
  page.add(outcomes(odds));
  page.add(failing(odds));
  page.add(left_out(odds));
  page.add(by_readings(odds));
  page.add(how(odds));
  return page;
}

std::string text(const Odds& odds, const bench::Bench& bench, const Style& style) {
  return page(odds, bench).text(static_cast<std::size_t>(style.width));
}

}  // namespace standtrue::report
