"""Compares what the cells of one row say together."""

from __future__ import annotations

import re
from dataclasses import replace
from functools import lru_cache
from math import pi

from quoting.core import Basis, Choice, Mark
from quoting.intake import shapes
from quoting.intake.cells import PLAIN_STEEL, read_measure, take_material, two_ends
from quoting.intake.doubts import (
    BOTH_SIDES_AGREE,
    check_texts,
    read_gaps,
    read_operations,
    says_nothing,
    without_allowance,
)
from quoting.intake.layout import Section, TableContext, basis_said, facts_in, is_word, sides_of
from quoting.intake.lines.account import say_work
from quoting.intake.lines.counted_sets import by_pieces_of_a_set
from quoting.intake.lines.pipe_walls import read_schedule
from quoting.intake.lines.row_texts import NOTES, read_texts
from quoting.intake.lines.said_sizes import take_said_angle, take_said_count, take_said_sizes
from quoting.intake.row_record import Doubt, Record, number_text
from quoting.intake.shop_view import thickness_of
from quoting.intake.size_column import MM, SizeColumn
from quoting.intake.texts import (
    BASIS_WORDS,
    ends_in,
    flags_in,
    may_be_segment,
    part_text,
    shape_words,
    without_joints,
    without_number,
)
from quoting.intake.words import folded, said_in_text


def finish_row(record: Record, frame: TableContext, section: Section | None = None) -> None:
    """Compare what the cells of the row say together, and apply what the sheet says for all lines, or the
    heading above for those under it.
    """
    values = record.values
    read_texts(record, frame)
    read_schedule(record, frame)
    take_said_sizes(record, frame, section)
    take_said_count(record, frame, section)
    take_said_angle(record, frame)
    _sides(record, frame, section)
    _pipe_ends(record, frame)
    _ends_in_one_cell(record, frame)
    if "height" in frame.fields:
        values["height_apart"] = "yes"
    if any(one.meaning.field == "length" and _is_axial(one.header) for one in frame.table.columns):
        values["axial"] = "yes"
    _cone_ends(record)
    _one_end(
        record,
        without_number(values.get("description", "")),
        mixed=frame.both_ends,
        of_cones=frame.of_cones,
    )
    _closed_girth(record)
    _two_bases(record, frame)
    texts = [without_number(text) for text in (values.get("description", ""), *record.remarks) if text]
    telling = [without_allowance(text) for text in texts if not says_nothing(text)]
    for text in (*telling, *(row.text for row in record.texts if row.kind == "size")):
        ends = ends_in(text)
        if ends:
            values.setdefault("ends", str(ends))
        for flag in flags_in(_without_flag_heads(text, frame)):
            values.setdefault(flag, "yes")
    _named_by_its_column(record)
    _shape_hint(record)
    check_texts(record, [(text, record.place) for text in telling], frame.materials, frame.style)
    _row_unit(record, frame)
    _blank_angle(record, frame, telling)
    _said_basis(record, frame)
    if frame.said.ends is not None and not values.get("ends"):
        values["ends"] = str(frame.said.ends)
        record.assumptions.append(f"ends: {frame.said.ends}, as the sheet says for all lines")
    if frame.said.certificate and not values.get("certificate"):
        values["certificate"] = "yes"
        record.assumptions.append("with a certificate, as the sheet says for all lines")
    _plain_steel(record, frame)
    if not values.get("material") and "material" not in record.doubts and frame.said.material:
        place = record.place
        take_material(record, frame.materials, _grade_in(frame), place)
        if values.get("material"):
            record.assumptions.append(f"material {values['material']}, as the sheet says for all lines")
    read_gaps(record, frame, telling)
    read_operations(record, texts, inch=_in_inches(record, frame))
    say_work(record)
    by_pieces_of_a_set(record)
    number = record.doubts.get("number_ok")
    if number and any(
        doubt.blocking and doubt.read == number.read
        for name, doubt in record.doubts.items()
        if name != "number_ok"
    ):
        del record.doubts["number_ok"]  # the other question is about the same words


_AXIAL = re.compile(
    r"axial|\b(?:axis|face|eje|asse|achse|axe|t\W?[lt]|tan\w*|seam|across|height|ht|h(?:oe|o|ö)he|haut\w*|alt\w*"
    r"|osiow\w*|osov\w*)\b",
    re.I,
)
"""Headings of lengths that can only be along the axis."""


