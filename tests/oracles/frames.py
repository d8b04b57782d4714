"""The frame cases of reference/cases/ solved in Python (frame.py, SciPy) and compared in full: not what
their sources print, but every node, support and member end; buckling and frequencies where asked."""

from pathlib import Path

import numpy as np

import wanted
from case_file import Wanted, compare, read
from divided import divided
from frame import Frame
from rows import summed

eps = np.finfo(float).eps
# J of a rectangle is a series that the program cuts off at 1e-9 of it (src/model/section.cpp).
series = 1e-9
condition = "condition of the stiffness x 2.2e-16, twice; and 1e-9, where the series of J is cut off"
shapes = "1e-6, what the program's audit of a shape allows, and that condition"


def statics(frame, part, has_pieces, under, answer):
    u, forces, reactions = answer
    scales = wanted.largest_forces(frame, forces, reactions)
    asked = wanted.movements(frame, under, u, part)
    asked += wanted.support_forces(frame, under, reactions, scales, part)
    if not has_pieces:  # their members are the program's
        asked += wanted.end_forces(frame, under, forces, scales, part)
    return asked


def whole(value, asked, part, unit=""):
    return Wanted(asked, float(value), unit, part * abs(value), abs(value))


def shapes_asked(case):
    """(what, under, mode) of the case's own expectations."""
    return sorted({(e["of"], e.get("under", ""), e.get("mode", 1)) for e in case.get("expect", [])
                   if e["of"] in ("buckling", "frequency")})


def by_shapes(frame, case, part):
    """Buckling factors and frequencies."""
    asked, known = {"buckling": [], "frequency": []}, {}
    for what, under, mode in shapes_asked(case):
        under_text = f"under: {wanted.quoted(under)}, " if under else ""
        if (what, under) not in known:
            forces = frame.solve(frame.combined(under))[1] if under else None
            known[what, under] = (frame.buckling(forces) if what == "buckling"
                                  else frame.frequencies(12, forces))
        found = known[what, under]
        value = found if what == "buckling" else found[mode - 1]
        asked[what].append(whole(value, f"of: {what}, {under_text}mode: {mode}", 1e-6 + part,
                                 "Hz" if what == "frequency" else ""))
    return asked


def loadings(case):
    """Names of those that the case expects an answer of: first order, second order."""
    expected = case.get("expect", [])
    refused = [e["under"] for e in expected if e["of"] == "refusal"]
    named = dict.fromkeys(e["under"] for e in expected if "under" in e and e["under"] not in refused)
    given = case.get("combinations", {})
    second = [name for name in named if given.get(name, {}).get("second_order")]
    return [name for name in named if name not in second], second


def of_case(program, text):
    """The part that rounding may be, and differences: first order, second, buckling, frequency."""
    case = read(text)
    cut = divided(case)
    frame = Frame(cut)
    frame.nodes = {name: i for name, i in frame.nodes.items() if "/" not in name}
    part = 2.0 * frame.condition() * eps + series
    first_order, second_order = loadings(case)
    first = [w for name in first_order
             for w in statics(frame, part, cut is not case, name, frame.solve(frame.combined(name)))]
    second = [w for name in second_order
              for w in wanted.movements(
                  frame, name, frame.solve_second_order(frame.combined(name), part)[0],
                  max(part, 1e-7))]
    shapes = by_shapes(frame, case, part)
    groups = [first, second, shapes["buckling"], shapes["frequency"]]
    differences = compare(program, text, [w for group in groups for w in group])
    parts = iter(differences)
    return part, [[next(parts) for _ in group] for group in groups]


def run(program, root):
    plain, idealised = [[], [], [], []], [[], [], [], []]
    files = [0, 0]
    for path in sorted((Path(root) / "reference/cases").glob("*.yaml")):
        text = path.read_text()
        # Contact, layers that are tied, and plates are other oracles' matter.
        if path.name[0] not in "abcdhi" or "\nplates:" in text:
            continue
        part, found = of_case(program, text)
        is_idealised = part > 1e-7  # members a million times as stiff along as they are
        files[is_idealised] += 1
        for group, differences in zip(idealised if is_idealised else plain, found):
            group += differences
    first, second, buckling, frequency = plain
    by = "a frame by the textbook in Python (`frame.py`), solved by SciPy"
    return [
        summed(f"{files[0]} frame cases: movements, end forces, reactions", by, condition, first),
        summed("the same to second order: movements", by,
               "1e-7: the program stops where nothing changes by more than 1e-8", second),
        summed("the same: buckling factors", by, shapes, buckling),
        summed("the same: frequencies", by, shapes, frequency),
        summed(f"{files[1]} frame cases of members that do not stretch, all of these", by,
               "condition of their stiffness (up to 1e12) x 2.2e-16, twice", sum(idealised, []))]
