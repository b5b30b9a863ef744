"""Which columns name a row or a grade only: marks, codes, tags, types, sentences."""

from __future__ import annotations

import re
from dataclasses import replace
from itertools import pairwise

from quoting.intake.layout.by_cells.cells_below import (
    LONG_WORD,
    PART_NUMBER,
    are_sides,
    is_sided_size,
    plain_number,
    texts_under,
)
from quoting.intake.layout.by_cells.counting import A_PAIR, ROUND_FIELDS
from quoting.intake.layout.columns import Meaning, names_what_is_within
from quoting.intake.layout.find_tables import OrderTable, TableColumn
from quoting.intake.layout.heading_grammar import is_word
from quoting.intake.texts import shape_words
from quoting.intake.words import folded
from quoting.shop import Materials
from quoting.tables import Sheet, text_of

_SENTENCE = 24
_DIGITS = re.compile(r"\d+")
_NAME_OF_PART = re.compile(r"(?!(?:id|od|d|r|ø|dn|ga|sch)\W?\d)[A-Za-z]{1,3}-?\d{1,3}", re.I)
"""C1, S-12: a mark, and no diameter with its letter before it."""

_LIST_CODE = re.compile(r"[A-Za-z]{0,2}-?\d{1,10}")


def with_identifiers(sheet: Sheet, table: OrderTable) -> OrderTable:
    """Return the table with a first column headed ID that counts 1, 2, 3 taken as line numbers; that of marks
    as such.

    Only where another column gives the diameter: "ID" is more often the inside diameter.
    """
    first = table.columns[0]
    if first.meaning.field == "description" and _named_by_marks(sheet, table, first):
        return replace(table, columns=(replace(first, meaning=Meaning("number")), *table.columns[1:]))
    others = [
        column for column in table.columns[1:] if column.meaning.field in ("diameter", "radius", "large")
    ]
    if first.header.strip().lower() != "id" or not others:
        return table
    texts = [
        text_of(sheet.rows[row][first.index]) for row in table.rows if first.index < len(sheet.rows[row])
    ]
    if len(set(texts)) == len(texts) and texts and all(map(_NAME_OF_PART.fullmatch, texts)):
        return replace(table, columns=(replace(first, meaning=Meaning("part_no")), *table.columns[1:]))
    numbers = [int(text) for text in texts if text.isdecimal() and len(text) < 6]
    steps = {after - before for before, after in pairwise(numbers)}
    if len(numbers) != len(texts) or len(numbers) < 2 or not steps <= {1, 10}:
        return table
    return replace(table, columns=(replace(first, meaning=Meaning("number")), *table.columns[1:]))


_MARK_OF_PART = re.compile(
    r"(?!(?:id|od|d|r|ir|or|dn|nb|ga|sch|pl|t|s|e)\W?\d)"
    r"(?:[A-Z]{1,3}[-.]?\d{1,3}|\d{1,2}[.-]\d{1,2}|\d{1,3}[a-z]?)",
    re.I,
)
_PLAIN_COUNT = re.compile(r"\d{1,3}")


def _named_by_marks(sheet: Sheet, table: OrderTable, column: TableColumn) -> bool:
    """Return whether a column named after the part holds only marks: Shell, 2.1, 2.2, F2; no other does so.

    Bare numbers must count on, or they may be sizes.
    """
    if (
        any(one.meaning.field in ("number", "part_no") for one in table.columns)
        or len(table.rows) < _A_FEW_ROWS
    ):
        return False
    texts = [text for text in texts_under(sheet, table, column) if text]
    if (
        len(texts) != len(table.rows)
        or len({*texts}) != len(texts)
        or not all(map(_MARK_OF_PART.fullmatch, texts))
    ):
        return False
    plain = [int(text) for text in texts if _PLAIN_COUNT.fullmatch(text)]
    return plain == list(range(1, len(plain) + 1))


_A_FEW_ROWS = 2
_PLANT = re.compile(
    r"(?P<letters>[^\W\d_]{1,5})(?P<sign>[-./ ]?)\d{1,5}[A-Za-z]?(?:[-/.][A-Za-z\d]{1,4}){0,2}"
)
_LETTERS_OF_SIZES = frozenset((
    "id", "od", "md", "di", "da", "de", "dw", "dz", "d", "r", "ri", "ra", "rm", "l", "w", "h", "b", "dn",
    "pn", "nps", "sch", "ga", "pl", "fl", "bl", "ep", "sp", "tl", "ral", "rz", "en", "iso", "din", "st", "ss",
    "ar", "sa", "hb", "ca", "wt", "thk", "dia", "rad", "lg", "kg", "max", "min", "kw", "wk", "grit", "grade",
    "gr", "almg", "rst", "aw", "cl", "no", "nr", "by", "qty", "deg", "ut", "rt", "pt", "mt",
))  # fmt: skip
"""Letters before a number that make it a size, a grade, a joint, a day or a count."""

