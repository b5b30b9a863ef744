"""Answers in people's own words: yes and no, sizes in a sentence, a grade with a word of thanks."""

from __future__ import annotations

import re

from quoting.core import Choice, Mark, NumberStyle, Order, Question, Sighting, SizeError, Unit, parse_measure
from quoting.intake.answers.own_words import own_words, tolerance_said
from quoting.intake.layout import heading_meaning
from quoting.intake.row_record import number_text
from quoting.intake.size_column import MM
from quoting.intake.texts import BASIS_WORDS, count_of, ends_cell, part_text, plain_sizes, shape_words
from quoting.shop import Materials

Fields = tuple[tuple[str, str], ...]
_YES = re.compile(
    r"^\W*(?!.*\b(?:but|except|instead|longer|shorter|wider|thicker|thinner|different)\b)"
    r"(y|yes|yep|yeah|ok|okay|correct|right|confirmed?|agreed|sure|fine|please do|go ahead|price it"
    r"|quote it|(it|they|that)('s| is| are)? (right|correct|fine|ok)|as (is|it is|it stands|shown|drawn"
    r"|listed|stated|they are|above|before|in the sheet|the sheet says|per sheet)|no changes?|unchanged"
    r"|keep( it| as is)?|leave as is|nothing( changes)?|ignore( it)?|does not matter|still wanted|wanted"
    r"|released|in stock|holds?|go|ja|oui|si|proceed|quote anyway|still needed|please quote|include it"
    r"|make it(?=\W*$)|green light|per( the)? sheet|go by the sheet|sizes as listed|use the sizes"
    r"|the sizes in the table|same|(as|same as)( the)? columns)\b",
    re.I,
)
_NO = re.compile(r"^\W*(n|no|nope|not|never|none|nein|non)\b", re.I)
_OUT = re.compile(
    r"\b(leave (it |this |the line )?out|delete|remove|cancel\w*|drop( it)?|not (wanted|needed|required)|skip"
    r"|omit|void|exclude|(do not|don't) (quote|price)|no quote|on hold|scrap( it)?|take (it )?out|strike)\b",
    re.I,
)
_FIELDS = {
    Mark.DIAMETER: "diameter", Mark.RADIUS: "radius", Mark.THICKNESS: "thickness", Mark.LENGTH: "length",
    Mark.WIDTH: "width", Mark.HEIGHT: "height", Mark.GIRTH: "girth", Mark.ARC_LENGTH: "arc_length",
    Mark.CHORD: "chord", Mark.RISE: "rise", Mark.SLANT: "slant", Mark.LARGE: "large", Mark.SMALL: "small",
}  # fmt: skip
_ANGLES = {
    "full": 360.0, "half": 180.0, "quarter": 90.0, "third": 120.0, "semi": 180.0, "semi-": 180.0,
    "1/2": 180.0, "1/4": 90.0, "1/3": 120.0, "halb": 180.0,
}  # fmt: skip
_BASIS_SAID = {
    "int": "inside", "bore": "inside", "außen": "outside", "external": "outside", "overall": "outside",
    "exterieur": "outside", "extérieur": "outside", "mid": "mean", "center": "mean", "centre": "mean",
}  # fmt: skip
_ROUND = ("radius", "large", "small")
"""What a size with a side and no other word is for, when that is asked: rolled to 24 inside."""
_SIZED = frozenset((*_FIELDS.values(), "stock_thickness", "weld_gap", "size", "line"))
"""The kinds of questions that a size answers; in an answer to another kind a number is no size."""
_UNITS = {
    "in": (
        "in",
        "inch",
        "inches",
        "imperial",
        "inch.",
        '"',
        "ins",
        "us units",
        "english",
        "zoll",
        "pouces",
        "pulgadas",
    ),
    "mm": ("mm", "millimetres", "millimeters", "metric", "millimetre", "millimeter", "milimetros", "si"),
}
_BARE = re.compile(
    r"\b(it|is|are|the|please|use|should|be|to|we|want|a|an|that|this|make|of|about|sorry|thanks?)\b", re.I
)


_GAP = re.compile(r"\b(root )?gap\b( of)?", re.I)


