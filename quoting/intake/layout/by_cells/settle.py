"""Settles what columns hold by the cells under their headings."""

from __future__ import annotations

import re
from dataclasses import replace

from quoting.intake.layout.by_cells.cells_below import (
    A_CODE,
    A_DIGIT,
    LONG_WORD,
    MARKED,
    ONE_SIZE,
    all_names,
    are_marks,
    are_sides,
    counts_on,
    is_mark,
    is_part,
    last_word,
    plain_number,
    texts_under,
    thin_plate,
)
from quoting.intake.layout.by_cells.cone_ends import with_cone_ends
from quoting.intake.layout.by_cells.counting import (
    A_PAIR,
    NUMBER_HEADS,
    ROUND_FIELDS,
    UNITS_COUNTED,
    all_rise,
    counted_by_name,
    counts_in_all,
    counts_pieces,
    counts_something,
    is_counted,
    no_count,
    numbers_rows,
    units_or_pieces,
    without_empty_quantity,
    without_running_quantity,
)
from quoting.intake.layout.by_cells.names import (
    all_grades,
    are_marked,
    are_sided_sizes,
    names_of_plant,
    no_grade,
    no_shape,
    says_sides,
)
from quoting.intake.layout.columns import Meaning
from quoting.intake.layout.find_tables import OrderTable, TableColumn
from quoting.intake.texts import shape_words
from quoting.intake.words import folded, harmless
from quoting.shop import Materials
from quoting.tables import Sheet

_ITEM_OF_ITEM = re.compile(r"\d{1,2}(?:\.\d{1,2}){1,3}")
_PLATE_OF = re.compile(
    r"(?:pl|plt|plate|blech|t[oô]le|chapa|lamiera|plaat|blacha)\W{0,2}\d+(?:[.,/]\d+)?\s*(?:mm|\"|in)?", re.I
)
_GR = re.compile(r"\s*gr\.?\s*", re.I)
"""Grade in English, and thickness in Polish: grubość."""

_LETTER_AND_FIGURE = re.compile(r"[A-Z]{1,4}[ -]?\d{2,}")
_SHORT_WORD = re.compile(r"(?<![\w-])[^\W\d_]{2}(?![\w-])")
_THICKEST = 4
"""A column headed WT whose numbers are all below this is no weight of rolled parts but a wall in inches."""


def settled_by_cells(sheet: Sheet, table: OrderTable, materials: Materials) -> OrderTable:
    """Return the table with the headings that mean two things, or nothing, settled by their cells."""
    table = without_empty_quantity(sheet, without_running_quantity(sheet, table))
    table = _with_rings(sheet, table)
    fields = [column.meaning.field for column in table.columns]
    columns: list[TableColumn] = []
    for column in table.columns:
        field = column.meaning.field
        if told := _told_otherwise(sheet, table, column, (fields, materials)):
            field = fields[len(columns)] = told
        elif field == "reqd":
            field = "quantity" if "quantity" not in fields and is_counted(sheet, table, column) else "due"
        elif field == "weight" and _WALL_OR_WEIGHT.fullmatch(column.header.strip()):
            sized = {"thickness", "gauge", "size"} & set(fields)
            texts = [text for text in texts_under(sheet, table, column) if text]
            thin = bool(texts) and all(map(plain_number, texts))
            thin = thin and thin_plate(sheet, table, texts, counted=False)
            wall = not sized and (_fractions(sheet, table, column) or _thin(sheet, table, column) or thin)
            field = "thickness" if wall else field
        elif field == "multiplier" and not is_counted(sheet, table, column):
            field = "unit"
        elif field == "unit" and UNITS_COUNTED.fullmatch(folded(column.header).strip()):
            texts = [text for text in texts_under(sheet, table, column) if text]
            whole = bool(texts) and all(map(str.isdecimal, texts))
            field = (counted_by_name(sheet, table, column, fields) if whole else "") or field
            fields[len(columns)] = field
        elif (
            field == "number"
            and fields[: len(columns)].count("number")
            and counts_pieces(sheet, table, column, fields)
        ):
            field = "quantity"
            fields.append("quantity")
        elif field == "number" and not {"quantity", "breaks", "reqd", "per_unit"} & set(fields):
            named = any(one in fields for one in ("part_no", "drawing")) or fields.count("number") > 1
            header = column.header.strip().lower().strip(".°")
            plain = header in NUMBER_HEADS or _NO_OF_PARTS.match(header) is not None
            plain = plain and fields.index("number") <= len(columns)
            named = (named or not all_rise(sheet, table, column)) and not numbers_rows(sheet, table, column)
            if plain and named and is_counted(sheet, table, column) and "quantity" not in fields:
                field = "quantity"
                fields.append("quantity")
        elif not field and are_sided_sizes(sheet, table, column):
            field = "diameter"
            fields.append(field)
        elif not field:
            field = _told_by_cells(sheet, table, column, (fields, materials))
            fields.append(field)
        columns.append(replace(column, meaning=replace(column.meaning, field=field)))
    return with_cone_ends(sheet, replace(table, columns=tuple(columns)))


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
    texts = [text for text in texts_under(sheet, table, table.columns[0]) if text]
    marks = [f"{ring[:1]}{number}" for number in range(1, len(texts) + 1)]
    return len(texts) > 1 and [re.sub(r"[-. ]", "", text.lower()) for text in texts] == marks


