#include <algorithm>
#include <utility>
#include <vector>

#include "quantity/wording.hpp"
#include "standtrue/quantity/unit_text.hpp"

namespace standtrue::quantity {
namespace {

/// Edit distance in which swapping two neighbours counts once ("lenght").
std::size_t edits_between(std::string_view a, std::string_view b) {
  std::vector<std::size_t> before(b.size() + 1), last(b.size() + 1), now(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j) last[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    now[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t change = last[j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
      now[j] = std::min({last[j] + 1, now[j - 1] + 1, change});
      const bool swapped = i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1];
      if (swapped) now[j] = std::min(now[j], before[j - 2] + 1);
    }
    std::swap(before, last);
    std::swap(last, now);
  }
  return last[b.size()];
}

}  // namespace

std::string nearest(std::string_view word, const std::vector<std::string>& known) {
  constexpr std::size_t longest = 64;  // a longer word is no slip of a known one
  if (word.empty() || word.size() > longest) return "";
  const std::string lower = lower_case(word);

  // Case counts only between words that are equally near.
  std::string best;
  std::pair<std::size_t, std::size_t> fewest{(word.size() + 1) / 3 + 1, 0};
  for (const std::string& candidate : known) {
    if (candidate.size() > 2 * longest) continue;
    const std::pair<std::size_t, std::size_t> edits{edits_between(lower, lower_case(candidate)),
                                                    edits_between(word, candidate)};
    if (edits < fewest) {
      fewest = edits;
      best = candidate;
    }
  }
  return best;
}

}  // namespace standtrue::quantity
