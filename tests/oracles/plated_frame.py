"""A frame with its sheets, every mesh node of them, nothing condensed (frame.py, shell.py)."""

import numpy as np
import scipy.sparse

import shell
from case_file import si, three
from frame import Frame, gravity


class Plate:
    def __init__(self, given, first):
        self.given, self.first = given, first
        self.origin = np.array(three(given["origin"]))
        x, y = (np.array(given.get(key, default), float)
                for key, default in (("x_axis", [1, 0, 0]), ("y_axis", [0, 1, 0])))
        self.R = np.array([x, y, np.cross(x, y)])
        self.x, self.y = (np.array(three(given[key])) for key in "xy")
        values = given["stiffness"]
        by = 1.0 / float(given.get("creep", 1.0))
        self.A, self.D = ([by * si(values[f"{k}_{i}"]) for i in ("11", "12", "22", "66")] for k in "AD")
        self.S = [by * si(values[key]) for key in ("S_x", "S_y")]
        self.level, self.t = si(given.get("tie_level", 0.0)), si(given["thickness"])
        self.mass, self.carries = si(given.get("mass", 0.0)), si(given.get("carries", 0.0))
        holes = [[three(hole[key]) for key in "xy"] for hole in given.get("holes", [])]
        self.cells = [(i, j) for j in range(len(self.y) - 1) for i in range(len(self.x) - 1)
                      if not any(within(self.middle(i, j), hole) for hole in holes)]

    def middle(self, i, j):
        return 0.5 * (self.x[i] + self.x[i + 1]), 0.5 * (self.y[j] + self.y[j + 1])

    def size(self, i, j):
        return self.x[i + 1] - self.x[i], self.y[j + 1] - self.y[j]

    def node(self, i, j):
        """The first of the five unknowns of a mesh node."""
        return self.first + 5 * (j * len(self.x) + i)

    def corners(self, i, j):
        return [self.node(i, j), self.node(i + 1, j), self.node(i + 1, j + 1), self.node(i, j + 1)]

    def shares(self, given):
        """{mesh node: share} of an even load on a patch between mesh lines."""
        patch = [three(given[key]) for key in "xy"]
        for ends, lines in zip(patch, (self.x, self.y)):
            if max(abs(lines - end).min() for end in ends) > 1e-9:
                raise NotImplementedError("a patch beside the mesh lines")
        cells = [cell for cell in self.cells if within(self.middle(*cell), patch)]
        area = sum(np.prod(self.size(*cell)) for cell in cells)
        shares = {}
        for cell in cells:
            for node in self.corners(*cell):
                shares[node] = shares.get(node, 0.0) + 0.25 * np.prod(self.size(*cell)) / area
        return shares


def within(point, patch):
    return all(low < p < high for p, (low, high) in zip(point, patch))


class PlatedFrame(Frame):
    def __init__(self, case, springs="gravity", is_seated=None):
        """`is_seated`: with the ties that hold by weight alone; as gravity's springs are unless given."""
        super().__init__(case, springs)
        self.is_seated = springs == "gravity" if is_seated is None else is_seated
        self.plates, self.ties_made = {}, []  # the latter: plate, number, axis, stiffness, gap
        for name, given in case["plates"].items():
            plate = self.plates[name] = Plate(given, self.unknowns)
            self.unknowns += 5 * len(plate.x) * len(plate.y)
            there = {node for cell in plate.cells for node in plate.corners(*cell)}
            self.held.update({node + k: 0.0 for node in range(plate.first, self.unknowns, 5)
                              if node not in there for k in range(5)})
            for number, tie in enumerate(given.get("ties", []), 1):
                if self.is_seated or not tie.get("gravity_only"):
                    self.add_tie(plate, tie, name, number)
            for body in given.get("bodies", []):
                row = {}
                for sign, pad in zip((1.0, -1.0, 1.0, -1.0), body["pads"]):
                    for node, share in plate.shares(pad).items():
                        row[node + 2] = row.get(node + 2, 0.0) + sign * share
                self.spring_rows.append((si(body["stiffness"]), row))
        self.free = np.array([i for i in range(self.unknowns) if i not in self.held], int)

    def add_tie(self, plate, tie, name, number):
        x, y = three(tie["at"])
        node = plate.node(abs(plate.x - x).argmin(), abs(plate.y - y).argmin())
        point = plate.origin + plate.R.T @ [x, y, plate.level]
        arm = point - self.at[self.nodes[tie["node"]]]
        for axis, key in enumerate(("x", "y", "normal")):
            if key not in tie:
                continue
            gap = {at: -value for at, value in
                   self.end_row(6 * self.nodes[tie["node"]], plate.R[axis], arm, False).items()}
            gap[node + axis] = 1.0
            if axis == 0:
                gap[node + 4] = plate.level
            if axis == 1:
                gap[node + 3] = -plate.level
            self.spring_rows.append((si(tie[key]), gap))
            self.ties_made.append((name, number, key, si(tie[key]), gap))

    def over_cells(self, block_of):
        """Added up over all cells of all plates; one block for each size."""
        rows, columns, values = [], [], []
        for plate in self.plates.values():
            known = {}
            for cell in plate.cells:
                size = tuple(np.round(plate.size(*cell), 12))
                if size not in known:
                    known[size] = block_of(plate, *size).ravel()
                at = np.add.outer(plate.corners(*cell), np.arange(5)).ravel()
                rows.append(np.repeat(at, 20))
                columns.append(np.tile(at, 20))
                values.append(known[size])
        return scipy.sparse.csc_matrix(
            (np.concatenate(values), (np.concatenate(rows), np.concatenate(columns))),
            (self.unknowns, self.unknowns))

    def stiffness(self):
        if self.K is None:
            cells = self.over_cells(lambda plate, a, b: shell.stiffness(a, b, plate.A, plate.D, plate.S))
            self.K = (super().stiffness() + cells).tocsc()
        return self.K

    def mass(self):
        return super().mass() + self.over_cells(lambda plate, a, b: shell.mass(
            a, b, plate.mass + plate.carries, plate.mass * plate.t**2 / 12.0))

    def press(self, f, load):
        plate = self.plates[load["plate"]]
        own = plate.R @ three(load["force"])
        for node, share in plate.shares(load).items():
            f[node:node + 3] += share * own

    def weigh(self, f):
        for plate in self.plates.values():
            for cell in plate.cells:
                weight = -gravity * plate.mass * np.prod(plate.size(*cell))
                for node in plate.corners(*cell):
                    f[node:node + 3] += 0.25 * weight * plate.R[:, 2]
