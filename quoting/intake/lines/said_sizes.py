"""Gives a row the sizes that a title, a note or the heading above says, where the row leaves them out."""

from __future__ import annotations

import re
from functools import lru_cache

from quoting.core import SizeError, parse_measures
from quoting.intake import shapes
from quoting.intake.cells import read_measure
from quoting.intake.layout import ACROSS, Section, TableContext
from quoting.intake.row_record import Record
from quoting.intake.size_column import SizeColumn
from quoting.intake.texts import plain_sizes

_ROUND = (
    "diameter",
    "radius",
    "large",
    "small",
    "girth",
    "chord",
    "circumference",
    "nominal",
    "top",
    "bottom",
)
_ALIKE = {"thickness": ("thickness", "gauge", "schedule"), "diameter": _ROUND, "radius": _ROUND}
_NOT_BESIDE = frozenset(("size", "number_ok"))
"""Doubts about which number is which: one of them may be the size that is said elsewhere."""


def take_said_sizes(record: Record, frame: TableContext, section: Section | None) -> None:
    """Take the sizes of the heading above, else those said for all lines, for what the row does not give.

    A blank cell under a head of its own is filled only where the text says all, each, unless noted.
    """
    own = dict(section.sizes) if section else {}
    if not own and not any(name.startswith("size ") for name in frame.said.rules):
        return
    if _NOT_BESIDE & set(record.doubts) or record.values.get("shape") in ("flat", "unsupported"):
        return
    for name in ("thickness", "diameter", "radius", *ACROSS):
        text, where = own.get(name, ""), f'as the heading "{section.text if section else ""}" says'
        if not text:
            headed = any(column.meaning.field in _alike(name) for column in frame.table.columns)
            text = frame.said.size(name) if not headed or frame.said.every(name) else ""
            where = f'as the sheet says for all lines: "{text}"'
        taken = set(_alike(name)) & (
            {one for one in record.values if record.values[one]} | set(record.doubts)
        )
        if text and not taken and _put(record, frame, name, text):
            record.assumptions.append(f"{name} {where}")


def take_said_count(record: Record, frame: TableContext, section: Section | None) -> None:
    """Take the count of pieces that the heading above says, or a note for each line: 6 off, qty 6 of each."""
    if record.values.get("quantity") or "quantity" in record.doubts:
        return
    heading = section.text if section else ""
    count, where = count_of_each(heading), f'as the heading "{heading}" says'
    if not count:
        said = {count_of_each(note) for note in frame.said.notes if _OF_EACH.search(note)} - {""}
        count, where = said.pop() if len(said) == 1 else "", "as the sheet says for all lines"
    if count:
        record.values["quantity"] = count
        record.assumptions.append(f"quantity {where}")


@lru_cache(maxsize=2048)
def count_of_each(text: str) -> str:
    """Return the count of pieces that is all a heading or note says, or nothing.

    >>> count_of_each("6 OFF"), count_of_each("qty 6 pcs af hver"), count_of_each("6 off 2000 long")
    ('6', '6', '')
    """
    match = _COUNT.fullmatch(text.strip(" .:;-–!"))
    return (match["one"] or match["two"]) if match else ""


_OF_EACH = re.compile(
    r"\b(?:each|every|all|je(?:weils)?|jeder?|chaque|chacune?|cada|ciascun[oa]|ognuno|elk|ieder|ka[zżž]d\w*"
    r"|af hver|av varje|av hver|hver|varje|kutakin|her birinden|mindegyikb\w*|din fiecare"
    r"|fiecare|svakog|po)\b|每",
    re.I,
)
_COUNT = re.compile(
    r"(?:(?:qty|quantity)\W{1,3}(?P<one>\d{1,3})(?: (?:off|pcs|pieces))?"
    r"|(?P<two>\d{1,3}) ?(?:off|pcs|pieces))\.?"
    rf"(?: (?:of |od |von )?(?:{_OF_EACH.pattern}))?(?: (?:item|line|position|pos|part)s?)?",
    re.I,
)


def _alike(name: str) -> tuple[str, ...]:
    return _ALIKE.get(name, (*ACROSS, "slant", "arc_length"))


def _put(record: Record, frame: TableContext, name: str, text: str) -> bool:
    try:
        sizes = parse_measures(plain_sizes(text), frame.style)
    except SizeError:
        return False
    if len(sizes) != 1:
        return False
    slot = SizeColumn(name, "", None, frame.unit.unit, frame.style)
    read_measure(record, slot, sizes[0], record.place, text, frame.desk)
    return (
        name in record.values or name in record.doubts or (name == "thickness" and "gauge" in record.values)
    )


_HALVES = re.compile(
    r"\b(?:half[- ]?(?:rounds?|shells?|circles?|cylinders?|pipes?|sections?|rings?|casings?"
    r"|liners?|cans?|tubes?)"
    r"|halves|halfs)\b",
    re.I,
)
"""Headings of counts that count halves: each piece is one."""
_WHOLE = re.compile(r"\b(?:full|whole|complete|closed|360)\b", re.I)
_COUNTS = frozenset(("quantity", "per_unit"))
_TURNS = frozenset(("angle", "half", "chord", "rise", "arc_length", "girth", "large", "small"))
"""Values that say how much of a circle a part is, or that it is no part of one."""


def _two_flat_lengths(record: Record) -> bool:
    return shapes.has(record.values, "length") and shapes.has(record.values, "width")


def _take_closed(record: Record, frame: TableContext) -> None:
    """Take a radius, or a developed length alone, for a full circle where the sheet says so for all lines."""
    open_ = (_TURNS - {"girth"}) & {*record.values, *record.doubts}
    if frame.has_angles or open_ or "shape" in record.values or "shape" in record.doubts:
        return
    if shapes.has(record.values, "radius"):
        record.values["shape"] = "cylinder"
    elif shapes.has(record.values, "girth") and not shapes.has(record.values, "diameter"):
        record.values |= {"shape": "cylinder", "closed": "yes"}
    else:
        return
    record.assumptions.append("a full circle, as the sheet says for all lines")


def take_said_angle(record: Record, frame: TableContext) -> None:
    """Take the degrees of arc that the sheet says for all lines, or that the heading of the count says.

    Not where a column gives them, or the row says that it is a whole ring; beside a shape column that
    says cylinder it is asked about later.
    """
    heads = [one.header for one in frame.table.columns if one.meaning.field in _COUNTS]
    head = next((text for text in heads if _HALVES.search(text)), "")
    angle = "180" if head else frame.said.angle
    if frame.said.closed and not angle:
        _take_closed(record, frame)
    if not angle or frame.has_angles or _TURNS & {*frame.fields, *record.values, *record.doubts}:
        return
    if {"shape", "diameter", "radius"} & set(record.doubts) or _two_flat_lengths(record):
        return
    sized = any(shapes.has(record.values, name) for name in ("diameter", "radius"))
    if not sized or any(_WHOLE.search(row.text) for row in record.texts):
        return
    record.values["angle"] = angle
    record.values.setdefault("shape", "arc")
    said = f'as the heading "{head}" says' if head else "as the sheet says for all lines"
    record.assumptions.append(f"{angle} degrees of arc, {said}")
