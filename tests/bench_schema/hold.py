#!/usr/bin/env python3
"""Holds docs/bench.schema.json to what the program reads, both ways.

    python3 tests/bench_schema/hold.py PROGRAM

- the file is what schema.py makes;
- every bench of examples, pages and tests that the program takes fits the schema;
- broken files of tests/messages that a schema can know as broken do not fit it;
- in every group of those benches the program is asked for its keys, by a key that it can not know: the
  schema has these and no others, each with a line of description, each on the page;
- quantities in many spellings: what the program takes, the schema takes.

Exit code 77 without jsonschema or PyYAML (Debian: python3-jsonschema python3-yaml).
"""

import itertools
import json
import re
import sys

try:
    import jsonschema
    import yaml  # noqa: F401, the other modules want it
except ImportError as missing:
    print(f"bench_schema: skipped, {missing}; ./setup.sh --developer installs what it needs")
    sys.exit(77)

import corpus
import schema
from corpus import STRANGE, strange
from words import ROOT, UNITS

SCHEMA = json.loads((ROOT / "docs" / "bench.schema.json").read_text())
problems = []


def check(good, what):
    if not good:
        problems.append(what)


def fault_of(data, against=SCHEMA):
    found = jsonschema.Draft7Validator(against).iter_errors(data)
    worst = jsonschema.exceptions.best_match(found)
    return f"{'.'.join(map(str, worst.absolute_path))}: {worst.message[:200]}" if worst else None


# --- Groups of keys --------------------------------------------------------------------------------

def alternatives(node):
    """The schema itself and all that it refers to or chooses from."""
    if not isinstance(node, dict):
        return
    if "$ref" in node:
        target = SCHEMA
        for step in node["$ref"].split("/")[1:]:
            target = target[step]
        yield from alternatives(target)
    yield node
    for key in ("anyOf", "allOf"):
        for one in node.get(key, []):
            yield from alternatives(one)


def inside(nodes, step):
    for node in nodes:
        if isinstance(step, int):
            below = node.get("items")
        else:
            below = node.get("properties", {}).get(step, node.get("additionalProperties"))
        yield from alternatives(below)


def groups_in(data, nodes, path=""):
    """Path and groups of the schema, for every group of a bench."""
    nodes = list(nodes)
    if isinstance(data, dict):
        of = {id(node): node for node in nodes if "properties" in node or "additionalProperties" in node}
        yield path, list(of.values())
        for key, value in data.items():
            yield from groups_in(value, inside(nodes, key), f"{path}.{key}" if path else key)
    if isinstance(data, list):
        for i, value in enumerate(data):
            yield from groups_in(value, inside(nodes, i), f"{path}[{i + 1}]")


def told_keys(program, data):
    """By path: the keys that the program knows there."""
    told = {}
    asked = [("parts", {key: strange(value) for key, value in data.items() if key != "variants"})]
    asked[0][1][STRANGE] = "1"
    if data.get("readings"):  # read apart
        asked.append(("prove", {**data, "readings": strange(data["readings"])}))
    for command, marked in asked:
        faults = program.faults(corpus.dump(marked), command) or ""
        for path, keys in re.findall(rf"^  at (?:(.*)\.)?{STRANGE}; write, for example: (.*)$", faults, re.M):
            told[path] = set(re.split(r", | or ", keys))
    return told


def hold_keys(program, benches):
    reached, known = {}, {}
    for name, data in benches:
        told = told_keys(program, data)
        for path, nodes in groups_in(data, [SCHEMA]):
            if path not in told:
                continue  # read in another way, or its keys are names
            closed = [node for node in nodes if node.get("additionalProperties") is False]
            if not closed:
                continue
            has = {key for node in closed for key in node["properties"]}
            check(told[path] <= has,
                  f"{name}, at {path or 'its top'}: the schema lacks {sorted(told[path] - has)}")
            for node in closed:
                reached[id(node)] = node
                known.setdefault(id(node), set()).update(told[path])
    for node in all_groups():
        which = f"the group '{node['description']}'"
        if id(node) not in reached:
            problems.append(f"no bench has {which}: give one in every_key.yaml")
            continue
        unknown = set(node["properties"]) - known[id(node)]
        check(not unknown, f"{which}: the program does not know {sorted(unknown)}")
    return len(reached), len(set().union(*known.values()))


