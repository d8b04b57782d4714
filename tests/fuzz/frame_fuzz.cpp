// Any bytes as a frame case; a small one is solved: each loading is answered with finite numbers in
// equilibrium, or refused with a reason.
#include "standtrue/decide/solve_case.hpp"
#include "tests/fuzz/answer_laws.hpp"

namespace {

using namespace standtrue;
using fuzz::law;

/// So small that thousands are solved in a second.
bool is_small(const model::FrameCase& frame_case) {
  const model::Model& model = frame_case.model;
  std::size_t cells = 0;
  for (const model::Plate& plate : model.plates) cells += plate.x.size() * plate.y.size();
  return model.nodes.size() <= 12 && model.members.size() <= 12 && cells <= 100 &&
         frame_case.divide <= 4 && model.cases.size() + model.combinations.size() <= 8 &&
         frame_case.expectations.size() <= 8;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const document::Reading parsed = fuzz::document_of(fuzz::text_of(data, size));
  if (!parsed.document) return 0;
  const model::FrameCaseReading reading = model::read_frame_case(*parsed.document);
  if (!reading.frame_case || !is_small(*reading.frame_case)) return 0;
  const decide::CaseAnswers answers = decide::solve_case(*reading.frame_case);
  for (const decide::SolvedLoading& loading : answers.loadings) {
    if (loading.state) {
      fuzz::hold_state(*loading.state);
    } else {
      law(!loading.state.error().what.empty(), "a refusal has its reason");
    }
  }
  for (const decide::Comparison& comparison : answers.comparisons) {
    law(!comparison.met || !comparison.got || std::isfinite(*comparison.got),
        "what is met is a number");
  }
  return 0;
}
