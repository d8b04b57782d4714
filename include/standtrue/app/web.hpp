#pragma once

#include <cstddef>
#include <memory>
#include <string>

#include "standtrue/decide/work.hpp"

/// The browser's door: JSON in, JSON out, and nothing else. docs/web.md says what the texts hold.
/// Nothing that a request says can throw out of here.
namespace standtrue::app {

/// The answer to a request:
///     {"command": "check", "text": "standtrue: 1\n...", "picture": true}
[[nodiscard]] std::string web_answer(const std::string& request,
                                     const decide::Work& work = decide::Work::plain());

/// A machine that is carried about on the page: docs/web.md.
class WebMoving {
 public:
  /// {"text": ..., "machine": ...} as for `place`: where there is room, or why it can not be
  /// judged.
  [[nodiscard]] std::string open(const std::string& request,
                                 const decide::Work& work = decide::Work::plain());
  /// How it stands at one of them.
  [[nodiscard]] std::string at(std::size_t place) const;

 private:
  struct Inside;
  std::shared_ptr<const Inside> inside_;
};

}  // namespace standtrue::app
