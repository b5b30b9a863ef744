"""Reads one row of a table, column by column, into a record."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date

from quoting.errors import Place
from quoting.intake import shapes
from quoting.intake.contradict import check_texts
from quoting.intake.counts import count_of
from quoting.intake.dates import date_of
from quoting.intake.frame import SIZES, Said, UnitFound
from quoting.intake.material import Materials
from quoting.intake.prose import runs_in
from quoting.intake.reading import NOTHING, Slot, read_measure, read_size
from quoting.intake.record import Doubt, Record, number_text
from quoting.intake.settle import Desk, thickness_of
from quoting.intake.sheet import Cell, Sheet, column_letters, text_of
from quoting.intake.table import Column, Table
from quoting.intake.words import BASIS_WORDS, ends_cell, ends_in, flags_in, shape_words, yes_no
from quoting.parts import Basis, Choice, Reading
from quoting.shop.model import Family
from quoting.units import Mark, Measure, NumberStyle, SizeError, parse_measures

_PLAIN = {
    "part_no": "part_no",
    "drawing": "drawing",
    "revision": "drawn_revision",
    "description": "description",
}
_DITTO = frozenset(('"', "''", "ditto", "do", "do.", "same", '-"-', "same as above", "as above", "”", "〃"))
ASK_WORDS = frozenset(
    ("tbd", "tba", "tbc", "?", "??", "???", "to suit", "ask", "see drawing", "see dwg", "per dwg")
)


@dataclass(frozen=True, slots=True)
class Frame:
    """All that a row is read with: its table, the table's units and number style, the shop, the day."""

    sheet: Sheet
    table: Table
    unit: UnitFound
    style: NumberStyle
    said: Said
    desk: Desk
    today: date
    basis: Basis | None

    has_angles: bool = False

    @property
    def materials(self) -> Materials:
        """Return the shop's materials."""
        return self.desk.materials


class RowReader:
    """Reads the rows of one table in order (a ditto mark repeats the row above)."""

    def __init__(self, frame: Frame) -> None:
        self.frame = frame
        self._above: dict[int, Cell] = {}
        self._merged = _merged_down(frame)
        self._columns = [(column, self._slot(column)) for column in frame.table.columns]
        self._letters = [column_letters(column.index) for column in frame.table.columns]

    def read(self, row: int) -> Record:
        """Return the record of one row of the sheet."""
        sheet = self.frame.sheet
        record = Record(sheet.place(row))
        cells = sheet.rows[row]
        for (column, slot), letter in zip(self._columns, self._letters, strict=True):
            cell = cells[column.index] if column.index < len(cells) else ""
            if cell == "":
                cell = self._merged.get((row, column.index), "")
                if cell == "":
                    continue
            if isinstance(cell, str):
                if cell.isspace():
                    continue
                if cell.strip().lower() in _DITTO:
                    cell = self._above.get(column.index, cell)
            self._above[column.index] = cell
            place = Place(sheet.file, sheet.name, row + 1, letter, column.header)
            shown = sheet.shown.get((row, column.index))
            self._cell(record, column, slot, shown if shown is not None else cell, place)
        _finish(record, self.frame)
        return record

    def _slot(self, column: Column) -> Slot | None:
        meaning = column.meaning
        if meaning.field not in SIZES and meaning.field != "gauge":
            return None
        unit = "ga" if meaning.field == "gauge" else meaning.unit
        field = "thickness" if meaning.field == "gauge" else meaning.field
        basis = meaning.basis
        if basis is None and field in ("diameter", "large", "small", "radius", "top", "bottom"):
            basis = self.frame.basis
        return Slot(field, unit, basis, self.frame.unit.unit, self.frame.style, column.header)

    def _cell(self, record: Record, column: Column, slot: Slot | None, cell: Cell, place: Place) -> None:
        field = column.meaning.field
        if slot is not None:
            if isinstance(cell, str) and cell.strip().lower() in ASK_WORDS:
                asked = f'The {slot.name} reads "{text_of(cell)}"; what is it?'
                record.doubt(Doubt(slot.field, place, text_of(cell), asked))
            elif field == "size" or (field in ("thickness", "diameter") and _several(cell)):
                _combined(record, slot, cell, place, self.frame.desk)
            else:
                self._size(record, slot, cell, place)
            return
        reader = _READERS.get(field)
        if reader is not None:
            reader(record, self.frame, column, cell, place)
        elif field in _PLAIN:
            record.values[_PLAIN[field]] = text_of(cell)
            record.readings.append(Reading(field, place, text_of(cell), text_of(cell)))
        else:
            _carried(record, self.frame, column, cell, place)

    def _size(self, record: Record, slot: Slot, cell: Cell, place: Place) -> None:
        """Read a size; a thickness may carry the material beside it (1/4 A36)."""
        if slot.field == "thickness" and isinstance(cell, str):
            size, material = split_material(text_of(cell), slot.style, self.frame.materials)
            if material:
                read_size(record, slot, size, place, self.frame.desk)
                _take_text(record, self.frame, material, place)
                return
        read_size(record, slot, cell, place, self.frame.desk)


