"""A sheet with holes on lines and seams, by Getfem's elements; the equations solved by SciPy.

u, v, w and f = ry, g = -rx, so that a point z along the normal moves by u + z f, v + z g. A seam is a
line of springs, per length, at the level z; a line holds w. Signs as in plates.py; SI.
"""

from dataclasses import dataclass, field

import getfem as gf
import numpy as np
import scipy.sparse
import scipy.sparse.linalg

fields = "uvwfg"


@dataclass
class Line:
    axis: str  # "x": along x
    at: float  # the other coordinate
    span: tuple
    stiffness: tuple = ()  # per length: x, y, normal; empty: w is held


@dataclass
class Sheet:
    a: tuple  # from, to along x
    b: tuple
    A: tuple  # A_11, A_12, A_22, A_66
    D: tuple
    S: tuple
    lines: list
    loads: dict  # name: ((x0, x1), (y0, y1), (force x, y, z))
    holes: list = field(default_factory=list)  # ((x0, x1), (y0, y1))
    level: float = 0.0  # of the seams


def mesh_lines(ends, hard, pieces):
    """Between hard lines finer towards them, where shear and corners are steep."""
    hard = np.unique(np.round([*ends, *hard], 12))
    even = 0.5 * (1.0 - np.cos(np.pi * np.linspace(0.0, 1.0, pieces + 1)))
    return np.unique(np.round(np.concatenate([a + (b - a) * even for a, b in zip(hard, hard[1:])]), 12))


