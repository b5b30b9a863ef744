"""Grades what a reader made of a sheet of the second or the unseen corpus, row by row.

A library: whoever runs a reader fills `ReadSheet` from it and calls `grade`. Nothing here knows the reader.
`ReadRow.texts` holds what the reader says of a row on its own account: questions, assumptions, notes that
something is not priced, the reason why a row was left out. The customer's own remark passed along is none.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum
from itertools import permutations

from tests.benchmarks.line_differences import differences
from tests.data.sheet_doubts import SHEET_DOUBTS
from tests.data.sheet_model import Expect, Line, Part, Sheet, Want

FIELD_WORDS = {
    "shape": ("shape", "cylinder", "cone", "arc", "segment", "half", "round"),
    "thickness": ("thick", "gauge", "gage", "wall"),
    "diameter": ("diameter", "radius", "inside", "outside", "mean", "girth", "chord", "pipe"),
    "angle": ("angle", "degree", "arc", "chord", "half", "segment", "girth"),
    "length": ("length", "width", "height", "long", "axis", "slant", "course"),
    "quantity": ("quantit", "pieces", "count", "sets", "times"),
    "material": ("material", "grade", "metal", "steel"),
    "ends": ("ends", "flat", "pre-bend", "trim"),
    "due": ("date", "due", "week", "day", "deliver", "promise"),
    "part": ("part", "number", "drawing", "mark"),
    "rev": ("rev", "index", "drawing"),
    "free": ("free", "issue", "supplied", "customer's plate", "material"),
    "cert": ("cert", "3.1", "mtr"),
}


class Told(StrEnum):
    """What a reader did with a row."""

    PRICED = "priced"
    ASKED = "asked"
    DECLINED = "declined"
    IGNORED = "ignored"


@dataclass(frozen=True, slots=True)
class ReadRow:
    """What a reader made of one row; one of several lines of a row has an entry of its own.

    `row` and `column` count from 1; `column` is 0 for a part that lies along its row. `line` is set when the
    row is PRICED. A row with a blocking question is ASKED; questions that do not block go into `texts`.
    """

    row: int
    told: Told
    line: Line | None = None
    texts: tuple[str, ...] = ()
    tab: str = ""
    column: int = 0
    number: str = ""


@dataclass(frozen=True, slots=True)
class ReadSheet:
    """What a reader made of one file; `refused` is its message when it did not read the file at all."""

    rows: tuple[ReadRow, ...] = ()
    texts: tuple[str, ...] = ()
    refused: str = ""


class Grade(StrEnum):
    """How good the reading of a row is."""

    FINE = "fine"
    NEEDLESS = "asked needlessly"
    MISSED = "missed"
    WRONG_SAID = "wrong but said"
    SILENT = "silent wrong"
    BAD_MESSAGE = "bad message"


@dataclass(frozen=True, slots=True)
class Graded:
    """The grade of one part, or of a row that is none and was priced."""

    sheet: str
    tab: str
    row: int
    wanted: str
    grade: Grade
    why: str = ""


def tally(graded: Iterable[Graded]) -> dict[Grade, int]:
    """Return how many rows have each grade, all grades named."""
    counts = Counter(one.grade for one in graded)
    return {grade: counts[grade] for grade in Grade}


def grade(sheet: Sheet, read: ReadSheet) -> tuple[Graded, ...]:
    """Return a grade for every part of the sheet, and for every other row that was priced all the same."""
    if read.refused:
        return tuple(_refused(sheet, part, read.refused) for part in sheet.parts())
    one_tab = len(sheet.tabs) == 1
    graded: list[Graded] = []
    used: set[int] = set()
    for part in sheet.parts():
        mine = [index for index, row in enumerate(read.rows) if _stands_in(row, part, one_tab)]
        used.update(mine)
        grade_, why = _grade(part.want, [read.rows[index] for index in mine], read.texts)
        graded.append(Graded(sheet.name, part.tab, part.first, part.want.kind.value, grade_, why))
    for index, row in enumerate(read.rows):
        if index not in used and row.told is Told.PRICED:
            why = "priced, and is no part"
            graded.append(Graded(sheet.name, row.tab, row.row, "no part", Grade.SILENT, why))
    return tuple(graded)


def _refused(sheet: Sheet, part: Part, message: str) -> Graded:
    harmless = sheet.may_refuse or part.want.kind is Expect.IGNORE
    result = Grade.FINE if harmless else Grade.MISSED
    if not message.strip():
        result = Grade.BAD_MESSAGE
    return Graded(sheet.name, part.tab, part.first, part.want.kind.value, result, f"refused: {message}")


def _stands_in(row: ReadRow, part: Part, one_tab: bool) -> bool:
    here = one_tab or not row.tab or row.tab == part.tab
    if not here or not part.first <= row.row <= part.last:
        return False
    if not part.column:
        return True
    if row.column:
        return row.column == part.column
    return bool(part.number) and row.number == part.number


def _grade(want: Want, rows: list[ReadRow], file_texts: tuple[str, ...]) -> tuple[Grade, str]:
    texts = tuple(text for row in rows for text in row.texts)
    priced = [row.line for row in rows if row.told is Told.PRICED and row.line is not None]
    stopped = [row for row in rows if row.told in {Told.ASKED, Told.DECLINED}]
    if stopped:
        return _grade_stopped(want, texts + file_texts)
    if priced:
        return _grade_priced(want, priced, texts, file_texts)
    if want.kind is Expect.IGNORE:
        return Grade.FINE, ""
    if want.or_left_out and any(text.strip() for text in texts):
        return Grade.FINE, "left out with a reason"
    return Grade.MISSED, "; ".join(texts) or "nothing said of it"


def _grade_stopped(want: Want, texts: tuple[str, ...]) -> tuple[Grade, str]:
    said = "; ".join(texts)
    if not said.strip():
        return Grade.BAD_MESSAGE, "stopped without a word"
    if want.kind is Expect.IGNORE:
        return Grade.NEEDLESS, said
    if want.kind is Expect.LINE:
        allowed = [doubt for reading in want.readings for one in reading for doubt in one.say]
        fine = bool(allowed) and any(_mentions(doubt, texts) for doubt in allowed)
        return (Grade.FINE, "") if fine else (Grade.NEEDLESS, said)
    if not want.doubts or any(_mentions(doubt, texts) for doubt in want.doubts):
        return Grade.FINE, ""
    return Grade.BAD_MESSAGE, f"{want.why or want.doubts[0]} is not what it asks: {said}"


def _grade_priced(
    want: Want, priced: list[Line], texts: tuple[str, ...], file_texts: tuple[str, ...]
) -> tuple[Grade, str]:
    every = texts + file_texts
    if want.kind is Expect.IGNORE:
        return Grade.SILENT, f"priced, but {want.why}"
    if want.kind is Expect.ASK:
        said = any(_mentions(doubt, every) for doubt in want.doubts)
        return (Grade.WRONG_SAID if said else Grade.SILENT), f"priced, should ask: {want.why}"
    wrong = min((_differences(reading, priced) for reading in want.readings), key=len)
    if wrong:
        fields = {text.split(":")[0] for text in wrong}
        said = all(_has_word(FIELD_WORDS.get(name, (name,)), every) for name in fields)
        return (Grade.WRONG_SAID if said else Grade.SILENT), "; ".join(wrong)
    unsaid = [doubt for doubt in _to_say(want, priced) if not _mentions(doubt, every)]
    return (Grade.SILENT, f"nothing said of: {', '.join(unsaid)}") if unsaid else (Grade.FINE, "")


def _to_say(want: Want, priced: list[Line]) -> tuple[str, ...]:
    best = min(want.readings, key=lambda reading: len(_differences(reading, priced)))
    return tuple(doubt for one in best for doubt in one.say)


def _mentions(doubt: str, texts: Iterable[str]) -> bool:
    return _has_word(SHEET_DOUBTS[doubt], texts)


def _has_word(words: Iterable[str], texts: Iterable[str]) -> bool:
    said = " ".join(texts)
    return any(_is_in(word, said) for word in words)


def _is_in(word: str, said: str) -> bool:
    end = r"(?!\w)" if word.isupper() else ""
    return re.search(rf"(?<!\w){re.escape(word)}{end}", said, re.IGNORECASE) is not None


def _differences(reading: tuple[Line, ...], priced: list[Line]) -> list[str]:
    if len(reading) != len(priced):
        return [f"quantity: {len(priced)} lines instead of {len(reading)}", "shape: not the same lines"]
    orders = permutations(priced)
    pairs = (
        [text for want, got in zip(reading, order, strict=True) for text in differences(want, got)]
        for order in orders
    )
    return min(pairs, key=len)
