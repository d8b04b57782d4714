#pragma once

#include <cstddef>
#include <cstdint>
#include <string>

namespace fuzz {

/// Draws a bench by these bytes, reads it and, if it is taken, judges it on the whole path. Holds
/// that nothing is thrown, that answers are finite and in equilibrium, that what is judged has a
/// number, and that the pages can be written.
void hold_bench(const std::uint8_t* data, std::size_t size, const std::string& sheets);

}  // namespace fuzz
