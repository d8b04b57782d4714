#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "check/brace_end.hpp"
#include "check/section_forces.hpp"
#include "standtrue/check/joints.hpp"
#include "standtrue/model/idealise.hpp"
#include "tests/bench/bench_files.hpp"

namespace brace_ends_test {

using namespace standtrue;
using bench_files::tables;
using check::Judgement;
using doctest::Approx;
using quantity::in_si;

namespace {

/// Posts 95 mm along and 70 mm across, a brace of 45 x 95 in the back.
std::string with_brace(const std::string& more) {
  return R"(
standtrue: 1
size: 1500 x 700 x 900 mm
timber: C24 45 x 95 mm
posts: {section: 70 x 95 mm}
joints: two corner brackets
top: {sheet: 21 mm spruce plywood, load: none}
braces: {side: back, section: 45 x 95 mm)" +
         more + "}\n";
}

model::Model idealised(const std::string& text) {
  const bench_files::Read read = bench_files::read("bench.yaml", text);
  REQUIRE_MESSAGE(read.bench, read.messages);
  model::Idealisation made = model::idealise(*read.bench, tables(), {});
  REQUIRE(made.model);
  return *made.model;
}

double mode(const check::Way& way, const std::string& name) {
  for (const check::Mode& m : way.modes) {
    if (m.name == name) return in_si(m.R_k);
  }
  FAIL("no mode " << name);
  return 0.0;
}

/// The angle of the brace to upright, from the bench's own places.
double lean_of(const model::Model& model) {
  const bench::Brace& brace = model.parts.bench.braces[0];
  const double run = in_si(model.parts.bench.posts[*brace.to_post].x) -
                     in_si(model.parts.bench.posts[brace.post].x);
  return std::atan2(run, in_si(brace.to_at - brace.post_height));
}

}  // namespace

TEST_CASE("check/brace_ends: where a brace meets its posts, from the drawing") {
  const model::Model model = idealised(with_brace(", low: 300 mm, high: 700 mm"));
  REQUIRE(model.parts.brace_ends.size() == 2);
  const check::Meeting low = check::meeting_of(model, model.parts.brace_ends[0]);
  const check::Meeting high = check::meeting_of(model, model.parts.brace_ends[1]);
  CHECK(low.angle == Approx(lean_of(model)));
  // Bolts run across the bench: the posts are as deep there as they are not wide along it.
  const bench::Post& post = model.parts.bench.posts[model.parts.bench.braces[0].post];
  CHECK(in_si(low.through) == Approx(in_si(post.along_y)));
  CHECK(in_si(low.across) == Approx(in_si(post.along_x)));
  // A pull draws the lower end up, the upper end down.
  CHECK(in_si(low.to_pulled_end) == Approx(in_si(post.top) - 0.3));
  CHECK(in_si(low.to_pushed_end) == Approx(0.3 - in_si(post.bottom)));
  CHECK(in_si(high.to_pulled_end) == Approx(0.7 - in_si(post.bottom)));
  CHECK(in_si(high.to_pushed_end) == Approx(in_si(post.top) - 0.7));
}

TEST_CASE("check/brace_ends: two M8 through 45 mm at an angle (EN 1995-1-1, 8.31 to 8.34, 8.6 f)") {
  const model::Model model = idealised(with_brace(", low: 300 mm, high: 700 mm"));
  const check::BraceEndStrength s =
      check::brace_end_strength(model, model.parts.brace_ends[0], tables());
  REQUIRE(s.pulled.why.empty());
  REQUIRE(s.pushed.why.empty());
  const double a = lean_of(model), sine = std::sin(a), cosine = std::cos(a);
  const double f_h_1 = 0.082 * (1 - 0.08) * 350;
  const double f_h_2 = f_h_1 / ((1.35 + 0.015 * 8) * sine * sine + cosine * cosine);
  const double M_y = 0.3 * 400 * std::pow(8.0, 2.6), beta = f_h_2 / f_h_1;
  const double F = 1.15 * std::sqrt(2 * beta / (1 + beta)) * std::sqrt(2 * M_y * f_h_1 * 8);
  // Edge (2 + 2 sin) d = 31 mm of 47.5: a row of two, 40 mm apart along the brace, reaches out
  // 20 sin = 19 mm, too far: one counts.
  CHECK(mode(s.pulled, "bolts M8") == Approx(F).epsilon(1e-6));
  // 14 b sqrt(h_e/(1 - h_e/h)), what lies across the grain of it (8.4)
  const check::Meeting m = check::meeting_of(model, model.parts.brace_ends[0]);
  const double b = 1e3 * in_si(m.through), h = 1e3 * in_si(m.across);
  CHECK(mode(s.pulled, "splitting of the back-left post") ==
        Approx(14 * b * std::sqrt(h / 2 / 0.5) / sine).epsilon(1e-6));
  // 45 x (95 - 9) mm of C24 in tension, k_h = (150/95)^0.2
  CHECK(mode(s.pulled, "the brace torn through its hole") ==
        Approx(45 * 86 * 14.5 * std::pow(150.0 / 95.0, 0.2)).epsilon(1e-6));
}

TEST_CASE("check/brace_ends: a steep brace has room for both bolts: n^0.9 (a_1/13d)^0.25 (8.34)") {
  const model::Model model = idealised(R"(
standtrue: 1
size: 800 x 700 x 1000 mm
timber: C24 45 x 95 mm
posts: {section: 95 x 95 mm}
joints: two corner brackets
top: {sheet: 21 mm spruce plywood, load: none}
braces: {side: back, section: 45 x 95 mm, rises_to: right, low: 200 mm, high: 850 mm, joint: {kind: bolted lap, bolts: M6}}
)");
  const check::BraceEndStrength s =
      check::brace_end_strength(model, model.parts.brace_ends[0], tables());
  const double a = lean_of(model), sine = std::sin(a), cosine = std::cos(a);
  REQUIRE(47.5 - 15 * sine > (2 + 2 * sine) * 6);
  const double f_h_1 = 0.082 * (1 - 0.06) * 350;
  const double f_h_2 = f_h_1 / ((1.35 + 0.015 * 6) * sine * sine + cosine * cosine);
  const double M_y = 0.3 * 400 * std::pow(6.0, 2.6), beta = f_h_2 / f_h_1;
  const double F = 1.15 * std::sqrt(2 * beta / (1 + beta)) * std::sqrt(2 * M_y * f_h_1 * 6);
  const double n_ef = std::pow(2.0, 0.9) * std::pow(30.0 / 78.0, 0.25);
  CHECK(mode(s.pushed, "bolts M6") == Approx(n_ef * F).epsilon(1e-6));
}

TEST_CASE("check/brace_ends: too near the end of a post the push is not judged, the pull is") {
  // The upper end 60 mm under the post's top: 80 mm where it is pushed at (Table 8.4), and
  // (1 + 6 sin) d where it is pulled from.
  const model::Model model = idealised(with_brace(", low: 300 mm, high: 819 mm"));
  const check::BraceEndStrength s =
      check::brace_end_strength(model, model.parts.brace_ends[1], tables());
  CHECK(s.pulled.why.empty());
  CHECK(s.pushed.why.find("60 mm from the end of the back-right post, 80 mm are needed") !=
        std::string::npos);
  CHECK_FALSE(s.advice.empty());
}

TEST_CASE("check/brace_ends: by default bolts fit: M8, on narrow posts M6, 80 mm from the top") {
  const auto brace = [](const std::string& text) { return idealised(text).parts.bench.braces[0]; };
  CHECK(in_si(brace(with_brace("")).joint.fastener_diameter) == Approx(0.008));
  std::string narrow = with_brace("");
  narrow.replace(narrow.find("70 x 95"), 7, "45 x 95");
  const bench_files::Read read = bench_files::read("bench.yaml", narrow);
  const model::Model model = idealised(narrow);
  for (const model::BraceEnd& end : model.parts.brace_ends) {
    const check::BraceEndStrength s = check::brace_end_strength(model, end, tables());
    CHECK_MESSAGE(s.pulled.why.empty(), s.pulled.why);
    CHECK_MESSAGE(s.pushed.why.empty(), s.pushed.why);
  }
}

TEST_CASE("check/brace_ends: screws through a brace: penetration, back, head (8.2.2, 8.7)") {
  const auto with = [](const char* screws) {
    const model::Model model = idealised(
        with_brace(std::string(", low: 300 mm, high: 700 mm, joint: {kind: screwed lap, screws: ") +
                   screws + "}"));
    return check::brace_end_strength(model, model.parts.brace_ends[0], tables());
  };
  CHECK(with("5 x 60 mm").pulled.why.find("15 mm into the back-left post, 30 mm are needed") !=
        std::string::npos);
  CHECK(with("5 x 120 mm").pulled.why.find("come out at the back") != std::string::npos);
  const check::BraceEndStrength good = with("5 x 80 mm");
  CHECK(good.pulled.why.empty());
  CHECK(good.pulled.modes.size() == 3);
  CHECK(good.pulled.modes[0].R_k > quantity::newtons(1000));
}

TEST_CASE("check/brace_ends: an end cut to stand presses at an angle to the grain (6.16)") {
  // C24: 21/(21/2.5 sin^2 + cos^2) at 45 degrees = 21/4.7
  const auto mpa = [](double v) { return quantity::pascals(1e6 * v); };
  constexpr double quarter = 3.14159265358979323846 / 4.0;
  CHECK(in_si(check::compression_at_angle(mpa(21), mpa(2.5), 1.0, quarter)) ==
        Approx(21e6 / 4.7).epsilon(1e-12));
  CHECK(in_si(check::compression_at_angle(mpa(21), mpa(2.5), 1.5, 2 * quarter)) ==
        Approx(3.75e6).epsilon(1e-12));
  CHECK(in_si(check::compression_at_angle(mpa(21), mpa(2.5), 1.0, 0.0)) == Approx(21e6));
  const model::Model model =
      idealised(with_brace(", kind: knee, leg: 300 mm, joint: end-grain screws"));
  const check::BraceEndStrength s =
      check::brace_end_strength(model, model.parts.brace_ends[0], tables());
  CHECK(mode(s.pushed, "pressure on the back-left post") ==
        Approx(45 * 95 * 21 / 4.7).epsilon(0.02));
  CHECK_FALSE(s.pulled.why.empty());
}

TEST_CASE("check/brace_ends: what the file gives is taken, what it can not be is said") {
  const model::Model given =
      idealised(with_brace(", joint: {kind: glued, resistance: {shear: 3 kN}}"));
  CHECK(in_si(check::brace_end_strength(given, given.parts.brace_ends[0], tables())
                  .pulled.modes[0]
                  .R_k) == Approx(3000));
  const model::Model glued = idealised(with_brace(", joint: glued"));
  CHECK_FALSE(
      check::brace_end_strength(glued, glued.parts.brace_ends[0], tables()).pulled.why.empty());
}

TEST_CASE("check/brace_ends: the finding is the force in the brace over k_mod R_k/gamma_M") {
  const model::Model model = idealised(with_brace(", low: 300 mm, high: 700 mm"));
  const auto response = solve::static_response(model);
  REQUIRE(response);
  const check::Answers answers{model, *response};
  const check::SectionForces forces(answers);
  const std::vector<check::Finding> findings = check::brace_ends(answers, forces, tables());
  REQUIRE(findings.size() == 2);
  for (std::size_t e = 0; e < 2; ++e) {
    const check::Finding& f = findings[e];
    CHECK(f.judgement == Judgement::satisfied);
    const model::BraceEnd& end = model.parts.brace_ends[e];
    double most = 0.0;
    for (const std::size_t c : forces.combinations()) {
      const auto& force = response->states[c]->end_forces[end.member];
      most = std::max(most, std::abs(force[end.at_end ? 6 : 0]));
    }
    CHECK(f.demand <= most * (1 + 1e-12));
    const check::BraceEndStrength s = check::brace_end_strength(model, end, tables());
    // Shoves lead: 1.1, gamma_M 1.3 of connections.
    CHECK(f.limit == Approx(1.1 / 1.3 * mode(s.pulled, "bolts M8")).epsilon(1e-9));
    CHECK(f.ratio == Approx(f.demand / f.limit));
  }
}

namespace {

struct Answered {
  model::Model model;
  solve::Response response;

