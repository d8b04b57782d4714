"""Sheets as benches have them, by other elements: one over three supports with a cut-out, and one on
the seams of four rails, its ties springs beside its middle; loads spread over pads.

The program is asked on two meshes, one twice as fine. Without h² (Richardson) it must be nearer to Getfem's elements than what was taken out and what these, of the fourth
and of the third degree, are apart.
"""

import getfem as gf
import numpy as np

from case_file import Difference, expected_rows, units
from rows import summed
from sheet_elements import Elements, Line, Sheet

# Both of 18 mm; numbers of ours, stiffer along x.
A, D, S = (8.6e7, 4e6, 1.3e8, 9e6), (3100.0, 190.0, 5200.0, 320.0), (8.1e5, 6.2e5)
cells = 0.025  # m, before it is halved once and once more

spans = Sheet(
    a=(0.0, 0.9), b=(0.0, 0.4), A=A, D=D, S=S,
    lines=[Line("y", x, (0.0, 0.4)) for x in (0.0, 0.4, 0.9)],
    holes=[((0.55, 0.7), (0.15, 0.3))],
    loads={"even": ((0.0, 0.9), (0.0, 0.4), (0.0, 0.0, -900.0)),
           "pad": ((0.15, 0.25), (0.05, 0.15), (0.0, 0.0, -700.0))})
seam = (4e5, 3e5, 3e7)  # N/m per m
rails = Sheet(
    a=(0.0, 0.85), b=(0.0, 0.55), A=A, D=D, S=S, level=-0.009,
    lines=[Line("x", y, (0.025, 0.825), seam) for y in (0.025, 0.525)]
    + [Line("y", x, (0.025, 0.525), seam) for x in (0.025, 0.825)],
    loads={"pad": ((0.4, 0.5), (0.2, 0.3), (0.0, 0.0, -1000.0)),
           "edge": ((0.2, 0.3), (0.0, 0.1), (150.0, 100.0, -800.0))})
asked = {  # places that no singular corner is near
    "spans": (spans, {"even": [(0.2, 0.2), (0.475, 0.1), (0.8, 0.05), (0.625, 0.0)],
                      "pad": [(0.2, 0.1), (0.3, 0.3), (0.625, 0.35)]},
              ("w", "M_x", "M_y")),
    "rails": (rails, {"pad": [(0.45, 0.25), (0.2, 0.15), (0.6, 0.4)],
                      "edge": [(0.25, 0.05), (0.45, 0.25), (0.7, 0.3)]},
              ("u", "v", "w", "M_x", "M_y")),
}


def flow(pairs, unit):
    return "[" + ", ".join(f"{value!r} {unit}" for value in pairs) + "]"


def held_text(line):
    x, y = (line.span, (line.at, line.at)) if line.axis == "x" else ((line.at, line.at), line.span)
    return f"      - {{x: {flow(x, 'm')}, y: {flow(y, 'm')}, freedoms: [w]}}\n"


def tie_texts(line, step):
    """Springs at the mesh nodes of a seam, each for what lies nearest to it."""
    count = round((line.span[1] - line.span[0]) / step)
    for i in range(count + 1):
        along, share = line.span[0] + i * step, step * (0.5 if i in (0, count) else 1.0)
        at = (along, line.at) if line.axis == "x" else (line.at, along)
        k = ", ".join(f"{n}: {share * value!r} N/m" for n, value in zip(("x", "y", "normal"), line.stiffness))
        yield f"      - {{at: {flow(np.round(at, 9).tolist(), 'm')}, node: base, {k}}}\n"


