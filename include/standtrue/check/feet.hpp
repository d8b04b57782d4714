#pragma once

#include <vector>

#include "standtrue/check/check_all.hpp"

/// Feet and what they stand on. Ratings are working loads: held against loads with factors of one.
namespace standtrue::check {

/// The most loaded foot, by contact of all feet with the floor, against the rating of the foot and
/// against what a foot may bring to that floor: Purpose::service, and a person standing at the
/// worst place. On feet that are not levelled not less than half of everything.
/// Source (common practice): ratings are working loads; half of the load on one foot of four.
[[nodiscard]] std::vector<Finding> foot_load(const Answers& answers,
                                             const reference::Tables& tables);

/// Feet that leave the floor in use are named, with the load at which they do: the share of what
/// leads the loading, found by halving.
/// Source (ours): contact of feet that only press.
[[nodiscard]] std::vector<Finding> lifting_feet(const Answers& answers,
                                                const reference::Tables& tables);

/// What a bench that is fixed asks of its fixings, over all loads of use and of strength: the
/// largest pull on one and the largest force across it. Told, not judged: wall and floor are not
/// looked at.
/// Source (ours): forces that are told and not judged.
[[nodiscard]] std::vector<Finding> fixings(const Answers& answers, const reference::Tables& tables);

/// The bare stem of a foot under the shove: N/A + H e/W_pl <= f_y/gamma_M0, H the horizontal force
/// at the pad, e the free length, A the stress area, W_pl the plastic modulus of the thread's root.
/// Source (from memory): EN 1993-1-1, 6.2.1(7), the sum of shares, and 6.2.5(2), a class 1 bar.
[[nodiscard]] std::vector<Finding> stem_bending(const Answers& answers,
                                                const reference::Tables& tables);

/// Distance of the pads to the strips of floor that feet must keep off.
/// Source (ours): the strips and distances are the file's.
[[nodiscard]] std::vector<Finding> keep_off(const Answers& answers,
                                            const reference::Tables& tables);

}  // namespace standtrue::check
