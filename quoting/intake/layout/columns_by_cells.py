"""Settles what columns hold by the cells under their headings: running numbers, grades, sides of plate."""

from __future__ import annotations

import re
from dataclasses import replace
from itertools import pairwise, permutations

from quoting.intake.layout.columns import Meaning, meaning_of
from quoting.intake.layout.find_tables import OrderTable, TableColumn
from quoting.intake.layout.heading_grammar import is_word, sides_of
from quoting.intake.texts import BASIS_WORDS, count_of, shape_words
from quoting.intake.words import folded, harmless
from quoting.shop import Materials
from quoting.tables import Cell, Sheet, is_empty, text_of

_ROUND = frozenset((
    "diameter", "radius", "large", "small", "chord", "size", "girth", "circumference",
))  # fmt: skip
_FEW_WORDS, _MARK, _LONGEST_MARK = 3, 3, 12
_OPEN = re.compile(r"\W*(tb[acd]|\?+|open|ask|as required|a/?r|lot|later)\W*", re.I)
_SENTENCE = 24
_DIGITS = re.compile(r"\d+")
_MARKED = re.compile(r"(?=.*[A-Za-z])[\w./-]{2,16}")
_ITEM_OF_ITEM = re.compile(r"\d{1,2}(?:\.\d{1,2}){1,3}")
_NAMED_PART = re.compile(r"(?!(?:id|od|dn|ga|sch)\W?\d)[A-Za-z]{1,4}[-. ]?\d{1,2}[A-Za-z]?", re.I)
_NAME_OF_PART = re.compile(r"(?!(?:id|od|d|r|ø|dn|ga|sch)\W?\d)[A-Za-z]{1,3}-?\d{1,3}", re.I)
"""C1, S-12: a mark, and no diameter with its letter before it."""
_DIGIT = re.compile(r"\d")
_PART_NUMBER = re.compile(r"\d{2,}(?:-\d{3,}[A-Za-z]?)+")
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
_PLATE_OF = re.compile(
    r"(?:pl|plt|plate|blech|t[oô]le|chapa|lamiera|plaat|blacha)\W{0,2}\d+(?:[.,/]\d+)?\s*(?:mm|\"|in)?", re.I
)
_UNITS_COUNTED = re.compile(
    r"(?:u|un|unitats?|und|unds|unid|unids|uni|ud|unit|units|unite|unites|unita|einh|me)\.?", re.I
)
"""How many there are where whole numbers stand below, and in what they are counted where words do: Und."""
_GR = re.compile(r"\s*gr\.?\s*", re.I)
"""Grade in English, and thickness in Polish: grubość."""
_LETTER_AND_FIGURE = re.compile(r"[A-Z]{1,4}[ -]?\d{2,}")
_LIST_CODE = re.compile(r"[A-Za-z]{0,2}-?\d{1,10}")
_LONG_WORD = re.compile(r"[^\W\d_]{3,}")
_SHORT_WORD = re.compile(r"(?<![\w-])[^\W\d_]{2}(?![\w-])")
_CODE = re.compile(r"[A-Za-z]{0,5}[-./ #]?\d{1,4}[A-Za-z]?(-\d{1,3})?|[A-Za-z]\d?")
_SINGLE = re.compile(r"\d+(?:[.,]\d+)?(?:[ -]\d+/\d+)?\s*(?:\"|''|in\.?|inch|mm)?", re.I)
_THICKEST = 4
"""A column headed WT whose numbers are all below this is no weight of rolled parts but a wall in inches."""


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
    texts = [text for text in _texts(sheet, table, column) if text]
    if (
        len(texts) != len(table.rows)
        or len({*texts}) != len(texts)
        or not all(map(_MARK_OF_PART.fullmatch, texts))
    ):
        return False
    plain = [int(text) for text in texts if _PLAIN_COUNT.fullmatch(text)]
    return plain == list(range(1, len(plain) + 1))


_A_FEW_ROWS = 2


def settled_by_cells(sheet: Sheet, table: OrderTable, materials: Materials) -> OrderTable:
    """Return the table with the headings that mean two things, or nothing, settled by their cells."""
    table = _without_empty_quantity(sheet, _without_running_quantity(sheet, table))
    table = _with_rings(sheet, table)
    fields = [column.meaning.field for column in table.columns]
    columns: list[TableColumn] = []
    for column in table.columns:
        field = column.meaning.field
        if told := _told_otherwise(sheet, table, column, (fields, materials)):
            field = fields[len(columns)] = told
        elif field == "reqd":
            field = "quantity" if "quantity" not in fields and _counts(sheet, table, column) else "due"
        elif field == "weight" and _WALL_OR_WEIGHT.fullmatch(column.header.strip()):
            sized = {"thickness", "gauge", "size"} & set(fields)
            texts = [text for text in _texts(sheet, table, column) if text]
            thin = bool(texts) and all(map(_plain_number, texts))
            thin = thin and _thin_plate(sheet, table, texts, counted=False)
            wall = not sized and (_fractions(sheet, table, column) or _thin(sheet, table, column) or thin)
            field = "thickness" if wall else field
        elif field == "multiplier" and not _counts(sheet, table, column):
            field = "unit"
        elif field == "unit" and _UNITS_COUNTED.fullmatch(folded(column.header).strip()):
            texts = [text for text in _texts(sheet, table, column) if text]
            whole = bool(texts) and all(map(str.isdecimal, texts))
            field = (_counted_by_name(sheet, table, column, fields) if whole else "") or field
            fields[len(columns)] = field
        elif (
            field == "number"
            and fields[: len(columns)].count("number")
            and _counts_pieces(sheet, table, column, fields)
        ):
            field = "quantity"
            fields.append("quantity")
        elif field == "number" and not {"quantity", "breaks", "reqd", "per_unit"} & set(fields):
            named = any(one in fields for one in ("part_no", "drawing")) or fields.count("number") > 1
            header = column.header.strip().lower().strip(".°")
            plain = header in _NO or _NO_OF_PARTS.match(header) is not None
            plain = plain and fields.index("number") <= len(columns)
            named = (named or not _rises(sheet, table, column)) and not _numbers_rows(sheet, table, column)
            if plain and named and _counts(sheet, table, column) and "quantity" not in fields:
                field = "quantity"
                fields.append("quantity")
        elif not field:
            field = _told_by_cells(sheet, table, column, (fields, materials))
            fields.append(field)
        columns.append(replace(column, meaning=replace(column.meaning, field=field)))
    return _with_cone_ends(sheet, replace(table, columns=tuple(columns)))


def _without_empty_quantity(sheet: Sheet, table: OrderTable) -> OrderTable:
    """Return the table without a column of quantities that no row fills, where two others number: Amount."""
    numbers = sum(column.meaning.field == "number" for column in table.columns)
    blank = [
        column.index
        for column in table.columns
        if column.meaning.field == "quantity" and not any(_texts(sheet, table, column))
    ]
    if numbers < _TWO or not blank:
        return table
    columns = (
        replace(column, meaning=Meaning("ignored")) if column.index in blank else column
        for column in table.columns
    )
    return replace(table, columns=tuple(columns))


