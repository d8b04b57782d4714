// The program itself, as a shell starts it.
#include <doctest/doctest.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <string>

#include "tests/model/frame_files.hpp"
#include "tests/report/solved_bench.hpp"

namespace program_test {

using namespace standtrue;
namespace fs = std::filesystem;

namespace {

/// A folder of its own, gone afterwards.
class Folder {
 public:
  Folder() : path_(fs::temp_directory_path() / ("standtrue_test_" + std::to_string(getpid()))) {
    fs::create_directories(path_);
  }
  ~Folder() {
    std::error_code ignored;
    fs::remove_all(path_, ignored);
  }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  [[nodiscard]] std::string at(const std::string& name) const { return (path_ / name).string(); }
  [[nodiscard]] std::string write(const std::string& name, const std::string& text) const {
    std::ofstream(at(name), std::ios::binary) << text;
    return at(name);
  }

 private:
  fs::path path_;
};

struct Ran {
  int code = -1;
  std::string out, err;
};

/// `rest` is the rest of a shell line, with its redirections.
Ran shell(const Folder& folder, const std::string& rest, const std::string& before = "") {
  const std::string line = before + " '" + STANDTRUE_PROGRAM + "' " + rest;
  const int status = std::system(
      ("(" + line + ") > '" + folder.at("out") + "' 2> '" + folder.at("err") + "'").c_str());
  return {WIFEXITED(status) ? WEXITSTATUS(status) : -1, test::slurp(folder.at("out")),
          test::slurp(folder.at("err"))};
}

const char* const small_bench = R"(standtrue: 1
title: Small bench
size: 1200 x 600 x 850 mm
timber: C16 45 x 95 mm
joints: corner brackets
top: 18 mm spruce plywood
)";

}  // namespace

TEST_CASE("app/program: a bench from a file and from standard input, the same page") {
  const Folder folder;
  const std::string file = folder.write("bench.yaml", small_bench);
  const Ran from_file = shell(folder, "check '" + file + "'");
  const Ran from_input = shell(folder, "check - < '" + file + "'");
  CAPTURE(from_file.err);
  CHECK(from_file.code <= 1);
  CHECK(from_file.code >= 0);
  CHECK(from_file.out.rfind("Small bench", 0) == 0);
  CHECK(from_input.out == from_file.out);
  CHECK(from_input.code == from_file.code);
}

TEST_CASE("app/program: no colour into a pipe or a file; the width is that of COLUMNS") {
  const Folder folder;
  const std::string file = folder.write("bench.yaml", small_bench);
  const Ran wide = shell(folder, "check '" + file + "'", "COLUMNS=200 TERM=xterm");
  const Ran narrow = shell(folder, "check '" + file + "'", "COLUMNS=10");
  CHECK(wide.out.find('\x1b') == std::string::npos);
  CHECK(narrow.out != wide.out);
  CHECK(narrow.out == shell(folder, "check --width 50 '" + file + "'").out);
  CHECK(shell(folder, "check '" + file + "'", "COLUMNS=wide").out ==
        shell(folder, "check --width 80 '" + file + "'").out);
}

TEST_CASE("app/program: exit codes: 0 met, 1 missed, 2 the file or the line is wrong") {
  const Folder folder;
  const std::string good = folder.write(
      "good.yaml", std::string(test::two_posts) +
                       "expect:\n  - {of: reaction, under: service-stored, support: left-down, "
                       "value: 500 N, within: 1e-9}\n");
  const std::string missed = folder.write(
      "missed.yaml", std::string(test::two_posts) +
                         "expect:\n  - {of: reaction, under: service-stored, support: left-down, "
                         "value: 501 N, within: 1e-9}\n");
  CHECK(shell(folder, "solve '" + good + "'").code == 0);
  CHECK(shell(folder, "solve '" + missed + "'").code == 1);
  CHECK(shell(folder, "check '" + folder.write("bad.yaml", "a: [") + "'").code == 2);
  CHECK(shell(folder, "chek").code == 2);
  CHECK(shell(folder, "").code == 2);
  CHECK(shell(folder, "--help").code == 0);
}

