"""Holds `place` and `improve` to `check` on benches drawn by chance.

    python3 tests/random_benches.py PROGRAM [--benches N] [--seed N] [--only NUMBER] [--all] [--keep FOLDER]

Where `place` says that a machine may stand, `check` of the bench with the machine there must find nothing
of safety that fails and no sag that is too large; where it bars a place, `check` must find something. A
change that `improve` proposes, written into the file, must leave just the failures that it says are left.

It takes about an hour for a hundred benches, so no build runs it. `--only` makes one bench again. `improve`
is asked of one bench in three; where a check is slow, of the next that is quick instead; with `--all` of
every one. One line for each difference; exit code 1 if any.
"""

import argparse
import copy
import json
import pathlib
import random
import resource
import subprocess
import sys
import tempfile
import time

import random_bench_files as files

MOST_SECONDS = 60  # of processor time, so that a busy machine does not count
PATIENCE = 180  # the same: then it is stopped
MOST_ATTEMPTS = 60
PROPOSALS = 3  # of `improve`, tried for each bench
SLOW = 2.0  # s of a check: `improve` makes some hundred of them
SHORT = {"posts": "section", "rails": "section", "top": "sheet", "shelf": "sheet", "joints": "kind", "feet": "thread",
         "floor": "surface"}


class Refused(Exception):
    """The program says that the file is wrong."""


class Fault(Exception):
    """The program crashed, blamed itself, or was stopped."""


class Program:
    """Runs the program on benches that it writes into a folder."""

    def __init__(self, path, folder):
        self.path, self.folder = path, folder
        self.slowest, self.last, self.late = {}, 0.0, []

    def answer(self, command, bench, name):
        path = self.folder / f"{name}.yaml"
        path.write_text(files.yaml(bench))
        began = cpu_of_children()
        run = subprocess.run([self.path, command, str(path), "--json"], capture_output=True, text=True,
                             preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_CPU, (PATIENCE, PATIENCE)))
        took = self.last = cpu_of_children() - began
        self.slowest[command] = max(self.slowest.get(command, 0.0), took)
        if run.returncode == 2:
            raise Refused(run.stderr.strip())
        if run.returncode not in (0, 1):
            raise Fault(f"{command} ended with {run.returncode}: {run.stderr.strip()[-200:]}")
        if took > MOST_SECONDS:
            self.late.append(f"{command} took {took:.0f} s")
        return json.loads(run.stdout)


def cpu_of_children():
    used = resource.getrusage(resource.RUSAGE_CHILDREN)
    return used.ru_utime + used.ru_stime


def worst(finding):
    """Over all bounds; None where there is no number."""
    ratios = [r for r in finding["ratio"].values() if r is not None]
    return max(ratios) if ratios else None


def said(finding):
    ratio = worst(finding)
    return f"{finding['id']} {finding['judgement']} {'without a number' if ratio is None else f'{ratio:.3f}'}"


def fails(finding):
    return finding["judgement"] in ("exceeded", "depends")


def unsafe(assessment):
    return {f["id"]: f for f in assessment["findings"] if f["kind"] == "safety" and fails(f)}


def sagging(assessment):
    """Of the service checks `place` looks at sag and at what holds the sheets, at joints of mean stiffness."""
    looked_at = ("sag", "sheet")
    return {f["id"]: f for f in assessment["findings"] if f["group"] in looked_at and f["kind"] == "service" and sags(f)}


def sags(finding):
    mean = finding["ratio"]["mean"]
    return finding["judgement"] == "exceeded" or (fails(finding) and mean is not None and mean > 1.0)


def failing(assessment):
    """As docs/comparison.schema.json has it: exceeded, depending, or of safety and not judged."""
    def is_open(f):
        return f["kind"] == "safety" and f["judgement"] == "not_judged"

    decisive = [f for f in assessment["findings"] if f["kind"] in ("safety", "service")]
    return {f["id"]: f for f in decisive if fails(f) or is_open(f)}


class Report:
    def __init__(self):
        self.lines, self.counts = [], {}

    def count(self, what, by=1):
        self.counts[what] = self.counts.get(what, 0) + by

    def differs(self, number, command, what):
        line = f"bench {number}: {command}: {what}"
        self.lines.append(line)
        print(line, flush=True)


# Machines elsewhere


def is_named(machine, name):
    return isinstance(machine, dict) and machine.get("name", machine.get("kind")) == name


def turned_about(machine):
    """A quarter turn more than the file has. Two quarters are none, with the mass on the other side."""
    if machine.pop("turned", "no") != "yes":
        machine["turned"] = "yes"
    elif "centre" in machine:
        machine["centre"] = [f"{-float(v.split()[0]):g} {v.split()[1]}" for v in machine["centre"]]


