#pragma once

#include <optional>
#include <set>
#include <string>
#include <vector>

#include "decide/place_bounds.hpp"
#include "decide/placing.hpp"
#include "standtrue/decide/place.hpp"

namespace standtrue::decide {

/// A place that has room: where in the plan, and the machine there.
struct Candidate {
  std::optional<Spot> spot;  ///< none: where the file has it
  bench::Machine there;
  JudgedPlace judged;
  bool yields = false;
  bool is_seen_at_bounds = false;  ///< at all, by superposition
};

/// Looks at the places of a plan: by superposition, and by a solve of their own where that may not
/// do. The last candidate is the file's own place.
class PlaceSurvey {
 public:
  PlaceSurvey(const bench::Bench& bench, std::size_t machine, const reference::Tables& tables,
              const Work& work)
      : bench_(bench), machine_(machine), tables_(tables), work_(work) {}

  /// At mean joints everywhere; at the other bounds at one place in nine of `nx` to a row, and at
  /// all where these show that a check may come near its limit there. Why not, or nothing.
  [[nodiscard]] std::string superpose(const InfluenceBounds& bounds, std::size_t nx);
  /// Anew: where a joint yields, near the limit, and at mean joints ten others.
  [[nodiscard]] Confirmation confirm();
  /// Every one of them anew.
  void solve_all();
  /// Superposes without words: gives those places their sentences. Why not, or nothing.
  [[nodiscard]] std::string tell(const InfluenceBounds& bounds,
                                 const std::vector<std::size_t>& which);

  std::vector<Candidate> candidates;
  bool complete = true;                 ///< nobody said stop
  std::set<std::string> fails;          ///< ids that fail at the file's own place
  std::vector<std::string> not_judged;  ///< of safety, there

 private:
  template <class F>
  void for_those(const std::vector<std::size_t>& which, F f);
  [[nodiscard]] std::string look_at_bounds(std::vector<Superposed>& at,
                                           const std::vector<std::size_t>& which,
                                           const InfluenceBounds& known);
  [[nodiscard]] tl::expected<OtherBounds, std::string> bounds_at(
      const std::vector<std::size_t>& which, const InfluenceBounds& known) const;
  void note_own(const AtBounds& found);
  void solve_those(const std::vector<std::size_t>& which, bool is_first_look);
  void try_near(const std::vector<std::size_t>& which, Confirmation& confirmed);
  void try_others(const std::vector<std::size_t>& which, Confirmation& confirmed);

  const bench::Bench& bench_;
  std::size_t machine_;
  const reference::Tables& tables_;
  const Work& work_;
};

[[nodiscard]] bool is_failing(const check::Finding& f);

}  // namespace standtrue::decide