def natural(  # noqa: PLR0911, PLR0912 - a return for each kind of question
    question: Question, answer: str, order: Order, materials: Materials, values: dict[str, str]
) -> Fields:
    """Return the fields that an answer in free words sets; empty when it is not understood."""
    field = question.id.rpartition("/")[2]
    plain = " ".join(answer.split())
    if found_words := own_words(question, field, plain, inch=not order.metric):
        return found_words
    if field.endswith("_ok") or field in ("hidden", "duplicate", "revision"):
        return _confirmed(question, field, plain, order, materials, values)
    if field.startswith("column_"):
        return _column(question, field, plain)
    if field == "unit":
        return _unit(plain)
    if field == "angle":
        return _angle(plain)
    if field == "material":
        return _material(plain, materials) or (_with_yes(question) if _YES.match(plain) else ())
    if field == "tolerance":
        return tolerance_said(plain, values.get("tolerances", ""), inch=not order.metric)
    if field == "ends":
        found = ends_cell(plain, "pre-bend") or ends_cell(plain.split()[-1] if plain else "", "pre-bend")
        if not found and _YES.match(plain) and question.choices:
            return question.choices[0].fields
        return (("ends", str(found)),) if found else ()
    if field == "quantity":
        said = re.sub(r"\b(in )?(all|total)\b", " ", _BARE.sub(" ", plain))
        count = count_of(" ".join(said.split())).number
        return (("quantity", str(count)),) if count else ()
    if field == "row_unit":
        unit = dict(_unit(plain)).get("unit")
        told = unit and re.search(rf'column "[^"]*\b{unit}\b', question.text)
        return question.choices[0].fields if told and question.choices else ()
    if field == "basis":
        return _basis(plain)
    if field == "weld_gap" and re.match(
        r"^\W*(0(?![.,\d])|zero|none|no gap|closed?|(butt )?tight|touching)(?![\w/])", plain, re.I
    ):
        return (("weld_gap", "0"), ("weld_gap_ok", "yes"))
    if field == "shape" and (found_shape := shape_words(plain)):
        return tuple(found_shape.items())
    if field == "shape" and (arc := _angle(plain)):
        return (("shape", "arc"), *arc) if arc[0][1] != "360" else (("shape", "cylinder"),)
    if field == "weld_gap":
        plain = _GAP.sub(" ", plain).strip()
    found_sizes = sizes_said(plain, field, order, materials, values) if field in _SIZED else ()
    return found_sizes or (_with_yes(question) if _YES.match(plain) else ())


def _unit(plain: str) -> Fields:
    """Return the one unit that is named; "in" before another unit is no unit: all in mm."""
    word = re.sub(r"\bin (?=\w)", "", plain.lower().strip("."))
    named = [unit for unit, words in _UNITS.items() if _has(word, words)]
    return (("unit", named[0]),) if len(named) == 1 else ()


def _has(text: str, words: tuple[str, ...]) -> bool:
    return any(re.search(rf"(?<!\w){re.escape(word)}(?!\w)", text) for word in words)


def _column(question: Question, name: str, plain: str) -> Fields:
    """Return what a column holds in the words of a heading: the overall length in mm, OD, ignore it."""
    told = [one.fields for one in question.choices if (name, "carried") not in one.fields]
    if re.fullmatch(r"(yes|ja|ok|correct|right)\W*", plain, re.I):
        return told[0] if len(told) == 1 else ()
    if re.search(r"\b(ignore|nothing|not relevant|internal|pass|carry|none)\b", plain, re.I):
        return ((name, "carried"),)
    meaning = heading_meaning(re.sub(r"\s+", " ", _BARE.sub(" ", plain)).strip(" .!"))
    if not meaning.field:
        return ()
    basis: Fields = (("basis", str(meaning.basis)),) if meaning.basis else ()
    unit: Fields = ((f"{name}_unit", meaning.unit),) if meaning.unit in MM else ()
    return ((name, meaning.field), *basis, *unit)


def _with_yes(question: Question) -> Fields:
    """Return the fields of the one choice that a yes means: the only one, or the one that begins with yes."""
    choices = question.choices
    named = [choice for choice in choices if choice.label.lower().startswith("yes")]
    if len(named) == 1:
        return named[0].fields
    return choices[0].fields if len(choices) == 1 else ()


