"""Looks at the values of a line as a whole and doubts what is missing or could be meant two ways."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from quoting.errors import RangeError
from quoting.intake import shapes
from quoting.intake.material import Materials
from quoting.intake.record import Doubt, Record, number_text
from quoting.parts import Choice, mean_diameter
from quoting.units import format_length, gauge_tables, gauge_to_mm

STOCK_MATCH_MM = 0.06
"""A thickness this near to one in the rack is the same plate (3/16 in is written 0.188 in and 4.8 mm)."""
THICKEST_INCH_BARE_MM = 3 * 25.4
"""A bare thickness number above this is more likely a gauge or millimetres than inches."""
LARGEST_MM = 10_000.0
"""Diameters and lengths above this are more likely a unit mistaken than a part for a plate roll."""


@dataclass(frozen=True, slots=True)
class Desk:
    """What the reader needs of the shop: its materials, and inches or millimetres to write in."""

    materials: Materials
    inch: bool

    def size(self, mm: float) -> str:
        """Return a length for a question's text."""
        return format_length(mm, inch=self.inch)


def settle(record: Record, desk: Desk) -> None:
    """Add to the record a doubt for everything that its line still needs before it can be priced."""
    for check in _CHECKS:
        check(record, desk)


def thickness_of(values: dict[str, str], materials: Materials) -> float | None:
    """Return the thickness in mm; None while it, its unit or the metal of a gauge is not known."""
    gauge = values.get("gauge")
    if not gauge:
        return shapes.length(values, "thickness")
    table = values.get("gauge_metal") or (
        materials.gauge_table(values["material"]) if values.get("material") else ""
    )
    try:
        return gauge_to_mm(int(gauge), table) if table else None
    except RangeError:
        return None


def _open(record: Record, name: str) -> bool:
    """Return whether a field is neither known nor asked about."""
    return not record.values.get(name) and name not in record.doubts


def _ask(record: Record, name: str, text: str, *choices: Choice, near: tuple[str, ...] = ()) -> None:
    place, read = record.where(*(near or (name,)))
    record.doubt(Doubt(name, place, read, text, choices))


def _quantity(record: Record, desk: Desk) -> None:
    if _open(record, "quantity"):
        _ask(record, "quantity", "How many pieces?")


def _material(record: Record, desk: Desk) -> None:
    if _open(record, "material"):
        keys = desk.materials.in_family(None)
        choices = tuple(Choice(key, (("material", key),)) for key in keys[:8])
        _ask(record, "material", "Which material and grade?", *choices)


def _thickness(record: Record, desk: Desk) -> None:
    values = record.values
    if "size" in record.doubts:
        return
    if values.get("gauge") and shapes.has(values, "thickness"):
        _gauge_and_size(record, desk)
    elif values.get("gauge"):
        _gauge(record, desk)
    elif _open(record, "thickness"):
        _ask(record, "thickness", "How thick is the plate?")
    thickness = thickness_of(values, desk.materials)
    if thickness is None or "thickness" in record.doubts or values.get("thickness_ok"):
        return
    stock = desk.materials.stocked_mm(values.get("material", ""))
    if not stock or any(abs(thickness - own) <= STOCK_MATCH_MM for own in stock):
        return
    below = max((own for own in stock if own < thickness), default=None)
    above = min((own for own in stock if own > thickness), default=None)
    choices = [
        Choice(desk.size(own), (("thickness", number_text(own)), ("gauge", ""), ("thickness_ok", "yes")))
        for own in (below, above)
        if own is not None
    ]
    choices.append(Choice(f"{desk.size(thickness)} exactly, bought for this job", (("thickness_ok", "yes"),)))
    near = " or ".join(desk.size(own) for own in (below, above) if own is not None)
    text = f"We do not stock {values['material']} in {desk.size(thickness)}; would {near} do?"
    _ask(record, "stock_thickness", text, *choices, near=("thickness", "gauge"))


