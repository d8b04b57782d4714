#pragma once

#include <cstddef>
#include <functional>

namespace standtrue::decide {

/// What long work may use, supplied by the caller: `for_each` calls f(0) to f(n-1), on several
/// threads if it likes; `keep_going(done, of)` tells how far it is and says whether to go on.
struct Work {
  std::function<void(std::size_t n, const std::function<void(std::size_t)>& f)> for_each;
  std::function<bool(std::size_t done, std::size_t of)> keep_going;
  /// One after the other, in silence.
  [[nodiscard]] static Work plain();
};

}  // namespace standtrue::decide