class Elements:
    def __init__(self, sheet, degree, pieces):
        self.sheet = sheet
        hard = [[], []]
        for line in sheet.lines:
            along = 0 if line.axis == "x" else 1
            hard[along] += line.span
            hard[1 - along].append(line.at)
        for x, y, *_ in [*sheet.holes, *sheet.loads.values()]:
            hard[0] += x
            hard[1] += y
        self.mesh = gf.Mesh("cartesian", *(mesh_lines(ends, cuts, pieces)
                                           for ends, cuts in zip((sheet.a, sheet.b), hard)))
        for x, y in sheet.holes:
            self.mesh.del_convex(self.inside(x, y))
        self.field = gf.MeshFem(self.mesh, 1)
        self.field.set_fem(gf.Fem(f"FEM_QK(2,{degree})"))
        self.rule = gf.MeshIm(self.mesh, gf.Integ(f"IM_GAUSS_PARALLELEPIPED(2,{2 * degree})"))
        self.model = gf.Model("real")
        for name in fields:
            self.model.add_fem_variable(name, self.field)
        self.stiffen()
        self.factor()

    def inside(self, x, y):
        middles = {int(c): self.mesh.pts_from_cvid(c)[0].mean(axis=1) for c in self.mesh.cvid()}
        return [c for c, (p, q) in middles.items() if x[0] < p < x[1] and y[0] < q < y[1]]

    def faces(self, line):
        """Of cells on one side of the line, each piece of it once."""
        points, names = self.mesh.pts(), self.mesh.pid()
        along, across = (0, 1) if line.axis == "x" else (1, 0)
        on = [int(n) for n, p in zip(names, points.T) if abs(p[across] - line.at) < 1e-9
              and line.span[0] - 1e-9 < p[along] < line.span[1] + 1e-9]
        found, seen = [], set()
        for c, f in self.mesh.faces_from_pid(on).T:
            ends = tuple(np.round(np.sort(self.mesh.pts_from_cvid(int(c))[0][along])[[0, -1]], 9))
            if ends not in seen:
                seen.add(ends)
                found.append((c, f))
        return np.array(found).T

    def stiffen(self):
        s, model = self.sheet, self.model
        for name, values in (("A", s.A), ("D", s.D)):
            for part, value in zip(("11", "12", "22", "66"), values):
                model.add_initialized_data(f"{name}_{part}", [value])
        model.add_initialized_data("S", list(s.S))
        model.add_initialized_data("z", [s.level])

        def plane(k, p, q):
            t, r = f"Test_{p}", f"Test_{q}"
            return (f"{k}_11*Grad_{p}(1)*Grad_{t}(1) + {k}_22*Grad_{q}(2)*Grad_{r}(2)"
                    f" + {k}_12*(Grad_{p}(1)*Grad_{r}(2) + Grad_{q}(2)*Grad_{t}(1))"
                    f" + {k}_66*(Grad_{p}(2) + Grad_{q}(1))*(Grad_{t}(2) + Grad_{r}(1))")

        model.add_linear_term(self.rule, plane("A", "u", "v") + " + " + plane("D", "f", "g")
                              + " + S(1)*(Grad_w(1) + f)*(Grad_Test_w(1) + Test_f)"
                              " + S(2)*(Grad_w(2) + g)*(Grad_Test_w(2) + Test_g)")
        for i, line in enumerate(s.lines):
            region = 10 + i
            self.mesh.set_region(region, self.faces(line))
            if not line.stiffness:
                model.add_Dirichlet_condition_with_simplification("w", region)
                continue
            model.add_initialized_data(f"k{i}", list(line.stiffness))
            model.add_linear_term(self.rule, f"k{i}(1)*(u + z*f)*(Test_u + z*Test_f)"
                                  f" + k{i}(2)*(v + z*g)*(Test_v + z*Test_g) + k{i}(3)*w*Test_w", region)
        if not any(line.stiffness for line in s.lines):  # nothing holds it in its plane
            self.mesh.set_region(9, self.mesh.outer_faces())
            for variable in "uv":
                model.add_Dirichlet_condition_with_simplification(variable, 9)

    def factor(self):
        self.model.assembly()
        K = self.model.tangent_matrix()
        K.to_csc()
        starts, rows = K.csc_ind()
        self.lu = scipy.sparse.linalg.splu(
            scipy.sparse.csc_matrix((K.csc_val(), rows, starts), shape=K.size()),
            permc_spec="MMD_AT_PLUS_A", options={"SymmetricMode": True}, diag_pivot_thresh=0.0)

    def solve(self, load, points):
        """All components at each of the points."""
        x, y, force = load
        model, cells = self.model, self.inside(load[0], load[1])
        self.mesh.set_region(8, np.array([cells, [-1] * len(cells)]))
        area = sum(float(np.prod(np.ptp(self.mesh.pts_from_cvid(c)[0], axis=1))) for c in cells)
        bricks = [model.add_source_term(self.rule, f"({component / area!r})*Test_{variable}", 8)
                  for variable, component in zip("uvw", force) if component]
        model.assembly("build_rhs")
        model.set("to variables", self.lu.solve(model.rhs()))
        for brick in bricks:
            model.disable_bricks([brick])
        parts = [part for n in fields for part in (n, f"Grad_{n}(1)", f"Grad_{n}(2)")]
        found = np.array([np.ravel(model.interpolation(part, np.array(points).T, self.mesh))
                          for part in parts]).reshape(5, 3, len(points))
        return [self.components(found[:, :, i]) for i in range(len(points))]

    def components(self, found):
        s = self.sheet
        (u, u_x, u_y), (v, v_x, v_y), (w, w_x, w_y), (f, f_x, f_y), (g, g_x, g_y) = found
        A, D = s.A, s.D
        return {"u": u, "v": v, "w": w, "N_x": A[0] * u_x + A[1] * v_y, "N_y": A[1] * u_x + A[2] * v_y,
                "N_xy": A[3] * (u_y + v_x), "M_x": D[0] * f_x + D[1] * g_y,
                "M_y": D[1] * f_x + D[2] * g_y, "M_xy": D[3] * (f_y + g_x),
                "Q_x": s.S[0] * (w_x + f), "Q_y": s.S[1] * (w_y + g)}