@lru_cache(maxsize=1024)
def _is_axial(header: str) -> bool:
    return _AXIAL.search(header) is not None


_FLAGS = frozenset(("free_issue", "certificate", "re_round", "grain"))


def _without_flag_heads(text: str, frame: TableContext) -> str:
    """Return a remark without the heading of a column of answers, which names what it asks: Mill cert: no."""
    if not _FLAGS & frame.fields:
        return text
    heads = (one.header for one in frame.table.columns if one.meaning.field in _FLAGS)
    return next((text.removeprefix(f"{head}: ") for head in heads if text.startswith(f"{head}: ")), text)


def _general_side(record: Record, frame: TableContext) -> None:
    """Take the side of the plate that the sheet says for all lines for diameters that stand in a text.

    A remark that is a side and no more goes before a side that holds unless noted.
    """
    values = record.values
    if frame.basis is None:
        _side_of_heads(record, frame)
    if frame.basis is None or "basis" in record.doubts:
        return
    round_ = any(shapes.has(values, name) for name in ("diameter", "radius", "large", "small"))
    if round_ and not values.get("basis"):
        values["basis"] = str(frame.basis)
    remarks = (row.text.lower().replace(".", "") for row in record.texts if row.kind == "remark")
    words = (text for text in remarks if len(text) > 1 and text != "in")  # yard A, sizes in: no side
    own = {side for text in words if (side := BASIS_WORDS.get(text))}
    if frame.said.basis_unless_noted and len(own) == 1 and values.get("basis") == str(frame.basis):
        values["basis"] = own.pop() or ""


def _side_of_heads(record: Record, frame: TableContext) -> None:
    """Take the side that the one column of diameters names for those that a row's text gives without one."""
    values = record.values
    round_ = any(shapes.has(values, name) for name in ("diameter", "large", "small"))
    if not round_ or values.get("basis") or "basis" in record.doubts:
        return
    heads = [
        one
        for one in frame.table.columns
        if one.meaning.field in ("diameter", "radius", "large", "small", "size")
    ]
    if (
        len(heads) == 1
        and heads[0].meaning.basis is not None
        and heads[0].meaning.field in ("diameter", "size")
    ):
        values["basis"] = str(heads[0].meaning.basis)
        record.assumptions.append(f'{values["basis"]} sizes, as the heading "{heads[0].header}" says')


def _noted(record: Record, frame: TableContext, own: str) -> bool:
    """Return whether a note about this line by its number says its grade."""
    notes = [row for row in record.texts if row.header == NOTES]
    found = [part_text(row.text, frame.style, frame.materials).grades for row in notes]
    return any(key == own for grades in found for key, _ in grades)


def _grade_in(frame: TableContext) -> str:
    """Return the grade said for all lines, without the other words of its sentence."""
    said = frame.said.material
    if not frame.materials.find(said).rest:
        return said
    grades = part_text(said, frame.style, frame.materials).grades
    return grades[0][1] if len({key for key, _ in grades}) == 1 else said


def _plain_steel(record: Record, frame: TableContext) -> None:
    """Ask which holds where a line says steel and no grade, and the sheet another grade for all lines; and
    where a line says another grade than the sheet says of every line.
    """
    said, own = frame.said.material, record.values.get("material", "")
    every = frame.said.material_of_every
    if every and own and own != every and not _noted(record, frame, own):
        said = every
    elif not record.values.get(PLAIN_STEEL) or not said or said == own:
        return
    asked = f'The material is {own}, but the sheet also says "{said}"; which material holds?'
    choices = tuple(Choice(key, (("material", key),)) for key in (own, said))
    place, text = record.where("material")
    record.doubt(Doubt("material", place, text, asked, choices))


def _side_in_words(record: Record, frame: TableContext) -> None:
    """Take the side of the plate that a remark says the diameter is on; ask where the column denies it."""
    for row in record.texts:
        side = basis_said(row.text) if row.kind in ("remark", "description") else None
        if side is None and row.free and row.kind == "remark":
            side = _alone(row.text)
            if side is None and not record.values.get("basis"):
                side = facts_in(row.text).basis
            side = side or _of_the_diameter(record, frame, row.text)
        if side is None and row.kind == "description" and not record.values.get("basis"):
            side = _behind(row.text)
        known = record.values.get("basis")
        if side is None or known == str(side) or "basis" in record.doubts:
            continue
        if not known:
            record.values["basis"] = str(side)
            record.assumptions.append(f'{side} diameter, as "{row.text}" says')
            continue
        asked = f'The diameter is {known}, but the sheet also says "{row.text}": inside or outside?'
        choices = tuple(Choice(one, (("basis", one),)) for one in (known, str(side)))
        record.doubt(Doubt("basis", row.place, row.text, asked, choices))
        del record.values["basis"]


