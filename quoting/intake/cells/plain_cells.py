"""Reads the cells that hold no size: quantity, shape, angle, material, dates, yes and no."""

from __future__ import annotations

import re
from datetime import date

from quoting.core import Basis, Choice, Mark, NumberStyle, Place, Reading, Unit
from quoting.intake.cells.material_cells import take_text
from quoting.intake.layout import TableColumn, TableContext, sides_of, unit_word
from quoting.intake.row_record import Doubt, Record, RowText, number_text
from quoting.intake.size_column import NOTHING
from quoting.intake.texts import (
    BASIS_WORDS,
    LARGEST_COUNT,
    PartText,
    count_of,
    date_of,
    edges_in,
    ends_cell,
    ends_in,
    flags_in,
    part_text,
    rising_list,
    shape_words,
    yes_no,
)
from quoting.intake.words import said_in_text
from quoting.tables import Cell, text_of


def _number(record: Record, frame: TableContext, column: TableColumn, cell: Cell, place: Place) -> None:
    record.values["number"] = text_of(cell)


def _quantity(record: Record, frame: TableContext, column: TableColumn, cell: Cell, place: Place) -> None:
    text = text_of(cell)
    record.places["quantity"] = (place, text)
    if isinstance(cell, date):
        asked = f"The spreadsheet turned the quantity into the date {text}; how many pieces?"
        record.doubt(Doubt("quantity", place, text, asked))
        return
    counted_in = _IN_GROUPS.search(column.header)
    count = count_of(f"{text} {counted_in[1] or 'pairs'}" if counted_in and text.isdecimal() else cell)
    if count.number is None:
        choices = tuple(Choice(str(one), (("quantity", str(one)),)) for one in count.options if one)
        asked = f'The quantity reads "{text}"; how many pieces?'
        record.doubt(Doubt("quantity", place, text, asked, choices))
        return
    if record.values.get("quantity", str(count.number)) != str(count.number):
        asked = f"Two quantities are given, {record.values['quantity']} and {text}; which one?"
        choices = tuple(
            Choice(number, (("quantity", number),))
            for number in (record.values["quantity"], str(count.number))
        )
        record.doubt(Doubt("quantity", place, text, asked, choices))
    record.values["quantity"] = str(count.number)
    record.readings.append(Reading("quantity", place, text, str(count.number)))
    if counted_in:
        record.assumptions.append(f'{count.number} pieces: "{column.header}", {text}')
    if count.breaks:
        record.values["breaks"] = ",".join(str(number) for number in count.breaks)
        record.assumptions.append(f"prices at {text} pieces; the ordered quantity is not stated")


_IN_GROUPS = re.compile(
    r"\b(?:pairs?|prs|paare?|paires|pares|coppie|paia|paren|pary|p[aá]ry|par(?=\W*$))\b"
    r"|\b(sets? of \d{1,2})\b",
    re.I,
)
"""Headings of counts that count pairs, or sets of so many pieces."""


def _breaks(record: Record, frame: TableContext, column: TableColumn, cell: Cell, place: Place) -> None:
    numbers = count_of(cell)
    found = numbers.breaks or ((numbers.number,) if numbers.number else ()) or rising_list(text_of(cell))
    if found:
        known = [int(number) for number in record.values.get("breaks", "").split(",") if number]
        record.values["breaks"] = ",".join(str(number) for number in sorted({*known, *found}))
    else:
        carry(record, frame, column, cell, place)


def _shape(record: Record, frame: TableContext, column: TableColumn, cell: Cell, place: Place) -> None:
    text = text_of(cell)
    record.places["shape"] = (place, text)
    if any(sign.isdecimal() for sign in text):
        part = part_text(text, frame.style, frame.materials)
        if part.sizes and not part.said and all(one.clear for one in part.sizes) and _curved(text, part):
            record.texts.append(RowText("size", text, place, column.header))
            record.values.update({**_ARC, **shape_words(text)})
            return
    found = shape_words(text)
    if found:
        record.values.update(found)
        record.readings.append(Reading("shape", place, text, found["shape"]))
    else:
        choices = (
            Choice("full cylinder", (("shape", "cylinder"),)),
            Choice("segment (arc)", (("shape", "arc"),)),
        )
        asked = f'The shape reads "{text}"; which shape is it?'
        record.doubt(Doubt("shape", place, text, asked, (*choices, Choice("cone", (("shape", "cone"),)))))
    ends = ends_in(text)
    if ends:
        record.values.setdefault("ends", str(ends))


