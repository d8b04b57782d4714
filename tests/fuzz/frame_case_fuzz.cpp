// Any bytes as a frame case: it is read or refused, and what is read is written and read back bit
// for bit.
#include "standtrue/model/frame_case.hpp"
#include "tests/fuzz/laws.hpp"

namespace {

using namespace standtrue;
using fuzz::law;

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text = fuzz::text_of(data, size);
  const document::Reading parsed = fuzz::document_of(text);
  if (!parsed.document) return 0;
  const model::FrameCaseReading reading = model::read_frame_case(*parsed.document);
  fuzz::hold_diagnostics(reading.diagnostics, fuzz::lines_of(text));
  law(reading.frame_case.has_value() != any_error(reading.diagnostics), "a frame case or a fault");
  if (!reading.frame_case) return 0;
  const std::string written = write_frame_case(*reading.frame_case);
  const document::Reading back = document::parse("written.yaml", written);
  law(back.document.has_value(), "a frame case is written as YAML", written);
  const model::FrameCaseReading again = model::read_frame_case(*back.document);
  law(again.frame_case.has_value(), "a frame case reads back",
      again.diagnostics.empty() ? written : to_text(again.diagnostics.front()) + written);
  law(write_frame_case(*again.frame_case) == written, "a frame case reads back as it was", written);
  return 0;
}