def _sides(record: Record, frame: TableContext, section: Section | None) -> None:
    """Compare the side of the plate that the row's cells, its texts and the heading above give."""
    _general_side(record, frame)
    _side_in_words(record, frame)
    _side_of_heading(record, section)
    _other_side(record, frame)


def _side_of_heading(record: Record, section: Section | None) -> None:
    """Ask where the heading above gives its diameters another side of the plate than the row has."""
    known = record.values.get("basis")
    if section is None or not known or "basis" in record.doubts or not shapes.has(record.values, "diameter"):
        return
    side = section.basis or facts_in(section.text).basis
    if side is None or str(side) == known:
        return
    asked = f'The diameter is {known}, but the sheet also says "{section.text}": inside or outside?'
    choices = tuple(Choice(one, (("basis", one),)) for one in (known, str(side)))
    record.doubt(Doubt("basis", record.place, section.text, asked, choices))
    del record.values["basis"]


_SIDE = r"(inside|outside|inner|outer|internal|external|[io]\.? ?/?d\.?)"
_ABOUT_A_SIZE = (
    r"(?:to|on|is|are|be|the|clear|all|this|its?|that|sizes?|measure(?:d|ments?)?|given|shown|stated|meant|taken|roll(?:ed)?"
    r"|dia(?:m(?:eter)?)?s?|dims?|dimensions?|ø|basis|faces?|values?|figures?|numbers?|nb|note|please|actually|plate|of|from|as"
    r"|ist|sind|est|sont|es|son|è|é|e|jest|je|är|er|ma(?:ss|ß)e?|misur[ae]|medidas?|cotes?|maat|wymiar|rozm[eě]r|m[aå]tt?|ölçü)"
)
_ALONE = re.compile(
    rf"\W*(?:(?:{_ABOUT_A_SIZE}|\d[\d.,]*(?:\s?(?:mm|in)\b)?)\W+)*{_SIDE}(?:\W+{_ABOUT_A_SIZE})*\W*", re.I
)
_BEHIND = re.compile(r"[^\W\d_]{3,}\W+(?-i:(OD|ID|O/D|I/D|O\.D\.|I\.D\.))\s*$")
"""The side behind the name of a part: puddle collar OD."""


def _of_the_diameter(record: Record, frame: TableContext, text: str) -> Basis | None:
    """Return the side that a remark in any language gives the row's diameter: Ø1200 é externo."""
    part = part_text(text, frame.style, frame.materials)
    if len(part.sizes) > 1 or any(said.name not in ("commercial", "note") for said in part.said):
        return None
    across = shapes.length(record.values, "diameter")
    units = (MM.get(str(part.sizes[0].measure.unit), 0.0), 1.0, MM["in"]) if part.sizes else (1.0,)
    numbers = [float(one.replace(",", ".")) for one in _A_NUMBER.findall(text)]
    repeats = across and any(abs(one * unit - across) <= _SAME_MM for one in numbers for unit in units)
    if not repeats and (numbers or not is_word("diameter", text)):
        return None
    sides = sides_of(text)
    return next(iter(sides)) if len(sides) == 1 else None


_A_NUMBER = re.compile(r"(?<![\w.,])\d+(?:[.,]\d+)?(?![\w])")


def _alone(text: str) -> Basis | None:
    """Return the side that is all a remark says: outside, to inside."""
    match = _ALONE.fullmatch(text)
    return _of_letter(match[1]) if match else None


def _behind(text: str) -> Basis | None:
    match = _BEHIND.search(text)
    return (
        _of_letter(match[1]) if match and not re.search(r"\b(finish|polish|paint|coat)", text, re.I) else None
    )


def _of_letter(side: str) -> Basis:
    return Basis.INSIDE if side[0].lower() == "i" else Basis.OUTSIDE