_WITH_A_SIGN = frozenset(("t", "s", "e", "g", "p", "c", "q", "a", "k", "m", "v", "x", "y", "u", "j"))
_LONG_NUMBER = re.compile(r"\d{3}")


def names_of_plant(
    sheet: Sheet, table: OrderTable, column: TableColumn, known: tuple[list[str], Materials]
) -> bool:
    """Return whether all cells of a column are the marks of vessels, places or lots (T-101, HX12), in a table
    whose sizes have columns of their own: the numbers in them are no sizes. Grades are none: AlMg3.
    """
    fields, materials = known
    if not (
        ROUND_FIELDS & {*fields}
        and {"thickness", "gauge"} & {*fields}
        and {"length", "width", "height"} & {*fields}
    ):
        return False
    texts = [text for text in texts_under(sheet, table, column) if text and text not in BLANK]
    found = [_PLANT.fullmatch(text) for text in texts]
    named = len(texts) > 1 and all(match is not None and _is_name(match) for match in found)
    return named and not any(materials.find(text).keys for text in {*texts})


def _is_name(match: re.Match[str]) -> bool:
    letters = match["letters"].lower()
    if letters in _WITH_A_SIGN:
        return match["sign"] == "-" and _LONG_NUMBER.search(match.group()) is not None
    return letters not in _LETTERS_OF_SIZES


BLANK = frozenset(("-", "--", "–", "—", "/", "?", "n/a", "x"))


def says_sides(sheet: Sheet, table: OrderTable, column: TableColumn) -> bool:
    """Return whether every cell of a column is a side of the plate, whatever its heading: Type Ø, inside.

    Only beside another column of a size that is round, and names no side itself.
    """
    others = [one for one in table.columns if one is not column and one.meaning.field in ROUND_FIELDS]
    if not others or any(one.meaning.basis for one in others):
        return False
    texts = [text for text in texts_under(sheet, table, column) if text and text not in BLANK]
    marks = column.meaning.field in _MARKS and all(len(text.strip(" .")) == 1 for text in texts)
    return not marks and are_sides(texts)


_MARKS = frozenset(("part_no", "number", "drawing"))
"""Under such a heading a, i or o is what a part is called."""


def are_sided_sizes(sheet: Sheet, table: OrderTable, column: TableColumn) -> bool:
    """Return whether every cell under an unknown heading is one size and its side: Wrap fit, ID 24 1/2."""
    others = [one for one in table.columns if one.meaning.field == "diameter"]
    if is_word("other", column.header) or not all(names_what_is_within(one.header) for one in others):
        return False
    texts = [text for text in texts_under(sheet, table, column) if text]
    return bool(texts) and all(map(is_sided_size, texts))


_SHORT_NAME = re.compile(r"(?=.*[^\W\d_])[\w.,/-]{1,12}(?: [\w.,/-]{1,8})?")


def with_names_of_rows(sheet: Sheet, table: OrderTable) -> OrderTable:
    """Return the table with a first column that nothing explains taken for the names of its rows, where all
    are short and different, and every size and the count have columns of their own: Ladle, 2t, 5t; Station,
    14.2 m.
    """
    first, fields = table.columns[0], {column.meaning.field for column in table.columns}
    if first.meaning.field or not first.header or fields & {"number", "part_no", "description"}:
        return table
    sized = (_ROUND_OR_END & fields, {"thickness", "gauge"} & fields, {"length", "width", "height"} & fields)
    if not all(sized) or not {"quantity", "per_ring", "per_unit"} & fields:
        return table
    texts = [text for text in texts_under(sheet, table, first) if text]
    if len(set(texts)) != len(texts) or len(texts) < A_PAIR or not all(map(_SHORT_NAME.fullmatch, texts)):
        return table
    plain = folded(first.header)
    a_size = any(map(_A_SIZE.fullmatch, texts)) and not _A_PLACE.fullmatch(plain.strip(" ."))
    if a_size or is_word("other", plain) or is_word("else", plain):
        return table
    return replace(table, columns=(replace(first, meaning=Meaning("part_no")), *table.columns[1:]))


