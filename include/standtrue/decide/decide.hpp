#pragma once

#include "standtrue/decide/compare.hpp"

/// What a builder came for: the index of decisions. Each alters the bench of a file, assesses what
/// comes out, and says what to do. None of them judges: that is check's.
namespace standtrue::decide {

/// Thickness, grain, layers and bearers of the top set beside each other. The answer names the
/// thinnest that passes and by what margin.
[[nodiscard]] SideBySide ply(const document::Document& document, const bench::Bench& bench,
                             const reference::Tables& tables, const Work& work);

/// Without any brace, and with each usual one; whether one is needed, and which way each helps.
[[nodiscard]] SideBySide brace(const document::Document& document, const bench::Bench& bench,
                               const reference::Tables& tables, const Work& work);

/// The smallest changes, then pairs of them, that cure every failure without causing another:
/// first what buys the fewest pieces, then what makes the fewest joints, then the lightest. The
/// options are the cures, best first, and after them what helps most if nothing is enough.
[[nodiscard]] SideBySide improve(const document::Document& document, const bench::Bench& bench,
                                 const reference::Tables& tables, const Work& work);

/// The bench and its `variants`, side by side.
[[nodiscard]] SideBySide variants(const document::Document& document, const bench::Bench& bench,
                                  const reference::Tables& tables, const Work& work);

}  // namespace standtrue::decide
