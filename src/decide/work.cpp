#include "standtrue/decide/work.hpp"

namespace standtrue::decide {

Work Work::plain() {
  return {[](std::size_t n, const std::function<void(std::size_t)>& f) {
            for (std::size_t i = 0; i < n; ++i) f(i);
          },
          [](std::size_t, std::size_t) { return true; }};
}

}  // namespace standtrue::decide
