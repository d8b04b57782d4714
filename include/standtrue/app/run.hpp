#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "standtrue/decide/decide.hpp"
#include "standtrue/report/html.hpp"
#include "standtrue/report/report.hpp"

/// A command and the text of its file to text and an exit code. Both doors, the terminal and the
/// browser, come through here; nothing here knows of files or of a terminal.
namespace standtrue::app {

enum class Command {
  check,
  ply,
  brace,
  improve,
  variants,
  level,
  parts,
  place,
  prove,
  odds,
  draw,
  solve,
  model,
  tables
};

/// How much of a check is answered.
enum class Extent {
  whole,
  drawn,      ///< what a page draws and tells: without what was solved and what is only printed
  first_look  ///< of that what mean joints alone tell, and no verdict: to be shown meanwhile
};

struct Options {
  report::Style style;
  bool json = false;       ///< check: JSON instead of the page
  bool strict = false;     ///< check: service findings and what was not judged count too
  bool fine_mesh = false;  ///< check: plates on half the usual cells, unless the file says how wide
  model::Bound bound = model::Bound::mean;  ///< model
  std::string group;                        ///< tables; all when empty
  std::string machine;                      ///< place; the heaviest on the top when empty
  std::uint64_t seed = 1;                   ///< odds
  std::string picture;                      ///< draw
  bool report = false;                      ///< also make a report to print
  bool page = false;                        ///< also the page, where `json` is the answer
  bool with_picture = false;                ///< check: also what its drawings are made of
  Extent extent = Extent::whole;            ///< check
  std::string date;  ///< for its title block; the caller knows what day it is
  decide::Work work = decide::Work::plain();  ///< for what takes long
};

/// What the exit code says.
enum Code {
  all_good = 0,
  not_good = 1,    ///< a limit exceeded, a check not judged, an expectation missed
  wrong_file = 2,  ///< or wrong usage, or an answer that could not be written
  our_fault = 3
};

struct Outcome {
  std::string out;  ///< the answer
  std::string err;  ///< faults and warnings
  int code = all_good;
  std::string report = {};   ///< HTML, where it was asked for and there is an answer
  std::string page = {};     ///< text, as `report`
  std::string picture = {};  ///< JSON (docs/picture.schema.json), as `report`
  std::vector<Diagnostic> diagnostics = {};  ///< those of `err` that belong to a place in the file
};

/// Reads, assesses, reports. `file` is the name to tell of in faults. A std::logic_error of the
/// core ends here as "this is a fault of standtrue".
[[nodiscard]] Outcome run(Command command, const Options& options, const std::string& file,
                          const std::string& text);

/// 0 when every safety check is judged and holds at every stiffness of the joints; `strict`: and
/// every service check. Cautions do not count.
[[nodiscard]] int exit_code(const decide::Assessment& assessment, bool strict);

/// The rows of docs/verification.md for these frame cases.
struct File {
  std::string name;
  std::string text;
};
[[nodiscard]] Outcome verification(const std::vector<File>& cases);

}  // namespace standtrue::app
