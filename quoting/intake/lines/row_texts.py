"""Reads what the texts of a row say beside its plain cells: sizes, counts, grades, phrases."""

from __future__ import annotations

import re
from dataclasses import replace

from quoting.core import (
    Basis,
    Choice,
    Mark,
    Measure,
    Reading,
    Sighting,
    SizeError,
    Unit,
    parse_measures,
)
from quoting.intake import shapes
from quoting.intake.cells import PLAIN_STEEL, read_measure, take_material
from quoting.intake.layout import TableContext, basis_said, mere_business
from quoting.intake.lines.account import GivenSizes, account, only_an_errand
from quoting.intake.parts import end_gone_to, is_other_end
from quoting.intake.row_record import Doubt, Record, RowText, number_text
from quoting.intake.shop_view import thickness_of
from quoting.intake.size_column import MM, SizeColumn
from quoting.intake.texts import (
    HEAVY,
    QUIET,
    PartText,
    date_of,
    is_conical,
    of_an_edge,
    part_text,
    shape_words,
)
from quoting.intake.words import Said, correction_in
from quoting.shop import Family

FIELDS = {
    Mark.DIAMETER: "diameter", Mark.RADIUS: "radius", Mark.THICKNESS: "thickness", Mark.LENGTH: "length",
    Mark.WIDTH: "width", Mark.HEIGHT: "height", Mark.GIRTH: "girth", Mark.ARC_LENGTH: "arc_length",
    Mark.CHORD: "chord", Mark.RISE: "rise", Mark.SLANT: "slant", Mark.LARGE: "large", Mark.SMALL: "small",
}  # fmt: skip
_LENGTHS = ("length", "width", "height", "slant")
_ROUND = ("diameter", "radius", "large", "small", "girth", "chord")
NOTES = "the notes"
"""The header of a remark that stands in the notes of the sheet."""
THIN = 8
"""Beside a rolled length the thickness is at least this many times smaller (common practice, no source)."""


def read_texts(record: Record, frame: TableContext) -> None:
    """Take from the texts of a row what its cells leave open, and account for every word of them."""
    parts: list[tuple[RowText, PartText]] = []
    for row in record.texts:
        part = part_text(row.text, frame.style, frame.materials)
        if part.weight == QUIET and not (row.free and row.kind == "remark"):
            continue
        if row.header == NOTES and _corrected(record, frame, row):
            continue
        if row.kind in ("remark", "heading") and _mere_business(row.text, frame):
            _dates(record, row, part)
            _said_as_remark(record, row)
        elif part.weight != QUIET:
            parts.append((row, part))
        else:
            _said_as_remark(record, row)
    heavy = [
        (row, part)
        for row, part in parts
        if part.weight == HEAVY and row.kind != "heading" and not (part.numbered and row.kind != "size")
    ]
    for row, part in heavy:
        _count(record, row, part)
        _material(record, frame, row, part)
        if part.schedule and row.kind != "remark":
            record.values.setdefault("schedule", part.schedule)
            record.places.setdefault("schedule", (row.place, row.text))
        _dates(record, row, part)
    used = _sizes(record, frame, heavy) if heavy else {}
    given = GivenSizes(record, frame)
    for row, part in parts:
        if only_an_errand(row, part):
            _said_as_remark(record, row)
        else:
            account(given, row, part, used.get(id(row), set()))


def _corrected(record: Record, frame: TableContext, row: RowText) -> bool:
    """Take the new size of a note that corrects one of the row; return whether that was clear.

    An old number that is not the row's is a question, and so is a size on another side of the plate.
    """
    said = correction_in(row.text)
    if said is None or said.field not in record.values or said.field in record.doubts:
        return False
    known = _shown(record, said.field)
    if not known or (said.old and not _is(said.old, known, frame)):
        return False
    side = basis_said(row.text)
    if said.field == "diameter" and side is not None and str(side) != record.values.get("basis"):
        return False
    try:
        sizes = parse_measures(said.new, frame.style)
    except SizeError:
        return False
    before = record.values.pop(said.field)
    if said.field == "quantity":
        record.values["quantity"] = f"{sizes[0].low:g}"
    else:
        read_measure(record, _slot(frame, row, said.field), sizes[0], row.place, row.text, frame.desk)
    if said.field not in record.values or said.field in record.doubts:
        record.values[said.field] = before
        return False
    record.assumptions.append(f'{said.field} {said.new}, as the notes say: "{row.text}"')
    return True


