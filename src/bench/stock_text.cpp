#include "standtrue/bench/stock_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "bench/own_strengths.hpp"
namespace standtrue::bench {

namespace {

using reference::Timber;

constexpr std::string_view beside_class = " with own values";  // as the reader calls it

bool is_given(const Timber& timber, std::string_view value) {
  const auto& all = timber.source.exceptions;
  return std::any_of(all.begin(), all.end(), [&](const auto& exception) {
    return exception.value == value && exception.source.where == "given by the bench file";
  });
}

std::string size_text(const Stock& stock) {
  const auto tenths = [](Length length) {
    return std::round(1e4 * quantity::in_si(length)) / 10.0;
  };
  return fmt::format("{:.6g} x {:.6g} mm", tenths(stock.thickness), tenths(stock.depth));
}

/// The class that values of the file stand beside; empty where it names none.
std::string class_of(const Timber& timber) {
  const std::size_t rest = timber.key.find(beside_class);
  return rest == std::string::npos ? "" : timber.key.substr(0, rest);
}

std::string stress_text(std::string_view key, Stress value) {
  return fmt::format("{}: {:.15g} N/mm2", key, quantity::in_si(value) / 1e6);
}

}  // namespace

std::string stock_text(const Stock& stock) {
  const Timber& timber = stock.timber;
  const bool is_own = timber.key == "own values" || !class_of(timber).empty();
  if (!is_own) return timber.key + " " + size_text(stock);
  std::string text = "{";
  if (!class_of(timber).empty()) text += fmt::format("class: \"{}\", ", class_of(timber));
  text += "section: " + size_text(stock);
  if (is_given(timber, "E_0_mean")) text += ", " + stress_text("E", timber.E_0_mean);
  if (is_given(timber, "E_0_05")) text += ", " + stress_text("E_low", timber.E_0_05);
  if (is_given(timber, "G_mean")) text += ", " + stress_text("G", timber.G_mean);
  if (is_given(timber, "rho_mean")) {
    text += fmt::format(", density: {:.15g} kg/m3", quantity::in_si(timber.rho_mean));
  }
  std::string strengths;
  for (const OwnStrength& own : own_strengths) {
    if (!is_given(timber, own.key)) continue;
    strengths += (strengths.empty() ? "" : ", ") + stress_text(own.key, timber.*own.value);
  }
  if (!strengths.empty()) text += ", strengths: {" + strengths + "}";
  return text + "}";
}

}  // namespace standtrue::bench
