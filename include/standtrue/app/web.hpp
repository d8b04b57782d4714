#pragma once

#include <string>

#include "standtrue/decide/work.hpp"

/// The browser's door: JSON in, JSON out, and nothing else. docs/web.md says what the texts hold.
/// Nothing that a request says can throw out of here.
namespace standtrue::app {

/// The answer to a request:
///     {"command": "check", "text": "standtrue: 1\n...", "picture": true}
[[nodiscard]] std::string web_answer(const std::string& request,
                                     const decide::Work& work = decide::Work::plain());

}  // namespace standtrue::app