def _shown(record: Record, field: str) -> float:
    """Return a size of the row in mm, or its count; 0 where its unit is not known yet."""
    if field == "quantity":
        return float(record.values.get("quantity") or 0)
    return shapes.length(record.values, field) or 0.0


def _is(text: str, known: float, frame: TableContext) -> bool:
    """Return whether a number of a text is a size of the row: in its unit, or as it stands."""
    try:
        size = parse_measures(text, frame.style)[0]
    except SizeError:
        return False
    if size.unit is None and abs(size.low - known) < _SAME:
        return True
    return abs(size.low * MM.get(str(size.unit or frame.unit.unit), 0.0) - known) < _SAME


_SAME = 0.06


def _mere_business(text: str, frame: TableContext) -> bool:
    own = frame.translation.own.get(text, text) if frame.translation is not None else text
    return mere_business(text, own, frame.materials)


def _said_as_remark(record: Record, row: RowText) -> None:
    """Say on the line that a remark was read; what a heading says is told with the terms of the sheet."""
    if row.kind == "remark":
        record.assumptions.append(f'"{row.text}" is taken as a remark, nothing is priced for it')


def _sizes(record: Record, frame: TableContext, heavy: list[tuple[RowText, PartText]]) -> dict[int, set[int]]:
    """Take the sizes of the texts, marked ones first; return which of each text's sizes were used."""
    from_words = _needs_more(record)
    sized = [
        (row, part)
        for row, part in heavy
        if row.kind in ("size", "description")
        or from_words
        or _all_it_says(record, row, part)
        or _only_degrees(record, part)
        or _from_the_column(record, row, part)
    ]
    used = {id(row): _marked(record, frame, row, part) for row, part in sized}
    for row, part in heavy:
        for one in part.sizes:
            if row.kind == "remark" and one.clear and one.measure.mark is Mark.SLANT:
                _take(record, frame, row, "slant", one.measure)
    for row, part in sized:
        used[id(row)] |= _loose(record, frame, row, part)
    if from_words and any(row.kind == "description" and used[id(row)] for row, _ in sized):
        record.assumptions.append("sizes read from the description")
    for _, part in heavy:
        _direction(record, frame, part)
    return used


def _all_it_says(record: Record, row: RowText, part: PartText) -> bool:
    """Return whether a remark is a size that says what it is, and no more, and the row lacks it: 3/4 thk."""
    if part.said or part.materials or part.count is not None or len(part.sizes) != 1:
        return False
    one = part.sizes[0]
    field = FIELDS.get(one.measure.mark, "") if one.measure.mark else ""
    names = {"length": _LENGTHS, "width": _LENGTHS, "height": _LENGTHS}.get(field, (field, "gauge"))
    given = set(names) & {*record.values, *record.doubts}
    words = (word.lower() for word in _WORD.findall(row.text))
    return one.clear and field in _SAID_ALONE and not given and all(word in _NO_MORE for word in words)


def _only_degrees(record: Record, part: PartText) -> bool:
    """Return whether the only number of a remark are degrees, and the row is a radius that lacks them."""
    if part.said or part.materials or part.count is not None or len(part.sizes) != 1:
        return False
    open_ = {"angle", "chord", "arc_length", "rise", "girth", "diameter"} & {*record.values, *record.doubts}
    of_arc = part.sizes[0].clear and part.sizes[0].measure.unit is Unit.DEGREE
    return of_arc and bool(record.values.get("radius")) and not open_


def _from_the_column(record: Record, row: RowText, part: PartText) -> str:
    """Return the number of the end that a text says its cone goes to, where the column gives the other.

    A remark on what is called a shell is asked about.
    """
    values = record.values
    named = shape_words(values.get("description", "")).get("shape", "")
    if row.kind == "remark" and named not in ("", "cone"):
        return ""
    if not values.get("diameter") or {"large", "small", "top", "bottom", "diameter"} & {*record.doubts}:
        return ""
    ends = {"large", "small", "top", "bottom"} & {*values}
    return "" if ends or values.get("shape", "cone") != "cone" else end_gone_to(part.text)


