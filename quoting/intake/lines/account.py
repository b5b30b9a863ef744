"""The account of a row's texts: each word is used, checked, known, said on the line, or asked about."""

from __future__ import annotations

import math
import re
from dataclasses import replace
from functools import lru_cache

from quoting.core import Basis, Choice, Mark, Measure, Unit
from quoting.intake import shapes
from quoting.intake.cells import WHOSE_PLATE
from quoting.intake.doubts import agreed_fit, agreed_shape
from quoting.intake.layout import TableContext
from quoting.intake.row_record import Doubt, Record, RowText
from quoting.intake.shop_view import thickness_of
from quoting.intake.texts import (
    WORDS,
    PartText,
    date_of,
    edge_said,
    edges_in,
    extras_in,
    shape_words,
    tolerances_in,
    tolerances_of,
    weld_said,
)
from quoting.intake.words import Said, is_business, is_errand, pointed_at

_ROUNDED, _CLOSE = 0.001, 0.02
"""How far a number in a text may be from a size of the row that it repeats, beside its own rounding; one of
another side of the plate, or around it, is compared elsewhere."""
_SIDES = {"inside": 1, "mean": 0, "outside": -1}
"""How many walls the neutral line lies outside of a diameter."""
_A_WORD, _FEW_WORDS = 4, 2
"""A remark in another language that holds two unknown words so long, and nothing known, is asked about."""
_NAMES_ONLY = 99
"""A bare whole number up to this in a description is taken for a name: tank 3."""


class GivenSizes:
    """The sizes that a row gives in its cells, as far as they are read; worked out when first asked."""

    def __init__(self, record: Record, frame: TableContext) -> None:
        self.record, self.frame = record, frame
        self._angle: tuple[float | None] | None = None
        self._known: tuple[list[float], list[float]] | None = None
        self._faces: tuple[float, ...] | None = None

    @property
    def angle(self) -> float | None:
        """Return the degrees of arc that the row gives so far; half is 180."""
        if self._angle is None:
            given = self.record.values.get("angle")
            named: dict[str, str] = {}
            for row in self.record.texts:
                named |= shape_words(row.text) if row.kind == "description" else {}
            half = self.record.values.get("half") or named.get("half")
            told = given or ("180" if half else named.get("angle"))
            self._angle = (float(told) if told else None,)
        return self._angle[0]

    def hold(self, size: Measure) -> bool:
        """Return whether the row holds this size already, in inches or in millimetres."""
        if self._known is None:
            self._known = self._sizes()
        known, open_ = self._known
        other = size.basis is not None and str(size.basis) != self.record.values.get("basis")
        share = _CLOSE if size.mark is Mark.GIRTH or other else _ROUNDED
        for inch in (True, False):
            try:
                mm = size.to_mm(inch=inch)
            except ValueError:
                continue
            near = max(0.06, share * mm, 0.13 if inch else 0.5 if size.low.is_integer() else 0.06)
            if any(abs(mm - one) <= near for one in known):
                return True
        return size.low in open_

    def follows(self, size: Measure) -> bool:
        """Return whether a number follows from the row's cylinder: the diameter of another face of its plate,
        or the developed length of its neutral line.
        """
        if size.mark is not None or size.basis is not None:
            return False
        if self._faces is None:
            self._faces = self._round_sizes()
        sizes = (size.low, size.low * 25.4) if self._faces else ()
        return any(abs(mm - one) <= max(_ROUNDED * one, 0.6) for mm in sizes for one in self._faces)

    def _round_sizes(self) -> tuple[float, ...]:
        """Return the diameters of the three faces of the row's cylinder and its girth, mm; none of others."""
        values = self.record.values
        across, wall = shapes.length(values, "diameter"), thickness_of(values, self.frame.materials)
        side = _SIDES.get(values.get("basis", ""))
        if not across or not wall or side is None:
            return ()
        mean = across + side * wall
        return mean, mean - wall, mean + wall, math.pi * mean

    def nearly_hold(self, mm: float) -> bool:
        """Return whether the row has a size close to this one, mm, and none that it repeats."""
        if self._known is None:
            self._known = self._sizes()
        apart = [abs(mm - one) / one for one in self._known[0] if one >= _LONG_MM]
        return any(one <= _NEARLY for one in apart) and not any(one <= _ROUNDED for one in apart)

    def _sizes(self) -> tuple[list[float], list[float]]:
        """Return the row's sizes in mm, and the numbers whose unit is not known yet."""
        values = self.record.values
        given = [shapes.length(values, name) for name in shapes.SIZES if name in values]
        given.append(thickness_of(values, self.frame.materials))
        texts = [text[:-1] for text in values.values() if text.endswith("u")]
        open_ = [float(text) for text in texts if text.replace(".", "", 1).isdigit()]
        return [one for one in given if one], open_


