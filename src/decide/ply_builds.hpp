#pragma once

#include <utility>
#include <vector>

#include "decide/alter.hpp"

/// Tops that `ply` sets beside the one that is drawn.
namespace standtrue::decide {

class TopBuilds {
 public:
  TopBuilds(const Base& base, const bench::Sheet& top);

  /// Of one layer two thicknesses thinner than the top is now to one thicker.
  [[nodiscard]] std::vector<Option> around();
  /// Of as many layers as it has now, two thinner to one thicker; of two about as thick if it has
  /// one.
  [[nodiscard]] std::vector<Option> of_layers() const;
  /// Of one layer the two next thicknesses on that side of what was given; none at the end.
  [[nodiscard]] std::vector<Option> thicker();
  [[nodiscard]] std::vector<Option> thinner();

  /// That a sheet is bought too narrow for one way of the grain, which is left out then: "across",
  /// "along"; empty where both ways can be cut, or neither can.
  [[nodiscard]] const char* left_out() const { return left_out_; }

 private:
  enum class Propped { not_at_all, as_drawn, once_a_bay };
  struct Build {
    quantity::Length thickness;
    int layers = 1;
    bool along = false;  ///< face grain
    Propped propped = Propped::not_at_all;
  };

  [[nodiscard]] Option option_of(const Build& build) const;
  [[nodiscard]] bool can_be_cut(bool along) const;
  [[nodiscard]] bool is_drawn(const Build& build) const;
  /// From two thicknesses below the one nearest to that, m, to one above it; the end not included.
  [[nodiscard]] std::pair<std::size_t, std::size_t> about(double wanted) const;
  void add(std::size_t thickness, int layers, std::vector<Option>& all) const;

  const Base& base_;
  const bench::Sheet& top_;
  std::vector<quantity::Length> thicknesses_;
  std::size_t from_ = 0, to_ = 0;  ///< of one layer, given so far
  const char* left_out_ = "";
  std::vector<bool> grains_;  ///< along the bench, or not
  std::vector<Propped> props_;
};

}  // namespace standtrue::decide
