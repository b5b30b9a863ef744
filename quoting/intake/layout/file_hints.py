"""How a whole file writes its numbers, units and dates, told from all hints together."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from quoting.core import Mark, NumberStyle
from quoting.intake.layout.find_tables import Layout, OrderTable, TableColumn
from quoting.intake.layout.sheet_rules import BY_LANGUAGE, SIZES, style_of
from quoting.intake.texts import part_text
from quoting.shop import Materials
from quoting.tables import Sheet, text_of

_EN_GRADE = re.compile(
    r"\b(?:S\s?(?:235|275|355|460|690)\w*|P\s?(?:235|265|295|355)\w*|1\.\d{4}"
    r"|Q[23]\d\d\w*|16Mo3|St ?37|St ?52)\b",
    re.I,
)
_POINT_LANGUAGES = frozenset(("zh",))
_NO_PLATE_MM = 0.8
"""Thinner metal is not rolled on a plate roll: such a number is of inches (common practice, no source)."""
_METRIC_FROM = 400
"""No plate roll makes 400 in across, and no plate is 400 in thick (common practice, no source)."""
_NEVER_INCH = 1000
"""Nor is anything rolled from plate 1000 in long: a bare number so large is of millimetres, also beside sizes
marked in inches (common practice, no source)."""
_SAMPLE = 400
_LONGEST = 200
_TEXTS = SIZES | {"description", ""}


@dataclass(frozen=True, slots=True)
class UnitHints:
    """What the whole file tells of the unit of bare numbers, and in words why."""

    unit: str = ""
    why: str = ""


def file_style(pairs: Sequence[tuple[Sheet, Layout]], foreign: str) -> NumberStyle:
    """Return the decimal mark of the whole file: as its sizes show it, else as its language writes it."""
    styles = {style_of(sheet, table.rows, table) for sheet, layout in pairs for table in layout.tables}
    styles.discard(NumberStyle.UNKNOWN)
    if len(styles) == 1:
        return styles.pop()
    if not styles and foreign and foreign not in _POINT_LANGUAGES:
        return NumberStyle.COMMA
    return NumberStyle.UNKNOWN


def unit_hints(
    pairs: Sequence[tuple[Sheet, Layout]], style: NumberStyle, foreign: str, materials: Materials
) -> UnitHints:
    """Return the unit that marks, grades, magnitudes and language of the whole file speak for."""
    seen = _Seen()
    for sheet, layout in pairs:
        for table in layout.tables:
            for column in table.columns:
                if column.meaning.field in _TEXTS or column.meaning.field == "material":
                    _look(seen, sheet, table, column, (style, materials))
    if seen.inch and seen.metric:
        return UnitHints()
    if seen.metric:
        return UnitHints("mm", "marked sizes in the sheet")
    if seen.inch:
        return _beside_inches(seen)
    if seen.thin and seen.largest <= _METRIC_FROM and not seen.grades and not foreign:
        return UnitHints("in", f"a thickness of {seen.thin:g} can only be inches")
    for said, why in (
        (seen.grades, "the grades are European ones"),
        (seen.largest > _METRIC_FROM, _only_metric(seen)),
        (foreign, BY_LANGUAGE),
    ):
        if said:
            return UnitHints("mm", why)
    return UnitHints()


def _beside_inches(seen: _Seen) -> UnitHints:
    """Return the unit of bare numbers in a file with sizes that are marked in inches."""
    if seen.largest <= _METRIC_FROM:
        return UnitHints("in", "sizes marked in inches in the sheet")
    metric = seen.largest > _NEVER_INCH and not seen.thin
    return UnitHints("mm", _only_metric(seen)) if metric else UnitHints()


def _only_metric(seen: _Seen) -> str:
    return f"a size of {seen.largest:g} can only be millimetres"


@dataclass(slots=True)
class _Seen:
    inch: int = 0
    metric: int = 0
    grades: int = 0
    largest: float = 0.0
    thin: float = 0.0


def _look(
    seen: _Seen, sheet: Sheet, table: OrderTable, column: TableColumn, by: tuple[NumberStyle, Materials]
) -> None:
    """Count what the cells of one column tell."""
    sized = column.meaning.field in SIZES
    for row in table.rows[:_SAMPLE]:
        cells = sheet.rows[row]
        cell = cells[column.index] if column.index < len(cells) else ""
        if isinstance(cell, (int, float)) and not isinstance(cell, bool):
            if sized and not column.meaning.unit:
                seen.largest = max(seen.largest, float(cell))
        elif isinstance(cell, str) and cell and len(cell) <= _LONGEST:
            seen.grades += _EN_GRADE.search(cell) is not None
            if column.meaning.field == "material" or column.meaning.unit:
                continue
            for one in part_text(text_of(cell), *by).sizes:
                size = one.measure
                seen.inch += size.inch_like
                seen.metric += size.metric_like
                bare = one.clear and size.unit is None and not size.fraction
                if bare and (size.mark or one.joined or sized):
                    seen.largest = max(seen.largest, size.low)
                if bare and size.mark is Mark.THICKNESS and 0 < size.low < _NO_PLATE_MM:
                    seen.thin = size.low


def day_first(sheet: Sheet, table: OrderTable, today: date, *, foreign: bool, metric: bool) -> bool:
    """Return whether 10/12 is the tenth of December: the customer's language or a day over 12 says so."""
    columns = [column.index for column in table.columns if column.meaning.field == "due"]
    firsts, seconds = [0], [0]
    for row in table.rows:
        for index in columns:
            text = text_of(sheet.rows[row][index]) if index < len(sheet.rows[row]) else ""
            if match := re.match(r"^(\d{1,2})[-/.](\d{1,2})[-/.]\d{2,4}$", text):
                firsts.append(int(match.group(1)))
                seconds.append(int(match.group(2)))
    if max(firsts) > 12 or max(seconds) > 12:
        return max(firsts) > 12
    return foreign
