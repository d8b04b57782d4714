#!/usr/bin/env python3
"""Solves two orthotropic plates without the program and holds its answers against the result.

    python3 tests/plate_oracle.py PROGRAM [FOLDER of frame cases]

Two roads that share nothing but the numbers in tests/plate_oracle/*.yaml: Getfem's elements of the
fifth degree on a graded mesh, and polynomials over the whole plate (clamped: Ritz; two edges free:
one sine along x, Ritz along y) by SciPy. They must agree with each other; the program must agree
with them on the mesh of the file as the file allows, and much closer when its h² is taken out by a
mesh twice as fine. Exit code 77 without Getfem or SciPy (Debian: python3-getfem python3-scipy).

Signs are those of docs/conventions.md: f = ry and g = -rx, so that
    M_x = D_11 f,x + D_12 g,y    M_y = D_12 f,x + D_22 g,y    M_xy = D_66 (f,y + g,x)
    Q_x = S_x (w,x + f)          Q_y = S_y (w,y + g)          all numbers SI
"""

import re
import subprocess
import sys
import tempfile
from pathlib import Path

try:
    import getfem as gf
    import numpy as np
    import scipy.linalg
    import scipy.sparse
    import scipy.sparse.linalg
    from numpy.polynomial import legendre
except ImportError as missing:
    print(f"plate_oracle: skipped, {missing}; ./setup.sh --developer installs what it needs")
    sys.exit(77)

units = {"mm": 1e-3, "N/mm2": 1e6, "N": 1.0, "N mm/mm": 1.0, "N m/m": 1.0, "N/mm": 1e3, "N/m": 1.0,
         "": 1.0}


def si(text):
    number, _, unit = text.strip().partition(" ")
    return float(number) * units[unit]


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


# --- elements of the fifth degree (Getfem), the equations solved by SciPy -------------------------

def by_elements(plate, load):
    """A function of x, y: all components there."""
    (x0, x1, y0, y1), pressure = load

    def lines(length, cuts):  # finer towards the edges, where shear lives in layers
        even = 0.5 * (1.0 - np.cos(np.pi * np.linspace(0.0, 1.0, 8)))
        return np.unique(np.round(np.concatenate([length * even, cuts]), 12))

    mesh = gf.Mesh("cartesian", lines(plate.a, [x0, x1]), lines(plate.b, [y0, y1]))
    field = gf.MeshFem(mesh, 1)
    field.set_fem(gf.Fem("FEM_QK(2,5)"))
    rule = gf.MeshIm(mesh, gf.Integ("IM_GAUSS_PARALLELEPIPED(2,10)"))
    cells = [int(c) for c in mesh.cvid()]
    middles = [mesh.pts_from_cvid(c)[0].mean(axis=1) for c in cells]
    pressed = [c for c, (x, y) in zip(cells, middles) if x0 < x < x1 and y0 < y < y1]
    mesh.set_region(3, np.array([pressed, [-1] * len(pressed)]))
    faces = mesh.outer_faces()
    across = abs(mesh.normal_of_faces(faces)[0]) > 0.5
    mesh.set_region(1, faces[:, across])
    mesh.set_region(2, faces[:, ~across])

    model = gf.Model("real")
    for name in ("w", "f", "g"):
        model.add_fem_variable(name, field)
    for name in ("D_11", "D_12", "D_22", "D_66", "S_x", "S_y"):
        model.add_initialized_data(name, [getattr(plate, name)])
    model.add_initialized_data("pressure", [pressure])
    model.add_linear_term(rule, """
        D_11*Grad_f(1)*Grad_Test_f(1) + D_22*Grad_g(2)*Grad_Test_g(2)
        + D_12*(Grad_f(1)*Grad_Test_g(2) + Grad_g(2)*Grad_Test_f(1))
        + D_66*(Grad_f(2) + Grad_g(1))*(Grad_Test_f(2) + Grad_Test_g(1))
        + S_x*(Grad_w(1) + f)*(Grad_Test_w(1) + Test_f)
        + S_y*(Grad_w(2) + g)*(Grad_Test_w(2) + Test_g)""".replace("\n", " "))
    model.add_source_term(rule, "pressure*Test_w", 3)
    held = [(v, edge) for v in "wfg" for edge in (1, 2)] if plate.is_clamped else [("w", 1), ("g", 1)]
    for variable, edge in held:
        model.add_Dirichlet_condition_with_simplification(variable, edge)
    model.assembly()
    K = model.tangent_matrix()
    K.to_csc()
    starts, rows = K.csc_ind()
    A = scipy.sparse.csc_matrix((K.csc_val(), rows, starts), shape=K.size())
    model.set("to variables", scipy.sparse.linalg.splu(A).solve(model.rhs()))

    def at(x, y):
        place = np.array([[x], [y]])
        names = [part for v in "wfg" for part in (v, f"Grad_{v}(1)", f"Grad_{v}(2)")]
        return plate.forces(*(float(np.ravel(model.interpolation(n, place, mesh))[0]) for n in names))

    return at


