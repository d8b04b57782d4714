// Text to quantity and back. The first byte chooses what is wanted of the rest.
#include "standtrue/quantity/unit_text.hpp"
#include "tests/fuzz/laws.hpp"

namespace {

using namespace standtrue::quantity;
using fuzz::law;

constexpr int kinds = static_cast<int>(Kind::moment_per_length) + 1;

void hold_fault(const TextFault& fault, std::string_view text) {
  law(!fault.what.empty(), "a fault says what is wrong");
  law(fault.offset <= text.size() && fault.length <= text.size() - fault.offset,
      "a fault lies inside the text", fault.what);
}

/// What is printed for people reads back as nearly the same, what is printed for machines as the
/// same.
void hold_value(double value, Kind kind) {
  law(std::isfinite(value), "a value is finite");
  const Parsed<double> again = parse_si(print_exact(value, kind), kind);
  law(again && *again == value, "an exact text reads back to the last bit",
      print_exact(value, kind));
  for (const UnitSystem system : {UnitSystem::metric, UnitSystem::imperial}) {
    const std::string shown = print(value, kind, system);
    const Parsed<double> read = parse_si(shown, kind);
    law(read.has_value(), "what is printed reads back", shown);
    // A sixteenth of an inch is told from a quarter inch on: half of it is an eighth of the value.
    law(std::abs(*read - value) <= 0.126 * std::abs(value), "what is printed is the value", shown);
  }
}

template <std::size_t n>
void hold_lengths(const Parsed<std::array<Length, n>>& lengths, std::string_view text) {
  if (!lengths) return hold_fault(lengths.error(), text);
  for (const Length& length : *lengths) law(std::isfinite(in_si(length)), "a length is finite");
}

void hold_run(std::string_view text) {
  const LengthRun run = find_length_run(text);
  law(run.offset <= text.size() && run.length <= text.size() - run.offset,
      "a run lies inside the text");
  if (run.length == 0) return;
  const std::string_view found = text.substr(run.offset, run.length);
  // It may look like lengths and be none, `3 in 12 in`: then it is told of, and inside.
  const Parsed<double> length = parse_si(found, Kind::length);
  const auto pair = parse_pair(found);
  const auto triple = parse_triple(found);
  if (length || pair || triple) return;
  hold_fault(length.error(), found);
  hold_fault(pair.error(), found);
  hold_fault(triple.error(), found);
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  if (size == 0) return 0;
  const std::string_view text = fuzz::text_of(data + 1, size - 1);
  const int wanted = data[0] % (kinds + 6);
  if (wanted < kinds) {
    const Kind kind = static_cast<Kind>(wanted);
    const Parsed<double> value = parse_si(text, kind);
    value ? hold_value(*value, kind) : hold_fault(value.error(), text);
  } else if (wanted == kinds) {
    const Parsed<double> value = parse_number(text);
    value ? law(std::isfinite(*value), "a number is finite") : hold_fault(value.error(), text);
  } else if (wanted == kinds + 1) {
    const Parsed<int> value = parse_count(text);
    if (!value) hold_fault(value.error(), text);
  } else if (wanted == kinds + 2) {
    hold_lengths(parse_pair(text), text);
  } else if (wanted == kinds + 3) {
    hold_lengths(parse_triple(text), text);
  } else if (wanted == kinds + 4) {
    hold_run(text);
  } else {
    (void)nearest(text, {"corner brackets", "bolted lap", "18 mm spruce plywood", "C24", ""});
  }
  return 0;
}