TEST_CASE("app/program: a file that can not be read says why") {
  const Folder folder;
  const Ran missing = shell(folder, "check '" + folder.at("none.yaml") + "'");
  CHECK(missing.code == 2);
  CHECK(missing.out.empty());
  CHECK(missing.err ==
        "standtrue: cannot read '" + folder.at("none.yaml") + "': there is no such file\n");
  const Ran directory = shell(folder, "check '" + folder.at("") + "'");
  CHECK(directory.code == 2);
  CHECK(directory.err.find("it is a folder") != std::string::npos);
}

TEST_CASE("app/program: a file that never ends is not read to its end") {
  const Folder folder;
  const Ran endless = shell(folder, "check - < /dev/zero");
  CHECK(endless.code == 2);
  CHECK(endless.out.empty());
}

TEST_CASE("app/program: an answer that can not be written is told; a closed pipe is not") {
  const Folder folder;
  const std::string file = folder.write("bench.yaml", small_bench);
  if (fs::exists("/dev/full")) {
    const Ran full = shell(folder, "check '" + file + "' > /dev/full");
    CHECK(full.code == 2);
    CHECK(full.err.find("the answer could not be written to the end\n") != std::string::npos);
  }
  const Ran closed = shell(
      folder, "check --json '" + file + "'; echo $? > '" + folder.at("code") + "'; } | true", "{");
  // A reader that has read enough and gone is no fault: the verdict's own code, and no word.
  CHECK(test::slurp(folder.at("code")) == "1\n");
  CHECK(closed.err.empty());
}

TEST_CASE("app/program: JSON alone on standard output, warnings on standard error") {
  const Folder folder;
  const std::string file = folder.write("bench.yaml", small_bench);
  const Ran json = shell(folder, "check --json '" + file + "'");
  CHECK(json.out.front() == '{');
  CHECK(json.out.substr(json.out.size() - 2) == "}\n");
  const std::string faulty = folder.write("faulty.yaml", "standtrue: 1\nsize: 12\n");
  const Ran faults = shell(folder, "check --json '" + faulty + "'");
  CHECK(faults.code == 2);
  CHECK(faults.out.empty());
  CHECK_FALSE(faults.err.empty());
}

TEST_CASE("app/program: the folder of reference cases as the verification table") {
  const Folder folder;
  const Ran table =
      shell(folder, std::string("verification '") + STANDTRUE_SOURCE_DIR + "/reference/cases'");
  CHECK(table.code == 0);
  CHECK(table.out.find("| a01_simply_supported_central_load |") != std::string::npos);
  CHECK(table.out.find("NOT MET") == std::string::npos);
  CHECK(shell(folder, "verification '" + folder.at("none") + "'").code == 2);
}

TEST_CASE("app/program: a report is written as a whole, and never over the bench file") {
  const Folder folder;
  const std::string bench = folder.write("bench.yaml", small_bench);
  const std::string report = folder.at("report.html");
  const Ran good =
      shell(folder, "check '" + bench + "' --report '" + report + "' --date '1 May 2026'");
  CHECK(good.code < 2);
  CHECK(good.err.empty());
  const std::string html = test::slurp(report);
  CHECK(html.rfind("<!doctype html>", 0) == 0);
  CHECK(html.find("1 May 2026") != html.npos);
  CHECK(html.substr(html.size() - 8) == "</html>\n");
  CHECK(!fs::exists(report + ".part"));

  const Ran itself = shell(folder, "check '" + bench + "' --report '" + bench + "'");
  CHECK(itself.code == 2);
  CHECK(itself.err.find("that is the bench file") != itself.err.npos);
  CHECK(test::slurp(bench) == small_bench);

  const Ran nowhere = shell(folder, "check '" + bench + "' --report '" + folder.at("no/r.html'"));
  CHECK(nowhere.code == 2);
  CHECK(nowhere.err.find("there is no folder") != nowhere.err.npos);
  CHECK(nowhere.out.empty());

  // What lies there under the name of the half-written file is not ours.
  const std::string other = folder.write("report.html.part", "mine");
  CHECK(shell(folder, "parts '" + bench + "' --report '" + report + "'").code == 0);
  CHECK(test::slurp(other) == "mine");
  CHECK(shell(folder, "parts '" + bench + "' --report -").code == 2);

  const Ran full = shell(folder, "parts '" + bench + "' --report /dev/full/x");
  CHECK(full.code == 2);
}

