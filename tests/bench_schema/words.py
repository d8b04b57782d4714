"""Names and quantities of the bench file as JSON Schema, as wide as the program's own grammar or wider:
what the program takes, the schema must take."""

import pathlib
import re

import yaml

ROOT = pathlib.Path(__file__).resolve().parent.parent.parent
REFERENCE = ROOT / "reference"

# --- Names of the records --------------------------------------------------------------------------


def records(file, group):
    """Key and other names of each record, and its `fixed` values."""
    out = []
    for block in yaml.safe_load((REFERENCE / file).read_text())[group]:
        rows = [[cell.strip() for cell in line.split("|")] for line in block["table"].splitlines()]
        at = rows[0].index("names") if "names" in rows[0] else None
        for row in rows[1:]:
            if row[0] in ("unit", "source"):
                continue
            names = [] if at is None else [name.strip() for name in row[at].split(",") if name.strip()]
            out.append((row[0], names, block.get("fixed", {})))
    return out


def all_names(file, group):
    return [name for key, names, _ in records(file, group) for name in [key, *names]]


def spelled(name):
    """The program compares names by their letters: no case, spaces, hyphens, underscores or
    apostrophes. Capitals are let through elsewhere; these are the other ways."""
    parts = [re.escape(part).replace("/", "\\/") for part in re.split(r"[ _'-]+", name.lower())]
    return "[ _'-]*".join(part.replace("\\ ", " ") for part in parts)


def closed(description, keys, names=(), **more):
    """One of the keys, which an editor offers, or of the other names, which it lets through."""
    others = "|".join(spelled(name) for name in [*keys, *names])
    return {"description": description,
            "anyOf": [{"enum": list(keys)}, {"type": "string", "pattern": f"[A-Z]|^({others})$"}], **more}


def of_records(description, file, group):
    keys = [key for key, _, _ in records(file, group)]
    return closed(description, keys, [n for n in all_names(file, group) if n not in keys])


def word(description, *words):
    return {"description": description, "enum": list(words)}


# --- Numbers and units -----------------------------------------------------------------------------

NUMBER = r"[+-]?(\d+\s+\d+/\d+|\d+/\d+|(\d+(\.\d+)?|\.\d+)([eE][+-]?\d+)?)(?!\d|\.\d|\s*\d*/\d)"
LENGTHS = ["mm", "cm", "m", "km", "\u00b5m", "\u03bcm", "in", "inch", "inches", '"', "\u2033", "\u201d",
           "ft", "foot", "feet", "'", "\u2032", "\u2019"]
STRESSES = ["Pa", "kPa", "MPa", "GPa", "psi", "ksi", "psf"]
UNITS = {
    "length": LENGTHS,
    "mass": ["g", "kg", "t", "lb", "lbs", "oz"],
    "force": ["N", "daN", "kN", "MN", "lbf", "kip", "kips"],
    "moment": ["Nm", "kNm", "Nmm", "kNmm"],
    "stress": STRESSES,
    "area_load": STRESSES,
    "density": [],
    "linear_stiffness": [],
    "rotational_stiffness": [],
    "speed": ["Hz", "rpm"],
}
# Written with a product, a quotient or a power; which kind it is the program knows.
COMPOUND = "(?=.*[A-Za-z]).*([/*\u00b7.^\u00b2\u00b3\u2074-]|[A-Za-z]\\d|[A-Za-z]\\s+[A-Za-z]).*"


def any_of(units):
    return "(" + "|".join(sorted((re.escape(unit) for unit in units), key=len, reverse=True)) + ")"


def pattern_of(kind):
    simple = any_of(UNITS[kind]) if UNITS[kind] else ""
    figures = rf"{simple}(\s*{NUMBER}\s*{simple})*\s*$|" if simple else ""
    return rf"^\s*{NUMBER}\s*({figures}{COMPOUND})"


LENGTH = any_of(LENGTHS)
SIDE = "[^xX\u00d7]*\\d[^xX\u00d7]*"
EXAMPLES = {"length": "600 mm", "mass": "60 kg", "force": "800 N", "moment": "1.2 kN m",
            "stress": "16 N/mm2", "density": "420 kg/m3", "linear_stiffness": "8 kN/mm",
            "rotational_stiffness": "5 kN m/rad", "speed": "2850 rpm"}


def text(description, wanted="", **more):
    """`wanted` is what an editor says where the pattern does not fit."""
    if wanted:
        more["patternErrorMessage"] = wanted
    return {"description": description, "type": "string", **more}


def anything(description):
    """A name or a title: a number will do."""
    return {"description": description, "type": ["string", "number", "boolean"]}


def reference_to(name, description):
    return {"description": description, "$ref": f"#/definitions/{name}"}


def quantity(kind):
    def one(description):
        return reference_to(kind, description)
    return one


length, mass, force, moment, stress, density, linear, turning, speed = (
    quantity(kind) for kind in EXAMPLES)


def sizes(description, n):
    example = "38 x 89 mm" if n == 2 else "1960 x 640 x 870 mm"
    return text(description, f"Lengths joined by x are wanted, with their unit, such as {example}.",
                pattern="^" + (SIDE + "[xX\u00d7]") * (n - 1) + rf"{SIDE}{LENGTH}\s*$")


def count(description):
    return {"description": description, "type": ["integer", "string"], "minimum": 1, "maximum": 200,
            "pattern": r"^\s*\+?\d+\s*$"}


def ratio(description, most):
    return {"description": description, "type": ["number", "string"], "minimum": 0, "maximum": most,
            "pattern": rf"^\s*{NUMBER}\s*(%|[A-Za-z].*)?\s*$"}


def yes_no(description):
    return word(description, "yes", "no", True, False)


def quantities():
    """Definitions of all kinds."""
    out = {kind: text(f"A number with its unit, such as {example}.",
                      f"A number with its unit is wanted, such as {example}.", pattern=pattern_of(kind))
           for kind, example in EXAMPLES.items()}
    out["stored"] = {
        "description": "What is stored: 40 kg in all, 50 kg/m2 spread, or none.",
        "anyOf": [{"const": "none"},
                  text("", pattern=pattern_of("mass")), text("", pattern=pattern_of("area_load"))]}
    return out