def split_material(text: str, style: NumberStyle, materials: Materials) -> tuple[str, str]:
    """Return the size and the material of a cell that holds both, in either order; else the text alone."""
    try:
        parse_measures(text, style)
        return text, ""
    except SizeError:
        words = text.split()
    for cut in range(1, len(words)):
        for size, material in (
            (words[:cut], words[cut:]),
            (words[cut:], words[:cut]),
        ):
            found = materials.find(" ".join(material))
            if found.rest or not (found.keys or found.family):
                continue
            try:
                parse_measures(" ".join(size), style)
            except SizeError:
                continue
            return " ".join(size), " ".join(material)
    return text, ""


def _several(cell: Cell) -> bool:
    return isinstance(cell, str) and any(sign in cell.lower() for sign in (" x ", "x", "×")) and len(cell) > 4


def _merged_down(frame: Frame) -> dict[tuple[int, int], Cell]:
    """Return what vertically merged cells hold in their lower rows; a quantity is not repeated."""
    fields = {column.index: column.meaning.field for column in frame.table.columns}
    spread: dict[tuple[int, int], Cell] = {}
    for top, left, bottom, right in frame.sheet.merged:
        if bottom == top or left != right or fields.get(left, "quantity") in ("quantity", "number", "breaks"):
            continue
        row = frame.sheet.rows[top] if top < len(frame.sheet.rows) else []
        value = row[left] if left < len(row) else ""
        last = min(bottom, len(frame.sheet.rows))
        spread.update({(index, left): value for index in range(top + 1, last + 1)})
    return spread


def _number(record: Record, frame: Frame, column: Column, cell: Cell, place: Place) -> None:
    record.values["number"] = text_of(cell)


def _quantity(record: Record, frame: Frame, column: Column, cell: Cell, place: Place) -> None:
    text = text_of(cell)
    record.places["quantity"] = (place, text)
    if isinstance(cell, date):
        asked = f"The spreadsheet turned the quantity into the date {text}; how many pieces?"
        record.doubt(Doubt("quantity", place, text, asked))
        return
    count = count_of(cell)
    if count.number is None:
        guess = str(count.guess) if count.guess else ""
        choices = tuple(Choice(one, (("quantity", one),)) for one in (guess,) if one)
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
    if count.breaks:
        record.values["breaks"] = ",".join(str(number) for number in count.breaks)
        record.assumptions.append(f"prices at {text} pieces; the ordered quantity is not stated")


def _breaks(record: Record, frame: Frame, column: Column, cell: Cell, place: Place) -> None:
    numbers = count_of(cell)
    found = numbers.breaks or ((numbers.number,) if numbers.number else ())
    if found:
        record.values["breaks"] = ",".join(str(number) for number in found)
    else:
        _carried(record, frame, column, cell, place)


def _shape(record: Record, frame: Frame, column: Column, cell: Cell, place: Place) -> None:
    text = text_of(cell)
    record.places["shape"] = (place, text)
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


