"""What a blind corpus expects of a line, in the terms of the grader.

Judged are the values: shape, quantity, plate, width, diameter with its side, angle, grade. Delivery, work
beside rolling and what `must_say` asks for stand in the files too, and are judged by eye only.
"""

from __future__ import annotations

from typing import Any

from tests.data.sheet_model import ID, MEAN, OD, Expect, Line, Want

SAME_GRADE = (
    ("S235JR", "1.0038", "S235"), ("S355J2", "S355J2+N", "1.0577", "S355"), ("S275JR", "1.0044", "S275"),
    ("P265GH", "1.0425"), ("P355GH", "1.0473"), ("304L", "1.4307", "1.4306", "S30403"),
    ("304", "1.4301", "S30408"), ("304L", "1.4307", "1.4301"), ("316L", "1.4404", "1.4435", "S31603"),
    ("1.4571", "316Ti"), ("A516-70", "SA-516-70", "A516 Gr 70"), ("A572-50", "A572 Gr 50"),
    ("44W", "G40.21-44W", "300W"), ("A387-11", "A387 Gr 11"), ("Corten A", "S355J0WP", "A588"),
    ("Q235B", "Q235"), ("A1011", "A1011 CS"), ("galvanized steel", "galvanized"),
)  # fmt: skip
"""Names that shops keep as one grade (common practice, no source)."""
SIDES = (
    ("inside_diameter_mm", ID, 1), ("outside_diameter_mm", OD, 1), ("mean_diameter_mm", MEAN, 1),
    ("inside_radius_mm", ID, 2), ("outside_radius_mm", OD, 2), ("centreline_radius_mm", MEAN, 2),
)  # fmt: skip
BASES = {"inside": ID, "outside": OD, "mean": MEAN}
DOUBTS = {
    "thick": "thickness", "wall": "thickness", "gauge": "gauge", "diameter": "diameter", "ID": "basis",
    "OD": "basis", "radius": "basis", "inside": "basis", "which": "basis", "eccentric": "eccentric",
    "date": "date", "angle ring": "not rolled", "bar": "not rolled", "dished": "not rolled",
    "square to round": "not rolled", "ellipse": "oval", "helix": "not rolled", "mitre": "shape",
    "perforated": "extra", "hole": "extra", "material": "material", "quantity": "quantity", "halves": "shape",
    "on hold": "status", "maybe": "status", "TBC": "status", "hidden": "status", "alternate": "option",
    "earlier": "reference", "sample": "reference", "drawing": "reference", "note": "reference",
    "re-rolling": "re-roll", "unit": "unit", "angle": "angle", "chord": "contradiction",
    "rise": "contradiction", "conflict": "contradiction", "swapped": "contradiction",
    "blank length": "length", "length": "length", "width": "length", "height": "length",
    "tolerance": "tolerance", "code weld": "weld", "edge prep": "bevel", "fit over": "pipe",
    "girth": "basis", "extra": "extra", "not rolled": "not rolled", "not for the roll": "not rolled",
    "status": "status", "reference": "reference",
}  # fmt: skip
"""Words of the expectations, and the kinds of doubt that a question about them is of."""


FREE_WORDS = {
    "shape": ("shape", "eccentric", "oval", "not rolled", "re-roll", "extra"),
    "size": ("thickness", "contradiction", "length", "shape"),
}
"""What the fifth corpus asks about in one word, and the kinds of doubt that a question about it is of."""


def want_of(line: dict[str, Any], *, may_ask: bool) -> Want:
    """Return the expectation of a line; `may_ask` where a question about a column is fine."""
    outcome, also = line["outcome"], set(line.get("also_ok", ()))
    why, doubts = line["why"], _doubts(line.get("ask_about", ""))
    doubts += FREE_WORDS.get(line.get("ask_about", ""), ())
    named = {outcome, *also}
    if "decline_or_ask" in named or (doubts and "decline" in named):  # without a word any question is right
        doubts += ("declined",)
    left_out = bool(named & {"decline_or_ask", "ignore"})
    if outcome == "ignore":
        return Want(Expect.ASK, why=why, or_left_out=True) if also else Want(Expect.IGNORE, why=why)
    readings = _readings(line) if "price" in {outcome, *also} else ()
    if not readings:
        return Want(Expect.ASK, (), doubts, why, left_out)
    sure = outcome == "price" and not also and not may_ask
    if sure:
        return Want(Expect.LINE, readings)
    return Want(Expect.LINE_OR_ASK, readings, () if may_ask else doubts, why, left_out)


def _doubts(about: str) -> tuple[str, ...]:
    return tuple(dict.fromkeys(doubt for word, doubt in DOUBTS.items() if word in about))


def _readings(line: dict[str, Any]) -> tuple[tuple[Line, ...], ...]:
    """Return the readings that are right, one for each size that is stated; none where one is missing."""
    shape = line.get("shape", "")
    if not {"width_mm", "quantity"} <= line.keys():
        return ()
    common: dict[str, Any] = {
        "t": line.get("thickness_mm", 0.0), "length": line["width_mm"], "n": line["quantity"],
        "mat": grades(line["material"], *line.get("material_also", ())) if "material" in line else "",
    }  # fmt: skip
    if shape == "cone":
        ends = {"large": line["large_diameter_mm"], "small": line["small_diameter_mm"]}
        side = line.get("diameter_side")
        bases = (BASES[side],) if side else tuple(BASES.values())
        return tuple((Line("cone", basis=basis, **ends, **common),) for basis in bases)
    if shape not in {"cylinder", "arc"}:
        return ((Line(shape, basis=MEAN, **common),),)
    sizes = [(basis, line[name] * times) for name, basis, times in SIDES if name in line]
    if shape == "cylinder":
        return tuple((Line(shape, basis=basis, d=size, **common),) for basis, size in sizes)
    angle = line.get("angle_deg", 0.0)
    return tuple((Line(shape, basis=basis, radius=size / 2, angle=angle, **common),) for basis, size in sizes)


def grades(*names: str) -> str:
    """Return the spellings that are right for a grade, with | between.

    >>> "1.4404" in grades("316L")
    True
    """
    same = {name for group in SAME_GRADE for name in group if set(group) & set(names)}
    return "|".join(sorted({*names, *same}))
