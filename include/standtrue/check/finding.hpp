#pragma once

#include <limits>
#include <optional>
#include <string>
#include <vector>

#include "standtrue/quantity/unit_text.hpp"
#include "standtrue/reference/source.hpp"

namespace standtrue::check {

/// Safety findings can say "do not load"; service findings only "carries, but ..."; a caution is
/// told and judges nothing; what is told beside warns of nothing either.
enum class Kind { safety, service, caution, told };

enum class Judgement {
  not_judged,  ///< data missing, or the rule out of its range; `why` says which
  satisfied,
  exceeded,
  depends,           ///< flips between soft and stiff joints
  outside_this_tool  ///< a listed caution
};

/// The line of the rod that a finding belongs to.
enum class Group { carry, joints, sheet, sag, sway, twist, hum, tip, slide, feet };

/// One check of one thing: the worst place and combination. Made at one bound of stiffness by
/// `check_all`; `decide::assess` merges soft, mean and stiff.
struct Finding {
  std::string id;  ///< stable: "bending/front-top-rail"
  Group group = Group::carry;
  Kind kind = Kind::safety;
  std::string sentence;  ///< what was checked and how it stands, plain words, no symbols
  std::string place;     ///< "front top rail, 940 mm from its left end"
  double demand = 0.0;   ///< SI; `unit` says of what
  double limit = 0.0;
  quantity::Kind unit = quantity::Kind::ratio;
  bool limit_is_least = false;  ///< the demand wants to be above the limit (a stiffness)
  double ratio = 0.0;           ///< 1 is the limit, more is worse; NaN if not judged
  /// Set by assess; a check that looks at one bound alone may bring a range of its own.
  double ratio_soft = 0.0, ratio_stiff = 0.0;
  double demand_soft = 0.0, demand_stiff = 0.0;  ///< set by assess
  /// With soft joints and low timber together; set by assess, NaN where that was not looked at.
  double ratio_poor = std::numeric_limits<double>::quiet_NaN();
  double demand_poor = std::numeric_limits<double>::quiet_NaN();
  /// Joint stiffness, as a share of the mean, at which the judgement turns; set by assess where it
  /// depends on joints.
  std::optional<double> turns_at;
  std::string measure;               ///< which measurement would settle what depends; set by assess
  std::optional<double> mesh_error;  ///< of the ratio, relative, estimated; set by assess
  Judgement judgement = Judgement::not_judged;
  std::string why;           ///< of not judged; or of a caution
  std::string rule;          ///< "EN 1995-1-1, 6.1.6, eq. (6.11) and (6.12)"
  reference::Source source;  ///< of the limit
  std::string combination;   ///< name of the governing Combination; empty for rigid statics
  struct HandCheck {
    std::string formula;  ///< "5 q L^4 / 384 E I + q L^2 / 8 G A_s"
    double value = 0.0;   ///< in `unit`
  };
  std::optional<HandCheck> hand_check;
  /// What the demand at mean joints is made of, where it has parts: "the sheet itself".
  struct Part {
    std::string of;
    double value = 0.0;
  };
  std::vector<Part> made_of;
  std::vector<std::string> working;  ///< lines for the engineer, with symbols and numbers
  std::string advice;                ///< what cures it, where that is known at once
};

/// satisfied up to 1, exceeded above, not judged where the ratio is not a number or negative.
[[nodiscard]] Judgement judge(double ratio);

}  // namespace standtrue::check