def account(given: GivenSizes, row: RowText, part: PartText, used: set[int]) -> None:
    """Say or ask what nothing else has taken from a text."""
    record, frame = given.record, given.frame
    if part.weight == WORDS and not part.said and not frame.foreign and row.kind != "heading":
        if row.kind != "size" and row.text[0] != "=" and (told := _names_told(row.kind, row.header, part)):
            record.assumptions.append(told)
        return
    for one in part.said:
        said = _of_another_grade(record, row, part, one)
        if agreed := _agreed(record, frame, row, said):
            record.assumptions.append(agreed)
        else:
            _said(record, row, said, frame)
            _ask_near(given, row, said)
    if row.kind == "heading" or row.text.startswith("="):
        return
    numbers = [
        part.plain[one.measure.start : one.measure.end].strip()
        for index, one in enumerate(part.sizes)
        if index not in used
        and not _known(given, row, part, index)
        and not _of_no_length(part, index)
        and not (row.kind == "remark" and _names_something(given, part, index))
    ]
    quiet = row.kind == "remark" and not part.said and (numbers or frame.foreign)
    errand = quiet and is_errand(row.text, names=not frame.foreign)
    if numbers and (errand or _read_elsewhere(row, part, used)):
        numbers = []
    if numbers and _unsized(record, row, part):
        name = row.field or "size"
        asked = f'The {name} reads "{row.text}"; which number is which?'
        record.doubt(Doubt(name, row.place, row.text, asked))
    elif numbers and not (
        {"size", "diameter", "radius", "thickness", "length", "quantity"} & set(record.doubts)
    ):
        _ask_number(record, row, ", ".join(numbers))
    names = _left_names(given, row, part, used)
    if frame.foreign and row.free and not errand:
        _ask_foreign(record, row, part, sized=bool(numbers))
    if names and row.kind != "size":
        record.assumptions.append(_taken(names, row.kind, row.header))


def _agreed(record: Record, frame: TableContext, row: RowText, said: Said) -> str:
    """Return what is said of a shape, or a pipe to go round, that agrees with the row's sizes; or nothing."""
    if said.name == "shape":
        return agreed_shape(record, row.text, frame.unit.unit)
    if said.name == "slip_fit":
        return agreed_fit(record, row.text, frame.unit.unit, thickness_of(record.values, frame.materials))
    return ""


def _left_names(given: GivenSizes, row: RowText, part: PartText, used: set[int]) -> list[str]:
    """Return what a text says beside sizes, phrases and harmless words, which the line then tells."""
    names = [*part.codes, *part.unknown, *_small_numbers(given, row, part, used)]
    if part.count is not None and row.kind == "remark":
        names.append(str(part.count))
    if row.kind == "remark" and not part.said and _EITHER_SIZE.search(row.text):
        names.append(row.text)  # 10 mm or 3/8: both are the row's plate, and still a choice
    return [name for name in names if not tolerances_in(name, inch=True)]  # a rule such as UG-80 is read


_EITHER_SIZE = re.compile(r"\d ?(?:mm|in|\"|ga)? or \d", re.I)


def _ask_foreign(record: Record, row: RowText, part: PartText, *, sized: bool) -> None:
    """Ask what a remark in another language means that nothing explains; `sized` tells of open numbers."""
    if part.said or sum(len(word) >= _A_WORD for word in part.unknown) < _FEW_WORDS:
        return
    loud = sized or any(sign.isdecimal() for sign in _NAMED_NUMBER.sub(" ", row.text))
    _ask_what_it_changes(record, row, blocking=loud)


