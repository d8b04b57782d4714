#!/usr/bin/env python3
"""Makes docs/benchmarks.md, and the drawing that it shows.

    /usr/bin/python3 tests/benchmarks.py BUILD --write docs/benchmarks.md
    /usr/bin/python3 tests/benchmarks.py BUILD                              prints it, keeps nothing

BUILD is an optimised build's folder (`build/test`); what is timed is built there first. It takes some minutes
and wants a machine that does nothing else. Needs what `./setup.sh --benchmarks` installs; Debian's SciPy is
seen by Debian's Python alone. Nothing of it is a test: times are no reason to fail.
"""

import datetime
import importlib.util
import os
import platform
import re
import shutil
import subprocess
import sys
import textwrap
from pathlib import Path

root = Path(__file__).resolve().parent.parent
sys.path.insert(0, str(root / "tests/bench/speed"))
sys.dont_write_bytecode = True
import google  # noqa: E402
import growth  # noqa: E402
import instructions  # noqa: E402
import matrices  # noqa: E402

examples = ("boiler-plinth", "turning-bench", "too-slender")
repetitions = 5
drawing = root / "docs/pictures/growth.svg"
stages = {
    "load_tables": "the reference records, once for every run",
    "parse": "the file as YAML",
    "read_bench": "what it says of the bench",
    "idealise": "bench → model",
    "condense": "its sheets, each to the points that it is tied at",
    "assemble": "the stiffness matrix of the frame",
    "factor": "that matrix, with its condition",
    "solve_500": "500 right-hand sides, each refined once",
    "all_combinations": "all of that but the sheets, and every combination of loads with feet that lift and slide",
    "modes": "how it swings, up to 60 Hz",
    "influence_fields": "its heaviest machine at every place of a grid of 100 mm",
    "sum_of_fields": "the answer for one such place out of these",
    "check_all": "every limit state, and all that these ask of the solver",
    "assess": "**the whole check**: every bound of joints and timber, after creep, the verdict",
    "report_text": "the verdict for a terminal",
    "report_json": "all of it as JSON",
    "report_html": "the report to print, all its drawings, without the plan of places",
}
commands = {
    "check": "the verdict",
    "check_and_report": "the same with a report to print, all its drawings and the plan of places",
    "parts": "what to cut and buy",
    "level": "how to set the feet",
    "prove": "tests to make on the bench",
    "place": "where the heaviest machine may stand",
    "ply": "thickness, grain and layers of the top",
    "brace": "with and without each brace",
    "odds": "how many of a thousand would stand",
    "improve": "the least changes that cure it",
}
matrix_meshes = [(example, 50) for example in examples] + [("boiler-plinth", 100), ("boiler-plinth", 25)]


def figures(value):
    """Three of them, as people write them."""
    if value == 0.0:
        return "0"
    digits = 2 - int(f"{value:.2e}".split("e")[1])
    return f"{value:,.{max(digits, 0)}f}" if digits >= 0 else f"{round(value, digits):,.0f}"


def table(head, rows):
    return "\n".join("| " + " | ".join(row) + " |" for row in (head, ["---"] * len(head), *rows)) + "\n"


def wrapped(text):
    """Paragraphs of prose; lines that a table or a picture is made of stay as they are."""
    def is_prose(part):
        return not part.lstrip().startswith(("|", "#", "!"))
    return "\n\n".join(textwrap.fill(part, 118, break_on_hyphens=False, break_long_words=False)
                       if is_prose(part) else part for part in re.split(r"\n{2,}", text.strip()))


def tell(what):
    print(f"benchmarks: {what}", file=sys.stderr, flush=True)


def set_up(build):
    cache = build / "CMakeCache.txt"
    if not cache.exists() or "CMAKE_BUILD_TYPE:STRING=Release" not in cache.read_text():
        sys.exit(f"benchmarks: {build} is no optimised build; make one by: cmake --preset test")
    if not shutil.which("valgrind") or not importlib.util.find_spec("scipy"):
        sys.exit("benchmarks: valgrind or SciPy is missing: ./setup.sh --benchmarks, and run it by /usr/bin/python3")
    tell("building")
    subprocess.run(["cmake", build], check=True, stdout=subprocess.DEVNULL)
    if subprocess.run(["cmake", "--build", build, "--target", "standtrue", "speed", "same_matrix"],
                      stdout=sys.stderr).returncode:
        sys.exit("benchmarks: not built; where there is no target 'speed': ./setup.sh --benchmarks")


