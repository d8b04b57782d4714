#!/usr/bin/env python3
"""Lists the branches of src/solve and src/check that no test takes, from what llvm-cov exports.

    python3 tests/coverage.py COVERAGE.json

A branch is one way of one condition in the source: `a && b` has four. Conditions that a constant
decides, exceptions, the default that a `switch` over an enumeration has not, and the conditions of `expects`, which
stop faults of our own, do not count; of templates a way counts as taken where one of their instances takes it.
"""

import json
import re
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent


def expecting(lines):
    """Numbers of the lines of `expects(...)` statements."""
    found, inside = set(), False
    for number, line in enumerate(lines, 1):
        inside = inside or re.match(r"\s*expects\(", line) is not None
        if inside:
            found.add(number)
            inside = ";" not in line
    return found


def tell(room, files):
    taken = total = lines = lines_run = 0
    for file in files:
        path = Path(file["filename"])
        if not path.is_relative_to(ROOT / "src" / room):
            continue
        lines += file["summary"]["lines"]["count"]
        lines_run += file["summary"]["lines"]["covered"]
        text = path.read_text(encoding="utf-8").split("\n")
        ours = expecting(text)
        ways = {}
        for line, column, last, end, yes, no, *_ in file["branches"]:
            is_switch = text[line - 1][:column - 1].endswith("switch (")  # its missing default
            if line in ours or is_switch:
                continue
            before = ways.get((line, column, last, end), (0, 0))
            ways[line, column, last, end] = (before[0] + yes, before[1] + no)
        for (line, column, last, end), counts in sorted(ways.items()):
            total += 2
            taken += sum(count > 0 for count in counts)
            if all(counts):
                continue
            condition = text[line - 1][column - 1:end - 1] if line == last else text[line - 1].strip()
            never = "never looked at" if not any(counts) else f"never {'false' if counts[0] else 'true'}"
            print(f"src/{room}/{path.name}:{line}: {never}: {condition}")
    print(f"{room}: lines {lines_run} of {lines} ({100 * lines_run / lines:.1f} %), branches {taken} of "
          f"{total} ({100 * taken / total:.1f} %)\n")


def main():
    files = json.loads(Path(sys.argv[1]).read_text())["data"][0]["files"]
    for room in ("solve", "check"):
        tell(room, files)


main()
