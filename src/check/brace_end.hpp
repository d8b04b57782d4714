#pragma once

#include <string>
#include <vector>

#include "standtrue/check/fasteners.hpp"
#include "standtrue/model/model.hpp"

/// The end of a brace as what resists its pull and what its push.
namespace standtrue::check {

struct Mode {
  std::string name;
  Force R_k;             ///< along the brace
  double gamma_M = 0.0;  ///< of the timber where the timber gives; zero: that of connections
};
struct Way {
  std::vector<Mode> modes;
  std::string why;  ///< not judged
};
struct BraceEndStrength {
  Way pulled, pushed;
  std::string advice;
  std::vector<std::string> working;
};

/// Where a brace meets a piece.
struct Meeting {
  const model::Part* brace = nullptr;
  const model::Part* onto = nullptr;
  double angle = 0.0;                   ///< between the brace and the grain of the piece, 0 to π/2
  Length through;                       ///< of the piece, along a bolt
  Length across;                        ///< of the piece, square to its grain and to the bolt
  Length to_pulled_end, to_pushed_end;  ///< from the brace's line to the end of the piece that it
                                        ///< pulls towards, and the one that it pushes towards
};
[[nodiscard]] Meeting meeting_of(const model::Model& model, const model::BraceEnd& end);

/// Bolts lie in one line along the brace, as near as they may; the brace is taken to run on past
/// the last one as far as its pull asks (told). As many count as keep their distances to the edges
/// of the piece. Without bolts or screws an end that stands against the piece can be pressed.
/// Source (second hand): EN 1995-1-1, 6.1.2, 6.2.2, 8.1.4, 8.2.2, 8.5.1, Table 8.4.
[[nodiscard]] BraceEndStrength brace_end_strength(const model::Model& model,
                                                  const model::BraceEnd& end,
                                                  const reference::Tables& tables);

}  // namespace standtrue::check