TEST_CASE("app/program: a report goes where a link leads, and replaces plain files alone") {
  const Folder folder;
  const std::string bench = folder.write("bench.yaml", small_bench);
  const std::string report = folder.at("report.html"), link = folder.at("link.html");
  fs::create_symlink("report.html", link);
  CHECK(shell(folder, "parts '" + bench + "' --report '" + link + "'").code == 0);
  CHECK(fs::is_symlink(link));
  CHECK(test::slurp(report).rfind("<!doctype html>", 0) == 0);

  // A link in the place of the half-written file is not followed; access to the old one is kept.
  fs::create_symlink(folder.at("elsewhere"), report + ".part");
  fs::permissions(report, fs::perms::owner_read | fs::perms::owner_write);
  CHECK(shell(folder, "parts '" + bench + "' --report '" + report + "'").code == 0);
  CHECK(!fs::exists(folder.at("elsewhere")));
  CHECK(fs::status(report).permissions() == (fs::perms::owner_read | fs::perms::owner_write));

  const std::string pipe = folder.at("pipe");
  REQUIRE(std::system(("mkfifo '" + pipe + "'").c_str()) == 0);
  const Ran refused = shell(folder, "parts '" + bench + "' --report '" + pipe + "'");
  CHECK(refused.code == 2);
  CHECK(refused.err.find("it is no plain file") != refused.err.npos);
  CHECK(fs::is_fifo(pipe));

  const Ran itself = shell(folder, "parts - --report '" + bench + "' < '" + bench + "'");
  CHECK(itself.code == 2);
  CHECK(test::slurp(bench) == small_bench);
}

TEST_CASE("app/program: an interrupt ends what is not stopped by halves, and leaves no file") {
  const Folder folder;
  const std::string bench = folder.write("bench.yaml", small_bench);
  const std::string report = folder.at("report.html");
  for (const char* signal : {"INT", "TERM"}) {
    // Shells let background work ignore interrupts; timeout does not.
    const Ran ended = shell(folder, "check '" + bench + "' --report '" + report + "'",
                            "timeout --preserve-status -s " + std::string(signal) + " 0.1");
    CHECK(ended.code != 0);
    CHECK(ended.out.empty());
    CHECK(!fs::exists(report));
    CHECK(!fs::exists(report + ".part"));
  }
}

TEST_CASE("app/program: every decision makes a sheet of its own") {
  const Folder folder;
  const std::string bench = folder.write("bench.yaml", small_bench);
  for (const char* command : {"level", "parts", "prove"}) {
    const std::string report = folder.at(std::string(command) + ".html");
    const Ran ran =
        shell(folder, std::string(command) + " '" + bench + "' --report '" + report + "'");
    INFO(command, ": ", ran.err);
    CHECK(ran.code < 2);
    CHECK(test::slurp(report).find("Small bench") != std::string::npos);
  }
}

TEST_CASE("app/program: a picture by its name; an unknown one is told the known ones") {
  const Folder folder;
  const std::string bench = folder.write("bench.yaml", small_bench);
  const Ran solid = shell(folder, "draw '" + bench + "' solid");
  CHECK(solid.code == 0);
  CHECK(solid.out.rfind("<svg", 0) == 0);
  const Ran wrong = shell(folder, "draw '" + bench + "' sollid");
  CHECK(wrong.code == 2);
  CHECK(wrong.err.find("did you mean 'solid'?") != wrong.err.npos);
  const Ran none = shell(folder, "draw '" + bench + "'");
  CHECK(none.code == 2);
  CHECK(none.err.find("which picture?") != none.err.npos);
}

}  // namespace program_test
