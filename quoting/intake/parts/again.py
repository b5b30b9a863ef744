"""Whether a row that left its sizes open is clear after all once a cell of it is read as one whole part."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from quoting.core import Choice
from quoting.intake import shapes
from quoting.intake.parts.sizes import Size
from quoting.intake.parts.spelled import Spelled
from quoting.intake.row_record import Doubt, Record
from quoting.intake.shop_view import ShopView

_OPEN = frozenset((
    "size", "thickness", "gauge", "diameter", "radius", "basis", "large", "small", "length", "width",
    "height", "girth", "chord", "rise", "arc_length", "slant", "angle", "number_ok", "row_unit",
))  # fmt: skip
_NOT_ROUND = frozenset(("flat", "unsupported", "bought"))
_LENGTHS = ("length", "width", "height")
_ONE_OF = {
    "thickness": ("thickness", "gauge", "schedule"),
    "diameter": ("diameter", "radius", "large", "small", "girth", "chord", "nominal"),
    "length": ("length", "width", "height", "slant"),
}
_FIELDS = {
    "D": ("diameter", "large", "small"), "R": ("radius",), "T": ("thickness",), "C": ("chord",),
    "S": ("rise",), "L": _LENGTHS, "W": _LENGTHS, "H": _LENGTHS,
    "K": ("slant",), "A": ("angle",), "B": ("arc_length", "girth"),
}  # fmt: skip
NEEDED = frozenset((*_ONE_OF, "basis"))
"""What every part has to have."""
_TURNED = ("diameter", "angle", "half", "chord", "rise", "arc_length", "girth")
_SAME = 0.06


def left_open(record: Record) -> frozenset[str]:
    """Return the sizes that a row left open: those in doubt, and those that nothing gave."""
    values = record.values
    if values.get("shape") in _NOT_ROUND or values.get("left_out"):
        return frozenset()
    found = {name for name in record.doubts if name in _OPEN}
    found |= _not_possible(record)
    found |= {name for name, fields in _ONE_OF.items() if not any(values.get(one) for one in fields)}
    round_ = any(values.get(name) for name in ("diameter", "radius", "large", "small"))
    if values.get("radius") and not any(values.get(name) for name in _TURNED):
        found.add("angle")
    if values.get("girth") and not round_ and not values.get("radius"):
        found.add("diameter")
    round_ = round_ or bool(values.get("chord") and values.get("rise"))
    if round_ and not values.get("basis"):
        found.add("basis")
    return frozenset(found)


def _not_possible(record: Record) -> set[str]:
    """Return the sizes that no rolled part has beside each other: then one number was taken for another."""
    thick = shapes.length(record.values, "thickness")
    if thick is None:
        return set()
    across = [shapes.length(record.values, name) for name in ("length", "width", "height")]
    rounds = [
        shapes.length(record.values, name) for name in ("diameter", "radius", "large", "small", "chord")
    ]
    found = {"thickness"} if thick > _THICKEST_MM else set()
    found |= {"length"} if any(one is not None and one < thick for one in across) else set()
    found |= {"diameter"} if any(one is not None and one < 2 * thick for one in rounds) else set()
    given = {name for name in ("length", "width", "height") if record.values.get(name)}
    return found | ({"length"} if len(given) > 1 and "girth" not in record.values else set())


_THICKEST_MM = 160.0
"""No thicker plate is rolled cold by a job shop (common practice, no source)."""


def agrees(record: Record, sizes: Sequence[Size]) -> bool:
    """Return whether each size that a text gives stands in the record as it is."""
    held = {
        name: value
        for name in {one for names in _FIELDS.values() for one in names}
        if (value := _value(record, name)) is not None
    }
    sides = {one.side for one in sizes if one.side and one.field in ("D", "R")}
    if sides and record.values.get("basis") not in sides:
        return False
    for one in sizes:
        looked_up = one.piece.unit in ("ga", "sch", "NPS", "DN")
        if looked_up or one.field == "G":
            continue
        values = [held[name] for name in _FIELDS[one.field] if name in held]
        if not any(abs(value - one.value) <= _SAME for value in values):
            return False
    return True


def _value(record: Record, name: str) -> float | None:
    text = record.values.get(name, "")
    return float(text) if name == "angle" and text else shapes.length(record.values, name)


def as_it_was(record: Record, spelled: Spelled, description: str) -> Record:
    """Return a record that was read from a text written again, with the customer's own words in it."""
    if description:
        record.values["description"] = description
    record.texts = [replace(row, text=row.text.replace(spelled.new, spelled.old)) for row in record.texts]
    record.readings = [
        replace(one, text=spelled.old) if one.text == spelled.new else one for one in record.readings
    ]
    record.places = {
        name: (place, text.replace(spelled.new, spelled.old)) for name, (place, text) in record.places.items()
    }
    record.doubts = {
        name: replace(
            one,
            read=one.read.replace(spelled.new, spelled.old),
            text=one.text.replace(spelled.new, spelled.old),
        )
        for name, one in record.doubts.items()
    }
    record.assumptions.append(f'"{spelled.old}" is read as {", ".join(spelled.marked)}')
    return record


def in_two_ways(record: Record, again: Record, spelled: Spelled, desk: ShopView) -> None:
    """Ask which of two whole readings of a record's text holds."""
    names = [name for name in shapes.SIZES if record.values.get(name) != again.values.get(name)]
    names += [name for name in ("angle", "basis") if record.values.get(name) != again.values.get(name)]
    if not names:
        return
    choices = []
    for one in (record, again):
        given = [name for name in names if one.values.get(name)]
        said = ", ".join(f"{name.replace('_', ' ')} {_shown(one, name, desk)}" for name in given)
        choices.append(Choice(said, tuple((name, one.values.get(name, "")) for name in names)))
    two = "; or ".join(choice.label for choice in choices)
    asked = f'"{spelled.old}" can be read in two ways: {two}. Which one is right?'
    record.doubt(Doubt("size", record.where("size", "diameter")[0], spelled.old, asked, tuple(choices)))


def _shown(record: Record, name: str, desk: ShopView) -> str:
    size = shapes.length(record.values, name) if name in shapes.SIZES else None
    return record.values[name].rstrip("u") if size is None else desk.size(size)