def _ask_what_it_changes(record: Record, row: RowText, *, blocking: bool) -> None:
    """Ask whether a remark changes the part or its price."""
    asked = f'The remark reads "{row.text}": does it change the part or its price?'
    choices = (Choice("no, as the other cells say", (("remark_ok", "yes"),)),)
    assumed = "" if blocking else "the remark changes no price"
    record.doubt(Doubt("remark_ok", row.place, row.text, asked, choices, blocking, assumed))


_BY_THE_ROLLER = re.compile(
    r"\b(?:by|from) (?:you\b|yourselves|(?:the )?(?:roller|supplier|vendor)|seller|rolling shop"
    r"|your (?:own )?(?:shop|works|people|side|end))"
    r"|\b(?:you|vendor|supplier|roller) (?:to|shall|must|will) (?!mark|stamp|tag|pack|ship|load)\w+",
    re.I,
)
_NO_WORK_OF_OURS = re.compile(
    r"\b(?:no|not|without|mark\w*|stamp\w*|stencil\w*|tag\w*|label\w*|ident\w*|clean\w*|oil\w*|pack\w*"
    r"|protect\w*|photo\w*|report\w*)\b",
    re.I,
)


def _wanted_from_us(text: str) -> bool:
    """Return whether a remark wants extra work of the shop that rolls: door frame fitted by roller."""
    work = _PLATE_BY_THE_ROLLER.sub(" ", text)
    return _BY_THE_ROLLER.search(work) is not None and _NO_WORK_OF_OURS.search(work) is None


def _comes_with(row: RowText) -> bool:
    """Return whether a description orders a part with holes or with pieces welded on: shell w/ 4" hole."""
    if row.kind != "description" or _COMES_WITH.search(row.text) is None:
        return False
    return _NO_WORK_OF_OURS.search(row.text) is None and _BY_OTHERS.search(row.text) is None


_COMES_WITH = re.compile(
    r"(?:\b(?:with|having|incl\w*|plus)\s|\b[cw]/w?\s?|[+&]\s?)[^,;]{0,30}?"
    r"\b(?:holes?|openings?|cut-?outs?|slots?|notch\w*|nuts?|lugs?|studs?|boss(?:es)?|couplings?|manways?|manholes?)\b",
    re.I,
)
_BY_OTHERS = re.compile(
    r"\bby (?:us|others?|the |our|customer|client|site|owner|buyer|fitters?)|\bwithout\b", re.I
)


_PLATE_BY_THE_ROLLER = re.compile(
    r"\b(?:plates?|material|steel|sheets?|blanks?)(?: (?:is|are|comes?|to be|supplied|cut|included))*"
    r" (?:by|from) (?:you|yourselves|(?:the )?(?:roller|supplier|vendor)|your \w+)\b",
    re.I,
)


_TALK = frozenset(("commercial", "delivery", "note"))


def _of_another_grade(record: Record, row: RowText, part: PartText, said: Said) -> Said:
    """Return what a remark says of price or delivery, as an option where it names a grade not the row's."""
    own = record.values.get("material")
    if row.kind != "remark" or said.name not in _TALK or said.does not in _PASSED_ON or not own:
        return said
    others = (words for key, words in part.grades if key != own)
    if not any(words in said.words for words in others):
        return said
    return replace(said, does="ask", name="option", text=_OPTION)


_OPTION = "an option or alternative: shall we price it as its own line, or instead of another"


def only_an_errand(row: RowText, part: PartText) -> bool:
    """Return whether a remark with a phrase in it is word by word of calling and loading: ask for stores."""
    if row.kind != "remark" or not part.said or _COUNTED.search(row.text):
        return False
    return is_errand(row.text, names=False)


