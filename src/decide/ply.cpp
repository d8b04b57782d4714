#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "decide/alter.hpp"
#include "standtrue/decide/decide.hpp"
#include "standtrue/document/overlay.hpp"

namespace standtrue::decide {

namespace {

using quantity::in_si;

/// Two thinner and three thicker than now.
std::vector<quantity::Length> around(const std::vector<quantity::Length>& all,
                                     quantity::Length now) {
  const auto at = std::find_if(all.begin(), all.end(), [&](quantity::Length t) {
    return std::abs(in_si(t - now)) < 0.5e-3;
  });
  if (at == all.end()) return all;
  const auto place = at - all.begin();
  const auto from = std::max<std::ptrdiff_t>(0, place - 2);
  const auto to = std::min<std::ptrdiff_t>(static_cast<std::ptrdiff_t>(all.size()), place + 4);
  return {all.begin() + from, all.begin() + to};
}

struct Build {
  quantity::Length thickness;
  int layers = 1;
  bool along = false;  ///< face grain
  int bearers = 0;     ///< in each bay
};

Option option_of(const Base& base, const bench::Sheet& top, const Build& build) {
  const std::string sheet = fmt::format("{} {}", written(build.thickness), top.family.key);
  const std::string layers =
      build.layers > 1 ? fmt::format(", layers: {}, layers_joined: screwed", build.layers) : "";
  const std::string bearers =
      build.bearers > 0 ? fmt::format("bearers: {{count: {}}}", build.bearers) : "bearers: none";
  const std::string yaml = fmt::format("top: {{sheet: {}, grain: {}{}}}\n{}", sheet,
                                       build.along ? "along" : "across", layers, bearers);
  const std::string name = fmt::format(
      "{}{}, grain {}, {}", build.layers > 1 ? fmt::format("{} x ", build.layers) : "",
      written(build.thickness), build.along ? "along" : "across",
      build.bearers == 0
          ? "no bearers"
          : fmt::format("{} bearer{} a bay", build.bearers, build.bearers == 1 ? "" : "s"));
  // A top that is written as one word has no keys to keep.
  Option option = with_keys(base, name, yaml);
  option.pieces = build.bearers;
  option.joints = 2 * build.bearers;
  return option;
}

std::vector<Option> ply_candidates(const Base& base, const bench::Sheet& top) {
  std::vector<Option> all;
  for (const quantity::Length& t : around(thicknesses(top, base.tables), top.panel.nominal)) {
    for (const bool along : {false, true}) {
      for (const int bearers : {0, 1}) {
        all.push_back(option_of(base, top, {t, 1, along, bearers}));
      }
    }
  }
  const std::vector<quantity::Length> thin = thicknesses(top, base.tables);
  for (const quantity::Length& t : thin) {
    const bool is_half = std::abs(in_si(t) - 0.5 * in_si(top.panel.nominal)) < 2.6e-3;
    if (is_half) all.push_back(option_of(base, top, {t, 2, false, 0}));
  }
  return all;
}

bool is_of_the_top(const std::string& id) {
  return id.find("sheet") != std::string::npos || id.rfind("sag", 0) == 0 ||
         id.find("/top") != std::string::npos;
}

/// Nothing of the top, and nothing else that its change may spoil, fails.
bool passes(const Figures& figures, const Figures& own) {
  return std::all_of(figures.failing.begin(), figures.failing.end(), [&](const std::string& id) {
    const bool failed_before =
        std::find(own.failing.begin(), own.failing.end(), id) != own.failing.end();
    return failed_before && !is_of_the_top(id);
  });
}

/// Of what the sheets may: their strength or sag, the worse.
double used(const Figures& figures) {
  return std::max(figures.sheet ? figures.sheet->greatest : 0.0, figures.sag.value_or(0.0));
}

bool can_be_cut(const Figures& figures, const bench::Sheet& top) {
  return std::find(figures.uncut.begin(), figures.uncut.end(), top.name) == figures.uncut.end();
}

/// The fewest bearers, then the lightest, of those that pass; null if none.
template <class Wanted>
const Option* least_of(const std::vector<Option>& options, Wanted wanted) {
  const Option* least = nullptr;
  for (std::size_t i = 1; i < options.size(); ++i) {
    const Option& o = options[i];
    if (!o.figures || !passes(*o.figures, *options[0].figures) || !wanted(*o.figures)) continue;
    const auto cost = [](const Option& a) { return std::make_pair(a.pieces, a.figures->mass); };
    if (least == nullptr || cost(o) < cost(*least)) least = &o;
  }
  return least;
}

/// The lightest that passes and can be cut, with more bearers than `least`, if it is lighter.
const Option* lighter_on_bearers(const std::vector<Option>& options, const Option& least,
                                 const bench::Sheet& top) {
  const Option* found = nullptr;
  for (std::size_t i = 1; i < options.size(); ++i) {
    const Option& o = options[i];
    if (!o.figures || !passes(*o.figures, *options[0].figures)) continue;
    if (!can_be_cut(*o.figures, top)) continue;
    if (o.pieces <= least.pieces || !(o.figures->mass < least.figures->mass)) continue;
    if (!found || o.figures->mass < found->figures->mass) found = &o;
  }
  return found;
}

/// What fails beside the top may be why no top is enough: a frame that sways wrings its sheet.
std::string none_passes(const Figures& own) {
  const bool fails_besides = std::any_of(
      own.failing.begin(), own.failing.end(),
      [](const std::string& id) { return !is_of_the_top(id) && id.rfind("sway", 0) != 0; });
  if (fails_besides) {
    return "None of these is enough while the bench fails in other ways as well: cure those first, "
           "then ask again.";
  }
  return "None of these is enough: a bearer under the machine, or shorter bays first.";
}

/// One that no sheet is wide enough for is named only where nothing else will do.
std::vector<std::string> answer_of(const std::vector<Option>& options, const bench::Sheet& top) {
  const Option* any = least_of(options, [](const Figures&) { return true; });
  const Option* cut = least_of(options, [&](const Figures& f) { return can_be_cut(f, top); });
  std::vector<std::string> lines;
  if (any == nullptr) {
    lines.push_back(none_passes(*options[0].figures));
  } else {
    const Option& least = cut != nullptr ? *cut : *any;
    lines.push_back(fmt::format(
        "The least that passes: {}. Its sheets are used to {:.0f} % of what they may (strength or "
        "sag, the worse){}.",
        least.name, 100.0 * used(*least.figures),
        cut == nullptr ? "" : fmt::format("; {} to buy in all", least.figures->sheets)));
    if (const Option* propped = lighter_on_bearers(options, least, top)) {
      lines.push_back(fmt::format("Lighter, with {} to put in: {}.",
                                  propped->pieces == 1 ? std::string("a bearer")
                                                       : fmt::format("{} bearers", propped->pieces),
                                  propped->name));
    }
    if (cut == nullptr) {
      lines.push_back("No usual sheet is large enough for it: join it over a bearer.");
    } else if (any != cut) {
      lines.push_back(fmt::format(
          "Lighter would be: {}. But no usual sheet is so wide across its grain.", any->name));
    }
  }
  const Figures& own = *options[0].figures;
  lines.push_back(fmt::format("As it is drawn: {}{}, grain {}, used to {:.0f} %{}.",
                              top.layers > 1 ? fmt::format("{} x ", top.layers) : "",
                              written(top.panel.nominal), top.grain_along_x ? "along" : "across",
                              100.0 * used(own),
                              can_be_cut(own, top) ? "" : ", and no usual sheet can be cut so"));
  return lines;
}

}  // namespace

SideBySide ply(const document::Document& document, const bench::Bench& bench,
               const reference::Tables& tables, const Work& work) {
  const Base base{document, bench, tables};
  SideBySide result;
  result.question = "How thick must the top be?";
  result.options.push_back(as_it_is(base, "as it is drawn"));
  const bench::Sheet* top = top_of(bench);
  if (top == nullptr || is_listed(document)) {
    result.answer = {top == nullptr ? "This bench has no top."
                                    : "A bench listed part by part keeps its parts: change the "
                                      "sheet in the file and check it again."};
    return result;
  }
  for (Option& option : ply_candidates(base, *top)) result.options.push_back(std::move(option));
  assess_all(result.options, tables, work);
  result.complete = std::all_of(result.options.begin(), result.options.end(), [](const Option& o) {
    return o.figures.has_value() || !o.why.empty();
  });
  if (result.options[0].figures) result.answer = answer_of(result.options, *top);
  return result;
}

}  // namespace standtrue::decide