_TWO = 2
_WALL_OR_WEIGHT = re.compile(
    r"(?!(?:unit|est|gross|net|tot|total|approx|calc|each|piece|pc|ship\w*|item)\b)(?:[^\W\d_]+\s)?w\.?t\.?",
    re.I,
)
"""WT, sleeve wt: the wall, where it is thin beside the diameter and no other column gives it."""
_RINGS = re.compile(
    r"\b(rings|circles|courses|an[eé]is|anillos|anelli|viroles|virolas|sch[üu]sse|ringe|ringen)\b", re.I
)


def _marked_as(sheet: Sheet, table: OrderTable, ring: str) -> bool:
    """Return whether a first column counts the rows as rings, by the letter of what they are called: C1, C2
    beside plates per course.
    """
    texts = [text for text in _texts(sheet, table, table.columns[0]) if text]
    marks = [f"{ring[:1]}{number}" for number in range(1, len(texts) + 1)]
    return len(texts) > 1 and [re.sub(r"[-. ]", "", text.lower()) for text in texts] == marks


def _with_rings(sheet: Sheet, table: OrderTable) -> OrderTable:
    """Return the table with a count of rings beside a column of segments per ring taken to multiply it."""
    if all(column.meaning.field != "per_ring" for column in table.columns):
        return table
    counted = [column for column in table.columns if _RINGS.search(column.header)]
    counted = [column for column in counted if column.meaning.field in ("number", "quantity", "")]
    if not counted:
        ring = re.split(r"\W+", _per_ring_head(table))[-1]
        named = ("number", "part_no", "description", "")
        rows = {_last_word(column.header) for column in table.columns if column.meaning.field in named}
        if ring in rows or _marked_as(sheet, table, ring):  # Course, plates per course: each row is one
            own = (
                replace(one, meaning=Meaning("of_one_ring")) if one.meaning.field == "per_ring" else one
                for one in table.columns
            )
            return replace(table, columns=tuple(own))
    columns = (
        replace(column, meaning=Meaning("multiplier")) if column in counted else column
        for column in table.columns
    )
    return replace(table, columns=tuple(columns))


def _per_ring_head(table: OrderTable) -> str:
    return next(column.header.lower() for column in table.columns if column.meaning.field == "per_ring")


def _last_word(header: str) -> str:
    words: list[str] = re.findall(r"[^\W\d_]+", header.lower())
    return words[-1] if words else ""


def _are_marks(texts: list[str]) -> bool:
    """Return whether most texts are marks such as S1, and the others single short words."""
    marks = sum(_CODE.fullmatch(text) is not None for text in texts)
    return 2 * marks > len(texts) and all(len(text) < _LONGEST_MARK and " " not in text for text in texts)


def _told_otherwise(  # noqa: PLR0911 - a return for each kind of column
    sheet: Sheet, table: OrderTable, column: TableColumn, known: tuple[list[str], Materials]
) -> str:
    """Return what a column holds whose cells are none of what its heading says; nothing where they agree."""
    fields, _ = known
    field = column.meaning.field
    told = _counts_something(sheet, table, column, fields) or _names_or_sides(sheet, table, column, known)
    if told:
        return told
    if field == "quantity":
        return _no_count(sheet, table, column)
    if field == "weight" and column.meaning.unit in ("mm", "in"):
        return "thickness"
    if field in ("length", "width", "height") and _are_marked(sheet, table, column):
        return "part_no"
    if field == "shape":
        return _no_shape(sheet, table, column, known)
    if field == "remarks" and "description" not in fields and _TEXT.fullmatch(column.header.strip()):
        return "description"  # the long text of a purchase system, where it has no short one
    if field == "size":
        return _no_sizes(sheet, table, column, fields)
    if field in ("thickness", "diameter", "gauge"):
        return _no_size(sheet, table, column, known)
    if field == "description":
        return _no_words(sheet, table, column, fields)
    if field == "material" and (told := _no_grade(sheet, table, column, known)):
        return told
    if field == "girth" and _rolled_length(column, fields):
        return "length"
    named = field == "part_no" or (field == "number" and fields.count("number") > 1)
    named = named or (field == "number" and column.meaning.by_words)
    beside = fields.count("part_no") > 1
    if named and "description" not in fields and _in_words(sheet, table, column, beside=beside):
        return "description"
    return ""


_MAY_BE_MARKS = frozenset(("", "remarks", "unit", "multiplier"))
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


def _names_or_sides(
    sheet: Sheet, table: OrderTable, column: TableColumn, known: tuple[list[str], Materials]
) -> str:
    """Return what a column holds that is headed as neither: marks of plant, sides of the plate, units."""
    field, fields = column.meaning.field, known[0]
    if field in _MAY_BE_MARKS and _names_of_plant(sheet, table, column, known):
        return "ignored" if "part_no" in fields else "part_no"
    if field in _MAY_BE_SIDES and "basis" not in fields and _says_sides(sheet, table, column):
        return "basis"
    if field in ("angle", "arc_length") and (told := _angle_or_arc(sheet, table, column, fields)):
        return told
    return _units_or_pieces(sheet, table, column, fields)


def _units_or_pieces(sheet: Sheet, table: OrderTable, column: TableColumn, fields: list[str]) -> str:
    """Return what a column counts that is headed as a nominal size, a number or units: Nb, No. segs."""
    field = column.meaning.field
    if field == "nominal" and folded(column.header).strip() == "nb" and "quantity" not in fields:
        return "quantity" if _ROUND & {*fields} and _counts(sheet, table, column) else ""
    if (
        field == "number"
        and column.meaning.by_words
        and "quantity" in fields
        and column is not table.columns[0]
    ):
        header = folded(column.header).strip()
        return "unclear" if _PARTS_NAMED.fullmatch(header) and not _numbers_rows(sheet, table, column) else ""
    if field == "multiplier" and _UNITS_ALONE.fullmatch(column.header.strip()):
        counted = {"quantity", "per_unit", "per_ring", "breaks", "reqd"} & set(fields)
        return "quantity" if not counted and _counts(sheet, table, column) else ""
    return ""


_FULL_CIRCLE = 360
_IN_DEGREES = re.compile(r"\d{1,3}(?:[.,]\d+)?\s*(?:°|º|deg\w*\.?|grad\w*)", re.I)


