"""Beams against SymPy's beam module: exact in fractions, by singularity functions.

SymPy's beam does not shear. Each beam is compared twice: with sections that do not, and with sections
that do, where the movement by shear, the integral of V/(G A_s), is superposed: what SymPy is told of
the movement at a support is then what bending must leave. All lengths in mm, forces in N.
"""

from fractions import Fraction

from sympy import Rational, Symbol
from sympy.physics.continuum_mechanics.beam import Beam

from case_file import Wanted, compare
from rows import summed

E, G, width, depth = 11200, 700, 45, 95  # N/mm2, mm
EI = Rational(E * width * depth**3, 12)
GA = Rational(G * width * depth * 5, 6)
why = "1e-12: fractions are exact, the frames of some ten unknowns round by 1e-16 each"
part = 1e-12

# Supports: place, movement z (held, a spring N/mm, an imposed movement mm), rotation ry (held, a spring
# N mm/rad). Loads: place(s) and value: force up N, line up N/mm (from, to, at from, at to), couple about
# y N mm.
held = "held"
beams = {
    "simple, load off the middle": (
        1500, [(0, held, None), (1500, held, None)], [("force", 400, -2500)]),
    "simple, line on a part, couple": (
        1800, [(0, held, None), (1800, held, None)],
        [("line", 300, 1100, -3, -3), ("couple", 1400, 150000)]),
    "simple, couples at both ends": (
        1200, [(0, held, None), (1200, held, None)], [("couple", 0, 90000), ("couple", 1200, -40000)]),
    "cantilever, load and line": (
        900, [(0, held, held)], [("force", 900, -400), ("line", 0, 900, -2, -2)]),
    "cantilever, triangle and couple at its tip": (
        800, [(0, held, held)], [("line", 0, 800, 0, -4), ("couple", 800, 60000)]),
    "propped, line on a part": (
        1600, [(0, held, held), (1600, held, None)], [("line", 500, 1600, -5, -5)]),
    "propped, overhang": (
        2000, [(0, held, held), (1400, held, None)], [("force", 2000, -600), ("force", 700, -900)]),
    "fixed, load and couple": (
        1400, [(0, held, held), (1400, held, held)], [("force", 500, -3000), ("couple", 900, 200000)]),
    "fixed, triangle": (1300, [(0, held, held), (1300, held, held)], [("line", 200, 1200, -1, -6)]),
    "fixed, one end settles": (1300, [(0, held, held), (1300, -3, held)], []),
    "three supports, line and load": (
        2400, [(0, held, None), (1100, held, None), (2400, held, None)],
        [("line", 0, 1100, -6, -6), ("force", 1900, -1800)]),
    "three supports, line across the middle one, overhang": (
        2600, [(0, held, None), (1000, held, None), (2200, held, None)],
        [("line", 600, 1500, -4, -4), ("force", 2600, -500)]),
    "four supports": (
        3600, [(0, held, None), (1100, held, None), (2300, held, None), (3600, held, None)],
        [("line", 0, 2000, -3, -3), ("force", 2900, -1500), ("couple", 1700, -120000)]),
    "four supports, one settles": (
        3000, [(0, held, held), (900, -2, None), (2000, held, None), (3000, held, None)],
        [("line", 900, 3000, -2, -5)]),
    "middle support a spring": (
        2400, [(0, held, None), (1200, 60, None), (2400, held, None)], [("line", 0, 2400, -3, -3)]),
    "cantilever on a spring": (
        1000, [(0, held, held), (1000, 25, None)], [("force", 600, -1500)]),
    "ends turn on springs": (
        1500, [(0, held, 60000000), (1500, held, 200000000)],
        [("force", 600, -2500), ("line", 700, 1500, -2, -2)]),
    "on springs alone": (
        2000, [(0, 80, None), (700, 150, 30000000), (2000, 40, None)],
        [("force", 300, -800), ("line", 900, 2000, -1, -3)]),
}