_COUNTED = re.compile(r"\b(?:only|one)\b|\d\s*(?:pcs?|pieces?|off|parts?|items?|ea|each)\b", re.I)
"""An errand that counts parts is none: deliver only 1 piece."""
_PASSED_ON = ("say", "work", "note")
_LONG_MM, _NEARLY = 100.0, 0.1
"""A number in what is said of work that is so close to a size of the row, mm and share, may change it."""
_LONE = re.compile(
    r"(?<![\w.#/:,–-])(?P<number>\d{2,5}(?:\.\d+)?)(?P<unit>\s?(?:mm\b|in\b|\"))?"
    r"(?!\s?(?:%|°|deg|h\b|hrs?|hours?|kgs?|lbs?|bar|psi|n/|mpa|ksi|rpm|pcs|pieces|days?|weeks?|off|grit|korn|grain|h\d|x\b)"
    r"|[\w/:,.-]*\d|[a-z])",
    re.I,
)
_A_NAME_BEFORE = re.compile(
    r"\b(?:ral|no|nr|po|item|line|pos|mark|spec\w*|astm|asme|en|iso|din|job|order|wk|kw|rev|grit|grain|korn|tank|unit|bay|dock|gate"
    r"|heat|cert\w*|procedure|wps|note|dwg|drawing|part|ext|tel|phone|code|ref|room|page|class|type)\W{0,2}$",
    re.I,
)


def _ask_near(given: GivenSizes, row: RowText, said: Said) -> None:
    """Ask what a number in a remark about work is for that is nearly a size of the row."""
    if row.kind == "remark" and said.does in _PASSED_ON and (number := _nearly_a_size(given, said)):
        _ask_number(given.record, row, number)


def _ask_number(record: Record, row: RowText, number: str) -> None:
    asked = f'"{row.text}": what is the number {number} for? It was not used for a size.'
    record.doubt(Doubt("number_ok", row.place, row.text, asked, _CHANGES_NOTHING))


def _nearly_a_size(given: GivenSizes, said: Said) -> str:
    """Return the number in what is said of work that is nearly a size of the row: machine ends to 1495."""
    for match in _LONE.finditer(said.words):
        unit = (match["unit"] or given.frame.unit.unit or "").strip()
        mm = float(match["number"]) * (25.4 if unit in ("in", '"') else 1.0)
        if given.nearly_hold(mm) and not _A_NAME_BEFORE.search(said.words[: match.start()]):
            return match.group().strip()
    return ""


_NO_LENGTH = re.compile(
    r"\s*(?:bhn|hbw?|hb|hrc|hv|brinell|ksi|psi[ga]?|k?pa|mpa|bars?|n/mm2|kgs?|kilos?|lbs?|pounds?|tons?|tonnes?"
    r"|°\s?[cf]|deg\.? ?[cf]|hrs?|hours?|rpm|hp|kw|volts?|amps?|gpm|gal\w*|bbls?|lit(?:er|re)s?|m3"
    r"|cu\.? ?(?:ft|m|yd)s?|copies|coats?|pass(?:es)?|mils|microns?|µm|joules?|ft-?lbs?|cycles|tpa|tph"
    r"|years?|yrs?|months?|weeks?|wks?|days?|minutes?|seconds?|shifts?"
    r"|p\.?m\b|a\.?m(?=\.?\s*(?:$|[,;.)-]|and\b|to\b|till\b|until\b|or\b))|o'?clock|uhr|heures?|horas?|hod"
    r"|st|nd|rd|th|t/h)\b(?!\s*(?:thk|thick|plate|wall))",
    re.I,
)
"""What a number counts that is no length: hardness, pressure, weight, power, copies, the time, the 12th."""


def _of_no_length(part: PartText, index: int) -> bool:
    """Return whether the word behind a number says that it is no size of a part: 400 BHN, 150 psi."""
    size = part.sizes[index].measure
    bare = size.unit is None and size.mark is None and not size.fraction and not _joined(part, index)
    return bare and _NO_LENGTH.match(part.plain, size.end) is not None


_NUMBER_WORDS = (
    r"(?:\b\w*(?:nr|no|num|pos|posici[óo]n|position|posizione|poz|pozycja|rep[èe]re|item|[íi]tem|line|ligne|l[íi]nea|regel|rad|fundament\w*|achse|foundation|axis|bay|feld|ebene|reihe)\.?|n[º°]|№|#|\b(?:col(?:umn)?|gate|dock|door|bay|desk|page|room|porter[ií]a|portaria"
    r"|puerta|muelle|quai"
    r"|porte|tor|rampe|halle|cancello|banchina|poort|bram[aęy]|port[aã]o|doca|commessa|affaire|auftrag|obra|zleceni[ea]|zakázk\w|week|wk|kw"
    r"|sem(?:aine|ana)?|settimana|tydzie[nń])\.?)\s*"
)
"""Words whose number is a name, or a week: gate 3, quai n°4, bouwnr. 418."""


