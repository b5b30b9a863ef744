"""Which columns count pieces, and which number the rows only."""

from __future__ import annotations

import re
from dataclasses import replace
from itertools import pairwise

from quoting.intake.layout.by_cells.cells_below import (
    A_DIGIT,
    FEW_WORDS,
    LONG_WORD,
    SHORT_MARK,
    cells_under,
    texts_under,
)
from quoting.intake.layout.columns import Meaning
from quoting.intake.layout.find_tables import OrderTable, TableColumn
from quoting.intake.texts import count_of
from quoting.intake.words import folded
from quoting.tables import Sheet, text_of

ROUND_FIELDS = frozenset((
    "diameter", "radius", "large", "small", "chord", "size", "girth", "circumference",
))  # fmt: skip
_OPEN = re.compile(r"\W*(tb[acd]|\?+|open|ask|as required|a/?r|lot|later)\W*", re.I)
_PARTS_NAMED = re.compile(
    r"(?:(?:(?:no|nos|number|numbers|num|nr|n|qty|quantity|anz|anzahl|stk|stuck|aant|aantal|nb|nbre|nombres?"
    r"|cant|cantidad|cdad|qtd|qtde|quant|quantidade|numero|q ?ta|ilosc|il|liczba|pocet|antall?|n[°º]|№|#)"
    r"\.?[ °º]*(?:of |de |di |von |van |der |d')?)?"
    r"(?:rolled |half |halve |halbe |demi-?|semi-?|mezz[ei] |medi[ao]s? |quarter |curved )?)"
    r"(?:plates|shells|rings|cans|cyls?|segments|panels|halves|sections|cylinders|pipes|petals|tubes|sleeves"
    r"|strakes|cones|parts|rims|collars|liners|wrappers|bands|drums|courses|segs|staves|spools|lengths|joints"
    r"|pcs|pieces|bleche|schusse|rohre|schalen|halbschalen|segmente|sektoren|kegel|stk|stuck|viroles?|toles"
    r"|tuyaux|coquilles|coques|secteurs|chapas|placas|planchas|virolas|anillos|tubos|canas|piezas|pzs|pzas|pz"
    r"|segmentos|sectores|conos|duelas|pecas|lamiere|tubi|gusci|segmenti|settori|coni|pezzi|platen|ringen"
    r"|buizen|segmenten|stuks|blachy|rury|rur|szt|stozki|plechy|trubky|trubek|kuzely|ks|platar|plader|roer|rør"
    r"|halvskaller|putket)",
    re.I,
)
UNITS_COUNTED = re.compile(
    r"(?:u|un|unitats?|und|unds|unid|unids|uni|ud|unit|units|unite|unites|unita|einh|me)\.?", re.I
)
"""How many there are where whole numbers stand below, and in what they are counted where words do: Und."""


def without_empty_quantity(sheet: Sheet, table: OrderTable) -> OrderTable:
    """Return the table without a column of quantities that no row fills, where two others number: Amount."""
    numbers = sum(column.meaning.field == "number" for column in table.columns)
    blank = [
        column.index
        for column in table.columns
        if column.meaning.field == "quantity" and not any(texts_under(sheet, table, column))
    ]
    if numbers < A_PAIR or not blank:
        return table
    columns = (
        replace(column, meaning=Meaning("ignored")) if column.index in blank else column
        for column in table.columns
    )
    return replace(table, columns=tuple(columns))


A_PAIR = 2


def units_or_pieces(sheet: Sheet, table: OrderTable, column: TableColumn, fields: list[str]) -> str:
    """Return what a column counts that is headed as a nominal size, a number or units: Nb, No. segs."""
    field = column.meaning.field
    if field == "nominal" and folded(column.header).strip() == "nb" and "quantity" not in fields:
        return "quantity" if ROUND_FIELDS & {*fields} and is_counted(sheet, table, column) else ""
    if (
        field == "number"
        and column.meaning.by_words
        and "quantity" in fields
        and column is not table.columns[0]
    ):
        header = folded(column.header).strip()
        return "unclear" if _PARTS_NAMED.fullmatch(header) and not numbers_rows(sheet, table, column) else ""
    if field == "multiplier" and _UNITS_ALONE.fullmatch(column.header.strip()):
        counted = {"quantity", "per_unit", "per_ring", "breaks", "reqd"} & set(fields)
        return "quantity" if not counted and is_counted(sheet, table, column) else ""
    return ""