def _other_side(record: Record, frame: TableContext) -> None:
    """Ask where a remark gives the row's own diameter on the other side of the plate: 508 OD, inside 508."""
    known = record.values.get("basis")
    across = shapes.length(record.values, "diameter")
    if not known or not across or "basis" in record.doubts:
        return
    for row in record.texts:
        sizes = part_text(row.text, frame.style, frame.materials).sizes if row.kind == "remark" else ()
        for one in sizes:
            size, side = one.measure, one.measure.basis
            unit = MM.get(str(size.unit or frame.unit.unit), 0.0)
            if not one.clear or side is None or str(side) == known or size.mark is Mark.RADIUS:
                continue
            if abs(size.low * unit - across) > _SAME_MM:
                continue
            asked = f'The diameter is {known}, but the sheet also says "{row.text}": inside or outside?'
            choices = tuple(Choice(text, (("basis", text),)) for text in (known, str(side)))
            record.doubt(Doubt("basis", row.place, row.text, asked, choices))
            del record.values["basis"]
            return


_SAME_MM = 0.6


def _said_basis(record: Record, frame: TableContext) -> None:
    """Say on the line that its diameter's side came from a note or a pinned setting, not from the line."""
    if frame.basis is None or record.values.get("basis") != str(frame.basis):
        return
    if any(column.meaning.basis or column.meaning.field == "basis" for column in frame.table.columns):
        return
    why = "as pinned for this customer" if frame.said.pinned else "as the sheet says for all lines"
    record.assumptions.append(f"diameters without a mark are {frame.basis}, {why}")


def _pipe_ends(record: Record, frame: TableContext) -> None:
    """A circumference needs to say along which face: its heading does, else it is a question with its three
    diameters.
    """
    girth = shapes.length(record.values, "circumference")
    if girth is None or shapes.has(record.values, "diameter"):
        return
    place, text = record.where("circumference")
    diameter = number_text(girth / 3.141592653589793)
    heads = [one.meaning for one in frame.table.columns if one.meaning.field == "circumference"]
    if len(heads) == 1 and (side := heads[0].basis) and record.values.get("basis", str(side)) == str(side):
        record.values |= {"diameter": diameter, "basis": str(side)}
        record.assumptions.append(f"the {side} diameter is that of the circumference of {text}")
        return
    choices = tuple(
        Choice(f"{side} circumference", (("diameter", diameter), ("basis", str(side)))) for side in Basis
    )
    asked = f'The circumference "{text}" is taped round the outside, the inside or the middle of the plate?'
    record.doubt(Doubt("diameter", place, text, asked, choices))


def _ends_in_one_cell(record: Record, frame: TableContext) -> None:
    """Take two diameters in one cell, 1800/900, for the ends of a part that is called a cone."""
    doubt = record.doubts.get("diameter")
    if doubt is None:
        return
    columns = [one for one in frame.table.columns if one.meaning.field in ("diameter", "nominal")]
    columns.sort(key=lambda one: (one.header != doubt.place.header, one.meaning.field))
    column = columns[0] if columns else None
    names = ("description", "shape", "number", "part_no")
    said = [row.text for row in record.texts]
    texts = (*(record.values.get(name, "") for name in names), *said, doubt.read)
    named = any(_CONE.search(plain) or _TAPERS.search(plain) for plain in map(folded, texts))
    if column is None or not (named or _falls(doubt.read)):
        return
    basis = column.meaning.basis or frame.basis
    slot = SizeColumn("diameter", column.meaning.unit, basis, frame.unit.unit, frame.style, column.header)
    ends = two_ends(slot, doubt.read)
    for name, end in ends:
        read_measure(record, replace(slot, field=name), end, doubt.place, doubt.read, frame.desk)
    if ends:
        del record.doubts["diameter"]
        record.values["shape"] = "cone"


_FALLS = re.compile(
    r"[^\d]*(\d+(?:[.,]\d+)?)\s*(?:mm|in|\"|'')?\s*(?:(?:taper|reduc|narrow|verj|going)\w*\s+)?"
    r"(?:→|->|=>|\b(?:to|down to|auf|na|su|à|naar|til|do)\b)"
    r"\s*"
    r"[^\d]{0,6}(\d+(?:[.,]\d+)?)[^\d]*",
    re.I,
)


def _falls(text: str) -> bool:
    """Return whether a cell goes from one diameter to a smaller one: 760 to 420; a range would rise.

    >>> _falls("760mm to 420mm"), _falls("420 to 760"), _falls("760/420")
    (True, False, False)
    """
    match = _FALLS.fullmatch(text)
    return match is not None and float(match[1].replace(",", ".")) > _FALLS_BY * float(
        match[2].replace(",", ".")
    )