_SIDE_LETTERS = {"e": "outside", "ext": "outside", "u": "outside", "int": "inside"}
"""In a column of sides: exterior, extérieur, esterno; uitwendig, utvendig."""


def _basis_cell(record: Record, frame: TableContext, column: TableColumn, cell: Cell, place: Place) -> None:
    text = text_of(cell)
    plain = text.lower().replace(".", "")
    side = BASIS_WORDS.get(plain) or _SIDE_LETTERS.get(plain)
    named = sides_of(text) if side is None else frozenset[Basis]()
    side = str(next(iter(named))) if len(named) == 1 else side
    if side is None:
        carry(record, frame, column, cell, place)
        return
    if _FIGURES.search(text):
        record.texts.append(RowText("size", text, place, column.header))  # ID 30 1/2: a size of its own
    known = record.values.get("basis", side)
    record.readings.append(Reading("basis", place, text, side))
    if known == side:
        record.values["basis"] = side
        return
    del record.values["basis"]
    choices = tuple(Choice(one, (("basis", one),)) for one in (known, side))
    asked = f'This column says "{text}", the diameter itself says {known}; which is it?'
    record.doubt(Doubt("basis", place, text, asked, choices))


_FIGURES = re.compile(r"\d")
_CIRCLE = 360.0
_OF_ANGLES = re.compile(
    r"°|º|(?:\b|(?<=\d))(?:deg(?:ree)?s?|degr[eé]s?|gra[du]\w*|graden|stopni\w*|stup\w*|derece|fok|of|an?|the|arc"
    r"|arcs|each|incl|included|angle|segments?)\b\.?|[()\[\]=:;]|,(?!\d)"
)
_SHARES = {
    "full": 360.0, "whole": 360.0, "half": 180.0, "semi": 180.0, "halves": 180.0,
    "quarter": 90.0, "quarters": 90.0, "third": 120.0, "thirds": 120.0,
    "1/2": 180.0, "1/3": 120.0, "1/4": 90.0, "3/4": 270.0, "2/3": 240.0,
    "½": 180.0, "⅓": 120.0, "¼": 90.0, "¾": 270.0,
}  # fmt: skip


_ROUNDS = ("circ", "round")
_OF_A_CIRCLE = re.compile(r"circle|portion|fraction|share|half|round", re.I)


def _degrees(text: str, heading: str = "") -> float:
    """Return the degrees of arc that a text says in figures, as a share of a circle, or both alike; else 0.

    A bare fraction is a share where the text or its heading speaks of a circle.

    >>> _degrees("180 (half)"), _degrees("1/4 circle"), _degrees("90 (half)"), _degrees("4 x 90")
    (180.0, 90.0, 0.0, 0.0)
    >>> _degrees("third (120)"), _degrees("1/4 (90)"), _degrees("1/4 (60)")
    (120.0, 90.0, 0.0)
    """
    words = _OF_ANGLES.sub(" ", text.lower()).split()
    circle = any(word.startswith(_ROUNDS) for word in words) or _OF_A_CIRCLE.search(heading) is not None
    shares = {f"{_SHARES[word]:g}" for word in words if word in _SHARES}
    circle = circle or bool(shares & {*words})  # 1/4 (90)
    found: set[float] = set()
    for word in words:
        if word.startswith(_ROUNDS):
            continue
        share = _SHARES.get(word) if circle or not word[0].isdecimal() else None
        try:
            found.add(float(word.replace(",", ".")) if share is None else share)
        except ValueError:
            return 0.0
    return found.pop() if len(found) == 1 else 0.0


