"""Sheets, feet, floor, machines, what is measured and bought, and the bench part by part."""

from groups import (MOST, group, joint, laid, list_of, name, needing, one_or_list, pair, places,
                    sheet_keys, stock)
from words import (NUMBER, all_names, anything, closed, count, force, length, linear, mass, of_records,
                   ratio, records, reference_to, sizes, speed, text, turning, word, yes_no)


def sheet_groups():
    overhang = group("Past the outer faces of the posts.", {
        side: length(f"At the {side}.") for side in ("front", "back", "left", "right")})
    shelf = {"from": length("Where it begins, along the bench or above the floor."),
             "to": length("Where it ends."), "underside": length("Its height above the floor."), **name}
    corner = "corner, from the front-left corner of the sheet: along, then back."
    return {
        "sheet_screws": {
            "description": "Diameter and length, such as 4 x 40 mm, or a group.",
            "anyOf": [sizes("Diameter and length.", 2), group("Screws of a sheet.", {
                "size": sizes("Diameter and length, such as 5 x 60 mm.", 2),
                "every": length("From screw to screw."),
                "clear_of_post": length("None nearer to a post than this."),
                "into_posts": yes_no("Whether some go into the posts too."),
                "slip": linear("Stiffness of one screw, if measured.")})]},
        "cut_outs": one_or_list("Openings in the sheet.", "cut_out", "from", "to"),
        "cut_out": group("An opening, from one corner to the other.", {
            "from": pair("Front-left " + corner), "to": pair("Back-right " + corner)}),
        "top_group": group("The top.", {
            **sheet_keys,
            "overhang": {"description": "How far it reaches past the posts: one length, or by side.",
                         "anyOf": [{"$ref": "#/definitions/length"}, overhang]}}),
        "top": {"description": "The top: thickness and kind, or a group.",
                "anyOf": [{"$ref": "#/definitions/board_text"}, {"$ref": "#/definitions/top_group"}]},
        "shelf_group": group("A shelf.", {**sheet_keys, **shelf}),
        "upright": group("A back or end sheet.", {
            "side": word("On which side.", "back", "left", "right"), **sheet_keys, **shelf})}


def feet_and_floor():
    threads = [key for key, _, _ in records("feet.yaml", "foot")]
    foot = {
        "thread": closed("Thread of the foot.", threads),
        "extension": length("Free stem below the post."),
        "pad": length("Diameter of its pad."),
        "material": word("Of what touches the floor.", "rubber", "plastic", "steel", "timber"),
        "castor": length("Diameter of a castor's wheel, in place of a foot."),
        "bare": yes_no("The post itself stands on the floor."),
        "height_error": length("So much too short: a gap under it before the bench is loaded."),
        "fixed": yes_no("Bolted to the floor.")}
    fall = text("Such as 1 in 80 to back.", "A slope and its way are wanted, such as 1 in 80 to back.",
                pattern=r"\d.* to (back|front|left|right)$")
    return {
        "foot": group("One foot.", foot),
        "feet": {"description": "All feet: their thread, none for bare posts, or a group.",
                 "anyOf": [closed("A thread, or none.", [*threads, "none", "bare"]), group("All feet.", {
                     **foot, "each": {"description": "Single feet, by the names of their posts.",
                                      "type": ["object", "null"],
                                      "additionalProperties": {"$ref": "#/definitions/foot"}}})]},
        "floor": {"description": "The floor: its surface, or a group.",
                  "anyOf": [of_records("The surface.", "feet.yaml", "floor"),
                            {"$ref": "#/definitions/floor_group"}]},
        "floor_group": group("The floor.", {
            "surface": of_records("What the feet stand on.", "feet.yaml", "floor"),
            "fall": {"description": "How it falls and where to; one, or a list of two.",
                     "anyOf": [fall, list_of("", fall)]},
            "levelled": yes_no("Whether the feet are set by hand."),
            "unevenness": length("Under the worst foot."),
            "keep_off": one_or_list("Strips where no foot may stand.", "strip"),
            "edge_distance": length("Wanted between a foot and such a strip."),
            "down": linear("Stiffness of the floor under one foot."),
            "sideways": linear("Sideways stiffness under one foot."),
            "friction": ratio("Between feet and floor.", 2)}),
        "strip": group("Where no foot may stand.", {
            "from": length("Along the bench, over the whole depth: from here"),
            "to": length("to here."),
            "x": pair("Or along the bench, from and to"),
            "y": pair("and to the back, from and to.")}),
        "wall": group("What holds the bench to the wall.", {
            "rail": anything("The rail that is screwed to the wall."),
            "at": places("Where, along it from the middle of its first post; else a sixth from each end."),
            "ledger": reference_to("stock", "A timber on the wall in place of back posts."),
            "screws": places("Of a ledger: distances from its left end."),
            "screws_every": length("Of a ledger: the widest gap between screws.")})}


