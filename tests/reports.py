"""Makes the reports of all examples and holds their first sheets to those kept in tests/report/golden, and
the pictures of docs/pictures to what the program draws.

    python3 tests/reports.py PROGRAM FOLDER            makes them in FOLDER, fails where one differs
    python3 tests/reports.py PROGRAM FOLDER --write    keeps what was made

A first sheet is what most people read, and small enough to look through when it changes; what stands
behind it is held by tests of its own. The browser's test opens what was made in FOLDER.
"""

import pathlib
import subprocess
import sys

ROOT = pathlib.Path(__file__).resolve().parent.parent
GOLDEN = ROOT / "tests" / "report" / "golden" / "reports"
EXAMPLES = ("boiler-plinth", "too-slender", "turning-bench")
# Every example has these; the others take long, and one bench shows what they look like.
COMMANDS = ("check", "level", "parts", "prove")
ALSO = (("place", "too-slender"), ("brace", "too-slender"))
PICTURES = (
    ("boiler-plinth", "shop"),
    ("boiler-plinth", "sway"),
    ("boiler-plinth", "pushed-across"),
    ("turning-bench", "solid"),
    ("turning-bench", "swings"),
    ("too-slender", "moments"),
    ("too-slender", "loaded"),
)


def make(program, command, example, path):
    words = [program, command, f"examples/{example}.yaml", "--report", str(path), "--date", "1 May 2026"]
    run = subprocess.run(words, cwd=ROOT, capture_output=True, text=True)
    if run.returncode > 1:
        sys.exit(f"{' '.join(words)}\nended with {run.returncode}:\n{run.stderr}")


def draw(program, example, picture):
    words = [program, "draw", f"examples/{example}.yaml", picture]
    return subprocess.run(words, cwd=ROOT, capture_output=True, text=True, check=True).stdout


def first_sheet(html):
    start = html.index("<section")
    return html[start : html.index("</section>") + len("</section>")] + "\n"


def main():
    program, folder, *options = sys.argv[1:]
    program, folder = str(pathlib.Path(program).resolve()), pathlib.Path(folder)
    folder.mkdir(parents=True, exist_ok=True)
    stale, write = [], "--write" in options

    def hold(kept, now):
        if kept.exists() and kept.read_text() == now:
            return
        if write:
            kept.parent.mkdir(parents=True, exist_ok=True)
            kept.write_text(now)
        else:
            stale.append(kept)

    jobs = [(command, example) for example in EXAMPLES for command in COMMANDS]
    for command, example in [*jobs, *ALSO]:
        name = f"{example}-{command}.html"
        make(program, command, example, folder / name)
        hold(GOLDEN / name, first_sheet((folder / name).read_text()))
    for example, picture in PICTURES:
        hold(ROOT / "docs" / "pictures" / f"{example}-{picture}.svg", draw(program, example, picture))
    for kept in stale:
        print(f"{kept.relative_to(ROOT)} is not what the program makes now; see {folder}")
    if stale:
        sys.exit("look at them; if they are right, run this again with --write")


if __name__ == "__main__":
    main()
