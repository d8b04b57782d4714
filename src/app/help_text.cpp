#include "app/help_text.hpp"

namespace standtrue::app {

namespace {

constexpr const char* general_help =
    R"(standtrue: will this home-built bench carry, stand and stay still?

  standtrue check FILE     what a bench carries, how it sags and sways, what to change
  standtrue ply FILE       how thick the top must be: thickness, grain, bearers set side by side
  standtrue brace FILE     whether it needs a brace, and which
  standtrue improve FILE   the smallest changes that cure what fails
  standtrue variants FILE  the bench beside the variants that its file gives
  standtrue level FILE     how much to turn each foot
  standtrue parts FILE     pieces to cut, with angles, and what to buy
  standtrue place FILE     where on the top a machine may stand, and what may be stored where
  standtrue prove FILE     tests to make on the bench, and what their readings teach
  standtrue odds FILE      how many of a thousand such benches would pass
  standtrue draw FILE NAME one picture of the bench, as SVG on standard output
  standtrue model FILE     the frame that stands for a bench, as a frame case with its answers
  standtrue solve FILE     solve a frame case, and say whether its expectations are met
  standtrue tables [GROUP] the timber, sheet, joint, load and limit values with their sources
  standtrue COMMAND --help the options of a command
  standtrue --version

FILE is YAML; '-' reads it from standard input. A bench needs no more than this:

  standtrue: 1
  size: 2050 x 680 x 900 mm
  timber: C16 38 x 89 mm
  joints: corner brackets
  top: 18 mm spruce plywood
  machines:
    - {kind: drill press, mass: 60 kg, at: middle}

Examples:

  standtrue check bench.yaml
  standtrue check bench.yaml --detail | less
  standtrue check bench.yaml --report bench.html
  standtrue check bench.yaml --json > bench.json
  standtrue model bench.yaml --bound soft > frame.yaml && standtrue solve frame.yaml
  standtrue tables timber

The exit code: 0 every safety check is judged and holds; 1 something does not; 2 the file or the
command line is wrong; 3 a fault of standtrue itself.

A planning aid, not a certificate.
)";

constexpr const char* check_help =
    R"(standtrue check FILE: what the bench carries, how it sags and sways

  --detail     add assumptions, clauses, working, loads, joints, feet and the solver's audit
  --json       write JSON (docs/assessment.schema.json) in place of the page
  --strict     exit code 1 also for sag, sway and other service checks exceeded or not judged
  --report F   also write a report to print: drawings, and the engineer's pages behind them; one HTML
               file that needs nothing else
  --date D     the date in its title block; today's unless given
  --mesh fine  sheets on cells half as wide, where the file says nothing of the mesh: for the doubtful
  --width N    columns of the page, 50 and more; else COLUMNS, the terminal, or 80

On the rod, || is the limit and ooo runs from the answer with soft joints to the one with stiff
joints: clear of the line is good, astride it depends on your brackets, past it is exceeded.

  standtrue check bench.yaml
  standtrue check - < bench.yaml

Colour only on a terminal, and none when NO_COLOR is set.
)";

constexpr const char* compare_help =
    R"(standtrue ply FILE: thickness, grain, layers and bearers of the top, side by side
standtrue brace FILE: without a brace, and with each usual one
standtrue improve FILE: the smallest changes, or pairs of them, that cure what fails
standtrue variants FILE: the bench beside the variants that its file gives

  --json     write JSON (docs/comparison.schema.json) in place of the page
  --report F also write it as a sheet to print, one HTML file; --date D for its title block
  --width N  columns of the page, 50 and more

Each row is a bench of its own, read and checked as 'standtrue check' would. What to write in the
file is told with the answer. How far the work is goes to standard error; Ctrl-C stops it and shows
what was found so far.

  standtrue improve bench.yaml
)";

constexpr const char* level_help =
    R"(standtrue level FILE: how much to turn each foot, so that it stands level and no bed is twisted

  --json     write JSON (docs/level.schema.json) in place of the page
  --report F also write it as a sheet to print, one HTML file; --date D for its title block
  --width N  columns of the page, 50 and more

For a metal lathe before other machines on four pads, and of these the heaviest; without one the top
is levelled. The bench is at rest under its loads, with the fall of the floor and the feet as the file
has them. Exit code 1 when feet that all press can not make it level and free of twist.

  standtrue level bench.yaml
)";

constexpr const char* parts_help =
    R"(standtrue parts FILE: pieces to cut, and what to buy

  --json     write JSON (docs/parts.schema.json) in place of the page
  --report F also write it as a sheet to print, one HTML file; --date D for its title block
  --width N  columns of the page, 50 and more

