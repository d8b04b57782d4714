#include <fmt/format.h>

#include <algorithm>
#include <sstream>
#include <tuple>

#include "decide/catalogue.hpp"
#include "standtrue/decide/decide.hpp"

namespace standtrue::decide {

namespace {

/// Pairs are made of the singles that help most: more would take minutes.
constexpr std::size_t most_partners = 7;

bool contains(const std::vector<std::string>& all, const std::string& one) {
  return std::find(all.begin(), all.end(), one) != all.end();
}

/// Failures that the changed bench has and the file's bench had not.
std::size_t caused(const Figures& now, const Figures& before) {
  return static_cast<std::size_t>(
      std::count_if(now.failing.begin(), now.failing.end(),
                    [&](const std::string& id) { return !contains(before.failing, id); }));
}

/// No usual sheet gives it, though one gives the top that is drawn.
bool can_not_be_bought(const Option& option, const Figures& before) {
  return option.figures && !option.figures->uncut.empty() && before.uncut.empty();
}

bool cures(const Option& option) { return option.figures && option.figures->failing.empty(); }

auto cost(const Option& option) {
  return std::make_tuple(option.pieces, option.joints, option.figures.value().mass);
}

/// What is left to cure, worst first: what exceeds counts before what depends.
auto left(const Option& option, const Figures& before) {
  return std::make_tuple(option.figures->exceeded.size() + caused(*option.figures, before),
                         option.figures->failing.size(), option.pieces, option.joints);
}

std::vector<Option> cures_among(const std::vector<Option>& options) {
  std::vector<Option> found;
  std::copy_if(options.begin(), options.end(), std::back_inserter(found), cures);
  std::stable_sort(found.begin(), found.end(),
                   [](const Option& a, const Option& b) { return cost(a) < cost(b); });
  return found;
}

std::vector<Option> helpful(std::vector<Option> options, const Figures& before) {
  options.erase(
      std::remove_if(options.begin(), options.end(), [](const Option& o) { return !o.figures; }),
      options.end());
  std::stable_sort(options.begin(), options.end(), [&](const Option& a, const Option& b) {
    return left(a, before) < left(b, before);
  });
  return options;
}

std::vector<Option> pairs_of(const std::vector<Option>& best) {
  std::vector<Option> pairs;
  const std::size_t n = std::min(best.size(), most_partners);
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t j = i + 1; j < n; ++j) pairs.push_back(together(best[i], best[j]));
  }
  return pairs;
}

bool is_complete(const std::vector<Option>& options) {
  return std::all_of(options.begin(), options.end(),
                     [](const Option& o) { return o.figures.has_value() || !o.why.empty(); });
}

void keep(SideBySide& result, std::vector<Option> options, std::size_t most) {
  for (Option& option : options) {
    if (result.options.size() > most) return;
    result.options.push_back(std::move(option));
  }
}

/// A key by itself on each line, to be copied into the file as it stands.
void say_write(SideBySide& result, const Option& option) {
  std::istringstream keys(option.write);
  for (std::string key; std::getline(keys, key);) result.answer.push_back("Write: " + key);
}

}  // namespace

SideBySide improve(const document::Document& document, const bench::Bench& bench,
                   const reference::Tables& tables, const Work& work) {
  constexpr std::size_t most_told = 6;
  const Base base{document, bench, tables};
  SideBySide result;
  result.question = "What is the smallest change that cures it?";
  result.options.push_back(as_it_is(base, "as it is drawn"));
  assess_all(result.options, tables, work);
  if (!result.options[0].figures) return result;
  const Figures before = *result.options[0].figures;
  if (before.failing.empty()) {
    result.answer = {"Nothing fails: there is nothing to cure."};
    return result;
  }
  if (is_listed(document)) {
    result.answer = {"A bench listed part by part keeps its parts: change the file and check it."};
    return result;
  }
  std::vector<Option> singles = catalogue(base);
  assess_all(singles, tables, work);
  result.complete = is_complete(singles);
  singles.erase(std::remove_if(singles.begin(), singles.end(),
                               [&](const Option& o) { return can_not_be_bought(o, before); }),
                singles.end());
  std::vector<Option> found = cures_among(singles);
  const std::vector<Option> best = helpful(singles, before);
  if (!found.empty()) {
    result.answer = {fmt::format("One change is enough: {}.", found[0].name)};
    say_write(result, found[0]);
    keep(result, found, most_told);
    return result;
  }
  std::vector<Option> pairs = pairs_of(best);
  assess_all(pairs, tables, work);
  result.complete = result.complete && is_complete(pairs);
  found = cures_among(pairs);
  if (!found.empty()) {
    result.answer = {"No single change is enough; this pair is: " + found[0].name + "."};
    say_write(result, found[0]);
    keep(result, found, most_told);
    return result;
  }
  std::vector<Option> all = best;
  for (const Option& pair : helpful(pairs, before)) all.push_back(pair);
  all = helpful(all, before);
  result.answer = {"No change here, and no pair of them, cures it all."};
  if (!all.empty() && left(all[0], before) < left(result.options[0], before)) {
    result.answer.push_back(fmt::format("What helps most: {}; {} of {} failures stay.", all[0].name,
                                        all[0].figures->failing.size(), before.failing.size()));
  }
  keep(result, all, most_told);
  return result;
}

}  // namespace standtrue::decide
