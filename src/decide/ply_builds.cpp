#include "decide/ply_builds.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "standtrue/bench/read.hpp"
#include "standtrue/decide/parts_list.hpp"

namespace standtrue::decide {

namespace {

using quantity::in_si;

bool is_of_size(quantity::Length a, quantity::Length b) { return std::abs(in_si(a - b)) < 0.5e-3; }

}  // namespace

TopBuilds::TopBuilds(const Base& base, const bench::Sheet& top)
    : base_(base), top_(top), thicknesses_(thicknesses(top, base.tables)) {
  const bool along = can_be_cut(true), across = can_be_cut(false);
  if (along || !across) grains_.push_back(true);
  if (across || !along) grains_.push_back(false);
  if (along != across) left_out_ = along ? "across" : "along";
  // Bearers that somebody has placed are kept as they are, or all left out; those of a shelf stay.
  if (base.bench.bearers.empty()) {
    props_ = {Propped::not_at_all, Propped::once_a_bay};
  } else if (top.bearers.size() == base.bench.bearers.size()) {
    props_ = {Propped::not_at_all, Propped::as_drawn};
  } else {
    props_ = {Propped::as_drawn};
  }
}

std::vector<Option> TopBuilds::around() {
  const auto [from, to] = about(in_si(top_.panel.nominal) * top_.layers);
  from_ = from;
  to_ = to;
  std::vector<Option> all;
  for (std::size_t t = from_; t < to_; ++t) add(t, 1, all);
  return all;
}

std::vector<Option> TopBuilds::of_layers() const {
  const double now = in_si(top_.panel.nominal);
  std::vector<Option> all;
  if (top_.layers > 1) {
    const auto [from, to] = about(now);
    for (std::size_t t = from; t < to; ++t) add(t, top_.layers, all);
    return all;
  }
  for (std::size_t t = 0; t < thicknesses_.size(); ++t) {
    if (std::abs(in_si(thicknesses_[t]) - 0.5 * now) < 2.6e-3) add(t, 2, all);
  }
  return all;
}

std::pair<std::size_t, std::size_t> TopBuilds::about(double wanted) const {
  const auto off = [wanted](quantity::Length t) { return std::abs(in_si(t) - wanted); };
  const auto nearest =
      std::min_element(thicknesses_.begin(), thicknesses_.end(),
                       [&](quantity::Length a, quantity::Length b) { return off(a) < off(b); });
  const auto at = static_cast<std::size_t>(nearest - thicknesses_.begin());
  return {at - std::min<std::size_t>(at, 2), std::min(thicknesses_.size(), at + 2)};
}

std::vector<Option> TopBuilds::thicker() {
  std::vector<Option> all;
  const std::size_t end = std::min(thicknesses_.size(), to_ + 2);
  for (; to_ < end; ++to_) add(to_, 1, all);
  return all;
}

std::vector<Option> TopBuilds::thinner() {
  std::vector<Option> all;
  const std::size_t end = from_ - std::min<std::size_t>(from_, 2);
  while (from_ > end) add(--from_, 1, all);
  return all;
}

void TopBuilds::add(std::size_t thickness, int layers, std::vector<Option>& all) const {
  for (const bool along : grains_) {
    for (const Propped propped : props_) {
      const Build build{thicknesses_[thickness], layers, along, propped};
      if (!is_drawn(build)) all.push_back(option_of(build));
    }
  }
}

bool TopBuilds::is_drawn(const Build& build) const {
  const bool is_propped_so = build.propped == Propped::as_drawn ||
                             (build.propped == Propped::not_at_all && top_.bearers.empty());
  return is_propped_so && build.layers == top_.layers && build.along == top_.grain_along_x &&
         is_of_size(build.thickness, top_.panel.nominal);
}

/// All that a top has layers by is written, so that nothing of what is drawn stays.
Option TopBuilds::option_of(const Build& build) const {
  std::string layers;
  if (build.layers > 1) {
    const std::string joined = top_.layers > 1 ? written(top_.between_layers) : "screwed";
    layers = fmt::format(", layers: {}, layers_joined: {}", build.layers, joined);
  } else if (top_.layers > 1) {
    layers = ", layers: 1";
  }
  std::string yaml = fmt::format("top: {{sheet: {} {}, grain: {}{}}}", written(build.thickness),
                                 top_.family.key, build.along ? "along" : "across", layers);
  std::string name =
      fmt::format("{}{}, grain {}", build.layers > 1 ? fmt::format("{} x ", build.layers) : "",
                  written(build.thickness), build.along ? "along" : "across");
  int bearers = 0;  // more than there are
  if (build.propped == Propped::once_a_bay) {
    yaml += "\nbearers: {count: 1}";
    name += ", 1 bearer a bay";
    bearers = 1;
  } else if (build.propped == Propped::as_drawn) {
    if (!top_.bearers.empty()) name += ", bearers as drawn";
  } else {
    yaml += "\nbearers: none";
    name += ", no bearers";
    bearers = -static_cast<int>(top_.bearers.size());
  }
  Option option = with_keys(base_, name, yaml);
  option.pieces = bearers;
  option.joints = 2 * bearers;
  return option;
}

bool TopBuilds::can_be_cut(bool along) const {
  const Option option = option_of({top_.panel.nominal, 1, along, Propped::as_drawn});
  const bench::BenchReading reading = bench::read_bench(option.document, base_.tables);
  if (!reading.bench) return true;  // why it can not be is told where it is tried
  for (const SheetStock& bought : sheets_to_buy(*reading.bench)) {
    const auto& too_large = bought.too_large;
    if (std::find(too_large.begin(), too_large.end(), top_.name) != too_large.end()) return false;
  }
  return true;
}

}  // namespace standtrue::decide