def moved(bench, name, place, turn):
    there = copy.deepcopy(bench)
    machine = next((m for m in there["machines"] if is_named(m, name)), None)
    if machine is None:  # the heaviest is the vice
        machine = there["vice"] = {"kind": name}
    machine["at"] = [f"{1000 * place[axis]:.4f} mm" for axis in ("x", "y")]
    if turn:
        turned_about(machine)
    return there


def places(plan, stand):
    """With room, of both ways round."""
    ways = plan["ways"][:1] if plan["is_alike_turned"] else plan["ways"]
    return [(p, way["turned"]) for way in ways for p in way["places"] if p["stand"] == stand and p["has_room"]]


def chosen(plan, chance):
    """What is tried: the best place, two that are clear, one that wants care, and one that is barred."""
    best = [(plan["best"], plan["best"]["turned"])] if plan["best"] else []
    for stand, most in (("clear", 2), ("care", 1), ("barred", 1)):
        some = places(plan, stand)
        best += [there for there in chance.sample(some, min(most, len(some))) if not is_among(there, best)]
    return best


def is_among(there, found):
    return any((p["x"], p["y"], turn) == (there[0]["x"], there[0]["y"], there[1]) for p, turn in found)


def told_there(place, turn):
    return f"at {1000 * place['x']:.0f}, {1000 * place['y']:.0f} mm{' turned' if turn else ''} ({place['stand']}, " \
           f"{place['why']} {'-' if place['ratio'] is None else format(place['ratio'], '.3f')})"


def sags_here(before, after):
    """What sags too far by the machine: the same to the last digit without it is the shelf's own load."""
    usual = sagging(before)
    return {i: f for i, f in sagging(after).items() if i not in usual or f["ratio"] != usual[i]["ratio"]}


def compare_clear(report, number, where, plan, before, after):
    """What failed beside the plan before is named in `besides`, what nearly did in `nearly`; all else has to hold."""
    found = {i: f for i, f in {**unsafe(after), **sags_here(before, after)}.items() if i not in plan["besides"] + plan["nearly"]}
    for here in (False, True):
        some = [said(f) for i, f in found.items() if (i in unsafe(before)) == here]
        if some:
            report.differs(number, "place", f"{where}: {', '.join(some)}: {'in the file too' if here else 'only here'}")


def has_no_answer(plan):
    """A frame that moves has no answers that a plan could be held to, and one that may give way has them by second
    order up to that and by first order beyond: where a machine stands may turn the one into the other. The plan says
    so."""
    return any(ident in plan["besides"] for ident in ("frame/moves", "frame/solved", "frame/buckling"))


def compare_place(report, number, where, plan, place, before, after):
    report.count(f"places {place['stand']}")
    if has_no_answer(plan):
        report.count("places of a frame without answers")
        return
    if place["stand"] == "clear":
        compare_clear(report, number, where, plan, before, after)
        return
    # What fails beside the plan may fail by what it looks at, too.
    is_unsafe = set(unsafe(after)) - (set(plan["besides"] + plan["nearly"]) - {place["why"]})
    wanted = is_unsafe if place["stand"] == "barred" else is_unsafe | set(sagging(after))
    if not wanted:
        report.differs(number, "place", f"{where}: check finds nothing that fails")
    elif place["why"] not in wanted:
        report.differs(number, "place", f"{where}: check finds {', '.join(sorted(wanted))[:120]} and not that")


def try_place(program, report, number, bench, before, chance):
    plan = program.answer("place", bench, f"{number}")
    if plan["none"]:
        report.count("no plan")
        return
    own = {**plan["own"], "x": 0.0, "y": 0.0}
    if own["stand"] != "not_looked_at":
        where = f"as in the file ({own['stand']}, {own['why']} {own['ratio']})"
        compare_place(report, number, where, plan, own, before, before)
    for i, (place, turn) in enumerate(chosen(plan, chance)):
        where = f"place {i} {told_there(place, turn)}"
        there = moved(bench, plan["machine"], place, turn)
        try:
            after = program.answer("check", there, f"{number}-place-{i}")
        except Refused as refusal:
            report.differs(number, "place", f"{where}: the file is refused: {str(refusal)[-200:]}")
            continue
        compare_place(report, number, where, plan, place, before, after)


# Changes


def merged(base, change):
    """As docs/bench-file.md says of variants: groups key by key, all else is replaced."""
    if not isinstance(base, dict) or not isinstance(change, dict):
        return change
    result = dict(base)
    for key, value in change.items():
        result[key] = merged(result[key], value) if key in result else value
    return result


def in_full(key, value):
    """A single value as the group that it stands for: what a builder makes of it who adds a key."""
    if isinstance(value, dict) or value == "none" or key not in SHORT:
        return value
    return {SHORT[key]: value}


def changed(bench, write, keeps_short):
    result = copy.deepcopy(bench)
    for key, value in files.changes(write):
        base = result.get(key)
        if keeps_short and isinstance(value, dict) and base is not None:
            base = in_full(key, base)
        result[key] = merged(base, value) if base is not None else value
    return result