def first_of(text, pattern, otherwise="?"):
    found = re.search(pattern, text, re.M)
    return found[1].strip() if found else otherwise


def said_by(*words):
    return subprocess.run(words, cwd=root, capture_output=True, text=True).stdout.strip()


def machine(build, load):
    compiler = first_of((build / "CMakeCache.txt").read_text(), r"^CMAKE_CXX_COMPILER:\w+=(.*)$")
    memory = int(first_of(Path("/proc/meminfo").read_text(), r"^MemTotal:\s+(\d+)", "0")) / 2**20
    today = datetime.date.today()
    return (f"{today.day} {today:%B %Y}, revision {said_by('git', 'describe', '--always', '--dirty')}, "
            f"{said_by(compiler, '--version').splitlines()[0]}, "
            f"{first_of(Path('/proc/cpuinfo').read_text(), '^model name.*: (.*)$', platform.machine())} with "
            f"{os.cpu_count()} cores and {memory:.0f} GB; in the minute before, {load:.1f} other programs "
            f"ran on it on average")


def heading(build, load):
    return f"""# Benchmarks

Made by `/usr/bin/python3 tests/benchmarks.py BUILD --write docs/benchmarks.md`: {machine(build, load)}.

Times move with the machine and with what else it does: hold them against each other within this page, not
against those of another day. Counted instructions do not move, as long as compiler, libraries and the
processor's kind of registers (AVX2) stay. No test reads this page.
"""


def of_stages(timed):
    rows = []
    for name, what in stages.items():
        times = [timed[name, ""]] if (name, "") in timed else [timed[name, e] for e in examples]
        cells = [figures(time.ms) for time in times]
        rows.append([f"`{name}`", what, *cells, *[""] * (len(examples) - len(cells))])
    places = ", ".join(f"{timed['influence_fields', e].entry['places']:.0f}" for e in examples)
    return f"""
## A check, stage by stage

Milliseconds of the processor, one thread, the least of {repetitions} repetitions; up to `check_all` at mean
joints alone. The influence fields are of {places} places.

{table(["stage", "what", *examples], rows)}"""


def of_commands(timed):
    rows = [[f"`{name.replace('_and_', ' --')}`", what, *[figures(timed[name, e].ms / 1000.0) for e in examples]]
            for name, what in commands.items()]
    return f"""
## Commands

Seconds by the clock, from the text of the file to the answer: what a builder waits for, on all {os.cpu_count()} cores
where the command uses them. From `place` on run once, the others three times of which the least stands here.

{table(["command", "answers", *examples], rows)}"""


def cell_of(way):
    return f"{figures(way['factor'])} + {figures(way['solve'])}" if way["factor"] > 0.005 else figures(way["total"])


def verdict(ratios):
    met = sum(ratio <= 1.0 for ratio in ratios)
    how = "met" if met == len(ratios) else "**not met**" if met == 0 else f"**met on {met} of {len(ratios)} alone**"
    return f"{how} ({min(ratios):.2f} to {max(ratios):.2f} of its time)"


def of_matrices(compared):
    rows, bare_ratios, used_ratios, kinds = [], [], [], set()
    for one in compared:
        (bare, _), (used, _) = one.best("standtrue, bare"), one.best("standtrue, as used")
        (scipy, how), (cholmod, kind) = one.best("splu", "spsolve"), one.best("CHOLMOD")
        other = one.best("dense", "banded")[0]
        kinds |= {blas for blas in (scipy["blas"], cholmod["blas"])}
        bare_ratios.append(bare["total"] / scipy["total"])
        used_ratios.append(used["total"] / scipy["total"])
        rows.append([f"{one.example}, {one.mesh} mm", f"{one.size['unknowns']:,}", f"{one.size['entries']:,}",
                     cell_of(bare), cell_of(used), f"{cell_of(scipy)} ({how})", figures(other["total"]),
                     f"{cell_of(cholmod)} ({kind.split(', ')[1]})", f"{bare_ratios[-1]:.2f}",
                     f"{used_ratios[-1]:.2f}", f"{bare['total'] / cholmod['total']:.2f}"])
    import scipy as package  # of Debian's Python
    better = "each with Debian's plain BLAS and with OpenBLAS, the quicker of the two" \
        if any(way["blas"] == "OpenBLAS" for one in compared for way in one.ways.values()) \
        else "with the BLAS that is installed (no OpenBLAS was to be had)"
    return f"""
## Against SciPy and SuiteSparse

Factor + 500 right-hand sides on the very same matrix, that of the frame with its sheets condensed, in the same
run and in turns: milliseconds of the processor, one thread, the least of
{matrices.tries * matrices.turns} tries or more. *Bare* is
what the others do too; *as used* also scales the matrix, estimates its condition and refines every answer
once, as every check does. SciPy {package.__version__} is `splu` and `spsolve` in every ordering, with and
without symmetric mode, the best of them; *dense or banded* the better of LAPACK's two Cholesky solvers; all
were tried once, the three quickest as often as the others. CHOLMOD is the better of supernodal and simplicial. Both are taken
{better}.

{table(["matrix", "unknowns", "entries", "bare", "as used", "SciPy's best", "dense or banded", "CHOLMOD's best",
        "bare / SciPy", "as used / SciPy", "bare / CHOLMOD"], rows)}

Target: no slower than SciPy's best. Bare: {verdict(bare_ratios)}. As used: {verdict(used_ratios)}.
"""