def _gauge_and_size(record: Record, desk: Desk) -> None:
    """A gauge and a thickness together must be the same plate."""
    values = record.values
    by_gauge = thickness_of(values, desk.materials)
    size = shapes.length(values, "thickness")
    if by_gauge is None or size is None or abs(by_gauge - size) <= STOCK_MATCH_MM:
        return
    choices = (
        Choice(f"{values['gauge']} gauge, {desk.size(by_gauge)}", (("thickness", ""),)),
        Choice(desk.size(size), (("gauge", ""), ("gauge_metal", ""))),
    )
    text = (
        f"{values['gauge']} gauge is {desk.size(by_gauge)}, but the thickness says {desk.size(size)}; which?"
    )
    _ask(record, "thickness", text, *choices, near=("gauge", "thickness"))


def _gauge(record: Record, desk: Desk) -> None:
    """Ask for the metal of a gauge that has none, or for a gauge that the metal's table does not hold."""
    values = record.values
    number = int(values["gauge"])
    own = desk.materials.gauge_table(values["material"]) if values.get("material") else ""
    table = values.get("gauge_metal") or own
    if not table and "material" in record.doubts and record.where("material")[1]:
        return  # the answer about the material settles the gauge too
    clash = bool(own) and table != own and {table, own} != {"steel", "galvanized"}
    if table and not clash:
        if number not in gauge_tables()[table].thickness_mm:
            _ask(
                record,
                "thickness",
                f"There is no {number} gauge in the {table} table; how thick, in inches or mm?",
            )
        return
    choices = tuple(
        Choice(
            f"{name}: {desk.size(found.thickness_mm[number])}",
            (("gauge_metal", name), ("thickness", number_text(found.thickness_mm[number])), ("gauge", "")),
        )
        for name, found in gauge_tables().items()
        if number in found.thickness_mm
    )
    text = f"{number} gauge is a different thickness in each metal; which one, or how thick in inches or mm?"
    _ask(record, "thickness", text, *choices, near=("gauge", "thickness"))


def _shape(record: Record, desk: Desk) -> None:
    values = record.values
    kind = shapes.kind_of(values)
    if values.get("shape") == "arc" and not values.get("angle") and values.get("half"):
        values["angle"] = "180"
    checks: dict[str, Callable[[Record, Desk], None]] = {"cylinder": _cylinder, "arc": _arc, "cone": _cone}
    if "size" in record.doubts:
        return
    if kind in checks:
        checks[kind](record, desk)
    elif "shape" not in record.doubts:
        _no_shape(record, desk)


def _no_shape(record: Record, desk: Desk) -> None:
    values = record.values
    if {"diameter", "radius", "large", "angle"} & set(record.doubts):
        return
    if shapes.has(values, "radius"):
        full = (("shape", "cylinder"),)
        _ask(
            record,
            "angle",
            "A radius without degrees or arc length: how much of the circle?",
            Choice("full circle, 360 degrees", full),
            Choice("half, 180 degrees", (("shape", "arc"), ("angle", "180"))),
            Choice("quarter, 90 degrees", (("shape", "arc"), ("angle", "90"))),
            near=("radius",),
        )
    elif girth := shapes.length(values, "girth"):
        closed = (("shape", "cylinder"), ("closed", "yes"))
        text = "A developed length without a diameter: is it a closed shell, or which radius?"
        _ask(
            record, "shape", text, Choice(f"closed shell, {desk.size(girth)} round", closed), near=("girth",)
        )
    else:
        _ask(record, "diameter", "Rolled to what diameter, inside or outside?", near=("description",))


def _cylinder(record: Record, desk: Desk) -> None:
    values = record.values
    if values.get("angle") and float(values["angle"]) < 360:
        part = (("shape", "arc"),)
        text = f"It says cylinder, and {values['angle']} degrees: which?"
        full = (("shape", "cylinder"), ("angle", ""))
        choices = Choice("full cylinder", full), Choice(f"segment of {values['angle']} degrees", part)
        _ask(record, "shape", text, *choices, near=("angle", "shape"))
    names = ("diameter", "radius", "girth")
    if not any(shapes.has(values, name) for name in names) and not set(names) & set(record.doubts):
        _ask(record, "diameter", "Rolled to what diameter, inside or outside?")
    if shapes.has(values, "diameter") or shapes.has(values, "radius"):
        _basis(record, desk)
    _across(record, desk)