_WORD = re.compile(r"[^\W\d_]+")
_SAID_ALONE = frozenset(("thickness", "length", "width", "height"))
_NO_MORE = frozenset((
    "this", "these", "one", "ones", "here", "use", "is", "are", "on", "in", "of", "plate", "pl", "line",
    "item", "make", "inch", "inches", "mm", "for", "from", "made", "thk", "thick", "thickness", "t", "wall",
    "ga", "gauge", "long", "length", "lg", "wide", "width", "high", "height", "tall",
))  # fmt: skip
"""The words beside such a size."""


def _direction(record: Record, frame: TableContext, part: PartText) -> None:
    """Take which of two flat lengths is rolled round: `60" way rolled`, `along the 8'`."""
    kind, text = part.way
    if not text or record.values.get("round_mm"):
        return
    try:
        size = parse_measures(text.strip(), frame.style)[0]
    except SizeError:
        return
    unit = str(size.unit or frame.unit.unit)
    mm = size.low * MM.get(unit, 0.0)
    sides = [side for name in ("width", "length") if (side := shapes.length(record.values, name))]
    if kind == "axis":
        sides = [side for side in sides if abs(side - mm) > 0.5]
        mm = sides[0] if len(sides) == 1 else 0.0
    if mm:
        record.values["round_mm"] = number_text(mm)


def _needs_more(record: Record) -> bool:
    values = record.values
    return not any(name in values for name in (*_ROUND, "thickness", "gauge"))


def _slot(frame: TableContext, row: RowText, field: str) -> SizeColumn:
    return SizeColumn(field, row.unit, None, frame.unit.unit, frame.style)


def _count(record: Record, row: RowText, part: PartText) -> None:
    known = record.values.get("quantity")
    if part.count is None or (row.kind == "remark" and (not known or str(part.count) not in row.text)):
        return  # one more coat: a count in words may be that of anything
    if known and row.kind == "remark" and str(part.count) == record.values.get("angle"):
        return  # bottom 120 only: the degrees of the row
    if known is None and "quantity" not in record.doubts:
        record.values["quantity"] = str(part.count)
        record.readings.append(Reading("quantity", row.place, row.text, str(part.count)))
    elif known and known != str(part.count):
        choices = tuple(Choice(number, (("quantity", number),)) for number in (known, str(part.count)))
        asked = f'The quantity is {known}, but the sheet also says "{row.text}"; how many?'
        record.doubt(Doubt("quantity", row.place, row.text, asked, choices))


def _material(record: Record, frame: TableContext, row: RowText, part: PartText) -> None:
    keys = tuple(dict.fromkeys(key for key, _ in part.materials))
    known = record.values.get("material")
    if record.values.get(PLAIN_STEEL) and len(keys) == 1 and frame.materials.family(keys[0]) is Family.CARBON:
        take_material(record, frame.materials, part.materials[0][1], row.place)
        return
    if known and row.header == NOTES and (new := _exchanged(row.text, part, known)):
        record.values.pop("material")
        take_material(record, frame.materials, new, row.place)
        record.assumptions.append(f'material {new} and not {known}, as the notes say: "{row.text}"')
        return
    if known:
        family = frame.materials.family(known)
        other = [one for one in part.families if one is not family]
        if (keys and keys != (known,)) or (other and not keys):
            asked = f'The material is {known}, but the sheet also says "{row.text}"; which material holds?'
            choices = tuple(Choice(key, (("material", key),)) for key in (known, *keys))
            record.doubt(Doubt("material", row.place, row.text, asked, choices))
            record.values["material"] = known
        return
    if "material" in record.doubts or record.values.get("material_text"):
        return
    only = _and_not(row.text, part)
    text = only or " ".join(words for _, words in part.materials) or ("stainless" if part.families else "")
    if text:
        take_material(record, frame.materials, text, row.place)
        record.values["material_text"] = text
        if row.header == NOTES and record.values.get("material"):
            record.assumptions.append(f'material {record.values["material"]}, as the notes say: "{row.text}"')


