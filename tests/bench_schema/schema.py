#!/usr/bin/env python3
"""Makes or checks docs/bench.schema.json: the JSON Schema of the bench file, for editors.

    python3 tests/bench_schema/schema.py [--write]

Keys and their lines stand in groups.py and more_groups.py, names come from reference/, the grammar of
quantities from words.py. Without --write it fails where the file is not what they make now. What
the program knows of it is held by hold.py. Draft 7, which every editor's YAML server reads.
"""

import json
import sys

import groups
import more_groups
from groups import MOST, one_or_list, reference_to
from words import ROOT, anything, of_records, quantities, sizes, word

FILE = ROOT / "docs" / "bench.schema.json"
STALE = f"{FILE.name} is stale: write it anew by python3 tests/bench_schema/schema.py --write"
SHORT_FORM = ("size", "posts", "legs", "rails", "aprons", "stretchers", "bearers", "braces", "top", "shelf",
              "sheets")


def frame_keys():
    return {
        "posts": reference_to("posts", "All posts: their timber, or a group."),
        "legs": reference_to("posts", "The same as posts."),
        "rails": reference_to("rails", "All rails: their timber, or a group."),
        "aprons": reference_to("level", "The same as rails: {top: ...}."),
        "stretchers": reference_to("level", "The same as rails: {lower: ...}."),
        "bearers": one_or_list("Bearers under top or shelf.", "bearer", none=True),
        "braces": one_or_list("Braces.", "brace", "side", none=True),
        "top": reference_to("top", "The top: thickness and kind, or a group."),
        "shelf": one_or_list("Shelves.", "shelf_group", "sheet", none=True,
                             others=[{"$ref": "#/definitions/board_text"}]),
        "sheets": one_or_list("Back and end sheets.", "upright", "side", "sheet", none=True)}


def use_keys():
    return {
        "machines": one_or_list("What stands on the bench.", "machine", "kind", "at", none=True),
        "vice": one_or_list("A vice: its kind, or a group.", "machine", none=True,
                            others=[{"$ref": "#/definitions/vice"}]),
        "stored": {"description": "What is stored on each sheet, by its name.", "anyOf": [
            {"$ref": "#/definitions/stored"},
            {"type": ["object", "null"], "additionalProperties": {"$ref": "#/definitions/stored"}}]},
        "loads": one_or_list("Further forces.", "load", "at", none=True),
        "feet": reference_to("feet", "All feet: their thread, none for bare posts, or a group."),
        "floor": reference_to("floor", "The floor: its surface, or a group."),
        "wall": one_or_list("What holds the bench to the wall.", "wall", none=True),
        "analysis": reference_to("analysis", "How the bench is solved.")}


def bench_keys():
    return {
        "standtrue": {"description": "The version of this format.", "enum": [1, "1"]},
        "title": anything("A name for the report."),
        "size": sizes("Length x depth x height of the worktop above the floor.", 3),
        "units": word("Of the report.", "metric", "imperial"),
        "timber": reference_to("stock", "All posts, rails and bearers unless told otherwise."),
        "joints": reference_to("joint", "All rail ends unless told otherwise."),
        "duty": of_records("What the bench is for.", "limits.yaml", "duty"),
        "air": of_records("Where it stands.", "factors.yaml", "air"),
        "bought": word("Damp timber creeps more as it dries.", "dry", "damp"),
        "rules": word("By which rules timber is judged.", "limit states", "allowable stress"),
        **frame_keys(), **use_keys(),
        "readings": {"description": "What was measured; for standtrue prove and odds.",
                     "type": ["array", "null"], "items": groups.needing("reading", "test", "moves")},
        "prices": reference_to("prices", "What things cost; for standtrue parts."),
        "variants": {"description": "Benches to compare: a name, and the keys that it changes.",
                     "type": "object", "additionalProperties": {"$ref": "#/definitions/change"}},
        "parts": reference_to("parts", "The bench part by part, in place of its size and frame.")}


def definitions():
    out = quantities()
    for made in (groups.material_groups(), groups.joint_groups(), groups.frame_groups(),
                 more_groups.sheet_groups(), more_groups.feet_and_floor(), more_groups.load_groups(),
                 more_groups.part_groups()):
        out.update(made)
    out["board_text"] = out["board"]["anyOf"][0]
    out["board"]["anyOf"][0] = {"$ref": "#/definitions/board_text"}
    change = {key: {"$ref": f"#/properties/{key}"} for key in bench_keys()}
    out["change"] = {"description": "The keys that a variant changes; groups are merged key by key.",
                     "type": "object", "additionalProperties": False, "properties": change}
    return out


def schema():
    in_place = {key: False for key in SHORT_FORM}
    sheet = {"anyOf": [{"type": "string"}, {"required": ["sheet"]}]}
    return {
        "$schema": "http://json-schema.org/draft-07/schema#",
        "title": "standtrue bench file, version 1",
        "description": "A workshop bench, as standtrue reads it. docs/bench-file.md tells it in words.",
        "type": "object",
        "required": ["standtrue"],
        "additionalProperties": False,
        "properties": bench_keys(),
        "if": {"required": ["parts"]},
        "then": {"properties": in_place},
        "else": {"required": ["size", "timber", "top"], "properties": {"top": sheet}},
        "definitions": definitions()}


def text():
    return json.dumps(schema(), indent=1, ensure_ascii=False) + "\n"


def main():
    if "--write" in sys.argv:
        FILE.write_text(text())
    elif not FILE.exists() or FILE.read_text() != text():
        sys.exit(STALE)


if __name__ == "__main__":
    main()
