#include <nlohmann/json.hpp>

#include "report/json_parts.hpp"
#include "standtrue/report/report.hpp"

namespace standtrue::report {

const char* stand_key(decide::Stand stand) {
  switch (stand) {
    case decide::Stand::clear:
      return "clear";
    case decide::Stand::care:
      return "care";
    case decide::Stand::barred:
      return "barred";
    case decide::Stand::not_looked_at:
      break;
  }
  return "not_looked_at";
}

namespace {

using quantity::in_si;

Json status(const decide::PlaceStatus& s) {
  return {{"stand", stand_key(s.stand)}, {"why", s.why},
          {"ratio", number(s.ratio)},    {"mean_ratio", number(s.mean_ratio)},
          {"has_room", s.has_room},      {"is_confirmed", s.is_confirmed}};
}

Json ways(const decide::PlacePlan& plan) {
  Json all = Json::array();
  for (const decide::PlaceGrid& grid : plan.ways) {
    Json places = Json::array();
    for (std::size_t cell = 0; cell < grid.at.size(); ++cell) {
      Json place = status(grid.at[cell]);
      place["x"] = number(in_si(plan.x(cell) - plan.x0));
      place["y"] = number(in_si(plan.y(cell) - plan.y0));
      places.push_back(place);
    }
    all.push_back({{"turned", grid.turned}, {"places", places}});
  }
  return all;
}

Json best(const decide::PlacePlan& plan) {
  if (!plan.best) return nullptr;
  Json place = status(plan.ways[plan.best->way].at[plan.best->cell]);
  place["x"] = number(in_si(plan.x(plan.best->cell) - plan.x0));
  place["y"] = number(in_si(plan.y(plan.best->cell) - plan.y0));
  place["turned"] = plan.ways[plan.best->way].turned;
  return place;
}

Json reasons_json(const decide::PlacePlan& plan) {
  Json all = Json::array();
  for (const decide::PlaceReason& r : plan.reasons) {
    all.push_back({{"stand", stand_key(r.stand)},
                   {"id", r.id},
                   {"places", r.places},
                   {"ratio", number(r.ratio)},
                   {"sentence", r.sentence}});
  }
  return all;
}

Json loads_json(const decide::LoadPlan& plan) {
  const auto masses = [](const std::vector<double>& of) {
    Json all = Json::array();
    for (const double m : of) all.push_back(number(m));
    return all;
  };
  return {{"none", plan.none},          {"nx", plan.nx},     {"ny", plan.ny},
          {"patch", in_si(plan.patch)}, {"most", plan.most}, {"mass", masses(plan.mass)},
          {"mean", masses(plan.mean)},  {"why", plan.why}};
}

}  // namespace

std::string json(const decide::PlacePlan& plan, const std::string& file,
                 const std::string& version) {
  const decide::Confirmation& c = plan.confirmed;
  const Json document = {{"standtrue_place", 1},
                         {"file", file},
                         {"version", version},
                         {"machine", plan.machine},
                         {"mass", in_si(plan.mass)},
                         {"sheet", plan.sheet},
                         {"length", in_si(plan.length)},
                         {"depth", in_si(plan.depth)},
                         {"nx", plan.nx},
                         {"ny", plan.ny},
                         {"answer", plan.answer},
                         {"none", plan.none},
                         {"complete", plan.complete},
                         {"is_alike_turned", plan.is_alike_turned},
                         {"ways", ways(plan)},
                         {"own", status(plan.own)},
                         {"best", best(plan)},
                         {"reasons", reasons_json(plan)},
                         {"not_judged", plan.not_judged},
                         {"besides", plan.besides},
                         {"nearly", plan.nearly},
                         {"loads", loads_json(plan.loads)},
                         {"confirmed",
                          {{"near_limit", c.near_limit},
                           {"others", c.others},
                           {"left", c.left},
                           {"changed", c.changed},
                           {"furthest", number(c.furthest)},
                           {"furthest_near", number(c.furthest_near)}}}};
  return document.dump(2) + "\n";
}

}  // namespace standtrue::report
