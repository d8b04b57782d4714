#!/usr/bin/env python3
"""Makes or checks the tables of docs/method.md: what sheets do to examples/boiler-plinth.yaml, and
what rails and tops do to the bed of a lathe.

    python3 tests/method_table.py PROGRAM [--write] docs/method.md

Without --write it fails where a table in the file is not what the program answers now.
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

bare = "\n".join(line for line in example.splitlines() if "kind: diagonal" not in line)
bare = bare.replace("braces:\n", "")
back = "\nsheets: [{side: back, sheet: 9 mm spruce plywood}]\n"


def with_top(extra, text=example):
    return text.replace(top, top[:-1] + extra + "}")


bearer = "\nbearers: {under: top, at: [1010 mm]}\n"
sheet_variants = [
    ("as it is: screwed, grain along, no bearer", example),
    ("glued", with_top(", fixed: glued")),
    ("loose", with_top(", fixed: loose")),
    ("grain across", with_top(", grain: across")),
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


def lathe_bench(rail=95, front=None, board=18, more=""):
    front = f"rails: {{top: {{front: {{section: 45 x {front} mm}}}}}}\n" if front else ""
    return f"""standtrue: 1
size: 1500 x 600 x 880 mm
timber: C24 45 x {rail} mm
posts: 70 x 70 mm
joints: two corner brackets
top: {{sheet: {board} mm spruce plywood, grain: across, load: 20 kg}}
machines: [{{kind: mini metal lathe, at: [600 mm, 190 mm], mounting: bolted}}]
{front}{more}"""


level_variants = [
    ("rails 45 x 95 mm, top 18 mm", lathe_bench()),
    ("rails 45 x 120 mm", lathe_bench(rail=120)),
    ("rails 45 x 145 mm", lathe_bench(rail=145)),
    ("rails 45 x 195 mm", lathe_bench(rail=195)),
    ("front top rail alone 45 x 145 mm", lathe_bench(front=145)),
    ("top 12 mm", lathe_bench(board=12)),
    ("top 24 mm", lathe_bench(board=24)),
    ("a bearer under each end of the lathe",
     lathe_bench(more="bearers: {under: top, at: [340 mm, 860 mm]}\n")),
]


def answers(program, text):
    run = subprocess.run([program, "check", "--json", "-"], input=text, text=True,
                         capture_output=True)
    if run.returncode not in (0, 1):
        sys.exit(run.stderr)
    return {f["id"]: f for f in json.loads(run.stdout)["findings"]}


def after(finding, words):
    """The number that follows these words in the working."""
    for line in finding["working"]:
        if words in line:
            return line.split(words)[1].split()[0].rstrip(",;")
    return "-"


def sheet_table(program):
    rows = ["| top | sag | of that the sheet | of that the rails | sway along | sway across |",
            "|---|---|---|---|---|---|"]
    for name, text in sheet_variants:
        found = answers(program, text)
        sag = found["sag-total/top-" + machine]
        own = float(after(sag, "of that the sheet itself "))
        total = sag["demand"]["mean"] * 1e3
        sway = [found["sway/" + way]["demand"]["mean"] / 1e3 for way in ("along", "across")]
        rows.append(f"| {name} | {total:.2f} mm | {own:.2f} mm | {total - own:.2f} mm | "
                    f"{sway[0]:.0f} N/mm | {sway[1]:.0f} N/mm |")
    return "\n".join(rows) + "\n"


def level_table(program):
    rows = ["| bench | bed takes | front edge: bare top | bed | middle: bed | sag under the lathe |",
            "|---|---|---|---|---|---|"]
    for name, text in level_variants:
        found = answers(program, text)
        twist = found["twist/mini-metal-lathe"]
        sag = found["sag-total/top-under-the-mini-metal-lathe"]["demand"]["mean"] * 1e3
        share = float(after(twist, "1/(1 + k G/b^2) = "))
        edge = abs(float(after(twist, "front edge, middle: ")))
        middle = abs(float(after(twist, "; middle: ")))
        rows.append(f"| {name} | {share:.3f} | {edge / share:.2f} mm/m | {edge:.2g} mm/m | "
                    f"{middle:.2g} mm/m | {sag:.2f} mm |")
    return "\n".join(rows) + "\n"


def main():
    program, page = sys.argv[1], Path(sys.argv[-1])
    text, stale = page.read_text(), []
    for name, table in (("sheets", sheet_table), ("level", level_table)):
        made = table(program)
        head, rest = text.split(f"<!-- table: {name} -->\n")
        kept, tail = rest.split("<!-- end -->", 1)
        if kept != made:
            print(made)
            stale.append(name)
        text = f"{head}<!-- table: {name} -->\n{made}<!-- end -->{tail}"
    if "--write" in sys.argv:
        page.write_text(text)
    elif stale:
        sys.exit(f"{page} holds other tables of {', '.join(stale)}: make them again with --write")


main()