Timber is bought in 2.4 m and 3 m lengths, sheets of 2440 x 1220 mm (8 ft and 10 ft, 8 x 4 ft), so that
the least is left over.

  standtrue parts bench.yaml
)";

constexpr const char* prove_help =
    R"(standtrue prove FILE: tests with a pull or a weight, and what their readings teach

  --json     write JSON (docs/prove.schema.json) in place of the page
  --report F also write it as a sheet to print, one HTML file; --date D for its title block
  --width N  columns of the page, 50 and more

Without readings in the file: which tests to make on a loose rail, the bare frame and the finished
bench, what to expect, and what each teaches. With them: how stiff timber, joints and screws really
are, and what becomes of the verdict. In the bench file:

  readings:
    - {test: finished along, pull: 10 kg, moves: 0.6 mm}

Exit code 1 when no test can be made, or readings contradict each other.

  standtrue prove bench.yaml
)";

constexpr const char* odds_help =
    R"(standtrue odds FILE: how many of a thousand benches built from this file would pass

  --seed N   other benches: they are drawn by chance, and alike for the same number (1 unless given)
  --json     write JSON (docs/odds.schema.json) in place of the page
  --report F also write it as a sheet to print, one HTML file; --date D for its title block
  --width N  columns of the page, 50 and more

The stiffness of each piece of timber, of the joints and of the sheets' screws is drawn 10,000 times
as published scatter has it. Strength is not: its scatter is in the partial factors of the rules.
With readings in the file (standtrue prove --help) it is drawn by what they say of this bench, and the
answer is the chance that this one passes. Exit code 1 when they contradict each other or do not fit
the bench: it is then drawn as without them.

  standtrue odds bench.yaml
)";

constexpr const char* place_help =
    R"(standtrue place FILE [MACHINE]: where on the top this machine may stand, the others staying

  --json     write JSON (docs/place.schema.json) in place of the page
  --report F also write it as a sheet to print, one HTML file; --date D for its title block
  --width N  columns of the page, 50 and more

Without MACHINE the heaviest on the top. A plan of the top for each way round, in dots (clear), plus
signs (care) and hashes (barred), with the reasons; the best place; and what may be stored where.

  standtrue place bench.yaml "drill press"
)";

constexpr const char* draw_help =
    R"(standtrue draw FILE NAME: one picture of the bench, as SVG on standard output

  shop            front, left end and plan with string, bobs and numbers
  rod             how far each is from its limit
  front, end, plan, solid     the bench, hidden edges dashed (not in the round)
  loaded          how it moves under its loads
  pushed-along, pushed-across how it sways
  moments         bending moments of its timber
  sticks          the twist of a machine's bed
  swings          its first natural frequencies
  sag, sway, speeds           charts of each

Drawn for a sheet 186 mm wide. Where the bench has nothing to show the exit code is 1.

  standtrue draw bench.yaml solid > bench.svg
)";

constexpr const char* solve_help =
    R"(standtrue solve FILE: the response of a frame case to each of its loadings

  --width N    columns of the page, 50 and more

Movements, support forces, member end forces and extremes; then each expectation, met or missed.
Exit code 0 when all are met, or when there are none and every loading has an answer.

  standtrue solve reference/cases/b01_portal_pinned_feet.yaml
)";

constexpr const char* model_help =
    R"(standtrue model FILE: the frame that stands for a bench, on standard output

  --bound B    stiffness of the joints: soft, mean or stiff (mean unless given)

The frame case expects its own answers, so that 'standtrue solve' or another solver can repeat them.

  standtrue model bench.yaml > frame.yaml
)";

constexpr const char* tables_help =
    R"(standtrue tables [GROUP]: the reference values with their sources

  --width N    columns of the page, 50 and more

  standtrue tables
  standtrue tables timber
)";

}  // namespace

std::string help_text(const std::string& command) {
  if (command == "check") return check_help;
  if (command == "ply" || command == "brace" || command == "improve" || command == "variants") {
    return compare_help;
  }
  if (command == "level") return level_help;
  if (command == "parts") return parts_help;
  if (command == "prove") return prove_help;
  if (command == "odds") return odds_help;
  if (command == "draw") return draw_help;
  if (command == "place") return place_help;
  if (command == "solve") return solve_help;
  if (command == "model") return model_help;
  if (command == "tables") return tables_help;
  return general_help;
}

}  // namespace standtrue::app
