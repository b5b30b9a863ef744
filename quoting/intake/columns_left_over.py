"""Takes a column that no word explains for the one value that its table lacks, where it can be no other.

What is taken this way is said on every line of the table; where two columns or two values are left, the
columns are asked about as before.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from quoting.core import Measure, SizeError, parse_measures
from quoting.intake.layout import Meaning, OrderTable, TableColumn, is_word
from quoting.intake.texts import plain_sizes
from quoting.intake.words import folded
from quoting.tables import Sheet, is_empty, text_of

_HOLDERS = {
    "quantity": frozenset(
        ("quantity", "breaks", "per_unit", "per_ring", "of_one_ring", "reqd", "multiplier")
    ),
    "thickness": frozenset(("thickness", "gauge", "size", "schedule", "nominal")),
    "length": frozenset(("length", "width", "height", "slant", "size")),
}
"""The values looked for, and the fields that give them, or may."""
_ROUND = frozenset(
    ("diameter", "radius", "large", "small", "top", "bottom", "girth", "chord", "circumference", "nominal")
)
_ENOUGH = 0.6
_MOST_PIECES = 500
_THICKEST_MM, _THICKEST_INCH = 100, 4
_LEAST_TIMES = 5
"""A size so many times as large as the plate is thick is no second thickness."""
_DIGIT = re.compile(r"\d")
_OF_AN_ASSEMBLY = re.compile(
    r"\b(?:spac\w*|pitch\w*|dist\w*|gap|clear\w*|c/c|o/c|oc|elev\w*|loc\w*|sta|station|offset|lap|overlap|weld\w*"
    r"|leg|fillet|holes?|bolts?|slots?|flanges?|nozzles?|from|cover|insul\w*|lining|coat\w*|paint\w*|toler\w*|tol"
    r"|min\w*|max\w*|was|old|price|cost|rate|weight|wt|area|vol\w*)\b"
)
"""Headings of sizes that are none of the part itself."""
_GAUGE_BESIDE = re.compile(r"\s*\(\s*(?:#\s?)?\d{1,2}\s*(?:ga|gauge|gage)\.?\s*\)", re.I)
"""The gauge of a thickness that is given in figures: .125" (11 ga)."""
_PARTS = re.compile(
    r"(?:[^\W\d_]+ )?(?:rings|shells|cans|cylinders|drums|sleeves|liners|tubes|pipes|ducts|bands|collars"
    r"|hoops|rims|barrels|casings|jackets|cones)"
)
"""Headings that count the rolled parts themselves; openings, gussets, courses are counts in each of them."""


@dataclass(frozen=True, slots=True)
class LeftOver:
    """A table with such columns taken, and what its lines say of each."""

    table: OrderTable
    said: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class _Column:
    """A column that nothing explains: its texts and the sizes in them."""

    column: TableColumn
    texts: tuple[str, ...]
    sizes: tuple[Measure, ...]


def taken_by_elimination(sheet: Sheet, table: OrderTable) -> LeftOver:
    """Return the table with the columns that can only be what it lacks, and what is said of them.

    >>> from quoting.intake.layout.find_tables import layout_of
    >>> rows = [["Qty", "Thk", "ID", "Tall", "Grade"], ["2", '1/4"', '48"', '60"', "A36"]]
    >>> sheet = Sheet("a.csv", "csv", rows)
    >>> taken_by_elimination(sheet, layout_of(sheet).tables[0]).said
    ('"Tall" is taken as the length: no other column gives one',)
    """
    held = {column.meaning.field for column in table.columns}
    lacking = [name for name, holders in _HOLDERS.items() if not held & holders]
    if not lacking or not held & _ROUND or _sizes_in_words(sheet, table):
        return LeftOver(table)
    left = _unexplained(sheet, table)
    told: dict[int, str] = {}
    for name in lacking:
        fitting = [one for one in left if _hinted(name, one) and _FITS[name](one)]
        if len(fitting) == 1 and fitting[0].column.index not in told:
            told[fitting[0].column.index] = name
    columns = tuple(
        replace(one, meaning=Meaning(told[one.index], None, one.meaning.unit)) if one.index in told else one
        for one in table.columns
    )
    said = tuple(
        f'"{one.header}" is taken as the {told[one.index]}: no other column gives one'
        for one in table.columns
        if one.index in told
    )
    return LeftOver(replace(table, columns=columns), said)


