#include <algorithm>
#include <cmath>
#include <vector>

#include "standtrue/contract.hpp"
#include "standtrue/reference/panel.hpp"

// All numbers SI.
namespace standtrue::reference {
namespace {

using quantity::from_si;
using quantity::in_si;
using quantity::Stress;

/// The part of a ply above mid-thickness.
struct Layer {
  double bottom = 0.0;
  double top = 0.0;
  bool along = true;
};

/// Upper half of a symmetric layup, from mid-thickness outwards.
std::vector<Layer> upper_half(std::span<const Ply> plies) {
  double T = 0.0;
  for (const Ply& ply : plies) T += in_si(ply.thickness);
  std::vector<Layer> half;
  double z = -T / 2.0;
  for (const Ply& ply : plies) {
    const double top = z + in_si(ply.thickness);
    if (top > T * 1e-9) half.push_back({std::max(z, 0.0), top, ply.along});
    z = top;
  }
  return half;
}

bool is_symmetric(std::span<const Ply> plies) {
  for (std::size_t i = 0; i < plies.size(); ++i) {
    const Ply& a = plies[i];
    const Ply& b = plies[plies.size() - 1 - i];
    const double t = in_si(a.thickness);
    if (a.along != b.along || std::abs(t - in_si(b.thickness)) > 1e-6 * t) return false;
  }
  return true;
}

/// What the plies of one direction do, of both halves together.
struct Direction {
  double I = 0.0;            ///< second moment per width
  double A = 0.0;            ///< thickness of them all
  double z = 0.0;            ///< far face of the outermost
  double S = 0.0;            ///< first moment beyond the innermost cross ply; 0 if there are none
  double flexibility = 0.0;  ///< ∫ (S/I)²/G dz
};

Direction direction(const std::vector<Layer>& half, bool along, double G_along, double G_rolling) {
  Direction d;
  for (const Layer& layer : half) {
    if (layer.along != along) continue;
    d.I += 2.0 * (std::pow(layer.top, 3) - std::pow(layer.bottom, 3)) / 3.0;
    d.A += 2.0 * (layer.top - layer.bottom);
    d.z = std::max(d.z, layer.top);
  }
  expects(d.I > 0.0, "layup_values: plies along and across are both needed");

  double S = 0.0;  // first moment of the stressed plies outside the layer
  for (auto layer = half.rbegin(); layer != half.rend(); ++layer) {
    const double a = layer->bottom, b = layer->top;
    if (layer->along == along) {
      // S(z) = S + (b² - z²)/2 inside the ply; its square integrated from a to b.
      const double C = S + b * b / 2.0;
      const auto integral = [C](double z) {
        return C * C * z - C * std::pow(z, 3) / 3.0 + std::pow(z, 5) / 20.0;
      };
      d.flexibility += 2.0 * (integral(b) - integral(a)) / (d.I * d.I * G_along);
      S += (b * b - a * a) / 2.0;
    } else {
      d.flexibility += 2.0 * S * S * (b - a) / (d.I * d.I * G_rolling);
      d.S = S;  // the last one met is the innermost
    }
  }
  return d;
}

}  // namespace

PanelValues layup_values(std::span<const Ply> plies, const VeneerValues& veneer) {
  expects(plies.size() >= 3 && is_symmetric(plies),
          "layup_values: the layup must be symmetric and of at least three plies");
  for (const Ply& ply : plies) {
    expects(in_si(ply.thickness) > 0.0, "layup_values: a ply must have a thickness");
  }
  const double G_along = in_si(veneer.G_along), G_rolling = in_si(veneer.G_rolling);
  expects(G_along > 0.0 && G_rolling > 0.0, "layup_values: shear moduli must be positive");
  const std::vector<Layer> half = upper_half(plies);
  const double T = 2.0 * half.back().top;
  const double I = T * T * T / 12.0;
  const Direction along = direction(half, true, G_along, G_rolling);
  const Direction across = direction(half, false, G_along, G_rolling);

  const auto bending = [&](Stress f, const Direction& d) {
    return f * (d.I / I) * (T / 2.0 / d.z);
  };
  const auto rolling = [&](const Direction& d) {
    return d.S > 0.0 ? veneer.f_roll * (1.5 * d.I / (d.S * T)) : Stress{};
  };
  const auto planar = [&](const Direction& d) {
    return from_si<Stress>(1.2 / (d.flexibility * T));
  };

  PanelValues out;
  out.E_m_0 = veneer.E * (along.I / I);
  out.E_m_90 = veneer.E * (across.I / I);
  out.E_t_0 = veneer.E * (along.A / T);
  out.E_t_90 = veneer.E * (across.A / T);
  out.G_r_0 = planar(along);
  out.G_r_90 = planar(across);
  out.f_m_0_k = bending(veneer.f_m, along);
  out.f_m_90_k = bending(veneer.f_m, across);
  out.f_t_0_k = veneer.f_t * (along.A / T);
  out.f_t_90_k = veneer.f_t * (across.A / T);
  out.f_c_0_k = veneer.f_c * (along.A / T);
  out.f_c_90_k = veneer.f_c * (across.A / T);
  out.f_r_0_k = rolling(along);
  out.f_r_90_k = rolling(across);
  return out;
}

}  // namespace standtrue::reference
