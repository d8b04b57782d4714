#pragma once

#include <span>
#include <string>
#include <vector>

#include "standtrue/quantity/quantity.hpp"
#include "standtrue/reference/factors.hpp"
#include "standtrue/reference/source.hpp"

namespace standtrue::reference {

struct Ply {
  quantity::Length thickness;
  bool along = true;  ///< grain along the face grain
};

/// Strengths and moduli of a sheet, referred to its full real thickness as if it were of one
/// material. 0 is along the face grain, 90 across it. A value of zero is not known: whatever
/// needs it can not be judged.
struct PanelValues {
  quantity::Stress E_m_0, E_m_90;  ///< bending, mean
  quantity::Stress E_t_0, E_t_90;  ///< in the plane, tension and compression, mean
  quantity::Stress G_v;            ///< in the plane (panel shear), mean
  quantity::Stress G_r_0, G_r_90;  ///< through the thickness (planar, rolling), mean
  quantity::Stress f_m_0_k, f_m_90_k;
  quantity::Stress f_t_0_k, f_t_90_k;
  quantity::Stress f_c_0_k, f_c_90_k;
  quantity::Stress f_v_k;              ///< panel shear
  quantity::Stress f_r_0_k, f_r_90_k;  ///< planar (rolling) shear
};

/// A sheet of one family and thickness.
struct Panel : PanelValues {
  std::string family;          ///< "spruce plywood"
  quantity::Length nominal;    ///< as it is sold
  quantity::Length thickness;  ///< as it measures, mean
  std::vector<Ply> plies;      ///< outside to outside; empty where the layup is not known
  quantity::Density rho_k;
  quantity::Density rho_mean;
  std::string note;  ///< what to know of these values; may be empty
  RecordSource source;
};

/// What holds for all thicknesses of a family.
struct PanelFamily {
  std::string key;  ///< "spruce plywood"
  std::vector<std::string> names;
  Material material = Material::plywood;
  ServiceClass wettest = ServiceClass::sc1;  ///< the wettest air it may be used in
  std::string note;                          ///< a caution for the report; may be empty
  RecordSource source;
};

/// What the plies of one wood bring to a layup.
struct VeneerValues {
  std::string key;  ///< "birch", "conifer"
  quantity::Stress E;
  quantity::Stress G_along, G_rolling;  ///< shear through the thickness, along and across a ply
  quantity::Stress f_m, f_t, f_c, f_roll;
  RecordSource source;
};

/// The values of a layup by the rule of parallel plies: only plies whose grain runs along a
/// direction carry stress in it. With T the thickness, I = T³/12 and I_dir the second moment of
/// those plies about mid-thickness, A_dir their area, z the far face of the outermost of them,
///     E_m = E I_dir/I      f_m = f (I_dir/I)(T/2)/z      E_t = E A_dir/T      f_t = f_t A_dir/T
///     f_r = f_roll 1.5 I_dir/(S T),  S the first moment of the plies of that direction beyond the
///     cross ply nearest to mid-thickness;  G_r from equal shear energy, ∑∫(S/I_dir)²/G dz
///     = 1.2/(G_r T).
/// For symmetric layups of at least three plies. Panel shear is not the rule's business: G_v and
/// f_v_k stay zero. A strength that `veneer` does not know stays zero.
/// Source (second hand): FPL-059, the rule of parallel plies, cross plies left out.
[[nodiscard]] PanelValues layup_values(std::span<const Ply> plies, const VeneerValues& veneer);

struct SheetSize {
  std::string key;  ///< "1220 x 2440 mm"
  quantity::Length width;
  quantity::Length length;
  Source source;
};

}  // namespace standtrue::reference