def text_of(sheet, step, expectations):
    nx, ny = (round((end - start) / step) for start, end in (sheet.a, sheet.b))
    names = (*(f"A_{i}" for i in ("11", "12", "22", "66")), *(f"D_{i}" for i in ("11", "12", "22", "66")),
             "S_x", "S_y")
    kinds = ["N/m"] * 4 + ["N m"] * 4 + ["N/m"] * 2
    stiffness = ", ".join(f"{n}: {v!r} {unit}" for n, v, unit in
                          zip(names, (*sheet.A, *sheet.D, *sheet.S), kinds))
    holes = "".join(f"      - {{x: {flow(x, 'm')}, y: {flow(y, 'm')}}}\n" for x, y in sheet.holes)
    seams = [line for line in sheet.lines if line.stiffness]
    holds = "".join(held_text(line) for line in sheet.lines if not line.stiffness)
    if not seams:
        holds += f"      - {{x: {flow(sheet.a, 'm')}, y: {flow(sheet.b, 'm')}, freedoms: [u, v]}}\n"
    ties = "".join(text for line in seams for text in tie_texts(line, step))
    cases = "".join(f"  {name}:\n    loads:\n      - {{plate: sheet, x: {flow(x, 'm')}, y: {flow(y, 'm')}, "
                    f"force: {flow(force, 'N')}}}\n" for name, (x, y, force) in sheet.loads.items())
    ground = ("materials:\n  steel: {E: 1 N/mm2, G: 1 N/mm2}\nsections:\n  bar: 10 x 10 mm\n"
              "nodes:\n  base: [0 m, 0 m, 0 m]\n  other: [1 m, 0 m, 0 m]\nmembers:\n"
              "  bar: {from: base, to: other}\nsupports:\n  base: all\n  other: all\n")
    return ("frame_case: 1\ntitle: sheet\n" + (ground if seams else "") +
            f"plates:\n  sheet:\n    origin: [0 m, 0 m, 0 m]\n"
            f"    x: {{from: {sheet.a[0]!r} m, to: {sheet.a[1]!r} m, cells: {nx}}}\n"
            f"    y: {{from: {sheet.b[0]!r} m, to: {sheet.b[1]!r} m, cells: {ny}}}\n"
            f"    thickness: 18 mm\n    stiffness: {{{stiffness}}}\n    tie_level: {sheet.level!r} m\n"
            + (f"    holes:\n{holes}" if holes else "") + (f"    holds:\n{holds}" if holds else "")
            + (f"    ties:\n{ties}" if ties else "") + f"cases:\n{cases}expect:\n{expectations}")


def by_program(program, sheet, step, wanted):
    lines = "".join(f"  - {{of: plate, under: {case}, plate: sheet, at: {flow(at, 'm')}, component: {part}, "
                    f"value: 0 {'m' if part in 'uvw' else 'N m/m'}, within_absolute: 1 "
                    f"{'m' if part in 'uvw' else 'N m/m'}}}\n" for case, at, part in wanted)
    return np.array([float(number) * units[unit] for _, number, unit, *_ in
                     expected_rows(program, text_of(sheet, step, lines))])


def by_elements(sheet, degree, places, wanted):
    elements = Elements(sheet, degree, 3)
    found = {case: dict(zip(at, elements.solve(sheet.loads[case], at))) for case, at in places.items()}
    return np.array([found[case][at][part] for case, at, part in wanted])


def compare(program, name):
    sheet, places, parts = asked[name]
    wanted = [(case, at, part) for case, points in places.items() for at in points for part in parts]
    coarser, finer = (by_program(program, sheet, cells / n, wanted) for n in (2, 4))
    fine, coarse = (by_elements(sheet, degree, places, wanted) for degree in (4, 3))
    differences = []
    for case, part in dict.fromkeys((case, part) for case, _, part in wanted):
        here = [i for i, (c, _, p) in enumerate(wanted) if (c, p) == (case, part)]
        size = max(abs(fine[here]))
        removed = max(abs(finer - coarser)[here]) / 3.0 / size
        apart = max(abs(fine - coarse)[here]) / size
        for i in here:
            without = (4.0 * finer[i] - coarser[i]) / 3.0
            differences.append(Difference(f"{name} {case} {part} at {wanted[i][1]}", fine[i], without,
                                          abs(without - fine[i]) / size, removed + apart))
    return differences


def run(program, root):
    gf.util_trace_level(0)
    return [summed("a sheet over three supports with a cut-out, one on the seams of four rails: movements "
                   "and moments without h²", "Getfem's elements of the fourth degree",
                   "what Richardson took out (a third of what two meshes differ) and the fourth "
                   "degree less the third",
                   [d for name in asked for d in compare(program, name)])]