def counts_something(  # noqa: PLR0911 - a return for each kind of column
    sheet: Sheet, table: OrderTable, column: TableColumn, fields: list[str]
) -> str:
    """Return number or quantity for a column headed as something else that counts rows or pieces."""
    field = column.meaning.field
    if column is table.columns[0] and field not in _COUNTED and _counts_in_order(sheet, table, column):
        return "number"
    bare = column is table.columns[0] and folded(column.header).strip() in _NR
    if field == "quantity" and bare and numbers_rows(sheet, table, column):
        return "number"
    if field == "per_unit" and _counts_of_a_lot(table, column, fields):
        return "quantity"
    if field == "seam" and _runs(sheet, table, column):
        return "number"  # Ln
    if field == "due" and "quantity" not in fields and _all_counted(sheet, table, column):
        return "quantity"  # Required, 2 off
    of_names = column is table.columns[0] or _DEL.fullmatch(column.header.strip())
    if field == "due" and of_names and not {"description", "part_no"} & set(fields):
        return "description" if _names_parts(sheet, table, column) else ""
    return "quantity" if field == "part_no" and _are_pieces(sheet, table, column, fields) else ""


_DEL = re.compile(r"del\.?", re.I)
"""Delivery in English, part in Danish and Swedish."""

_NR = frozenset(("nr", "n", "num", "nummer"))
_UNITS_ALONE = re.compile(r"(?:no\.? of |number of |# )?units", re.I)
_NEEDED = re.compile(r"\b(?:need\w*|want\w*|req\w*|ben[oö]tigt|bedarf)\b", re.I)


def _names_parts(sheet: Sheet, table: OrderTable, column: TableColumn) -> bool:
    """Return whether all cells of a first column are words, and no days: Del is a part in Danish."""
    texts = [text for text in texts_under(sheet, table, column) if text]
    words = all(LONG_WORD.match(text) and not A_DIGIT.search(text) for text in texts)
    return len(texts) > 1 and words and len(set(texts)) == len(texts) and not any(map(_OPEN.fullmatch, texts))


def _are_pieces(sheet: Sheet, table: OrderTable, column: TableColumn, fields: list[str]) -> bool:
    """Return whether a column headed piece counts them: whole numbers, some alike, and no other count."""
    texts = [text for text in texts_under(sheet, table, column) if text]
    free = not {"quantity", "breaks", "reqd", "per_unit", "per_ring", "multiplier"} & set(fields)
    whole = all(text.isdecimal() and len(text) < SHORT_MARK + 1 for text in texts)
    return (
        free
        and whole
        and len(set(texts)) < len(texts)
        and _PIECE.fullmatch(column.header.strip()) is not None
    )


_PIECE = re.compile(r"(?:pcs?|pces?|pieces?|parts?)\.?", re.I)


def all_rise(sheet: Sheet, table: OrderTable, column: TableColumn) -> bool:
    """Return whether the numbers of a column rise from row to row, as those of items do."""
    numbers = [int(text) for text in texts_under(sheet, table, column) if text.isdecimal() and len(text) < 6]
    return len(numbers) < A_PAIR or all(before < after for before, after in pairwise(numbers))


_STEPS = frozenset((1, 5, 10, 100))


def numbers_rows(sheet: Sheet, table: OrderTable, column: TableColumn) -> bool:
    """Return whether a column numbers the rows: 1, 2, 3, or 10, 20, or on from 1 with gaps.

    Quantities of an order that rise by one step are rarer than numbers of lines (common practice, no source).
    """
    texts = [text for text in texts_under(sheet, table, column) if text]
    numbers = [int(text) for text in texts if text.isdecimal() and len(text) < 6]
    if len(numbers) < A_PAIR or len(numbers) < len(texts):
        return False
    steps = {after - before for before, after in pairwise(numbers)}
    on = len(steps) == 1 and steps <= _STEPS and (len(numbers) > A_PAIR or steps != {1} or numbers[0] == 1)
    return on or (numbers[0] == 1 and len(numbers) > A_PAIR and min(steps) > 0)


