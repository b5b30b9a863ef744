"""Reads sizes out of descriptions and remarks: to check the columns against them, or where columns give none.

People correct a sheet in its remarks ("dia is ID!", "make from 3/8 plate", "qty 4 not 1"). A remark that says
something else than the columns is a doubt, never a correction made silently.
"""

from __future__ import annotations

import re
from functools import lru_cache

from quoting.core import Choice, Mark, Measure, NumberStyle, Place, Unit
from quoting.intake import shapes
from quoting.intake.doubts.weld_gaps import LAPPED
from quoting.intake.row_record import Doubt, Record
from quoting.intake.shop_view import thickness_of
from quoting.intake.texts import (
    ends_in,
    flags_in,
    gaps_in,
    may_be_segment,
    part_text,
    shape_words,
    without_joints,
)
from quoting.intake.words import left_without
from quoting.shop import Materials

_INTERESTING = re.compile(
    r"\b(i\.?d|o\.?d|inside|outside|dia\w*|plate|pl|thk|thick\w*|wall|ga|gauge|qty|pcs|radius|[io]\.?r)\b"
    r"|\d\s*(?:pieces|off|nos|req'?d|needed|wanted)\b",
    re.I,
)
_SIDE = re.compile(r"(?<![\w.])(i\.?d|o\.?d|inside dia\w*|outside dia\w*)\b", re.I)
_DEGREES = re.compile(r"(?<![\d.,])(\d{2,3})\s*(?:°|deg(?:rees?)?\b)")
_COUNT = re.compile(
    r"\b(?:qty|quantity)\s*[:=]?\s*(\d+)\b|(?<!in )\b(\d+)\s*(?:pcs|pieces|off|nos|req'?d|needed|wanted)\b"
    r"(?!\.?\s?[:=]?\s*\d)",
    re.I,
)


BOTH_SIDES_AGREE = "inside and outside size agree with the thickness"
"""What a line says whose both diameters were given: a remark about one of them denies nothing."""


@lru_cache(maxsize=32_768)
def says_nothing(text: str) -> bool:
    """Return whether a text has no word of sizes, shape, ends, gap or papers: long sheets repeat theirs."""
    words = ends_in(text) or flags_in(text) or shape_words(text) or gaps_in(text)
    if words or _INTERESTING.search(text) or LAPPED.search(text) or _CARRIED.fullmatch(text):
        return False
    if _OTHER_UNIT.search(text):
        return False
    return not may_be_segment(text, beside_arcs=True)


def check_texts(
    record: Record, texts: list[tuple[str, Place]], materials: Materials, style: NumberStyle
) -> None:
    """Doubt a value that a description or a remark contradicts."""
    for written, place in texts:
        text = without_allowance(written)
        if _INTERESTING.search(text):
            _check_side(record, text, place, materials, style)
            _check_both_sides(record, text, place, materials, style)
            _check_sizes(record, text, place, materials, style)
            _check_count(record, text, place)
        _check_shape(record, text, place)
        _check_carried(record, written, place)
        if _OTHER_UNIT.search(written):
            nothing = Choice("the sizes hold as they are read", (("number_ok", "yes"),))
            asked = f'The sheet says "{written}": in which unit are the sizes of this line?'
            record.doubt(Doubt("number_ok", place, written, asked, (nothing,)))


_OTHER_UNIT = re.compile(
    r"\b(?:dims?|dimensions?|sizes?|measurements?|figures|values|all)\b[^;,.]{0,12}\b(?:in|are|=)\s+"
    r"(?:cm|centimet\w+|m|met(?:er|re)s|ft|feet)\b",
    re.I,
)
"""What a remark says of the unit of its line, where it is one that shops seldom work in."""

