#include "standtrue/reference/source.hpp"

#include "standtrue/contract.hpp"

namespace standtrue::reference {

const Source& RecordSource::of(std::string_view value) const {
  for (const Exception& exception : exceptions) {
    if (exception.value == value) return exception.source;
  }
  return whole;
}

std::string_view to_text(Status status) {
  switch (status) {
    case Status::seen:
      return "seen";
    case Status::second_hand:
      return "second hand";
    case Status::from_memory:
      return "from memory";
    case Status::common_practice:
      return "common practice";
    case Status::ours:
      return "ours";
  }
  expects(false, "to_text: no such status");
  return "";
}

std::string citation(const Source& source) {
  const bool private_reason =
      source.status == Status::common_practice || source.status == Status::ours;
  if (private_reason) {
    std::string text(source.status == Status::ours ? "ours" : "common practice, no source");
    return source.where.empty() ? text : text + ": " + source.where;
  }
  std::string text = source.key;
  if (!text.empty() && !source.where.empty()) text += ", ";
  text += source.where;
  if (source.status != Status::seen) text.append(" (").append(to_text(source.status)).append(")");
  return text;
}

}  // namespace standtrue::reference
