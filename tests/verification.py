#!/usr/bin/env python3
"""Makes docs/verification.md, and holds it to be true.

    python3 tests/verification.py PROGRAM --write docs/verification.md
    python3 tests/verification.py PROGRAM             is the page true today? (run by ctest)
    python3 tests/verification.py PROGRAM beams ...   these oracles alone, nothing compared

Its first table is what tests/oracles/*.py found by other programs and libraries, its second what
`standtrue verification reference/cases` prints. Differences near rounding are told as bounds, powers of
ten: another processor rounds otherwise, and a bound stays true. Exit code 77 where a package of
`./setup.sh --developer` is missing, when the second table has been held against the page.
"""

import concurrent.futures
import importlib
import math
import os
import re
import subprocess
import sys
from pathlib import Path

root = Path(__file__).resolve().parent.parent
sys.path.insert(0, str(root / "tests/oracles"))
oracles = ("beams", "frames", "bench", "whole_bench", "suitesparse", "plates", "sheets")
heading = """# Verification

Made by `python3 tests/verification.py PROGRAM --write docs/verification.md`; a test runs the same, fails
where a difference is more than what is allowed, and keeps this page true. Bounds are twice the worst
that was found (near rounding twenty times) or more, where that is allowed: another processor rounds
otherwise, and they stay true.

## Against other programs and libraries

Solved without the program by what `tests/oracles/` has, from Debian's packages; all differences are parts
of the largest of their kind (movements, rotations, forces, moments) in their case. `allowed` is the
largest tolerance of the row; each value has its own, and what the worst of them uses of it stands beside.

"""
published = """
## Against published answers

Every expected value of every frame case in `reference/cases/`, with its source and how far the solver is
off (relative), as `standtrue verification reference/cases` prints it.

"""


def bound(x, room):
    """At least `room` times x: a power of ten, from 1e-6 on 1, 2 or 5 of them."""
    x = max(room * x, 1e-15) * (1.0 - 1e-9)
    power = math.floor(math.log10(x))
    steps = (1, 2, 5, 10) if x > 1e-6 else (1, 10)
    step = next(step for step in steps if step * 10.0**power >= x)
    return f"1e{power + 1}" if step == 10 else f"{step}e{power}"


def share(x, room):
    return f"{min(100.0 * float(bound(x, room)), 100.0):g} %"


def bounded_row(line, room):
    """A row of the program's table with its rounding replaced by bounds."""
    cells = line.split(" | ")
    if len(cells) != 7:
        return line
    error = re.fullmatch(r"(\S+e-\d+|0\.0e\+00)( \S.*)?", cells[5])
    if error and float(error[1]) < 1e-5:
        cells[5] = f"below {bound(float(error[1]), room)}{error[2] or ''}"
        if error[2]:  # against nought: what was got is the error
            cells[4] = cells[5]
    return " | ".join(cells)


def case_table(program, room):
    run = subprocess.run([program, "verification", root / "reference/cases"], capture_output=True,
                         text=True)
    if run.returncode != 0:
        sys.exit(f"verification: {run.stderr}")
    if "NOT MET" in run.stdout:
        sys.exit("verification: a case does not meet what it expects")
    return "".join(bounded_row(line, room) + "\n" for line in run.stdout.splitlines())


def run_oracle(name, program):
    try:
        return importlib.import_module(name).run(program, root), ""
    except ImportError as missing:
        if missing.name and (root / f"tests/oracles/{missing.name}.py").exists():
            raise  # a fault of ours
        return [], f"{name}: {missing}"


def run_oracles(names, program):
    """Rows of the first table, and what was missing."""
    os.environ["OPENBLAS_NUM_THREADS"] = "1"
    with concurrent.futures.ProcessPoolExecutor(2) as pool:
        jobs = [pool.submit(run_oracle, name, program) for name in names]
        found = [job.result() for job in jobs]
    return [row for rows, _ in found for row in rows], [missing for _, missing in found if missing]


def summary(rows, room):
    lines = ["| of standtrue | against | values | worst difference | allowed | of which used | where that "
             "comes from |", "|---|---|---|---|---|---|---|"]
    rooms = [10.0 * room if room > 1.0 and row.worst < 1e-4 else room for row in rows]  # rounding
    worst = [min(bound(row.worst, room), bound(row.allowed, 1.0), key=float)
             for row, room in zip(rows, rooms)]
    lines += [f"| {row.what} | {row.against} | {row.values:,} | below {below} | "
              f"up to {bound(row.allowed, 1.0)} | below {share(row.used, room)} | {row.why} |"
              for row, below, room in zip(rows, worst, rooms)]
    return "\n".join(lines) + "\n"


def is_true(kept, now):
    """Whether the page's line is still so: equal but for last figures and bounds. `now` has the least
    bounds that hold; those of the page must hold too, and not say much less."""
    if kept == now:
        return True
    number = r"(below |up to )?(?<![\w.-])(-?\d+(?:\.\d+)?(?:e[-+]?\d+)?)(?!\w)( %)?"
    if re.sub(number, "#", kept) != re.sub(number, "#", now):
        return False
    for (how, text, percent), (_, b, _) in zip(re.findall(number, kept), re.findall(number, now)):
        a, b = float(text), float(b)
        if how == "up to ":  # estimated with the condition
            well = b / 10.1 <= a <= 10.1 * b
        elif how:
            well = b <= a <= b * (1001.0 if percent or a < 1e-3 else 5.1)
        else:  # seven printed figures (two of an error); another processor may round the last
            well = abs(a - b) <= (0.1 if re.fullmatch(r"\d\.\de-\d\d", text) else 2e-6) * abs(b)
        if not well:
            return False
    return True


def faults(kept, now):
    kept, now = kept.splitlines(), now.splitlines()
    found = [f"- {a}\n+ {b}" for a, b in zip(kept, now) if not is_true(a, b)]
    return found + ["the number of lines has changed"] * (len(kept) != len(now))


def main():
    program, *words = sys.argv[1:]
    names = [word for word in words if word in oracles]
    target = Path(words[1]) if words[:1] == ["--write"] else root / "docs/verification.md"
    rows, missing = run_oracles(names or oracles, program)
    if names:
        print(summary(rows, 1.0))
    if any(row.missed for row in rows):
        sys.exit("verification: " + "; ".join(f"{row.missed} of {row.what}" for row in rows if row.missed)
                 + ": off by more than is allowed")
    if names:
        print("".join(f"skipped, {line}\n" for line in missing), end="")
        sys.exit(77 if missing else 0)
    room = 2.0 if words[:1] == ["--write"] else 1.0
    page = heading + summary(rows, room) + published + case_table(program, room)
    if words[:1] == ["--write"]:
        if missing:
            sys.exit(f"verification: not written, {missing}")
        target.write_text(page)
        return
    kept = target.read_text()
    if missing:  # what can be told without them
        kept, page = (text.split("## Against published")[-1] for text in (kept, page))
    found = faults(kept, page)
    if found:
        sys.exit("\n".join(found[:20]) + "\nverification: docs/verification.md is out of date: run python3 "
                 "tests/verification.py PROGRAM --write docs/verification.md and review the change")
    if missing:
        print(f"verification: skipped in part, {missing}; ./setup.sh --developer installs what it needs")
        sys.exit(77)


if __name__ == "__main__":
    main()
