#pragma once

#include <limits>
#include <optional>
#include <string>
#include <vector>

#include "standtrue/decide/assess.hpp"

/// Where on the top a machine may stand, and how much the top may carry where.
namespace standtrue::decide {

/// clear: all that depends on the place holds. care: a safety check hangs on how stiff joints and
/// timber turn out, or the sag is more than allowed. barred: a safety check is exceeded at mean
/// joints, or the pads do not find room.
enum class Stand { clear, care, barred, not_looked_at };

/// One place: what governs there and its ratio (1 is the limit).
struct PlaceStatus {
  Stand stand = Stand::not_looked_at;
  /// Id of the finding; or "edge", "cut-out" or the name of the machine that is in the way.
  std::string why;
  /// Over all bounds where it is of safety; far from the limit these are estimated from places that
  /// were judged at all of them. Zero without room.
  double ratio = 0.0;
  double mean_ratio = 0.0;  ///< at mean joints, the worst of safety and sag but for tipping
  bool has_room = true;     ///< the pads lie on the top and on no other machine's ground
  /// How far what governs lies from its limit, at mean joints or over all bounds, by superposition;
  /// tipping, which is exact, does not count.
  double off_limit = std::numeric_limits<double>::infinity();
  bool is_confirmed = false;  ///< solved anew at this very place
};

/// The machine one way round. Cells in rows from the front, each from the left.
struct PlaceGrid {
  bool turned = false;  ///< a quarter from how the file has it
  std::vector<PlaceStatus> at;
  [[nodiscard]] std::size_t count(Stand stand) const;
};

/// A cell of a grid over the top, and which way round.
struct Spot {
  std::size_t way = 0, cell = 0;
};

/// A finding that bars places or asks for care at some.
struct PlaceReason {
  Stand stand = Stand::barred;
  std::string id, sentence;  ///< of the worst of those places
  std::size_t places = 0;
  double ratio = 0.0;
};

/// The largest mass on a square patch in the middle of each cell, stored there for years beside all
/// that the file has, that keeps strength at every bound of joints and timber, and sag at mean
/// joints.
struct LoadPlan {
  std::size_t nx = 0, ny = 0;
  quantity::Length patch;
  double most = 0.0;             ///< kg: no more was tried
  std::vector<double> mass;      ///< kg; not a number where there is no sheet or nobody looked
  std::vector<double> mean;      ///< the same by mean joints alone: as much or more
  std::vector<std::string> why;  ///< per cell, id of what governs; empty at `most`
  std::string none;              ///< why there is no plan at all
};

/// Places that were solved anew, on a mesh of their own: at mean joints some, wherever they lie;
/// and of those whose governing ratio lies near the limit each that is nearer to it than twice what
/// any differed by.
struct Confirmation {
  std::size_t near_limit = 0, others = 0;
  std::size_t left = 0;        ///< near the limit, and further from it than that
  std::size_t changed = 0;     ///< whose status became another
  double furthest = 0.0;       ///< relative difference of the governing ratio at mean joints
  double furthest_near = 0.0;  ///< of those near the limit alone
};

struct PlacePlan {
  std::string machine;
  quantity::Mass mass;
  std::string sheet;
  quantity::Length x0, y0, length, depth;         ///< of the top
  std::size_t nx = 0, ny = 0;                     ///< cells; a place is the middle of one
  std::vector<PlaceGrid> ways;                    ///< as in the file, then turned a quarter
  bool is_alike_turned = false;                   ///< the second is the first
  std::vector<std::string> others;                ///< machines that stay
  std::vector<std::optional<std::size_t>> taken;  ///< per cell: which of them stands there
  PlaceStatus own;                                ///< where the file has it
  /// The clear place with the lowest ratio; none where that of the file is clear and no other is
  /// better by more than a hundredth of the limit.
  std::optional<Spot> best;
  std::vector<PlaceReason> reasons;     ///< those that bar most places first
  std::vector<std::string> not_judged;  ///< ids of safety checks that nobody could judge
  /// Ids of safety checks beside the plan's own that do not hold for the bench as the file has it:
  /// shoves, buckling and the like.
  std::vector<std::string> besides;
  /// Ids of those that hold there with little to spare: elsewhere they may not.
  std::vector<std::string> nearly;
  LoadPlan loads;
  Confirmation confirmed;
  std::vector<std::string> answer;  ///< in words
  std::string none;                 ///< why there is no plan
  bool complete = true;

  [[nodiscard]] quantity::Length x(std::size_t cell) const;  ///< of its middle
  [[nodiscard]] quantity::Length y(std::size_t cell) const;
};

/// The heaviest machine on a top, that with this name; or none.
[[nodiscard]] std::optional<std::size_t> machine_on_top(const bench::Bench& bench,
                                                        const std::string& name = "");

/// Contract: `machine` is one of the bench.
[[nodiscard]] PlacePlan place(const bench::Bench& bench, std::size_t machine,
                              const reference::Tables& tables, const Work& work);

}  // namespace standtrue::decide
