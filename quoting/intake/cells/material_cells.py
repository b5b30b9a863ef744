"""Reads the material of a line: a grade the shop knows, or a doubt."""

from __future__ import annotations

import re

from quoting.core import Choice, NumberStyle, Place, Reading, SizeError, parse_measures
from quoting.intake.cells.size_cells import read_size
from quoting.intake.layout import TableContext
from quoting.intake.row_record import Doubt, Record, RowText
from quoting.intake.size_column import SizeColumn
from quoting.intake.texts import part_text
from quoting.shop import Family, Materials, plain_name

PLAIN_STEEL = "plain_steel"
"""Holds the words of a row that is quoted in the shop's plain steel, since it names no grade."""
_READ_AS = "the grade "
_LADDERS: tuple[tuple[re.Pattern[str], dict[str, int]], ...] = (
    (re.compile(r"\bS\s?\d{3}\s?-?\s?(JR|J[0O2]|K2)"), {"JR": 0, "J0": 1, "JO": 1, "J2": 2, "K2": 3}),
    (
        re.compile(r"\bQ\s?(?:235|275|345|355|390|420|460)-?([A-E])\b"),
        {"A": 0, "B": 1, "C": 2, "D": 3, "E": 4},
    ),
    (re.compile(r"\b([ADEF])H\s?(?:27|32|36|40)\b"), {"A": 0, "D": 1, "E": 2, "F": 3}),
    (
        re.compile(r"\bE\s?(?:250|275|300|350|410|450)\s?(A|BR|B0|BO|C|)\b"),
        {"": 0, "A": 0, "BR": 0, "B0": 1, "BO": 1, "C": 2},
    ),
    (re.compile(r"\b(?:16MN|Q345)(DR|R)\b"), {"R": 0, "DR": 1}),
)
"""Steps of one strength by the temperature of their impact test, the least first."""
_EARLIER = re.compile(
    r"\W*(?:same )?(?:as|like) (?:our |your )?(?:po|p\.o\.|order|job|quote|quotation|enquiry|rfq)\b.*", re.I
)
_CERTIFICATE = re.compile(r"(?<![\d.])(?:2\.2|3\.[12])(?![\d.])")
_GRADE = re.compile(r"\bgr(?:ade)?\.?\s*(?=\d)(\d+)", re.I)


def take_material(record: Record, materials: Materials, text: str, place: Place) -> None:
    """Find the grade a text names; a family without grade, two grades or an unknown one is a doubt."""
    record.doubts.pop("material", None)
    record.values.pop(PLAIN_STEEL, None)
    if record.values.pop("material", ""):
        record.assumptions[:] = [said for said in record.assumptions if not said.startswith(_READ_AS)]
    if _EARLIER.fullmatch(text):
        record.texts.append(RowText("remark", text, place, place.header, free=True))
        return  # an earlier order that is not here: asked about by its words, and the grade as missing
    found = materials.find(_GRADE.sub(r"GR \1", text))
    if found.galvanized:
        record.values["gauge_metal"] = "galvanized"
        record.remarks.append(f"Material as written: {text}")
    if len(found.keys) == 1 and not found.rest:
        key = found.keys[0]
        own = materials.family(key)
        if found.family in (None, own) or found.family is Family.CARBON:
            if is_tougher(text, key):
                asked = f'The grade "{text}" is tested colder than our {key}; would {key} do?'
                record.doubt(Doubt("material", place, text, asked, (Choice(key, (("material", key),)),)))
                return
            record.values["material"] = key
            record.readings.append(Reading("material", place, text, key))
            _certificate(record, text, place)
            _say_other_name(record, text, key, temper=own is Family.ALUMINIUM)
            return
    if found.plain and materials.plain_steel:
        key = materials.plain_steel
        record.values["material"] = key
        record.values[PLAIN_STEEL] = text
        record.readings.append(Reading("material", place, text, key))
        record.assumptions.append(f'{_READ_AS}"{text}" is read as our {key}')
        return
    keys = found.keys or materials.in_family(found.family)
    if found.usual:
        keys = tuple(dict.fromkeys((found.usual, *keys)))
    choices = tuple(Choice(key, (("material", key),)) for key in keys[:8])
    if len(found.keys) == 1 and found.rest:
        asked = f'The material reads "{text}"; is {found.keys[0]} right?'
    elif found.keys:
        asked = f'The material reads "{text}", which names more than one; which shall we use?'
    elif found.family is not None and not found.rest:
        record.values["family"] = str(found.family)
        asked = f'The material reads "{text}" without a grade; which grade?'
    else:
        asked = f'We do not know the material "{text}"; is it one of these, or which standard and grade?'
    record.doubt(Doubt("material", place, text, asked, choices))