def all_groups():
    """Closed groups of keys, but for the two that stand for the whole bench."""
    out, seen = [], set()

    def walk(node):
        if isinstance(node, list):
            for one in node:
                walk(one)
        if isinstance(node, dict) and id(node) not in seen:
            seen.add(id(node))
            if node.get("additionalProperties") is False and "description" in node:
                out.append(node)
            for value in node.values():
                walk(value)

    walk(SCHEMA)
    return [node for node in out if node is not SCHEMA["definitions"]["change"]]


def hold_words():
    """Each key has its line, and stands on the page."""
    page = (ROOT / "docs" / "bench-file.md").read_text()
    fenced = re.compile(r"^```.*?^```", re.M | re.S)
    code = " ".join(fenced.findall(page) + re.findall(r"`[^`]+`", fenced.sub("", page)))
    for node in all_groups():
        for key, value in node["properties"].items():
            check(value.get("description"), f"the key '{key}' of '{node['description']}' says nothing")
            check(re.search(rf"\b{re.escape(key)}\b", code), f"docs/bench-file.md lacks the key '{key}'")


# --- Files -----------------------------------------------------------------------------------------

def hold_benches(benches):
    for name, data in benches:
        fault = fault_of(data)
        check(fault is None, f"{name} does not fit: {fault}\n{corpus.dump(data) if fault else ''}")


def hold_blocks():
    """Blocks of the page that are no whole bench fit as what a variant may change."""
    change = {**SCHEMA, "required": [], "else": {}}
    for block in corpus.blocks(ROOT / "docs" / "bench-file.md"):
        data = corpus.load(block)
        if set(data) == {"sheet"}:
            data = {"top": data}
        fault = fault_of(data, change)
        check(fault is None, f"docs/bench-file.md, a block does not fit: {fault}\n{block}")


# What of a fault no schema can know, or none but one that would be stricter elsewhere: geometry, names of
# parts, what stands beside what.
KNOWABLE = re.compile(r"is not a key here|stands where|has no unit|has a decimal comma|has no place beside|"
                      r"is no (joint|machine|duty|floor|foot|bolt|vice) that I know|is not known here|"
                      r"is not .* lengths joined|^'(size|timber|top|standtrue)' is missing", re.M)
NAMES = ("bench_stored_twice.yaml",)  # the key that is not known would be the name of a sheet


def hold_messages(program):
    known = 0
    for path in sorted((ROOT / "tests" / "messages").glob("bench_*.yaml")):
        told = path.with_suffix(".txt").read_text()
        knowable = KNOWABLE.search(re.sub(r"^\S+:\d+:\d+: ", "", told, flags=re.M))
        if not program.faults(path.read_text()) or not knowable or path.name in NAMES:
            continue
        known += 1
        check(fault_of(corpus.load(path.read_text())), f"{path.name} fits, though {knowable[0]!r}")
    check(known >= 8, "hardly a broken file is one that a schema can know")
    return known


# --- Quantities ------------------------------------------------------------------------------------

NUMBERS = ["60", "1.5", ".5", "1/2", "35 1/2", "+2", "1e2", "2.5E-1", "0"]
COMPOUND = {
    "density": ["kg/m3", "kg / m^3", "lb/ft\u00b3", "g/cm3"], "stress": ["N/mm2", "kN/m^2", "lbf/in2"],
    "area_load": ["kg/m2", "kN/m\u00b2", "lb/ft2"], "moment": ["N m", "kN*m", "lbf ft", "N\u00b7m", "kN-m"],
    "linear_stiffness": ["N/mm", "kN / m", "lb/in"], "speed": ["1/min", "/s"], "length": ["mm2/mm"],
    "rotational_stiffness": ["kN m/rad", "N*m/rad", "N m / deg", "lb ft/deg"], "mass": ["kg m/m"],
    "force": ["kg m/s2", "N/mm2 mm2"]}
