"""Finds the tables of a sheet: header rows, units rows, and what stands above and below."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass, replace

from quoting.intake.layout.columns import LONGEST_HEADER, Meaning, meaning_of, unit_word
from quoting.tables import Cell, Sheet, is_empty, text_of

_HEADER_ROWS = 3
_NAMES = frozenset(("description", "part_no", "number"))
_FEWEST_BY_WORDS = 4
"""A header row that is read word by word holds at least so many known headers."""
_FEWEST_BY_CELLS = 3
"""What is known of a head that only the cells below it make one."""
_OF_AN_EXPORT = 12
_WORD = re.compile(r"[^\W\d_]{3}")
_AREA = re.compile(r"\b[a-z]{0,2}m[23]\b", re.I)
"""m2, whose figure is no size."""
_DIGIT = re.compile(r"[0-9]")
_SERIES = re.compile(
    r"(?:q|w|wk|week|kw|month|m|call|call-?off|release|rel|batch|lot|delivery|del)\W?\s*\d{1,2}|20\d\d"
    r"|(?:jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec|mai|juin|okt|dez|ene|abr|ago|dic|gen|mag|giu|lug|set|ott)"
    r"[a-z]{0,7}\.?(?:\W?\d{2,4})?"
)
"""Headings of a schedule: how many when; they neither make a row a head nor speak against it."""
_SENTENCE = re.compile(r"\w\s*=\s*\w|:\s*$|:\s+\w+\s+\w|\w\.\s+[A-Z]\w|!")
_COUNTED = re.compile(r"\s*[^\d]{1,20}[1-6]\s*")
"""A heading of several alike: Qty 1, Dia 2."""
_KEY_FIELDS = frozenset((
    "quantity", "per_unit", "thickness", "gauge", "diameter", "radius", "width", "length", "girth", "large",
    "small", "size", "material", "arc_length", "chord", "nominal", "schedule",
))  # fmt: skip


_PER = re.compile(r"(?:per|pro|je|par|por|each|/|na|za)\b", re.I)
_ROUND = frozenset(("diameter", "radius", "large", "small", "nominal"))
_OF_PARTS = _KEY_FIELDS - {"length", "width", "chord"}
"""A list of seams or of texts has lengths; a list of parts says more of them."""


@dataclass(frozen=True, slots=True)
class TableColumn:
    """One column of a table: where it is, its header as written, and what it means."""

    index: int
    header: str
    meaning: Meaning


@dataclass(frozen=True, slots=True)
class OrderTable:
    """A header and the rows it governs: `rows` are indexes into the sheet, the header's own left out.

    `parts` are the rows that hold parts where the sheet was turned into a table; else their cells tell.
    """

    columns: tuple[TableColumn, ...]
    header_rows: tuple[int, ...]
    unit_row: int | None
    rows: tuple[int, ...]
    parts: tuple[int, ...] | None = None

    @property
    def first_row(self) -> int:
        """Return the row that stands for the table in messages."""
        return (self.header_rows or self.rows or (0,))[-1 if self.header_rows else 0]


@dataclass(frozen=True, slots=True)
class Layout:
    """A sheet cut into tables; `above` are the non-empty rows before the first header."""

    above: tuple[int, ...]
    tables: tuple[OrderTable, ...]


Recognise = Callable[[str], Meaning]


def layout_of(sheet: Sheet, recognise: Recognise = meaning_of) -> Layout:
    """Return the tables of a sheet; `recognise` tells what a header means."""
    filled = [index for index, row in enumerate(sheet.rows) if any(not is_empty(cell) for cell in row)]
    above: list[int] = []
    heads: list[_Head] = []
    bodies: list[list[int]] = []
    at = 0
    while at < len(filled):
        head = _head_at(sheet, filled[at : at + _HEADER_ROWS + 1], recognise)
        if head is not None:
            heads.append(head)
            bodies.append([])
            at += len(head.rows) + (head.unit_row is not None)
            continue
        (bodies[-1] if bodies else above).append(filled[at])
        at += 1
    tables = [
        OrderTable(columns, head.rows, head.unit_row, tuple(body))
        for head, body in zip(heads, bodies, strict=True)
        for columns in _side_by_side((*head.columns, *_without_heading(sheet, head, body)))
    ]
    return Layout(tuple(above), tuple(tables))


def _without_heading(sheet: Sheet, head: _Head, body: list[int]) -> tuple[TableColumn, ...]:
    """Return the columns behind the last heading that hold words: what somebody added there is read too."""
    first = head.columns[-1].index + 1
    last = max((len(sheet.rows[row]) for row in body), default=0)
    return tuple(
        TableColumn(index, "", Meaning(""))
        for index in range(first, last)
        if any(_says(sheet.rows[row], index, first) for row in body)
    )


def _says(row: list[Cell], index: int, width: int) -> bool:
    """Return whether a row of parts, no note that stands alone, has a word in a cell."""
    cell = row[index] if index < len(row) else ""
    if not isinstance(cell, str) or not _WORD.search(cell):
        return False
    return sum(not is_empty(other) for other in row[:width]) > 1


def _side_by_side(columns: tuple[TableColumn, ...]) -> list[tuple[TableColumn, ...]]:
    """Return the columns of each list where two lists with the same headings stand beside each other."""
    first = columns[0].meaning.field
    starts = [at for at, column in enumerate(columns) if first and column.meaning.field == first]
    if len(starts) < 2:
        return [columns]
    pieces = [columns[start:end] for start, end in zip(starts, [*starts[1:], len(columns)], strict=True)]
    heads = [{column.meaning.field for column in piece} for piece in pieces]
    return (
        pieces
        if all({"quantity"} < head and head == heads[0] and len(head) > 2 for head in heads)
        else [columns]
    )


@dataclass(frozen=True, slots=True)
class _Head:
    columns: tuple[TableColumn, ...]
    rows: tuple[int, ...]
    unit_row: int | None


def _head_at(sheet: Sheet, filled: list[int], recognise: Recognise) -> _Head | None:
    """Return the header that starts at the first of these non-empty rows, if one does."""
    first = filled[0]
    if not _wordy(sheet.rows[first]) or _repeats(sheet.rows[first]):
        return None
    best: tuple[int, int, tuple[TableColumn, ...]] | None = None
    for count in range(1, min(_HEADER_ROWS, len(filled)) + 1):
        rows = filled[:count]
        if rows != list(range(first, first + count)) or not _wordy(sheet.rows[rows[-1]]):
            break
        if count > 1 and any(
            _SENTENCE.search(text_of(cell)) for row in rows[:-1] for cell in sheet.rows[row]
        ):
            break  # a title or a note above, and no head of several columns
        columns = _columns(sheet, rows, recognise)
        below = filled[count : count + 1]
        score = (
            _score(columns)
            or _score_by_cells(sheet, columns, below)
            or _score_by_texts(sheet, columns, below)
        )
        if score and (best is None or score > best[0]):
            best = (score, count, columns)
    if best is None:
        return None
    score, count, columns = best
    columns = _with_text(sheet, columns, filled[count : count + 1])
    if count > 1 and _holds_a_number(sheet.rows[first]):
        alone = _columns(sheet, filled[1:count], recognise)
        if _score(alone) >= score:
            return None  # the number of an inquiry above the head, and no title of its columns
    after = filled[count] if len(filled) > count else None
    if after is not None and _is_unit_row(sheet.rows[after], columns):
        return _Head(_with_units(columns, sheet.rows[after]), tuple(filled[:count]), after)
    return _Head(columns, tuple(filled[:count]), None)


def _holds_a_number(row: list[Cell]) -> bool:
    """Return whether a cell of a row is a bare number such as that of an inquiry."""
    return any(_PAPER_NUMBER.fullmatch(text_of(cell)) for cell in row if not is_empty(cell))


_PAPER_NUMBER = re.compile(r"[A-Z]{0,4}[-/ ]?\d[\d/-]{2,}")


def _wordy(row: list[Cell]) -> bool:
    """Return whether the row holds at least two texts and hardly any figures."""
    texts = figures = 0
    for cell in row:
        if isinstance(cell, str):
            if cell and not cell.isspace():
                digits = _DIGIT.search(cell) is not None and _COUNTED.fullmatch(cell) is None
                figures, texts = figures + digits, texts + (not digits)
        else:
            figures += 2
            if 2 * figures > len(row):
                return False
    return texts >= 2 and texts > 2 * figures


def _repeats(row: list[Cell]) -> bool:
    """Return whether a row says one thing again and again: a value of parts along columns, no heading."""
    texts = [text_of(cell).lower() for cell in row if not is_empty(cell)]
    most = max(map(texts.count, set(texts)), default=0)
    return most > _MOST_ALIKE and 2 * most > len(texts)


_MOST_ALIKE = 3


def _columns(sheet: Sheet, rows: list[int], recognise: Recognise) -> tuple[TableColumn, ...]:
    width = max(len(sheet.rows[row]) for row in rows)
    parts: list[list[str]] = [[] for _ in range(width)]
    for row in rows:
        texts = [text_of(cell) for cell in sheet.rows[row]] + [""] * (width - len(sheet.rows[row]))
        if row != rows[-1]:
            texts = _spread(texts, [text_of(cell) for cell in sheet.rows[rows[-1]]])
        for index, text in enumerate(texts):
            if text:
                parts[index].append(text)
    return tuple(
        TableColumn(index, " ".join(texts), _best_meaning(texts, recognise))
        for index, texts in enumerate(parts)
        if texts
    )


def _best_meaning(texts: list[str], recognise: Recognise) -> Meaning:
    """Return what the header parts mean together; a part that is only a unit is taken as the unit."""
    unit = ""
    words = list(texts)
    if len(words) > 1 and (unit := unit_word(words[-1])):
        words.pop()
    meaning = recognise(" ".join(words))
    if (not meaning.field or meaning.by_words) and len(words) > 1 and not _of_one(meaning, words):
        known = [found for one in reversed(words) if (found := recognise(one)).field]
        known = [one for one in known if not (meaning.by_words and one.by_words)]
        if not recognise(words[-1]).field:  # a title over a column says what it is part of, not what it holds
            known = [one for one in known if one.field not in _NAMES]
        meaning = next((one for one in known if one.field != "number"), known[0] if known else meaning)
    if meaning.field == "size" and len(words) > 1 and (last := recognise(words[-1])).field in _KEY_FIELDS:
        meaning = last if last.field != "size" else meaning  # "Sizes" over a column that says which
    return replace(meaning, unit=unit) if unit else meaning


def _of_one(meaning: Meaning, words: list[str]) -> bool:
    """Return whether the lower of two heads makes a quantity one per unit: Quantity over per pump."""
    return meaning.field == "per_unit" and _PER.match(words[-1]) is not None


def _spread(upper: list[str], lower: list[str]) -> list[str]:
    """Repeat a group title over the columns to its right that have a text below and none above."""
    spread = list(upper)
    for index in range(1, len(spread)):
        below = index < len(lower) and lower[index]
        if not spread[index] and below and spread[index - 1] and lower[index - 1 : index] != [""]:
            spread[index] = spread[index - 1]
    return spread


def _score(columns: tuple[TableColumn, ...]) -> int:
    """Return how well a row reads as a header: 0 when it is none.

    Where headers are no phrases that are known, more of them must be understood, and no other may
    hold a figure.
    """
    columns = tuple(column for column in columns if not _SERIES.fullmatch(column.header.strip().lower()))
    known = [column.meaning for column in columns if column.meaning.field]
    marks = sum(1 for meaning in known if meaning.basis or meaning.unit)
    if _leaves_no_doubt(columns):
        return 2 * len(known) + marks
    strict = [meaning for meaning in known if not meaning.by_words]
    if len({meaning.field for meaning in strict}) < 2 or len(strict) * 2 < len(columns):
        figures = any(_DIGIT.search(column.header) for column in columns if not column.meaning.field)
        if figures or len(known) < _FEWEST_BY_WORDS or 3 * len(known) < 2 * len(columns):
            return 0
    fields = {meaning.field for meaning in known}
    if len(fields) < 2 or not fields & _KEY_FIELDS or len(known) * 2 < len(columns):
        return 0
    if not fields & _OF_PARTS:
        return 0
    if len(fields) == 2 and len(known) < len(columns):
        return 0
    return 2 * len(known) + marks


def _score_by_cells(sheet: Sheet, columns: tuple[TableColumn, ...], below: list[int]) -> int:
    """Return how well a row reads as a header whose headings tell too little, by the row of cells below it.

    Three of what a part needs are known, none of the headings is a sentence or holds a figure, and under
    those of sizes and counts stand numbers.
    """
    known = [column for column in columns if column.meaning.field in _KEY_FIELDS | {"reqd"}]
    fields = {column.meaning.field for column in known}
    texts = [column.header for column in columns]
    if len(fields) < _FEWEST_BY_CELLS or not fields & _ROUND or not below:
        return 0
    figures = (column.header for column in columns if not column.meaning.field)
    if any(_DIGIT.search(_AREA.sub("", text)) for text in figures):
        return 0
    if any(len(text) > LONGEST_HEADER for text in texts):
        return 0
    row = sheet.rows[below[0]]
    cells = [text_of(row[column.index]) if column.index < len(row) else "" for column in known]
    sized = [cell for cell, column in zip(cells, known, strict=True) if column.meaning.field != "material"]
    filled = sum(not is_empty(cell) for cell in row)
    if not all(_DIGIT.search(cell) for cell in sized) or 2 * filled < len(columns):
        return 0
    return 2 * len(known)


_OF_A_TEXT = frozenset(("number", "part_no", "description", "remarks", "drawing", "revision", "due"))
_SIZES_IN_A_TEXT = 3


def _score_by_texts(sheet: Sheet, columns: tuple[TableColumn, ...], below: list[int]) -> int:
    """Return how well a row reads as the head of a list whose parts are each told in one text.

    All its headings are known phrases, one of a description and one of a number or mark, and the description
    in the row below holds the numbers of a part's sizes.
    """
    at = _text_column(sheet, columns, below)
    fields = [column.meaning.field for column in columns]
    if at is None or fields.count("") > 1:
        return 0
    counted = fields.count("quantity") == 1  # then a heading may be told by its words, and one by nothing
    allowed = _OF_A_TEXT | ({"quantity", "unit", "carried", "weight", ""} if counted else set())
    strict = fields[at] in ("supply", "remarks") and not columns[at].meaning.by_words
    if fields[at] != "description" and (counted or strict or "material" in fields):
        fields = ["part_no" if one == "description" else one for one in fields]
        fields[at] = "description"  # Qty, rolled cyl, grade: told by the text below
        fields += ["part_no"] if counted else []
        allowed = allowed | {"material"}
    elif fields[at] == "description" and columns[at].meaning.by_words and "material" in fields:
        allowed = allowed | {"material"}
    if not {*fields} <= allowed or fields.count("description") != 1:
        return 0
    if not {"number", "part_no"} & {*fields}:
        return 0
    if not counted and any(one.meaning.by_words for one in columns if one is not columns[at]):
        return 0
    filled = sum(not is_empty(cell) for cell in sheet.rows[below[0]])
    return 2 * len(columns) if filled > 1 else 0


def _with_text(sheet: Sheet, columns: tuple[TableColumn, ...], below: list[int]) -> tuple[TableColumn, ...]:
    """Return the columns with one of remarks or scope as the description where it alone tells sizes."""
    fields = {column.meaning.field for column in columns}
    at = None if fields & _TELLING else _text_column(sheet, columns, below)
    if at is None or columns[at].meaning.field not in ("remarks", "supply"):
        return columns
    return (*columns[:at], replace(columns[at], meaning=Meaning("description")), *columns[at + 1 :])


_TELLING = (_KEY_FIELDS | {"description", ""}) - {"quantity", "per_unit", "material"}


def _text_column(sheet: Sheet, columns: tuple[TableColumn, ...], below: list[int]) -> int | None:
    """Return which one of the columns of texts holds the numbers of a part's sizes in the row below."""
    row = sheet.rows[below[0]] if below else []
    texts = [
        at
        for at, column in enumerate(columns)
        if column.meaning.field in ("description", "remarks", "supply", "") and column.index < len(row)
        if len(_FIGURES.findall(text_of(row[column.index]))) >= _SIZES_IN_A_TEXT
    ]
    return texts[0] if len(texts) == 1 else None


