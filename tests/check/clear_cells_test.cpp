#include "check/clear_cells.hpp"

#include <doctest/doctest.h>

#include "standtrue/model/idealise.hpp"
#include "tests/bench/bench_files.hpp"

namespace clear_cells_test {

using namespace standtrue;
using quantity::in_si;

TEST_CASE("check/clear_cells: rolling shear is looked at in mid-bay, and not over a post's end") {
  const std::string text = R"(
standtrue: 1
size: 1300 x 800 x 870 mm
timber: C24 45 x 95 mm
joints: corner brackets
top: 15 mm spruce plywood
)";
  const model::Idealisation made =
      model::idealise(bench_files::sound(text), bench_files::tables(), {});
  REQUIRE(made.model);
  const model::Plate& plate = made.model->plates.at(0);
  const std::vector<bool> clear = check::clear_cells(made.model->parts, 0, plate);
  std::size_t over_posts = 0, in_mid = 0;
  for (std::size_t j = 0; j + 1 < plate.y.size(); ++j) {
    for (std::size_t i = 0; i + 1 < plate.x.size(); ++i) {
      const double x = 0.5 * (plate.x[i] + plate.x[i + 1]);
      const double y = 0.5 * (plate.y[j] + plate.y[j + 1]);
      const bool is_clear = clear[j * (plate.x.size() - 1) + i];
      for (const bench::Post& post : made.model->parts.bench.posts) {
        const bool is_over = std::abs(x - in_si(post.x)) < 0.5 * in_si(post.along_x) &&
                             std::abs(y - in_si(post.y)) < 0.5 * in_si(post.along_y);
        if (!is_over) continue;
        ++over_posts;
        CHECK_FALSE(is_clear);
      }
      if (std::abs(x - 0.625) > 0.2 || std::abs(y - 0.375) > 0.1) continue;
      ++in_mid;
      CHECK(is_clear);
    }
  }
  CHECK(over_posts >= 4);
  CHECK(in_mid > 4);
}

}  // namespace clear_cells_test
