"""What a sheet says beside its table that the letters of its headings stand for: A = inside diameter."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace

from quoting.core import Basis
from quoting.intake.layout import Meaning, Recognise, sides_of, unit_word
from quoting.intake.words import folded
from quoting.tables import Sheet, is_empty, text_of

_FEW_CELLS = 3
"""A row of fewer cells stands beside the table: a title or a note."""
_LONGEST_HEAD = 24
_TOLD = re.compile(
    r"(?<![\w./&-])(?P<letter>[^\W\d_]{1,3}\d?)\b\.?\s*"
    r"(?:[=:]\s*|(?:is|are|means|stands for|stays|runs)\s+)(?:the |an? )?"
    r"(?P<means>[^\W\d][^,;.=:()]{1,40}(?:\([^()]*\)[^,;.=:()]{0,30})?)"
)
_OF = re.compile(
    r"\s+(?:of|da|do|de|der|des|du|del|van)\s+(?:the |each |a |la |il |el )?(?:strakes?|shells?|cylinders?"
    r"|cans?|courses?|parts?|pieces?|rings?|plates?|pipes?|tubes?|cones?|drums?)$"
)
"""What a size is of: the part itself. Any other word behind a size may change it: length of slant."""
_FORMED = re.compile(
    r"\b(?:length|dim\w*|size|way)\b.*\b(?:rolled|curved|bent|formed)\b|\b(?:rolled|curved|bent|developed)\b"
)
_STRAIGHT = re.compile(r"\bstraight\b|\balong the axis\b|\bnot (?:rolled|curved|bent)\b")
_LETTER_BEHIND = re.compile(
    r"(?:dim(?:ension|s)?|size|flat(?: size)?|plate(?: size)?|blank(?: size)?|ma(?:ss|ß)|cote|cota|quota"
    r"|maat|mått?)"
    r"\W+(?P<letter>[^\W\d_]{1,2}\d?)",
    re.I,
)
"""A heading that only its letter tells from the next: Dim A, Flat size W."""
_UNIT_BEHIND = re.compile(r"\s*[(\[]?\s*\b(?:mm|cm|in|ft|m|\")\s*[)\]]?$", re.I)
_WORD = re.compile(r"[^\W\d_]+\d?")
_ROUND = frozenset(("diameter", "radius", "large", "small", "circumference"))
_SIZES = frozenset((
    "thickness", "gauge", "diameter", "radius", "large", "small", "length", "width", "height", "girth",
    "circumference", "angle", "chord", "rise", "slant", "arc_length",
))  # fmt: skip
"""What a letter may be told to be; no count, which may be one of holes, halves or sets."""


@dataclass(frozen=True, slots=True)
class Legend:
    """What letters stand for: the field of a column, or only the side of the plate its sizes are on."""

    fields: dict[str, Meaning]
    sides: dict[str, Basis]


def legend_of(sheet: Sheet, recognise: Recognise) -> Legend:
    """Return what the notes of a sheet say that letters stand for, by the letter as it is written.

    A letter that two notes explain differently, or that no heading has, is left out.
    """
    beside = _beside(sheet)
    told = [match for text in beside for match in _TOLD.finditer(text)]
    if not told and not any(map(_NUMBER_MEANS.search, beside)):
        return Legend({}, {})
    heads = {text_of(cell).strip() for row in sheet.rows for cell in row if not is_empty(cell)}
    heads = {head for head in heads if len(head) <= _LONGEST_HEAD}
    letters = {letter for head in heads for letter in _letters(head)}
    words = {word for head in heads for word in _WORD.findall(head)}
    fields: dict[str, set[Meaning]] = {}
    sides: dict[str, set[Basis]] = {}
    for head, means in _numbered_heads(heads, beside):
        if (meaning := _meaning(means, recognise)).field in _SIZES:
            fields.setdefault(head, set()).add(meaning)
    for match in told:
        letter, means = match["letter"], match["means"]
        meaning = _meaning(means, recognise)
        if letter in letters and meaning.field in _SIZES:
            fields.setdefault(letter, set()).add(meaning)
        elif letter in words and len(means.split()) == 1:
            sides.setdefault(letter, set()).update(sides_of(means))
    return Legend(
        {letter: found.pop() for letter, found in fields.items() if len(found) == 1},
        {letter: found.pop() for letter, found in sides.items() if len(found) == 1},
    )


_NUMBERED = re.compile(r"[^\W\d_]{2,10}[. ]{0,2}\d")
_NUMBER_MEANS = re.compile(r"[^\W\d_]{2,10}[. ]{0,2}\d\s*(?:[=:]|is\b|are\b)")
_MEANS = r"\s*(?:[=:]|is\b|are\b)\s*(?:the |an? )?([^\W\d][^,;.=:()]{1,40}(?:\([^()]*\)[^,;.=:()]{0,30})?)"


def _numbered_heads(heads: set[str], notes: list[str]) -> list[tuple[str, str]]:
    """Return the headings that only a number tells apart, and what notes say they are: Dim 1 = dia."""
    named = sorted(head for head in heads if _NUMBERED.fullmatch(head))
    return [
        (head, match[1])
        for head in named
        for note in notes
        for match in re.finditer(rf"(?<!\w){re.escape(head)}{_MEANS}", note)
    ]


def recognising(sheet: Sheet, recognise: Recognise) -> Recognise:
    """Return how the headings of a sheet are understood: by its own legend first, else as `recognise` does.

    >>> from quoting.intake.layout import heading_meaning
    >>> sheet = Sheet("a.csv", "csv", [["Dim A", "B", "Qty"], ["A = inside dia, B: plate thickness"]])
    >>> [recognising(sheet, heading_meaning)(head).field for head in ("Dim A", "B (mm)", "Qty")]
    ['diameter', 'thickness', 'quantity']
    """
    legend = legend_of(sheet, recognise)
    if not legend.fields and not legend.sides:
        return recognise

    def by_legend(header: str) -> Meaning:
        known = recognise(header)
        for letter in (*_letters(header), _UNIT_BEHIND.sub("", header.strip())):
            if told := legend.fields.get(letter):
                return replace(told, unit=_unit_of(header) or told.unit)
        named = {legend.sides[word] for word in _WORD.findall(header) if word in legend.sides}
        if known.field in _ROUND and known.basis is None and len(named) == 1:
            return replace(known, basis=named.pop(), sure=True)
        return known

    return by_legend


def _unit_of(header: str) -> str:
    match = _UNIT_BEHIND.search(header)
    return unit_word(match.group().strip(" ()[]")) if match else ""


def _beside(sheet: Sheet) -> list[str]:
    rows = ([cell for cell in row if not is_empty(cell)] for row in sheet.rows)
    return [text_of(cell) for cells in rows if len(cells) < _FEW_CELLS for cell in cells]


def _letters(head: str) -> tuple[str, ...]:
    """Return the letter that a heading is, or ends with where nothing else tells it from the next."""
    bare = _UNIT_BEHIND.sub("", head.strip()).strip(" .")
    match = _LETTER_BEHIND.fullmatch(bare)
    return (match["letter"],) if match else (bare,) if len(bare) <= 4 and " " not in bare else ()


def _meaning(means: str, recognise: Recognise) -> Meaning:
    """Return what the words of a legend name: inside diameter, length of strake, the flat length rolled."""
    plain = folded(means).strip()
    if _STRAIGHT.search(plain):
        return Meaning("width")
    if _FORMED.search(plain):
        return Meaning("girth")
    known = recognise(means.strip())
    if not known.field or not known.sure:
        known = recognise(_OF.sub("", means.strip()))
    return known if known.sure else Meaning()