_A_SIZE = re.compile(r"[\d.,/ -]+(?:mm|cm|m|in|inch|ft|deg|ga|dia|thk|lg)\.?", re.I)
_A_PLACE = re.compile(
    r"(?:sta|stat|station|chainage|ch|elev|elevation|el|level|km|pk|kote|hohenkote|cota|cote|quota|metraz|stanic\w*)"
)
"""Where along a kiln, a pipeline or a stack a part goes: 14.2 m."""

_ROUND_OR_END = ROUND_FIELDS | {"top", "bottom"}


def no_grade(sheet: Sheet, table: OrderTable, column: TableColumn, known: tuple[list[str], Materials]) -> str:
    """Return what a column headed as material holds that is no material: sentences, numbers, the wall."""
    fields, materials = known
    if "description" not in fields and _in_sentences(sheet, table, column):
        return "description"
    beside = "description" in fields or fields.count("material") > 1
    if beside and _are_codes(sheet, table, column, materials):
        return "carried"
    return "thickness" if "thickness" not in fields and _all_thin(sheet, table, column, materials) else ""


def no_shape(sheet: Sheet, table: OrderTable, column: TableColumn, known: tuple[list[str], Materials]) -> str:
    """Return what a column headed as shape holds where all its cells are grades, or names of parts: Type."""
    if all_grades(sheet, table, column, known):
        return "material"
    if "part_no" not in known[0] and _are_types(sheet, table, column):
        return "part_no"
    texts = [text for text in texts_under(sheet, table, column) if text]
    named = [LONG_WORD.search(text) is not None and not shape_words(text) for text in texts]
    told = "description" not in known[0] and _TYPE_HEAD.fullmatch(folded(column.header).strip(" ."))
    return "description" if told and any(named) else ""


_TYPE_HEAD = re.compile(r"(?:part |item |piece )?(?:type|typ|tipo|kind|art|sort|soort)", re.I)
"""Type of part: often what it is called, and no shape."""


def all_grades(
    sheet: Sheet, table: OrderTable, column: TableColumn, known: tuple[list[str], Materials]
) -> bool:
    """Return whether all cells of a column are grades, in a table where none is headed as material."""
    fields, materials = known
    texts = [text for text in texts_under(sheet, table, column) if text]
    grades = [materials.find(text) for text in texts]
    alone = bool(texts) and "material" not in fields
    return alone and all(len(one.keys) == 1 and not one.rest for one in grades)


def are_marked(sheet: Sheet, table: OrderTable, column: TableColumn) -> bool:
    """Return whether all cells of a column headed as a size are numbers of parts: Comp, 330-101, 330-102."""
    texts = [text for text in texts_under(sheet, table, column) if text]
    return len(texts) > 1 and all(PART_NUMBER.fullmatch(text) for text in texts)


def _are_types(sheet: Sheet, table: OrderTable, column: TableColumn) -> bool:
    """Return whether all cells of a column of shapes are names of parts: Type, CC1, CC2."""
    texts = [text for text in texts_under(sheet, table, column) if text]
    return len(texts) > 1 and all(_TYPE.fullmatch(text) for text in texts)


_TYPE = re.compile(r"[A-Z]{1,4}-?\d{1,4}[A-Za-z]?")


def _in_sentences(sheet: Sheet, table: OrderTable, column: TableColumn) -> bool:
    """Return whether most cells of a column of materials are whole descriptions with their sizes."""
    texts = [text for text in texts_under(sheet, table, column) if text]
    told = sum(len(text) > _SENTENCE and len(_DIGITS.findall(text)) > 2 for text in texts)
    return 2 * told > len(texts)


def _are_codes(sheet: Sheet, table: OrderTable, column: TableColumn, materials: Materials) -> bool:
    """Return whether a column headed as material holds the numbers of a list and no grade: M-10, 300010."""
    texts = [text for text in texts_under(sheet, table, column) if text]
    found = [materials.find(text) for text in texts]
    coded = [_LIST_CODE.fullmatch(text) is not None for text in texts]
    many = len(texts) >= A_PAIR and len(set(texts)) == len(texts)
    return many and all(coded) and not any((one.keys and not one.rest) or one.family for one in found)


def _all_thin(sheet: Sheet, table: OrderTable, column: TableColumn, materials: Materials) -> bool:
    """Return whether a column headed as material holds plain numbers that are no grades: the wall."""
    texts = [text for text in texts_under(sheet, table, column) if text]
    plates = all(
        (plain_number(text) or _FRACTION.fullmatch(text)) and not materials.find(text).keys for text in texts
    )
    return bool(texts) and plates


_FRACTION = re.compile(r"(?:\d{1,2}[ -])?\d{1,2}/(?:2|4|8|16|32|64)\s?(?:\"|''|in)?")
