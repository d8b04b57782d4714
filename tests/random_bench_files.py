"""Draws bench files by chance, from what docs/bench-file.md allows, and writes them as YAML.

Two of three are sturdy: of anything at all most fail everywhere, and of those little is learnt.

A bench is a dictionary as YAML would give it: groups are dictionaries, lists are lists, all else is text.
The same seed, number and attempt give the same bench with every version of Python.
"""

import random

SOFTWOOD = ["C16", "C16", "C18", "C24", "C24", "C30", "pine", ""]
OTHER_WOOD = ["D18", "D30", "oak", "GL24h"]
SIZES = ["38 x 63 mm", "38 x 89 mm", "38 x 89 mm", "38 x 114 mm", "45 x 70 mm", "45 x 95 mm", "45 x 95 mm",
         "45 x 120 mm", "47 x 97 mm", "60 x 80 mm", "47 x 72 mm", "2x3", "2x4", "63 x 38 mm"]
DEEP_SIZES = ["38 x 140 mm", "45 x 120 mm", "45 x 145 mm", "47 x 147 mm", "38 x 114 mm", "2x6"]
THIN_SIZES = ["38 x 63 mm", "45 x 70 mm", "19 x 89 mm", "38 x 89 mm", "1x4", "45 x 95 mm"]
SQUARES = ["70 x 70 mm", "90 x 90 mm", "60 x 60 mm", "80 x 80 mm", "4x4", "45 x 95 mm", "38 x 140 mm"]
GRADES = ["SPF No.2", "DF-L No.2", "Hem-Fir No.2", "SYP No.2"]
JOINTS = ["corner brackets", "corner brackets", "two corner brackets", "two corner brackets",
          "ribbed corner brackets", "ribbed corner brackets", "bolted lap", "screwed lap", "plywood gusset",
          "end-grain screws", "pocket screws", "half lap", "glued tenon", "unknown"]
STURDY_SIZES = ["38 x 89 mm", "45 x 95 mm", "45 x 120 mm", "47 x 97 mm", "60 x 100 mm", "38 x 114 mm", "2x4"]
STURDY_JOINTS = ["two corner brackets", "two corner brackets", "ribbed corner brackets", "ribbed corner brackets",
                 "bolted lap", "plywood gusset", "half lap", "glued tenon"]
LAPS = ("bolted lap", "screwed lap")
TOPS = ["15 mm spruce plywood", "18 mm spruce plywood", "21 mm spruce plywood", "24 mm spruce plywood",
        "18 mm birch plywood", "24 mm birch plywood", "30 mm birch plywood", "21 mm conifer plywood",
        "27 mm conifer plywood", "18 mm OSB/3", "22 mm OSB/3", "25 mm OSB/3", "25 mm MDF",
        "3/4 in spruce plywood", "3/4 in birch plywood"]
SHELVES = ["9 mm spruce plywood", "12 mm spruce plywood", "12 mm birch plywood", "18 mm OSB/3", "12 mm MDF"]
# Kind, and how heavy it may be in kg.
MACHINES = [("drill press", 45, 80), ("small drill press", 15, 35), ("bench grinder", 15, 25),
            ("small bench grinder", 8, 12), ("mini metal lathe", 30, 45), ("metal lathe", 100, 200),
            ("midi wood lathe", 25, 60), ("wood lathe", 80, 150), ("mini mill", 50, 70),
            ("bench mill", 90, 180), ("band saw", 20, 40), ("mitre saw", 10, 30), ("table saw", 18, 32),
            ("scroll saw", 12, 25), ("air compressor", 15, 40), ("arbor press", 15, 20),
            ("large arbor press", 40, 60), ("machine", 20, 120), ("micro metal lathe", 9, 14)]


