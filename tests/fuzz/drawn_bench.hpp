#pragma once

#include <cstdint>
#include <string>

namespace fuzz {

/// A bench file drawn by a fuzzer's bytes: real keys, and values that are mostly usual and now and
/// then beyond all sense. No bytes give a plain bench; `sheets` is the word of `analysis`.
[[nodiscard]] std::string drawn_bench(const std::uint8_t* data, std::size_t size,
                                      const std::string& sheets);

}  // namespace fuzz