def _basis(record: Record, desk: Desk, *names: str) -> None:
    if not _open(record, "basis"):
        return
    names = names or ("diameter", "radius", "large", "small", "chord", "rise")
    sizes = [(name, shapes.length(record.values, name)) for name in names]
    shown = [(name, size) for name, size in sizes if size]
    what = "diameter" if not shown else shown[0][0]
    value = f" of {desk.size(shown[0][1])}" if shown else ""
    noun = {"large": "two diameters", "small": "two diameters", "chord": "chord and rise"}.get(what, what)
    value = "" if noun != what else value
    choices = (
        Choice("inside (ID)", (("basis", "inside"),)),
        Choice("outside (OD)", (("basis", "outside"),)),
        Choice("mean (centreline)", (("basis", "mean"),)),
    )
    verb = "Are" if noun != what else "Is"
    _ask(
        record,
        "basis",
        f"{verb} the {noun}{value} inside, outside or on the centreline?",
        *choices,
        near=names,
    )


def _across(record: Record, desk: Desk) -> None:
    """Settle which dimension lies across the roll; a length near the girth, or two lengths, are a doubt."""
    values = record.values
    if "length" in record.doubts or values.get("length_ok"):
        return
    long, wide = shapes.length(values, "length"), shapes.length(values, "width")
    if not shapes.has(values, "length") and not shapes.has(values, "width"):
        if "width" not in record.doubts:
            _ask(record, "length", "How long is it, measured across the roll (along the axis)?")
        return
    girth = shapes.length(values, "girth") or shapes.girth_of(values, 0.0)
    if long and wide:
        _two_lengths(record, desk, long, wide, girth)
    elif girth and long and shapes.near(long, girth):
        text = f"A length of {desk.size(long)} is about the girth: is it along the axis, or the length round?"
        _ask(record, "length", text, Choice("along the axis, across the roll", (("length_ok", "yes"),)))


def _two_lengths(record: Record, desk: Desk, long: float, wide: float, girth: float | None) -> None:
    values = record.values
    by_length: tuple[tuple[str, str], ...] = (
        ("length", number_text(long)),
        ("width", ""),
        ("length_ok", "yes"),
    )
    by_width: tuple[tuple[str, str], ...] = (
        ("length", number_text(wide)),
        ("width", ""),
        ("length_ok", "yes"),
    )
    round_ways = [bool(girth and shapes.near(size, girth)) for size in (long, wide)]
    if long == wide and not any(round_ways):
        values.update(by_length)
        return
    if round_ways.count(True) == 1:
        values.update(by_width if round_ways[0] else by_length)
        other = desk.size(long if round_ways[0] else wide)
        record.assumptions.append(f"{other} is the girth, the other length lies across the roll")
        return
    if shapes.kind_of(values) == "arc" and not values.get("angle") and not values.get("chord"):
        by_length += (("arc_length", number_text(wide)),)
        by_width += (("arc_length", number_text(long)),)
    text = f"Which lies across the roll (along the axis): {desk.size(long)} or {desk.size(wide)}?"
    choices = Choice(f"length {desk.size(long)}", by_length), Choice(f"width {desk.size(wide)}", by_width)
    _ask(record, "length", text, *choices)


