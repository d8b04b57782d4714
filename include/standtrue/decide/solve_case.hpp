#pragma once

#include <optional>
#include <string>
#include <vector>

#include "standtrue/model/divide.hpp"
#include "standtrue/model/frame_case.hpp"
#include "standtrue/solve/plate_response.hpp"
#include "standtrue/solve/solve.hpp"

/// Solves every loading of a frame case and compares the answers with what the case expects.
namespace standtrue::decide {

/// One loading of the case with its answer.
struct SolvedLoading {
  std::string name;
  model::LoadingRef of;
  solve::Loading loading;
  std::optional<solve::Prepared> prepared;  ///< with its springs; nothing if the frame is refused
  solve::OrRefusal<solve::State> state;
  std::vector<solve::PlateMovements> plates;  ///< one column each; none if refused
};

/// One expectation held against the answer. Never met by default.
struct Comparison {
  std::optional<double> got;        ///< SI; nothing where no number was computed
  std::optional<double> got_place;  ///< extreme: where it was found, m from the flexible start
  double error = 0.0;               ///< relative, or absolute in SI when `is_absolute`
  bool is_absolute = false;
  bool met = false;
  std::string why_not;  ///< a sentence; empty when met
};

struct CaseAnswers {
  model::Division division;             ///< what was solved: the frame, divided if it asks for it
  std::vector<SolvedLoading> loadings;  ///< the load cases, then the combinations
  std::vector<Comparison> comparisons;  ///< one per expectation, in their order
  [[nodiscard]] bool all_met() const;
};

/// A load case counts with factor one and gravity springs; a combination with its own springs.
/// Each set of springs is factorised once. A refused loading keeps its refusal and the others go
/// on.
[[nodiscard]] CaseAnswers solve_case(const model::FrameCase& frame_case);

/// A frame case with the name it is known by, for the table.
struct NamedCase {
  std::string name;
  model::FrameCase frame_case;
};
/// Rows of a Markdown table: case, source, quantity, expected, got, error, tolerance. For
/// docs/verification.md.
[[nodiscard]] std::string verification_table(const std::vector<NamedCase>& cases);

}  // namespace standtrue::decide
