#pragma once

#include <string>

#include "report/svg.hpp"

/// How lines, hatches and words look: graphite on paper white, chalk blue for what is measured,
/// raddle (red-brown) for what is over, each with a weight or a hatch of its own so that grey print
/// says the same.
namespace standtrue::report {

/// Custom properties and classes of drawings, for <style>.
[[nodiscard]] std::string ink_style();
/// The hatches, once in a page: an empty drawing that only defines them.
[[nodiscard]] std::string hatches();
/// A drawing as a file of its own, on paper, with its ink and hatches.
[[nodiscard]] std::string standalone(const Svg& svg);

}  // namespace standtrue::report