# --- polynomials over the whole plate (SciPy) -----------------------------------------------------

class Line:
    """n Legendre polynomials on [0, length], or differences of them that vanish at both ends."""

    def __init__(self, n, length, fixed):
        self.n, self.length, self.fixed = n, length, fixed
        z, weight = self.gauss(0.0, length)
        v, d = self.at(z)
        self.M = v.T @ (weight[:, None] * v)
        self.K = d.T @ (weight[:, None] * d)
        self.C = d.T @ (weight[:, None] * v)

    def gauss(self, z0, z1):
        z, weight = legendre.leggauss(self.n + 3)
        return 0.5 * (z1 - z0) * z + 0.5 * (z0 + z1), 0.5 * (z1 - z0) * weight

    def at(self, z):
        """Values and slopes, one column per polynomial."""
        s = 2.0 * np.atleast_1d(z) / self.length - 1.0
        v = legendre.legvander(s, self.n + 1)
        slopes = legendre.legder(np.eye(self.n + 2))
        d = legendre.legval(s, slopes).T * 2.0 / self.length
        if self.fixed:
            return v[:, 2:] - v[:, :-2], d[:, 2:] - d[:, :-2]
        return v[:, : self.n], d[:, : self.n]

    def load(self, z0, z1):
        z, weight = self.gauss(z0, z1)
        return weight @ self.at(z)[0]


def solve_three(blocks, load):
    """Symmetric, by its upper blocks over w, f, g; scaled to a unit diagonal."""
    (ww, wf, wg), (ff, fg), (gg,) = blocks
    A = np.block([[ww, wf, wg], [wf.T, ff, fg], [wg.T, fg.T, gg]])
    rhs = np.concatenate([load, np.zeros(2 * len(load))])
    scale = 1.0 / np.sqrt(np.diag(A))
    u = scale * scipy.linalg.solve(scale[:, None] * A * scale, scale * rhs, assume_a="pos")
    return np.split(u, 3)


def by_ritz(plate, load):
    (x0, x1, y0, y1), pressure = load
    X, Y = Line(22, plate.a, True), Line(22, plate.b, True)
    k, p = np.kron, plate
    blocks = ((p.S_x * k(X.K, Y.M) + p.S_y * k(X.M, Y.K), p.S_x * k(X.C, Y.M), p.S_y * k(X.M, Y.C)),
              (p.D_11 * k(X.K, Y.M) + p.D_66 * k(X.M, Y.K) + p.S_x * k(X.M, Y.M),
               p.D_12 * k(X.C, Y.C.T) + p.D_66 * k(X.C.T, Y.C)),
              (p.D_22 * k(X.M, Y.K) + p.D_66 * k(X.K, Y.M) + p.S_y * k(X.M, Y.M),))
    parts = solve_three(blocks, pressure * k(X.load(x0, x1), Y.load(y0, y1)))

    def at(x, y):
        (v, d), (r, s) = X.at(x), Y.at(y)
        shapes = k(v, r), k(d, r), k(v, s)
        return p.forces(*((shape @ part).item() for part in parts for shape in shapes))

    return at