_AND_NOT = re.compile(
    r"\b(?:not|instead of|in (?:place|lieu) of|rather than|replac(?:es|ing)|no longer|supersed(?:es|ing))\b",
    re.I,
)


def _and_not(text: str, part: PartText) -> str:
    """Return the one of two grades that is wanted and not the other: 316L this one, not S355."""
    if len(part.materials) != 2:
        return ""
    first, second = (words for _, words in part.materials)
    at, end = text.find(second), text.find(first) + len(first)
    return first if 0 <= end <= at and _AND_NOT.search(text[end:at]) else ""


_INTO = re.compile(
    r"\b(?:becomes?|changes? to|changed to|to be|now|to|replaced by|superseded by|is to be)\b|→|->|=>", re.I
)


def _exchanged(text: str, part: PartText, known: str) -> str:
    """Return the grade that a note puts in the place of the row's: 316L and not 304, 304 becomes 316L."""
    grades = dict(part.grades)
    if len(grades) != 2 or known not in grades:
        return ""
    new = next(key for key in grades if key != known)
    old_at, new_at = text.find(grades[known]), text.find(grades[new])
    between = text[min(old_at, new_at) : max(old_at, new_at)]
    told = _AND_NOT.search(between) if new_at < old_at else _INTO.search(between)
    denied = new_at > old_at and _AND_NOT.search(between)
    return grades[new] if told and not denied and min(old_at, new_at) >= 0 else ""


def _dates(record: Record, row: RowText, part: PartText) -> None:
    if not part.date or record.values.get("due") or "due" in record.doubts:
        return
    found = date_of(part.date).value
    if found is not None:
        record.values["due"] = found.isoformat()
        record.readings.append(Reading("due", row.place, row.text, found.isoformat()))


def _marked(record: Record, frame: TableContext, row: RowText, part: PartText) -> set[int]:
    """Take the sizes that say what they are; return which of the text's sizes were used."""
    used: set[int] = set()
    by_field: dict[str, list[int]] = {}
    gone_to = _from_the_column(record, row, part)
    for index, size in enumerate(part.sizes):
        if not size.clear:
            continue
        if size.measure.unit is Unit.DEGREE:
            if not of_an_edge(part.plain[: size.measure.start]) and _angle(record, row, size.measure):
                used.add(index)
            continue
        if frame.foreign and frame.unit.unit == "mm" and _perhaps_mm(row, size.measure):
            continue
        if is_other_end(size.measure, part.plain, gone_to):
            record.values["shape"] = "cone"
            record.assumptions.append(f'"{row.text}" agrees with the sizes: a cone')
            by_field.setdefault("diameter", []).append(index)
        elif field := _field(row, size.measure):
            by_field.setdefault(field, []).append(index)
    _cone_ends(record, part, by_field)
    ends = [part.sizes[at].measure for name in ("large", "small") for at in by_field.get(name, ())]
    for field, indexes in sorted(by_field.items(), key=lambda pair: pair[0] not in ("large", "small")):
        for index in indexes:
            own = _in_unit_of_its_pair(field, part.sizes[index].measure, ends)
            if own.basis is None and own.mark is Mark.DIAMETER and field in row.bases:
                own = replace(own, basis=row.bases[field])  # Outer Ø x t: Ø1200 x 6
            if _take(record, frame, row, field, own):
                used.add(index)
    return used


def _perhaps_mm(row: RowText, size: Measure) -> bool:
    """Return whether a gauge is a number sign and a number alone: among millimetres it may be those."""
    return size.unit is Unit.GAUGE and _SIGNED.search(row.text) is not None


_SIGNED = re.compile(r"#\s?\d{1,2}(?![\d.,/]|\s*(?:ga|gauge|gage|cal)\b)", re.I)


def _field(row: RowText, size: Measure) -> str:
    """Return the field a size says it is for; a side of the plate alone marks a diameter, or the column's."""
    if size.mark is not None:
        return FIELDS[size.mark]
    return (row.field or "diameter") if size.basis is not None else ""


