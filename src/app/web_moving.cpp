#include <cmath>

#include "app/reading.hpp"
#include "app/web_request.hpp"
#include "standtrue/app/web.hpp"
#include "standtrue/decide/moving.hpp"
#include "standtrue/report/report.hpp"

namespace standtrue::app {

using quantity::in_si;

namespace {

using MovingJson = nlohmann::ordered_json;

MovingJson finite_or_null(double value) {
  return std::isfinite(value) ? MovingJson(value) : MovingJson(nullptr);
}

std::string moving_json(MovingJson json) {
  MovingJson whole = {{"standtrue_web", 1}};
  whole.update(json);
  return whole.dump(-1, ' ', false, MovingJson::error_handler_t::replace);
}

}  // namespace

struct WebMoving::Inside {
  reference::Tables tables;
  bench::Bench bench;
  std::optional<decide::Moving> moving;
};

std::string WebMoving::open(const std::string& request, const decide::Work& work) {
  inside_.reset();
  return web_guarded([&] {
    const auto read = read_web_request(request);
    if (!read) return web_fault(read.error());
    MovingJson answer;
    const Outcome outcome =
        with_bench(read->file, read->text, [&](const bench::Bench& bench, const auto& tables) {
          const auto machine = decide::machine_on_top(bench, read->options.machine);
          if (!machine) {
            answer["why"] = "no machine stands on a top";
            return Outcome{"", "", not_good};
          }
          auto inside = std::make_shared<Inside>(Inside{tables, bench, std::nullopt});
          auto moving = decide::Moving::make(inside->bench, *machine, inside->tables, work);
          if (!moving) {
            answer["why"] = moving.error();
            return Outcome{"", "", not_good};
          }
          const bench::Sheet& sheet = bench.sheets[bench.machines[*machine].sheet];
          answer["machine"] = bench.machines[*machine].name;
          answer["cell"] = {in_si(moving->cell_length()), in_si(moving->cell_depth())};
          for (const bench::Machine& place : moving->places()) {
            answer["places"].push_back({in_si(place.x - sheet.x0), in_si(place.y - sheet.y0)});
          }
          inside->moving = std::move(*moving);
          inside_ = std::move(inside);
          return Outcome{"", "", all_good};
        });
    answer["code"] = outcome.code;
    answer["message"] = outcome.err;
    return moving_json(std::move(answer));
  });
}

std::string WebMoving::at(std::size_t place) const {
  return web_guarded([&] {
    if (!inside_ || place >= inside_->moving->places().size()) {
      return web_fault("no such place was opened");
    }
    const decide::MovedTo to = inside_->moving->at(place);
    MovingJson answer = {
        {"place", place},          {"stand", report::stand_key(to.stand)}, {"why", to.why},
        {"sentence", to.sentence}, {"ratio", finite_or_null(to.ratio)},    {"sag", nullptr}};
    if (to.sag) answer["sag"] = {{"demand", to.sag->demand}, {"limit", to.sag->limit}};
    return moving_json(std::move(answer));
  });
}

}  // namespace standtrue::app