def _with_rings(sheet: Sheet, table: OrderTable) -> OrderTable:
    """Return the table with a count of rings beside a column of segments per ring taken to multiply it."""
    if all(column.meaning.field != "per_ring" for column in table.columns):
        return table
    table = _with_bare_total(sheet, table)
    counted = [column for column in table.columns if _RINGS.search(column.header)]
    counted = [column for column in counted if column.meaning.field in ("number", "quantity", "")]
    in_all = any(
        counts_in_all(folded(one.header).strip()) or _BARE_TOTAL.fullmatch(one.header.strip())
        for one in table.columns
        if one.meaning.field != "carried"
    )
    if not counted and not in_all:
        ring = re.split(r"\W+", _per_ring_head(table))[-1]
        named = ("number", "part_no", "description", "")
        rows = {last_word(column.header) for column in table.columns if column.meaning.field in named}
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


_BARE_TOTAL = re.compile(r"(?:total|tot|gesamt|ges|totaal|totale|razem|celkem)\.?s?", re.I)


def _with_bare_total(sheet: Sheet, table: OrderTable) -> OrderTable:
    """Return the table with a bare total taken for the quantity where it is whole rings in every row."""
    rings = next(column for column in table.columns if column.meaning.field == "per_ring")
    of_each = texts_under(sheet, table, rings)
    for column in table.columns:
        if not _BARE_TOTAL.fullmatch(column.header.strip()):
            continue
        pairs = list(zip(of_each, texts_under(sheet, table, column), strict=False))
        whole = all(one.isdecimal() and two.isdecimal() for one, two in pairs)
        if pairs and whole and all(int(one) and int(two) % int(one) == 0 for one, two in pairs):
            told = replace(column, meaning=Meaning("quantity"))
            return replace(table, columns=tuple(told if one is column else one for one in table.columns))
    return table


def _per_ring_head(table: OrderTable) -> str:
    return next(column.header.lower() for column in table.columns if column.meaning.field == "per_ring")


def _told_otherwise(  # noqa: PLR0911 - a return for each kind of column
    sheet: Sheet, table: OrderTable, column: TableColumn, known: tuple[list[str], Materials]
) -> str:
    """Return what a column holds whose cells are none of what its heading says; nothing where they agree."""
    fields, _ = known
    field = column.meaning.field
    told = counts_something(sheet, table, column, fields) or _names_or_sides(sheet, table, column, known)
    if told:
        return told
    if field == "quantity":
        return no_count(sheet, table, column)
    if field == "weight" and column.meaning.unit in ("mm", "in"):
        return "thickness"
    if field in ("length", "width", "height") and are_marked(sheet, table, column):
        return "part_no"
    if field == "shape":
        return no_shape(sheet, table, column, known)
    if field == "remarks" and "description" not in fields and _TEXT.fullmatch(column.header.strip()):
        return "description"  # the long text of a purchase system, where it has no short one
    if field == "size":
        return _no_sizes(sheet, table, column, fields)
    if field in ("thickness", "diameter", "gauge"):
        return _no_size(sheet, table, column, known)
    if field == "description":
        return _no_words(sheet, table, column, fields)
    if field == "material" and (told := no_grade(sheet, table, column, known)):
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