def _certificate(record: Record, text: str, place: Place) -> None:
    """Take the certificate that stands behind a grade, and as a remark of the row: S355J2+N 3.1."""
    match = _CERTIFICATE.search(text)
    known = match is None or any(row.text == match.group() for row in record.texts)
    if match is not None and not known:
        record.values["certificate"] = "yes"
        record.texts.append(RowText("remark", match.group(), place, place.header, free=True))


def is_tougher(text: str, key: str) -> bool:
    """Return whether a steel is wanted of a higher quality than the grade it is listed under.

    What the steps of one strength are tested at, in degrees C (all from memory): EN 10025-2, JR at 20, J0 at
    0, J2 at -20, K2 40 J at -20; GB/T 700 and 1591, B at 20, C at 0, D at -20, E at -40; ship plate of the
    class rules and ASTM A131, A at 0, D at -20, E at -40, F at -60; IS 2062, BR at room temperature, B0 at 0,
    C at -20; GB 3531 beside 713, DR for low temperatures.

    >>> is_tougher("EH36", "AH36"), is_tougher("Q345D", "Q345B"), is_tougher("IS 2062 E250 BR", "IS2062 E250")
    (True, True, False)
    """
    for pattern, steps in _LADDERS:
        wanted, own = pattern.search(text.upper()), pattern.search(key.upper())
        if wanted and own and steps[wanted[1]] > steps[own[1]]:
            return True
    return False


def _say_other_name(record: Record, text: str, key: str, *, temper: bool) -> None:
    """Say which of our grades a grade was read as, where its name is another: 1.4307 as 1.4301.

    With `temper` a shorter name is another one too: 5083 as 5083-H116.
    """
    name, own = plain_name(text), [plain_name(part) for part in (key, *key.split("/"))]
    if name and (name not in own if temper else not any(name in one or one in name for one in own)):
        record.assumptions.append(f'{_READ_AS}"{text}" is read as our {key}')


def take_text(record: Record, frame: TableContext, text: str, place: Place) -> None:
    """Take a material text; grade and spec columns are read together, a size in it is the thickness."""
    size, material = text, ""
    if frame.materials.find(text).rest:
        size, material = split_material(text, frame.style, frame.materials)
    if material and (
        any(sign in size for sign in "/.\"'") or size.lower().rstrip(".").endswith(("mm", "ga"))
    ):
        slot = SizeColumn("thickness", "", None, frame.unit.unit, frame.style)
        read_size(record, slot, size, place, frame.desk)
        text = material
    if record.values.get("material_text"):
        text = f"{record.values['material_text']} {text}"
    record.values["material_text"] = text
    record.places["material"] = (place, text)
    take_material(record, frame.materials, _alone(record, frame, text, place), place)


def _alone(record: Record, frame: TableContext, text: str, place: Place) -> str:
    """Return the grade of a cell that holds one and a remark whose words are all known; else the cell.

    The remark is then read word by word: A36 / need by 18 Dec, 316L dual cert.
    """
    found = frame.materials.find(text)
    if len(found.keys) != 1 or not found.rest:
        return text
    part = part_text(text, frame.style, frame.materials)
    (key,) = found.keys
    if {one for one, _ in part.grades} != {key} or part.unknown or part.codes or part.sizes:
        return text
    words = next(words for one, words in part.grades if one == key)
    rest = text.replace(words, " ", 1).strip(" ,;/-()")
    record.texts.append(RowText("remark", rest, place, place.header, free=True))
    return words


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
