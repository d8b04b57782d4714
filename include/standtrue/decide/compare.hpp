#pragma once

#include <optional>
#include <string>
#include <vector>

#include "standtrue/decide/assess.hpp"
#include "standtrue/document/document.hpp"

/// Benches set beside each other: the base of `ply`, `brace`, `improve` and `variants`.
namespace standtrue::decide {

/// From soft joints and low timber to stiff joints.
struct Span {
  double least = 0.0, mean = 0.0, greatest = 0.0;
};

/// What a comparison shows of an assessed bench.
struct Figures {
  Verdict verdict = Verdict::not_judged;
  std::string summary;
  std::vector<std::string> failing;  ///< ids of safety and service findings exceeded or depending
  std::vector<std::string> exceeded;
  std::optional<Span> carry, joints, sheet;  ///< worst ratios of strength
  std::optional<double> sag;                 ///< worst, as a ratio of what is allowed; mean joints
  std::optional<double> sag_under;           ///< greatest sag under a machine, m
  std::optional<Span> along, across;         ///< sway stiffness, N/m
  std::optional<double> frequency;           ///< lowest, Hz
  double mass = 0.0;                         ///< of the bench itself, kg
  int sheets = 0;                            ///< to buy, of every kind
  std::vector<std::string> uncut;  ///< sheets of the bench that no bought one is wide enough for
};
[[nodiscard]] Figures figures_of(const Assessment& assessment);

/// One row. `why` says why it is not possible here; then there are no figures.
struct Option {
  std::string name;   ///< "one diagonal in the back, rising to the right"
  std::string write;  ///< what to write in the bench file: "braces: [{side: back}]"
  document::Document document;
  int pieces = 0;  ///< bought, more than the file's own bench has
  int joints = 0;  ///< made, more than it has
  std::optional<Figures> figures;
  std::string why;
};

/// Reads and assesses every option that has neither figures nor a reason; stops early, and leaves
/// the rest without both, if `work` says so.
void assess_all(std::vector<Option>& options, const reference::Tables& tables, const Work& work);

struct SideBySide {
  std::string question;  ///< "Does it need a brace?"
  std::vector<std::string> answer;
  std::vector<Option> options;  ///< the first is the bench of the file
  bool complete = true;
};

}  // namespace standtrue::decide