def _angle(record: Record, frame: TableContext, column: TableColumn, cell: Cell, place: Place) -> None:
    text = text_of(cell)
    record.places["angle"] = (place, text)
    if text.lower() in NOTHING:
        return
    if isinstance(cell, (int, float)) and not isinstance(cell, bool):
        degrees = float(cell)
    else:
        degrees = _degrees(text, column.header)
    if not 0 < degrees <= _CIRCLE:
        record.doubt(Doubt("angle", place, text, f'The angle reads "{text}"; how many degrees of arc?'))
        return
    record.values["angle"] = number_text(degrees)
    record.readings.append(Reading("angle", place, text, f"{degrees:g} degrees"))


def _material(record: Record, frame: TableContext, column: TableColumn, cell: Cell, place: Place) -> None:
    text = text_of(cell)
    if text.lower() in NOTHING:
        return
    head = _OF_A_STANDARD.fullmatch(column.header.strip())
    if head and _SHORT_GRADE.fullmatch(text) and not frame.desk.materials.find(text).keys:
        text = f"{head[1]} Gr {text}"
    take_text(record, frame, text, place)


_OF_A_STANDARD = re.compile(
    r"((?:ASTM |ASME |AAR )?(?:S?A|TC)[- ]?\d{2,4})[- ](?:gr(?:ade)?|type|class|cl)\.?", re.I
)
_SHORT_GRADE = re.compile(r"[A-Z]|\d{2,3}[A-Z]?")
"""70 under A516 grade."""


def _ends(record: Record, frame: TableContext, column: TableColumn, cell: Cell, place: Place) -> None:
    text = text_of(cell)
    found = ends_cell(text, column.header)
    if found:
        record.values["ends"] = str(found)
        record.readings.append(Reading("ends", place, text, str(found)))
    elif text.lower() not in NOTHING:
        carry(record, frame, column, cell, place)


_CUSTOMER_BRINGS = frozenset((
    "customer", "us", "buyer", "yes", "y", "x", "free issue", "fi", "we", "we do", "client", "owner", "ours",
    "we send it", "we send", "we supply", "we supply it", "we bring it", "we buy it", "our own", "by us",
    "by customer", "from our stock", "ourselves",
))  # fmt: skip
_SHOP_BRINGS = frozenset((
    "no", "n", "vendor", "shop", "you", "yours", "supplier", "you do", "you supply", "you supply it",
    "by you", "roller", "your stock", "from your stock", "you buy it", "yourselves", "fabricator",
    "contractor",
))  # fmt: skip
_BRINGS = _CUSTOMER_BRINGS | _SHOP_BRINGS
"""Answers under a heading that asks who brings the plate."""
WHOSE_PLATE = (
    Choice("yes, our plate", (("free_issue", "yes"), ("free_issue_ok", "yes"))),
    Choice("no, you supply the plate", (("free_issue", ""), ("free_issue_ok", "yes"))),
)
"""The answers to whether the plate is free issue."""


def _ask_whose(record: Record, column: TableColumn, text: str, place: Place) -> None:
    comes = "is the plate free issue, supplied by you? Then please give its grade, size and when it comes"
    asked = f'The sheet says "{column.header}: {text}": {comes}?'
    record.doubt(Doubt("free_issue_ok", place, text, asked, WHOSE_PLATE))


def _answer(text: str) -> str:
    return " ".join(text.lower().split()).strip(" .!")


def says_who_brings(text: str) -> bool:
    """Return whether a cell under a heading that asks who brings the plate is one of the known answers."""
    return _answer(text) in _BRINGS or yes_no(text) is not None


