"""Holds what the walk-through pages print to what the program prints.

    python3 tests/captures.py PROGRAM PAGE...            fails where a capture is stale
    python3 tests/captures.py PROGRAM --write PAGE...    writes them anew
    python3 tests/captures.py PROGRAM --quick PAGE...    leaves out what takes more than a few seconds

A capture is a fenced block whose first line is `$ standtrue ...`. It is run in the folder of the
project, 80 columns wide. A line `...` ends what is held: the rest of the answer is left out; as the first
line it leaves out what comes before the next. Further lines with a `$` are run too, and what they
answer is not held.

A page may bring its own files: a block of YAML that begins with `# name.yaml` is written to a folder of the
page, where its captures are run from then on.
"""

import pathlib
import re
import shlex
import subprocess
import sys
import tempfile

ROOT = pathlib.Path(__file__).resolve().parent.parent
FENCE = "```"
PROMPT = "$ standtrue "
FILE = re.compile(r"# (\w+\.yaml)$")
SLOW = ("improve", "ply", "odds", "place", "brace")


def answer(program, command, folder):
    """What stands on the screen; a fault of a file that the page brings is one that it means."""
    words = shlex.split(command)[1:]
    run = subprocess.run([program, *words, *([] if "--version" in words else ["--width", "80"])], cwd=folder,
                         capture_output=True, text=True)
    if run.returncode > (1 if folder == ROOT else 2):
        sys.exit(f"{command}\nended with {run.returncode}:\n{run.stderr}")
    return (run.stderr if run.returncode == 2 else run.stdout).rstrip("\n").split("\n")


def capture(program, held, quick, folder):
    """A block anew: the command, its answer, and commands of the same block that answer no more here."""
    command = held[0][2:]
    if quick and (command.split()[1] in SLOW or "--report" in command):
        return held
    further = [line for line in held[1:] if line.startswith(PROMPT)]
    got = answer(program, command, folder)
    if further:
        for line in further:
            answer(program, line[2:], folder)
        return [held[0], *further]
    skipped = []
    if held[1:2] == ["..."] and len(held) > 2 and held[2] in got:
        skipped, got = ["..."], got[got.index(held[2]):]
    if len(held) > 2 and held[-1] == "...":
        got = got[: len(held) - 2 - len(skipped)] + ["..."]
    return [held[0], *skipped, *got]


def renewed(program, lines, quick, own):
    out, i, folder = [], 0, ROOT
    while i < len(lines):
        out.append(lines[i])
        i += 1
        if not out[-1].startswith(FENCE) or i == len(lines):
            continue
        end = next((j for j in range(i, len(lines)) if lines[j].startswith(FENCE)), len(lines))
        block = lines[i:end]
        if block and FILE.match(block[0]):
            folder = own
            (own / FILE.match(block[0])[1]).write_text("\n".join(block) + "\n")
        if block and block[0].startswith(PROMPT):
            block = capture(program, block, quick, folder)
        out += [*block, *lines[end:end + 1]]
        i = end + 1
    return out


def main():
    program, *pages = sys.argv[1:]
    write, quick = "--write" in pages, "--quick" in pages
    stale = []
    for name in [page for page in pages if not page.startswith("--")]:
        path = ROOT / name
        lines = path.read_text().split("\n")
        with tempfile.TemporaryDirectory() as own:
            now = renewed(str(pathlib.Path(program).resolve()), lines, quick, pathlib.Path(own))
        if now == lines:
            continue
        stale.append(name)
        if write:
            path.write_text("\n".join(now))
    if stale and not write:
        sys.exit("stale: " + ", ".join(stale) + "; write them anew with --write and read the difference")


main()