def _names_or_sides(
    sheet: Sheet, table: OrderTable, column: TableColumn, known: tuple[list[str], Materials]
) -> str:
    """Return what a column holds that is headed as neither: marks of plant, sides of the plate, units."""
    field, fields = column.meaning.field, known[0]
    if field in _MAY_BE_MARKS and names_of_plant(sheet, table, column, known):
        return "ignored" if "part_no" in fields else "part_no"
    if field in _MAY_BE_SIDES and "basis" not in fields and says_sides(sheet, table, column):
        return "basis"
    if field in ("angle", "arc_length") and (told := _angle_or_arc(sheet, table, column, fields)):
        return told
    return units_or_pieces(sheet, table, column, fields)


_FULL_CIRCLE = 360
_IN_DEGREES = re.compile(r"\d{1,3}(?:[.,]\d+)?\s*(?:°|º|deg\w*\.?|grad\w*)", re.I)


def _angle_or_arc(sheet: Sheet, table: OrderTable, column: TableColumn, fields: list[str]) -> str:
    """Return what a column of arcs holds by its numbers: lengths where all are more than degrees can be.

    Numbers under a foreign word of an arc that may be either are left open. A second column of angles that
    names parts counts them: Sectors.
    """
    texts = [text for text in texts_under(sheet, table, column) if text]
    if column.meaning.field == "arc_length" and texts and all(map(_IN_DEGREES.fullmatch, texts)):
        return "angle"
    if not texts or not all(map(plain_number, texts)):
        return ""
    if column.meaning.field == "angle":
        if fields.count("angle") > 1 and all(map(str.isdecimal, texts)):
            return counted_by_name(sheet, table, column, fields)
        long = column.meaning.unit != "deg" and "arc_length" not in fields
        return "arc_length" if long and all(float(text) > _FULL_CIRCLE for text in texts) else ""
    open_ = (
        column.meaning.by_words and not _OF_A_LENGTH.search(folded(column.header)) and not column.meaning.unit
    )
    return "unclear" if open_ and all(float(text) <= _FULL_CIRCLE for text in texts) else ""


_OF_A_LENGTH = re.compile(r"l(?:en|ong|ung|gth|ang|and|engd|g)|l\b|dl|delka|dlug|compr|hossz|uzunl|длин")
_MAY_BE_SIDES = frozenset(("part_no", "description", "shape", "number", "diameter", "drawing", "size"))


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
    texts = {text.lower() for text in texts_under(sheet, table, column) if text}
    return bool(texts) and texts <= _TICKS


_FLAT = re.compile(r"\b(?:plate|flat|blank|blech|zuschnitt)\b.*[(\[]\s*[^)\]]*\w\s*[x×]\s*\w", re.I)
"""Plate dim. (dev x L)"""

_TICKS = frozenset(("x", "✓", "✔", "yes", "y", "no", "n", "ja", "nein", "oui", "non", "si", "sí"))
_ROLLED = re.compile(r"\broll", re.I)


def _no_words(sheet: Sheet, table: OrderTable, column: TableColumn, fields: list[str]) -> str:
    """Return what a second column of descriptions holds where all its cells are numbers: the plate."""
    texts = [text for text in texts_under(sheet, table, column) if text]
    if "part_no" not in fields and all_names(texts):
        return "part_no"
    numbers = bool(texts) and all(map(plain_number, texts))
    if numbers and "thickness" not in fields and thin_plate(sheet, table, texts):
        return "thickness"  # Chapa
    if numbers and fields.count("description") > 1 and (counts_on(texts) or texts == ["1"]):
        return "number"
    return "thickness" if numbers and fields.count("description") > 1 and "thickness" not in fields else ""


