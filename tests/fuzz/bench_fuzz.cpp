// Any bytes as a bench file: a bench or a fault, and of a small bench a frame whose numbers are
// finite, that can be written and read back, and a list of parts.
#include "standtrue/bench/prices.hpp"
#include "standtrue/bench/read.hpp"
#include "standtrue/bench/variants.hpp"
#include "standtrue/decide/costs.hpp"
#include "standtrue/decide/parts_list.hpp"
#include "standtrue/model/frame_case.hpp"
#include "standtrue/model/idealise.hpp"
#include "tests/fuzz/laws.hpp"

namespace {

using namespace standtrue;
using fuzz::law;

bool is_small(const bench::Bench& bench) {
  return bench.posts.size() + bench.rails.size() + bench.bearers.size() + bench.sheets.size() +
             bench.machines.size() <
         40;
}

void hold_frame(const bench::Bench& bench) {
  const model::Idealisation made = model::idealise(bench, fuzz::tables());
  law(made.model || !made.faults.empty(), "a bench without a frame is told why");
  if (!made.model) return;
  model::FrameCase frame_case;
  frame_case.title = "a bench";
  frame_case.model = *made.model;
  const std::string text = write_frame_case(frame_case);  // throws for what is not finite
  const document::Reading reading = document::parse("frame.yaml", text);
  law(reading.document.has_value(), "a frame of a bench is YAML");
  const model::FrameCaseReading again = model::read_frame_case(*reading.document);
  law(again.frame_case.has_value(), "a frame of a bench reads back",
      again.diagnostics.empty() ? "" : to_text(again.diagnostics.front()));
}

void hold_parts(const bench::Bench& bench, const document::Document& document) {
  const decide::PartsList list = decide::parts_list(bench, fuzz::tables());
  std::vector<Diagnostic> faults;
  const auto prices = bench::read_prices(document, faults);
  fuzz::hold_diagnostics(faults, static_cast<int>(document.lines.size()));
  if (!prices || any_error(faults)) return;
  law(std::isfinite(decide::costs(list, *prices).sum), "what it costs is finite");
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text = fuzz::text_of(data, size);
  const document::Reading parsed = fuzz::document_of(text);
  if (!parsed.document) return 0;
  const bench::BenchReading reading = bench::read_bench(*parsed.document, fuzz::tables());
  fuzz::hold_diagnostics(reading.diagnostics, fuzz::lines_of(text));
  law(reading.bench.has_value() != any_error(reading.diagnostics), "a bench or a fault");
  std::vector<Diagnostic> faults;
  for (const bench::Variant& v : bench::read_variants(*parsed.document, fuzz::tables(), faults)) {
    fuzz::hold_diagnostics(v.reading.diagnostics, fuzz::lines_of(text));
  }
  fuzz::hold_diagnostics(faults, fuzz::lines_of(text));
  if (!reading.bench || !is_small(*reading.bench)) return 0;
  hold_frame(*reading.bench);
  hold_parts(*reading.bench, *parsed.document);
  return 0;
}