_FALLS_BY = 1.1
_TAPERS = re.compile(
    r"\b(?:hoppers?|funnels?|taper\w*|diffusers?|trichter\w*|tremies?|tolvas?|tramogg\w*|lej\w*|keg[eu]l\w*|kegl\w*"
    r"|kon[iu]\w*|stoz\w*|kuzel\w*|con[oi]\w*|tra[gkt]t\w*|trekt\w*|kerucut|corong|lievik\w*|lijev\w*|levak"
    r"|nalevk\w*|stoz\w*|reduc\w*|reduk\w*|riduz\w*|verjung\w*|vyloop\w*|ubergang\w*|palnie\w*|garat\w*)\b"
    r"|^\W*con\b(?=\W*(?:\d|$))|[锥錐]|конус",
    re.I,
)
"""What two diameters in one cell are the ends of, in many languages (from memory)."""
_MAY_BE_CONE = re.compile(
    r"\b(hoppers?|funnels?|transitions?|taper\w*|diffusers?|trichter\w*|tremies?|tolvas?|tramogg\w*"
    r"|lej\w*|keg[eu]l\w*|kon[iu]\w*|stoz\w*|kuzel\w*|con[oi]\w*)\b",
    re.I,
)
_CONE = re.compile(r"\b(con(e|es|ical|c|centric)|frust\w*|reducers?)\b", re.I)


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


def _two_bases(record: Record, frame: TableContext) -> None:
    """Compare an inside and an outside diameter given together: they must differ by two thicknesses."""
    values = record.values
    if not any(" " in key for key in values):
        return
    for name in ("diameter", "radius", "large", "small"):
        others = [key for key in values if key.startswith(name + " ")]
        for key in others:
            side = key.rpartition(" ")[2]
            first, second = shapes.length(values, name), shapes.length({key: values[key], **values}, key)
            other = "outside" if side == "inside" else "inside"
            _compare(record, frame, name, (values.get("basis", other), first), (side, second))
            del values[key]


def _compare(
    record: Record,
    frame: TableContext,
    name: str,
    one: tuple[str, float | None],
    two: tuple[str, float | None],
) -> None:
    values = record.values
    sizes = dict((one, two))
    inside, outside = sizes.get("inside"), sizes.get("outside")
    thickness = thickness_of(values, frame.materials)
    fold = 1.0 if name == "radius" else 2.0
    place, text = record.where(name)
    if inside and outside and thickness is None and "thickness" not in record.doubts and outside > inside:
        values["thickness"] = number_text((outside - inside) / fold)
        record.assumptions.append("thickness from the inside and the outside size")
        return
    if (
        inside
        and outside
        and thickness
        and abs(outside - inside - fold * thickness) <= 0.02 * thickness + 0.1
    ):
        record.assumptions.append(BOTH_SIDES_AGREE)
        return
    choices = tuple(
        Choice(f"{side} {frame.desk.size(size)}", ((name, number_text(size)), ("basis", side)))
        for side, size in (one, two)
        if size
    )
    asked = f"The {one[0]} and the {two[0]} {name} do not agree with the thickness; which one holds?"
    record.doubt(Doubt(name, place, text, asked, choices))


def _blank_angle(record: Record, frame: TableContext, texts: list[str]) -> None:
    """Ask about a part of a circle that its words suggest and its sizes do not show.

    A diameter and a length alone are a full cylinder (common practice, no source); beside rows with degrees
    of arc the line says that it was read so.
    """
    values = record.values
    if values.get("angle") or {"angle", "shape", "pieces_ok"} & set(record.doubts):
        return
    if shapes.kind_of(values) != "cylinder":
        return
    if values.get("shape"):  # a shell, and the remark says halves
        said = next((row.text for row in record.texts if row.kind == "remark" and _in_parts(row.text)), "")
        if not said:
            return
    else:
        said = next(
            (one for one in texts if may_be_segment(without_joints(one), beside_arcs=frame.has_angles)), ""
        )
        said = said or frame.said.parts_of_circle
    if said:
        choices = (
            Choice("full cylinder", (("shape", "cylinder"),)),
            Choice("half shell, 180 degrees", (("shape", "arc"), ("angle", "180"))),
            Choice("quarter, 90 degrees", (("shape", "arc"), ("angle", "90"))),
        )
        asked = f'It says "{said}" and gives no degrees of arc: a full cylinder, or how many degrees?'
        record.doubt(Doubt("angle", record.place, said, asked, choices))
    elif frame.has_angles:
        record.assumptions.append("no degrees of arc given: a full circle")


