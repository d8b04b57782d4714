"""One member by the textbook: a Timoshenko beam by its shapes, sharing nothing with the program.

The static shape of the axis is a cubic w, the sections turn by th = gamma - w' with a constant
gamma = -(EI/GA_s) w''', found from the values at its ends. Stiffness, mass and the push of an axial
force are integrals of those shapes by Gauss's rule, not formulas. Signs: docs/conventions.md. SI.
"""

import numpy as np

from case_file import si, three


def torsion_constant(b, h):
    """Of a rectangle, by the double sine series of its stress function."""
    m = np.arange(1.0, 4000.0, 2.0)
    sums = 1.0 / (m[:, None] ** 2 * m**2 * ((m[:, None] * h) ** 2 + (m * b) ** 2))
    return 256.0 / np.pi**6 * (b * h) ** 3 * sums.sum()


class Section:
    known = {}

    def __init__(self, given):
        given = {"rectangle": given} if isinstance(given, str) else dict(given)
        rectangle = given.pop("rectangle", None)
        if rectangle:
            first, second = rectangle.split(" x ")
            unit = second.split(" ")[1]
            b, h = si(first if " " in first else f"{first} {unit}"), si(second)
            if (b, h) not in self.known:
                self.known[b, h] = torsion_constant(b, h)
            self.A, self.I_y, self.I_z, self.J = b * h, b * h**3 / 12, h * b**3 / 12, self.known[b, h]
            self.A_sy = self.A_sz = 5.0 / 6.0 * b * h
        else:
            self.A_sy = self.A_sz = None
        if given.pop("shear", None) == "none":
            self.A_sy = self.A_sz = None
        for name, value in given.items():
            setattr(self, name, si(value))


class Bending:
    """Shapes of w and th over one member, from the ends' (w, th, w, th)."""

    def __init__(self, L, ratio):  # ratio = EI/GA_s
        self.ratio, self.L = ratio, L
        ends = np.vstack([self.rows(0.0)[:1], self.rows(0.0)[2:3], self.rows(L)[:1], self.rows(L)[2:3]])
        self.coefficients = np.linalg.inv(ends)

    def rows(self, x):
        """w, w', th, th', gamma of 1, x, x², x³."""
        w = [1.0, x, x * x, x**3]
        slope = [0.0, 1.0, 2.0 * x, 3.0 * x * x]
        gamma = [0.0, 0.0, 0.0, -6.0 * self.ratio]
        turn = [g - s for g, s in zip(gamma, slope)]
        return np.array([w, slope, turn, [0.0, 0.0, -2.0, -6.0 * x], gamma])

    def at(self, x):
        return self.rows(x) @ self.coefficients


class Member:
    gauss = np.polynomial.legendre.leggauss(5)
    known = {}

    def __init__(self, name, start, end, material, section, given):
        self.name, self.section = name, section
        self.E, self.G, self.density = (si(material.get(key, 0.0)) for key in ("E", "G", "density"))
        self.carries = si(given.get("carries", 0.0)) / 9.80665  # kg/m
        self.offsets = [np.array(three(given.get(key, [0, 0, 0]))) for key in ("start_offset", "end_offset")]
        chord = end + self.offsets[1] - start - self.offsets[0]
        self.L = np.linalg.norm(chord)
        x = chord / self.L
        upright = np.hypot(x[0], x[1]) < 2e-6
        wish = np.array(given.get("depth", [1, 0, 0] if upright else [0, 0, 1]), float)
        y = np.cross(wish, x)
        y /= np.linalg.norm(y)
        roll = si(given.get("roll", 0.0))
        y = np.cos(roll) * y + np.sin(roll) * np.cross(x, y)
        self.R = np.array([x, y, np.cross(x, y)])
        s = section
        self.planes = [  # in x-z: w, ry; in x-y: v, -rz. Places among the twelve, signs, stiffness
            ([2, 4, 8, 10], [1, 1, 1, 1], self.E * s.I_y, s.A_sz, s.I_y),
            ([1, 5, 7, 11], [1, -1, 1, -1], self.E * s.I_z, s.A_sy, s.I_z)]
        self.shapes = [Bending(self.L, EI / (self.G * A_s) if A_s else 0.0)
                       for _, _, EI, A_s, _ in self.planes]

    def points(self, x0, x1):
        z, weight = self.gauss
        return zip(0.5 * (x1 - x0) * z + 0.5 * (x0 + x1), 0.5 * (x1 - x0) * weight)

    def interpolation(self, x):
        """Rows u, v, w, rx, ry, rz of the axis at x over the twelve freedoms of the ends."""
        N = np.zeros((6, 12))
        a = x / self.L
        N[0, [0, 6]] = N[3, [3, 9]] = 1.0 - a, a
        for (at, sign, *_), shape, move, turn in zip(self.planes, self.shapes, (2, 1), (4, 5)):
            rows = shape.at(x) * sign
            N[move, at], N[turn, at] = rows[0], rows[2] * sign[1]
        return N

    def integrals(self):
        """Stiffness, mass, and what an axial force of 1 adds to the stiffness."""
        key = (self.L, self.E, self.G, self.density, self.carries, *vars(self.section).values())
        if key not in self.known:
            self.known[key] = self.integrated()
        return self.known[key]

    def integrated(self):
        K, M, push = np.zeros((12, 12)), np.zeros((12, 12)), np.zeros((12, 12))
        s, one = self.section, np.array([[1.0, -1.0], [-1.0, 1.0]]) / self.L
        K[np.ix_([0, 6], [0, 6])] = self.E * s.A * one
        K[np.ix_([3, 9], [3, 9])] = self.G * s.J * one
        inertia = self.density * np.diag([s.A, s.A, s.A, s.I_y + s.I_z, s.I_y, s.I_z])
        inertia += self.carries * np.diag([1.0, 1.0, 1.0, 0.0, 0.0, 0.0])
        for x, weight in self.points(0.0, self.L):
            N = self.interpolation(x)
            M += weight * N.T @ inertia @ N
            for (at, sign, EI, A_s, _), shape in zip(self.planes, self.shapes):
                _, slope, _, bent, gamma = shape.at(x) * sign
                here = np.ix_(at, at)
                K[here] += weight * EI * np.outer(bent, bent)
                if A_s:
                    K[here] += weight * self.G * A_s * np.outer(gamma, gamma)
                push[here] += weight * np.outer(slope, slope)
        return K, M, push

    def load(self, given):
        """Forces at the ends, local, that do the work of a load on the member."""
        turned = lambda key: np.concatenate([self.R @ three(given.get(key, [0, 0, 0])), np.zeros(3)])
        if "line" not in given:
            both = turned("force") + np.roll(turned("moment"), 3)
            return self.interpolation(si(given["at"])).T @ both
        x0, x1 = si(given.get("from", 0.0)), si(given.get("to", self.L))
        q0 = turned("line")
        q1 = turned("line_end") if "line_end" in given else q0
        return sum(weight * self.interpolation(x).T @ (q0 + (q1 - q0) * (x - x0) / (x1 - x0))
                   for x, weight in self.points(x0, x1))
