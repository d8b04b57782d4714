"""A frame case whose members are cut into equal pieces, as `divide: n` asks."""

import copy

import numpy as np

from case_file import si, three


def piece_loads(load, k, names, l):
    """The part of a member's load that falls on each of its pieces of length l."""
    name = load["member"]
    if "line" not in load:
        x = si(load["at"])
        i = min(int(x / l), k - 1)
        return [{**load, "member": names[i], "at": x - i * l}]
    x0, x1 = si(load.get("from", 0.0)), si(load.get("to", k * l))
    q0 = np.array(three(load["line"]))
    q1 = np.array(three(load.get("line_end", load["line"])))
    parts = []
    for i in range(k):
        a, b = max(x0, i * l), min(x1, (i + 1) * l)
        if b - a > 1e-12 * l:
            at = lambda x: list(q0 + (q1 - q0) * (x - x0) / (x1 - x0))
            parts.append({"member": names[i], "from": a - i * l, "to": b - i * l, "line": at(a),
                          "line_end": at(b)})
    return parts


def divided(case):
    k = case.get("divide", 1)
    if k == 1:
        return case
    out = copy.deepcopy(case)
    out["members"], pieces, lengths = {}, {}, {}
    for name, member in case["members"].items():
        ends = [np.array(three(case["nodes"][member[end]])) + three(member.get(offset, [0, 0, 0]))
                for end, offset in (("from", "start_offset"), ("to", "end_offset"))]
        inner = [f"{name}/{i}" for i in range(1, k)]
        for i, node in enumerate(inner, 1):
            out["nodes"][node] = list(ends[0] + (ends[1] - ends[0]) * i / k)
        nodes = [member["from"], *inner, member["to"]]
        pieces[name] = [f"{name}/{i}" for i in range(k)]
        lengths[name] = np.linalg.norm(ends[1] - ends[0]) / k
        for i, piece in enumerate(pieces[name]):
            drop = {"start_offset", "start"} if i else set()
            drop |= {"end_offset", "end"} if i < k - 1 else set()
            kept = {key: value for key, value in member.items() if key not in drop}
            out["members"][piece] = {**kept, "from": nodes[i], "to": nodes[i + 1]}
    for loading in out.get("cases", {}).values():
        loading["loads"] = [part for load in loading.get("loads", []) for part in (
            piece_loads(load, k, pieces[load["member"]], lengths[load["member"]])
            if "member" in load else [load])]
    return out
