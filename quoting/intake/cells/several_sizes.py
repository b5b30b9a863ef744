"""Reads cells that hold several sizes: 48 OD x 1/4 x 60."""

from __future__ import annotations

import re
from dataclasses import replace

from quoting.core import Basis, Mark, Measure, Place, SizeError, parse_measures
from quoting.intake.cells.size_cells import read_measure
from quoting.intake.row_record import Doubt, Record
from quoting.intake.shop_view import ShopView
from quoting.intake.size_column import SizeColumn
from quoting.tables import Cell, text_of

_MARKED = {
    Mark.DIAMETER: "diameter", Mark.RADIUS: "radius", Mark.THICKNESS: "thickness", Mark.LENGTH: "length",
    Mark.WIDTH: "width", Mark.HEIGHT: "height",
}  # fmt: skip

_WORD = re.compile(r"[^\W\d_]{5,}")


def read_combined(record: Record, slot: SizeColumn, cell: Cell, place: Place, desk: ShopView) -> None:
    """Read `48 OD x 1/4 x 60` or `PL 1/2 x 60 x 12'-0`: marked sizes first, the rest by their order."""
    text = text_of(cell)
    try:
        sizes = parse_measures(_ends_and_height(_both_ends(text)), slot.style)
    except SizeError as error:
        part = error.text[error.start : error.end]
        wish = (
            "what shape is it, and which sizes has it?" if _WORD.search(text) else "please give it in full."
        )
        asked = f'The size reads "{text}" ("{part}" is not clear); {wish}'
        record.doubt(Doubt("size", place, text, asked))
        return
    assign_sizes(record, slot, sizes, place, text, desk)


_SIDE = r"(?P<{}>[oi]\W?d\.?|(?:outside|inside)(?: dia\w*)?|dia\w*\.?|ø)"
_ENDS = re.compile(
    rf"^\W*(?:{_SIDE.format('before')}\W*)?(?P<one>\d{{3,5}}(?:\.\d+)?)(?: ?mm)?\s*[/–-]\s*(?:ø\s*)?"
    rf"(?P<two>\d{{3,5}}(?:\.\d+)?)(?: ?mm)?(?:\W*{_SIDE.format('behind')})?"
    r"\s*[x×*]\s*(?P<wall>\d+(?:[.,]\d+)?)"
    r"(?![\d/])(?: ?mm)?(?:\s*(?:thk|thick|wt|wall|pl)\b)?",
    re.I,
)
"""The two ends of a cone with their plate: OD 1620/1220 x 8; three figures, so that it is no fraction."""


def _both_ends(text: str) -> str:
    """Return a text with the mark of a diameter before both ends of a cone that bear one.

    A pair that differs by twice the plate may be the two sides of a shell, and stays.

    >>> _both_ends("OD 1620/1220 x 8"), _both_ends("1620/1220 ID x 8 x 900"), _both_ends("OD 1020/1000 x 10")
    ('OD 1620 x OD 1220 x thk 8', 'ID 1620 x ID 1220 x thk 8 x 900', 'OD 1020/1000 x 10')
    """
    match = _ENDS.match(text) if "/" in text or "-" in text or "–" in text else None
    if match is None or bool(match["before"]) == bool(match["behind"]):
        return text
    one, two, wall = (float(match[name].replace(",", ".")) for name in ("one", "two", "wall"))
    if abs(abs(one - two) - 2 * wall) < _SAME or one == two or wall * _THIN > min(one, two):
        return text
    mark = match["before"] or match["behind"]
    return f"{mark} {match['one']} x {mark} {match['two']} x thk {match['wall']}{text[match.end() :]}"


_ENDS_AND_HEIGHT = re.compile(
    rf"^\W*(?:{_SIDE.format('before')}\W*)?(?P<one>\d{{2,5}}(?:\.\d+)?)(?: ?mm|\")?\s*[/–-]\s*(?:ø\s*)?"
    rf"(?P<two>\d{{2,5}}(?:\.\d+)?)(?: ?mm|\")?(?:\W*{_SIDE.format('behind')})?\s*[x×*]\s*"
    r"(?P<rest>(?:h\W{0,2})?\d[\d.,/ -]*(?:mm|\"|in\b)?\s*(?:high|height|ht|h|tall|long|lg|length|l)?\b\W*)$",
    re.I,
)
"""The two ends of a cone and its height: 1200/600 ID x 700 high."""
_SAME, _THIN = 0.5, 10
_APART = 1.2
"""Ends of a cone that are closer may be the two sides of one plate."""