_FIGURES = re.compile(r"\d+(?:[.,/]\d+)*")


def _leaves_no_doubt(columns: tuple[TableColumn, ...]) -> bool:
    """Return whether a row is a header whatever else stands in it: four of its headings are known phrases for
    what a part needs, or it is the export of a purchase system, with a count, a text and a day among twenty.
    """
    strict = {column.meaning.field for column in columns if not column.meaning.by_words}
    fields = {column.meaning.field for column in columns if column.meaning.field}
    if len(strict & _KEY_FIELDS) >= _FEWEST_BY_WORDS:
        return True
    export = len(columns) >= _OF_AN_EXPORT and {"quantity", "description", "due"} <= fields
    return export and not any(_DIGIT.search(column.header) for column in columns)


def _is_unit_row(row: list[Cell], columns: tuple[TableColumn, ...]) -> bool:
    texts = [text_of(cell) for cell in row if not is_empty(cell)]
    if not texts or not any(unit_word(text) for text in texts):
        return False
    idle = {"-", "", "ea", "pcs", "each", "no", "nos", "n/a", "pc", "units", "yy-mm-dd"}
    return all(unit_word(text) or text.lower().strip(".()") in idle for text in texts)


def _with_units(columns: tuple[TableColumn, ...], row: list[Cell]) -> tuple[TableColumn, ...]:
    """Return the columns with the units row's units; a header's own unit is kept when it says another."""
    out = []
    for column in columns:
        unit = unit_word(text_of(row[column.index])) if column.index < len(row) else ""
        own = column.meaning.unit
        clash = unit and own and unit != own
        out.append(replace(column, meaning=replace(column.meaning, unit="?" if clash else own or unit)))
    return tuple(out)
