"""Holds what the walk-through pages print to what the program prints.

    python3 tests/captures.py PROGRAM PAGE...            fails where a capture is stale
    python3 tests/captures.py PROGRAM --write PAGE...    writes them anew
    python3 tests/captures.py PROGRAM --quick PAGE...    leaves out what takes more than a few seconds

A capture is a fenced block whose first line is `$ standtrue ...`. It is run in the folder of the
project, 80 columns wide. A line `...` ends what is held: the rest of the answer is left out.
"""

import pathlib
import shlex
import subprocess
import sys

ROOT = pathlib.Path(__file__).resolve().parent.parent
FENCE = "```"
PROMPT = "$ standtrue "
SLOW = ("improve", "ply", "odds", "place", "brace")


def answer(program, command):
    words = shlex.split(command)[1:]
    run = subprocess.run([program, *words, "--width", "80"], cwd=ROOT, capture_output=True, text=True)
    if run.returncode > 1:
        sys.exit(f"{command}\nended with {run.returncode}:\n{run.stderr}")
    return run.stdout.rstrip("\n").split("\n")


def renewed(program, lines, quick):
    out, i = [], 0
    while i < len(lines):
        out.append(lines[i])
        starts = lines[i].startswith(FENCE) and i + 1 < len(lines) and lines[i + 1].startswith(PROMPT)
        i += 1
        if not starts:
            continue
        command = lines[i][2:]
        out.append(lines[i])
        end = next(j for j in range(i + 1, len(lines)) if lines[j].startswith(FENCE))
        held = lines[i + 1 : end]
        got = held if quick and command.split()[1] in SLOW else answer(program, command)
        if held and held[-1] == "...":
            got = got[: len(held) - 1] + ["..."]
        out += got
        i = end
    return out


def main():
    program, *pages = sys.argv[1:]
    write, quick = "--write" in pages, "--quick" in pages
    stale = []
    for name in [page for page in pages if not page.startswith("--")]:
        path = ROOT / name
        lines = path.read_text().split("\n")
        now = renewed(str(pathlib.Path(program).resolve()), lines, quick)
        if now == lines:
            continue
        stale.append(name)
        if write:
            path.write_text("\n".join(now))
    if stale and not write:
        sys.exit("stale: " + ", ".join(stale) + "; write them anew with --write and read the difference")


main()