def _flag(record: Record, frame: TableContext, column: TableColumn, cell: Cell, place: Place) -> None:
    name = {"grain": "grain_along"}.get(column.meaning.field, column.meaning.field)
    text = text_of(cell)
    answer = yes_no(text)
    if name == "free_issue":
        answer = answer or bool(flags_in(text)) or _answer(text) in _CUSTOMER_BRINGS
        if not answer and not says_who_brings(text) and text.lower() not in NOTHING:
            carry(record, frame, column, cell, place)
            _ask_whose(record, column, text, place)
    if name == "grain_along":
        answer = yes_no(text) is not False and text.lower() not in ("any", "n/a", *NOTHING)
    if answer:
        record.values[name] = "yes"
        record.readings.append(Reading(name, place, text, "yes"))
    whole = name == "free_issue" and says_who_brings(text)
    if answer is None or (answer and len(text) > 3 and not whole):
        carry(record, frame, column, cell, place)


def _text_field(record: Record, frame: TableContext, column: TableColumn, cell: Cell, place: Place) -> None:
    text = text_of(cell)
    if text.lower() in NOTHING:
        return
    name = column.meaning.field
    seams = _SEAMS.fullmatch(text) if name == "seam" else None
    if seams and int(seams[1]) <= _MOST_SEAMS:
        record.assumptions.append(
            f"long seams: {text}, as the sheet says; more only where plate and roll need them"
        )
        return
    record.values[name] = f"{record.values[name]}; {text}" if record.values.get(name) else text
    record.readings.append(Reading(name, place, text, text))


def says_how_many_seams(text: str) -> bool:
    """Return whether a cell under the seam is no more than a number of long seams.

    >>> says_how_many_seams("1 LS"), says_how_many_seams("full pen")
    (True, False)
    """
    return _SEAMS.fullmatch(text) is not None


def _due(record: Record, frame: TableContext, column: TableColumn, cell: Cell, place: Place) -> None:
    text = text_of(cell)
    if text.lower() in NOTHING:
        return
    found = date_of(cell, today=frame.today, header=column.header, day_first=frame.day_first)
    record.places["due"] = (place, text)
    if found.either:
        us, eu = found.either
        first, second = (us, eu) if frame.unit.unit == "in" else (eu, us)
        choices = tuple(Choice(f"{day:%d %B %Y}", (("due", day.isoformat()),)) for day in (first, second))
        record.values["due"] = min(first, second).isoformat()
        asked = f'The date "{text}" can be {us:%d %B %Y} or {eu:%d %B %Y}; which?'
        assumed = f"due {min(first, second):%d %B %Y}, the earlier of the two"
        record.doubt(Doubt("due", place, text, asked, choices, blocking=False, assumed=assumed))
    elif found.value is None:
        _no_date(record, text, found.odd, place)
        return
    else:
        record.values["due"] = found.value.isoformat()
        if found.value < frame.today:
            asked = f"The date {found.value:%d %B %Y} is already past; when do you need it?"
            record.doubt(Doubt("due", place, text, asked, blocking=False, assumed="no due date held"))
            record.values.pop("due")
    record.readings.append(Reading("due", place, text, record.values.get("due", "past")))


def _no_date(record: Record, text: str, odd: str, place: Place) -> None:
    """Ask for a date where a text is none: weeks from order, as soon as possible, 30 February."""
    record.remarks.append(f"delivery: {text}")
    why = f" ({odd})" if odd else ""
    asked = f'The delivery reads "{text}"{why}: which date is that? No due date is held until then.'
    record.doubt(Doubt("due", place, text, asked, blocking=False, assumed="no due date held"))


def ask_date(record: Record, cell: Cell, place: Place) -> None:
    """Ask whether a date in a column that nothing is known of is the date of delivery."""
    found = date_of(cell).value if isinstance(cell, str | date) else None
    if found is not None:
        text = text_of(cell)
        yes = Choice("yes", (("due", found.isoformat()),))
        asked = f'The column "{place.header}" holds the date {text}: is it when you need the part?'
        record.doubt(Doubt("due", place, text, asked, (yes,), blocking=False, assumed="no due date held"))


_NO_REVISION = re.compile(
    r"\W*(latest|newest|current|last|new|tb[acd]|to follow|\?+)(\s+(rev\w*|issue))?\W*", re.I
)


