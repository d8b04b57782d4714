#pragma once

#include <string>
#include <vector>

#include "standtrue/bench/bench.hpp"
#include "standtrue/check/check_all.hpp"
#include "standtrue/decide/work.hpp"
#include "standtrue/model/idealise.hpp"
#include "standtrue/solve/solve.hpp"

namespace standtrue::decide {

/// STANDS · DEPENDS (measure first) · CARRIES, BUT ... · DO NOT LOAD · NOT JUDGED
enum class Verdict { stands, depends, carries_but, do_not_load, not_judged };

/// One bound of joint stiffness with its model and answers.
struct Bounded {
  model::Bound bound = model::Bound::mean;
  model::Idealisation idealisation;
  std::optional<solve::Response> response;
  std::optional<solve::Refusal> refusal;  ///< the frame itself could not be solved
};

/// What is known of a bench: text, JSON and pages are made of this and of nothing else.
struct Assessment {
  bench::Bench bench;
  Bounded soft, mean, stiff;
  Bounded poor;  ///< soft joints and low timber
  Bounded after_creep;
  std::vector<check::Finding> findings;  ///< merged over the bounds, worst first within a group
  std::vector<std::string> assumptions;  ///< of the reader and of the idealisation
  std::vector<std::string> cautions;     ///< always at least: an aid, not a certificate
  std::vector<std::string> released;     ///< joints let go because gravity overloads them
  Verdict verdict = Verdict::not_judged;
  std::string summary;  ///< one sentence after the verdict word
};

/// What was measured, at each bound. What is empty in them is as unknown as ever.
struct KnownScales {
  model::Scales soft, mean, stiff;
  model::Scales poor;  ///< soft joints and low timber
};

/// With `mesh_errors` the mean bound is solved once more on plates twice as coarse, and each
/// finding told how far its ratio may be off: a third of the difference, as the error falls with
/// h². What is `known` stands in place of the usual bands; which further measurement would settle
/// what still depends is then not told.
[[nodiscard]] Assessment assess(const bench::Bench& bench, const reference::Tables& tables,
                                bool mesh_errors = false, const KnownScales* known = nullptr,
                                const Work& work = Work::plain());

/// At mean joints alone, before creep and without what swings: what may be shown while `assess` is
/// waited for. It has no verdict, as that hangs on how the joints turn out.
[[nodiscard]] Assessment first_look(const bench::Bench& bench, const reference::Tables& tables);

/// Findings of soft, mean and stiff joints, and of soft joints with low timber (matched by id), as
/// one list: ranges filled, judgements that flip called `depends`.
[[nodiscard]] std::vector<check::Finding> merge(const std::vector<check::Finding>& soft,
                                                const std::vector<check::Finding>& mean,
                                                const std::vector<check::Finding>& stiff,
                                                const std::vector<check::Finding>& poor = {});
[[nodiscard]] Verdict verdict_of(const std::vector<check::Finding>& findings);

}  // namespace standtrue::decide
