#include "decide/settle.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <limits>

#include "standtrue/model/idealise.hpp"
#include "tests/bench/bench_files.hpp"

namespace settle_test {

using namespace standtrue;
using bench_files::tables;
using check::Finding;
using check::Judgement;
using doctest::Approx;

namespace {

Finding with(double soft, double mean, double stiff) {
  Finding f;
  f.ratio_soft = soft;
  f.ratio = mean;
  f.ratio_stiff = stiff;
  f.ratio_poor = soft;
  return f;
}

decide::Assessment assessed(const std::string& text) {
  const bench_files::Read read = bench_files::read("bench.yaml", text);
  REQUIRE_MESSAGE(read.bench, read.messages);
  return decide::assess(*read.bench, tables());
}

const std::string frame = R"(
standtrue: 1
size: 1600 x 700 x 900 mm
timber: C24 45 x 95 mm
joints: two corner brackets
top: {sheet: 21 mm spruce plywood, load: none}
)";

}  // namespace

TEST_CASE("decide/settle: where a power law of the joints' stiffness passes 1, exactly") {
  // ratio = 0.5 k^-1.2 with k = 1/3, 1, 3: it passes 1 at k = 0.5^(1/1.2)
  const auto ratio = [](double k) { return 0.5 * std::pow(k, -1.2); };
  const auto at = decide::turning_point(with(ratio(1.0 / 3.0), ratio(1.0), ratio(3.0)), 3.0);
  REQUIRE(at);
  CHECK(*at == Approx(std::pow(0.5, 1.0 / 1.2)).epsilon(1e-12));
  // one that rises, past the mean
  const auto rises = [](double k) { return 0.7 * std::sqrt(k); };
  CHECK(*decide::turning_point(with(rises(1.0 / 3.0), rises(1.0), rises(3.0)), 3.0) ==
        Approx(1.0 / 0.49).epsilon(1e-12));
}

TEST_CASE("decide/settle: nothing turns where nothing passes, or no number is known") {
  CHECK_FALSE(decide::turning_point(with(0.4, 0.5, 0.6), 3.0));
  CHECK_FALSE(decide::turning_point(with(2.0, 1.5, 1.2), 3.0));
  CHECK_FALSE(decide::turning_point(with(std::numeric_limits<double>::quiet_NaN(), 0.5, 0.4), 3.0));
  CHECK_FALSE(decide::turning_point(with(std::numeric_limits<double>::infinity(), 0.5, 0.4), 3.0));
}

TEST_CASE("decide/settle: low timber is one in twenty of the JCSS scatter, and sags so much more") {
  const bench_files::Read read = bench_files::read("bench.yaml", frame);
  REQUIRE(read.bench);
  model::Assumptions low;
  low.low_timber = true;
  const auto mean = model::idealise(*read.bench, tables(), {});
  const auto poor = model::idealise(*read.bench, tables(), low);
  REQUIRE(mean.model);
  REQUIRE(poor.model);
  // Lognormal, mean 1, COV 0.13: s = 0.12946, exp(-1.64485 s - s^2/2) = 0.8015
  for (std::size_t m = 0; m < mean.model->members.size(); ++m) {
    if (!mean.model->members[m].part) continue;
    const model::Part& part = mean.model->parts.parts[*mean.model->members[m].part];
    if (part.role == model::Role::stem || part.role == model::Role::strip) continue;
    const double share = poor.model->members[m].elastic.E / mean.model->members[m].elastic.E;
    CHECK(share == Approx(0.8015).epsilon(1e-4));
  }
  // Timber without a mark scatters by 0.22: s = 0.2174, 0.6831
  std::string unmarked = frame;
  unmarked.replace(unmarked.find("C24 45"), 6, "45");
  const bench_files::Read plain = bench_files::read("bench.yaml", unmarked);
  REQUIRE(plain.bench);
  const auto rail = [](const model::Model& model) {
    for (const model::Part& part : model.parts.parts) {
      if (part.role == model::Role::rail) return model.members[part.members[0]].elastic.E;
    }
    return quantity::Stress{};
  };
  CHECK(rail(*model::idealise(*plain.bench, tables(), low).model) /
            rail(*model::idealise(*plain.bench, tables(), {}).model) ==
        Approx(0.6831).epsilon(1e-4));
}

TEST_CASE("decide/settle: a sway that hangs on the joints says where, and what to read") {
  // Brackets alone: 15 to 60 N/mm, where 20 are wanted.
  const decide::Assessment a = assessed(frame);
  bool any = false;
  for (const Finding& f : a.findings) {
    if (f.id.rfind("sway/", 0) != 0 || f.judgement != Judgement::depends) continue;
    if (!f.turns_at) continue;
    any = true;
    CHECK(*f.turns_at > 1.0 / 3.0);
    CHECK(*f.turns_at < 3.0);
    CHECK(f.measure.find("pull with 10 kg") != std::string::npos);
    CHECK(f.measure.find("or less is good") != std::string::npos);
  }
  CHECK(any);
}

TEST_CASE("decide/settle: what only low timber fails asks for the sag of a loose rail") {
  Finding f = with(0.9, 0.8, 0.75);
  f.id = "sag/front-top-rail";
  f.ratio_poor = 1.1;
  f.judgement = Judgement::depends;
  const decide::Assessment a = assessed(frame);
  std::vector<Finding> findings = {f};
  decide::tell_what_settles(findings, a, tables());
  CHECK_FALSE(findings[0].turns_at);
  // On its wide face, where it sags enough to be read, and on blocks that lie under it.
  CHECK(findings[0].measure.find("loose and on its wide face on two blocks") != std::string::npos);
  const bench::Rail& rail = a.bench.rails.front();
  const double between =
      1e3 * quantity::in_si(a.bench.posts[rail.to].x - a.bench.posts[rail.from].x);
  const std::size_t at = findings[0].measure.find("two blocks ") + 11;
  CHECK(std::stod(findings[0].measure.substr(at)) < between - 95.0 - 99.0);
  CHECK(findings[0].measure.find("put 20 kg in its middle") != std::string::npos);
  // Nothing is said of what does not depend.
  f.judgement = Judgement::satisfied;
  findings = {f};
  decide::tell_what_settles(findings, a, tables());
  CHECK(findings[0].measure.empty());
}

}  // namespace settle_test
