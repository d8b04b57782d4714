"""What a frame solved in Python says of a loading, as numbers to ask the program for."""

import json

import numpy as np

from case_file import Wanted
from frame import freedoms

components = ("N", "V_y", "V_z", "T", "M_y", "M_z")


def quoted(name):
    return json.dumps(name, ensure_ascii=False)


def largest(values):
    return max((abs(value) for value in values), default=0.0)


def longest(frame):
    return max(member.L for member in frame.members.values())


def both_or_one(straight, turning, length):
    """Sizes of movements and rotations, or of moments and forces; where one of them is but rounding
    it is measured by the other over the length."""
    size = max(straight, turning * length) or 1.0
    return (straight if straight > 1e-9 * size else size,
            turning if turning * length > 1e-9 * size else size / length)


def movements(frame, under, u, part):
    """All nodes, all six; `part` of the largest movement (rotation) is allowed."""
    asked, names = [], list(frame.nodes)
    places = [[i for i in range(6 * len(names)) if (i % 6 >= 3) == turns] for turns in (False, True)]
    sizes = both_or_one(largest(u[places[0]]), largest(u[places[1]]), longest(frame))
    for unit, at, scale in zip(("m", "rad"), places, sizes):
        asked += [Wanted(f"of: displacement, under: {quoted(under)}, node: {quoted(names[i // 6])}, "
                         f"freedom: {freedoms[i % 6]}", float(u[i]), unit, part * scale, scale)
                  for i in at]
    return asked


def largest_forces(frame, forces, reactions):
    """Of forces and of moments."""
    turning = [frame.turns(name) for name in reactions]
    values = list(reactions.values())
    force, moment = (largest([x for f in forces for x in np.reshape(f, (4, 3))[turns::2].ravel()]
                             + [x for x, t in zip(values, turning) if t == turns])
                     for turns in (False, True))
    moment, force = both_or_one(moment, force, longest(frame))
    return force, moment


def support_forces(frame, under, reactions, scales, part):
    return [Wanted(f"of: reaction, under: {quoted(under)}, support: {quoted(name)}", float(value),
                   "N m" if frame.turns(name) else "N", part * scales[frame.turns(name)],
                   scales[frame.turns(name)])
            for name, value in reactions.items()]


def end_forces(frame, under, forces, scales, part):
    """Internal forces at both ends: what acts on the face towards +x."""
    asked = []
    for (name, member), f in zip(frame.members.items(), forces):
        for end, (at, side, sign) in enumerate(((0.0, "right", -1.0), (member.L, "left", 1.0))):
            for i, component in enumerate(components):
                scale = scales[i >= 3]
                asked.append(Wanted(
                    f"of: force, under: {quoted(under)}, member: {quoted(name)}, at: {at!r} m, "
                    f"side: {side}, component: {component}", float(sign * f[6 * end + i]),
                    "N m" if i >= 3 else "N", part * scale, scale))
    return asked