def _runs(sheet: Sheet, table: OrderTable, column: TableColumn) -> bool:
    """Return whether a column counts 1, 2, 3 on and on, as items do: no order is of such quantities."""
    texts = [text for text in texts_under(sheet, table, column) if text]
    return len(texts) > A_PAIR and texts == [str(number) for number in range(1, len(texts) + 1)]


def counts_pieces(sheet: Sheet, table: OrderTable, column: TableColumn, fields: list[str]) -> bool:
    """Return whether a second column of numbers, beside the item's, counts the pieces: Pos, N."""
    texts = [text for text in texts_under(sheet, table, column) if text]
    return not {"quantity", "breaks", "reqd", "per_unit"} & set(fields) and all(
        text.isdecimal() for text in texts
    )


def no_count(sheet: Sheet, table: OrderTable, column: TableColumn) -> str:
    """Return what a column headed piece holds where none of its cells is a count: marks, or names."""
    texts = [text for text in texts_under(sheet, table, column) if text]
    if not texts or any(text[0].isdecimal() or count_of(text).number is not None for text in texts):
        return ""
    counted = [one for one in table.columns if one.meaning.field == "quantity" and one is not column]
    if len(counted) == 1 and all(map(str.isdecimal, texts_under(sheet, table, counted[0]))):
        return "part_no"  # Shell nr, where another column counts
    marks = all(any(sign.isdecimal() for sign in text) and len(text.split()) < FEW_WORDS for text in texts)
    words = all(not any(sign.isdecimal() for sign in text) or len(text) > SHORT_MARK for text in texts)
    return (
        "part_no"
        if marks
        else "description"
        if words and not any(_OPEN.fullmatch(text) for text in texts)
        else ""
    )


_COUNTED = frozenset(
    ("quantity", "number", "breaks", "per_unit", "per_ring", "reqd", "multiplier", "material")
)
_IN_ORDER = re.compile(
    r"(?:(\d{1,2})\.)?(\d{1,3})\s?(?:º|ª|°|\.|\)|st|nd|rd|th|er|ère|ème|eme|e|ste|de)?", re.I
)
"""The number of a line: 4.1, 2º, 3rd, 4."""


def _counts_in_order(sheet: Sheet, table: OrderTable, column: TableColumn) -> bool:
    """Return whether a first column counts its rows, whatever its heading: 4.1, 4.2, or 1º, 2º, or 1, 2, 3.

    Two bare numbers that follow each other may be of anything, three only beside what else is wanted.
    """
    texts = [text for text in texts_under(sheet, table, column) if text]
    found = [_IN_ORDER.fullmatch(text) for text in texts]
    if len(texts) < A_PAIR or not all(found) or len({match[1] for match in found if match}) > 1:
        return False
    numbers = [int(match[2]) for match in found if match]
    if numbers != [*range(1, len(numbers) + 1)]:
        return False
    bare = all(map(str.isdecimal, texts))
    sizes = {one.meaning.field for one in table.columns if one is not column}
    if not bare:
        return column.meaning.field != "angle" or "angle" in sizes
    if column.meaning.field in ("", "description"):  # Section, 1, 2, where another column counts or may
        return bool({"quantity", "number"} & sizes)
    return len(texts) > A_PAIR and column.meaning.field in ROUND_FIELDS and bool(ROUND_FIELDS & sizes)


def _all_counted(sheet: Sheet, table: OrderTable, column: TableColumn) -> bool:
    """Return whether every cell of a column says how many pieces in so many words: 1 off, 2 pcs."""
    texts = [text for text in texts_under(sheet, table, column) if text]
    bare = _NEEDED.search(column.header) is not None and all(len(text) < SHORT_MARK for text in texts)
    counts = (count_of(text).number is not None and (bare or not text.isdecimal()) for text in texts)
    return bool(texts) and all(counts)


