#!/usr/bin/env python3
"""Makes or checks the table of docs/method.md: what sheets do to examples/boiler-plinth.yaml.

    python3 tests/method_table.py PROGRAM [--write] docs/method.md

Without --write it fails where the table in the file is not what the program answers now.
"""

import json
import subprocess
import sys
from pathlib import Path

example = (Path(__file__).resolve().parent.parent / "examples" / "boiler-plinth.yaml").read_text()
top = "top: {sheet: 21 mm spruce plywood, load: 30 kg}"
shelf = "shelf: {sheet: 15 mm spruce plywood, load: 40 kg/m2}"
assert top in example and shelf in example
machine = "under-the-small-drill-press"
begin, end = "<!-- table: sheets -->\n", "<!-- end -->"

bare = "\n".join(line for line in example.splitlines() if "kind: diagonal" not in line)
bare = bare.replace("braces:\n", "")
back = "\nsheets: [{side: back, sheet: 9 mm spruce plywood}]\n"


def with_top(extra, text=example):
    return text.replace(top, top[:-1] + extra + "}")


bearer = "\nbearers: {under: top, at: [1010 mm]}\n"
variants = [
    ("as it is: screwed, grain across, no bearer", example),
    ("glued", with_top(", fixed: glued")),
    ("loose", with_top(", fixed: loose")),
    ("grain along", with_top(", grain: along")),
    ("a bearer under the machine, grain along", with_top(", grain: along") + bearer),
    ("a bearer under the machine, grain across", with_top(", grain: across") + bearer),
    ("two layers, loose on each other", with_top(", layers: 2")),
    ("two layers, glued", with_top(", layers: 2, layers_joined: glued")),
    ("without the shelf", example.replace(shelf, "shelf: none")),
    ("without its diagonals", bare),
    ("without diagonals and shelf", bare.replace(shelf, "shelf: none")),
    ("without diagonals, all sheets loose",
     with_top(", fixed: loose", bare).replace(shelf, shelf[:-1] + ", fixed: loose}")),
    ("without diagonals, a 9 mm back sheet", bare + back),
]


def answers(program, text):
    run = subprocess.run([program, "check", "--json", "-"], input=text, text=True,
                         capture_output=True)
    if run.returncode not in (0, 1):
        sys.exit(run.stderr)
    return {f["id"]: f for f in json.loads(run.stdout)["findings"]}


def own_part(finding):
    for line in finding["working"]:
        if line.startswith("of that the sheet itself "):
            return line.split("of that the sheet itself ")[1].split(",")[0]
    return "-"


def table(program):
    rows = ["| top | sag | of that the sheet | of that the rails | sway along | sway across |",
            "|---|---|---|---|---|---|"]
    for name, text in variants:
        found = answers(program, text)
        sag = found["sag-total/top-" + machine]
        own = own_part(sag)
        total = sag["demand"]["mean"] * 1e3
        rest = total - float(own.split()[0])
        sway = [found["sway/" + way]["demand"]["mean"] / 1e3 for way in ("along", "across")]
        rows.append(f"| {name} | {total:.2f} mm | {float(own.split()[0]):.2f} mm | {rest:.2f} mm | "
                    f"{sway[0]:.0f} N/mm | {sway[1]:.0f} N/mm |")
    return "\n".join(rows) + "\n"


def main():
    program, page = sys.argv[1], Path(sys.argv[-1])
    made = table(program)
    text = page.read_text()
    head, rest = text.split(begin)
    kept, tail = rest.split(end, 1)
    if "--write" in sys.argv:
        page.write_text(head + begin + made + end + tail)
    elif kept != made:
        print(made)
        sys.exit(f"{page} holds another table: make it again with --write")


main()
