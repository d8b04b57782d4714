// Reads a bench from standard input, and says its verdict and what is nearest to its limit or
// furthest past it.
#include <algorithm>
#include <cmath>
#include <iostream>
#include <iterator>
#include <string>

#include "standtrue/bench/read.hpp"
#include "standtrue/decide/assess.hpp"

using namespace standtrue;

std::string word_of(decide::Verdict verdict) {
  switch (verdict) {
    case decide::Verdict::stands:
      return "stands";
    case decide::Verdict::depends:
      return "depends";
    case decide::Verdict::carries_but:
      return "carries, but";
    case decide::Verdict::do_not_load:
      return "do not load";
    case decide::Verdict::not_judged:
      break;
  }
  return "not judged";
}

int main() {
  const std::string text(std::istreambuf_iterator<char>(std::cin), {});
  const document::Reading parsed = document::parse("bench", text);
  for (const Diagnostic& fault : parsed.diagnostics) std::cerr << to_text(fault);
  if (!parsed.document) return 2;

  const reference::Tables tables = reference::load_tables();
  const bench::BenchReading reading = bench::read_bench(*parsed.document, tables);
  for (const Diagnostic& fault : reading.diagnostics) std::cerr << to_text(fault);
  if (!reading.bench) return 2;

  const decide::Assessment assessment = decide::assess(*reading.bench, tables);
  const auto ratio = [](const check::Finding& finding) {  // NaN where it is not judged
    return std::isnan(finding.ratio) ? 0.0 : finding.ratio;
  };
  const auto largest = std::max_element(
      assessment.findings.begin(), assessment.findings.end(),
      [&](const check::Finding& a, const check::Finding& b) { return ratio(a) < ratio(b); });
  std::cout << word_of(assessment.verdict) << ": " << assessment.summary << '\n';
  if (largest != assessment.findings.end()) {
    std::cout << ratio(*largest) << " times the limit: " << largest->sentence << '\n';
  }
  return assessment.verdict == decide::Verdict::stands ? 0 : 1;
}