def _cone_ends(record: Record, part: PartText, by_field: dict[str, list[int]]) -> None:
    """Take two diameters on one side of the plate for the two ends of a cone."""
    pair = by_field.get("diameter", [])
    sizes = [part.sizes[index].measure for index in pair]
    if len(pair) == 2 and sizes[0].basis is sizes[1].basis and _of_one_unit(*sizes):
        if abs(sizes[0].low - sizes[1].low) < 1e-9:
            return
        apart = abs(pair[0] - pair[1]) > 1
        if apart and shapes.kind_of(record.values) != "cone" and not is_conical(part.text):
            return  # ID 300 L 150 t 8; shell ID 1500: of two parts
        pair.sort(key=lambda index: -part.sizes[index].measure.low)
        by_field["large"], by_field["small"] = [pair[0]], [pair[1]]
        del by_field["diameter"]
    elif len(pair) == 1 and "small" in by_field and "large" not in by_field:
        by_field["large"] = by_field.pop("diameter")


def _of_one_unit(one: Measure, two: Measure) -> bool:
    """Return whether two sizes may be in one unit: a bare one has that of the other, a fraction is inches."""
    units = {Unit.INCH if size.unit is None and size.fraction else size.unit for size in (one, two)}
    return len(units) == 1 or (None in units and units <= {None, Unit.MM, Unit.CM, Unit.M, Unit.INCH})


def _in_unit_of_its_pair(field: str, own: Measure, ends: list[Measure]) -> Measure:
    """Return the bare end of a cone in the unit that the other end bears: ID 1900 to ID 600 mm."""
    units = {size.unit for size in ends if size.unit in (Unit.MM, Unit.CM, Unit.M, Unit.INCH)}
    if field not in ("large", "small") or own.unit is not None or own.fraction or len(units) != 1:
        return own
    return replace(own, unit=units.pop())


def _angle(record: Record, row: RowText, size: Measure) -> bool:
    known = record.values.get("angle")
    if known is None and row.kind != "remark" and 0 < size.low <= 360:
        record.doubts.pop("angle", None)  # what the column left open, or could not read
    if (
        row.kind == "remark"
        and known is None
        and "angle" not in record.doubts
        and record.values.get("shape") != "arc"
        and not (record.values.get("radius") and not record.values.get("diameter"))
    ):
        return False
    if known is None and "angle" not in record.doubts and 0 < size.low <= 360:
        record.values["angle"] = number_text(size.low)
        record.places.setdefault("angle", (row.place, row.text))
        record.readings.append(Reading("angle", row.place, row.text, f"{size.low:g} degrees"))
        return True
    if known is not None and abs(float(known) - size.low) < 0.01:
        return True
    asked = f'The angle is {known} degrees in one place and "{row.text}" in another; which one?'
    choices = tuple(
        Choice(f"{one} degrees", (("angle", one),)) for one in (known or "", f"{size.low:g}") if one
    )
    record.doubt(Doubt("angle", row.place, row.text, asked, choices))
    return True


def _take(record: Record, frame: TableContext, row: RowText, field: str, size: Measure) -> bool:  # noqa: PLR0911 - a return for each way out
    """Take a size for its field; where the field is filled, only check that they agree."""
    if (
        field == "diameter"
        and shapes.kind_of(record.values) == "cone"
        and _same(record, frame, ("large", "small"), size)
    ):
        return True
    if field == "diameter" and record.values.get("shape") == "cone" and _second_end(record, frame, row, size):
        return True
    if field == "slant" and _same(record, frame, ("height",), size) and not record.doubts.get("height"):
        asked = f'The height column and "{row.text}": is that the height along the axis, or the slant height?'
        text = record.values["height"]
        choices = (
            Choice("along the axis", (("height", text),)),
            Choice("along the slope", (("slant", text), ("height", ""))),
        )
        record.doubt(Doubt("height", row.place, row.text, asked, choices))
        return True
    conical = shapes.kind_of(record.values) == "cone" or (row.kind == "description" and is_conical(row.text))
    if field == "height" and conical and not record.values.get("height"):
        read_measure(record, _slot(frame, row, field), size, row.place, row.text, frame.desk)
        return True
    names = (field, "length", "width", "height") if field in ("length", "width", "height") else (field,)
    if _same(record, frame, names, size):
        return True
    filled = record.values.get(field) or (field == "thickness" and record.values.get("gauge"))
    if filled and not (field in ("diameter", "radius") and size.basis):
        if row.kind in ("size", "description") and field in ("length", "width", "height", "thickness"):
            read_measure(record, _slot(frame, row, field), size, row.place, row.text, frame.desk)
            return True
        return False
    if filled and row.kind != "size" and str(size.basis) == record.values.get("basis"):
        return False
    read_measure(record, _slot(frame, row, field), size, row.place, row.text, frame.desk)
    return True