def _sizes_in_words(sheet: Sheet, table: OrderTable) -> bool:
    """Return whether descriptions or remarks hold figures in most rows: sizes may stand there."""
    for column in table.columns:
        if column.meaning.field in ("description", "shape"):
            texts = _texts(sheet, table, column)
            if sum(len(_DIGIT.findall(_MARK.sub(" ", text))) > 1 for text in texts) * 2 > len(texts):
                return True
    return False


_MARK = re.compile(
    r"(?<!\w)(?!(?:id|od|dn|ga|sch|l|d|r|t|h|w)\d)[A-Za-z]{1,3}-?\d{1,3}(?:-\d{1,3})?[A-Za-z]?(?!\w)", re.I
)
"""K2-1, S12: what a part is called."""


def _unexplained(sheet: Sheet, table: OrderTable) -> list[_Column]:
    found = []
    numbered = any(column.meaning.field == "number" for column in table.columns)
    for column in table.columns:
        if column.meaning.field or not column.header.strip():
            continue
        texts, filled = _texts(sheet, table, column), _filled(sheet, table, column)
        runs = _runs(texts) and not (numbered and _PIECES.fullmatch(folded(column.header).strip(" .")))
        if not texts or filled < _ENOUGH * len(table.rows) or runs:
            continue
        sizes = [_size(text) for text in texts]
        if None not in sizes:
            found.append(_Column(column, tuple(texts), tuple(one for one in sizes if one is not None)))
    return found


_PIECES = re.compile(r"st|kpl|db|pce|stk")
"""Pieces, and no number of a line where another column numbers them."""


def _filled(sheet: Sheet, table: OrderTable, column: TableColumn) -> int:
    """Return how many rows fill a column, with a size or what stands for one that is open."""
    rows = (sheet.rows[row] for row in table.rows)
    texts = (text_of(row[column.index]).strip() for row in rows if column.index < len(row))
    return sum(text not in _BLANK for text in texts)


def _texts(sheet: Sheet, table: OrderTable, column: TableColumn) -> list[str]:
    rows = (sheet.rows[row] for row in table.rows)
    cells = (row[column.index] for row in rows if column.index < len(row))
    texts = (text_of(cell) for cell in cells if not is_empty(cell))
    return [text for text in texts if text.lower().strip(" .") not in _OPEN]


_BLANK = frozenset(("", "-", "–", "—", "/", "n/a"))
_OPEN = _BLANK | {"?", "??", "???", "tbd", "tba", "tbc"}
"""What stands for a size that is not known yet, and tells nothing of its column."""


def _size(text: str) -> Measure | None:
    try:
        sizes = parse_measures(plain_sizes(_GAUGE_BESIDE.sub("", text)))
    except SizeError:
        return None
    return sizes[0] if len(sizes) == 1 else None


def _runs(texts: Sequence[str]) -> bool:
    """Return whether numbers go on by one step, as those of lines do."""
    numbers = [int(text) for text in texts if text.isdecimal()]
    return len(numbers) == len(texts) > 1 and {b - a for a, b in pairwise(numbers)} <= {1, 5, 10}


def _hinted(name: str, one: _Column) -> bool:
    """Return whether the heading has a word that may mean the value, though it means others too: tall."""
    header = folded(one.column.header)
    if _OF_AN_ASSEMBLY.search(header):
        return False
    if name == "quantity" and (is_word("other", header) or is_word("else", header)):
        return False  # holes, lugs: how many there are in each part
    if name == "quantity" and _PARTS.fullmatch(header.strip()):
        return True
    return is_word(f"perhaps_{name}", header)


def _is_count(one: _Column) -> bool:
    whole = all(text.isdecimal() and 0 < int(text) <= _MOST_PIECES for text in one.texts)
    return whole and not one.column.meaning.unit


def _is_plate(one: _Column) -> bool:
    most = _THICKEST_INCH if any(size.inch_like for size in one.sizes) else _THICKEST_MM
    return all(0 < size.low <= most for size in one.sizes)


def _is_long(one: _Column) -> bool:
    inch = any(size.inch_like for size in one.sizes) or one.column.meaning.unit == "in"
    least = _THICKEST_INCH / 2 if inch else _LEAST_TIMES
    return all(size.low >= least for size in one.sizes)


_FITS: dict[str, Callable[[_Column], bool]] = {
    "quantity": _is_count,
    "thickness": _is_plate,
    "length": _is_long,
}
