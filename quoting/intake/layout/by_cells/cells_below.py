"""The texts under a heading, and what all of them look like: sides, names, plain numbers."""

from __future__ import annotations

import re
from itertools import pairwise

from quoting.intake.layout.find_tables import OrderTable, TableColumn
from quoting.intake.layout.heading_grammar import sides_of
from quoting.intake.texts import BASIS_WORDS
from quoting.tables import Cell, Sheet, text_of

FEW_WORDS, SHORT_MARK, _LONGEST_MARK = 3, 3, 12
MARKED = re.compile(r"(?=.*[A-Za-z])[\w./-]{2,16}")
_NAMED_PART = re.compile(r"(?!(?:id|od|dn|ga|sch)\W?\d)[A-Za-z]{1,4}[-. ]?\d{1,2}[A-Za-z]?", re.I)
A_DIGIT = re.compile(r"\d")
PART_NUMBER = re.compile(r"\d{2,}(?:-\d{3,}[A-Za-z]?)+")
LONG_WORD = re.compile(r"[^\W\d_]{3,}")
A_CODE = re.compile(r"[A-Za-z]{0,5}[-./ #]?\d{1,4}[A-Za-z]?(-\d{1,3})?|[A-Za-z]\d?")
ONE_SIZE = re.compile(r"\d+(?:[.,]\d+)?(?:[ -]\d+/\d+)?\s*(?:\"|''|in\.?|inch|mm)?", re.I)


def last_word(header: str) -> str:
    """Return the last word of a heading in small letters, or nothing."""
    words: list[str] = re.findall(r"[^\W\d_]+", header.lower())
    return words[-1] if words else ""


def are_marks(texts: list[str]) -> bool:
    """Return whether most texts are marks such as S1, and the others single short words."""
    marks = sum(A_CODE.fullmatch(text) is not None for text in texts)
    return 2 * marks > len(texts) and all(len(text) < _LONGEST_MARK and " " not in text for text in texts)


_THICKEST_MM = 60


def thin_plate(sheet: Sheet, table: OrderTable, texts: list[str], *, counted: bool = True) -> bool:
    """Return whether numbers are as thin as plates in millimetres beside diameters of hundreds of them, and
    where they may be `counted`, do not rise as the numbers of lines do.
    """
    round_ = [
        _rough_mm(text)
        for column in table.columns
        if column.meaning.field in ("diameter", "radius", "large")
        or (column.meaning.field == "size" and column.meaning.basis is not None)
        for text in texts_under(sheet, table, column)
        if _rough_mm(text)
    ]
    thin = all(_THIN_INCH < float(text) <= _THICKEST_MM for text in texts)
    return (
        thin
        and bool(round_)
        and min(round_) > _LEAST_TIMES * max(map(float, texts))
        and not (counted and counts_on(texts))
    )


_INCHES = re.compile(r"(\d+(?:\.\d+)?)\s?(?:\"|''|in\b\.?)")
_MM_PER_INCH = 25.4


def _rough_mm(text: str) -> float:
    """Return a plain number as it stands and inches in mm, 24" as 609.6; 0 for any other text."""
    if plain_number(text):
        return float(text)
    match = _INCHES.fullmatch(text)
    return float(match[1]) * _MM_PER_INCH if match else 0.0


_THIN_INCH, _LEAST_TIMES = 2, 10


def counts_on(texts: list[str]) -> bool:
    """Return whether numbers go on by one, as those of lines do, with gaps where lines were left out."""
    numbers = [int(text) for text in texts if text.isdecimal() and len(text) < 6]
    return len(numbers) == len(texts) and len(numbers) > 1 and all(b > a for a, b in pairwise(numbers))


def is_mark(text: str) -> bool:
    """Return whether a text names a part, and is no size with its unit: P-104, 48-2201, and not 600mm."""
    if PART_NUMBER.fullmatch(text):
        return True
    return MARKED.fullmatch(text) is not None and ONE_SIZE.fullmatch(text) is None


def all_names(texts: list[str]) -> bool:
    """Return whether texts are the marks of parts, all different: T1, T2, T3 are no thicknesses."""
    return len(set(texts)) == len(texts) > 1 and all(_NAMED_PART.fullmatch(text) for text in texts)


def is_part(text: str) -> bool:
    """Return whether a text says what a part is: words, and as many numbers as a rolled part has sizes.

    >>> is_part("Shell 1200 ID x 900 lg x 6 thk"), is_part("Strake S4 - 4200 O/D"), is_part("S4-12-07")
    (True, False, False)
    """
    sizes = _FIGURES.findall(text)
    told = LONG_WORD.search(text) is not None or _SIDE.search(text) is not None
    return len(sizes) >= _FEWEST_SIZES and told and " " in text.strip()


_FIGURES = re.compile(r"(?<!\d)(?<!\d[.,/-])\d+(?:[.,/-]\d+)*")
_SIDE = re.compile(r"\b[IO]\.?[DR]\b|[øØ]", re.I)
_FEWEST_SIZES = 3


def plain_number(text: str) -> bool:
    """Return whether a text is a number without sign or unit."""
    return text.replace(".", "", 1).isdecimal()


def is_side(text: str) -> bool:
    """Return whether a cell is a side of the plate and no more.

    >>> is_side("o/d"), is_side("innen"), is_side("1200 innen")
    (True, True, False)
    """
    word = text.lower().strip(". ").replace(".", "")
    return word in BASIS_WORDS or (len(sides_of(text)) == 1 and not A_DIGIT.search(text))


def are_sides(texts: list[str]) -> bool:
    """Return whether all texts are sides of the plate; lone letters only where two sides are among them.

    >>> are_sides(["innen", "innen"]), are_sides(["I", "A"]), are_sides(["A", "A"])
    (True, True, False)
    """
    if not texts or not all(map(is_side, texts)):
        return False
    words = {text.lower().strip(" .") for text in texts}
    lone = all(len(word) == 1 for word in words)
    return not lone or len({BASIS_WORDS.get(word) for word in words}) > 1


def is_sided_size(text: str) -> bool:
    """Return whether a cell is one size and its side of the plate and no more.

    >>> is_sided_size("ID 24 1/2"), is_sided_size("1200 innen"), is_sided_size("1200 x 8 ID")
    (True, True, False)
    """
    rest, count = _ONE_NUMBER.subn(" ", text)
    return count == 1 and not A_DIGIT.search(rest) and is_side(rest.strip(" ()=:,Øø"))


def without_side(text: str) -> str:
    """Return the size of a cell that is one size and its side of the plate, any other cell as it is."""
    if text[:1].isdecimal() and text[-1:].isdecimal():
        return text
    match = _ONE_NUMBER.search(text)
    return match.group().strip() if match and is_sided_size(text) else text


_ONE_NUMBER = re.compile(
    r"(?<![\w.,/])\d+(?:[.,]\d+)?(?:[ -]\d+/\d+)?\s*(?:\"|''|'|mm\b|cm\b|m\b|in\b\.?|inch\b|ft\b)?"
)


def texts_under(sheet: Sheet, table: OrderTable, column: TableColumn) -> list[str]:
    """Return the texts under a heading, one a row of the table."""
    return [text_of(row[column.index]) for row in cells_under(sheet, table) if column.index < len(row)]


def cells_under(sheet: Sheet, table: OrderTable) -> list[list[Cell]]:
    """Return the rows of a table."""
    return [sheet.rows[row] for row in table.rows]