def _names_something(given: GivenSizes, part: PartText, index: int) -> bool:
    """Return whether a number in a remark is that of another part, of a gate, an order, a week or a paper."""
    if _name_at(part, index) in given.frame.marks or _named(given, part, index):
        return True
    return _in_business(given, part, index)


def _in_business(given: GivenSizes, part: PartText, index: int) -> bool:
    """Return whether a bare number stands in a clause of mere business, near no size: dwg 8812 rev B."""
    size = part.sizes[index].measure
    if size.unit is not None or size.mark is not None or size.basis is not None or _joined(part, index):
        return False
    if any(given.nearly_hold(mm) for mm in (size.low, size.low * 25.4)):
        return False
    begins = max(part.plain.rfind(sign, 0, size.start) for sign in ",;") + 1
    ends = [at for sign in ",;" if (at := part.plain.find(sign, size.end)) >= 0]
    return is_business(part.plain[begins : min(ends, default=len(part.plain))].strip())


def _named(given: GivenSizes, part: PartText, index: int) -> bool:
    """Return whether a bare number in a remark is that of a gate, an order or a week, and near no size."""
    size = part.sizes[index].measure
    bare = size.unit is None and size.mark is None and not size.fraction and not _joined(part, index)
    if not bare or not _NUMBER_OF.search(part.plain[: size.start]):
        return False
    return not any(given.nearly_hold(mm) for mm in (size.low, size.low * 25.4))


_NUMBER_OF = re.compile(_NUMBER_WORDS + "$", re.I)
_NAMED_NUMBER = re.compile(_NUMBER_WORDS + r"\d+", re.I)


_NAME_END = re.compile(r"[A-Za-z]{0,3}-?\d[\w-]*$")


def _name_at(part: PartText, index: int) -> str:
    """Return the word that a number ends, with the letters before it: the H4 of inside H4."""
    match = _NAME_END.search(part.plain[: part.sizes[index].measure.end].rstrip())
    return match.group() if match else ""


_SEAM_AT = re.compile(
    r"\b(?:seams?|l\.?s|welds?|joints?)\b.*\b(?:offset|stagger\w*|rotat\w*|orient\w*|clock\w*|apart|at)\b"
    r"|\b(?:offset|stagger\w*)\b.*\b(?:seams?|welds?|joints?|to)\b",
    re.I,
)
"""Where the seam of one course stands beside the next: an angle of the assembly, and none of the part."""


def _letters_of_joint(row: RowText) -> bool:
    """Return whether a cell under the edges is the letter of a joint and its degrees: X 60."""
    return "edge prep" in row.header.lower() and _A_JOINT.fullmatch(row.text) is not None


_TOLERANCES = re.compile(r"\b(?:tol|toler\w*)\b", re.I)
_A_TOLERANCE = re.compile(r"\s*(?:[+±-]|\+\s?/\s?-)\s?\d+(?:[.,]\d+)?\s*(?:mm|in|\")?\s*", re.I)
"""+2 under a heading of tolerances."""
_A_JOINT = re.compile(r"\s*(?:[DH]|1/2 ?|½ ?)?[VYXKUJ][- ]?\d{2}(?:[.,]5)?\s*", re.I)


def _read_elsewhere(row: RowText, part: PartText, used: set[int]) -> bool:
    """Return whether the numbers of a text are read as what they are: the angles of a bevel, a date."""
    left = [one.measure for index, one in enumerate(part.sizes) if index not in used]
    headed = f"{row.header} {row.text}"
    degrees = all(size.unit is Unit.DEGREE for size in left)
    if _TOLERANCES.search(row.header) and _A_TOLERANCE.fullmatch(row.text):
        return True
    if (degrees or _letters_of_joint(row)) and (
        edges_in(headed, inch=True) is not None or _SEAM_AT.search(row.text)
    ):
        return True
    return row.kind != "size" and date_of(row.text).value is not None