_IN_PARTS = re.compile(
    r"\b(?:halves|halfs|halfes|quarters|thirds"
    r"|(?:top|bottom|upper|lower|left|right|front|rear|one|each|other)(?: hand)?[- ]half(?! of\b))\b",
    re.I,
)


def _in_parts(text: str) -> bool:
    """Return whether a remark says that a part is made of parts of a circle, and does not only allow it."""
    return _IN_PARTS.search(text) is not None and not said_in_text(text)[0]


def says_cones(text: str) -> bool:
    """Return whether a title is of cones and of nothing else that is rolled: Coni tramoggia."""
    words = folded(text)
    return _CONE_ALONE.search(words) is not None and not _OTHER_PARTS.search(words)


_CONE_ALONE = re.compile(
    r"\b(?:cones?|conos?|coni|cono|conique\w*|kegel\w*|konus\w*|kon[iu]\w*|stozk\w*|kuzel\w*|kartio\w*|kupo\w*"
    r"|konik\w*|hoppers?|funnels?|reducers?|frust\w*|trichter\w*|tremies?|tolvas?|tramogg\w*|lej\w*)\b"
)
_OTHER_PARTS = re.compile(
    r"\b(?:shells?|cylind\w*|cilind\w*|zylind\w*|rings?|cans?|drums?|tubes?|pipes?|rohre?\w*|viro\w*|mant\w*"
    r"|schuss\w*|schuess\w*|anneau\w*|anill\w*|anell\w*|parts?|teile|pieces?|stack|tower|tank\w*|valc\w*|plas\w*)\b"
)


def _one_end(record: Record, text: str, *, mixed: bool, of_cones: bool) -> None:
    """Take the one diameter of a cylinder that stands in a column of cone ends: it says cylinder, or stands
    in a table whose cones give both ends and names no cone itself.
    """
    values = record.values
    ends = [name for name in ("large", "small") if shapes.has(values, name)]
    struck = bool(values.pop("no_other_end", ""))
    if not ends:
        return
    same = len(ends) == 2 and values["large"] == values["small"]
    said = {shape_words(text).get("shape"), values.get("shape")}
    other = (mixed or struck) and len(ends) == 1 and not {"large", "small"} & set(record.doubts)
    cone = any(_CONE.search(folded(row.text)) for row in record.texts) or "cone" in said
    other = other and not of_cones and not any(_MAY_BE_CONE.search(folded(row.text)) for row in record.texts)
    other, same = other and not cone and said <= {None, ""}, same and not (cone and "cylinder" not in said)
    if ("cylinder" not in said and not other and not same) or not (len(ends) == 1 or same):
        return
    if shapes.has(values, "diameter"):
        return
    if same and "cylinder" not in said:
        record.assumptions.append("both ends have one diameter: a full cylinder")
    if other and "cylinder" not in said:
        record.assumptions.append("one diameter only, and no cone is named: a full cylinder")
    values["diameter"] = values[ends[0]]
    for name in ends:
        del values[name]
    values["shape"] = "cylinder"
    if ends[0] in record.places:
        record.places.setdefault("diameter", record.places[ends[0]])


def _closed_girth(record: Record) -> None:
    """Take the diameter of a closed part from its girth: along a face of the plate, or along its middle."""
    values = record.values
    girth = shapes.length(values, "girth")
    if (
        not girth
        or any(shapes.has(values, name) for name in ("diameter", "radius"))
        or values.get("shape") == "arc"
    ):
        return
    taped = bool(values.get("basis")) and not values.get("angle") and not shapes.has(values, "chord")
    if not taped and not any(_CLOSED.search(row.text) for row in record.texts):
        return
    if taped:
        record.assumptions.append(
            f"the girth is once round, along the {values['basis']} of the plate: a full cylinder"
        )
    values["diameter"] = number_text(girth / pi)
    values.setdefault("basis", "mean")
    values["shape"] = "cylinder"
    del values["girth"]
    record.places.setdefault("diameter", record.places.get("girth", (record.place, "")))