def _confirmed(  # noqa: PLR0911 - a return for each kind of answer
    question: Question, field: str, plain: str, order: Order, materials: Materials, values: dict[str, str]
) -> Fields:
    """Return what an answer to "is it as it stands?" sets: yes, no, leave out, or what is right."""
    out = next((choice for choice in question.choices if _leaves_out(choice)), None)
    if _OUT.search(plain):
        return out.fields if out else (("left_out", "left out by the customer"), (field, "yes"))
    no = next((choice for choice in question.choices if choice.label.lower().startswith("no")), None)
    yes = next((choice for choice in question.choices if choice.label.lower().startswith("yes")), None)
    keep = yes or next((choice for choice in question.choices if not _leaves_out(choice)), None)
    done: Fields = ((field, "yes"),)
    count = count_of(plain).number if field == "quantity_ok" else None
    if count:
        return (("quantity", str(count)), *done)
    found = sizes_said(plain, "", order, materials, values) if _tells_size(field, plain) else ()
    material = _material(plain, materials)
    if material or found:
        return (*material, *found, *done)
    if shape := shape_words(plain):
        return (*shape.items(), *done)
    if _YES.match(plain):
        return keep.fields if keep else done
    if _NO.match(plain):
        if no:
            return no.fields
        return (
            out.fields
            if out and field in ("status_ok", "struck_ok", "hidden")
            else keep.fields
            if keep
            else ()
        )
    return ()


def _tells_size(field: str, plain: str) -> bool:
    return field not in ("duplicate", "hidden", "revision") and any(sign.isdecimal() for sign in plain)


def _leaves_out(choice: Choice) -> bool:
    return any(name == "left_out" or value in ("left out", "once") for name, value in choice.fields)


def _angle(plain: str) -> Fields:
    word = (
        _BARE.sub(" ", plain.lower())
        .replace("circle", "")
        .replace("round", "")
        .replace("one ", "")
        .replace("shell", "")
        .replace("cylinder", "")
        .strip(" .")
    )
    degrees = _ANGLES.get(" ".join(word.split()))
    match = re.search(r"(\d+(?:[.,]\d+)?)\s*(?:°|deg\w*)?", plain)
    if degrees is None and match and len(re.findall(r"\d+(?:[.,]\d+)?", plain)) == 1:
        degrees = float(match.group(1).replace(",", "."))
    return (("angle", number_text(degrees)),) if degrees and 0 < degrees <= 360 else ()


def _material(plain: str, materials: Materials) -> Fields:
    text = part_text(plain, NumberStyle.POINT, materials)
    keys = tuple(dict.fromkeys(key for key, _ in text.grades)) or materials.find(_BARE.sub(" ", plain)).keys
    keys = keys or materials.find(plain.replace(" ", "")).keys
    return (("material", keys[0]),) if len(keys) == 1 else ()


def _basis(plain: str) -> Fields:
    words = re.findall(r"[^\W\d_]+", re.sub(r"[./]", "", plain.lower()).replace("cent", " cent"))
    words = [_BASIS_SAID.get(word, word) for word in words]
    named = {BASIS_WORDS[word] for word in words if word in BASIS_WORDS and len(word) > 1}
    if len(named) != 1 and len(words) == 1:
        named = {BASIS_WORDS[word] for word in words if word in BASIS_WORDS}
    return (("basis", named.pop()),) if len(named) == 1 and "not" not in words else ()


def sizes_said(plain: str, field: str, order: Order, materials: Materials, values: dict[str, str]) -> Fields:
    """Return the sizes of a sentence, each in its field; a lone bare number is for the asked field."""
    sizes = part_text(plain, NumberStyle.POINT, materials).sizes
    if not sizes or not all(one.clear for one in sizes):
        return ()
    found: dict[str, str] = {}
    loose: list[Sighting] = []
    for one in sizes:
        name = field if one.measure.mark is None and one.measure.basis and field in _ROUND else ""
        name = name or _field_of(one, found)
        if one.measure.unit is Unit.DEGREE:
            found["angle"] = number_text(one.measure.low)
        elif name:
            _set(found, name, one, order)
        else:
            loose.append(one)
    if field and len(loose) == 1 and not found and field not in ("size", "line"):
        _set(found, "thickness" if field == "stock_thickness" else field, loose[0], order)
        return tuple(found.items())
    names = _names(found, values, len(loose))
    if len(names) < len(loose):
        return ()
    for one, name in zip(sorted(loose, key=lambda one: one.measure.low), names, strict=False):
        _set(found, name, one, order)
    return tuple(found.items())