def _angle_or_arc(sheet: Sheet, table: OrderTable, column: TableColumn, fields: list[str]) -> str:
    """Return what a column of arcs holds by its numbers: lengths where all are more than degrees can be.

    Numbers under a foreign word of an arc that may be either are left open. A second column of angles that
    names parts counts them: Sectors.
    """
    texts = [text for text in _texts(sheet, table, column) if text]
    if column.meaning.field == "arc_length" and texts and all(map(_IN_DEGREES.fullmatch, texts)):
        return "angle"
    if not texts or not all(map(_plain_number, texts)):
        return ""
    if column.meaning.field == "angle":
        if fields.count("angle") > 1 and all(map(str.isdecimal, texts)):
            return _counted_by_name(sheet, table, column, fields)
        long = column.meaning.unit != "deg" and "arc_length" not in fields
        return "arc_length" if long and all(float(text) > _FULL_CIRCLE for text in texts) else ""
    open_ = (
        column.meaning.by_words and not _OF_A_LENGTH.search(folded(column.header)) and not column.meaning.unit
    )
    return "unclear" if open_ and all(float(text) <= _FULL_CIRCLE for text in texts) else ""


_OF_A_LENGTH = re.compile(r"l(?:en|ong|ung|gth|ang|and|engd|g)|l\b|dl|delka|dlug|compr|hossz|uzunl|длин")


def _names_of_plant(
    sheet: Sheet, table: OrderTable, column: TableColumn, known: tuple[list[str], Materials]
) -> bool:
    """Return whether all cells of a column are the marks of vessels, places or lots (T-101, HX12), in a table
    whose sizes have columns of their own: the numbers in them are no sizes. Grades are none: AlMg3.
    """
    fields, materials = known
    if not (
        _ROUND & {*fields}
        and {"thickness", "gauge"} & {*fields}
        and {"length", "width", "height"} & {*fields}
    ):
        return False
    texts = [text for text in _texts(sheet, table, column) if text and text not in _BLANK]
    found = [_PLANT.fullmatch(text) for text in texts]
    named = len(texts) > 1 and all(match is not None and _is_name(match) for match in found)
    return named and not any(materials.find(text).keys for text in {*texts})


def _is_name(match: re.Match[str]) -> bool:
    letters = match["letters"].lower()
    if letters in _WITH_A_SIGN:
        return match["sign"] == "-" and _LONG_NUMBER.search(match.group()) is not None
    return letters not in _LETTERS_OF_SIZES


_MAY_BE_SIDES = frozenset(("part_no", "description", "shape", "number", "diameter", "drawing"))
_BLANK = frozenset(("-", "--", "–", "—", "/", "?", "n/a", "x"))


def _says_sides(sheet: Sheet, table: OrderTable, column: TableColumn) -> bool:
    """Return whether every cell of a column is a side of the plate, whatever its heading: Type Ø, inside.

    Only beside another column of a size that is round, and names no side itself.
    """
    others = [one for one in table.columns if one is not column and one.meaning.field in _ROUND]
    if not others or any(one.meaning.basis for one in others):
        return False
    texts = [text for text in _texts(sheet, table, column) if text and text not in _BLANK]
    return bool(texts) and all(map(_is_side, texts))


def _counts_something(sheet: Sheet, table: OrderTable, column: TableColumn, fields: list[str]) -> str:
    """Return number or quantity for a column headed as something else that counts rows or pieces."""
    field = column.meaning.field
    if column is table.columns[0] and field not in _COUNTED and _counts_in_order(sheet, table, column):
        return "number"
    bare = column is table.columns[0] and folded(column.header).strip() in _NR
    if field == "quantity" and bare and _numbers_rows(sheet, table, column):
        return "number"
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
    texts = [text for text in _texts(sheet, table, column) if text]
    words = all(_LONG_WORD.match(text) and not _DIGIT.search(text) for text in texts)
    return len(texts) > 1 and words and len(set(texts)) == len(texts) and not any(map(_OPEN.fullmatch, texts))


def _rolled_length(column: TableColumn, fields: list[str]) -> bool:
    """Return whether a rolled length is the one along the axis: a diameter stands beside it, and no length.

    One that is about the girth is asked about as any length is.
    """
    return (
        _ROLLED.search(column.header) is not None
        and "diameter" in fields
        and not {"length", "width", "height", "size", "radius", "angle"} & set(fields)
    )


def _no_sizes(sheet: Sheet, table: OrderTable, column: TableColumn, fields: list[str]) -> str:
    """Return what a column headed as sizes holds where its cells are ticks, or the diameter alone, or the
    flat plate of parts whose diameter and length stand beside it.
    """
    if _FLAT.search(column.header) and "diameter" in fields and {"length", "height", "width"} & set(fields):
        return "carried"
    if _ROLLED.search(column.header) and _only_ticks(sheet, table, column):
        return "wanted"
    return "diameter" if "diameter" not in fields and _one_size(sheet, table, column) else ""


def _only_ticks(sheet: Sheet, table: OrderTable, column: TableColumn) -> bool:
    """Return whether the cells of a column are no more than crosses and answers."""
    texts = {text.lower() for text in _texts(sheet, table, column) if text}
    return bool(texts) and texts <= _TICKS


_FLAT = re.compile(r"\b(?:plate|flat|blank|blech|zuschnitt)\b.*[(\[]\s*[^)\]]*\w\s*[x×]\s*\w", re.I)
"""Plate dim. (dev x L)"""
_TICKS = frozenset(("x", "✓", "✔", "yes", "y", "no", "n", "ja", "nein", "oui", "non", "si", "sí"))
_ROLLED = re.compile(r"\broll", re.I)


def _no_words(sheet: Sheet, table: OrderTable, column: TableColumn, fields: list[str]) -> str:
    """Return what a second column of descriptions holds where all its cells are numbers: the plate."""
    texts = [text for text in _texts(sheet, table, column) if text]
    if "part_no" not in fields and _all_names(texts):
        return "part_no"
    numbers = bool(texts) and all(map(_plain_number, texts))
    if numbers and "thickness" not in fields and _thin_plate(sheet, table, texts):
        return "thickness"  # Chapa
    if numbers and fields.count("description") > 1 and (_counts_on(texts) or texts == ["1"]):
        return "number"
    return "thickness" if numbers and fields.count("description") > 1 and "thickness" not in fields else ""


_THICKEST_MM = 60


def _thin_plate(sheet: Sheet, table: OrderTable, texts: list[str], *, counted: bool = True) -> bool:
    """Return whether numbers are as thin as plates in millimetres beside diameters of hundreds of them, and
    where they may be `counted`, do not rise as the numbers of lines do.
    """
    round_ = [
        float(text)
        for column in table.columns
        if column.meaning.field in ("diameter", "radius", "large")
        or (column.meaning.field == "size" and column.meaning.basis is not None)
        for text in _texts(sheet, table, column)
        if _plain_number(text)
    ]
    thin = all(_THIN_INCH < float(text) <= _THICKEST_MM for text in texts)
    return (
        thin
        and bool(round_)
        and min(round_) > _LEAST_TIMES * max(map(float, texts))
        and not (counted and _counts_on(texts))
    )


_THIN_INCH, _LEAST_TIMES = 2, 10


def _counts_on(texts: list[str]) -> bool:
    """Return whether numbers go on by one, as those of lines do, with gaps where lines were left out."""
    numbers = [int(text) for text in texts if text.isdecimal() and len(text) < 6]
    return len(numbers) == len(texts) and len(numbers) > 1 and all(b > a for a, b in pairwise(numbers))