  explicit Answered(const std::string& more) : model(idealised(with_brace(more))) {
    auto answer = solve::static_response(model);
    REQUIRE_MESSAGE(answer, answer.error().what);
    response = *std::move(answer);
  }
  /// The brace's force at an end: `first` under the first combination for strength, else `rest`.
  void pull(std::size_t e, double first, double rest) {
    const model::BraceEnd& end = model.parts.brace_ends[e];
    bool is_first = true;
    const check::SectionForces forces({model, response});
    for (const std::size_t c : forces.combinations()) {
      auto& force = response.states[c]->end_forces[end.member];
      (end.at_end ? force[6] : force[0]) = (end.at_end ? 1.0 : -1.0) * (is_first ? first : rest);
      is_first = false;
    }
  }
  [[nodiscard]] check::Finding finding(std::size_t e) const {
    const check::Answers answers{model, response};
    return check::brace_ends(answers, check::SectionForces(answers), tables()).at(e);
  }
};

}  // namespace

TEST_CASE("check/brace_ends: more than the bolt stands is exceeded, N over k_mod R_k/gamma_M") {
  Answered bench(", low: 300 mm, high: 700 mm");
  const check::BraceEndStrength s =
      check::brace_end_strength(bench.model, bench.model.parts.brace_ends[0], tables());
  const std::size_t first =
      check::SectionForces({bench.model, bench.response}).combinations().front();
  bench.model.combinations[first].duration = reference::Duration::medium_term;
  // Solid timber in air of class 2: k_mod = 0.80 (EN 1995-1-1, Table 3.1), gamma_M = 1.3.
  const double R_d = 0.8 / 1.3 * mode(s.pulled, "bolts M8");
  for (const double share : {0.98, 1.02, -1.02}) {  // a push finds the bolt as weak
    CAPTURE(share);
    bench.pull(0, share * R_d, 0.0);
    const check::Finding f = bench.finding(0);
    CHECK(f.ratio == Approx(std::abs(share)).epsilon(1e-6));
    CHECK(f.judgement == (share == 0.98 ? Judgement::satisfied : Judgement::exceeded));
    CHECK(f.advice == (share == 0.98 ? "" : "another bolt, thicker bolts, or a second brace"));
  }
}

TEST_CASE(
    "check/brace_ends: a pull that is too much is not hidden by a push that has no strength") {
  Answered bench(", low: 300 mm, high: 819 mm");  // pushed too near the post's top, see above
  const check::BraceEndStrength s =
      check::brace_end_strength(bench.model, bench.model.parts.brace_ends[1], tables());
  double least = 1e9;
  for (const check::Mode& m : s.pulled.modes) least = std::min(least, in_si(m.R_k));
  bench.pull(1, least, -100.0);  // k_mod 1.1 at most, over 1.3
  const check::Finding exceeds = bench.finding(1);
  CHECK(exceeds.judgement == Judgement::exceeded);
  CHECK(exceeds.demand == Approx(least));
  bench.pull(1, 0.1 * least, -100.0);
  const check::Finding unknown = bench.finding(1);
  CHECK(unknown.judgement == Judgement::not_judged);
  CHECK(unknown.why.find("from the end of the back-right post") != std::string::npos);
  bench.pull(1, 0.1 * least, 100.0);  // never pushed
  CHECK(bench.finding(1).judgement == Judgement::satisfied);
}

TEST_CASE("check/brace_ends: without an answer, or a k_mod in this air, it is not judged") {
  Answered bench(", low: 300 mm, high: 700 mm");
  Answered wet = bench;
  for (auto& state : bench.response.states) {
    state = tl::unexpected(solve::Refusal{solve::Refusal::Why::tips, "tips", "", {}});
  }
  CHECK(bench.finding(0).judgement == Judgement::not_judged);
  CHECK(bench.finding(0).why == "no combination of loads was answered");
  wet.model.parts.bench.air.service_class = reference::ServiceClass::sc3;
  wet.model.parts.parts[wet.model.parts.brace_ends[0].brace].timber.material =
      reference::Material::mdf;
  CHECK(wet.finding(0).judgement == Judgement::not_judged);
  CHECK(wet.finding(0).why == "the code gives no strength of MDF in air of service class 3");
}

TEST_CASE("check/brace_ends: bolts want 3 d to the edge of the brace, and wood before and behind") {
  const auto at = [](const std::string& text, std::size_t end) {
    const model::Model model = idealised(text);
    return check::brace_end_strength(model, model.parts.brace_ends[end], tables());
  };
  // M8 in a brace of 45 mm: 22.5 mm of 24 (Table 8.4, a_4,c).
  std::string narrow =
      with_brace(", low: 300 mm, high: 700 mm, joint: {kind: bolted lap, bolts: M8}");
  narrow.replace(narrow.find("section: 45 x 95"), 16, "section: 45 x 45");
  for (const check::Way& way : {at(narrow, 0).pulled, at(narrow, 0).pushed}) {
    CHECK(way.why == "no room for bolts M8 between the edges");
  }
  // The lower end 40 mm over the post's: 80 mm where it is pushed at, and where it is pulled from
  // (1 + 6 sin) d (Table 8.4, a_3,c), which at this angle is more than 40 mm too.
  const std::string low =
      with_brace(", low: 60 mm, high: 700 mm, joint: {kind: bolted lap, bolts: M8}");
  const model::Model model = idealised(low);
  const double least = (1 + 6 * std::sin(lean_of(model))) * 0.008;
  REQUIRE(0.06 - in_si(model.parts.bench.posts[0].bottom) < least);
  const check::BraceEndStrength s = at(low, 0);
  CHECK(s.pulled.why.find("from the end of the back-left post") != std::string::npos);
  CHECK(s.pushed.why.find("80 mm are needed") != std::string::npos);
  CHECK(s.advice == "fasten it farther from the end of the back-left post");
}

TEST_CASE("check/brace_ends: screws with less than 6 d of thread are not pulled tight (8.7.2)") {
  const auto F = [](const char* screws) {
    const model::Model model = idealised(
        with_brace(std::string(", low: 300 mm, high: 700 mm, joint: {kind: screwed lap, screws: ") +
                   screws + "}"));
    const auto s = check::brace_end_strength(model, model.parts.brace_ends[0], tables());
    REQUIRE_MESSAGE(s.pulled.why.empty(), s.pulled.why);
    return std::pair(in_si(s.pulled.modes.at(0).R_k), s.working.at(1));
  };
  // 33 mm in the post less the point of 5 mm: 28 of 30 mm. No rope in (8.6).
  const auto [brief, said] = F("5 x 78 mm");
  CHECK(said.find("rope 0 N") != std::string::npos);
  CHECK(brief < F("5 x 81 mm").first);
}

TEST_CASE("check/brace_ends: a tenon and pocket screws stand like any end that presses") {
  const auto pushed = [](const char* joint) {
    const model::Model model =
        idealised(with_brace(std::string(", kind: knee, leg: 300 mm, joint: ") + joint));
    const auto s = check::brace_end_strength(model, model.parts.brace_ends[0], tables());
    CHECK(s.pulled.why == "nothing holds such an end when it is pulled");
    return mode(s.pushed, "pressure on the back-left post");
  };
  CHECK(pushed("pocket screws") == Approx(45 * 95 * 21 / 4.7).epsilon(0.02));
  CHECK(pushed("mortise and tenon") == pushed("pocket screws"));
}

}  // namespace brace_ends_test
