"""Orthotropic plates solved without the program, by two roads that share nothing but the numbers in
plates/*.yaml: elements (plate_elements.py) and polynomials (plate_polynomials.py).

They must agree with each other; the program must agree with them on the mesh of the file as the file
allows, and much closer when its h² is taken out by a mesh twice as fine.

Signs are those of docs/conventions.md: f = ry and g = -rx, so that
    M_x = D_11 f,x + D_12 g,y    M_y = D_12 f,x + D_22 g,y    M_xy = D_66 (f,y + g,x)
    Q_x = S_x (w,x + f)          Q_y = S_y (w,y + g)          all numbers SI
"""

import re
from pathlib import Path

import getfem as gf

from case_file import Difference, expected_rows, si, units
from plate_elements import by_elements
from plate_polynomials import by_ritz, by_series
from rows import summed


def pair(text):
    return [si(part) for part in text.split(",")]


class Plate:
    """The numbers of one file."""

    def __init__(self, text):
        self.text = text
        self.a, self.b = (si(re.search(rf"^    {axis}: {{from: 0 mm, to: ([^,]+),", text, re.M)[1])
                          for axis in "xy")
        t = si(re.search(r"thickness: (.+)", text)[1])
        given = re.search(r"stiffness: {(.+)}", text)[1]
        E_1, E_2, nu_12, G_12, G_13, G_23 = (si(item.split(":")[1]) for item in given.split(","))
        by, I = 1.0 - nu_12 * nu_12 * E_2 / E_1, t**3 / 12.0
        self.D_11, self.D_22, self.D_66 = E_1 * I / by, E_2 * I / by, G_12 * I
        self.D_12 = nu_12 * self.D_22
        self.S_x, self.S_y = 5.0 / 6.0 * G_13 * t, 5.0 / 6.0 * G_23 * t
        self.is_clamped = "freedoms: [w, rx, ry]" in text
        self.loads = {}  # name: patch x0 x1 y0 y1, pressure along +z
        for name, x, y, force in re.findall(
                r"^  (\w+):\n    loads:\n.*x: \[(.+?)\], y: \[(.+?)\], force: \[0 N, 0 N, (.+?)\]",
                text, re.M):
            patch = pair(x) + pair(y)
            area = (patch[1] - patch[0]) * (patch[3] - patch[2])
            self.loads[name] = patch, si(force) / area
        self.asked = [  # case, x, y, component, value
            (case, *pair(at), component, si(value))
            for case, at, component, value in re.findall(
                r"under: (\w+), plate: sheet, at: \[(.+?)\], component: (\w+), value: (.+?),",
                text)]

    def forces(self, w, w_x, w_y, f, f_x, f_y, g, g_x, g_y):
        return {"w": w, "M_x": self.D_11 * f_x + self.D_12 * g_y,
                "M_y": self.D_12 * f_x + self.D_22 * g_y, "M_xy": self.D_66 * (f_y + g_x),
                "Q_x": self.S_x * (w_x + f), "Q_y": self.S_y * (w_y + g)}


def found_by(program, text):
    """What the program finds for each expectation of a frame case, in their order."""
    rows = expected_rows(program, text)
    if any(verdict != "met" for verdict, *_ in rows):
        raise RuntimeError("the program does not meet the file's own expectations")
    return [float(number) * units[unit] for _, number, unit, *_ in rows]


def twice_as_fine(text):
    return re.sub(r"cells: (\d+)", lambda m: f"cells: {2 * int(m[1])}", text)


def allowed(plate, case, part, y):
    """How far the program without its h² may be off, and the two roads from each other; as a part of
    the largest of the kind. What follows h² is the fourth power of a fine cell in half a pad,
    (6/50)^4 = 2e-4. A moment along a free edge is read half a cell inside it, which adds a first
    order: nu_12 nu_21 times a cell in the plate. Polynomials of degree 23 that have to bend round a
    pad are good for (2/23)^2 of the jump that it makes, two or three thousandths of the moment."""
    at_free_edge = not plate.is_clamped and part[0] == "M" and y in (0.0, plate.b)
    return 1e-3 if at_free_edge else 2e-4, 3e-3 if plate.is_clamped and case == "pad" else 1e-4


def compare(name, plate, program):
    """Differences of the program without its h², of the two roads, and of what the file states."""
    other = by_ritz if plate.is_clamped else by_series
    roads = {case: (by_elements(plate, load), other(plate, load))
             for case, load in plate.loads.items()}
    coarse, fine = found_by(program, plate.text), found_by(program, twice_as_fine(plate.text))
    if not len(plate.asked) == len(coarse) == len(fine) > 0:
        raise RuntimeError(f"{len(plate.asked)} expectations in {name}, {len(fine)} answers")
    answers = [[road(x, y)[part] for road in roads[case]]
               for case, x, y, part, _ in plate.asked]
    largest = {}
    for (case, _, _, part, _), (elements, _) in zip(plate.asked, answers):
        key = case, part[0]
        largest[key] = max(largest.get(key, 0.0), abs(elements))
    program_off, roads_apart = [], []
    for (case, x, y, part, stated), (elements, second), h, h_2 in zip(plate.asked, answers, coarse,
                                                                     fine):
        size = largest[case, part[0]]
        off_allowed, apart_allowed = allowed(plate, case, part, y)
        asked = f"{name} {case} {part} at {1e3 * x:.0f}, {1e3 * y:.0f} mm"
        without = (4.0 * h_2 - h) / 3.0
        program_off.append(Difference(asked, elements, without, abs(without - elements) / size,
                                      off_allowed))
        roads_apart.append(Difference("second road: " + asked, elements, second,
                                      abs(second - elements) / size, apart_allowed))
        roads_apart.append(Difference("stated in the file: " + asked, elements, stated,
                                      abs(stated - elements) / size, 2e-6))
    return program_off, roads_apart


def run(program, root):
    gf.util_trace_level(0)
    program_off, roads_apart = [], []
    for file in sorted((Path(__file__).parent / "plates").glob("*.yaml")):
        of_program, of_roads = compare(file.stem, Plate(file.read_text()), program)
        program_off += of_program
        roads_apart += of_roads
    return [
        summed("two orthotropic plates, even load and pad: movement, moments, shear without h²",
               "Getfem's elements of the fifth degree",
               "what follows h²: (6/50)^4, cells of 6 mm under half a pad of 100 mm; a moment at a "
               "free edge follows h", program_off),
        summed("(these elements themselves)", "polynomials over the whole plate (Ritz, series), SciPy",
               "(2/23)² of the jump at a pad, for polynomials of degree 23", roads_apart)]
