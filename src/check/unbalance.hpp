#pragma once

#include <array>
#include <string>
#include <vector>

#include "standtrue/check/check_all.hpp"
#include "standtrue/solve/modes.hpp"

/// Steady shaking by a turning unbalance, by modal superposition. Doubles in SI (m, kg, Hz).
namespace standtrue::check {

/// What turns out of balance: m e (kg m), or at a constant e ω as rotors are balanced.
struct Unbalance {
  double mass = 0.0;            ///< kg
  double eccentricity = 0.0;    ///< m
  double from = 0.0, to = 0.0;  ///< Hz, the speeds that it is run at
};

/// Where the shaking is looked at: a place of the bench and how each mode moves it.
struct Watched {
  std::string name;
  bool is_pad = false;
  std::vector<std::array<double, 3>> moves;  ///< per mode
};
[[nodiscard]] std::vector<Watched> watched_places(const model::Model& model, std::size_t machine,
                                                  const std::vector<solve::Mode>& modes);

/// The shaking at one speed, the larger of what the pads and the edges do.
struct Shaking {
  double speed = 0.0;      ///< Hz
  double amplitude = 0.0;  ///< m, the largest of the three directions
  std::string where;
  /// rms velocity, m/s.
  [[nodiscard]] double velocity() const;
};

class Shaker {
 public:
  Shaker(const model::Model& model, std::size_t machine, const std::vector<solve::Mode>& modes,
         const Unbalance& unbalance);

  [[nodiscard]] Shaking at(double speed, double damping) const;
  /// With the modes at other frequencies, their shapes unchanged.
  [[nodiscard]] Shaking at(double speed, double damping,
                           const std::vector<double>& frequencies) const;
  [[nodiscard]] std::vector<double> frequencies() const;
  /// Speeds worth looking at: evenly spread by ratio, and every mode within.
  [[nodiscard]] std::vector<double> speeds(double from, double to) const;
  /// How far a mode alone shakes its worst place at its own speed, m.
  [[nodiscard]] double at_resonance(std::size_t mode, double damping) const;

 private:
  const std::vector<solve::Mode>& modes_;
  Unbalance unbalance_;
  std::vector<Watched> places_;
  std::vector<std::array<double, 2>> pushes_;  ///< per mode: φ^T of a unit force, both ways round
};

}  // namespace standtrue::check