def _no_grade(
    sheet: Sheet, table: OrderTable, column: TableColumn, known: tuple[list[str], Materials]
) -> str:
    """Return what a column headed as material holds that is no material: sentences, numbers, the wall."""
    fields, materials = known
    if "description" not in fields and _in_sentences(sheet, table, column):
        return "description"
    beside = "description" in fields or fields.count("material") > 1
    if beside and _are_codes(sheet, table, column, materials):
        return "carried"
    return "thickness" if "thickness" not in fields and _all_thin(sheet, table, column, materials) else ""


def _no_shape(
    sheet: Sheet, table: OrderTable, column: TableColumn, known: tuple[list[str], Materials]
) -> str:
    """Return what a column headed as shape holds where all its cells are grades, or names of parts: Type."""
    if _all_grades(sheet, table, column, known):
        return "material"
    if "part_no" not in known[0] and _are_types(sheet, table, column):
        return "part_no"
    texts = [text for text in _texts(sheet, table, column) if text]
    named = [_LONG_WORD.search(text) is not None and not shape_words(text) for text in texts]
    told = "description" not in known[0] and _TYPE_HEAD.fullmatch(folded(column.header).strip(" ."))
    return "description" if told and any(named) else ""


_TYPE_HEAD = re.compile(r"(?:part |item |piece )?(?:type|typ|tipo|kind|art|sort|soort)", re.I)
"""Type of part: often what it is called, and no shape."""


def _are_pieces(sheet: Sheet, table: OrderTable, column: TableColumn, fields: list[str]) -> bool:
    """Return whether a column headed piece counts them: whole numbers, some alike, and no other count."""
    texts = [text for text in _texts(sheet, table, column) if text]
    free = not {"quantity", "breaks", "reqd", "per_unit", "per_ring", "multiplier"} & set(fields)
    whole = all(text.isdecimal() and len(text) < _MARK + 1 for text in texts)
    return (
        free
        and whole
        and len(set(texts)) < len(texts)
        and _PIECE.fullmatch(column.header.strip()) is not None
    )


_PIECE = re.compile(r"(?:pcs?|pces?|pieces?|parts?)\.?", re.I)


def _all_grades(
    sheet: Sheet, table: OrderTable, column: TableColumn, known: tuple[list[str], Materials]
) -> bool:
    """Return whether all cells of a column are grades, in a table where none is headed as material."""
    fields, materials = known
    texts = [text for text in _texts(sheet, table, column) if text]
    grades = [materials.find(text) for text in texts]
    alone = bool(texts) and "material" not in fields
    return alone and all(len(one.keys) == 1 and not one.rest for one in grades)


def _no_size(sheet: Sheet, table: OrderTable, column: TableColumn, known: tuple[list[str], Materials]) -> str:
    """Return what a column headed as a size holds where all its cells are grades, or marks: Plate ID."""
    fields, _ = known
    texts = [text for text in _texts(sheet, table, column) if text]
    if not texts or all(_plain_number(text) for text in texts):
        numbered = texts and "material" not in fields and all(map(_STEEL_NUMBER.fullmatch, texts))
        return "material" if numbered else ""
    if _all_grades(sheet, table, column, known) and not any(_INCHES.search(text) for text in texts):
        return "material"  # and .250" is no grade
    marks = all(_MARKED.fullmatch(text) and not text[0].isdecimal() for text in texts)
    if column.meaning.field == "diameter" and fields.count("diameter") > 1 and marks:
        return "part_no"  # ID tag, beside the diameters
    doubled = sum(fields.count(one) for one in ("thickness", "gauge")) > 1
    named = column.meaning.field == "thickness" and doubled and marks and "part_no" not in fields
    if named and not any(_THICK_MARK.match(text) or known[1].find(text).keys for text in texts):
        return "part_no"  # Plate B12, beside a column of thicknesses
    if "basis" not in fields and all(map(_is_side, texts)):
        return "basis"
    named = _ID_OF.search(column.header) is not None and all(map(_is_mark, texts))
    named = named or (column.meaning.by_words and _all_names(texts))
    return "part_no" if named else ""


_STEEL_NUMBER = re.compile(r"1\.\d{4}")
"""Numbers of EN 10027-2: 1.4571; no plate is measured to a tenth of a micron."""
_THICK_MARK = re.compile(r"(?:pl|plt|t|thk|th|s|e|ga|g)\W?\d", re.I)
_INCHES = re.compile(r"^\.\d|\d\s?(?:\"|''|in\b)", re.I)
_TEXT = re.compile(r"(?:long|full|item|material|purchase|order) ?text", re.I)
_ID_OF = re.compile(r"(?<=\w)[ _-]ID\W*$|^\W*ID[ _-](?:tags?|no|nr|num\w*|codes?|marks?|#)\W*", re.I)
"""Plate ID, ID tag: more often a name than the inside diameter."""


def _is_mark(text: str) -> bool:
    """Return whether a text names a part, and is no size with its unit: P-104, 48-2201, and not 600mm."""
    if _PART_NUMBER.fullmatch(text):
        return True
    return _MARKED.fullmatch(text) is not None and _SINGLE.fullmatch(text) is None


def _all_names(texts: list[str]) -> bool:
    """Return whether texts are the marks of parts, all different: T1, T2, T3 are no thicknesses."""
    return len(set(texts)) == len(texts) > 1 and all(_NAMED_PART.fullmatch(text) for text in texts)


def _one_size(sheet: Sheet, table: OrderTable, column: TableColumn) -> bool:
    """Return whether a column of sizes that names a side holds one number in most rows: Size (ID), 24."""
    texts = [text for text in _texts(sheet, table, column) if text]
    single = [text for text in texts if _SINGLE.fullmatch(text)]
    return column.meaning.basis is not None and len(single) * 2 > len(texts)


def _are_marked(sheet: Sheet, table: OrderTable, column: TableColumn) -> bool:
    """Return whether all cells of a column headed as a size are numbers of parts: Comp, 330-101, 330-102."""
    texts = [text for text in _texts(sheet, table, column) if text]
    return len(texts) > 1 and all(_PART_NUMBER.fullmatch(text) for text in texts)


def _are_types(sheet: Sheet, table: OrderTable, column: TableColumn) -> bool:
    """Return whether all cells of a column of shapes are names of parts: Type, CC1, CC2."""
    texts = [text for text in _texts(sheet, table, column) if text]
    return len(texts) > 1 and all(_TYPE.fullmatch(text) for text in texts)


_TYPE = re.compile(r"[A-Z]{1,4}-?\d{1,4}[A-Za-z]?")


def _in_sentences(sheet: Sheet, table: OrderTable, column: TableColumn) -> bool:
    """Return whether most cells of a column of materials are whole descriptions with their sizes."""
    texts = [text for text in _texts(sheet, table, column) if text]
    told = sum(len(text) > _SENTENCE and len(_DIGITS.findall(text)) > 2 for text in texts)
    return 2 * told > len(texts)


