"""The frames of the example benches, as `standtrue model` writes them, solved in Python (frame.py).

Sheets are left out, and what lay on them goes to the nodes of the rails: joints as springs, eccentric
rails, braces that end in hinges, feet on the floor's springs and machines beside their node are all
there. Every node is compared, every support and every member end, and the lowest modes.
"""

import re
import subprocess
from pathlib import Path

import numpy as np

import wanted
from case_file import compare, read
from frame import Frame
from frames import eps, series, whole
from rows import summed

examples = ("boiler-plinth", "turning-bench", "too-slender")
kept = ("frame_case", "title", "source", "materials", "sections", "nodes", "members", "ties", "supports")
why = "condition of the stiffness x 2.2e-16, twice; and 1e-9, where the series of J is cut off"


def bare(text):
    """The exported case without sheets and without its own loads."""
    blocks = re.findall(r"^\w+:.*\n(?:[ \n#].*\n?|\n)*", text, re.M)
    return "".join(block for block in blocks if block.split(":")[0] in kept)


def loaded(text):
    """With loads of ours: weights on every third node, a shove along and one across, a machine."""
    nodes = list(read(text)["nodes"])
    tops = [n for n in nodes if "rail" in n]
    posts = [n for n in nodes if "post" in n]
    weights = "".join(f"      - {{node: {n}, force: [0 N, 0 N, {-20 - 7 * (i % 5)} N], "
                      f"offset: [0 mm, {5 * (i % 3) - 5} mm, 30 mm]}}\n" for i, n in enumerate(tops[::3]))
    shoves = "".join(f"  {name}:\n    loads:\n      - {{node: {posts[-1]}, force: {force}, "
                     "offset: [0 mm, 0 mm, 20 mm]}\n"
                     for name, force in (("along", "[30 N, 0 N, 0 N]"), ("across", "[0 N, 30 N, 0 N]")))
    return (text + f"masses:\n  machine: {{node: {tops[len(tops) // 3]}, mass: 25 kg, "
            "offset: [10 mm, -40 mm, 150 mm], inertia: [0.4 kg m2, 0.6 kg m2, 0.3 kg m2]}\n"
            "cases:\n  self: {self_weight: yes}\n  weights:\n    loads:\n" + weights + shoves
            + "combinations:\n  still: {self: 1.35, weights: 1.5}\n"
            "  shoved: {self: 1, weights: 1, along: 1, across: -0.7, springs: sway}\n")


def of_bench(program, text):
    """Differences of statics and of frequencies."""
    case, asked = read(text), []
    for under, springs in (("still", "gravity"), ("shoved", "sway")):
        frame = Frame(case, springs)
        part = 2.0 * frame.condition() * eps + series
        u, forces, reactions = frame.solve(frame.combined(under))
        lifted = [name for name, given in case["supports"].items()
                  if given.get("press_only") and reactions[name] <= 0.0]
        if lifted:
            raise RuntimeError(f"{lifted} would lift: these loads are for benches that stand")
        scales = wanted.largest_forces(frame, forces, reactions)
        asked += wanted.movements(frame, under, u, part)
        asked += wanted.support_forces(frame, under, reactions, scales, part)
        asked += wanted.end_forces(frame, under, forces, scales, part)
    frame = Frame(case, "gravity")
    modes = [whole(f, f"of: frequency, mode: {i}", 1e-6, "Hz")
             for i, f in enumerate(frame.frequencies(10), 1)]
    differences = compare(program, text, asked + modes)
    return differences[:len(asked)], differences[len(asked):]


def run(program, root):
    still, swinging, sizes = [], [], []
    for name in examples:
        for bound in ("soft", "stiff"):
            exported = subprocess.run([program, "model", "--bound", bound,
                                       str(Path(root) / "examples" / f"{name}.yaml")],
                                      capture_output=True, text=True, check=True).stdout
            text = loaded(bare(exported))
            sizes.append(len(read(text)["nodes"]))
            statics, modes = of_bench(program, text)
            still += statics
            swinging += modes
    by = "a space frame by the textbook in Python, SciPy's sparse LU"
    return [summed(f"frames of {len(examples)} benches, soft and stiff joints, up to {max(sizes)} "
                   "nodes: movements, end forces, reactions", by, why, still),
            summed("the same: ten lowest frequencies", "the same, SciPy's `eigsh`",
                   "1e-6, what the program's audit of a shape allows", swinging)]
