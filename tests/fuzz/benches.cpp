#include "tests/fuzz/benches.hpp"

#include <ctime>

#include "standtrue/bench/read.hpp"
#include "standtrue/report/report.hpp"
#include "tests/fuzz/answer_laws.hpp"
#include "tests/fuzz/drawn_bench.hpp"

namespace fuzz {

namespace {

using namespace standtrue;
using check::Judgement;

/// Told at the end: of many benches drawn not all are taken.
struct Tally {
  std::size_t drawn = 0, taken = 0, stand = 0, fall = 0, not_judged = 0, refused = 0, slow = 0;
  double slowest = 0.0;
  std::string slowest_text;
  ~Tally() {
    std::fprintf(
        stderr,
        "benches: %zu drawn, %zu taken: %zu stand, %zu do not, %zu not judged (%zu of them no "
        "answer at all); %zu took over 5 s, the slowest %.1f s:\n%s\n",
        drawn, taken, stand, fall, not_judged, refused, slow, slowest, slowest_text.c_str());
  }
};
Tally tally;

void hold_bounded(const decide::Bounded& at) {
  if (at.refusal) law(!at.refusal->what.empty(), "a refusal has its reason");
  if (!at.response) return;
  for (const auto& state : at.response->states) {
    if (state) {
      hold_state(*state);
    } else {
      law(!state.error().what.empty(), "a refusal has its reason");
    }
  }
}

void hold_finding(const check::Finding& f) {
  const std::string told = f.id + ": " + f.sentence;
  law(!f.sentence.empty() && !f.id.empty(), "a finding is named and told", told);
  if (f.kind == check::Kind::caution || f.kind == check::Kind::told) return;  // judges nothing
  if (f.judgement == Judgement::not_judged) {
    law(!f.why.empty(), "what is not judged is told why", told);
  }
  if (f.judgement == Judgement::satisfied) {
    law(f.ratio >= 0.0 && f.ratio <= 1.0, "what is satisfied has a ratio up to 1", told);
    law(std::isfinite(f.demand) && !std::isnan(f.limit), "what is satisfied has numbers", told);
  }
  if (f.judgement == Judgement::exceeded) law(f.ratio > 1.0, "what is exceeded is over 1", told);
  if (f.judgement != Judgement::depends) return;
  // Exceeded at one bound it depends, though nobody knows it at mean joints.
  const bool is_known =
      f.ratio >= 0.0 || f.ratio_soft > 1.0 || f.ratio_stiff > 1.0 || f.ratio_poor > 1.0;
  law(is_known, "what depends has a ratio", told);
}

void hold_assessment(const decide::Assessment& assessment) {
  for (const decide::Bounded* at : {&assessment.soft, &assessment.mean, &assessment.stiff,
                                    &assessment.poor, &assessment.after_creep}) {
    hold_bounded(*at);
  }
  law(!assessment.findings.empty() && !assessment.summary.empty(), "a bench has a verdict");
  for (const check::Finding& f : assessment.findings) {
    hold_finding(f);
    const bool is_safe = f.kind != check::Kind::safety || f.judgement == Judgement::satisfied ||
                         f.judgement == Judgement::outside_this_tool;
    law(is_safe || assessment.verdict != decide::Verdict::stands,
        "a bench stands when all that is for safety holds", f.id + ": " + f.sentence);
  }
  law(is_printable(report::text(assessment, {})), "the page has no control characters");
  law(!report::json(assessment, "fuzz.yaml", "fuzz").empty(), "the assessment goes into JSON");
}

void count(const decide::Assessment& assessment, double seconds, const std::string& text) {
  using decide::Verdict;
  ++tally.taken;
  if (assessment.verdict == Verdict::stands || assessment.verdict == Verdict::carries_but) {
    ++tally.stand;
  } else if (assessment.verdict == Verdict::not_judged) {
    ++tally.not_judged;
    tally.refused += assessment.mean.response ? 0 : 1;
  } else {
    ++tally.fall;
  }
  tally.slow += seconds > 5.0 ? 1 : 0;
  if (seconds <= tally.slowest) return;
  tally.slowest = seconds;
  tally.slowest_text = text;
}

}  // namespace

void hold_bench(const std::uint8_t* data, std::size_t size, const std::string& sheets) {
  const std::string text = drawn_bench(data, size, sheets);
  static const bool shows = std::getenv("FUZZ_SHOW") != nullptr;  // the bench of a kept input
  if (shows) std::fprintf(stderr, "%s", text.c_str());
  ++tally.drawn;
  const document::Reading parsed = document_of(text);
  law(parsed.document.has_value(), "a drawn bench is YAML", text);
  const bench::BenchReading reading = bench::read_bench(*parsed.document, tables());
  hold_diagnostics(reading.diagnostics, lines_of(text));
  law(reading.bench.has_value() != any_error(reading.diagnostics), "a bench or a fault");
  if (!reading.bench) return;
  const std::clock_t begin = std::clock();  // of this process alone, however busy the machine
  const decide::Assessment assessment = decide::assess(*reading.bench, tables());
  const double took = static_cast<double>(std::clock() - begin) / CLOCKS_PER_SEC;
  hold_assessment(assessment);
  count(assessment, took, text);
}

}  // namespace fuzz