def _are_codes(sheet: Sheet, table: OrderTable, column: TableColumn, materials: Materials) -> bool:
    """Return whether a column headed as material holds the numbers of a list and no grade: M-10, 300010."""
    texts = [text for text in _texts(sheet, table, column) if text]
    found = [materials.find(text) for text in texts]
    coded = [_LIST_CODE.fullmatch(text) is not None for text in texts]
    many = len(texts) >= _TWO and len(set(texts)) == len(texts)
    return many and all(coded) and not any((one.keys and not one.rest) or one.family for one in found)


def _in_words(sheet: Sheet, table: OrderTable, column: TableColumn, *, beside: bool) -> bool:
    """Return whether a column headed as a mark says in words what the parts are: no cell is a mark.

    `beside` tells that another column gives the marks.
    """
    texts = [text for text in _texts(sheet, table, column) if text]
    words = [len(_LONG_WORD.findall(text)) or len(_SHORT_WORD.findall(text)) for text in texts]
    first = [_LONG_WORD.match(text) for text in texts]
    if len(texts) > 1 and all(found and found[0].lower() in harmless() for found in first):
        return True  # shell, shell, pad, 60 deg: what they are, and no marks
    marks = any(_CODE.fullmatch(text) or (_MARKED.fullmatch(text) and _DIGIT.search(text)) for text in texts)
    if texts and not _holds_sizes(table) and all(map(_is_part, texts)):
        return True
    told = len(texts) > 1 and not marks and all(words)
    return told and (beside or 2 * sum(one > 1 for one in words) >= len(texts))


def _holds_sizes(table: OrderTable) -> bool:
    """Return whether some column of a table is headed as a size of the parts."""
    return any(column.meaning.field in _SIZED for column in table.columns)


def _is_part(text: str) -> bool:
    """Return whether a text says what a part is: words, and as many numbers as a rolled part has sizes.

    >>> _is_part("Shell 1200 ID x 900 lg x 6 thk"), _is_part("Strake S4 - 4200 O/D"), _is_part("S4-12-07")
    (True, False, False)
    """
    sizes = _FIGURES.findall(text)
    told = _LONG_WORD.search(text) is not None or _SIDE.search(text) is not None
    return len(sizes) >= _FEWEST_SIZES and told and " " in text.strip()


_FIGURES = re.compile(r"(?<!\d)(?<!\d[.,/-])\d+(?:[.,/-]\d+)*")
_SIDE = re.compile(r"\b[IO]\.?[DR]\b|[øØ]", re.I)
_FEWEST_SIZES = 3
_SIZED = frozenset((
    "thickness", "gauge", "diameter", "radius", "width", "length", "height", "girth", "large", "small",
    "size", "arc_length", "chord", "nominal", "schedule", "description", "shape",
))  # fmt: skip
"""Fields of columns that say what the parts are: a text beside them is a name or a note."""


def _rises(sheet: Sheet, table: OrderTable, column: TableColumn) -> bool:
    """Return whether the numbers of a column rise from row to row, as those of items do."""
    numbers = [int(text) for text in _texts(sheet, table, column) if text.isdecimal() and len(text) < 6]
    return len(numbers) < _TWO or all(before < after for before, after in pairwise(numbers))


_STEPS = frozenset((1, 5, 10, 100))


def _numbers_rows(sheet: Sheet, table: OrderTable, column: TableColumn) -> bool:
    """Return whether a column numbers the rows: 1, 2, 3, or 10, 20, or on from 1 with gaps.

    Quantities of an order that rise by one step are rarer than numbers of lines (common practice, no source).
    """
    texts = [text for text in _texts(sheet, table, column) if text]
    numbers = [int(text) for text in texts if text.isdecimal() and len(text) < 6]
    if len(numbers) < _TWO or len(numbers) < len(texts):
        return False
    steps = {after - before for before, after in pairwise(numbers)}
    on = len(steps) == 1 and steps <= _STEPS and (len(numbers) > _TWO or steps != {1} or numbers[0] == 1)
    return on or (numbers[0] == 1 and len(numbers) > _TWO and min(steps) > 0)


def _runs(sheet: Sheet, table: OrderTable, column: TableColumn) -> bool:
    """Return whether a column counts 1, 2, 3 on and on, as items do: no order is of such quantities."""
    texts = [text for text in _texts(sheet, table, column) if text]
    return len(texts) > _TWO and texts == [str(number) for number in range(1, len(texts) + 1)]


def _all_thin(sheet: Sheet, table: OrderTable, column: TableColumn, materials: Materials) -> bool:
    """Return whether a column headed as material holds plain numbers that are no grades: the wall."""
    texts = [text for text in _texts(sheet, table, column) if text]
    return bool(texts) and all(_plain_number(text) and not materials.find(text).keys for text in texts)


def _counts_pieces(sheet: Sheet, table: OrderTable, column: TableColumn, fields: list[str]) -> bool:
    """Return whether a second column of numbers, beside the item's, counts the pieces: Pos, N."""
    texts = [text for text in _texts(sheet, table, column) if text]
    return not {"quantity", "breaks", "reqd", "per_unit"} & set(fields) and all(
        text.isdecimal() for text in texts
    )


def _with_cone_ends(sheet: Sheet, table: OrderTable) -> OrderTable:
    """Return the table with two columns of diameters on one side of the plate taken for the ends of cones.

    Only where the first is never the smaller, or never the larger: Dia A, Dia B. Where the heads do not tell
    them apart as two ends do, the sheet must speak of cones: beside ID, Manway ID is none.
    """
    table = _with_sides_of_ends(table)
    told = _beside_ends(table)
    if told and _by_size(table, told, cones=_names_cones(sheet)):
        named = (replace(one, meaning=told.get(one.index, one.meaning)) for one in table.columns)
        if ended := _ends_taken(sheet, replace(table, columns=tuple(named)), _LEAST_STEP):
            return ended
    elif told:  # the one that is known would be taken, and the other passed over
        open_ = (replace(one, meaning=Meaning()) if one.index in told else one for one in table.columns)
        return replace(table, columns=tuple(open_))
    return _ends_taken(sheet, table, 0.0) or table


_LEAST_STEP = 0.02
"""Max ID and Min ID that are closer than this share of them are limits of one diameter."""


_LIMITS = frozenset(("max", "min", "mini", "maxi"))
_PASSED = frozenset(("in", "out", "from", "to", "start", "first", "second", "a", "b", "c", "i", "ii"))