def counts_in_all(header: str) -> bool:
    """Return whether a folded heading counts all parts: total segments, beside segments per ring.

    >>> counts_in_all("total segments"), counts_in_all("segments"), counts_in_all("total weight")
    (True, False, False)
    """
    match = _IN_ALL.match(header) or _IN_ALL_BEHIND.search(header)
    rest = header.replace(match.group(), "").strip() if match else ""
    return bool(rest) and (_PARTS_NAMED.fullmatch(rest) or _ONE_PART.fullmatch(rest)) is not None


_OF_A_LOT = re.compile(
    r"\b(batch|lot|call-?off|release|charge|los|lote|lotto|partia|parti)(?:es|s|e)?\b", re.I
)


def _counts_of_a_lot(table: OrderTable, column: TableColumn, fields: list[str]) -> bool:
    """Return whether a column counts the pieces of one lot, and no other column speaks of lots: Qty/batch.

    One lot is then what is ordered.
    """
    if not _OF_A_LOT.search(column.header) or {"quantity", "multiplier"} & set(fields):
        return False
    return not any(_OF_A_LOT.search(one.header) for one in table.columns if one is not column)


_IN_ALL = re.compile(
    r"(?:(?:total|tot|gesamt|ges|totaal|razem|celkem|all)\.? ?(?:(?:no|nos|number|nr|qty)\.?)?(?: of)? ?"
    r"|(?:qty|quantity|number|no|nos)\.? of )"
)
_IN_ALL_BEHIND = re.compile(r" (?:in all|total|tot|totales?|totaal|totali|totais|gesamt|razem|celkem)\.?$")
_ONE_PART = re.compile(r"(?:segment|sector|panel|seg)\.?", re.I)


def counted_by_name(sheet: Sheet, table: OrderTable, column: TableColumn, fields: list[str]) -> str:
    """Return what a column of whole numbers counts by its heading: the parts it names, or the units."""
    counted = {"quantity", "per_unit", "per_ring", "breaks", "reqd", "multiplier"} & set(fields)
    header = folded(column.header).strip()
    if not counted and (_PARTS_NAMED.fullmatch(header) or UNITS_COUNTED.fullmatch(header)):
        return "quantity"
    if "quantity" not in fields and counts_in_all(header):
        return "quantity"
    if not counted and _ONE_PART.fullmatch(header) and not all_rise(sheet, table, column):
        return "quantity"  # Segmente, read as segment
    return "multiplier" if "multiplier" not in fields and _units_of(table, column) else ""


def _units_of(table: OrderTable, column: TableColumn) -> bool:
    """Return whether a heading names the units that another column counts pieces of: Qty/saddle, Saddles."""
    name = folded(column.header).strip().lower().removesuffix("s")
    heads = (folded(one.header).lower() for one in table.columns if one.meaning.field == "per_unit")
    return len(name) > A_PAIR and any(re.search(rf"\b{re.escape(name)}\b", head) for head in heads)


def without_running_quantity(sheet: Sheet, table: OrderTable) -> OrderTable:
    """Return the table with a first column headed "Nr" that counts 1, 2, 3 taken as line numbers."""
    named = [column for column in table.columns if column.meaning.field == "quantity"]
    first = table.columns[0]
    if len(named) < 2 or named[0] is not first or "number" in [one.meaning.field for one in table.columns]:
        return table
    numbers = [int(text) for text in texts_under(sheet, table, first) if text.isdecimal() and len(text) < 6]
    if len(numbers) < A_PAIR and folded(first.header).strip() not in NUMBER_HEADS:
        return table  # a single line, and "Qty" is no number of it
    if {after - before for before, after in pairwise(numbers)} <= {1, 10} and numbers[:1] in ([1], [10]):
        return replace(table, columns=(replace(first, meaning=Meaning("number")), *table.columns[1:]))
    return table


NUMBER_HEADS = frozenset(
    ("no", "n", "nr", "nos", "no off", "number", "#", "numero", "número", "nro", "num", "numer")
)


def is_counted(sheet: Sheet, table: OrderTable, column: TableColumn) -> bool:
    """Return whether most cells of a column are whole numbers."""
    texts = [text_of(row[column.index]) for row in cells_under(sheet, table) if column.index < len(row)]
    filled = [text for text in texts if text]
    return bool(filled) and 2 * sum(text.split()[0].isdecimal() for text in filled) > len(filled)
