"""One rectangular cell of a sheet by the textbook, sharing nothing with the program but docs/method.md.

Bending with transverse shear taken from the middles of the sides (MITC4); in its plane bilinear with two
bubbles each way, eliminated. All by Gauss's rule from the strains. Freedoms of a corner: u v w rx ry; the
corners in turn round the cell. SI.
"""

import numpy as np

corners = np.array([[-1, -1], [1, -1], [1, 1], [-1, 1]], float)
gauss = [(x, y) for x in (-1 / np.sqrt(3), 1 / np.sqrt(3)) for y in (-1 / np.sqrt(3), 1 / np.sqrt(3))]


def shapes(x, y, a, b):
    """Values and slopes along x and y of the four bilinear shapes; x, y from -1 to 1."""
    (cx, cy) = corners.T
    N = 0.25 * (1 + cx * x) * (1 + cy * y)
    return N, 0.25 * cx * (1 + cy * y) * 2 / a, 0.25 * (1 + cx * x) * cy * 2 / b


def in_plane(a, b, A):
    """8 x 8 over (u, v) of the corners. A: A_11, A_12, A_22, A_66."""
    stiffness = np.array([[A[0], A[1], 0], [A[1], A[2], 0], [0, 0, A[3]]])
    K = np.zeros((12, 12))
    for x, y in gauss:
        _, dx, dy = shapes(x, y, a, b)
        dx, dy = np.append(dx, [-4 * x / a, 0.0]), np.append(dy, [0.0, -4 * y / b])  # 1-x², 1-y²
        strain = np.zeros((3, 12))
        strain[0, 0::2] = strain[2, 1::2] = dx
        strain[1, 1::2] = strain[2, 0::2] = dy
        K += strain.T @ stiffness @ strain * a * b / 4
    return K[:8, :8] - K[:8, 8:] @ np.linalg.solve(K[8:, 8:], K[8:, :8])


def shears(x, y, a, b):
    """w,x + ry and w,y - rx over (w, rx, ry) of the corners."""
    rows = np.zeros((2, 12))
    N, dx, dy = shapes(x, y, a, b)
    rows[0, 0::3], rows[0, 2::3] = dx, N
    rows[1, 0::3], rows[1, 1::3] = dy, -N
    return rows


def bending(a, b, D, S):
    """12 x 12 over (w, rx, ry) of the corners."""
    stiffness = np.array([[D[0], D[1], 0], [D[1], D[2], 0], [0, 0, D[3]]])
    K = np.zeros((12, 12))
    for x, y in gauss:
        _, dx, dy = shapes(x, y, a, b)
        bent = np.zeros((3, 12))
        bent[0, 2::3] = dx
        bent[1, 1::3] = -dy
        bent[2, 2::3], bent[2, 1::3] = dy, -dx
        along = 0.5 * (1 - y) * shears(0, -1, a, b)[0] + 0.5 * (1 + y) * shears(0, 1, a, b)[0]
        across = 0.5 * (1 - x) * shears(-1, 0, a, b)[1] + 0.5 * (1 + x) * shears(1, 0, a, b)[1]
        K += (bent.T @ stiffness @ bent + S[0] * np.outer(along, along)
              + S[1] * np.outer(across, across)) * a * b / 4
    return K


def spread(block, places):
    """A matrix over some freedoms of each corner, over all twenty."""
    at = [5 * corner + place for corner in range(4) for place in places]
    whole = np.zeros((20, 20))
    whole[np.ix_(at, at)] = block
    return whole


def stiffness(a, b, A, D, S):
    return spread(in_plane(a, b, A), (0, 1)) + spread(bending(a, b, D, S), (2, 3, 4))


def mass(a, b, per_area, turning):
    """`per_area` along u v w, `turning` about x and y, bilinear."""
    bilinear = np.zeros((4, 4))
    for x, y in gauss:
        N = shapes(x, y, a, b)[0]
        bilinear += np.outer(N, N) * a * b / 4
    return np.kron(bilinear, np.diag([per_area] * 3 + [turning] * 2))