def _field_of(one: Sighting, found: dict[str, str]) -> str:
    if one.measure.mark is Mark.DIAMETER and "diameter" in found:
        return "small"
    if one.measure.mark is not None:
        return _FIELDS[one.measure.mark]
    return "diameter" if one.measure.basis is not None else ""


def _names(found: dict[str, str], values: dict[str, str], count: int) -> tuple[str, ...]:
    """Return the fields of loose sizes, the smallest first."""
    thick = "thickness" in found or bool(values.get("thickness") or values.get("gauge"))
    if count == 1:
        return ("length",) if thick else ("thickness",)
    return ("thickness", "length") if count == 2 and "thickness" not in found else ()


def _set(found: dict[str, str], name: str, one: Sighting, order: Order) -> None:
    size = one.measure
    if size.unit is Unit.GAUGE:
        found["gauge"] = str(int(size.low))
        if size.metal:
            found["gauge_metal"] = size.metal
        return
    if size.unit in (Unit.NPS, Unit.DN):
        found[name] = number_text(size.to_mm(inch=True))
    else:
        unit = str(size.unit) if size.unit else ("mm" if order.metric and not size.fraction else "in")
        found[name] = number_text(size.low * MM[unit])
    if size.basis is not None:
        found["basis"] = str(size.basis)
    if name == "thickness":
        found.setdefault("gauge", "")


_TENS = {
    "twenty": 20, "thirty": 30, "forty": 40, "fifty": 50, "sixty": 60, "seventy": 70, "eighty": 80,
    "ninety": 90,
}  # fmt: skip
_ONES = {
    "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9,
}  # fmt: skip
_NUMBER_WORDS = re.compile(rf"\b({'|'.join(_TENS)})(?:[- ]({'|'.join(_ONES)}))?\b", re.I)
_COUNT_WORDS = re.compile(
    rf"\b({'|'.join(_ONES)}|ten|twelve)(?=\s+(?:pcs|pieces?|off|ea|each|no|nos|units?)\b)", re.I
)
_QUARTERS = re.compile(
    r"\W*(?:an? |one )?(quarter|half|three quarters)(?: (?:of an )?inch(?:es)?)?(?: thick| plate)?\W*", re.I
)
_IN_INCHES = {"quarter": "1/4 in", "half": "1/2 in", "three quarters": "3/4 in"}


def spoken(answer: str, field: str, *, inch: bool) -> str:
    """Return an answer with its number words as figures; a quarter is one of an inch where a plate is asked.

    >>> spoken("forty-eight", "diameter", inch=True), spoken("four pieces please", "quantity", inch=True)
    ('48', '4 pieces please')
    >>> spoken("a quarter", "thickness", inch=True), spoken("a quarter", "angle", inch=True)
    ('1/4 in', 'a quarter')
    """
    if (
        inch
        and field in ("thickness", "stock_thickness", "weld_gap")
        and (match := _QUARTERS.fullmatch(answer))
    ):
        return _IN_INCHES[match[1].lower()]
    if field not in _SIZED and field not in ("quantity", "quantity_ok", "angle"):
        return answer
    answer = _NUMBER_WORDS.sub(
        lambda match: str(_TENS[match[1].lower()] + _ONES.get((match[2] or "").lower(), 0)), answer
    )
    ones = {**_ONES, "ten": 10, "twelve": 12}
    return _COUNT_WORDS.sub(lambda match: str(ones[match[1].lower()]), answer)


def lone_size(answer: str) -> str:
    """Return an answer that is one size with words about it as the size alone: it is 48 inches.

    >>> lone_size("it should be 48 inches please")
    '48 inches'
    """
    plain = plain_sizes(_BARE.sub(" ", _GAP.sub(" ", answer))).strip(" !,").rstrip(".")
    try:
        parse_measure(plain)
    except SizeError:
        return answer
    return plain