def by_series(plate, load):
    """w = sum of w_m(y) sin(m pi x/a): f goes with the cosine, g with the sine."""
    (x0, x1, y0, y1), pressure = load
    Y, p = Line(40, plate.b, False), plate
    terms = []
    for m in range(1, 80):
        c = m * np.pi / p.a
        amplitude = pressure * 2.0 / p.a * (np.cos(c * x0) - np.cos(c * x1)) / c
        if abs(amplitude) < 1e-12 * abs(pressure):
            continue
        blocks = ((p.S_x * c**2 * Y.M + p.S_y * Y.K, p.S_x * c * Y.M, p.S_y * Y.C),
                  ((p.D_11 * c**2 + p.S_x) * Y.M + p.D_66 * Y.K,
                   -p.D_12 * c * Y.C.T + p.D_66 * c * Y.C),
                  (p.D_22 * Y.K + (p.D_66 * c**2 + p.S_y) * Y.M,))
        terms.append((c, solve_three(blocks, amplitude * Y.load(y0, y1))))

    def at(x, y):
        r, s = (row[0] for row in Y.at(y))
        sums = np.zeros(9)
        for c, (w, f, g) in terms:
            sin, cos = np.sin(c * x), np.cos(c * x)
            sums += [sin * (r @ w), c * cos * (r @ w), sin * (s @ w),
                     cos * (r @ f), -c * sin * (r @ f), cos * (s @ f),
                     sin * (r @ g), c * cos * (r @ g), sin * (s @ g)]
        return p.forces(*sums)

    return at


# --- the program ----------------------------------------------------------------------------------

def found_by(program, text):
    """What the program finds for each expectation of a frame case, in their order."""
    with tempfile.TemporaryDirectory() as folder:
        case = Path(folder) / "case.yaml"
        case.write_text(text)
        run = subprocess.run([program, "solve", "--width", "400", str(case)], capture_output=True,
                             text=True)
    found = re.findall(r"expected, (\S+) (.+?) found", run.stdout)
    if run.returncode != 0:
        print(run.stdout[-2000:], run.stderr)
        sys.exit("plate_oracle: the program does not meet the file's own expectations")
    return [si(f"{number} {unit}") for number, unit in found]


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
    """Prints the rows of one file; the number of those that are off."""
    other = by_ritz if plate.is_clamped else by_series
    roads = {case: (by_elements(plate, load), other(plate, load))
             for case, load in plate.loads.items()}
    coarse, fine = found_by(program, plate.text), found_by(program, twice_as_fine(plate.text))
    if not len(plate.asked) == len(coarse) == len(fine) > 0:
        sys.exit(f"plate_oracle: {len(plate.asked)} expectations in {name}, {len(fine)} answers")
    answers = [[road(x, y)[part] for road in roads[case]]
               for case, x, y, part, _ in plate.asked]
    largest = {}
    for (case, _, _, part, _), (elements, _) in zip(plate.asked, answers):
        key = case, part[0]
        largest[key] = max(largest.get(key, 0.0), abs(elements))
    faults = 0
    for (case, x, y, part, stated), (elements, second), h, h_2 in zip(plate.asked, answers, coarse,
                                                                     fine):
        size = largest[case, part[0]]
        off_h, off_h_2, off, apart, file_off = (
            (v - elements) / size for v in (h, h_2, (4.0 * h_2 - h) / 3.0, second, stated))
        off_allowed, apart_allowed = allowed(plate, case, part, y)
        well = (abs(off) <= off_allowed and abs(apart) <= apart_allowed and abs(file_off) <= 2e-6)
        faults += not well
        print(f"{name:15} {case:4} {part:4} {1e3*x:4.0f} {1e3*y:4.0f} {elements:13.6e}"
              f"{apart:9.1e}{off_h:9.1e}{off_h_2:9.1e}{off:9.1e}  {off_allowed:.0e}"
              + ("" if well else "  <- OFF" + (" (the file)" if abs(file_off) > 2e-6 else "")))
    return faults


def main():
    program = sys.argv[1]
    folder = Path(sys.argv[2]) if len(sys.argv) > 2 else Path(__file__).parent / "plate_oracle"
    gf.util_trace_level(0)
    print("Elements of the fifth degree; then what is off, as a part of the largest of its kind in the\n"
          "case: the second road, the program's mesh, half of it, both without h², and allowed.\n")
    print("file            case what  at [mm]      elements   second    mesh     half   without  allowed")
    files = sorted(folder.glob("*.yaml"))
    faults = sum(compare(file.stem, Plate(file.read_text()), program) for file in files)
    if not files or faults:
        sys.exit(f"plate_oracle: {faults} of the answers are off ({len(files)} files)")
    print("\nplate_oracle: all within what is allowed")


if __name__ == "__main__":
    main()