_CARRIED = re.compile(
    r"(?P<head>[^:]{2,48}): (?P<figure>#?[\d .,/-]*[1-9][\d .,/-]*(?:mm|cm|in|ft|\"|'|°|deg)?\.?)"
)
_CHANGES = re.compile(
    r"\b(?:offset|eccentric\w*|overlap|lap|legs?|straights?|tangents?|courses|strakes|rings|tiers|cans|joints"
    r"|halves|splits?|plates|segs|segments?|sectors?|sections|petals|panels|staves|pieces|wrappers?|quarters"
    r"|spools|spares?|(?:short|long)(?:er)? (?:side|edge)|mit(?:re|er)\w*|(?:end|angle) cut|cut angle|taper"
    r"|skew|camber|bow"
    r"|corrosion|allowance|c\.?a|extra length|trim|crop|clad\w*|lining|overlay|joggle|twist|pitch)\b",
    re.I,
)
"""Words of a heading whose figures change what is rolled, though no field holds them."""
_WORK = re.compile(
    r"\b(?:holes?|slots?|openings?|nozzles?|notch(?:es)?|cut-?outs?|lugs?|flanges?|stiffeners?|gussets?|brackets?"
    r"|clips?|studs?|tabs?|finish|polish\w*|paint\w*|coats?)\b",
    re.I,
)
"""Words of a heading whose figures are work that nobody prices here."""


def _check_carried(record: Record, text: str, place: Place) -> None:
    """Ask about a figure under a heading that no field holds and that changes the part; say what is not
    priced.
    """
    match = _CARRIED.fullmatch(text)
    if match is None:
        return
    if match["figure"] == record.values.get("quantity"):
        return  # Pieces: 4, which are those of the line
    if _CHANGES.search(match["head"]):
        nothing = Choice("nothing that changes the part", (("number_ok", "yes"),))
        asked = f'"{text}": what does it change? It was not used for a size.'
        record.doubt(Doubt("number_ok", place, text, asked, (nothing,)))
    elif _WORK.search(match["head"]):
        record.assumptions.append(f'"{text}": not in the price: this extra work or test')


def without_allowance(text: str) -> str:
    """Return a text without what may be done and need not, and without the side of a finish.

    >>> without_allowance("two half shells acceptable"), without_allowance("half shell")
    (' ; ', 'half shell')
    """
    return left_without(text, ("one_piece", "finish_side"))


def _check_side(record: Record, text: str, place: Place, materials: Materials, style: NumberStyle) -> None:
    sides = {"inside" if found[0].lower() == "i" else "outside" for found in _SIDE.findall(text)}
    basis = record.values.get("basis")
    if not sides or (basis in sides and len(sides) == 1) or BOTH_SIDES_AGREE in record.assumptions:
        return
    if basis is None and len(sides) == 1 and not (record.doubts or record.values.get("diameter") is None):
        return
    if (
        basis is None
        or _agreeing(record, text, materials, style)
        or any(_same_size(record, size) for size in _sizes(text, materials, style))
    ):
        return
    choices = tuple(Choice(side, (("basis", side),)) for side in (basis, *sorted(sides - {basis})))
    asked = f'The diameter is marked {basis}, but the sheet also says "{text}"; which holds?'
    record.doubt(Doubt("basis", place, text, asked, choices))


def _check_both_sides(
    record: Record, text: str, place: Place, materials: Materials, style: NumberStyle
) -> None:
    """Ask where a text gives an inside and an outside diameter that are not the thickness apart."""
    thickness = thickness_of(record.values, materials)
    sizes = [one for one in _sizes(text, materials, style) if one.basis and one.mark is not Mark.RADIUS]
    sides = {str(one.basis): one for one in sizes}
    if thickness is None or "diameter" in record.doubts or len(sizes) != 2 or set(sides) != _BOTH:
        return
    if shapes.length(record.values, "diameter") is None:
        return
    steps = [_mm(sides["outside"], inch) - _mm(sides["inside"], inch) for inch in (True, False)]
    if any(abs(step - 2 * thickness) <= _SAME_STEP * thickness for step in steps):
        return
    asked = f'The sheet also says "{text}", which does not agree with the thickness: which diameter holds?'
    record.doubt(Doubt("diameter", place, text, asked))


_BOTH = {"inside", "outside"}
_SAME_STEP = 0.1


def _agreeing(record: Record, text: str, materials: Materials, style: NumberStyle) -> bool:
    """Return whether a diameter in the text is the other side of the same plate: ID = OD - 2 t."""
    thickness = thickness_of(record.values, materials)
    given = shapes.length(record.values, "diameter")
    if thickness is None or given is None:
        return False
    return any(
        size.basis is not None
        and str(size.basis) != record.values.get("basis")
        and abs(abs(_mm(size, inch) - given) - 2 * thickness) < 0.1 * thickness
        for size in _sizes(text, materials, style)
        for inch in (True, False)
    )


