"""Every group of keys of the bench file, with a line on each key."""

from words import (LENGTH, all_names, anything, closed, count, density, force, length, linear, mass,
                   moment, of_records, ratio, records, reference_to, sizes, speed, stress, text, turning,
                   word, yes_no)

MOST = 200


def group(description, properties, **more):
    return {"description": description, "type": ["object", "null"], "additionalProperties": False,
            "properties": properties, **more}


def needing(name, *keys):
    """An item of a list, which stands alone: there these keys are wanted."""
    return {"allOf": [{"$ref": f"#/definitions/{name}"}, {"type": "object", "required": list(keys)}]}


def one_or_list(description, name, *keys, none=False, others=()):
    item = needing(name, *keys) if keys else {"$ref": f"#/definitions/{name}"}
    nothing = [{"const": "none"}] if none else []
    single = {"$ref": f"#/definitions/{name}"}
    items = {"anyOf": [*others, item]} if others else item
    return {"description": description,
            "anyOf": [*nothing, *others, {"type": "array", "items": items, "maxItems": MOST}, single]}


def list_of(description, items, **more):
    return {"description": description, "type": "array", "items": items, **more}


def places(description):
    """One length, or a list of them."""
    one = {"$ref": "#/definitions/length"}
    return {"description": description, "anyOf": [one, {"type": ["array", "null"], "items": one}]}


def pair(description):
    return list_of(description, {"$ref": "#/definitions/length"}, minItems=2, maxItems=2)


def timbers():
    return all_names("timber.yaml", "timber") + all_names("visual-grades.yaml", "visual grade")


def sections():
    return all_names("sections.yaml", "section")


stock = {"timber": reference_to("stock", "Its timber: class, size, or both; or a group."),
         "section": reference_to("section", "Its size, the two sides in any order.")}
joint = {"joint": reference_to("joint", "How its ends are joined.")}
laid = {"laid": word("How the piece lies.", "on edge", "flat")}
name = {"name": anything("What the report calls it.")}
sheet_keys = {
    "sheet": reference_to("board", "Thickness and kind, or a group of numbers."),
    "layers": count("How many sheets lie on each other."),
    "layers_joined": word("How the layers hold to each other.", "loose", "screwed", "glued"),
    "grain": word("The face grain: along the bench, or across it.", "along", "across"),
    "fixed": word("How the sheet holds to what carries it.", "screwed", "glued", "loose"),
    "screws": reference_to("sheet_screws", "Its screws: size alone, or a group."),
    "load": reference_to("stored", "What is stored on it: 40 kg in all, 50 kg/m2, or none."),
    "cut_outs": reference_to("cut_outs", "Openings in the sheet.")}


