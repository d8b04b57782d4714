#pragma once

#include "decide/trials.hpp"

/// What the readings of a bench teach of its timber, joints and screws: what `prove` judges with
/// and `odds` draws by.
namespace standtrue::decide {

struct Learned {
  Learning learning;                  ///< without its verdicts
  std::vector<Proving::Asked> asked;  ///< the readings that this bench has a test for
  std::vector<Datum> data;            ///< of the same
  std::optional<Fit> fit;             ///< none where nothing was found that fits

  /// They agree with each other, with the bench and with what is usual: only then are they used.
  [[nodiscard]] bool is_clear() const;
  /// The kinds that are narrowed by more than a twentieth.
  [[nodiscard]] std::vector<std::string> narrowed() const;
};

[[nodiscard]] Learned learned_from(const std::vector<bench::Reading>& readings,
                                   const Proving& proving, const bench::Bench& bench,
                                   const reference::Tables& tables, const Work& work);

/// What is doubtful in them and what they leave open, in sentences.
[[nodiscard]] std::vector<std::string> said_of(const Learned& learned, const bench::Bench& bench);

}  // namespace standtrue::decide
