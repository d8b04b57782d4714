"""The example benches whole, sheets and all, as `standtrue model` writes them, solved in Python
(plated_frame.py): nothing condensed, every mesh node an unknown.

Every node of the frame is compared, every support and member end, every tie, mesh nodes of the sheets,
and the lowest modes with machines on their pads; under the bench's own loads.
"""

import re
import subprocess
from pathlib import Path

import numpy as np

import wanted
from bench import why
from case_file import Wanted, compare, read
from frames import eps, series, whole
from plated_frame import PlatedFrame
from rows import summed

benches = (("boiler-plinth", "mean"), ("turning-bench", "soft"), ("too-slender", "stiff"))


def loadings(case):
    """At rest with gravity's springs, and shoved along and across a bench that stays on its feet."""
    shoves = [name for name, given in case["combinations"].items() if "shove" in name
              and given.get("springs") == "sway" and not given.get("second_order")
              and not given.get("slides") and "stored-top" in given]
    along, across = ([name for name in shoves if way in name] for way in ("along", "across"))
    return {"gravity": ["strength-permanent"], "sway": [along[0], across[0]]}


def with_these_alone(text, names):
    """Without the other combinations, each of which would be answered as well."""
    combinations = re.search(r"(?<=\ncombinations:\n)(  .*\n)+", text)[0]
    kept = [line for line in combinations.splitlines(True) if line.split(":")[0].strip() in names]
    return text.replace(combinations, "".join(kept))


def answered(case, springs, under):
    """A frame, its movements, end forces and reactions, and the movements by what presses on the ties
    that hold by weight alone: with sway springs the weights press on a frame that has these ties, and
    what is no weight pushes one that has not."""
    frame = PlatedFrame(case, springs, True)
    if springs == "gravity":
        u, forces, reactions = frame.solve(frame.combined(under))
        return frame, u, forces, reactions, u

    def is_weight(name):
        return case["cases"][name].get("weight", False)

    bare = PlatedFrame(case, springs)
    by_weight, forces, reactions = frame.solve(frame.combined(under, is_weight))
    u, more, pushed = bare.solve(bare.combined(under, lambda name: not is_weight(name)))
    return (frame, by_weight + u, [a + b for a, b in zip(forces, more)],
            {name: force + pushed[name] for name, force in reactions.items()}, by_weight)


def on_sheets(frame, under, u, by_weight, part):
    """Movements of every fifth mesh node, and the forces of all ties."""
    asked = []
    for name, plate in frame.plates.items():
        there = sorted({corner for cell in plate.cells for corner in plate.corners(*cell)})[::5]
        scale = wanted.largest(u[np.add.outer(there, range(3)).ravel()]) or 1.0
        for k, component in enumerate("uvw"):
            for node in there:
                j, i = divmod((node - plate.first) // 5, len(plate.x))
                asked.append(Wanted(
                    f"of: plate, under: {wanted.quoted(under)}, plate: {wanted.quoted(name)}, "
                    f"at: [{plate.x[i]!r} m, {plate.y[j]!r} m], component: {component}",
                    float(u[node + k]), "m", part * scale, scale))
    return asked + forces_of_ties(frame, under, u, by_weight, part)


def forces_of_ties(frame, under, u, by_weight, part):
    """What the plate pulls the frame with, axis by axis; of one kind are those of one plate and axis."""
    asked, kinds = [], {}
    for plate, place, key, k, row in frame.ties_made:
        tie = frame.case["plates"][plate]["ties"][place - 1]
        moved = by_weight if tie.get("gravity_only") else u
        force = k * sum(moved[at] * factor for at, factor in row.items())
        kinds.setdefault((plate, key), []).append((place, force))
    for (plate, key), forces in kinds.items():
        scale = wanted.largest([force for _, force in forces])
        asked += [Wanted(f"of: tie, under: {wanted.quoted(under)}, plate: {wanted.quoted(plate)}, "
                         f"tie: {place}, component: {key}", float(force), "N", part * scale, scale)
                  for place, force in forces]
    return asked


def of_bench(program, text):
    case, asked = read(text), []
    for springs, names in loadings(case).items():
        part = 2.0 * PlatedFrame(case, springs).condition() * eps + series
        for under in names:
            frame, u, forces, reactions, by_weight = answered(case, springs, under)
            if any(given.get("press_only") and reactions[name] <= 0.0
                   for name, given in case["supports"].items()):
                continue  # feet that lift are not this oracle's matter
            scales = wanted.largest_forces(frame, forces, reactions)
            asked += wanted.movements(frame, under, u, part)
            asked += wanted.support_forces(frame, under, reactions, scales, part)
            asked += wanted.end_forces(frame, under, forces, scales, part)
            asked += on_sheets(frame, under, u, by_weight, part)
        if springs == "gravity":
            modes = [whole(f, f"of: frequency, mode: {i}", 1e-6, "Hz")
                     for i, f in enumerate(frame.frequencies(10), 1)]
    names = sum(loadings(case).values(), [])
    differences = compare(program, with_these_alone(text, names), asked + modes)
    return differences[:len(asked)], differences[len(asked):], frame.unknowns


def run(program, root):
    still, swinging, sizes = [], [], []
    for name, joints in benches:
        text = subprocess.run([program, "model", "--bound", joints,
                               str(Path(root) / "examples" / f"{name}.yaml")],
                              capture_output=True, text=True, check=True).stdout
        statics, modes, size = of_bench(program, text)
        still += statics
        swinging += modes
        sizes.append(size)
    by = "a space frame and plates by the textbook in Python (`plated_frame.py`), SciPy's sparse LU"
    return [summed(f"{len(benches)} benches whole, up to {max(sizes):,} unknowns, at rest and shoved: "
                   "movements, end forces, reactions, sheets, ties", by, why, still),
            summed("the same: ten lowest frequencies, machines on their pads", "the same, SciPy's `eigsh`",
                   "1e-6, what the program's audit of a shape allows", swinging)]