@lru_cache(maxsize=8192)
def _names_told(kind: str, header: str, part: PartText) -> str:
    """Return what is said of a text that holds nothing but names and unknown words."""
    names = [name for name in (*part.codes, *part.unknown) if not tolerances_in(name, inch=True)]
    return _taken(names, kind, header) if names else ""


def _taken(names: list[str], kind: str, header: str) -> str:
    what = "a remark" if kind == "remark" else "a name"
    where = f" in {header}" if header else ""
    return f'"{", ".join(names)}"{where} is taken as {what}, nothing is priced for it'


def _small_numbers(given: GivenSizes, row: RowText, part: PartText, used: set[int]) -> list[str]:
    """Return the bare whole numbers that are taken for names."""
    if row.kind != "description":
        return []
    return [
        f"{one.measure.low:g}"
        for index, one in enumerate(part.sizes)
        if index not in used
        and one.clear
        and _a_name(given.record, part, index)
        and not given.hold(one.measure)
    ]


def _unsized(record: Record, row: RowText, part: PartText) -> bool:
    """Return whether a row's sizes stand in a text whose numbers do not tell what they are."""
    values = record.values
    thick = any(name in values for name in ("thickness", "gauge"))
    across = any(name in values for name in ("length", "width", "height"))
    tied = row.kind == "size" or any(one.joined for one in part.sizes)
    return row.kind != "remark" and tied and not (thick and across)


def _known(given: GivenSizes, row: RowText, part: PartText, index: int) -> bool:
    """Return whether a number says nothing new: it is a size of the row, or a name's number."""
    one = part.sizes[index]
    if not one.clear:
        return False
    if one.measure.unit is Unit.DEGREE:
        turn = given.angle or _FULL_CIRCLE  # 360 degrees say nothing new of a closed part
        return abs(turn - one.measure.low) < _SAME_DEG
    if one.measure.mark is Mark.GIRTH:
        across = replace(one.measure, low=one.measure.low / math.pi, high=one.measure.high / math.pi)
        return given.hold(across)
    if one.measure.fraction and _OF_A_CIRCLE.match(part.plain, one.measure.end):
        angle = given.angle
        return angle is not None and abs(angle - 360 * one.measure.low) < _SAME_DEG
    after = part.sizes[index + 1] if index + 1 < len(part.sizes) else None
    if after and after.joined and after.clear and after.measure.unit is Unit.DEGREE and given.angle:
        whole = abs(one.measure.low * after.measure.low - 360) < 1  # 2 x 180 degrees: two halves
        return whole or f"{one.measure.low:g}" == given.record.values.get("quantity")
    named = row.kind == "description" and _a_name(given.record, part, index)
    return named or given.hold(one.measure) or given.follows(one.measure)


_SAME_DEG, _FULL_CIRCLE = 0.01, 360.0
_OF_A_CIRCLE = re.compile(
    r"[ -](?:of )?(?:an? |the )?(?:full )?(?:circles?|rings?|rounds?|turns?|shells?|cylinders?|pipes?|tubes?"
    r"|drums?)\b",
    re.I,
)
"""Behind a fraction: 1/4 circle, 1/2 of a ring."""
_CHANGES_NOTHING = (Choice("nothing that changes the part", (("number_ok", "yes"),)),)


def _a_name(record: Record, part: PartText, index: int) -> bool:
    """Return whether a number is part of a name: a small whole one, or that of the line itself."""
    size = part.sizes[index].measure
    bare = size.unit is None and size.mark is None and not size.fraction and not _joined(part, index)
    own = f"{size.low:g}" == record.values.get("number")
    return bare and (size.low <= _NAMES_ONLY or own) and float(size.low).is_integer()


def _joined(part: PartText, index: int) -> bool:
    return part.sizes[index].joined or (index + 1 < len(part.sizes) and part.sizes[index + 1].joined)


def _note_here(words: str, notes: list[str]) -> bool:
    """Return whether a phrase points to notes by labels that stand on this sheet: see note 4, note a."""
    labels = pointed_at(words)
    at = [rf"(?:^|[;.:]\s)\W*(?:note\s*)?{label}\s*(?:[.):]|\s[–-]\s)" for label in labels]
    return bool(labels) and all(any(re.search(one, note, re.I) for note in notes) for one in at)


