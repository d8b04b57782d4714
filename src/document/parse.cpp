#include <algorithm>
#include <string_view>
#include <utility>

#include "document/events.hpp"
#include "document/source_text.hpp"
#include "standtrue/document/document.hpp"

namespace standtrue::document {

Reading parse(std::string_view name, std::string_view text) {
  Reading reading;
  SourceText source = take_text(name, text, reading.diagnostics);
  if (!source.is_readable) return reading;
  Events events = read_events(source, reading.diagnostics);
  std::stable_sort(reading.diagnostics.begin(), reading.diagnostics.end(),
                   [](const Diagnostic& a, const Diagnostic& b) {
                     return std::pair(a.at.line, a.at.column) < std::pair(b.at.line, b.at.column);
                   });
  if (!events.is_complete) return reading;
  reading.document = Document{.name = std::move(source.name),
                              .lines = std::move(source.lines),
                              .root = std::move(events.root)};
  return reading;
}

}  // namespace standtrue::document
