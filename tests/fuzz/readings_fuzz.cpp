// Any bytes behind a fixed head, as the readings of a bench file.
#include "standtrue/bench/readings.hpp"
#include "tests/fuzz/laws.hpp"

namespace {

using namespace standtrue;
using fuzz::law;

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string text = "standtrue: 1\nsize: 1880 x 590 x 860 mm\nreadings:\n" +
                           std::string(fuzz::text_of(data, size));
  const document::Reading parsed = fuzz::document_of(text);
  if (!parsed.document) return 0;
  std::vector<Diagnostic> faults;
  const auto readings = bench::read_readings(*parsed.document, fuzz::tables(), faults);
  fuzz::hold_diagnostics(faults, fuzz::lines_of(text));
  for (const bench::Reading& reading : readings) {
    for (const double value : {quantity::in_si(reading.force), quantity::in_si(reading.moves),
                               quantity::in_si(reading.gauge)}) {
      law(std::isfinite(value) && value > 0.0, "a reading is a number over nought");
    }
  }
  return 0;
}