def of_instructions(profiles, again):
    apart = abs(again.total - profiles[0].total) / profiles[0].total
    rows = [[example, f"{profile.total / 1e6:,.0f} million"] for example, profile in zip(examples, profiles)]
    shares = [profile.by_room() for profile in profiles]
    by_room = [[f"`{room}`", *[f"{100.0 * share[room]:.1f} %" for share in shares]]
               for room in instructions.rooms]
    text = f"""
## Instructions

Of `standtrue check examples/….yaml`, from start to end, counted by {said_by("valgrind", "--version")}. The first
was counted twice: {"the same number" if apart == 0.0 else f"{100.0 * apart:.1g} % apart"}.

{table(["example", "instructions"], rows)}

By room, with the libraries that it calls (the rest is what starts a program):

{table(["room", *examples], by_room)}"""
    for example, profile in zip(examples, profiles):
        heaviest = [[f"`{name}`", f"{100.0 * alone:.1f} %", f"{100.0 * all_in:.1f} %"]
                    for name, alone, all_in in profile.heaviest(5)]
        text += f"""
The five heaviest functions for {example}:

{table(["function", "with the libraries that it calls", "with all that it calls"], heaviest)}"""
    return text


def of_growth(timed):
    text = f"""
## Growth

Milliseconds of the processor, one thread, and the exponent p of the straight line through the logarithms, time
~ unknowns^p. Factor and solves go by the unknowns of the frame, the whole check by all unknowns, those of every
mesh node of the sheets too.

![Times against unknowns, both logarithmic](pictures/{drawing.name})
"""
    for family, what in growth.families.items():
        sizes = sorted({given for (name, given) in timed if given.startswith(family + "/")},
                       key=lambda given: timed["assess", given].entry["whole"])
        rows = [[growth.size_of(given), f"{timed['assess', given].entry['frame']:,.0f}",
                 f"{timed['assess', given].entry['whole']:,.0f}",
                 *[figures(timed[name, given].ms) for name in ("factor", "solve_500", "assess")]]
                for given in sizes]
        powers = {name: growth.exponent(growth.points(timed, name, family, unknowns))
                  for name, unknowns, _, _ in growth.lines}
        rows.append(["exponent p", "", "", *[f"{powers[name]:.2f}" for name in ("factor", "solve_500", "assess")]])
        text += f"\n{what[0].upper() + what[1:]}:\n\n" + table(
            ["", "unknowns of the frame", "of all", "factor", "500 right-hand sides", "whole check"], rows)
    return text


def main():
    if len(sys.argv) not in (2, 4) or sys.argv[2:3] not in ([], ["--write"]):
        sys.exit(__doc__)
    build, load = Path(sys.argv[1]).resolve(), os.getloadavg()[0]
    set_up(build)
    tell("SciPy and SuiteSparse")
    compared = [matrices.compare(build, example, mesh) for example, mesh in matrix_meshes]
    speed = build / "tests/bench/speed/speed"
    tell("stages and growth")
    timed = google.run(speed, [*stages], repetitions, build / "stages.json")
    tell("commands")
    waited = google.run(speed, ["command"], 1, build / "commands.json")
    tell("instructions")
    counted = instructions.count(build / "standtrue", root, build, examples)
    subjects = [heading(build, load), of_stages(timed), of_commands(waited), of_matrices(compared),
                of_instructions(*counted), of_growth(timed)]
    page = "\n\n".join(wrapped(subject) for subject in subjects) + "\n"
    if len(sys.argv) == 4:
        Path(sys.argv[3]).write_text(page)
        drawing.write_text(growth.drawing(timed))
    else:
        print(page)


if __name__ == "__main__":
    main()
