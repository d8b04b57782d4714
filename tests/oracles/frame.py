"""A space frame from a frame case, added up and solved without the program.

End springs are unknowns of their own, not condensed; whatever is rigid is a row over the freedoms of
its node. SciPy solves. Signs: docs/conventions.md. All numbers SI.
"""

import numpy as np
import scipy.linalg
import scipy.sparse
import scipy.sparse.linalg

from case_file import si, three
from member import Member, Section

freedoms = ("x", "y", "z", "rx", "ry", "rz")
gravity = 9.80665


def factorised(K):
    """Of a positive definite matrix, in an order that suits symmetric ones."""
    return scipy.sparse.linalg.splu(K.tocsc(), permc_spec="MMD_AT_PLUS_A", diag_pivot_thresh=0.0,
                                    options={"SymmetricMode": True})


class Frame:
    """All that one set of springs sees; press-only supports are taken to touch."""

    def __init__(self, case, springs="gravity"):
        self.case, self.springs = case, springs
        self.cases = case.get("cases", {})
        self.nodes = {name: i for i, name in enumerate(case["nodes"])}
        self.at = [np.array(three(at)) for at in case["nodes"].values()]
        self.unknowns = 6 * len(self.nodes)
        self.K = self.B = self.lu = None  # once they are known
        self.inner = []  # unknowns behind end springs
        self.spring_rows = []  # (stiffness, {unknown: factor}): energy k/2 (sum factor u)²
        self.held = {}  # unknown: movement
        self.supports = {}  # name: ("held", unknown) or ("spring", row, moved)
        sections = {name: Section(given) for name, given in case["sections"].items()}
        self.members, self.rows = {}, []
        for name, given in case["members"].items():
            self.add_member(name, given, sections)
        for given in case.get("ties", {}).values():
            a, b = 6 * self.nodes[given["from"]], 6 * self.nodes[given["to"]]
            for i, freedom in enumerate(freedoms):
                if freedom in given:
                    self.spring_rows.append((si(given[freedom]), {a + i: 1.0, b + i: -1.0}))
        for name, given in case["supports"].items():
            self.add_support(name, given)
        if case.get("plane"):
            for i in range(len(self.nodes)):
                self.held.update({6 * i + 1: 0.0, 6 * i + 3: 0.0, 6 * i + 5: 0.0})
        self.free = np.array([i for i in range(self.unknowns) if i not in self.held], int)

    def stiffness_of(self, given):
        return si(given[self.springs] if isinstance(given, dict) else given)

    def add_member(self, name, given, sections):
        material = given.get("material", next(iter(self.case["materials"])))
        section = given.get("section", next(iter(sections)))
        ends = self.nodes[given["from"]], self.nodes[given["to"]]
        member = Member(name, self.at[ends[0]], self.at[ends[1]], self.case["materials"][material],
                        sections[section], given)
        rows = []
        for node, offset, key in zip(ends, member.offsets, ("start", "end")):
            springs = given.get(key, {})
            for i, freedom in enumerate(freedoms):
                row = self.end_row(6 * node, member.R[i % 3], offset, i >= 3)
                if freedom in springs:
                    own = self.unknowns
                    self.unknowns += 1
                    self.inner.append(own)
                    if springs[freedom] != "free":
                        gap = {at: -factor for at, factor in row.items()}
                        self.spring_rows.append((self.stiffness_of(springs[freedom]), {own: 1.0, **gap}))
                    row = {own: 1.0}
                rows.append(row)
        self.members[name] = member
        self.rows.append(rows)

    @staticmethod
    def end_row(node, axis, offset, turns):
        """What the end of a member does along (or about) an axis as its node moves."""
        if turns:
            return {node + 3 + i: axis[i] for i in range(3)}
        lever = np.cross(offset, axis)  # axis . (theta x offset)
        return {**{node + i: axis[i] for i in range(3)}, **{node + 3 + i: lever[i] for i in range(3)}}

    def add_support(self, name, given):
        if isinstance(given, dict) and "node" in given:  # free form
            axis = np.array(given["along"], float)
            axis /= np.linalg.norm(axis)
            start = 6 * self.nodes[given["node"]] + (3 if given.get("rotation") else 0)
            row = {start + i: axis[i] for i in range(3)}
            moved = si(given.get("moved", 0.0)) - si(given.get("gap", 0.0))
            if "stiffness" in given:
                self.supports[name] = ("spring", self.stiffness_of(given["stiffness"]), row, moved)
                return
            if abs(axis).max() < 1.0:
                raise NotImplementedError("a rigid support askew")
            unknown = start + int(abs(axis).argmax())
            self.held[unknown] = moved * axis.max()
            self.supports[name] = ("held", unknown)
            return
        node = 6 * self.nodes[name]
        if given == "all":
            given = list(freedoms)
        items = {key: "held" for key in given} if isinstance(given, list) else given
        for freedom, how in items.items():
            unknown = node + freedoms.index(freedom)
            if how == "held" or isinstance(how, dict):
                self.held[unknown] = 0.0 if how == "held" else si(how["moved"])
                self.supports[f"{name}.{freedom}"] = ("held", unknown)
            else:
                self.supports[f"{name}.{freedom}"] = ("spring", si(how), {unknown: 1.0}, 0.0)

    def turns(self, support):
        """Whether its force is a moment."""
        how = self.supports[support]
        unknown = how[1] if how[0] == "held" else next(iter(how[2]))
        return unknown % 6 >= 3

    def spread(self, rows):
        """Sparse: one row for each of `rows`."""
        i = [r for r, row in enumerate(rows) for _ in row]
        j = [at for row in rows for at in row]
        values = [value for row in rows for value in row.values()]
        return scipy.sparse.csr_matrix((values, (i, j)), (len(rows), self.unknowns))

    def ends(self):
        """The ends of all members, twelve rows each, over the unknowns."""
        if self.B is None:
            self.B = self.spread([row for rows in self.rows for row in rows])
        return self.B

    def over_members(self, blocks):
        B = self.ends()
        return B.T @ scipy.sparse.block_diag(blocks, "csr") @ B

    def stiffness(self):
        if self.K is not None:
            return self.K
        K = self.over_members([member.integrals()[0] for member in self.members.values()])
        springs = self.spring_rows + [s[1:3] for s in self.supports.values() if s[0] == "spring"]
        if springs:
            rows = self.spread([row for _, row in springs])
            K = K + rows.T @ scipy.sparse.diags([k for k, _ in springs]) @ rows
        self.K = K.tocsc()
        return self.K

    def node_rows(self, node, offset):
        """Movements and rotations of a point that a node carries rigidly."""
        return self.spread([self.end_row(6 * self.nodes[node], axis, offset, turns)
                            for turns in (False, True) for axis in np.eye(3)]).toarray()

    def load(self, name):
        """Forces on all unknowns, and those that act on each member (local)."""
        given = self.cases[name]
        f, on_members = np.zeros(self.unknowns), np.zeros((len(self.members), 12))
        names = list(self.members)
        for load in given.get("loads", []):
            if "node" in load:
                offset = np.array(three(load.get("offset", [0, 0, 0])))
                both = three(load.get("force", [0, 0, 0])) + three(load.get("moment", [0, 0, 0]))
                f += self.node_rows(load["node"], offset).T @ np.array(both)
            elif "plate" in load:
                self.press(f, load)
            else:
                on_members[names.index(load["member"])] += self.members[load["member"]].load(load)
        if given.get("self_weight"):
            for i, member in enumerate(self.members.values()):
                weight = -gravity * member.density * member.section.A
                on_members[i] += member.load({"line": [0.0, 0.0, weight]})
            for mass in self.case.get("masses", {}).values():
                rows = self.node_rows(mass["node"], np.array(three(mass.get("offset", [0, 0, 0]))))
                f -= gravity * si(mass["mass"]) * rows[2]
            self.weigh(f)
        return f + self.ends().T @ on_members.ravel(), on_members

    def weigh(self, f):
        """Adds the weight of what is no member: see plated_frame.py."""

    def solve(self, loads, pushed=None):
        """Movements of all unknowns, forces at the ends of members (local), reactions by support.
        `pushed`: forces at the ends whose axial part pushes on the frame as it has moved."""
        f, on_members = loads[0].copy(), loads[1]
        K = self.stiffness() + (self.push(pushed) if pushed else 0.0)
        for _, k, row, moved in (s for s in self.supports.values() if s[0] == "spring"):
            for at, factor in row.items():
                f[at] += k * moved * factor
        u = np.zeros(self.unknowns)
        u[list(self.held)] = list(self.held.values())
        lu = self.lu if not pushed else factorised(K[self.free][:, self.free])
        if lu is None and len(self.free):
            lu = self.lu = factorised(K[self.free][:, self.free])
        for _ in range(2 if lu else 0):  # the second time is refinement
            u[self.free] += lu.solve((f - K @ u)[self.free])
        pulled = K @ u - f
        reactions = {}
        for name, support in self.supports.items():
            if support[0] == "held":
                reactions[name] = pulled[support[1]]
            else:
                _, k, row, moved = support
                reactions[name] = k * (moved - sum(u[at] * factor for at, factor in row.items()))
        moves = (self.ends() @ u).reshape(-1, 12)
        forces = [member.integrals()[0] @ move - f_m
                  for member, move, f_m in zip(self.members.values(), moves, on_members)]
        return u, forces, reactions

    def solve_second_order(self, loads, part):
        """Until the axial forces are those of the answer itself, to a part of the movements."""
        answer = self.solve(loads)
        for _ in range(60):
            before = answer[0]
            answer = self.solve(loads, answer[1])
            if abs(answer[0] - before).max() < part * abs(before).max():
                return answer
        raise RuntimeError("second order does not settle")

    def combined(self, name, wanted=lambda case: True):
        """The loads of a case or a combination; of the latter those of the wanted cases."""
        if name in self.cases:
            return self.load(name)
        none = (np.zeros(self.unknowns), np.zeros((len(self.members), 12)))
        parts = [(0.0, none)] + [
            (factor, self.load(case)) for case, factor in self.case["combinations"][name].items()
            if case in self.cases and wanted(case)]
        return tuple(sum(factor * part[i] for factor, part in parts) for i in (0, 1))

    def condition(self):
        """Estimated, in the 1-norm, of the stiffness scaled to a unit diagonal."""
        if not len(self.free):
            return 1.0
        K = self.stiffness()[self.free][:, self.free]
        scale = scipy.sparse.diags(1.0 / np.sqrt(K.diagonal()))
        K = (scale @ K @ scale).tocsc()
        lu = factorised(K)
        inverse = scipy.sparse.linalg.LinearOperator(K.shape, matvec=lu.solve, rmatvec=lu.solve)
        return scipy.sparse.linalg.onenormest(K) * scipy.sparse.linalg.onenormest(inverse)

    def mass(self):
        M = self.over_members([member.integrals()[1] for member in self.members.values()])
        for mass in self.case.get("masses", {}).values():
            offset = np.array(three(mass.get("offset", [0, 0, 0])))
            rows = scipy.sparse.csr_matrix(self.node_rows(mass["node"], offset))
            own = [si(mass["mass"])] * 3 + three(mass.get("inertia", [0, 0, 0]))
            M = M + rows.T @ scipy.sparse.diags(own) @ rows
        for body in self.case.get("bodies", {}).values():
            units = scipy.sparse.csr_matrix([self.load(name)[0] for name in body["unit"]])
            own = [si(body["mass"])] * 3 + three(body["inertia"])
            M = M + units.T @ scipy.sparse.diags(own) @ units
        return M

    def push(self, forces):
        """What the axial forces of an answer add to the stiffness."""
        axial = [0.5 * (force[6] - force[0]) for force in forces]
        return self.over_members([N * member.integrals()[2]
                                  for member, N in zip(self.members.values(), axial)])

    def shapes_of_nodes(self):
        """All free unknowns as those of the nodes move them: docs/frame-case.md has it that between its
        nodes a member moves as it does under loads at its ends, so what lies behind an end spring does
        not swing by itself."""
        K = self.stiffness()
        inner = np.array(self.inner, int)
        of_nodes = np.setdiff1d(self.free, inner)
        T = self.rows_of(of_nodes)
        if len(inner):
            follow = factorised(K[inner][:, inner]).solve(K[inner][:, of_nodes].toarray())
            T = T + self.rows_of(inner) @ scipy.sparse.csc_matrix(
                np.where(abs(follow) > 1e-14 * abs(follow).max(), -follow, 0.0))
        return T

    def rows_of(self, unknowns):
        """From some unknowns to all."""
        count = len(unknowns)
        return scipy.sparse.csc_matrix((np.ones(count), (unknowns, np.arange(count))),
                                       (self.unknowns, count))

    def largest_of(self, A, B, count):
        """The largest x with A u = x B u among the shapes of nodes, falling."""
        T = self.shapes_of_nodes()
        A, B = ((T.T @ matrix @ T).tocsc() for matrix in (A, B))
        if T.shape[1] < 100:
            return scipy.linalg.eigh(A.toarray(), B.toarray(), eigvals_only=True)[::-1][:count]
        inverse = scipy.sparse.linalg.LinearOperator(B.shape, factorised(B).solve)
        found = scipy.sparse.linalg.eigsh(A, count, B, which="LA", Minv=inverse, tol=1e-12,
                                          v0=np.ones(T.shape[1]), return_eigenvectors=False)
        return np.sort(found)[::-1]

    def frequencies(self, count, forces=None):
        """The lowest, Hz, rising."""
        K = self.stiffness() + (self.push(forces) if forces else 0.0)
        return 1.0 / np.sqrt(self.largest_of(self.mass(), K, count)) / (2.0 * np.pi)

    def buckling(self, forces):
        """The least positive factor on all loads."""
        return 1.0 / self.largest_of(-self.push(forces), self.stiffness(), 1)[0]
