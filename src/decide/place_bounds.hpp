#pragma once

#include <array>
#include <map>
#include <set>
#include <string>
#include <vector>

#include "decide/influence.hpp"
#include "decide/place_directly.hpp"
#include "standtrue/decide/assess.hpp"

namespace standtrue::decide {

/// A bench factorised once at mean joints: at once and after creep.
struct InfluenceBounds {
  Influence mean, after_creep;
  std::set<std::string> released;  ///< joints that gravity overloads
  solve::PlateCache plates;        ///< what other bounds have in common with these

  [[nodiscard]] static tl::expected<InfluenceBounds, std::string> make(
      const bench::Bench& bench, const reference::Tables& tables, const Elsewhere& elsewhere,
      const Work& work);
};

/// The same bench at every other bound.
struct OtherBounds {
  Influence soft, stiff, poor;

  [[nodiscard]] static tl::expected<OtherBounds, std::string> make(const bench::Bench& bench,
                                                                   const reference::Tables& tables,
                                                                   const Elsewhere& elsewhere,
                                                                   const InfluenceBounds& known,
                                                                   const Work& work);
};

/// A place by superposition at mean joints. `yields` where a ductile joint is overloaded that is
/// not let go: the frame is another one then. `may_turn` where another bound may turn the
/// judgement: joints three times as stiff draw no more than three times the moment, so below a
/// third of its strength nothing fails, and what is exceeded at mean joints stays so.
struct Superposed {
  AtBounds found;
  bool yields = false, may_turn = false;
};
[[nodiscard]] Superposed superposed(const InfluenceBounds& bounds, std::size_t place,
                                    const reference::Tables& tables, bool words);

/// `place` is that of `bounds`.
void add_bounds(AtBounds& found, const OtherBounds& bounds, std::size_t place,
                const reference::Tables& tables, bool words);

/// By how much the ratio of each safety check grows from mean joints to its worst bound. It hardly
/// changes with the place, so that a few places tell where the other bounds need not be solved.
/// What fails or can not be judged at another bound alone has no such ratio: it may matter
/// anywhere.
class Stretch {
 public:
  void see(const AtBounds& found);
  /// Whether any check of safety may come near its limit, a tenth allowed for what no place has
  /// shown.
  [[nodiscard]] bool may_matter(const std::vector<check::Finding>& mean) const;
  /// Those checks as they would be at their worst bound.
  [[nodiscard]] std::vector<check::Finding> estimated(
      const std::vector<check::Finding>& mean) const;

 private:
  std::map<std::string, double> most_;
  bool appears_ = false;  ///< some check, at a bound alone
};

/// Findings at mean joints alone, with something stored.
[[nodiscard]] std::vector<check::Finding> superposed_at_mean(
    const InfluenceBounds& bounds, std::size_t place,
    const std::optional<Influence::Stored>& stored, const reference::Tables& tables, bool words);
/// At another bound.
enum class OtherBound { soft, stiff, poor };
inline constexpr std::array<OtherBound, 3> other_bounds{OtherBound::soft, OtherBound::stiff,
                                                        OtherBound::poor};
[[nodiscard]] std::vector<check::Finding> superposed_at(
    const OtherBounds& bounds, OtherBound bound, std::size_t place,
    const std::optional<Influence::Stored>& stored, const reference::Tables& tables);

}  // namespace standtrue::decide