def load_groups():
    spot = {"description": "middle, one length along, or [along, back] from the front-left corner.",
            "anyOf": [{"const": "middle"}, {"$ref": "#/definitions/length"}, pair("Along, back.")]}
    on = {"at": {"$ref": "#/definitions/spot", "description": "Where on the sheet."},
          "sheet": anything("Which sheet it stands on, if not the top."), **name}
    machine = {
        "kind": of_records("What kind of machine; machine for any other.", "machines.yaml", "machine"),
        **on,
        "mass": mass("Its mass."),
        "mounting": word("Bolted down, or standing loose.", "bolted", "standing"),
        "turned": yes_no("A quarter turn."),
        "pads": sizes("Between the middles of its feet, along and across the machine.", 2),
        "pad": length("Side of one pad."),
        "centre": pair("Of its mass, from the middle of the pads."),
        "centre_height": length("Of its mass, above the sheet."),
        "height": length("Of its top, above the sheet: where somebody shoves it."),
        "speeds": {"description": "Slowest and fastest speed of its spindle, or one.",
                   "anyOf": [{"$ref": "#/definitions/speed"},
                             list_of("", {"$ref": "#/definitions/speed"}, minItems=1, maxItems=2)]},
        "bed_twist": turning("Stiffness of its feet against warping.")}
    return {
        "spot": spot,
        "machine": group("A machine.", machine),
        "vice": closed("A kind of vice.", ["small vice", "vice", "large vice"], [
            n for key, names, _ in records("machines.yaml", "machine") if "vice" in key for n in names]),
        "load": group("A further force or mass.", {
            **on, "down": force("Pressing down; or"),
            "force": list_of("Along, to the back, up; or", {"$ref": "#/definitions/force"}, minItems=3,
                             maxItems=3),
            "mass": mass("A body that stays."),
            "duration": word("How long it acts.", "permanent", "long term", "medium term", "short term",
                             "instantaneous")}),
        "analysis": group("How the bench is solved.", {
            "sheets": word("Sheets as plates, as strips under the pads, or left out.", "shell", "strip",
                           "none"),
            "combination": word("As given: no factors and no creep.", "as given", "usual"),
            "mesh": length("Widest cell of a plate.")}),
        "reading": group("What was measured.", {
            "test": word("Which test of standtrue prove.", "loose rail", "bare frame along",
                         "bare frame across", "finished along", "finished across", "top sag"),
            "pull": reference_to("pull", "Sideways, of a spring balance; or"),
            "load": reference_to("pull", "the weight put on."),
            "moves": length("How much further with it than without."),
            "gauge": length("What the gauge can just tell apart.")}),
        "pull": {"description": "10 kg, 20 lb or 98 N.",
                 "anyOf": [{"$ref": "#/definitions/mass"}, {"$ref": "#/definitions/force"}]},
        "prices": {"description": "What is bought, by any part of its name, and what it costs.",
                   "type": ["object", "null"],
                   "properties": {"currency": anything("The currency.")},
                   "additionalProperties": {
                       "description": "Of one bar, sheet or piece; or per m or per ft of timber.",
                       "type": ["number", "string"], "minimum": 0,
                       "pattern": rf"^\s*{NUMBER}\s*( per m| per ft)?( each)?\s*$"}}}


def part_groups():
    foot = reference_to("foot", "Its own foot.")
    shared = {**joint, **stock, **name}
    groups = {
        "part_post": ("A post.", {
            **name, "at": pair("Its axis."), "top": length("Height of its top."),
            "foot_at": pair("Where its foot stands, if it is splayed."),
            "bottom": length("Height of its lower end."), "turned": yes_no("The wide face across."),
            **stock, "foot": foot}),
        "part_rail": ("A rail from post to post.", {
            "from": anything("The post where it begins."), "to": anything("The post where it ends."),
            "top_at": length("Height of its upper edge."), "underside": length("Height of its lower edge."),
            "aside": length("Of its axis past the posts' axes, to the back or right."),
            "level": word("What it counts as.", "top", "lower", "other"),
            "seat": word("How it meets the posts.", "between", "on post face", "notched", "on top",
                         "between posts"),
            "notch": length("How deep the underside is cut out over its seats."), **laid, **shared}),
        "part_bearer": ("A bearer from rail to rail.", {
            "from": anything("The rail where it begins."), "to": anything("The rail where it ends."),
            "at": length("Where along them."), "top_at": length("Height of its top."), **laid, **shared}),
        "part_brace": ("A brace from a post to a post or rail.", {
            "post": anything("The post where it begins."), "at": length("Height there."),
            "to_post": anything("The post where it ends; or"), "to_rail": anything("the rail."),
            "to_at": length("Height at the post, or distance along the rail."), **shared}),
        "part_sheet": ("A sheet.", {
            **sheet_keys, **name, "place": word("What it is.", "top", "shelf", "back", "end"),
            "x": pair("From and to, along the bench."), "y": pair("From and to, to the back."),
            "z": pair("From and to, of an upright sheet."), "underside": length("Height of its underside.")}),
        "part_joint": ("The joint of one rail.", {
            "rail": anything("Which rail."), "post": anything("At one end only: which post."), **joint})}
    needed = {"part_post": ("name", "at", "top"), "part_rail": ("from", "to"),
              "part_bearer": ("from", "to", "at"), "part_brace": ("post", "at", "to_at"),
              "part_sheet": ("sheet", "x", "y"), "part_joint": ("rail", "joint")}
    lists = {"posts": "part_post", "legs": "part_post", "rails": "part_rail", "aprons": "part_rail",
             "stretchers": "part_rail", "bearers": "part_bearer", "braces": "part_brace",
             "sheets": "part_sheet", "joints": "part_joint"}
    out = {key: group(say, keys) for key, (say, keys) in groups.items()}
    out["parts"] = group("The bench part by part.", {
        key: one_or_list({"posts": "Posts.", "legs": "Posts.", "aprons": "Top rails.",
                          "stretchers": "Lower rails."}.get(key, key.capitalize() + "."), of, *needed[of])
        for key, of in lists.items()})
    return out