def apply(beam, load, with_couples=True):
    kind, at, *rest = load
    if kind == "force":
        beam.apply_load(rest[0] / EI, at, -1)
    elif kind == "couple" and with_couples:
        beam.apply_load(rest[0] / EI, at, -2)
    elif kind == "line":
        to, q0, q1 = rest
        end = to if to < beam.length else None
        beam.apply_load(Rational(q0) / EI, at, 0, end)
        if q1 != q0:
            beam.apply_load(Rational(q1 - q0, to - at) / EI, at, 1, end)


class Solved:
    """With E I = 1 and all loads divided by it: SymPy takes what is imposed on a support as E I times
    the movement in some places and as the movement in others, and with the other sign where it solves
    for the reactions."""

    def __init__(self, length, supports, loads, shears):
        self.shear = EI / GA if shears else Rational(0)
        self.beam, pull = Beam(length, 1, 1), Beam(length, 1, 1)  # pull: forces only, for the shear
        self.x = self.beam.variable
        for load in loads:
            apply(self.beam, load)
            apply(pull, load, with_couples=False)
        unknowns, moves, turns = [], [], []
        self.names = {}
        for i, (at, z, ry) in enumerate(supports):
            R, M = Symbol(f"R{i}"), Symbol(f"M{i}")
            if z is not None:
                is_spring = z != held and z > 0
                moves.append((at, -R * EI / z if is_spring else Rational(0 if z == held else z)))
                unknowns.append(R)
                self.names[R] = i, "z"
                self.beam.apply_load(R, at, -1)
                pull.apply_load(R, at, -1)
            if ry is not None:
                turns.append((at, Rational(0) if ry == held else M * EI / ry))
                unknowns.append(M)
                self.names[M] = i, "ry"
                self.beam.apply_load(M, at, -2)
        by_shear = self.shear * pull.bending_moment()
        moves = [(at, value - by_shear.subs(self.x, at)) for at, value in moves]
        self.beam.bc_deflection = [(at, -value) for at, value in moves]
        self.beam.bc_slope = [(at, -value) for at, value in turns]
        self.beam.solve_for_reaction_loads(*unknowns)
        known = self.beam.reaction_loads
        self.beam.bc_deflection = [(at, value.subs(known)) for at, value in moves]
        self.beam.bc_slope = [(at, value.subs(known)) for at, value in turns]
        self.reactions = {name: known[symbol] * EI for symbol, name in self.names.items()}
        self.curves = {"w": self.beam.deflection() + by_shear.subs(known),
                       "M_y": self.beam.bending_moment() * EI, "V_z": self.beam.shear_force() * EI}
        self.turn = -self.beam.slope()

    def at(self, what, place):
        curve = self.turn if what == "ry" else self.curves[what]
        return float(curve.subs(self.x, place))


def loads_text(load, places, names):
    """A load on the members between `places`, in their own coordinates."""
    kind, at, *rest = load
    i = max(k for k, place in enumerate(places[:-1]) if place <= at)
    if kind == "force":
        return [f"{{member: {names[i]}, at: {at - places[i]} mm, force: [0 N, 0 N, {rest[0]} N]}}"]
    if kind == "couple":
        return [f"{{member: {names[i]}, at: {at - places[i]} mm, moment: [0 N m, {rest[0]} N mm, 0 N m]}}"]
    to, q0, q1 = rest
    parts = []
    for i, (a, b) in enumerate(zip(places, places[1:])):
        x0, x1 = max(a, at), min(b, to)
        if x0 < x1:
            q = [float(q0 + Fraction((q1 - q0) * (x - at), to - at)) for x in (x0, x1)]
            parts.append(f"{{member: {names[i]}, from: {x0 - a} mm, to: {x1 - a} mm, "
                         f"line: [0 N/mm, 0 N/mm, {q[0]!r} N/mm], line_end: [0 N/mm, 0 N/mm, {q[1]!r} N/mm]}}")
    return parts


def support_text(x, z, ry):
    parts = ["x: held"] if x == 0 else []
    if z is not None:
        parts.append("z: held" if z == held else f"z: {z} N/mm" if z > 0 else f"z: {{moved: {z} mm}}")
    if ry is not None:
        parts.append("ry: held" if ry == held else f"ry: {ry} N mm/rad")
    return "{" + ", ".join(parts) + "}"