def _ends_and_height(text: str) -> str:
    """Return a text with the mark of a diameter before both ends of a cone whose height follows.

    >>> _ends_and_height("1200/600 ID x 700 high"), _ends_and_height("1216/1200 ID x 700 high")
    ('ID 1200 x ID 600 x 700 high', '1216/1200 ID x 700 high')
    """
    match = _ENDS_AND_HEIGHT.match(text) if "/" in text or "-" in text or "–" in text else None
    if match is None or bool(match["before"]) == bool(match["behind"]):
        return text
    one, two = float(match["one"]), float(match["two"])
    if max(one, two) < _APART * min(one, two):
        return text
    mark = match["before"] or match["behind"]
    return f"{mark} {match['one']} x {mark} {match['two']} x {match['rest'].strip()}"


def assign_sizes(
    record: Record, slot: SizeColumn, sizes: tuple[Measure, ...], place: Place, text: str, desk: ShopView
) -> None:
    """Give each of several sizes its field."""
    found = [(name, at) for at, size in enumerate(sizes) if (name := _field(size))]
    loose = [at for at, size in enumerate(sizes) if not _field(size)]
    names = [name for name, _ in found]
    if names.count("diameter") == 2:
        found = _cone_pair(found, sizes)
        names = [name for name, _ in found]
    if len(set(names)) != len(names):
        record.doubt(Doubt("size", place, text, f'The size reads "{text}"; which number is which?'))
        return
    if loose:
        placed = _loose(names, [sizes[at].low for at in loose])
        if placed is None:
            record.doubt(Doubt("size", place, text, f'The size reads "{text}"; which number is which?'))
            return
        found += list(zip(placed, loose, strict=True))
    for name, at in found:
        read_measure(
            record, replace(slot, field=name, header_unit=slot.header_unit), sizes[at], place, text, desk
        )


def _field(size: Measure) -> str:
    """Return the field a size is marked for; a side of the plate alone marks a diameter."""
    if size.mark is None:
        return "diameter" if size.basis in (Basis.INSIDE, Basis.OUTSIDE) else ""
    return _MARKED.get(size.mark, "")


def _cone_pair(found: list[tuple[str, int]], sizes: tuple[Measure, ...]) -> list[tuple[str, int]]:
    """Return two diameters of one size text as the large and the small end of a cone."""
    pair = sorted((at for name, at in found if name == "diameter"), key=lambda at: -sizes[at].low)
    ends = [("large", pair[0]), ("small", pair[1])]
    return ends + [(name, at) for name, at in found if name != "diameter"]


def _loose(marked: list[str], numbers: list[float]) -> list[str] | None:
    """Return the fields of unmarked numbers, or None when their order does not tell.

    Plate is written smallest to largest (thickness x width x length); beside a marked diameter a number far
    smaller than the other is the thickness (common practice, no source).
    """
    if "thickness" in marked and "diameter" not in marked and "radius" not in marked and len(numbers) == 2:
        return ["width", "length"]
    if ("diameter" in marked or "radius" in marked or "large" in marked) and len(numbers) == 1:
        if "thickness" in marked:
            return ["length"]
        return ["thickness"] if {"length", "width"} & set(marked) else None
    if ("diameter" in marked or "radius" in marked) and len(numbers) == 2 and "thickness" not in marked:
        small, large = sorted(numbers)
        if small * 8 > large:
            return None
        return ["thickness", "length"] if numbers[0] == small else ["length", "thickness"]
    return None


def holds_several(cell: Cell) -> bool:
    """Return whether a cell may hold several sizes joined by x."""
    return isinstance(cell, str) and any(sign in cell.lower() for sign in (" x ", "x", "×")) and len(cell) > 4
