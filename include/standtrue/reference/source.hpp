#pragma once

#include <string>
#include <string_view>
#include <vector>

/// Where a number comes from. No value leaves the reference room without one.
namespace standtrue::reference {

/// How well a value is known, best first.
enum class Status {
  seen,             ///< read in the document itself, or in two independent restatements of it
  second_hand,      ///< read in a text that restates the document
  from_memory,      ///< remembered, the page not opened; tests count these
  common_practice,  ///< what workshops and suppliers do; no document
  ours              ///< chosen or derived by this project; `where` says how
};

/// A default Source is empty and says nothing: a finding that carries one is a fault of ours.
struct Source {
  std::string key;    ///< "EN 338:2016", a key of the source records; empty for practice and ours
  std::string where;  ///< "Table 1"; for common_practice and ours the reason
  Status status = Status::ours;
};

/// One document, as listed in reference/sources.yaml.
struct SourceRecord {
  std::string key;
  std::string title;
  std::string edition;
  std::string read;  ///< how it was read
};

/// A single value with its source.
template <class T>
struct Sourced {
  T value{};
  Source source;
};

/// The source of a record that holds many values: one for all, and the exceptions by value name.
struct RecordSource {
  struct Exception {
    std::string value;  ///< the member's name, "f_c_90_k"; of a band "bend_soft"
    Source source;
  };
  Source whole;
  std::vector<Exception> exceptions;

  [[nodiscard]] const Source& of(std::string_view value) const;
};

/// "seen", "second hand", "from memory", "common practice", "ours".
[[nodiscard]] std::string_view to_text(Status status);

/// One line for people: "EN 338:2016, Table 1", "EN 1995-1-1, 6.1.7 (from memory)",
/// "common practice", "ours: a third to three times the mean".
[[nodiscard]] std::string citation(const Source& source);

}  // namespace standtrue::reference