def _basis_cell(record: Record, frame: Frame, column: Column, cell: Cell, place: Place) -> None:
    text = text_of(cell)
    side = BASIS_WORDS.get(text.lower().replace(".", ""))
    if side is None:
        _carried(record, frame, column, cell, place)
        return
    known = record.values.get("basis", side)
    record.readings.append(Reading("basis", place, text, side))
    if known == side:
        record.values["basis"] = side
        return
    del record.values["basis"]
    choices = tuple(Choice(one, (("basis", one),)) for one in (known, side))
    asked = f'This column says "{text}", the diameter itself says {known}; which is it?'
    record.doubt(Doubt("basis", place, text, asked, choices))


def _angle(record: Record, frame: Frame, column: Column, cell: Cell, place: Place) -> None:
    text = text_of(cell)
    record.places["angle"] = (place, text)
    if text.lower() in NOTHING:
        return
    if isinstance(cell, (int, float)) and not isinstance(cell, bool):
        degrees = float(cell)
    else:
        plain = (
            text.lower().replace("°", " ").replace("degrees", " ").replace("deg.", " ").replace("deg", " ")
        )
        try:
            degrees = float(plain.replace(",", ".").strip())
        except ValueError:
            fixed = {"full": 360.0, "half": 180.0, "quarter": 90.0}.get(text.lower().strip())
            if fixed is None:
                record.doubt(
                    Doubt("angle", place, text, f'The angle reads "{text}"; how many degrees of arc?')
                )
                return
            degrees = fixed
    if not 0 < degrees <= 360:
        record.doubt(Doubt("angle", place, text, f'The angle reads "{text}"; how many degrees of arc?'))
        return
    record.values["angle"] = number_text(degrees)
    record.readings.append(Reading("angle", place, text, f"{degrees:g} degrees"))


def _material(record: Record, frame: Frame, column: Column, cell: Cell, place: Place) -> None:
    text = text_of(cell)
    if text.lower() in NOTHING:
        return
    _take_text(record, frame, text, place)


def _take_text(record: Record, frame: Frame, text: str, place: Place) -> None:
    """Take a material text; grade and spec columns are read together, a size in it is the thickness."""
    size, material = text, ""
    if frame.materials.find(text).rest:
        size, material = split_material(text, frame.style, frame.materials)
    if (material and any(sign in size for sign in "/.\"'")) or (material and "mm" in size):
        slot = Slot("thickness", "", None, frame.unit.unit, frame.style)
        read_size(record, slot, size, place, frame.desk)
        text = material
    if record.values.get("material_text"):
        text = f"{record.values['material_text']} {text}"
    record.values["material_text"] = text
    record.places["material"] = (place, text)
    take_material(record, frame.materials, text, place)


def take_material(record: Record, materials: Materials, text: str, place: Place) -> None:
    """Find the grade a text names; a family without grade, two grades or an unknown one is a doubt."""
    record.doubts.pop("material", None)
    record.values.pop("material", None)
    found = materials.find(text)
    if found.galvanized:
        record.values["gauge_metal"] = "galvanized"
        record.remarks.append(f"Material as written: {text}")
    if len(found.keys) == 1 and not found.rest:
        key = found.keys[0]
        own = materials.family(key)
        if found.family in (None, own) or found.family is Family.CARBON:
            record.values["material"] = key
            record.readings.append(Reading("material", place, text, key))
            return
    keys = found.keys or materials.in_family(found.family)
    if found.usual:
        keys = tuple(dict.fromkeys((found.usual, *keys)))
    choices = tuple(Choice(key, (("material", key),)) for key in keys[:8])
    if found.keys and found.rest:
        asked = f'The material reads "{text}"; is {" or ".join(found.keys)} right?'
    elif found.keys:
        asked = f'The material reads "{text}", which names more than one; which shall we use?'
    elif found.family is not None:
        record.values["family"] = str(found.family)
        asked = f'The material reads "{text}" without a grade; which grade?'
    else:
        asked = f'We do not know the material "{text}"; is it one of these, or which standard and grade?'
    record.doubt(Doubt("material", place, text, asked, choices))