def material_groups():
    fixed_classes = [key for key, _, _ in records("timber.yaml", "timber")]
    grades = ["SPF No.2", "DF-L No.2", "Hem-Fir No.2", "SYP No.2"]
    classes = fixed_classes + grades
    others = [n for n in timbers() if n not in classes]
    strengths = {key: stress(f"Characteristic strength: {what}.") for key, what in {
        "bending": "bending", "tension": "tension along the grain",
        "tension_across": "tension across the grain", "compression": "compression along the grain",
        "compression_across": "compression across the grain", "shear": "shear"}.items()}
    return {
        "stock": {
            "description": "Timber: class and size in any order, such as C24 45 x 95 mm, or a group.",
            "anyOf": [
                text("Class and size.", "A size by its sides wants a unit, such as 45 x 95 mm.",
                     pattern=r"^(?!\s*\d{2,}\s*x\s*\d{2,}\s*$).*[0-9A-Za-z]",
                     examples=["C24 45 x 95 mm", "C16 38 x 89 mm", "C16 CLS 4x2", "70 x 70 mm", "2x4"]),
                {"$ref": "#/definitions/stock_group"}]},
        "stock_group": group("Timber with values of its own.", {
            "class": closed("Strength class or grade.", classes, others),
            "section": reference_to("section", "Its size, the two sides in any order."),
            "E": stress("Mean modulus along the grain, free of shear."),
            "E_low": stress("The low (5 %) value of that modulus; else it moves in proportion."),
            "G": stress("Mean shear modulus."),
            "density": density("Mean density."),
            "strengths": group("Characteristic strengths, not with allowable stresses.", strengths)}),
        "section": {
            "description": "38 x 89 mm, or a size by name such as 2x4.",
            "anyOf": [sizes("Two sides.", 2), closed("A size by name.", ["2x4", "2x6", "4x4"], sections())]},
        "board": {
            "description": "A sheet: thickness and kind, such as 18 mm spruce plywood, or a group.",
            "anyOf": [
                text("Thickness and kind.", "Thickness and kind are wanted, such as 18 mm spruce plywood.",
                     pattern=rf"\d\s*{LENGTH}(?![A-Za-z])", examples=[
                    f"{key} mm {fixed['family']}" for key, _, fixed in records("panels.yaml", "panel")
                    if key.isdigit() and 9 <= int(key) <= 30]),
                {"$ref": "#/definitions/board_group"}]},
        "board_group": board_group()}


def board_group():
    def both_ways(what):
        pair = group(what, {"along": stress("Along the face grain."), "across": stress("Across it.")})
        return {"description": what, "anyOf": [{"$ref": "#/definitions/stress"}, pair]}

    def by_width(what, kind, *ways):
        say = {"along": "Along the face grain.", "across": "Across it.", "twist": "Against twisting."}
        return group(what, {way: kind(say[way]) for way in ways})

    return group("A sheet by its numbers.", {
        "family": of_records("The kind of sheet.", "panels.yaml", "panel family"),
        "thickness": length("Of the whole sheet."),
        "plies": {"description": "Thickness of each ply from face to face; the grain turns at each.",
                  "type": "array", "items": text("3 mm, 3 mm along or 3 mm across.", pattern=r"\d")},
        "wood": of_records("What the plies are made of.", "panels.yaml", "veneer"),
        "E": both_ways("Modulus in bending, one value or along and across."),
        "E_in_plane": both_ways("Modulus in the plane, one value or along and across."),
        "G": stress("Shear modulus in the plane."),
        "G_rolling": both_ways("Shear modulus through the thickness."),
        "density": density("Mean density."),
        "strengths": group("Characteristic strengths.", {
            "bending": both_ways("In bending."), "tension": both_ways("In tension."),
            "compression": both_ways("In compression."), "rolling": both_ways("In rolling shear."),
            "shear": stress("In panel shear.")}),
        "D": by_width("Bending stiffness per width.", moment, "along", "across", "twist"),
        "A": by_width("Stiffness in the plane per width.", linear, "along", "across"),
        "S": by_width("Shear stiffness through the thickness per width.", linear, "along", "across")})


def joint_groups():
    return {
        "joint": {"description": "How two pieces are joined: a kind, or a group.",
                  "anyOf": [of_records("A kind of joint.", "joints.yaml", "joint"),
                            {"$ref": "#/definitions/joint_group"}]},
        "joint_group": group("A joint with sizes or values of its own.", {
            "kind": of_records("The kind of joint that the rest changes.", "joints.yaml", "joint"),
            "place": word("Where brackets, gussets or fasteners sit.", "under", "above", "inside face",
                          "both faces", "lap", "end"),
            "pieces": count("How many brackets or gussets at each rail end."),
            "leg": length("Length of a bracket's leg or of a tenon."),
            "width": length("Width of a bracket, height of a tenon."),
            "thickness": length("Thickness of bracket, gusset or tenon."),
            "ribbed": yes_no("Whether the bracket has a rib."),
            "fasteners": count("How many per leg; of bolts, per rail end."),
            "rows": count("In how many rows they stand."),
            "first": length("From the corner to the first fastener."),
            "pitch": length("From one fastener to the next."),
            "radius": length("Mean distance of the fasteners from their centre."),
            "clearance": length("Slip of a bolt in its hole."),
            "screws": sizes("Diameter and length, such as 5 x 40 mm.", 2),
            "bolts": of_records("Thread of the bolts.", "fasteners.yaml", "bolt"),
            "stiffness": group("Measured or chosen values, used as they are.", {
                "bend": turning("Bending in the plane of rail and post."),
                "sideways": turning("Bending out of that plane."),
                "twist": turning("Twisting about the rail."),
                "along": linear("Movement along the rail."),
                "across": linear("Movement across the rail.")}),
            "resistance": group("Characteristic resistance of one rail end.", {
                "moment": moment("In bending."), "shear": force("In shear; of a brace, along it.")})})}


