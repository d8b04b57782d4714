#pragma once

#include <string>

#include "standtrue/model/model.hpp"

/// What keeps a rail or bearer from giving way sideways, beside its ends. Pieces joined to it by
/// more than a pin or screws in end grain keep it from turning there, and so both its edges. A
/// sheet that lies on it, screwed or glued, holds its upper edge at every screw, if it is fixed to
/// another rail or bearer too: stiff in its plane, it moves only with all of them. What presses a
/// rail along may move all that is joined to it, but no sheet: against that a bearer counts only
/// with one. Loose and upright sheets, knees and fixings to a wall hold nothing here, nor do sheets
/// that are not in the model as plates. Whether screws and brackets carry what it takes is not
/// looked at: N_d/50 in solid timber, N_d = (1 - k_crit) M_d/h.
namespace standtrue::check {

/// Greatest distances that are free of what holds; the span where nothing does.
struct Unheld {
  quantity::Length upper, lower;  ///< as a beam: of the edge that is pressed where it sags, hogs
  quantity::Length whole;         ///< as a column: kept from moving and from turning
  quantity::Length edge;          ///< as a column: its upper edge kept from moving
  std::size_t pieces = 0;         ///< joined to it that keep it from turning
  bool by_sheet = false;
  std::string upper_said, lower_said;  ///< "held at its ends only", "held by its ends, the top"
};

/// Of a rail or bearer; of a ledger its span, which is that between its screws.
/// Source (second hand): EN 1995-1-1, 6.3.3(5), the pressed edge held along its length.
/// Source (second hand): NDS 2018, 3.3.3, l_u between points of lateral support.
/// Source (from memory): EN 1995-1-1, 9.2.5, eq. (9.34) to (9.36), what a hold must carry.
/// Source (ours): which joints and sheets hold.
[[nodiscard]] Unheld unheld_of(const model::Model& model, model::PartId id);

/// Relative slenderness of a column that can only turn about its upper edge, which is held:
///     N_T = G_0,05 J/(I_p/A + (h/2)²);
/// that this also bends it sideways is left out, which is cautious.
/// Source (from memory): Timoshenko & Gere, Theory of Elastic Stability, buckling by torsion about
/// an enforced axis.
[[nodiscard]] double slenderness_about_edge(const model::Part& part,
                                            const reference::Tables& tables);

/// What lets it bear more; `hogs`: its lower edge is pressed. Where it would bend too far even if
/// it were held all along, `gives_way` is false.
[[nodiscard]] std::string sideways_cure(const model::Part& part, const Unheld& unheld, bool hogs,
                                        bool gives_way);

}  // namespace standtrue::check