def _beside_ends(table: OrderTable) -> dict[int, Meaning]:
    """Return the columns that are a diameter beside the word of an end, and what they mean without it.

    Only where there are two of them and no third column of a diameter.
    """
    apart = _END_WORDS - _PASSED
    told: dict[int, Meaning] = {}
    for column in table.columns:
        words = _words_of(column)
        kept = [word for word in words if word not in apart]
        if column.meaning.field not in ("", "diameter", *_ENDS) or len(kept) == len(words) or not kept:
            continue
        core = meaning_of(" ".join(kept))
        if core.field == "diameter":
            basis = column.meaning.basis or core.basis
            told[column.index] = replace(core, basis=basis, unit=column.meaning.unit or core.unit)
    round_ = {one.index for one in table.columns if one.meaning.field in ("diameter", *_ENDS)}
    known = round_ >= told.keys()
    return {} if len(told) != _TWO or round_ - told.keys() or known else told


def _with_sides_of_ends(table: OrderTable) -> OrderTable:
    """Return the table with the side that the heads of both ends name beside the word of each: Di mayor."""
    ends = [one for one in table.columns if one.meaning.field in _ENDS]
    if len(ends) != _TWO or any(one.meaning.basis for one in ends):
        return table
    cores = [meaning_of(" ".join(word for word in _words_of(one) if word not in _END_WORDS)) for one in ends]
    sides = {core.basis if core.field == "diameter" else None for core in cores}
    side = sides.pop() if len(sides) == 1 else None
    if side is None:
        return table
    columns = (
        replace(one, meaning=replace(one.meaning, basis=side)) if one in ends else one
        for one in table.columns
    )
    return replace(table, columns=tuple(columns))


def _by_size(table: OrderTable, told: dict[int, Meaning], *, cones: bool) -> bool:
    """Return whether one of two heads is that of the large end and the other that of the small one.

    The largest and the smallest diameter are so only where the sheet names cones: they may be limits.
    """
    heads = [{*_words_of(column)} for column in table.columns if column.index in told]
    if not cones and all(_LIMITS & words for words in heads):
        return False
    return any(heads[0] & one and heads[1] & other for one, other in permutations(_OTHER_END.values()))


def _words_of(column: TableColumn) -> list[str]:
    return re.findall(r"[^\W\d_]+|\d", folded(column.header).lower())


def _ends_taken(sheet: Sheet, table: OrderTable, least: float) -> OrderTable | None:
    """Return the table with its pair of diameters as the ends of cones; None where they are no such pair."""
    pair = [column for column in table.columns if column.meaning.field == "diameter"]
    named = [column for column in table.columns if column.meaning.field in _ENDS]
    if len(pair) == len(named) == 1:  # Top ID, Outlet ID: the other end
        pair = [column for column in table.columns if column in (*pair, *named)]
        named = []
    alike = len({(column.meaning.basis, column.meaning.unit) for column in pair}) == 1
    if len(pair) != _TWO or not alike or named or not (_are_ends(pair) or _names_cones(sheet)):
        return None
    steps = _steps(*(_texts(sheet, table, column) for column in pair), least=least)
    if not (all(step >= 0 for step in steps) or all(step <= 0 for step in steps)) or not any(steps):
        return None
    names = ("large", "small") if max(steps) > 0 else ("small", "large")
    if any(_OTHER_END[name] & {*_words_of(column)} for name, column in zip(names, pair, strict=True)):
        return None  # the small end is the larger
    fields = dict(zip((column.index for column in pair), names, strict=True))
    return replace(
        table,
        columns=tuple(
            replace(
                column, meaning=replace(column.meaning, field=fields.get(column.index, column.meaning.field))
            )
            for column in table.columns
        ),
    )


_END_WORDS = frozenset((
    "a", "b", "c", "i", "ii", "o", "u", "top", "bottom", "btm", "base", "upper", "lower", "inlet",
    "outlet", "in", "out", "first", "second", "st", "nd", "one", "other", "start", "end", "ends",
    "from", "to", "large", "small", "big", "little", "max", "min", "major", "minor", "open", "closed",
    "left", "right", "front", "back", "height", "oben", "unten", "haut", "bas", "grand", "petit",
    "mayor", "menor", "sup", "inf", "alto", "basso", "mini", "maxi", "magg", "maggiore", "minore",
    "gross", "grosser", "gr", "klein", "kl", "kleiner", "groot", "grote", "kleine", "velky", "maly",
    "velka", "mala", "stor", "liten", "lille", "duza", "duzy", "wieksza", "mniejsza", "maior", "grande",
    "chico", "chica", "pequeno", "pequena", "piccolo", "mare", "mic", "nagy", "kis", "buyuk", "kucuk",
    "большой", "малый", "большего", "меньшего", "sml", "lge", "lrg", "testa", "topo", "pt",
    "顶部", "底部", "顶", "底", "dol", "gora", "dolny", "dolna", "gorny", "gorna", "dole", "nahore", "spodni",
    "horni", "dolni", "spodny", "horny", "gore", "donji", "gornji", "bund", "topp", "bunn", "botten",
    "nere", "uppe", "nedre", "ovre", "unterer", "oberer", "untere", "obere", "unteres", "oberes",
    "fuss", "kopf", "inferior", "superior", "inferiore", "superiore", "arriba", "abajo", "cima",
    "baixo", "sommet", "onder", "boven", "ala", "yla", "also", "felso", "jos", "sus", "alt", "ust",
    "низ", "верх", "внизу", "вверху", "верхний", "нижний", "下口", "上口", "下端", "上端", "下", "上",
    "gd", "pd",
    "entree", "sortie", "entrada", "salida", "saida", "ingresso", "uscita", "eintritt", "austritt",
    "einlass", "auslass",
))  # fmt: skip


def _steps(first: list[str], second: list[str], *, least: float) -> list[float]:
    """Return how much larger each size of a column is than that of another beside it; nothing where they are
    no sizes, or none is so much larger or smaller.
    """
    pairs = zip(first, second, strict=False)
    both = [(one, two) for one, two in pairs if one and two and not _BLANK & {one.lower(), two.lower()}]
    sizes = [(_PLAIN_SIZE.fullmatch(one), _PLAIN_SIZE.fullmatch(two)) for one, two in both]
    found = [(float(one[1]), float(two[1])) for one, two in sizes if one and two and one[2] == two[2]]
    if len(first) != len(second) or not found or len(found) < len(both):
        return []
    apart = max(abs(one - two) / max(one, two, 1.0) for one, two in found)
    return [one - two for one, two in found] if apart >= least else []


_OTHER_END = {
    "large": frozenset((
        "small", "little", "min", "mini", "minor", "minore", "menor", "petit", "pt", "pd", "klein", "kleine",
        "kleiner", "kl", "maly", "mala", "mniejsza", "liten", "lille", "chico", "chica", "pequeno", "pequena",
        "piccolo", "mic", "kis", "kucuk", "малый", "меньшего", "sml",
    )),
    "small": frozenset((
        "large", "big", "max", "maxi", "major", "maggiore", "magg", "mayor", "maior", "grand", "grande", "gd",
        "gross", "grosser", "gr", "groot", "grote", "velky", "velka", "stor", "duza", "duzy", "wieksza",
        "mare", "nagy", "buyuk", "большой", "большего", "lge", "lrg",
    )),
}  # fmt: skip
"""What the head of an end does not say."""