def _same_size(record: Record, size: Measure) -> bool:
    """Return whether a marked size in a text repeats what the columns say."""
    if size.basis is None or str(size.basis) != record.values.get("basis"):
        return False
    given = shapes.length(record.values, "radius" if size.mark is Mark.RADIUS else "diameter")
    return given is not None and any(abs(_mm(size, inch) - given) < 0.01 * given for inch in (True, False))


def _check_sizes(record: Record, text: str, place: Place, materials: Materials, style: NumberStyle) -> None:
    for size in _sizes(text, materials, style):
        name = {Mark.DIAMETER: "diameter", Mark.RADIUS: "radius", Mark.THICKNESS: "thickness"}.get(
            size.mark or Mark.LENGTH
        )
        if name is None:
            continue
        given = (
            thickness_of(record.values, materials)
            if name == "thickness"
            else shapes.length(record.values, name)
        )
        if given is None or size.unit is Unit.GAUGE:
            continue
        if size.basis is not None and str(size.basis) != record.values.get("basis"):
            continue
        if not any(abs(_mm(size, inch) - given) <= 0.02 * given for inch in (True, False)):
            asked = f'The sheet gives one {name} in its column and says "{text}"; which holds?'
            record.doubt(Doubt(name, place, text, asked))


def _sizes(text: str, materials: Materials, style: NumberStyle) -> tuple[Measure, ...]:
    return tuple(
        one.measure
        for one in part_text(text, style, materials).sizes
        if one.clear and (one.measure.mark or one.measure.unit or one.measure.fraction or one.measure.basis)
    )


def _mm(size: Measure, inch: bool) -> float:
    try:
        return size.to_mm(inch=inch)
    except ValueError:
        return 0.0


_PER_RING = re.compile(
    r"\b(\d{1,2})\s*(?:[^\W\d_]{1,8}\.?\s*)?(?:per|/|to an?|pro|par|por|je)\s*(?:full )?"
    r"(?:ring|circle|course)\b",
    re.I,
)


def _is_its_share(record: Record, pieces: str) -> bool:
    """Return whether so many pieces of the row make a full circle: 6 a ring of 60 degrees."""
    angle = record.values.get("angle")
    return angle is not None and abs(float(angle) * int(pieces) - 360) < 1


def _check_count(record: Record, text: str, place: Place) -> None:
    """Doubt a quantity beside another count in a text."""
    quantity = record.values.get("quantity")
    text = _PER_RING.sub(lambda match: "" if _is_its_share(record, match[1]) else match.group(), text)
    numbers = {(one or other).lstrip("0") for one, other in _COUNT.findall(text)}
    if quantity and numbers and quantity not in numbers:
        choices = tuple(Choice(number, (("quantity", number),)) for number in (quantity, *sorted(numbers)))
        asked = f'The quantity is {quantity}, but the sheet also says "{text}"; how many?'
        record.doubt(Doubt("quantity", place, text, asked, choices))


def _open(record: Record) -> bool:
    """Return whether nothing but its words says which part of a circle a row is."""
    known = set(record.doubts) | {name for name, value in record.values.items() if value}
    return not {"angle", "shape"} & known and shapes.kind_of(record.values) == "cylinder"


def _check_shape(record: Record, text: str, place: Place) -> None:
    """Doubt a remark that names a part of a circle or a cone where the columns make a full cylinder."""
    hint = shape_words(text).get("shape", "cylinder")
    if (
        hint == "arc"
        and (degrees := _DEGREES.findall(without_joints(text)))
        and len(degrees) == 1
        and _open(record)
    ):
        record.values.update({"shape": "arc", "angle": degrees[0]})
        record.assumptions.append(f'{degrees[0]} degrees of arc, as "{text}" says')
        if (number := record.doubts.get("number_ok")) and degrees[0] in number.text:
            del record.doubts["number_ok"]
        return
    if hint not in ("arc", "cone") or record.values.get("shape") in ("arc", "cone", "flat", "unsupported"):
        return
    if shapes.kind_of(record.values) != "cylinder" or record.values.get("shape_said"):
        return
    choices = (
        Choice("full cylinder", (("shape", "cylinder"),)),
        Choice("half shell, 180 degrees", (("shape", "arc"), ("angle", "180"))),
    )
    asked = f'The sizes are those of a full cylinder, but the sheet says "{text}"; which shape is it?'
    record.doubt(Doubt("shape", place, text, asked, choices if hint == "arc" else choices[:1]))