def frame_groups():
    rail = {
        **stock, **laid,
        "seat": word("How rails meet the posts.", "between", "on post face", "notched", "on top",
                     "between posts"),
        "face": word("Of a rail on the post faces: outside or inside.", "outside", "inside"),
        "notch": length("How deep the underside is cut out over its seats."),
        "underside": length("Height of the lower edge above the floor."),
        "top_at": length("Height of the upper edge above the floor."), **joint}
    rule = {"anyOf": [{"const": "none"}, {"$ref": "#/definitions/rail_keys"},
                      {"$ref": "#/definitions/stock"}]}
    sides = {"long": "front and back", "short": "left, right and middle", "front": "front", "back": "back",
             "left": "left", "right": "right", "middle": "middle, behind middle posts"}
    level = {"anyOf": [{"const": "none"}, {"$ref": "#/definitions/rail_level"},
                       {"$ref": "#/definitions/stock"}]}
    side = word("On which side.", "front", "back", "left", "right", "middle")
    return {
        "posts": {"description": "All posts: their timber, or a group.",
                  "anyOf": [group("All posts.", {
                      **stock, "turned": yes_no("The wide face across the bench."),
                      "stations": places("The middles of the posts along the bench, ends included.")}),
                            {"$ref": "#/definitions/stock"}]},
        "rail_keys": group("What is said of one or more rails.", rail),
        "rail_level": group("Rails of one level.", {
            **rail, **{key: {"description": f"These rails only: {which}; none leaves them out.", **rule}
                       for key, which in sides.items()}}),
        "level": {"description": "Rails of one level: their timber, a group, or none.", **level},
        "rails": {"description": "All rails: their timber, or a group.",
                  "anyOf": [group("All rails.", {
                      **rail, "top": reference_to("level", "Top rails; none leaves them out."),
                      "lower": reference_to("level", "Lower rails; none leaves them out."),
                      "more": one_or_list("Further rails.", "more_rail", "side")}),
                            {"$ref": "#/definitions/stock"}]},
        "more_rail": group("A further rail.", {"side": side, **rail, **name}),
        "bearer": group("Bearers under a sheet.", {
            "at": places("Their middles."), "every": length("The widest gap between them."),
            "count": count("So many in each bay."),
            "under": word("Which sheet they carry.", "top", "shelf"),
            "run": word("From front to back, or along the bench.", "across", "along"),
            "top_at": length("Height of their tops above the floor."), **stock, **laid, **joint}),
        "brace": group("A brace.", {
            "side": word("On which side.", "front", "back", "left", "right"),
            "kind": word("One diagonal, two crossing, or two knees.", "diagonal", "cross", "knee"),
            "rises_to": word("The way a diagonal rises; at the ends back or front.", "right", "left",
                             "back", "front"),
            "low": length("Height of the lower end."), "high": length("Height of the upper end."),
            "leg": length("Of a knee: how far along the rail and down the post."),
            "bay": count("Only this bay, counted from the left."), **stock, **joint, **name})}
