#include <fmt/format.h>

#include "model/idealising.hpp"
#include "standtrue/bench/leaning.hpp"

namespace standtrue::model {

using quantity::in_si;
using quantity::newtons;

namespace {

bool presses_in(const Model& model, const Weight& weight, CaseId load_case) {
  const std::string& name = model.cases.at(load_case).name;
  switch (weight.of) {
    case Weight::Of::machine:
      return name == "machine-" + slug(weight.name);
    case Weight::Of::stored:
      return name == "stored-" + slug(weight.name);
    case Weight::Of::added:
      return name == "load-" + slug(weight.name);
    case Weight::Of::bench:
      break;
  }
  return load_case == model.parts.self_case;
}

}  // namespace

double pressing(const Model& model, CaseId load_case) {
  double W = 0.0;
  for (const Weight& weight : model.parts.weights) {
    if (presses_in(model, weight, load_case)) W += in_si(weight.force);
  }
  for (const PersonPlace& person : model.parts.persons) {
    if (person.load_case == load_case) W += 1e3;  // the case is of 1 kN
  }
  return W;
}

void build_leaning(Idealising& work) {
  if (!bench::leans(work.bench)) return;
  const std::array<const char*, 2> names = lean_cases();
  for (std::size_t way = 0; way < 2; ++way) {
    LoadCase& load_case =
        add_case(work, names[way],
                 fmt::format("1 N {} of what leans with the floor", way == 0 ? "along" : "across"),
                 Duration::permanent);
    push_top_posts(work, load_case, newtons(way == 0 ? 1.0 : 0.0), newtons(way == 0 ? 0.0 : 1.0));
  }
}

}  // namespace standtrue::model