def _are_ends(pair: list[TableColumn]) -> bool:
    """Return whether two heads differ only by words, letters or figures that tell two ends apart."""
    one, two = (set(re.findall(r"[^\W\d_]+|\d+", folded(column.header).lower())) for column in pair)
    apart = one ^ two
    return bool(apart) and all(word.isdecimal() or word in _END_WORDS for word in apart)


_CONES = re.compile(
    r"\b(?:con(?:e|es|ical|ico|ici|ica|icas|icos|i|os?|as?|us|ique)|frust\w*|reducers?|hoppers?|funnels?|transitions?"
    r"|taper\w*|cyclones?|konus\w*|kon\w*|trichter\w*|kegel\w*|tolvas?|tramogg\w*|tremies?|lej\w*|stoz\w*|kuzel\w*"
    r"|kegl\w*|kup\w*|koni\w*|kartio\w*|con)\b|锥",
    re.I,
)


def _names_cones(sheet: Sheet) -> bool:
    """Return whether any text of a sheet speaks of cones, or of what is made of them."""
    texts = (cell for row in sheet.rows for cell in row if isinstance(cell, str))
    return any(_CONES.search(folded(text)) for text in texts)


_PLAIN_SIZE = re.compile(r"(\d+(?:\.\d+)?|\.\d+)\s*(mm|cm|in\.?|\"|'')?", re.I)
"""A number with its unit or without."""


def _plain_number(text: str) -> bool:
    return text.replace(".", "", 1).isdecimal()


def _no_count(sheet: Sheet, table: OrderTable, column: TableColumn) -> str:
    """Return what a column headed piece holds where none of its cells is a count: marks, or names."""
    texts = [text for text in _texts(sheet, table, column) if text]
    if not texts or any(text[0].isdecimal() or count_of(text).number is not None for text in texts):
        return ""
    counted = [one for one in table.columns if one.meaning.field == "quantity" and one is not column]
    if len(counted) == 1 and all(map(str.isdecimal, _texts(sheet, table, counted[0]))):
        return "part_no"  # Shell nr, where another column counts
    marks = all(any(sign.isdecimal() for sign in text) and len(text.split()) < _FEW_WORDS for text in texts)
    words = all(not any(sign.isdecimal() for sign in text) or len(text) > _MARK for text in texts)
    return (
        "part_no"
        if marks
        else "description"
        if words and not any(_OPEN.fullmatch(text) for text in texts)
        else ""
    )


def _told_by_cells(  # noqa: PLR0911 - a return for each kind of column
    sheet: Sheet, table: OrderTable, column: TableColumn, known: tuple[list[str], Materials]
) -> str:
    """Return the field of a column with an unknown heading where its cells leave no doubt, or nothing."""
    fields, materials = known
    texts = [text for text in _texts(sheet, table, column) if text]
    if not texts:
        return ""
    if not set(fields) & _SIZED and all(map(_is_part, texts)):
        return "description"
    if "thickness" not in fields and all(map(_PLATE_OF.fullmatch, texts)):
        return "thickness"  # Section, PL12
    if all(map(str.isdecimal, texts)) and (counted := _counted_by_name(sheet, table, column, fields)):
        return counted
    if _GR.fullmatch(column.header) and not {"thickness", "gauge"} & set(fields) and "material" in fields:
        numbers = all(map(_plain_number, texts))
        return "thickness" if numbers and _thin_plate(sheet, table, texts, counted=False) else ""
    if "basis" not in fields and _ROUND & set(fields) and all(map(_is_side, texts)):
        return "basis"
    early = column in table.columns[:_TWO] and not {"description", "part_no"} & set(fields)
    if early and shape_words(column.header) and all(_LONG_WORD.match(text) for text in texts):
        return "description"  # Casing: outer, inner
    first = column is table.columns[0] and not {"number", "part_no"} & set(fields)
    if first and len(set(texts)) == len(texts) and all(_ITEM_OF_ITEM.fullmatch(text) for text in texts):
        return "number"
    first = first and bool({"quantity", "per_ring"} & set(fields))
    if first and len(set(texts)) == len(texts) > 1 and _are_marks(texts):
        return "number"
    if "material" not in fields and all(any(sign.isdecimal() for sign in text) for text in texts):
        if _GR.fullmatch(column.header) and all(_LETTER_AND_FIGURE.match(text) for text in texts):
            return "material"
        found = [materials.find(text) for text in texts]
        if all(len(one.keys) == 1 and not one.rest for one in found) and not all(
            text.isdecimal() for text in texts
        ):
            return "material"
    return ""


def _is_side(text: str) -> bool:
    """Return whether a cell is a side of the plate and no more.

    >>> _is_side("o/d"), _is_side("innen"), _is_side("1200 innen")
    (True, True, False)
    """
    word = text.lower().strip(". ").replace(".", "")
    return word in BASIS_WORDS or (len(sides_of(text)) == 1 and not _DIGIT.search(text))


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
    texts = [text for text in _texts(sheet, table, column) if text]
    found = [_IN_ORDER.fullmatch(text) for text in texts]
    if len(texts) < _TWO or not all(found) or len({match[1] for match in found if match}) > 1:
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
    return len(texts) > _TWO and column.meaning.field in _ROUND and bool(_ROUND & sizes)


def _all_counted(sheet: Sheet, table: OrderTable, column: TableColumn) -> bool:
    """Return whether every cell of a column says how many pieces in so many words: 1 off, 2 pcs."""
    texts = [text for text in _texts(sheet, table, column) if text]
    bare = _NEEDED.search(column.header) is not None and all(len(text) < _MARK for text in texts)
    counts = (count_of(text).number is not None and (bare or not text.isdecimal()) for text in texts)
    return bool(texts) and all(counts)


_ONE_PART = re.compile(r"(?:segment|sector|panel|seg)\.?", re.I)


def _counted_by_name(sheet: Sheet, table: OrderTable, column: TableColumn, fields: list[str]) -> str:
    """Return what a column of whole numbers counts by its heading: the parts it names, or the units."""
    counted = {"quantity", "per_unit", "per_ring", "breaks", "reqd", "multiplier"} & set(fields)
    header = folded(column.header).strip()
    if not counted and (_PARTS_NAMED.fullmatch(header) or _UNITS_COUNTED.fullmatch(header)):
        return "quantity"
    if not counted and _ONE_PART.fullmatch(header) and not _rises(sheet, table, column):
        return "quantity"  # Segmente, read as segment
    return "multiplier" if "multiplier" not in fields and _units_of(table, column) else ""


def _units_of(table: OrderTable, column: TableColumn) -> bool:
    """Return whether a heading names the units that another column counts pieces of: Qty/saddle, Saddles."""
    name = folded(column.header).strip().lower().removesuffix("s")
    heads = (folded(one.header).lower() for one in table.columns if one.meaning.field == "per_unit")
    return len(name) > _TWO and any(re.search(rf"\b{re.escape(name)}\b", head) for head in heads)