def compare_change(report, number, what, option, before, after):
    """The failures that are said to be left are those that are left; the verdict is the same."""
    claimed, found, known = set(option["figures"]["failing"]), failing(after), failing(before)
    uncured = [said(found[i]) for i in found if i not in claimed and i in known]
    new = [said(found[i]) for i in found if i not in claimed and i not in known]
    cured = [i for i in claimed if i not in found]
    for say, some in (("said to be cured", uncured), ("new", new), ("said to be left and cured", cured)):
        if some:
            report.differs(number, "improve", f"{what}: {say}: {', '.join(sorted(some))}")
    if option["figures"]["verdict"] != after["verdict"]:
        report.differs(number, "improve", f"{what}: {option['figures']['verdict']}, check says {after['verdict']}")


def try_change(program, report, number, name, bench, option, before):
    ways = {"": changed(bench, option["write"], False), " (single value kept)": changed(bench, option["write"], True)}
    if ways[""] == ways[" (single value kept)"]:
        ways.popitem()
    for how, there in ways.items():
        report.count("changes tried")
        what = f"{name}: {' + '.join(option['write'].split(chr(10)))}{how}"
        try:
            after = program.answer("check", there, f"{number}-{name}{'-short' if how else ''}")
        except Refused as refusal:
            report.differs(number, "improve", f"{what}: the file is refused: {str(refusal)[-200:]}")
            continue
        compare_change(report, number, what, option, before, after)


def try_improve(program, report, number, bench, before):
    answer = program.answer("improve", bench, f"{number}")
    options = [o for o in answer["options"] if o["figures"]]
    if not options:
        report.differs(number, "improve", "no figures at all")
        return
    compare_change(report, number, "as it is drawn", options[0], before, before)
    cures = [o for o in options[1:] if not o["figures"]["failing"]]
    report.count("benches cured" if cures else "benches with nothing to cure" if len(options) == 1 else
                 "benches not cured")
    for i, option in enumerate(options[1 : 1 + PROPOSALS]):
        try_change(program, report, number, f"change-{i}", bench, option, before)


# All of it


def drawn(program, report, seed, number):
    for attempt in range(MOST_ATTEMPTS):
        bench = files.bench(seed, number, attempt)
        try:
            return bench, program.answer("check", bench, f"{number}")
        except Refused:
            report.count("files refused and drawn again")
    raise Fault(f"{MOST_ATTEMPTS} files were refused")


def try_bench(program, report, seed, number, improves):
    """Whether `improve` was asked."""
    asked = False
    try:
        bench, before = drawn(program, report, seed, number)
        is_quick = program.last < SLOW
        report.count(f"benches: {before['verdict']}")
        try_place(program, report, number, bench, before, random.Random(f"{seed}/{number}/places"))
        if improves == "always" or (improves and is_quick):
            asked = True
            try_improve(program, report, number, bench, before)
    except Fault as fault:
        report.differs(number, "fault", str(fault))
    for late in program.late:
        report.differs(number, "fault", late)
    program.late.clear()
    return asked


def try_all(program, report, wanted, numbers):
    owed = 0
    for number in numbers:
        owed += number % 3 == 0
        improves = "always" if wanted.all or wanted.only is not None else owed > 0
        if try_bench(program, report, wanted.seed, number, improves):
            owed -= 1


def summary(report, program, seconds):
    for what in sorted(report.counts):
        print(f"{report.counts[what]:5d}  {what}")
    slow = ", ".join(f"{command} {took:.0f} s" for command, took in sorted(program.slowest.items()))
    print(f"{len(report.lines):5d}  differences; slowest: {slow}; {seconds / 60:.0f} minutes in all")


def arguments():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("program")
    parser.add_argument("--benches", type=int, default=100)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--from", type=int, default=0, dest="first", help="number of the first")
    parser.add_argument("--only", type=int, help="this bench alone, with improve")
    parser.add_argument("--all", action="store_true", help="improve every bench")
    parser.add_argument("--keep", type=pathlib.Path, help="folder for the files; else a passing one")
    return parser.parse_args()


def main():
    wanted = arguments()
    numbers = range(wanted.first, wanted.first + wanted.benches) if wanted.only is None else [wanted.only]
    report, began = Report(), time.monotonic()
    print(f"seed {wanted.seed}, benches {numbers[0]} to {numbers[-1]}")
    with tempfile.TemporaryDirectory() as passing:
        folder = wanted.keep or pathlib.Path(passing)
        folder.mkdir(parents=True, exist_ok=True)
        program = Program(str(pathlib.Path(wanted.program).resolve()), folder)
        try_all(program, report, wanted, numbers)
    summary(report, program, time.monotonic() - began)
    sys.exit(1 if report.lines else 0)


main()