def largest(values):
    return max(abs(value) for value in values) or 1.0


class Case:
    """All beams beside each other in one frame case."""

    def __init__(self):
        self.nodes, self.members, self.supports, self.loads = "", "", "", ""
        self.wanted = []

    def add(self, key, beam, shears):
        length, supports, loads = beam
        solved = Solved(length, supports, loads, shears)
        places = sorted({0, length, *(x for x, *_ in supports)})
        nodes = [f"n{key}-{x}" for x in places]
        names = [f"m{key}-{x}" for x in places[:-1]]
        self.nodes += "".join(f"  {n}: [{x} mm, {100 * key} mm, 0 mm]\n" for n, x in zip(nodes, places))
        self.members += "".join(
            f"  {m}: {{from: {a}, to: {b}, section: {'sheared' if shears else 'slender'}}}\n"
            for m, a, b in zip(names, nodes, nodes[1:]))
        self.supports += "".join(f"  {nodes[places.index(x)]}: {support_text(x, z, ry)}\n"
                                 for x, z, ry in supports)
        if all(x != 0 for x, *_ in supports):
            self.supports += f"  {nodes[0]}: [x]\n"
        for load in loads:
            self.loads += "".join(f"      - {text}\n" for text in loads_text(load, places, names))
        self.want(solved, places, nodes, names, supports, length)

    def want(self, solved, places, nodes, names, supports, length):
        inner = [(i, a + (b - a) * share) for i, (a, b) in enumerate(zip(places, places[1:]))
                 for share in (Rational(1, 7), Rational(3, 8), Rational(13, 19), Rational(12, 13))]
        for what, unit in (("w", "mm"), ("M_y", "N mm"), ("V_z", "N")):
            values = [solved.at(what, x) for _, x in inner]
            scale = largest(values)
            self.wanted += [Wanted(
                f"of: force, under: load, member: {names[i]}, at: {float(x - places[i])!r} mm, "
                f"component: {what}", value, unit, part * scale, scale)
                for (i, x), value in zip(inner, values)]
        turns = [solved.at("ry", x) for x in places]
        scale = max(largest(turns), largest([solved.at("w", x) for _, x in inner]) / length)
        self.wanted += [Wanted(f"of: displacement, under: load, node: {node}, freedom: ry", value, "rad",
                               part * scale, scale) for node, value in zip(nodes, turns)]
        for (i, freedom), value in solved.reactions.items():
            scale = largest(v for (_, f), v in solved.reactions.items() if f == freedom)
            self.wanted.append(Wanted(
                f"of: reaction, under: load, support: {nodes[places.index(supports[i][0])]}.{freedom}",
                float(value), "N mm" if freedom == "ry" else "N", part * scale, scale))

    def text(self):
        return (f"frame_case: 1\ntitle: beams\nplane: true\nmaterials:\n  timber: {{E: {E} N/mm2, G: {G} N/mm2}}\n"
                f"sections:\n  sheared: {width} x {depth} mm\n"
                f"  slender: {{rectangle: {width} x {depth} mm, shear: none}}\n"
                f"nodes:\n{self.nodes}members:\n{self.members}supports:\n{self.supports}"
                f"cases:\n  load:\n    loads:\n{self.loads}")


def run(program, root):
    case = Case()
    for key, beam in enumerate(beams.values()):
        for shears in (False, True):
            case.add(2 * key + shears, beam, shears)
    for w in case.wanted:  # the comparison is in SI
        factor = {"mm": 1e-3, "N mm": 1e-3}.get(w.unit, 1.0)
        w.value, w.allowed, w.scale = (float(v) * factor for v in (w.value, w.allowed, w.scale))
        w.unit = {"mm": "m", "N mm": "N m"}.get(w.unit, w.unit)
    return [summed(f"{len(beams)} beams with and without shear: movements, moments, shears, reactions",
                   "SymPy's beams, in fractions", why, compare(program, case.text(), case.wanted))]