_THICKEST_INCH = 3
_CLOSED = re.compile(r"\bclosed\b|\bfull (ring|circle|round)\b", re.I)


def _row_unit(record: Record, frame: TableContext) -> None:
    """Take the unit of bare sizes from the other sizes of the row, where the sheet mixes units."""
    values = record.values
    if frame.unit.unit or values.get("unit"):
        return
    bare = [name for name in shapes.SIZES if values.get(name, "").endswith("u")]
    metric, inch = _marked(record, frame)
    if not bare or bool(metric) == bool(inch) or metric + inch < 2:
        return
    thick = values.get("thickness", "")
    if inch and thick.endswith("u") and float(thick[:-1]) > _THICKEST_INCH:
        place, text = record.where("thickness")
        choices = tuple(
            Choice(f"{thick[:-1]} {unit}", (("thickness", number_text(float(thick[:-1]) * factor)),))
            for unit, factor in (("in", 25.4), ("mm", 1.0))
        )
        asked = f'The thickness reads "{text}" among sizes in inches; is that the unit?'
        record.doubt(Doubt("thickness", place, text, asked, choices))
        return
    values["unit"] = "mm" if metric else "in"
    unit = "mm" if metric else "inch"
    record.assumptions.append(f"bare sizes read in {unit} as the other sizes of the row")


def _marked(record: Record, frame: TableContext) -> tuple[int, int]:
    """Return how many sizes of the row are written the metric way and how many in inches."""
    marked = [
        one
        for reading in record.readings
        if reading.name in shapes.SIZES
        for one in part_text(reading.text, frame.style, frame.materials).sizes
    ]
    return sum(one.measure.metric_like for one in marked), sum(one.measure.inch_like for one in marked)


def _in_inches(record: Record, frame: TableContext) -> bool:
    """Return whether a bare size of lands and tolerances is in inches: as the sheet, else as the row."""
    unit = frame.unit.unit or record.values.get("unit", "")
    if unit:
        return unit == "in"
    metric, inch = _marked(record, frame)
    return inch > metric


_MORE_THAN_AN_ARC = frozenset((
    "diameter", "large", "small", "top", "bottom", "girth", "chord", "rise", "arc_length", "slant",
))  # fmt: skip


def _named_by_its_column(record: Record) -> None:
    """Take a word that no shape is called by for a name, where the row is a radius with its degrees of arc.

    Without the degrees they are asked for with the shape.
    """
    doubt, values = record.doubts.get("shape"), record.values
    if doubt is None or not values.get("radius") or _MORE_THAN_AN_ARC & {*values, *record.doubts}:
        return
    if {"radius", "angle"} & {*record.doubts} or said_in_text(doubt.read)[0]:
        return
    if not values.get("angle"):
        asked = f"{doubt.text.rstrip('?')}, and how many degrees of arc?"
        record.doubts["shape"] = replace(doubt, text=asked)
    elif float(values["angle"]) < _CLOSED_DEG:
        del record.doubts["shape"]
        values["shape"] = "arc"
        told = f'"{doubt.read}" is taken as a name: the row gives its radius and degrees'
        record.assumptions.append(told)


_CLOSED_DEG = 360


_THICK = frozenset(("thickness", "gauge", "schedule"))


def _shape_hint(record: Record) -> None:
    """Take the shape from the description where no column gives it, or where it says more."""
    values = record.values
    words = [row.text for row in record.texts if row.kind in ("description", "size")]
    said = (without_number(one) for one in (values.get("description", ""), *words) if one)
    text = next((one for one in said if shape_words(one)), "")
    hint = shape_words(text) if text else {}
    if not hint or "shape" in record.doubts:
        return
    if hint["shape"] == "flat" and any(shapes.has(values, name) for name in ("diameter", "radius")):
        return  # a flat size, and what it is rolled to
    if not values.get("shape"):
        kind = shapes.kind_of(values)
        if not kind or kind == hint["shape"] or hint["shape"] == "cylinder":
            if kind in ("", hint["shape"]):
                for name, value in hint.items():
                    values.setdefault(name, value)
            return
        bought = hint["shape"] == "bought" and not _THICK & {*values}
        if kind == "cylinder" and (hint["shape"] in ("arc", "cone", "flat", "unsupported") or bought):
            for name, value in hint.items():
                values.setdefault(name, value)
            values["shape"] = hint["shape"]