def _no_size(sheet: Sheet, table: OrderTable, column: TableColumn, known: tuple[list[str], Materials]) -> str:
    """Return what a column headed as a size holds where all its cells are grades, or marks: Plate ID."""
    fields, _ = known
    texts = [text for text in texts_under(sheet, table, column) if text]
    if not texts or all(_A_NUMBER.fullmatch(text) for text in texts):
        numbered = texts and "material" not in fields and all(map(_STEEL_NUMBER.fullmatch, texts))
        return "material" if numbered else ""
    if all_grades(sheet, table, column, known) and not any(_INCHES.search(text) for text in texts):
        return "material"  # and .250" is no grade
    marks = all(MARKED.fullmatch(text) and not text[0].isdecimal() for text in texts)
    if column.meaning.field == "diameter" and fields.count("diameter") > 1 and marks:
        return "part_no"  # ID tag, beside the diameters
    doubled = sum(fields.count(one) for one in ("thickness", "gauge")) > 1
    named = column.meaning.field == "thickness" and doubled and marks and "part_no" not in fields
    if named and not any(_THICK_MARK.match(text) or known[1].find(text).keys for text in texts):
        return "part_no"  # Plate B12, beside a column of thicknesses
    if "basis" not in fields and are_sides(texts):
        return "basis"
    named = _ID_OF.search(column.header) is not None and all(map(is_mark, texts))
    named = named or (column.meaning.by_words and all_names(texts))
    return "part_no" if named else ""


_A_NUMBER = re.compile(r"\d*[.,]?\d+|\d+[.,]")
"""A size and no grade, whatever its decimal sign: 3,00 is no 300."""

_STEEL_NUMBER = re.compile(r"1\.\d{4}")
"""Numbers of EN 10027-2: 1.4571; no plate is measured to a tenth of a micron."""

_THICK_MARK = re.compile(r"(?:pl|plt|t|thk|th|s|e|ga|g)\W?\d", re.I)
_INCHES = re.compile(r"^\.\d|\d\s?(?:\"|''|in\b)", re.I)
_TEXT = re.compile(r"(?:long|full|item|material|purchase|order) ?text", re.I)
_ID_OF = re.compile(r"(?<=\w)[ _-]ID\W*$|^\W*ID[ _-](?:tags?|no|nr|num\w*|codes?|marks?|#)\W*", re.I)
"""Plate ID, ID tag: more often a name than the inside diameter."""


def _one_size(sheet: Sheet, table: OrderTable, column: TableColumn) -> bool:
    """Return whether a column of sizes that names a side holds one number in most rows: Size (ID), 24."""
    texts = [text for text in texts_under(sheet, table, column) if text]
    single = [text for text in texts if ONE_SIZE.fullmatch(text)]
    return column.meaning.basis is not None and len(single) * 2 > len(texts)


def _in_words(sheet: Sheet, table: OrderTable, column: TableColumn, *, beside: bool) -> bool:
    """Return whether a column headed as a mark says in words what the parts are: no cell is a mark.

    `beside` tells that another column gives the marks.
    """
    texts = [text for text in texts_under(sheet, table, column) if text]
    words = [len(LONG_WORD.findall(text)) or len(_SHORT_WORD.findall(text)) for text in texts]
    first = [LONG_WORD.match(text) for text in texts]
    if len(texts) > 1 and all(found and found[0].lower() in harmless() for found in first):
        return True  # shell, shell, pad, 60 deg: what they are, and no marks
    marks = any(A_CODE.fullmatch(text) or (MARKED.fullmatch(text) and A_DIGIT.search(text)) for text in texts)
    if texts and not _holds_sizes(table) and all(map(is_part, texts)):
        return True
    told = len(texts) > 1 and not marks and all(words)
    return told and (beside or 2 * sum(one > 1 for one in words) >= len(texts))