def ask_revision(record: Record, text: str, place: Place) -> None:
    """Ask which revision is meant where a cell names none: latest, to follow."""
    if _NO_REVISION.fullmatch(text):
        asked = f'The revision reads "{text}": which revision of the drawing do the sizes hold for?'
        as_sized = (Choice("the sizes of this sheet hold", (("revision_ok", "yes"),)),)
        record.doubt(Doubt("revision_ok", place, text, asked, as_sized))


def _unit_cell(record: Record, frame: TableContext, column: TableColumn, cell: Cell, place: Place) -> None:
    """Ask where the pieces are counted in sets, lots or a word that is not known; units were read before."""
    text = text_of(cell)
    plain = text.lower().strip(" .()")
    if unit_word(text) or plain in NOTHING or count_of(f"1 {plain}").number == 1:
        return
    asked = f'The quantity is counted in "{text}"; how many pieces is that in all?'
    record.doubt(Doubt("quantity", place, text, asked))


def _remark(record: Record, frame: TableContext, column: TableColumn, cell: Cell, place: Place) -> None:
    text = text_of(cell)
    if text.lower() not in NOTHING:
        record.remarks.append(text)


def carry(record: Record, frame: TableContext, column: TableColumn, cell: Cell, place: Place) -> None:
    """Carry a cell that no field holds along as a remark, with its header."""
    text = text_of(cell)
    header = headed(column)
    if text.lower() not in NOTHING:
        record.remarks.append(f"{header}: {text}" if header else text)


def headed(column: TableColumn) -> str:
    """Return the heading of a column, with what it is about where only a word of another language says so."""
    told = column.meaning.field != "edge" or edges_in(column.header, inch=True) is not None
    return column.header if told else f"{column.header} (edge prep)"


def _per_unit(record: Record, frame: TableContext, column: TableColumn, cell: Cell, place: Place) -> None:
    count, text = count_of(cell), text_of(cell)
    if count.number is not None:
        record.values["per_unit"] = str(count.number)
    record.places["quantity"] = (place, text)
    if _HALVES.search(text):
        record.values.update({**_ARC, "half": "yes"})  # 2 halves
    elif part := shape_words(text):
        record.values.update(part)
    _times(record)


_HALVES = re.compile(r"\b(?:halves|halfs|halfes)\b", re.I)


def _per_ring(record: Record, frame: TableContext, column: TableColumn, cell: Cell, place: Place) -> None:
    """Read how many segments make a ring: so many pieces a ring, each its part of the circle."""
    count = count_of(cell).number
    if count is None or not 1 < count <= _MOST_SEGMENTS:
        text = text_of(cell)
        asked = f'The quantity reads "{text}"; how many pieces?'
        record.doubt(Doubt("quantity", place, text, asked))
        return
    record.values.update({**_ARC, "angle": number_text(360 / count), "per_unit": str(count)})
    record.places["quantity"] = record.places["angle"] = (place, text_of(cell))
    record.readings.append(Reading("angle", place, text_of(cell), f"{360 / count:g} degrees"))
    _times(record)


_MOST_SEGMENTS = 60


def _of_one_ring(record: Record, frame: TableContext, column: TableColumn, cell: Cell, place: Place) -> None:
    """Read how many segments make the one ring that the row is."""
    record.values["units"] = "1"
    _per_ring(record, frame, column, cell, place)


def _multiplier(record: Record, frame: TableContext, column: TableColumn, cell: Cell, place: Place) -> None:
    count = count_of(cell)
    if count.number:
        record.values["units"] = str(count.number)
    else:
        carry(record, frame, column, cell, place)
    _times(record)


def _times(record: Record) -> None:
    """Multiply pieces per unit by the number of units, once both are read."""
    one, units = record.values.get("per_unit"), record.values.get("units")
    if one and units and int(one) * int(units) <= LARGEST_COUNT:
        record.values["quantity"] = str(int(one) * int(units))
        record.assumptions.append(f"quantity {record.values['quantity']}: {one} per unit, {units} units")


