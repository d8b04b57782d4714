#include <fmt/format.h>

#include <algorithm>
#include <limits>
#include <set>
#include <tuple>

#include "decide/ply_builds.hpp"
#include "standtrue/decide/decide.hpp"

namespace standtrue::decide {

namespace {

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

/// What a bought sheet gives, then the fewest bearers, then the lightest, of those that pass; null
/// if none.
const Option* least_of(const std::vector<Option>& options) {
  const Option* least = nullptr;
  for (const Option& o : options) {
    if (!o.figures || !passes(*o.figures, *options[0].figures)) continue;
    const auto cost = [](const Option& a) {
      return std::make_tuple(!a.figures->uncut.empty(), a.pieces, a.figures->mass);
    };
    if (least == nullptr || cost(o) < cost(*least)) least = &o;
  }
  return least;
}

/// The lightest that passes with more bearers than `least`, if it is lighter.
const Option* lighter_on_bearers(const std::vector<Option>& options, const Option& least) {
  const Option* found = nullptr;
  for (const Option& o : options) {
    if (!o.figures || !passes(*o.figures, *options[0].figures)) continue;
    if (o.pieces <= least.pieces || !(o.figures->mass < least.figures->mass)) continue;
    if (!found || o.figures->mass < found->figures->mass) found = &o;
  }
  return found;
}

bool fails_besides(const Figures& own) {
  return std::any_of(own.failing.begin(), own.failing.end(), [](const std::string& id) {
    return !is_of_the_top(id) && id.rfind("sway", 0) != 0;
  });
}

/// What fails beside the top may be why no top is enough: a frame that sways wrings its sheet.
std::string none_passes(const Figures& own) {
  if (fails_besides(own)) {
    return "None of these is enough while the bench fails in other ways as well: cure those first, "
           "then ask again.";
  }
  return "None of these is enough: a bearer under the machine, or shorter bays first.";
}

std::vector<std::string> answer_of(const std::vector<Option>& options, const bench::Sheet& top,
                                   const TopBuilds& builds) {
  std::vector<std::string> lines;
  const Figures& own = *options[0].figures;
  const Option* least_passing = least_of(options);
  if (least_passing == nullptr) {
    lines.push_back(none_passes(own));
  } else {
    const Option& least = *least_passing;
    const bool is_cut = can_be_cut(*least.figures, top);
    lines.push_back(fmt::format(
        "The least that passes, of the top alone: {}. The sheets are used to {:.0f} % of what "
        "they may (strength or sag, the worse){}.",
        &least == &options[0] ? "the one that is drawn" : least.name, 100.0 * used(*least.figures),
        is_cut ? fmt::format("; {} sheet{} to buy in all", least.figures->sheets,
                             least.figures->sheets == 1 ? "" : "s")
               : ""));
    if (const Option* propped = lighter_on_bearers(options, least)) {
      lines.push_back(propped->pieces > 0
                          ? fmt::format("Lighter, with {} to put in: {}.",
                                        propped->pieces == 1
                                            ? std::string("a bearer")
                                            : fmt::format("{} bearers", propped->pieces),
                                        propped->name)
                          : fmt::format("Lighter: {}.", propped->name));
    }
    if (!is_cut) lines.push_back("No usual sheet is large enough for it: join it over a bearer.");
  }
  if (*builds.left_out() != '\0') {
    lines.push_back(fmt::format("Grain {} is left out: no usual sheet is so wide that way.",
                                builds.left_out()));
  }
  lines.push_back(fmt::format("As it is drawn: {}{}, grain {}, used to {:.0f} %{}.",
                              top.layers > 1 ? fmt::format("{} x ", top.layers) : "",
                              written(top.panel.nominal), top.grain_along_x ? "along" : "across",
                              100.0 * used(own),
                              can_be_cut(own, top) ? "" : ", and no usual sheet can be cut so"));
  return lines;
}

bool is_looked_at(const Option& option) { return option.figures || !option.why.empty(); }

/// Adds and assesses tops until the least is among them: thicker ones while none passes without
/// more bearers, thinner ones while the thinnest of one layer still does.
class TopSearch {
 public:
  TopSearch(TopBuilds& builds, std::vector<Option>& options, const reference::Tables& tables,
            const Work& work)
      : builds_(builds), options_(options), tables_(tables), work_(work) {}

  void run() {
    std::vector<Option> first = builds_.around();
    const std::size_t of_one_layer = options_.size() + first.size();
    for (Option& option : builds_.of_layers()) first.push_back(std::move(option));
    if (!look_at(std::move(first))) return;
    for (std::size_t i = of_one_layer; i < options_.size(); ++i) layered_.insert(i);
    while (none_yet() && look_at(builds_.thicker())) {
    }
    while (may_be_thinner() && look_at(builds_.thinner())) {
    }
  }

 private:
  /// Whether there was anything to look at, and all of it was.
  bool look_at(std::vector<Option> more) {
    if (more.empty()) return false;
    for (Option& option : more) options_.push_back(std::move(option));
    const Work counted{work_.for_each, [this](std::size_t done, std::size_t of) {
                         return work_.keep_going(seen_ + done, seen_ + of);
                       }};
    assess_all(options_, tables_, counted);
    seen_ = options_.size();
    return std::all_of(options_.begin(), options_.end(), is_looked_at);
  }

  /// None passes without more bearers, and a thicker one might.
  [[nodiscard]] bool none_yet() const {
    const Option* least = least_of(options_);
    return (least == nullptr || least->pieces > 0) && !fails_besides(*options_[0].figures);
  }

  /// Of one layer nothing lighter than the least has failed on as many bearers.
  [[nodiscard]] bool may_be_thinner() const {
    const Option* least = least_of(options_);
    if (least == nullptr || least->pieces > 0) return false;
    for (std::size_t i = 0; i < options_.size(); ++i) {
      const Option& o = options_[i];
      if (layered_.count(i) > 0 || !o.figures || o.pieces != least->pieces) continue;
      if (o.figures->mass < least->figures->mass && !passes(*o.figures, *options_[0].figures)) {
        return false;
      }
    }
    return true;
  }

  TopBuilds& builds_;
  std::vector<Option>& options_;
  const reference::Tables& tables_;
  const Work& work_;
  std::size_t seen_ = 0;
  std::set<std::size_t> layered_;  ///< options of several layers
};

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
  TopBuilds builds(base, *top);
  TopSearch(builds, result.options, tables, work).run();
  result.complete = std::all_of(result.options.begin(), result.options.end(), is_looked_at);
  // The lightest first, below the one that is drawn.
  const auto mass = [](const Option& o) {
    return o.figures ? o.figures->mass : std::numeric_limits<double>::infinity();
  };
  std::stable_sort(result.options.begin() + 1, result.options.end(),
                   [&](const Option& a, const Option& b) { return mass(a) < mass(b); });
  if (result.options[0].figures) result.answer = answer_of(result.options, *top, builds);
  return result;
}

}  // namespace standtrue::decide