def _without_running_quantity(sheet: Sheet, table: OrderTable) -> OrderTable:
    """Return the table with a first column headed "Nr" that counts 1, 2, 3 taken as line numbers."""
    named = [column for column in table.columns if column.meaning.field == "quantity"]
    first = table.columns[0]
    if len(named) < 2 or named[0] is not first or "number" in [one.meaning.field for one in table.columns]:
        return table
    numbers = [int(text) for text in _texts(sheet, table, first) if text.isdecimal() and len(text) < 6]
    if len(numbers) < _TWO and folded(first.header).strip() not in _NO:
        return table  # a single line, and "Qty" is no number of it
    if {after - before for before, after in pairwise(numbers)} <= {1, 10} and numbers[:1] in ([1], [10]):
        return replace(table, columns=(replace(first, meaning=Meaning("number")), *table.columns[1:]))
    return table


def _texts(sheet: Sheet, table: OrderTable, column: TableColumn) -> list[str]:
    return [text_of(row[column.index]) for row in _cells(sheet, table) if column.index < len(row)]


_NO = frozenset(("no", "n", "nr", "nos", "no off", "number", "#", "numero", "número", "nro", "num", "numer"))


_NO_OF_PARTS = re.compile(
    r"(?:no|nr|n|num|nbre|nb|nro|numero|número)\W+(?:of |de |di |von )?(?:half|quarter|rolled )?\W*"
    r"(?:shells?|rings?|segments?|segs|plates|cans|pieces|pcs|cones|cylinders|sections|panels|strakes|halves"
    r"|pe[cç]as|pi[eè]ces|piezas|pezzi|st(?:ü|u|ue)ck\w*|teile|viro(?:l[ae]s|les?)|anillos|chapas|t[oô]les|szt\w*|ks"
    r"|kus\w*|stuks|tubos|tubes|tuyaux|tubi|rohre|rury|trubky|pzs|pzas|pz|segm\w*|an[ée]is|anelli|ringen|ringe|schüsse|schuesse|tronçons|tramos|conci|stycken|adet)"
)
"""No. shells, n. semigusci: how many there are; Shell no. is the number of one."""


def _counts(sheet: Sheet, table: OrderTable, column: TableColumn) -> bool:
    """Return whether most cells of a column are whole numbers."""
    texts = [text_of(row[column.index]) for row in _cells(sheet, table) if column.index < len(row)]
    filled = [text for text in texts if text]
    return bool(filled) and 2 * sum(text.split()[0].isdecimal() for text in filled) > len(filled)


def _thin(sheet: Sheet, table: OrderTable, column: TableColumn) -> bool:
    """Return whether all cells of a column are numbers as small as a wall in inches."""
    texts = [text for text in _texts(sheet, table, column) if text]
    plain = [text for text in texts if text.replace(".", "", 1).isdecimal()]
    return bool(texts) and len(plain) == len(texts) and all(float(text) < _THICKEST for text in plain)


def _fractions(sheet: Sheet, table: OrderTable, column: TableColumn) -> bool:
    """Return whether some cell of a column is written in inches: a weight never is."""
    texts = [text for text in _texts(sheet, table, column) if text]
    return any('"' in text for text in texts) or (bool(texts) and all(map(_FRACTION.fullmatch, texts)))


_FRACTION = re.compile(r"(?:\d{1,2}[ -])?\d{1,2}/(?:2|4|8|16|32|64)")


def _cells(sheet: Sheet, table: OrderTable) -> list[list[Cell]]:
    return [sheet.rows[row] for row in table.rows]


_ENDS = frozenset(("large", "small", "top", "bottom"))
_SECOND = re.compile(r"^(?P<name>.*?)\W*(?:2|ii|second)\W*$", re.I)
_LETTERS = re.compile(r"[\W\d_]+")
_TELL_APART = frozenset(word for word in _END_WORDS if len(word) > _TWO or not word.isascii()) - {
    "first",
    "second",
    "one",
    "other",
    "ends",
}
_NAMED_END = re.compile(r"\b(?:top|bottom|base|upper|lower|inlet|outlet|max\w*|min\w*|ends?)\b")


def _is_end(header: str) -> bool:
    """Return whether a heading says of which end of a cone it is: large, klein, mayor."""
    return is_word("large", header) or is_word("small", header)


def with_ends(table: OrderTable) -> OrderTable:
    """Return the table with such columns read as the ends of cones; any other table as it is."""
    columns = table.columns
    ends = [column for column in columns if column.meaning.field in _ENDS]
    round_ = [column for column in columns if column.meaning.field == "diameter"]
    if len(ends) == 1 and ends[0].meaning.field == "small" and len(round_) == 1:
        return _renamed(table, {round_[0].index: "large"})
    if ends or not round_:
        return table
    second = _second_column(columns, round_)
    return _renamed(table, {round_[0].index: "bottom", second.index: "top"}) if second else table


def _second_column(columns: tuple[TableColumn, ...], round_: list[TableColumn]) -> TableColumn | None:
    """Return the column of the other end: named as the first one but for its case, or with a 2 behind."""
    first = round_[0]
    if len(round_) == 2 and round_[1].meaning.basis is first.meaning.basis:
        same = _LETTERS.sub("", first.header).lower() == _LETTERS.sub("", round_[1].header).lower()
        return round_[1] if same else None
    if len(round_) > 1:
        return None
    for column in columns:
        match = _SECOND.match(column.header)
        name = _LETTERS.sub("", match["name"]).lower() if match else ""
        if name and column.index != first.index and name == _LETTERS.sub("", first.header).lower():
            return column
    return None


def _renamed(table: OrderTable, fields: dict[int, str]) -> OrderTable:
    basis = next(column.meaning.basis for column in table.columns if column.index in fields)
    unit = next(column.meaning.unit for column in table.columns if column.index in fields)
    columns = tuple(
        replace(
            column,
            meaning=replace(
                column.meaning,
                field=fields[column.index],
                basis=column.meaning.basis or basis,
                unit=column.meaning.unit or unit,
            ),
        )
        if column.index in fields
        else column
        for column in table.columns
    )
    return replace(table, columns=columns)


def names_no_end(table: OrderTable) -> bool:
    """Return whether the headings of cone ends tell neither from the other: Dia 1, Dia 2; not Large."""
    heads = [folded(column.header).lower() for column in table.columns if column.meaning.field in _ENDS]
    words = {word for head in heads for word in re.findall(r"[^\W\d_]+", head)}
    return not any(_NAMED_END.search(head) or _is_end(head) for head in heads) and not words & _TELL_APART


def has_both_ends(sheet: Sheet, table: OrderTable) -> bool:
    """Return whether some row of the table fills both columns of cone ends: a blank one is then no cone."""
    ends = [column.index for column in table.columns if column.meaning.field in _ENDS]
    return len(ends) == 2 and any(
        all(index < len(sheet.rows[row]) and not is_empty(sheet.rows[row][index]) for index in ends)
        for row in table.rows
    )