class Draw:
    """Chance, and the few words in which a builder would ask it."""

    def __init__(self, key):
        self.chance = random.Random(key)
        self.is_inch = self.often(0.2)
        self.is_sturdy = self.often(0.67)

    def often(self, share):
        return self.chance.random() < share

    def one(self, choices):
        return self.chance.choice(choices)

    def whole(self, low, high, step=1):
        return step * self.chance.randint(low // step, high // step)

    def length(self, low, high, step=10):
        """Of whole steps in mm, or of half inches."""
        mm = self.whole(low, high, step)
        return f"{round(2 * mm / 25.4) / 2:g} in" if self.is_inch else f"{mm} mm"

    def place(self, share):
        """Somewhere on the top, as [along, back], by a share of its length and depth in mm."""
        return [self.length(int(0.12 * share[0]), int(0.88 * share[0])),
                self.length(int(0.3 * share[1]), int(0.7 * share[1]))]


def timber(draw):
    sizes = STURDY_SIZES if draw.is_sturdy else SIZES
    if draw.often(0.1):
        return f"{draw.one(OTHER_WOOD)} {draw.one(sizes)}"
    return f"{draw.one(SOFTWOOD)} {draw.one(sizes)}".strip()


def timber_group(draw):
    """Values of one's own in place of the class's."""
    return {"class": draw.one(["C16", "C24"]), "section": draw.one(SIZES),
            "E": f"{draw.one(['7.2', '9.5', '10.5', '12'])} GPa", "density": f"{draw.whole(350, 480, 10)} kg/m3"}


def joint(draw):
    kind = draw.one(STURDY_JOINTS if draw.is_sturdy else JOINTS)
    if not draw.often(0.2):
        return kind
    group = {"kind": kind}
    if "brackets" in kind:
        group.update(draw.one([{"thickness": "4 mm"}, {"leg": "120 mm", "fasteners": "4"}, {"thickness": "2 mm"},
                               {"screws": "5 x 35 mm", "thickness": "4 mm"}]))
    elif kind == "bolted lap":
        group["bolts"] = draw.one(["M8", "M10"])
    elif kind == "end-grain screws":
        group["screws"] = "6 x 140 mm"
    else:
        group["stiffness"] = {"bend": f"{draw.whole(1, 20)} kN m/rad"}
    return group


def posts(draw, length):
    if draw.often(0.45):
        return None
    group = {}
    if length > 1500 and draw.often(0.4):
        # The last post stands at the end: the usual overhang of the top is 25 mm. Others are refused and drawn again.
        n, last = (2 if length < 2200 else draw.one([2, 3])), length - 50
        group["stations"] = [f"{round(i * last / n)} mm" for i in range(n + 1)]
    if draw.often(0.6):
        group["section"] = draw.one(SQUARES)
    if draw.often(0.2):
        group["turned"] = "yes"
    return group["section"] if list(group) == ["section"] and draw.often(0.5) else group or None


def rails(draw, main_joint):
    if draw.often(0.4) and main_joint not in LAPS:
        return None
    group = {}
    if draw.often(0.25):
        return draw.one(SIZES + DEEP_SIZES)
    if draw.often(0.5):
        group["top"] = draw.one([{"section": draw.one(DEEP_SIZES)}, {"long": {"section": draw.one(DEEP_SIZES)}},
                                 {"front": {"section": draw.one(DEEP_SIZES)}}, {"joint": joint(draw)},
                                 {"short": {"section": draw.one(THIN_SIZES)}}])
    if draw.often(0.6):
        group["lower"] = draw.one(["none", {"underside": draw.length(90, 320)}, {"front": "none"},
                                   {"section": draw.one(THIN_SIZES)}, {"underside": "200 mm", "front": "none"},
                                   {"joint": joint(draw)}])
    if draw.often(0.06):
        group["laid"] = "flat"
    if draw.often(0.08):
        group["seat"] = draw.one(["on post face", "notched", "on top"])
    if draw.often(0.1):
        group["more"] = [{"side": "back", "underside": draw.length(450, 550), "name": "tool rail"}]
    return group or None


def bearers(draw, length, has_shelf):
    if not draw.often(0.4):
        return None
    group = draw.one([{"every": draw.length(350, 700)}, {"count": str(draw.whole(1, 3))},
                      {"at": [draw.length(int(0.3 * length), int(0.7 * length))]},
                      {"every": "400 mm", "section": draw.one(THIN_SIZES)}, {"count": "1", "run": "along"}])
    if draw.often(0.2):
        group = {**group, "joint": joint(draw)}
    if has_shelf and draw.often(0.2):
        group = [group, {"count": "1", "under": "shelf"}]
    return group


def braces(draw):
    if not draw.often(0.6 if draw.is_sturdy else 0.3):
        return None
    one = {"side": "back", "kind": draw.one(["diagonal", "cross", "knee"])}
    if draw.often(0.4):
        one["section"] = draw.one(THIN_SIZES)
    if draw.often(0.2):
        one["joint"] = draw.one(["bolted lap", "screwed lap"])
    if draw.often(0.35):
        return one
    both = [{"side": side, "kind": draw.one(["diagonal", "diagonal", "knee"])} for side in ("left", "right")]
    return draw.one([[one] + both, both, [one]])


def overhang(draw):
    if draw.often(0.5):
        return draw.length(0, 80, 5) if not draw.is_inch else "2 in"
    return {side: draw.one(["0 mm", "25 mm", "40 mm", "80 mm"]) for side in ("front", "back", "left", "right")}


def cut_out(draw, length, depth):
    x, y = draw.whole(int(0.2 * length), int(0.6 * length), 10), draw.whole(int(0.2 * depth), int(0.5 * depth), 10)
    return [{"from": [f"{x} mm", f"{y} mm"],
             "to": [f"{x + draw.whole(100, 250, 10)} mm", f"{y + draw.whole(80, 160, 10)} mm"]}]


def top(draw, length, depth):
    sheet = draw.one(TOPS)
    if draw.often(0.35):
        return sheet
    group = {"sheet": sheet}
    if draw.often(0.25):
        group.update({"layers": "2", "layers_joined": draw.one(["loose", "screwed", "glued"])})
    if draw.often(0.35):
        group["grain"] = draw.one(["along", "across"])
    if draw.often(0.25):
        group["fixed"] = draw.one(["screwed", "glued", "loose"])
    if draw.often(0.3):
        group["load"] = draw.one(["none", f"{draw.whole(10, 80, 5)} kg", f"{draw.whole(10, 60, 5)} kg/m2"])
    if draw.often(0.25):
        group["overhang"] = overhang(draw)
    if draw.often(0.1):
        group["cut_outs"] = cut_out(draw, length, depth)
    if draw.often(0.1):
        group["screws"] = {"size": "5 x 60 mm", "every": "200 mm"}
    if draw.often(0.05):
        group["sheet"] = {"family": "spruce plywood", "thickness": "20 mm",
                          "E": {"along": "9 GPa", "across": "4 GPa"}, "G": "0.5 GPa"}
    return group


def shelf(draw, length):
    if draw.often(0.4):
        return None
    sheet = draw.one(SHELVES)
    if draw.often(0.4):
        return sheet
    stored = draw.one(["none", f"{draw.whole(20, 80, 10)} kg/m2", f"{draw.whole(20, 90, 10)} kg"])
    group = {"sheet": sheet, "load": stored}
    if draw.often(0.15):
        group.update({"from": "0 mm", "to": f"{round(0.5 * length)} mm"})
    if draw.often(0.2):
        group["grain"] = draw.one(["along", "across"])
    return group


def upright_sheets(draw):
    if not draw.often(0.2):
        return None
    sides = draw.one([["back"], ["left", "right"], ["back", "left", "right"]])
    sheet = draw.one(["9 mm spruce plywood", "12 mm OSB/3", "6.5 mm birch plywood"])
    return [{"side": side, "sheet": sheet} for side in sides]


def feet(draw):
    if draw.often(0.65):
        return draw.one([None, None, "none", "M8", "M10", "M12", "M16"])
    short = {draw.one(["front-left post", "back-right post"]): {"height_error": "2 mm"}}
    return draw.one([{"thread": "M12", "extension": draw.length(15, 60, 5)}, {"each": short}, {"bare": "yes"},
                     {"material": draw.one(["rubber", "steel", "timber"])}, {"pad": "80 mm", "material": "rubber"},
                     {"castor": draw.one(["50 mm", "75 mm", "100 mm"])}, {"thread": "M12", "fixed": "yes"}])


def floor(draw):
    surface = draw.one(["concrete", "painted concrete", "tiles", "timber floor", "dusty concrete"])
    if draw.often(0.5):
        return None if draw.often(0.6) else surface
    group = {"surface": surface}
    if draw.often(0.4):
        group["fall"] = f"1 in {draw.one([60, 80, 100])} to {draw.one(['back', 'front', 'left', 'right'])}"
    if draw.often(0.2):
        group["friction"] = draw.one(["0.3", "0.5"])
    return group


def wall(draw, length):
    if draw.often(0.65):
        return None
    return {"rail": "back top rail", "at": [f"{round(0.15 * length)} mm", f"{round(0.75 * length)} mm"]}


def machine(draw, kind, least, most, area):
    one = {"kind": kind, "at": draw.place(area)}
    if draw.often(0.6 if least >= 80 else 0.15):
        one["at"] = "middle"
    if kind == "machine" or draw.often(0.6):
        kg = draw.whole(least, most)
        one["mass"] = f"{round(kg / 0.4536)} lb" if draw.is_inch else f"{kg} kg"
    if draw.often(0.5):
        one["mounting"] = draw.one(["bolted", "standing"])
    if draw.often(0.15):
        one["turned"] = "yes"
    if draw.often(0.15):
        one["centre"] = [f"{draw.whole(-40, 40, 10)} mm", f"{draw.whole(-60, 60, 10)} mm"]
    if draw.often(0.15):
        one["centre_height"] = draw.length(150, 500)
    if kind == "machine":
        one["pads"] = f"{draw.whole(150, 400, 10)} x {draw.whole(150, 350, 10)} mm"
    return one


def machines(draw, length, depth, has_shelf):
    light = [kind for kind in MACHINES if kind[1] < 45]
    kinds = draw.chance.sample(light if draw.often(0.7) else MACHINES, draw.one([1, 1, 2, 2, 3]))
    found = [machine(draw, *kind, (length, depth)) for kind in kinds]
    if has_shelf and len(found) > 1 and draw.often(0.1):
        found[-1].update({"sheet": "shelf", "at": "middle"})
    return found


def loads(draw, length, depth):
    if draw.often(0.85):
        return None
    what = draw.one([{"down": f"{draw.whole(200, 800, 50)} N"}, {"mass": f"{draw.whole(10, 40)} kg"},
                     {"force": ["0 N", f"{draw.whole(50, 200, 10)} N", "-50 N"]}])
    return [{"at": draw.place((length, depth)), **what}]


def at_a_ledger(draw, bench):
    """A bench hung on the wall has neither shelf nor upright sheets, and its joints are simple."""
    for key in ("shelf", "sheets", "braces", "wall", "rails"):
        bench.pop(key, None)
    bench["wall"] = {"ledger": draw.one(DEEP_SIZES), "screws_every": draw.length(300, 500, 50)}
    bench["joints"] = draw.one(["corner brackets", "two corner brackets", "ribbed corner brackets"])
    if draw.often(0.3):
        bench["braces"] = {"side": "front", "kind": "diagonal"}
    return bench


def in_us_grades(draw, bench):
    grade = f"{draw.one(GRADES)} {draw.one(['2x4', '2x4', '2x6', '2x3'])}"
    return {**bench, "rules": "allowable stress", "timber": grade}


def size(draw):
    length, height = draw.whole(900, 2400 if draw.is_sturdy else 2700, 10), draw.whole(700, 1000, 10)
    depth = draw.whole(580 if draw.is_sturdy else 450, 900, 10)
    if draw.is_inch:
        return f"{round(length / 25.4)} x {round(depth / 25.4)} x {round(height / 25.4)} in", length, depth
    return f"{length} x {depth} x {height} mm", length, depth


def bench(seed, number, attempt):
    """One bench, as it would stand in a file; the program may still refuse it."""
    draw = Draw(f"{seed}/{number}/{attempt}")
    sized, length, depth = size(draw)
    made = {"standtrue": "1", "title": f"Bench {number} of seed {seed}", "size": sized}
    made["timber"] = timber_group(draw) if draw.often(0.1) else timber(draw)
    made["joints"] = joint(draw) if draw.often(0.9) else None
    made["posts"] = posts(draw, length)
    made["rails"] = rails(draw, made["joints"])
    made["top"] = top(draw, length, depth)
    made["shelf"] = shelf(draw, length)
    made["bearers"] = bearers(draw, length, made["shelf"] is not None)
    made["braces"] = braces(draw)
    made["sheets"] = upright_sheets(draw)
    made["feet"] = feet(draw)
    made["floor"] = floor(draw)
    made["wall"] = wall(draw, length)
    made["machines"] = machines(draw, length, depth, made["shelf"] is not None)
    made["vice"] = "vice" if draw.often(0.2) else None
    made["loads"] = loads(draw, length, depth)
    made["duty"] = draw.one([None, "light", "general", "planing", "metal machines"])
    made["air"] = draw.one([None, None, None, "heated", "unheated", "outdoors"])
    made["bought"] = "damp" if draw.often(0.1) else None
    made["analysis"] = {"sheets": draw.one(["strip", "none"])} if draw.often(0.06) else None
    made = {key: value for key, value in made.items() if value is not None}
    if draw.often(0.08):
        made = at_a_ledger(draw, made)
    return in_us_grades(draw, made) if draw.often(0.1) else made


def flow(value):
    """On one line."""
    if isinstance(value, dict):
        return "{" + ", ".join(f"{key}: {flow(item)}" for key, item in value.items()) + "}"
    if isinstance(value, list):
        return "[" + ", ".join(flow(item) for item in value) + "]"
    return str(value)


def yaml(bench):
    return "".join(f"{key}: {flow(value)}\n" for key, value in bench.items())


class Flow:
    """Reads what `flow` writes: the program says its changes in the same form."""

    def __init__(self, text):
        self.text, self.at = text, 0

    def skip(self):
        while self.at < len(self.text) and self.text[self.at] == " ":
            self.at += 1

    def value(self):
        self.skip()
        if self.text[self.at] == "[":
            return self.items("]", self.value)
        if self.text[self.at] == "{":
            return dict(self.items("}", self.pair))
        return self.word(",]}")

    def items(self, end, item):
        found = []
        self.at += 1
        self.skip()
        while self.text[self.at] != end:
            found.append(item())
            self.skip()
            if self.text[self.at] == ",":
                self.at += 1
                self.skip()
        self.at += 1
        return found

    def pair(self):
        self.skip()
        key = self.word(":")
        self.at += 1
        return key, self.value()

    def word(self, ends):
        start = self.at
        while self.at < len(self.text) and self.text[self.at] not in ends:
            self.at += 1
        return self.text[start : self.at].strip()


def changes(write):
    """Of each line `key: value` the key and the value."""
    return [(line.split(":", 1)[0].strip(), Flow(line.split(":", 1)[1]).value()) for line in write.splitlines()]
