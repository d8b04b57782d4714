#include "decide/case_modes.hpp"

#include "standtrue/model/divide.hpp"
#include "standtrue/solve/modes.hpp"

namespace standtrue::decide {

solve::OrRefusal<std::vector<double>> frequencies(const model::FrameCase& frame_case,
                                                  const std::optional<model::LoadingRef>& pressed,
                                                  int count) {
  const model::Model model = model::divided(frame_case.model, frame_case.divide).model;
  const model::Combination* combination =
      pressed && pressed->is_combination ? &model.combinations.at(pressed->place) : nullptr;
  const solve::OrRefusal<solve::Prepared> prepared =
      solve::prepare(model, combination ? combination->springs : model::SpringSet::gravity);
  if (!prepared) return tl::unexpected(prepared.error());
  solve::ModesWanted wanted{count, 0.0, nullptr};
  std::optional<solve::State> state;
  if (pressed) {
    const solve::Loading loading =
        combination ? solve::loading_of(*combination) : solve::Loading{{{pressed->place, 1.0}}, {}};
    const solve::OrRefusal<solve::State> answer = solve::respond(*prepared, loading);
    if (!answer) return tl::unexpected(answer.error());
    state = *answer;
    wanted.prestress = &*state;
  }
  const solve::OrRefusal<std::vector<solve::Mode>> modes = solve::modes(*prepared, wanted);
  if (!modes) return tl::unexpected(modes.error());
  std::vector<double> found;
  for (const solve::Mode& mode : *modes) found.push_back(mode.frequency);
  return found;
}

}  // namespace standtrue::decide