SIZES = ["300 x 200 mm", "300mm x200mm", "12 in x 8 in", "1 ft 2 in x 8 1/2\"", "300X200 mm", ".3 \u00d7 .2 m"]
SUMS = ["6 ft 2 in", "6' 2 1/2\"", "6ft2in", "5 lb 3 oz", "1 m 20 cm"]
WHERE = {  # where a text of each kind may stand: in the file, and in the schema
    "length": ("machines", "centre_height"), "mass": ("machines", "mass"), "force": ("loads", "down"),
    "speed": ("machines", "speeds"), "rotational_stiffness": ("machines", "bed_twist"),
    "density": ("bearers", "timber.density"), "stress": ("bearers", "timber.E"),
    "moment": ("bearers", "joint.resistance.moment"), "area_load": ("shelf", "load"),
    "linear_stiffness": ("bearers", "joint.stiffness.along")}
STANDS = {"machines": {"kind": "machine", "at": "middle"}, "loads": {"at": "middle"}, "bearers": {"at": "900 mm"},
          "shelf": {"sheet": "18 mm spruce plywood"}}


def item_of(kind, text):
    key, path = WHERE[kind]
    for step in reversed(path.split(".")):
        text = {step: text}
    return {**STANDS[key], **text}


def taken(program, kind, texts):
    """Those of the texts that the program takes for a quantity of that kind."""
    key = WHERE[kind][0]
    items = [item_of(kind, text) for text in texts]
    lines = [f"{name}: {json.dumps(value)}" for name, value in corpus.BASE.items()]
    lines.append(f"{key}:")
    first = len(lines) + 1
    lines += ["  - " + json.dumps(item, ensure_ascii=False) for item in items]
    faults = program.faults("\n".join(lines) + "\n") or ""
    wrong = r"^[^:\n]*:(\d+):\d+: .*(?:no unit|is not a|is wanted|unit is missing|after|divides|cut off|too much)"
    bad = {int(line) - first for line in re.findall(wrong, faults, re.M)}
    return [(text, item) for i, (text, item) in enumerate(zip(texts, items)) if i not in bad]


def hold_quantities(program):
    tried = 0
    for kind, units in UNITS.items():
        spellings = [*units, *COMPOUND.get(kind, [])]
        texts = [number + gap + unit for number, unit in itertools.product(NUMBERS, spellings)
                 for gap in (" ", "")] + SUMS
        for at in range(0, len(texts), 190):
            for text, item in taken(program, kind, texts[at:at + 190]):
                fault = fault_of({**corpus.BASE, WHERE[kind][0]: [item]})
                check(fault is None, f"the program takes '{text}' for a {kind}, the schema does not: {fault}")
                tried += 1
    for text in SIZES:
        data = {**corpus.BASE, "machines": [{**STANDS["machines"], "pads": text}]}
        check(program.takes(data) and fault_of(data) is None, f"'{text}' is no size")
    for kind in UNITS:
        for text in ("60", "60 parrots", "fast"):
            refused = fault_of({**corpus.BASE, WHERE[kind][0]: [item_of(kind, text)]})
            check(refused, f"the schema takes '{text}' for a {kind}")
    return tried


def main():
    program = corpus.Program(sys.argv[1])
    jsonschema.Draft7Validator.check_schema(SCHEMA)
    check(schema.FILE.read_text() == schema.text(), schema.STALE)
    benches = corpus.benches(program)
    hold_benches(benches)
    hold_blocks()
    broken = hold_messages(program)
    groups, keys = hold_keys(program, benches)
    hold_words()
    spellings = hold_quantities(program)
    print(f"bench_schema: {len(benches)} benches, {broken} broken files, {groups} groups of keys with {keys} "
          f"different keys, {spellings} spellings of quantities")
    if problems:
        sys.exit("\n".join(dict.fromkeys(problems)))


main()
