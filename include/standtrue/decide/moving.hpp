#pragma once

#include <memory>
#include <optional>
#include <string>
#include <tl/expected.hpp>
#include <vector>

#include "standtrue/decide/place.hpp"

namespace standtrue::decide {

/// How a machine would stand at one place: at mean joints, by what depends on the place.
struct MovedTo {
  Stand stand = Stand::not_looked_at;
  std::string why;  ///< id of what governs
  std::string sentence;
  double ratio = 0.0;  ///< of that, 1 is the limit
  struct Sag {
    double demand = 0.0, limit = 0.0;  ///< m
  };
  std::optional<Sag> sag;  ///< under a machine, at once, the worst
};

/// A machine carried about on its top: factorised once, each place of a grid then judged in some
/// milliseconds. What a whole check adds is the bounds of joints and timber, shoves and vibration.
class Moving {
 public:
  /// Or why not. `tables` must live as long.
  [[nodiscard]] static tl::expected<Moving, std::string> make(const bench::Bench& bench,
                                                              std::size_t machine,
                                                              const reference::Tables& tables,
                                                              const Work& work);
  /// Where it finds room, the way round that it stands now.
  [[nodiscard]] const std::vector<bench::Machine>& places() const;
  /// Of the grid: each place is the middle of a cell.
  [[nodiscard]] quantity::Length cell_length() const;
  [[nodiscard]] quantity::Length cell_depth() const;
  /// Contract: place < places().size().
  [[nodiscard]] MovedTo at(std::size_t place) const;

 private:
  struct Inside;
  explicit Moving(std::shared_ptr<const Inside> inside) : inside_(std::move(inside)) {}
  std::shared_ptr<const Inside> inside_;
};

}  // namespace standtrue::decide