_NUMBER = re.compile(r"^\s*(\d+(?:[.,]\d+)?)\s*(lbs?|#|kgs?|to?|tonn?es?)?\s*$", re.I)
_THOUSANDS = {
    NumberStyle.POINT: re.compile(r"(?<=\d),(?=\d{3}(?!\d))"),
    NumberStyle.COMMA: re.compile(r"(?<=\d)\.(?=\d{3}(?!\d))"),
    NumberStyle.UNKNOWN: re.compile(r"(?!)"),
}
_TONNES = re.compile(r"(?<![a-zß-ɏΐ-џ])(?:t|to|mt|tonn?e?[sn]?|tonnellate|toneladas|ton)(?![^\W\d_])")
"""Mass [t], Poids t, Gew. to: in thousands of kilograms."""
_KG_PER_TONNE = 1000.0
_KG_PER_LB = 0.45359237


_IN_A_WRONG_COLUMN = frozenset(("shape", "free_issue", "eccentric", "option"))


def _weight(record: Record, frame: TableContext, column: TableColumn, cell: Cell, place: Place) -> None:
    """Keep a weight in kg, to check the sizes against; nothing is taken from it."""
    match = _NUMBER.match(_THOUSANDS[frame.style].sub("", text_of(cell)))
    if match is None:
        words = said_in_text(text_of(cell))[0]  # of a remark that slipped into the last column
        if any(one.does in ("ask", "free") and one.name in _IN_A_WRONG_COLUMN for one in words):
            record.texts.append(RowText("remark", text_of(cell), place, free=True))
        carry(record, frame, column, cell, place)
        return
    unit = (match.group(2) or "").lower() or column.header.lower()
    tonnes = _TONNES.search(unit) is not None
    pounds = "lb" in unit or "#" in unit or ("kg" not in unit and frame.unit.unit == "in")
    if tonnes and frame.unit.unit == "in":
        carry(record, frame, column, cell, place)  # short tons, or metric ones
        return
    kg = float(match.group(1).replace(",", ".")) * (
        _KG_PER_TONNE if tonnes else _KG_PER_LB if pounds else 1.0
    )
    name = "weight_kg" if "weight_kg" not in record.values else "weight_kg 2"
    record.values[name] = number_text(kg)
    record.places["weight_kg"] = (place, text_of(cell))


_MOST_SEAMS = 4
_SEAMS = re.compile(
    r"\s*(\d{1,2})\s*(?:x\s*)?(?:l\W?s\.?|l\W?w\.?|long(?:\.|itudinal)?|seams?|welds?|(?:long )?seams?)?\s*",
    re.I,
)
"""How many long seams: 1, 2 LS, 1 long."""
_ARC = {"shape": "arc"}
_CURVE = frozenset((Mark.RADIUS, Mark.CHORD, Mark.RISE, Mark.ARC_LENGTH))


def _curved(text: str, part: PartText) -> bool:
    """Return whether the sizes of a shape cell are those of an arc (radius, degrees, chord, half of 1200), or
    the diameters of a cylinder or cone, each with its side of the plate.
    """
    marked = any(one.measure.mark in _CURVE or one.measure.unit is Unit.DEGREE for one in part.sizes)
    shape = shape_words(text).get("shape")
    round_ = shape in ("cone", "cylinder") and all(one.measure.basis for one in part.sizes)
    return marked or round_ or shape == "arc"


READERS = {
    "weight": _weight,
    "per_unit": _per_unit,
    "multiplier": _multiplier,
    "per_ring": _per_ring,
    "of_one_ring": _of_one_ring,
    "number": _number,
    "quantity": _quantity,
    "breaks": _breaks,
    "shape": _shape,
    "basis": _basis_cell,
    "angle": _angle,
    "material": _material,
    "ends": _ends,
    "certificate": _flag,
    "free_issue": _flag,
    "re_round": _flag,
    "grain": _flag,
    "seam": _text_field,
    "tolerance": _text_field,
    "due": _due,
    "unit": _unit_cell,
    "remarks": _remark,
}