def _said(record: Record, row: RowText, said: Said, frame: TableContext) -> None:
    values = record.values
    if said.does == "out":
        values.setdefault("left_out", f'the sheet says "{row.text}"')
    elif said.does == "free":
        _free(record, row, said)
    elif settled := _settled(values, row, said, frame):
        if settled not in record.assumptions:
            record.assumptions.append(settled)
    elif said.does == "ask":
        name = f"{said.name}_ok"
        keep = Choice("as the other cells say", ((name, "yes"),))
        out = Choice("leave this line out", ((name, "yes"), ("left_out", "left out by the customer")))
        _ask(record, name, row, said, (keep, out))
    elif said.does == "soft":
        _soft(record, row, said)
    elif said.does == "work" or said.name in _READ_AS:
        record.work.append((said.name, said.words, said.text))
        if said.name == "weld":  # what is said of a weld runs on to the end, over the tests asked for with it
            for test in _TESTS.findall(said.words):
                record.work.append(("test", test, "not in the price: this extra work or test"))
    elif said.does == "say" and said.name == "extra" and (_wanted_from_us(row.text) or _comes_with(row)):
        asked = f'The sheet says "{row.text}": is this extra work or test wanted from us, and how is it made?'
        record.doubt(Doubt("remark_ok", row.place, row.text, asked, _NOT_FROM_US))
    else:
        _pass_on(record, said)


def _settled(values: dict[str, str], row: RowText, said: Said, frame: TableContext) -> str:
    """Return what a phrase that would be asked about says where the sheet answers it; else nothing."""
    if said.name == "query" and _own_answer(row):
        return f'"{row.header}: {row.text}" is taken as done by you, nothing is added for it'
    if said.does != "ask":
        return ""
    if said.name == "reference" and _note_here(said.words, frame.said.notes):
        return f'"{said.words}": the note stands on the sheet and was read'
    unnamed = " ".join(word for word in said.words.split() if word.strip(".,;()") not in frame.marks)
    if said.name == "slip_fit" and _inside_is_given(values) and not _FIGURE.search(unnamed):
        return f'"{said.words}": made to the inside size that the row gives'
    return ""


_FIGURE = re.compile(r"\d|\b(?:clearance|gap|tight|loose|snug|fit)\b", re.I)


def _inside_is_given(values: dict[str, str]) -> bool:
    """Return whether a row gives its inside size: then what it goes over changes nothing."""
    return values.get("basis") == Basis.INSIDE and bool(values.get("diameter") or values.get("radius"))


def _pass_on(record: Record, said: Said) -> None:
    """Say on the line how a phrase was taken, once."""
    note = f'"{said.words}": {said.text}'
    if note not in record.assumptions:
        record.assumptions.append(note)


_NOT_FROM_US = (Choice("no, as the other cells say", (("remark_ok", "yes"),)),)
"""The answer to whether extra work is wanted; what it costs is for the shop to say."""


def _free(record: Record, row: RowText, said: Said) -> None:
    """Ask whether the plate is the customer's, unless its heading says that other work is."""
    if record.values.get("free_issue_ok"):
        return
    of_work = row.header and not (_OF_THE_PLATE.search(row.header) or _OF_THE_LINE.search(row.header))
    if of_work and _BY_WHOM.fullmatch(row.text):
        headed = f'"{row.header}: {row.text}" is taken as a remark, nothing is priced for it'
        record.assumptions.append(headed)
        return
    record.values.pop("free_issue", None)
    _ask(record, "free_issue_ok", row, said, WHOSE_PLATE)


def _own_answer(row: RowText) -> bool:
    """Return whether a row asks who does some work beside rolling, and answers that it is not the roller."""
    if _OF_THE_PLATE.search(f"{row.header} {row.text}"):
        return False
    if _DENIED.fullmatch(row.text):
        return True
    if not row.header:
        return False
    return _ANSWERED.fullmatch(row.text) is not None


