#pragma once

#include <vector>

#include "standtrue/check/check_all.hpp"

/// A bench as a rigid body on its feet. Weights help with 0.9 and harm with 1.1 (a planned load
/// harms with 1.5); the edge is that of the convex outline of the pad centres, and of the ends of
/// posts that stand on the floor themselves.
namespace standtrue::check {

/// Tipping over the worst edge of the feet, overturning against restoring moment: by a push at the
/// worktop, by a person on the edge of the top, by a shove at the top of the tallest machine;
/// of one that stands loose no higher than where the shove would topple it.
/// Stored loads help only where the file gives them; a bench that nothing is planned on, and the
/// same bench with its machines gone, is told as a caution with its number. A bench that leans with
/// its floor (bench::lean_of) tips as it leans: all that presses on it stands fall times height
/// further downhill.
/// Source (second hand): EN 1990, Table A1.2(A), EQU.
/// Source (second hand): UBC 1997, 1621.1, the margin on the push of use.
[[nodiscard]] std::vector<Finding> tipping(const Answers& answers, const reference::Tables& tables);

/// A loose lying sheet over the outer faces of what carries it: 0.9 of its own weight and of what
/// stands inside against 1.1 of what stands beyond and 1.5 of a person at its corners.
/// Source (second hand): EN 1990, Table A1.2(A) (EQU).
/// Source (ours): the line that it tips over.
[[nodiscard]] std::vector<Finding> tipping_of_sheets(const Answers& answers,
                                                     const reference::Tables& tables);

/// Sliding: mu W (less the pull of a falling floor) against the push of use, by limits.sliding. The
/// friction of the worst foot counts for all.
/// Source (from memory): Coulomb's friction.
/// Source (ours): the margin.
[[nodiscard]] std::vector<Finding> sliding(const Answers& answers, const reference::Tables& tables);

/// Feet of raking legs at rest: what lasts pushes them apart by H, friction holds mu N, with the
/// margin of `sliding`. Strength is judged with feet that hold. None where all posts are upright:
/// what those push sideways with a frame lets go of, and stands.
/// Source (from memory): Coulomb's friction.
/// Source (ours): the margin.
[[nodiscard]] std::vector<Finding> spreading(const Answers& answers,
                                             const reference::Tables& tables);

/// Combinations without an answer: the bench tips under loads that no shove leads (exceeded), or
/// the solver refused (not judged, with its reason). One finding of each kind.
/// Source (ours): what has no answer is not judged.
[[nodiscard]] std::vector<Finding> unanswered(const Answers& answers,
                                              const reference::Tables& tables);

/// The sheet right under a load that the file adds: such a load has no patch, so not judged.
/// Source (ours): what has no patch has no stress.
[[nodiscard]] std::vector<Finding> under_added_loads(const Answers& answers,
                                                     const reference::Tables& tables);

}  // namespace standtrue::check