def _holds_sizes(table: OrderTable) -> bool:
    """Return whether some column of a table is headed as a size of the parts."""
    return any(column.meaning.field in _SIZED for column in table.columns)


_SIZED = frozenset((
    "thickness", "gauge", "diameter", "radius", "width", "length", "height", "girth", "large", "small",
    "size", "arc_length", "chord", "nominal", "schedule", "description", "shape",
))  # fmt: skip
"""Fields of columns that say what the parts are: a text beside them is a name or a note."""


def _told_by_cells(  # noqa: PLR0911 - a return for each kind of column
    sheet: Sheet, table: OrderTable, column: TableColumn, known: tuple[list[str], Materials]
) -> str:
    """Return the field of a column with an unknown heading where its cells leave no doubt, or nothing."""
    fields, materials = known
    texts = [text for text in texts_under(sheet, table, column) if text]
    if not texts:
        return ""
    if not set(fields) & _SIZED and all(map(is_part, texts)):
        return "description"
    if "thickness" not in fields and all(map(_PLATE_OF.fullmatch, texts)):
        return "thickness"  # Section, PL12
    if all(map(str.isdecimal, texts)) and (counted := counted_by_name(sheet, table, column, fields)):
        return counted
    if _GR.fullmatch(column.header) and not {"thickness", "gauge"} & set(fields) and "material" in fields:
        numbers = all(map(plain_number, texts))
        return "thickness" if numbers and thin_plate(sheet, table, texts, counted=False) else ""
    if "basis" not in fields and ROUND_FIELDS & set(fields) and are_sides(texts):
        return "basis"
    early = column in table.columns[:A_PAIR] and not {"description", "part_no"} & set(fields)
    if early and shape_words(column.header) and all(LONG_WORD.match(text) for text in texts):
        return "description"  # Casing: outer, inner
    first = column is table.columns[0] and not {"number", "part_no"} & set(fields)
    if first and len(set(texts)) == len(texts) and all(_ITEM_OF_ITEM.fullmatch(text) for text in texts):
        return "number"
    first = first and bool({"quantity", "per_ring"} & set(fields))
    if first and len(set(texts)) == len(texts) > 1 and are_marks(texts):
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


_NO_OF_PARTS = re.compile(
    r"(?:no|nr|n|num|nbre|nb|nro|numero|número)[\Wºª]+(?:of |de |di |von )?(?:half|quarter|rolled )?\W*"
    r"(?:shells?|rings?|segments?|segs|plates|cans|pieces|pcs|cones|cylinders|sections|panels|strakes|halves"
    r"|pe[cç]as|pi[eè]ces|piezas|pezzi|st(?:ü|u|ue)ck\w*|teile|viro(?:l[ae]s|les?)|anillos|chapas|t[oô]les|szt\w*|ks"
    r"|kus\w*|stuks|tubos|tubes|tuyaux|tubi|rohre|rury|trubky|pzs|pzas|pz|segm\w*|an[ée]is|anelli|ringen|ringe|schüsse|schuesse|tronçons|tramos|conci|stycken|adet)"
)
"""No. shells, n. semigusci: how many there are; Shell no. is the number of one."""


def _thin(sheet: Sheet, table: OrderTable, column: TableColumn) -> bool:
    """Return whether all cells of a column are numbers as small as a wall in inches."""
    texts = [text for text in texts_under(sheet, table, column) if text]
    plain = [text for text in texts if text.replace(".", "", 1).isdecimal()]
    return bool(texts) and len(plain) == len(texts) and all(float(text) < _THICKEST for text in plain)


def _fractions(sheet: Sheet, table: OrderTable, column: TableColumn) -> bool:
    """Return whether some cell of a column is written in inches: a weight never is."""
    texts = [text for text in texts_under(sheet, table, column) if text]
    return any('"' in text for text in texts) or (bool(texts) and all(map(_FRACTION.fullmatch, texts)))


_FRACTION = re.compile(r"(?:\d{1,2}[ -])?\d{1,2}/(?:2|4|8|16|32|64)")