_ANSWERED = re.compile(
    r"\W*(?:done |made |welded )?by (?:you|roller|vendor|supplier|shop)\W*\?+\W*(?:no|not)\b\W*"
    r"(?:(?:it is |it's |is |done )?by (?:us|ourselves|others|the customer|customer|client|site)"
    r"|we (?:do|will|weld|make|fit|handle)(?: (?:do|weld|make|fit|it|that|them|this))*"
    r"|(?:in )?our (?:own )?(?:shop|scope|work|welders?))?\W*"
    r"|\W*(?:done |made |welded )?by (?:us|others|customer|client|site)\W*\?+\W*(?:yes|correct|ok|right)\W*",
    re.I,
)
_DENIED = re.compile(
    r"[^?\d]{3,50}\?+\W*(?:no|none|not (?:needed|required|wanted|necessary)|nein|non|nee)\b[^?\d]*", re.I
)
"""A question that the customer answers with no: long seam ground? NO, leave as rolled."""
_BY_WHOM = re.compile(r"\W*(?:by|from) (?:the )?(?:customer|client|us|others|buyer|owner|purchaser)\W*", re.I)
_OF_THE_PLATE = re.compile(r"\b(plate|material|matl|steel|stock|suppl\w*|issue|blank|metal|sheet)", re.I)
"""Headings under which "by customer" is about the plate; under Seam or Painting it is about that work."""
_OF_THE_LINE = re.compile(
    r"\b(remarks?|rmks?|notes?|comments?|info\w*|misc\w*|others?|observ\w*|instruct\w*|extras?|text|status|scope)",
    re.I,
)
_READ_AS = {
    "weld": ("weld", "seam"), "ends": ("ends",), "gap": ("weld_gap",), "cert": ("certificate",),
    "bevel": ("edge_prep",), "tolerance": ("tolerances",), "extras": ("extras",),
}  # fmt: skip


_TESTS = re.compile(
    r"\b(?:100\s*%\s*)?(?:rt|ut|mt|pt|mpi|ndt|nde|pwht|x-?ray\w*|radiograph\w*|ultrasonic\w*"
    r"|stress[- ]reliev\w*|dye pen\w*|hydro[- ]?test\w*)\b(?:\s*\d+\s*%)?",
    re.I,
)


_QUIET = frozenset(("ends", "gap", "cert"))
"""Phrases whose value the line shows anyway."""
_MORE = re.compile(r"\b(3\.2|2\.2|special|one|only|both|but|max\w*|min\w*|\d+\s*(mm|in|\"))\b", re.I)


def _soft(record: Record, row: RowText, said: Said) -> None:
    """Ask where the row leaves something open that the drawing would tell, else say it."""
    open_ = any(doubt.blocking for doubt in record.doubts.values()) or not {"thickness", "gauge"} & set(
        record.values
    )
    sized = any(name in record.values for name in ("diameter", "radius", "large", "chord", "girth"))
    if open_ or not sized:
        _ask(
            record, "reference_ok", row, said, (Choice("as the other cells say", (("reference_ok", "yes"),)),)
        )
    else:
        record.assumptions.append(f'"{said.words}": {said.text}')


def say_work(record: Record) -> None:
    """Say of each phrase about work beside rolling how it was read, or that it is not in the price."""
    for name, words, text in dict.fromkeys(record.work):
        fields = [field for field in _READ_AS.get(name, ()) if record.values.get(field)]
        if fields and name in _QUIET and not _MORE.search(words):
            continue
        if fields:
            read = _in_words(fields[0], record.values[fields[0]])
            if name == "extras":  # one field for several phrases: each says its own work
                read = ", ".join(extra.value for extra in extras_in(words)) or read
            record.assumptions.append(f'"{words}" ({name}) is read as: {read}')
        else:
            record.assumptions.append(f'"{words}": {text}')


def _in_words(field: str, value: str) -> str:
    """Return a kept value as a person says it."""
    if field == "edge_prep":
        return edge_said(value)
    if field == "weld":
        return weld_said(value)
    if field == "tolerances":
        on = dict.fromkeys(one.on.value for one in tolerances_of(value))
        return f"a tolerance on {' and '.join(on)}"
    return value.replace(";", ", ")


def _ask(record: Record, name: str, row: RowText, said: Said, choices: tuple[Choice, ...]) -> None:
    whole = row.text if said.words == row.text else f"{row.text}"
    asked = f'The sheet says "{whole}": {said.text}?'
    record.doubt(Doubt(name, row.place, row.text, asked, choices))