def _ends(record: Record, frame: Frame, column: Column, cell: Cell, place: Place) -> None:
    text = text_of(cell)
    found = ends_cell(text, column.header)
    if found:
        record.values["ends"] = str(found)
        record.readings.append(Reading("ends", place, text, str(found)))
    elif text.lower() not in NOTHING:
        _carried(record, frame, column, cell, place)


def _flag(record: Record, frame: Frame, column: Column, cell: Cell, place: Place) -> None:
    name = {"grain": "grain_along"}.get(column.meaning.field, column.meaning.field)
    text = text_of(cell)
    answer = yes_no(text)
    if name == "free_issue":
        answer = bool(flags_in(text)) or text.lower() in (
            "customer",
            "us",
            "buyer",
            "yes",
            "y",
            "x",
            "free issue",
            "fi",
        )
        if not answer and text.lower() not in (
            "no",
            "n",
            "vendor",
            "shop",
            "you",
            "yours",
            "supplier",
            *NOTHING,
        ):
            _carried(record, frame, column, cell, place)
    if name == "grain_along":
        answer = text.lower() not in ("no", "n", "any", "n/a", *NOTHING)
    if answer:
        record.values[name] = "yes"
        record.readings.append(Reading(name, place, text, "yes"))
    if answer is None or (answer and len(text) > 3):
        _carried(record, frame, column, cell, place)


def _text_field(record: Record, frame: Frame, column: Column, cell: Cell, place: Place) -> None:
    text = text_of(cell)
    if text.lower() in NOTHING:
        return
    name = column.meaning.field
    record.values[name] = f"{record.values[name]}; {text}" if record.values.get(name) else text
    record.readings.append(Reading(name, place, text, text))


def _due(record: Record, frame: Frame, column: Column, cell: Cell, place: Place) -> None:
    text = text_of(cell)
    if text.lower() in NOTHING:
        return
    found = date_of(cell)
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
        record.remarks.append(f"{column.header}: {text}")
        return
    else:
        record.values["due"] = found.value.isoformat()
        if found.value < frame.today:
            asked = f"The date {found.value:%d %B %Y} is already past; when do you need it?"
            record.doubt(Doubt("due", place, text, asked, blocking=False, assumed="no due date held"))
            record.values.pop("due")
    record.readings.append(Reading("due", place, text, record.values.get("due", "past")))


def _unit_cell(record: Record, frame: Frame, column: Column, cell: Cell, place: Place) -> None:
    record.values["unit_text"] = text_of(cell)


def _remark(record: Record, frame: Frame, column: Column, cell: Cell, place: Place) -> None:
    text = text_of(cell)
    if text.lower() not in NOTHING:
        record.remarks.append(text)


def _carried(record: Record, frame: Frame, column: Column, cell: Cell, place: Place) -> None:
    text = text_of(cell)
    if text.lower() not in NOTHING:
        record.remarks.append(f"{column.header}: {text}" if column.header else text)


