// What a reader of the examples sees, and the README's capture of it. STANDTRUE_GOLDEN=write renews
// the kept texts; the change is then reviewed like code.
#include <doctest/doctest.h>

#include <fstream>
#include <sstream>

#include "standtrue/app/run.hpp"
#include "tests/report/golden.hpp"

namespace examples_test {

using namespace standtrue;

namespace {

std::string file_text(const std::string& path) {
  std::ifstream in(std::string(STANDTRUE_SOURCE_DIR) + "/" + path);
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

app::Outcome checked(const std::string& name) {
  const std::string path = "examples/" + name + ".yaml";
  return app::run(app::Command::check, {}, path, file_text(path));
}

}  // namespace

TEST_CASE("app/examples: each example says what its first lines promise") {
  struct Promise {
    const char* name;
    const char* verdict;
    int code;
  };
  for (const Promise& promise : {Promise{"boiler-plinth", "DEPENDS", 0},
                                 {"turning-bench", "STANDS", 0},
                                 {"too-slender", "DO NOT LOAD", 1}}) {
    CAPTURE(promise.name);
    const app::Outcome outcome = checked(promise.name);
    CHECK(outcome.err == "");
    CHECK(outcome.code == promise.code);
    CHECK(outcome.out.find(promise.verdict) != std::string::npos);
    const std::string text = file_text(std::string("examples/") + promise.name + ".yaml");
    CHECK(text.find(std::string("# Expect ") + promise.verdict) != std::string::npos);
    test::check_golden(std::string("example-") + promise.name + ".txt", outcome.out);
  }
}

TEST_CASE("app/examples: the README shows the first example as it is") {
  CHECK(file_text("README.md").find(checked("boiler-plinth").out) != std::string::npos);
}

TEST_CASE("app/examples: the model of each example, solved again, gives the same answers to 1e-9") {
  for (const char* name : {"boiler-plinth", "turning-bench", "too-slender"}) {
    CAPTURE(name);
    const std::string path = std::string("examples/") + name + ".yaml";
    const app::Outcome model = app::run(app::Command::model, {}, path, file_text(path));
    REQUIRE(model.code == 0);
    const app::Outcome solved = app::run(app::Command::solve, {}, "model.yaml", model.out);
    CHECK(solved.code == 0);
    CHECK(model.out.find("within: 1e-09") != std::string::npos);
  }
}

}  // namespace examples_test
