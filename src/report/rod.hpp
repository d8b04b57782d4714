#pragma once

#include <string>

/// The setting-out rod: margin on a scale of ratios. The knife line `||` is the limit; the pencil
/// smear `o` runs from the better to the worse answer, and `>` where it leaves the rod:
///     |......ooo...............||              clear of the line: good
///     |..................oooooo||oooo          astride: depends
///     |........................||    oooo>     past it: exceeded
namespace standtrue::report {

struct Rod {
  std::string before;  ///< paper and smear up to the knife line
  std::string knife;   ///< "||"
  std::string after;   ///< what lies past it
  [[nodiscard]] std::string plain() const { return "|" + before + knife + after; }
};

/// `cells` wide without its left edge, at least 8; the knife line stands at about three quarters.
/// An answer is never drawn on the wrong side of the line. Contract: 0 <= least <= greatest.
[[nodiscard]] Rod rod(double least, double greatest, int cells);

}  // namespace standtrue::report
