#include "check/plate_answers.hpp"

#include <fmt/format.h>

#include "check/printer.hpp"

namespace standtrue::check {

PlateAnswers::PlateAnswers(const model::Model& model, const solve::Response& response,
                           const Wanted& wanted)
    : model_(model) {
  for (std::size_t set = 0; set < response.prepared.size(); ++set) {
    Batch batch;
    std::vector<solve::Answered> answered;
    for (std::size_t c = 0; c < model.combinations.size(); ++c) {
      const model::Combination& combination = model.combinations[c];
      if (static_cast<std::size_t>(combination.springs) != set || !wanted(combination)) continue;
      if (!response.states[c]) {
        refused_.push_back(c);
        continue;
      }
      batch.combinations.push_back(c);
      answered.push_back({&response.loadings[c], &*response.states[c]});
    }
    if (batch.combinations.empty()) continue;
    for (std::size_t p = 0; p < model.plates.size(); ++p) {
      batch.movements.push_back(solve::plate_movements(*response.prepared[set], p, answered));
    }
    batches_.push_back(std::move(batch));
  }
}

PlateAnswers::PlateAnswers(const model::Model& model, const solve::Response& response,
                           const Wanted& wanted, const KnownPlates& known)
    : model_(model), known_(&known) {
  for (std::size_t c = 0; c < model.combinations.size(); ++c) {
    if (wanted(model.combinations[c])) (response.states[c] ? of_known_ : refused_).push_back(c);
  }
}

std::vector<PlateAnswers::View> PlateAnswers::of(std::size_t plate,
                                                 bool (*wanted)(const model::Combination&)) const {
  std::vector<View> views;
  for (const std::size_t c : of_known_) {
    if (!wanted(model_.combinations[c])) continue;
    const KnownPlate& known = (*known_)[plate][c];
    views.push_back({model_.plates[plate], known.movements, 0, c, &known.field});
  }
  for (const Batch& batch : batches_) {
    for (std::size_t c = 0; c < batch.combinations.size(); ++c) {
      if (!wanted(model_.combinations[batch.combinations[c]])) continue;
      views.push_back({model_.plates[plate], batch.movements[plate], static_cast<Eigen::Index>(c),
                       batch.combinations[c]});
    }
  }
  return views;
}

bool judges_strength(const model::Combination& combination) {
  return combination.purpose == model::Purpose::strength ||
         combination.purpose == model::Purpose::as_given;
}

bool judges_test(const model::Combination& combination) {
  return combination.purpose == model::Purpose::test;
}

bool judges_sag(const model::Combination& combination) {
  return combination.purpose == model::Purpose::service && !is_final(combination);
}

bool is_at_once(const model::Combination& combination) {
  return judges_sag(combination) && (combination.leading == model::Leading::permanent ||
                                     combination.leading == model::Leading::stored);
}

bool is_final(const model::Combination& combination) { return combination.name == "final"; }

std::string place_on_plate(const model::Parts& parts, const model::Plate& plate,
                           const bench::Sheet& sheet, double x, double y) {
  const Printer print(parts.bench);
  const bool end = sheet.place == bench::SheetPlace::end;
  return fmt::format("{}, {} from its {} and {} from its {} edge", sheet.name,
                     print.length(x - plate.x.front()), end ? "front" : "left",
                     print.length(y - plate.y.front()), lies(sheet) ? "front" : "lower");
}

}  // namespace standtrue::check