def _second_end(record: Record, frame: TableContext, row: RowText, size: Measure) -> bool:
    """Take a second diameter of what is called a cone for its other end; both are then on one side."""
    values = record.values
    first, side = values.get("diameter", ""), values.get("basis")
    if not first or {"large", "small"} & set(values) or (size.basis and side and str(size.basis) != side):
        return False
    other = Record(record.place)
    read_measure(other, _slot(frame, row, "diameter"), size, row.place, row.text, frame.desk)
    second = other.values.get("diameter", "")
    if not second or first.endswith("u") != second.endswith("u"):
        return False
    ends = sorted((first, second), key=lambda text: -float(text.rstrip("u")))
    values["large"], values["small"] = ends
    del values["diameter"]
    if side is None and size.basis:
        values["basis"] = str(size.basis)
    return True


def _same(record: Record, frame: TableContext, names: tuple[str, ...], size: Measure) -> bool:
    """Return whether one of these fields already holds this size, in inches or in millimetres."""
    for name in names:
        known = (
            thickness_of(record.values, frame.materials)
            if name == "thickness"
            else shapes.length(record.values, name)
        )
        if (
            record.values.get(name, "").endswith("u")
            and abs(float(record.values[name][:-1]) - size.low) < 1e-6
        ):
            return True
        side = record.values.get("basis")
        if known is None or (
            size.basis
            and side
            and str(size.basis) != side
            and name in ("diameter", "radius", "large", "small")
        ):
            continue
        for inch in (True, False):
            try:
                mm = size.to_mm(inch=inch)
            except ValueError:
                continue
            sides = size.basis and not side and name in ("diameter", "radius", "large", "small")
            if abs(mm - known) <= max((_AS_ROUNDED if sides else 0.02) * known, 0.6 if sides else 0.06):
                if sides:  # ID 30 1/2 beside 30 is not the side of that, it is another size
                    record.values["basis"] = str(size.basis)
                return True
    return False


_AS_ROUNDED = 0.002


def _loose(record: Record, frame: TableContext, row: RowText, part: PartText) -> set[int]:
    """Give the numbers without a mark the fields that the row still lacks, where their order tells which."""
    free = [
        (index, one)
        for index, one in enumerate(part.sizes)
        if one.clear and not _field(row, one.measure) and one.measure.unit is not Unit.DEGREE
    ]
    free = [
        (index, one)
        for index, one in free
        if not _repeated(record, frame, one) and not _of_the_name(part, one.measure)
    ]
    gone = {index for index, one in enumerate(part.sizes) if one.clear and not _field(row, one.measure)} - {
        index for index, _ in free
    }
    if row.kind == "remark" or not free:
        return gone
    if row.kind == "description" and not _ties(part, [index for index, _ in free], record):
        return gone
    fields = _fields(record, row, [one for _, one in free], part.said)
    if fields is None:
        return gone
    for (_, one), field in zip(free, fields, strict=True):
        basis = row.bases.get(field)
        size = one.measure if basis is None else _with_basis(one.measure, basis)
        read_measure(record, _slot(frame, row, field), size, row.place, row.text, frame.desk)
    return gone | {index for index, _ in free}


