"""A plate by polynomials over the whole of it: clamped by Ritz; two edges free by one sine along x and
Ritz along y. SciPy solves."""

import numpy as np
import scipy.linalg
from numpy.polynomial import legendre


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
