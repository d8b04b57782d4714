#pragma once

#include <stdexcept>
#include <string>

namespace standtrue {

/// Stops at a bug of ours: throws std::logic_error when `condition` is false. Faults of a file are
/// Diagnostics and faults of a bench are Findings; neither comes through here. Only `app` catches
/// it.
inline void expects(bool condition, const char* message) {
  if (!condition) throw std::logic_error(message);
}

}  // namespace standtrue