def _arc(record: Record, desk: Desk) -> None:
    values = record.values
    curve = [name for name in ("radius", "diameter") if shapes.has(values, name)]
    chord = shapes.has(values, "chord") and shapes.has(values, "rise")
    if not curve and not chord and not {"radius", "diameter", "chord", "rise"} & set(record.doubts):
        _ask(record, "radius", "Rolled to what radius, inside or outside?")
    along = shapes.has(values, "arc_length") or shapes.has(values, "girth")
    turn = values.get("angle") or along or shapes.has(values, "chord")
    two = shapes.has(values, "length") and shapes.has(values, "width")
    if not turn and not two and "angle" not in record.doubts:
        half = Choice("half, 180 degrees", (("angle", "180"),))
        quarter = Choice("quarter, 90 degrees", (("angle", "90"),))
        _ask(record, "angle", "How many degrees of arc, or what arc length?", half, quarter, near=("shape",))
    _basis(record, desk)
    on_arc = shapes.has(values, "arc_length") and not values.get("angle")
    if on_arc and values.get("basis") != "mean" and _open(record, "arc_length_on"):
        side = values.get("basis", "same") + " face"
        choices = (
            Choice("along the middle of the plate", (("arc_length_on", "mean"),)),
            Choice(f"along the {side}, as the radius", (("arc_length_on", "face"),)),
        )
        _ask(
            record,
            "arc_length_on",
            "Along which line is the arc length measured?",
            *choices,
            near=("arc_length",),
        )
    _across(record, desk)


def _cone(record: Record, desk: Desk) -> None:
    values = record.values
    for name in ("large", "small"):
        if not shapes.has(values, name) and not {name, "diameter"} & set(record.doubts):
            _ask(
                record, name, f"What is the diameter of the {name} end?", near=("large", "small", "diameter")
            )
    if not shapes.has(values, "height") and not shapes.has(values, "slant") and "height" not in record.doubts:
        _cone_height(record, desk)
    _basis(record, desk, "large", "small")


def _cone_height(record: Record, desk: Desk) -> None:
    given = shapes.length(record.values, "length")
    if given is None:
        _ask(record, "height", "How high is the cone, measured along its axis?")
        return
    size, text = desk.size(given), number_text(given)
    choices = (
        Choice(f"{size} along the axis", (("height", text),)),
        Choice(f"{size} along the slope", (("slant", text),)),
    )
    _ask(
        record,
        "height",
        f"Is the cone's length of {size} along the axis or the slope?",
        *choices,
        near=("length",),
    )


def _possible(record: Record, desk: Desk) -> None:
    """Ask again for sizes that cannot be one part: no bore left, a chord too long, a unit mistaken."""
    values = record.values
    thickness = thickness_of(values, desk.materials)
    if any(doubt.blocking for doubt in record.doubts.values()) or thickness is None:
        return
    if any(value[-1:] == "u" and value[:1].isdigit() for value in values.values()) and not values.get("unit"):
        return
    name = {"cylinder": "diameter", "arc": "radius", "cone": "large"}[shapes.kind_of(values)]
    try:
        shape = shapes.shape_of(values, thickness)
    except ValueError as error:
        _ask(record, name, f"These sizes cannot be one part ({error}); please check them.")
        return
    sizes = [size for size in (shapes.length(values, key) for key in SIZE_FIELDS) if size]
    if max(sizes) > LARGEST_MM and not values.get("size_ok"):
        yes = Choice(f"{desk.size(max(sizes))} is right", (("size_ok", "yes"),))
        _ask(
            record,
            "size",
            f"{desk.size(max(sizes))} is very large for a rolled part; is the unit right?",
            yes,
        )
        return
    diameter = (
        getattr(shape, "diameter_mm", 0)
        or getattr(shape, "small_mm", 0)
        or 2 * getattr(shape, "radius_mm", 0)
    )
    inside = mean_diameter(diameter, shape.basis, thickness) - thickness
    if inside <= 0:
        text = (
            f"A plate of {desk.size(thickness)} cannot be rolled to {desk.size(diameter)}; please check both."
        )
        _ask(record, name, text)


SIZE_FIELDS = [
    "diameter",
    "radius",
    "large",
    "small",
    "length",
    "width",
    "girth",
    "height",
    "slant",
    "chord",
    "rise",
    "arc_length",
    "thickness",
]
_CHECKS: tuple[Callable[[Record, Desk], None], ...] = (_quantity, _material, _thickness, _shape, _possible)
