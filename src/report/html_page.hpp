#pragma once

#include <string>
#include <string_view>

#include "report/svg.hpp"
#include "standtrue/report/html.hpp"

/// The frame of a report: everything but what it says.
namespace standtrue::report {

/// A whole document round `body`.
[[nodiscard]] std::string document(std::string_view title, std::string_view body);

/// The strip on top of a sheet: what, of when, by whom, and a word in a box, which " stop" fills
/// and " wait" underlines.
[[nodiscard]] std::string title_block(const std::string& title, const std::string& says,
                                      const std::string& word, const std::string& planned,
                                      const Imprint& imprint, const char* word_class = "");

/// A drawing with its words below it; wide ones scroll in themselves on a small screen.
[[nodiscard]] std::string figure(const Svg& svg, std::string_view caption);

}  // namespace standtrue::report