_READERS = {
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


_MARKED = {
    Mark.DIAMETER: "diameter", Mark.RADIUS: "radius", Mark.THICKNESS: "thickness", Mark.LENGTH: "length",
    Mark.WIDTH: "width", Mark.HEIGHT: "height",
}  # fmt: skip


def _combined(record: Record, slot: Slot, cell: Cell, place: Place, desk: Desk) -> None:
    """Read `48 OD x 1/4 x 60` or `PL 1/2 x 60 x 12'-0`: marked sizes first, the rest by their order."""
    text = text_of(cell)
    try:
        sizes = parse_measures(text, slot.style)
    except SizeError as error:
        part = error.text[error.start : error.end]
        asked = f'The size reads "{text}" ("{part}" is not clear); please give it in full.'
        record.doubt(Doubt("size", place, text, asked))
        return
    _assign(record, slot, sizes, place, text, desk)


def _assign(
    record: Record, slot: Slot, sizes: tuple[Measure, ...], place: Place, text: str, desk: Desk
) -> None:
    """Give each of several sizes its field."""
    found: list[tuple[str, int]] = [(_MARKED[size.mark], at) for at, size in enumerate(sizes) if size.mark]
    loose = [at for at, size in enumerate(sizes) if size.mark is None]
    names = [name for name, _ in found]
    if len(set(names)) != len(names):
        record.doubt(Doubt("size", place, text, f'The size reads "{text}"; which number is which?'))
        return
    if loose:
        placed = _loose(names, [sizes[at].low for at in loose])
        if placed is None:
            record.doubt(Doubt("size", place, text, f'The size reads "{text}"; which number is which?'))
            return
        found += list(zip(placed, loose, strict=True))
    for name, at in found:
        read_measure(
            record, replace(slot, field=name, header_unit=slot.header_unit), sizes[at], place, text, desk
        )


def _loose(marked: list[str], numbers: list[float]) -> list[str] | None:
    """Return the fields of unmarked numbers, or None when their order does not tell.

    Plate is written smallest to largest (thickness x width x length); beside a marked diameter a number far
    smaller than the other is the thickness (common practice, no source).
    """
    if "thickness" in marked and "diameter" not in marked and "radius" not in marked and len(numbers) == 2:
        return ["width", "length"]
    if ("diameter" in marked or "radius" in marked) and len(numbers) == 1:
        if "thickness" in marked:
            return ["length"]
        return ["thickness"] if {"length", "width"} & set(marked) else None
    if ("diameter" in marked or "radius" in marked) and len(numbers) == 2 and "thickness" not in marked:
        small, large = sorted(numbers)
        if small * 8 > large:
            return None
        return ["thickness", "length"] if numbers[0] == small else ["length", "thickness"]
    return None


def _finish(record: Record, frame: Frame) -> None:
    """Compare what the cells of the row say together, and apply what the sheet says for all lines."""
    values = record.values
    _row_unit(record)
    _pipe_ends(record)
    _cone_ends(record)
    _two_bases(record, frame)
    texts = [values.get("description", ""), *record.remarks]
    for text in texts:
        ends = ends_in(text) if text else None
        if ends:
            values.setdefault("ends", str(ends))
        for flag in flags_in(text) if text else ():
            values.setdefault(flag, "yes")
    _described(record, frame)
    _shape_hint(record)
    _blank_angle(record, frame)
    check_texts(record, [(text, record.place) for text in texts if text], frame.materials)
    if not values.get("material") and "material" not in record.doubts and frame.said.material:
        place = record.place
        take_material(record, frame.materials, frame.said.material, place)
        if values.get("material"):
            record.assumptions.append(f"material {values['material']}, as the sheet says for all lines")


def _row_unit(record: Record) -> None:
    unit = record.values.pop("unit_text", "").lower().strip(". ")
    names = {"mm": "mm", "in": "in", "inch": "in", "inches": "in", '"': "in"}
    if unit in names:
        record.values["unit"] = names[unit]


def _pipe_ends(record: Record) -> None:
    """A circumference needs to say along which face; keep it as a question with its three diameters."""
    girth = shapes.length(record.values, "circumference")
    if girth is None or shapes.has(record.values, "diameter"):
        return
    place, text = record.where("circumference")
    diameter = number_text(girth / 3.141592653589793)
    choices = tuple(
        Choice(f"{side} circumference", (("diameter", diameter), ("basis", str(side)))) for side in Basis
    )
    asked = f'The circumference "{text}" is taped round the outside, the inside or the middle of the plate?'
    record.doubt(Doubt("diameter", place, text, asked, choices))


def _cone_ends(record: Record) -> None:
    values = record.values
    ends = [values.pop(name, "") for name in ("bottom", "top")]
    if not any(ends):
        return
    for name, text in zip(("bottom", "top"), ends, strict=True):
        if text and name in record.places:
            record.places.setdefault("large" if name == "bottom" else "small", record.places[name])
    if all(ends) and not any(text.endswith("u") for text in ends):
        ends.sort(key=float, reverse=True)
    for name, text in zip(("large", "small"), ends, strict=True):
        if text:
            values.setdefault(name, text)


def _two_bases(record: Record, frame: Frame) -> None:
    """Compare an inside and an outside diameter given together: they must differ by two thicknesses."""
    values = record.values
    if not any(" " in key for key in values):
        return
    for name in ("diameter", "radius", "large", "small"):
        others = [key for key in values if key.startswith(name + " ")]
        for key in others:
            side = key.rpartition(" ")[2]
            first, second = shapes.length(values, name), shapes.length({key: values[key], **values}, key)
            _compare(record, frame, name, (values["basis"], first), (side, second))
            del values[key]


def _compare(
    record: Record, frame: Frame, name: str, one: tuple[str, float | None], two: tuple[str, float | None]
) -> None:
    values = record.values
    sizes = dict((one, two))
    inside, outside = sizes.get("inside"), sizes.get("outside")
    thickness = thickness_of(values, frame.materials)
    fold = 1.0 if name == "radius" else 2.0
    place, text = record.where(name)
    if (
        inside
        and outside
        and thickness
        and abs(outside - inside - fold * thickness) <= 0.02 * thickness + 0.1
    ):
        record.assumptions.append("inside and outside size agree with the thickness")
        return
    choices = tuple(
        Choice(f"{side} {frame.desk.size(size)}", ((name, number_text(size)), ("basis", side)))
        for side, size in (one, two)
        if size
    )
    asked = f"The {one[0]} and the {two[0]} {name} do not agree with the thickness; which one holds?"
    record.doubt(Doubt(name, place, text, asked, choices))


def _described(record: Record, frame: Frame) -> None:
    """Read the sizes and the grade from the description where no column gives any."""
    text = record.values.get("description", "")
    fields = ("diameter", "radius", "thickness", "gauge", "large", "girth", "size")
    if not text or any(name in record.values or name in record.doubts for name in fields):
        return
    runs = [run for run in runs_in(text) if any(size.mark for size in run)]
    if not runs:
        return
    sizes = tuple(size for run in runs for size in run)
    slot = Slot("size", "", None, frame.unit.unit, frame.style)
    _assign(record, slot, sizes, record.place, text, frame.desk)
    record.assumptions.append("sizes read from the description")
    if not record.values.get("material_text"):
        keys = frame.materials.named_in(text)
        if len(keys) == 1:
            take_material(record, frame.materials, keys[0], record.place)


def _blank_angle(record: Record, frame: Frame) -> None:
    """A blank under a heading of degrees, beside rows that are arcs, may be a full circle or forgotten."""
    values = record.values
    if not frame.has_angles or values.get("angle") or values.get("shape") or "angle" in record.doubts:
        return
    if shapes.kind_of(values) != "cylinder":
        return
    place, _ = record.where("diameter")
    choices = (
        Choice("full circle, 360 degrees", (("shape", "cylinder"),)),
        Choice("half, 180 degrees", (("shape", "arc"), ("angle", "180"))),
    )
    asked = "Other lines give degrees of arc and this one none: is it a full circle?"
    record.doubt(Doubt("angle", place, "", asked, choices))


def _shape_hint(record: Record) -> None:
    """Take the shape from the description where no column gives it, or where it says more."""
    values = record.values
    text = values.get("description", "")
    hint = shape_words(text) if text else {}
    if not hint or "shape" in record.doubts:
        return
    if not values.get("shape"):
        kind = shapes.kind_of(values)
        if not kind or kind == hint["shape"] or hint["shape"] == "cylinder":
            if kind in ("", hint["shape"]):
                for name, value in hint.items():
                    values.setdefault(name, value)
            return
        if kind == "cylinder" and hint["shape"] in ("arc", "cone", "flat", "unsupported"):
            for name, value in hint.items():
                values.setdefault(name, value)
            values["shape"] = hint["shape"]