_NAME_FIRST = re.compile(r"\W*(?:[^\W\d_]{3,}\s+){1,3}(?P<number>\d{1,2})\s*(?=[;:,])")
"""drum 1 ; 36 dia x 84 long"""


def _of_the_name(part: PartText, size: Measure) -> bool:
    """Return whether a number belongs to the name that a text begins with, whose diameter is marked."""
    name = _NAME_FIRST.match(part.plain)
    if name is None or size.start != name.start("number") or size.unit or size.mark or size.fraction:
        return False
    return any(FIELDS.get(one.measure.mark or Mark.LENGTH) in _ROUND for one in part.sizes if one.clear)


def _with_basis(size: Measure, basis: Basis) -> Measure:
    from dataclasses import replace  # noqa: PLC0415

    return replace(size, basis=size.basis or basis)


def _ties(part: PartText, indexes: list[int], record: Record) -> bool:
    """Return whether the loose numbers of a description are sizes: tied by an x, or with a unit."""
    tied = {index for index, one in enumerate(part.sizes) if one.joined}
    tied |= {index - 1 for index in tied}
    return all(
        index in tied
        or part.sizes[index].measure.unit
        or part.sizes[index].measure.fraction
        or part.sizes[index].measure.low < 1
        for index in indexes
    )


def _repeated(record: Record, frame: TableContext, one: Sighting) -> bool:
    if one.joined and not (_thick(record) and any(record.values.get(name) for name in _LENGTHS)):
        return False
    names = (*_LENGTHS, "thickness", "diameter", "radius", "large", "small", "girth", "chord", "rise")
    return one.measure.basis is None and _same(record, frame, names, one.measure)


def _round_by_name(row: RowText) -> bool:
    """Return whether a description names a part that is round and closed: duct, stack, shell."""
    return row.kind == "description" and shape_words(row.text) == {"shape": "cylinder"}


def _thick(record: Record) -> bool:
    values = record.values
    return bool(values.get("thickness") or values.get("gauge") or "thickness" in record.doubts)


def _fields(record: Record, row: RowText, loose: list[Sighting], said: tuple[Said, ...]) -> list[str] | None:  # noqa: PLR0911 - a return for each case
    """Return the fields of loose numbers, or None when their order does not tell."""
    values = record.values
    if row.order and len(row.order) == len(loose):
        return list(row.order)
    numbers = [one.measure.low for one in loose]
    thick = _thick(record)
    across = any(values.get(name) for name in _LENGTHS)
    round_ = any(values.get(name) for name in _ROUND) or bool({"diameter", "radius"} & set(record.doubts))
    long = "height" if shapes.kind_of(values) == "cone" else "length"
    if row.field and len(loose) == 1 and not values.get(row.field):
        return [row.field]
    if len(loose) == 1 and thick and across and not round_:
        named = _round_by_name(row) or (row.kind == "size" and values.get("shape") == "cylinder")
        closed = named and not values.get("angle")
        return ["diameter"] if closed and not any(one.does == "ask" for one in said) else None
    if len(loose) == 1:
        if thick != across and (round_ or row.kind == "size"):
            return [long] if thick else ["thickness"]
        return None
    if len(loose) == 2 and not thick and not across and round_:
        small = min(numbers)
        if small * THIN > max(numbers):
            return None
        return ["thickness", long] if numbers[0] == small else [long, "thickness"]
    ends = row.kind == "size" and values.get("shape") == "cone" and thick and across and not round_
    if ends and len(loose) == 2 and loose[1].joined:
        return ["large", "small"] if numbers[0] > numbers[1] else ["small", "large"]
    flat = all(one.joined for one in loose) and len(set(numbers)) > 1  # PL 1/4 x 48 x 189, roll to 60 ID
    if len(loose) == 2 and thick and not across and (row.kind == "size" or values.get("radius") or flat):
        return ["width", "length"] if round_ or not flat or row.kind == "size" else None
    if len(loose) == 3 and not thick and not across and (round_ or row.flat):
        small = min(numbers)
        rest = [number for number in numbers if number != small]
        if small * THIN > min(rest, default=0):
            return None
        names = iter(("width", "length"))
        return ["thickness" if number == small else next(names) for number in numbers]
    return None
