"""Frame cases (docs/frame-case.md) as Python reads them, and what the program answers to them."""

import re
import subprocess
import tempfile
from dataclasses import dataclass
from pathlib import Path

import yaml

units = {
    "m": 1.0, "mm": 1e-3, "in": 0.0254, "ft": 0.3048, "rad": 1.0, "mrad": 1e-3, "deg": 0.017453292519943295,
    "N": 1.0, "kN": 1e3, "lbf": 4.4482216152605, "kip": 4448.2216152605, "N m": 1.0, "kN m": 1e3,
    "N mm": 1e-3, "kip in": 4448.2216152605 * 0.0254, "Pa": 1.0, "N/mm2": 1e6, "kN/mm2": 1e9,
    "N/m2": 1.0, "ksi": 4448.2216152605 / 0.0254**2, "m2": 1.0, "mm2": 1e-6, "in2": 0.0254**2, "m4": 1.0,
    "mm4": 1e-12, "in4": 0.0254**4, "N/m": 1.0, "N/mm": 1e3, "kN/m": 1e3, "kip/ft": 4448.2216152605 / 0.3048,
    "kip/in": 4448.2216152605 / 0.0254, "N m/rad": 1.0, "kN m/rad": 1e3, "N mm/rad": 1e-3, "kg": 1.0,
    "kg/m3": 1.0, "kg/m2": 1.0, "kg m2": 1.0, "Hz": 1.0, "rpm": 1.0 / 60.0, "N m/m": 1.0, "N mm/mm": 1.0, "": 1.0,
}


def si(value):
    """"45 mm" as 0.045; a number stays one."""
    if isinstance(value, (int, float)):
        return float(value)
    number, _, unit = value.strip().partition(" ")
    return float(number) * units[unit]


def three(values):
    return [si(value) for value in values]


def read(text):
    return yaml.load(text, Loader=getattr(yaml, "CSafeLoader", yaml.SafeLoader))


@dataclass
class Wanted:
    """One number that an oracle found, and how far the program may be from it (SI)."""

    asked: str  # as an expectation has it: "of: displacement, under: load, node: A, freedom: z"
    value: float
    unit: str  # SI
    allowed: float
    scale: float  # what a difference is told as a part of


@dataclass
class Difference:
    asked: str
    wanted: float
    found: float
    off: float  # as a part of the scale
    allowed: float  # the same


def without_expectations(text):
    return re.split(r"^expect:", text, flags=re.M)[0]


def compare(program, text, wanted):
    """What the program finds where the oracle found `wanted`; the case's own expectations are left
    out. How far off is said by the program to three figures and held against the seven figures of
    what it found."""
    if len(wanted) > 2000:  # a file holds so many numbers
        return compare(program, text, wanted[:2000]) + compare(program, text, wanted[2000:])
    for w in wanted:  # numbers near the least that there are are refused
        w.value = w.value if abs(w.value) > 1e-15 * w.scale else 0.0
    lines = [f"  - {{{w.asked}, value: {w.value!r} {w.unit}, within_absolute: {w.allowed!r} {w.unit}}}\n"
             for w in wanted]
    rows = expected_rows(program, without_expectations(text) + "expect:\n" + "".join(lines))
    if len(rows) != len(wanted):
        raise RuntimeError(f"{len(wanted)} numbers asked, {len(rows)} answered")
    return [difference(w, *row) for w, row in zip(wanted, rows)]


def expected_rows(program, text):
    """(met or MISSED, found, unit, off, unit) of each expectation."""
    with tempfile.TemporaryDirectory() as folder:
        case = Path(folder) / "case.yaml"
        case.write_text(text)
        run = subprocess.run([program, "solve", "--width", "100000", str(case)], capture_output=True,
                             text=True)
    if run.returncode not in (0, 1):
        raise RuntimeError(run.stderr[:2000])
    told = re.findall(r"^  (?:met |MISSED) .*", run.stdout, re.M)
    rows = [re.search(r"^  (met|MISSED) .* expected, (\S+) ?(.*?) found, off by (\S+) ?(.*?), \S+.* allowed",
                      line) for line in told]
    for row, line in zip(rows, told):
        if not row:
            raise RuntimeError("no answer: " + line[:400])
    return [row.groups() for row in rows]


def difference(w, verdict, number, unit, off, off_unit):
    found, told = float(number) * units[unit], float(off) * units[off_unit]
    if abs(abs(found - w.value) - told) > 6e-7 * abs(found) + 6e-3 * told:
        raise RuntimeError(f"{w.asked}: {found - w.value} off by the printed figures, {told} as told")
    if (verdict == "met") != (told <= w.allowed) and abs(told - w.allowed) > 6e-3 * w.allowed:
        raise RuntimeError(f"{w.asked}: {verdict} with {told} of {w.allowed}")
    return Difference(w.asked, w.value, found, told / w.scale, w.allowed / w.scale)
