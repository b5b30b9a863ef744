"""Takes a text about one part to pieces: its count, sizes, phrases, and the words nobody has used."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import pairwise

from quoting.core import SIZE_WORDS, Measure, NumberStyle, Sighting, sizes_in_prose
from quoting.intake.texts.dual_sizes import in_one_form
from quoting.intake.texts.part_counts import (
    counted_things,
    curved_plates,
    dashes_apart,
    last_count,
    last_times,
    named_part,
    named_times,
    piece_count,
    plain_numbering,
    told_before,
    told_behind,
    told_within,
)
from quoting.intake.texts.pipe_words import schedule_in
from quoting.intake.texts.plain_sizes import joined_thousands, mended, plain_sizes
from quoting.intake.words import Said, harmless, said_in_text
from quoting.shop import FAMILY_WORDS, Family, Materials

_WORD_COUNTS = {
    "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9,
    "ten": 10, "twelve": 12, "a dozen": 12,
}  # fmt: skip
_SIGN = (
    r"(?:off|no\.?|nos\.?|pcs?\.?|pieces?|ea\.?|each|pce|qty|units?|stck\.?|stk\.?|(?-i:[Ss]t\.)"
    r"|(?<=\d )st(?= [a-z])|szt\.?|uds?\.?|pzas?\.?|un\.|kpl|adet|buc\.?)"
)
_LABEL = r"(?:pos|poz|item|[ií]tem|line|ligne|rep|partida|pozycja|pozice|no|nr|mark|mk|part)"
_COUNT = re.compile(
    rf"^[\s•*·>–—-]*(?:(?:\d{{1,2}}|[a-z])[.)]\s+|(?-i:[A-Z]{{1,5}}-[A-Z0-9]{{1,4}})\s*:\s+(?=\d)|{_LABEL}\.?\s*\d{{1,3}}\s*(?:[.:)]|[-–]\s)\s*"
    r"|(?:(?:please|pls|to|we|you|i)\s+)*(?:roll|need|make|want|require)\s+(?=\d{1,3}\s+[A-Za-z]))?(?:"
    rf"(?P<sign>\d{{1,4}})\s?[- ]?\s?{_SIGN}(?![\w/])[\s:,x-]*"
    r"|(?:qty|quantity)\.?\s*[:=]?\s*(?P<qty>\d{1,4})\s*(?:off|pcs?\.?|pieces?|ea\.?)?\s*[-–:,)]*\s+(?=\S)"
    r"|\((?P<bracket>\d{1,4})\)\s*"
    r"|\d{1,3}\s*[,;:.)]\s*\((?P<inner>\d{1,4})\)\s*"
    r"|(?P<dash>\d{1,3})\s+[-–]\s+(?=[\d(A-Za-z])"
    r"|(?P<times>\d{1,3})\s?x\s+(?=[A-Za-zØø(])"
    r"|(?P<at>\d{1,3})\s?@\s*(?=[\dØø.])"
    r"|(?P<noun>\d{1,3})\s+(?=(?:culvert\s)?(?:half|halves|quarter|third|shells?|segments?|rings?|cones?|cylinders?|cyls?|cans?"
    r"|tubes?|pipes?|bands?|sleeves?|rolled|pads?|liners?|zyl|zylinder|konus|konen|kegel|m[aä]ntel|schalen?|schüsse?|viroles?"
    r"|anelli|coni|virolas?|anillos?|conos?|kręgi|stożki|kegels|mantels)\b"
    r"|(?:nozzles|necks|manways|stubs|collars|casings|courses|strakes|wrappers|hoops|troughs|skirts|spools|drums|ducts"
    r"|hoppers|reducers|barrels|jackets|saddles)\b(?![^;]*\b(?:per|each)\b)[^;]*\d[^;]*\d[^;]*\d)"
    r"|(?P<some>\d{1,3})\s+(?=(?!(?:gauge|gage|inch|inches|feet|plate|sheet|steel|carbon|stainless|wall|thick|long"
    r"|wide|high|degrees?|mm|grade|item|line|mark|pos|mean|inner|outer|inside|outside|internal|external|clear"
    r"|nominal|finished|rolled|nom|approx|centre|center|neutral|girth|chord)\b)[^\W\d_]{4,}\s+(?:Ø|ø|dia\b|[io]d\b|inside\b|outside\b))"
    r"|(?<=[.):] )(?P<listed>\d{1,4})\s+(?=[A-Za-zÀ-ÿ]{4,})"
    r"(?!(?:inch|feet|foot|gauge|wide|long|high|thick|deg))"
    r"|[A-Z]{1,3}-?\d{0,3}[a-z]?\s*[,;]\s*(?P<comma>\d{1,4})\s*[,;]\s*(?=\S)"
    r"|\d{1,3}\s*[,;]\s*(?P<counted>\d{1,4})\s*(?:un|uds?|pcs|pz|szt|stk|st|ks|db|adet|ea|off)\b\.?\s*[,;]\s*"
    r"|(?P<word>a dozen|one|two|three|four|five|six|seven|eight|nine|ten|twelve)\s*(?:[,;]\s*|\s)"
    r"(?:off\b|piece\b|pieces\b|pcs\b)?\s*(?=\D|\d)"
    r")",
    re.I,
)  # fmt: skip
_SOME = re.compile(r"\d{1,2}\s+([^\W\d_]{3,})")
_MEASURED = frozenset(
    (
        "gauge",
        "gage",
        "inch",
        "inches",
        "feet",
        "foot",
        "plate",
        "sheet",
        "steel",
        "carbon",
        "stainless",
        "wall",
        "thick",
        "deg",
        "degree",
        "degrees",
    )
)
_COUNT_BEFORE_SIZES = re.compile(
    r"^(?P<label>[\s•*·]*(?:\d{1,2}[.)]\s+)?)(?:qty|quantity)\.?\W*(\d{1,4})\s+[-–]\s+(?=(?:\d+-)?\d+/\d+|\.\d|\d[\d.]*\s?(?:\"|mm|in\b|x\s))",
    re.I,
)
"""qty 2 - 3/8 x 24 ID: a count, and no range."""
_IN_A_GRADE = re.compile(
    r"(?:(?<=[ =:]\d)|(?<=[ =:]\d\d)) in "
    r"(?=(?:(?:AISI|SS|grade|gr\.?|type|plate|steel) ?)?(?:3\d\d|1\.\d|[SPQLAX]-?\d\d|AH|DH|EH|AR|SA))"
)
_METRIC = re.compile(r"(?<![\w.,/])(?:[3-9]\d\d|\d{4,5})(?![\w.,/\"])|\dmm\b|\bmm\b", re.I)
"""thick 8 in 304L: a word between a size and its grade, where the other sizes can only be millimetres."""
_ASKED_FOR = re.compile(
    r"\W*(?:(?:please|pls|kindly|could|can|would|will|we|i|you|to|also|like|now|hi|hello|and|plus|then|next)\b,?\s+)*"
    r"(?:(?:need|want|require|make|roll|quote|price|supply|fabricate|offer|do|send|add)\s+(?:(?:us|for|me|on|another)\s+)*"
    r"|(?<=also\s)|(?<=and\s)|(?<=plus\s)|(?<=then\s))"
    r"(?=[(\[]?\d{1,3}[)\]]?\s?(?:[x×]\s|[^\W\d_]{3}|[(\[]))",
    re.I,
)
"""We need 4 shells: how a line asks for what follows."""
_FIGURES = re.compile(r"(?<![\w.,/])(?:\d+(?:[.,/]\d+)*|\.\d+)")
_OF_A_PART = 4
"""Numbers of a line that holds a part: its pieces and three sizes."""
_ITS_NUMBER = re.compile(rf"^\W*{_LABEL}\.?\s?(?:no\.?\s?)?\d{{1,4}}[a-z]?\s?[.:)]\s+(?=[^\W\d_])", re.I)
"""Item 1. before a word: the number of the line."""
_METRES = re.compile(r"(?<=\d)\s?mtrs?\b\.?", re.I)
"""1.2 mtr is a size; without a number before it a test report of the mill."""
_OF_ALL = re.compile(
    r"\b(?P<name>(?:(?:inside |outside )?(?:dia(?:m(?:eter)?)?|radius)|[io]\.?d\.?|bore|thickness|thk|wall))"
    r"s?\s+"
    r"(?:(?:is|are|all|always|for all|in all cases|to be|shall be)\s+)+(?=\d)",
    re.I,
)
"""Inside dia are all 1800 mm: a size and the words between its name and its number."""
_ALONG_THE_AXIS = re.compile(
    r"\b(height|length|ht|lg)\.?\s+(?:(?:measured|given|taken)\s+)?(?:along|on|in|over|at|by)\s+(?:the\s+)?"
    r"(?:axis|axial|centre ?line|center ?line)\b\s*[:=]?\s*(?=\d)",
    re.I,
)
"""Length along the axis 1200: which length it is, between its name and its number."""
_OVERALL = re.compile(
    r"(?<=[\d\"'m]) ?(?:o/a(?:ll|/l)?|oal|o\.a\.(?:l\.)?|overall)(?![\w/])"
    r"(?! ?(?:dia|width|wide|high|height|length|lg|long|ht|size|[øØ\d]))",
    re.I,
)
"""2440 o/a, 2000 OAL: the length from end to end."""
_NTH = re.compile(r"\b\d{1,2}(?:st|nd|rd|th) (?=(?:course|strake|tier|ring|can|section)\b)", re.I)
"""2nd course: which one it is, and no size."""
_ONE_COURSE = re.compile(
    r"^\W*(?:top|bottom|lower|upper|middle) "
    r"(?=(?:course|strake|ring)\b.*(?:\b(?:[IO]\.?/?D|dia\w*|rad\w*)\b|ø))"
    r"(?!.*\b(?:rest|others?|each|only|courses|strakes|rings|and|then|remainder|balance)\b)",
    re.I,
)
"""Bottom course, 20'-0" ID: the name of a part whose sizes follow."""
_COUNTS = re.compile(
    r"\b(?:qty|quantity)\s*[:=]?\s*(\d{1,4})\b|(?<![\w/.,-])(\d{1,4})\s*"
    r"(?:pcs?|pieces?|off|pce|szt|stk|pzas?|required|reqd|req'd|needed|wanted)\b(?! by| on| date| week)",
    re.I,
)
_SIZE = r"""\d[\d./-]*(?:\s\d+/\d+)?(?:\s?(?:mm|in|ft|'|"))?"""
_WAY = re.compile(
    rf"axis (?:is )?along (?:the )?(?P<axis>{_SIZE})|along (?:the )?(?P<round>{_SIZE})"
    rf"|(?P<way>{_SIZE})\s?way\b",
    re.I,
)
_NAME_AND_NUMBER = re.compile(r"([A-Za-z]{4,}(?: [A-Za-z]{4,}){0,3}) (\d{1,6})")
_NAMED = re.compile(r"[A-Za-z0-9][\w.+/-]*")
_CODE = re.compile(r"\b([A-Za-z]{1,6})[-./_]?\d[\w./-]*")
_ONLY_A_MARK = re.compile(
    r"[A-Z]{1,3}\d{1,2}(?:-\d{1,3})?[A-Z]?"
    r"|(?P<mark>[A-Z]{1,3})\d{1,3}[A-Z]?(?:\s?(?:to|thru|through|and|à|a|bis|y|e|et|und|i|&|,|/|-|–|…|\.\.\.?)\s?(?P=mark)\d{1,3}[A-Z]?)+"
)
"""R2, S1-01, T1 to T4: the names of parts and no sizes where they are all that a text says."""
_STOCKED = re.compile(
    r"(?<![\w./,+-])(\d{6,})(?![\w/\"]|[.,]\d)|(?<![\w./-])(\d{1,4}[A-Za-z]{1,3}-\d{3,}[A-Za-z]?)(?![\w/\"])"
)
"""A stock number: 5X-2210."""
_NUMBERED = re.compile(r"\b([A-Za-z]{3,})\s+#\s?(\d{1,4})\b(?!\s*(?:ga|gauge|gage|hr|galv|ss)\b)", re.I)
_MARKED = frozenset((
    "id", "od", "md", "ir", "or", "clr", "mr", "r", "ri", "ra", "d", "dia", "t", "thk", "th", "s", "l",
    "lg", "w", "h", "ht", "dn", "nps", "nb", "sch", "x", "by", "pl", "plate", "ga", "ø", "deg", "in",
    "no", "nr", "wt", "rad", "width", "height", "length", "diam", "wide", "high", "thick", "int", "ext",
    "len",
))  # fmt: skip
_FRACTION = re.compile(r"\d+(?:-\d+)?/\d+")
_FAMILIES = frozenset(("stainless", "inox", "aluminium", "aluminum", "ss", "sst"))
_TO_A_RING = re.compile(
    r"\b([2-9]|1\d|2\d)\s+(?:(?:(?:off|pcs|pieces|segments|plates|kpl|szt|stk?|ks|db|adet|buc)\.?\s+)?(?:per|/)|to|make|in|form)\s+"
    r"(?:the\s+|a\s+|one\s+)?(?:full\s+)?(?:ring|circle|round)\b",
    re.I,
)
_SCHEDULE = re.compile(r"\b(?:sch|pipe)", re.I)
_DATE = re.compile(
    r"(?:\b(?:by|due|deliver(?:y|ed)?|before|needed|need by|required)\b[\s:]*)?"
    r"(?<![\d/.-])(?P<day>\d{4}-\d{1,2}-\d{1,2}|\d{1,2}(?P<part>[./-])\d{1,2}(?P=part)(?:20\d\d|\d\d))(?![\d/.-])",
    re.I,
)
_WORD = re.compile(r"[^\W\d_][\w'’]*")
_QUIET = re.compile(r"^(?:mm|cm|m|in|ft|x|st|nd|rd|th)$")


QUIET, WORDS, HEAVY = 0, 1, 2


@dataclass(frozen=True, slots=True, eq=False)
class PartText:
    """What a text about one part says.

    `count` is a number of pieces at its start, `sizes` every number in it, `materials` the keys of the shop's
    grades with their words, `said` the phrases that change a line, `codes` names with figures in them,
    `unknown` the words that nothing explains; `grades` are all grades it names, those in phrases too; `way`
    tells which flat length is rolled round, or lies along the axis; `schedule` is that of a pipe.
    `numbered` tells that it is harmless words and a number: shell 12. Each text has one, which is kept: it is
    compared as the thing it is, and not by its parts.
    """

    text: str
    plain: str
    count: int | None
    sizes: tuple[Sighting, ...]
    materials: tuple[tuple[str, str], ...]
    said: tuple[Said, ...]
    codes: tuple[str, ...]
    unknown: tuple[str, ...]
    families: frozenset[Family] = frozenset()
    date: str = ""
    counts: tuple[int, ...] = ()
    grades: tuple[tuple[str, str], ...] = ()
    way: tuple[str, str] = ("", "")
    schedule: str = ""
    numbered: bool = False

    weight: int = QUIET


def _weighed(part: PartText) -> PartText:
    """Return a text that knows whether it holds nothing, only words to say, or values too."""
    values = part.sizes or part.materials or part.families or part.count is not None or part.date
    if values or part.way[1] or part.schedule:
        return replace(part, weight=HEAVY)
    return replace(part, weight=WORDS) if part.said or part.unknown or part.codes else part


@lru_cache(maxsize=32_768)
def without_number(text: str) -> str:
    """Return the words of a text that is harmless words and a number (shell 12); any other text as it is.

    Long lists number their parts: their words are then looked at once, and not line by line.
    """
    match = _NAME_AND_NUMBER.fullmatch(text)
    return match[1] if match and _is_name(match[1]) else text


@lru_cache(maxsize=4096)
def _is_name(words: str) -> bool:
    known = harmless()
    plain = words.lower().split()
    return all(word in known and word not in SIZE_WORDS for word in plain) and not _ALWAYS.search(words)


@lru_cache(maxsize=32_768)
def part_text(text: str, style: NumberStyle, materials: Materials) -> PartText:
    """Return a text taken to pieces."""
    simple = without_number(text)
    after = text[len(simple) + 1 :]
    if len(simple) < len(text) and not _SCHEDULE.search(simple) and not materials.find(after).keys:
        number = float(after)
        size = Measure(number, number, start=len(simple) + 1, end=len(text))
        return PartText(text, text, None, (Sighting(size),), (), (), (), (), numbered=True, weight=HEAVY)
    if _ONLY_A_MARK.fullmatch(text) and not materials.find(text).keys:
        return PartText(text, text, None, (), (), (), (text,), (), weight=WORDS)
    text = _written_plainly(text, style)
    schedule, text = schedule_in(text)
    grades = _named(text, materials)[1]
    way = _WAY.search(text)
    rolled = (way.lastgroup or "", way.group(way.lastgroup or 0)) if way else ("", "")
    if way:
        text = text[: way.start()] + " ; " + text[way.end() :]
    when = _DATE.search(text)
    rest = text[: when.start()] + " ; " + text[when.end() :] if when else text
    own, rest = piece_count(rest)
    said, rest = said_in_text(rest) if _has_unknown(rest) else ((), rest)
    name, rest = named_part(rest)
    rest, tail = _tail_apart(rest, materials)
    tail = _WEIGHS.sub(" ; ", tail)
    count, counts, item, rest = _counted(rest, own)
    rest, named = _named(rest + tail, materials)
    if count is None and not counts:
        count, rest = named_times(rest, _MARKED)
    if count is None and not counts:
        count, rest = last_times(rest)
    plain = _cone_pair(plain_sizes(_ends_marked(dashes_apart(rest))))
    codes = [one for one in (name, item) if one]
    plain = _PLACED.sub(lambda match: _placed(match, codes), plain)
    for pattern in (_VOLUME, _OF_A_STANDARD, _OTHER_GRADE) if _LETTERS_FIRST(plain) else (_VOLUME,):
        plain = pattern.sub(lambda match: _placed(match, codes), plain)
    plain = _NUMBERED.sub(lambda match: _numbered(match, codes), plain)
    plain = _STOCKED.sub(lambda match: _placed(match, codes), plain)
    plain = _CODE.sub(lambda match: _code(match, codes), plain)
    sizes = sizes_in_prose(plain, style)
    left = list(plain)
    for one in sizes:
        left[one.measure.start : one.measure.end] = " " * (one.measure.end - one.measure.start)
    unknown = tuple(
        dict.fromkeys(word for word in _WORD.findall("".join(left)) if not _explained(word, materials))
    )
    if unknown and (right := mended(text, unknown)) != text:
        return part_text(right, style, materials)
    families = frozenset(
        FAMILY_WORDS[word.upper()] for word in _WORD.findall(text) if word.lower() in _FAMILIES
    )
    date = when.group("day") if when else ""
    return _weighed(
        PartText(
            text,
            plain,
            count,
            sizes,
            named,
            said,
            tuple(codes),
            unknown,
            families,
            date,
            counts,
            grades,
            rolled,
            schedule,
        )
    )


def _written_plainly(text: str, style: NumberStyle) -> str:
    """Return a text without how it asks, and with what stands for lengths and arcs written as such."""
    text = _ITS_NUMBER.sub("", plain_numbering(text))
    if (asked := _ASKED_FOR.match(text)) and len(_FIGURES.findall(text, asked.end())) >= _OF_A_PART:
        text = text[asked.end() :]
    if " in " in text and _METRIC.search(text):
        text = _IN_A_GRADE.sub(", in ", text)
    text = _ALONG_THE_AXIS.sub(r"\1 ", _OF_ALL.sub(r"\g<name> ", in_one_form(text, style)))
    text = _METRES.sub(" m", _COUNT_BEFORE_SIZES.sub(r"\g<label>(\2) ", text))
    text = _OVERALL.sub(" long", _ONE_COURSE.sub("", _NTH.sub("", text)))
    text = _TO_A_RING.sub(lambda match: f"{360 / int(match[1]):g} deg", text)
    return joined_thousands(text) if style is NumberStyle.UNKNOWN and "," in text else text


def _counted(rest: str, own: int | None) -> tuple[int | None, tuple[int, ...], str, str]:
    """Return the pieces of a text, the counts that stand in its midst, the name of its line, and the rest.

    `own` is a count that was found before.
    """
    item, rest = _item_and_count(rest)
    if own is None:
        own, rest = curved_plates(rest)
    count, rest = _count(rest) if own is None else (own, rest)
    if count is None:
        count, rest = last_count(rest)
    if count is None:
        name, count, rest = told_before(rest)
        item = item or name
    if count is None:
        count, rest = told_behind(rest)
    counts = tuple(int(one or other) for one, other in _COUNTS.findall(rest))
    rest = _COUNTS.sub(" ; ", rest)
    count = counts[0] or None if count is None and len(counts) == 1 else count
    if count is None and not counts:
        count, rest = counted_things(rest)
    if count is None and not counts:
        count, rest = told_within(rest)
    return count, counts, item, rest


_MASS = (
    r"(?:(?:(?:unit|net|est|approx|ca|c|total)\.?\s)?(?:weights?|wt|mass|poids(?:\sunitaire|\stotal)?"
    r"|peso(?:\sunit\w*)?|gewicht|masa|waga|hmotnost|a[gğ][iı]rl[iı]k|vikt|vekt|v[æe]gt|paino|s[uú]ly|greutate"
    r"|te[zž]ina|вес|масса|重量)\b[\s.:=~(]*)?"
    r"(?:ca\.?\s?|approx\.?\s?|~\s?)?\d{1,3}(?:(?:[ .,]\d{3})+|\d*)(?:[.,]\d+)?\s?(?:kgs?|lbs?|tonnes?|tons?)"
    r"\b\.?(?:\s?(?:/|per\s|pro\s|par\s|por\s)?\s?(?:each|ea|pcs?|pce|pieces?|stk|st|szt|ks|c/u|cad|adet|unit"
    r"|un|total|in total|tot)\b\.?)?"
)
_LAST_MASS = re.compile(rf"(?:\s*[,;|/–-]\s*|\s+|(?<=\s))\(?{_MASS}[\s.)\]]*$", re.I)
"""What one weighs, at the end of a line: PESO 2.580 KG C/U."""
_WEIGHS = re.compile(_MASS, re.I)
_TAIL_SIGNS = re.compile(r"[\s,;|/()–-]*$")
_TAIL_WORD = re.compile(
    r"(?:[,;|/–-]\s*|\s)(?:in|en|aus|mat(?:eria)?l?|grade|w|z|ze|i|em|steel|acero|acier|acciaio|stahl)\.?[:=]?\s*$",
    re.I,
)
_MOST_TAILS = 3


def _tail_apart(text: str, materials: Materials) -> tuple[str, str]:
    """Return a text without the grade and the weight that it ends with, and those: its count is before them.

    A text that is nothing else stays whole.
    """
    body = text
    for _ in range(_MOST_TAILS):
        weighed = _WEIGHT.search(body, max(0, len(body) - _END_OF_MASS))
        found = _LAST_MASS.search(body) if weighed else None
        if found is not None:
            shorter = body[: found.start()]
        else:
            spans = grade_spans(body, materials)
            if not spans or _TAIL_SIGNS.match(body, spans[-1][1]) is None:
                break
            shorter = _TAIL_WORD.sub("", body[: spans[-1][0]])
        shorter = _TAIL_SIGNS.sub("", shorter)
        if len(_FIGURES.findall(shorter)) < 2:
            break
        body = shorter
    return body, text[len(body) :]


_WEIGHT = re.compile(r"(?:kgs?|lbs?|tons?|tonnes?)\b", re.I)
_END_OF_MASS = 18


_LINE_LABEL = re.compile(
    rf"^[\s•*·>–—-]*(?:\(?(?:\d{{1,3}}|[a-z])[.):/]\s+|\d{{1,2}}-\s+|{_LABEL}\.?\s*(?-i:[A-Z]{{0,3}})-?\d{{1,4}}[a-z]?\s*(?:[.:),]|\s[-–/])\s*)",
    re.I,
)
"""1) or Pos. 10: before a part: the number of its line."""


@lru_cache(maxsize=8192)
def without_count(text: str, style: NumberStyle, materials: Materials) -> tuple[str, int | None, str]:
    """Return the number of the line that a text about one part begins with, its pieces, and what is left.

    Nothing is taken off where the pieces that are found so are not those of the whole text.
    """
    known = part_text(text, style, materials).count
    text = plain_numbering(text)
    label = match.group() if (match := _LINE_LABEL.match(text)) else ""
    for lead in dict.fromkeys((label, "")):
        own, rest = piece_count(_COUNT_BEFORE_SIZES.sub(r"\g<label>(\2) ", text[len(lead) :]))
        rest, tail = _tail_apart(rest, materials)
        count, _, item, rest = _counted(rest, own)
        if count is not None and count == known:
            return item or lead, count, rest + _WEIGHS.sub(" ; ", tail)
    return label, None, text[len(label) :]


_BESIDE_GRADE = re.compile(
    r"(?:(?:^|[,;:]\s*|\s[-–]\s+|\b(?:pl|plate|plt|from|of|off|pcs|pc|in)\.?\s+)"
    r"(?:\d{1,2}(?:[ -]\d{1,2}/\d{1,2}|\.\d+)?|\d{1,2}/\d{1,2}|\.\d+)"
    r"|[\d\")a-z]\s*x\s*\d/\d{1,2})\s?(?:mm|\"|in\b\.?)?\s+$",
    re.I,
)
"""The size right before a grade, when nothing else goes with it: 3/8 A36 is 3/8 thick."""
_PLATE = re.compile(r"\s*(?:plates?|plt|pl)\b\.?", re.I)
_SIDED = (
    r"(?:(?:(?:inside|outside|mean)\s+)?(?:ID|OD|MD|dia|ø)s?(?:\s+(?:inside|outside|mean)\b)?"
    r"|(?:inside|outside|mean)(?=\s))"
)
_TO = r"to|auf|naar|na|su|til|på"
_AND = r"and|e|y|et|und|en|i|a|à|og|och|ja|și|si|ve|és|do|la|hasta|till"
"""Between the two diameters of what is called a cone."""
_PAIR_OF_ENDS = re.compile(
    rf"(?<!\w)({_SIDED})\s*(\d+(?:[.,]\d+)?)\s*(mm|in\b|\")?\s*"
    rf"(-+>|→|/|x|-|\bp(?:ara)?\b/?|\b(?:{_TO})\b|(?<=\s)(?:{_AND})\b|&)\s*"
    rf"({_SIDED})?\s*(\d+(?:[.,]\d+)?)(\s*(?:mm|in\b|\")?\s*(?:inside|outside|mean|ID|OD)\b)?",
    re.I,
)
_BARE_ENDS = re.compile(
    r"(?<![\w.,/-])(?<![x×\d] )(\d{1,2}[.,]\d{3}|\d{2,5}(?:[.,]\d+)?)\s*(?:mm|in\b|\")?\s*"
    r"(?:/|→|-+>|=>|[-–](?=\d{2,5} ?(?:ID|OD|inside|outside)\b)"
    r"|(?<=[\s\"])(?:(?:down |reducing |tapering )?to|naar|auf|na|til|till|su|à|ad|op)(?=\s))"
    r"\s*(\d{1,2}[.,]\d{3}|\d{2,5}(?:[.,]\d+)?)(?![\w/])(?!\s?(?:°|deg|kg|lbs?|days?|weeks?|pcs|off)\b)"
    r"|(?<![\w.,/-])(\d{2,5})\s*[x×]\s*(\d{2,5})(?=\s*\(|\s?(?:ID|OD|inside|outside)\b)",
    re.I,
)
"""The ends of what is called a cone without a mark: 4200/4050, 1000 x 600 (inside)."""
_DASHED_ENDS = re.compile(r"(?<=[IO/.]D|D\.) ?[-–] ?(?=\d+(?:[.,]\d+)? ?[IO][./]?D\b)", re.I)
"""1100ID - 300ID: from one end of a cone to the other."""
_MARK_BEFORE = re.compile(r"(?:ø|\b(?:[iom]d|dia\w*|inside|outside|mean|int|ext))\W*$", re.I)
_NUMBERED_ENDS = re.compile(r"\bD\s?([12])\s*[=:]?\s+(?=\d)|\bD([12])\s*[=:]\s*(?=\d)", re.I)
_LEAST_STEP = 1.2
"""Two diameters with "to" between them that are closer are a range of sizes, and no cone."""


def _cone_pair(text: str) -> str:
    """Return a text with the two diameters of a cone each marked: ID 1200 / 300 as ID 1200 ; ID 300."""
    conical = _CONICAL.search(text) is not None
    return _PAIR_OF_ENDS.sub(lambda match: _both_ends(match, conical=conical), text)


def _ends_marked(text: str) -> str:
    """Return a text of a cone whose two diameters bear no mark, or are numbered, with a mark at each.

    >>> _ends_marked("kon. 4200/4050 x 22"), _ends_marked("cone D1 900 D2 450, 3/8"), _ends_marked("900/450")
    ('kon. dia 4200 / dia 4050 x 22', 'cone  ; dia 900  ; dia 450, 3/8', '900/450')
    """
    if _CONICAL.search(text) is None:
        return text
    ends = {one or two for one, two in _NUMBERED_ENDS.findall(text)}
    text = _DASHED_ENDS.sub(" to ", text)
    text = _NUMBERED_ENDS.sub(" ; dia ", text) if ends == {"1", "2"} else text
    return _BARE_ENDS.sub(_bare_ends, text)


def _bare_ends(match: re.Match[str]) -> str:
    one, two = match[1] or match[3], match[2] or match[4]
    if _MARK_BEFORE.search(match.string[: match.start()]):
        return match.group()
    first, second = _of_one_writing(one, two)
    if first <= second and int(second) in (16, 32, 64):
        return match.group()  # 15/16
    if first <= second and not match.group().strip().endswith(")") and _LARGE_FIRST.search(match.group()):
        return match.group()  # 10 x 600 ID, 590-600 ID: a plate and an end, and a range
    return f"dia {one} / dia {two}"


_LARGE_FIRST = re.compile(r"\d\s*[x×–-]\s*\d", re.I)


def _of_one_writing(one: str, two: str) -> tuple[float, float]:
    """Return two numbers to compare: a sign before three digits parts thousands beside a number without one.

    >>> _of_one_writing("1.500", "300"), _of_one_writing("1.500", "1.200"), _of_one_writing("40,5", "12")
    ((1500.0, 300.0), (1.5, 1.2), (40.5, 12.0))
    """
    groups = [_GROUPED.fullmatch(text) is not None for text in (one, two)]
    mixed = any(groups) and not all(groups)
    first, second = (
        float(re.sub("[.,]", "", text) if grouped and mixed else text.replace(",", "."))
        for text, grouped in zip((one, two), groups, strict=True)
    )
    return first, second


_GROUPED = re.compile(r"\d{1,2}[.,]\d{3}")


def _both_ends(match: re.Match[str], *, conical: bool) -> str:
    """Return the two ends on one side of the plate: a side behind the second holds for the first too."""
    one, two = _of_one_writing(match[2], match[6])
    apart = max(one, two) >= _LEAST_STEP * min(one, two)
    if not conical and not (apart and match[4].lower() in _TO.split("|")):
        return match.group()
    behind = match[7] or ""
    side = _SEVERAL.sub(r"\1", match[1])
    return f"{side} {match[2]}{match[3] or ''}{behind} ; {side} {match[6]}{behind}"


_SEVERAL = re.compile(r"\b(ID|OD|MD|dia|ø)s\b", re.I)
_CONICAL = re.compile(
    r"\b(con(e|es|ical|i[cq]\w*)|cônes?|kon|konisch\w*|kegel\w*|sto[żz]e?k\w*|ku[žz]el\w*|frust\w*|reducers?|hopper|taper(s|ed)?)\b",
    re.I,
)


def is_conical(text: str) -> bool:
    """Return whether a text calls its part a cone, a reducer, a hopper or tapered."""
    return _CONICAL.search(text) is not None


@lru_cache(maxsize=32_768)
def _has_unknown(text: str) -> bool:
    """Return whether a text holds a word that may be part of a phrase."""
    known = harmless()
    signs = "+±%°(?"
    if text in ("3.1", "3.2", "2.2") or "10204" in text:
        return True
    return (
        any(sign in text for sign in signs)
        or any(word.lower() not in known for word in _WORD.findall(text))
        or _ALWAYS.search(text) is not None
    )


_ALWAYS = re.compile(
    r"\b(in|to|for|from|of|or|and|with|per|each|by|as|way|sets?|only|approx|half|quarter|ends?|sides?|leg|no|lot|pairs?)\b"
    r"|\b(?:one|two|three|four|multi)[- ]piece\b|\b[1-9]-(?:piece|part|pc)\b|,\s*[2-9] part\b"
    r"|\bmark(?=\s+\d+\s*/)|^\W*L\s?\d[\d./ -]*(?:mm|\")?\s?[x×]\s?\d[\d./ -]*(?:mm|\")?\s?[x×]\s?\d",
    re.I,
)


def _count(text: str) -> tuple[int | None, str]:
    match = _COUNT.match(text)
    if match is None:
        return None, text
    found = next(value for value in match.groupdict().values() if value)
    number = _WORD_COUNTS.get(found.lower()) or int(found)
    return (number or None), text[match.end() :]


def _item_and_count(text: str) -> tuple[str, str]:
    """Return the item number of `3 - 6 shells` and the rest; no item number where no count follows.

    A small number before a word that measures nothing is a count too, but not of anything known: the
    pieces are then asked for.
    """
    match = _COUNT.match(text)
    if match is None or match.lastgroup != "dash":
        return "", text
    rest = text[match.end() :]
    if last_count(rest)[0] is not None or told_behind(rest)[0] is not None:
        return match["dash"], rest
    after = _COUNT.match(rest)
    if after is not None and after.lastgroup != "dash":
        return match["dash"], rest
    word = _SOME.match(rest)
    measures = word is not None and (word[1].lower() in SIZE_WORDS or word[1].lower() in _MEASURED)
    return ("", text) if word is None or measures else (match["dash"], rest)


def _named(text: str, materials: Materials) -> tuple[str, tuple[tuple[str, str], ...]]:
    """Return the text without the names of grades, and those grades by the shop's keys."""
    found: list[tuple[str, str]] = []
    at = 0
    out: list[str] = []
    words = list(_NAMED.finditer(text))
    for index, match in enumerate(words):
        if match.start() < at:
            continue
        hit = _grade_at(text, words, index, materials)
        if hit is None:
            continue
        key, end = hit
        found.append((key, text[match.start() : end]))
        before = text[at : match.start()]
        beside = _BESIDE_GRADE.search(before) is not None
        out += [before, "thk ; " if beside else " ; "]
        if beside and (plate := _PLATE.match(text, end)):
            end = plate.end()
        at = end
    return "".join([*out, text[at:]]), tuple(dict.fromkeys(found))


@lru_cache(maxsize=4096)
def grade_spans(text: str, materials: Materials) -> tuple[tuple[int, int], ...]:
    """Return where the names of grades stand in a text."""
    spans: list[tuple[int, int]] = []
    words = list(_NAMED.finditer(text))
    for index, match in enumerate(words):
        if spans and match.start() < spans[-1][1]:
            continue
        if (hit := _grade_at(text, words, index, materials)) is not None:
            spans.append((match.start(), hit[1]))
    return tuple(spans)


def _grade_at(
    text: str, words: list[re.Match[str]], index: int, materials: Materials
) -> tuple[str, int] | None:
    """Return the grade whose name begins at a word, and where it ends: IS 2062 E250, A516 Gr 70, A36."""
    match = words[index]
    for end in _ends(text, words, index):
        named = text[match.start() : end].rstrip(".,;/-")
        found = materials.find(named)
        if len(found.keys) == 1 and not found.rest:
            return found.keys[0], match.start() + len(named)
    own = match.group().rstrip(".,;/-")
    if _THOUSAND.fullmatch(own):
        return None
    if (
        _FRACTION.fullmatch(own)
        or not any(sign.isdecimal() for sign in own)
        or (own.isdecimal() and not _is_grade(text, match, own))
    ):
        return None
    found = materials.find(own)
    return (found.keys[0], match.start() + len(own)) if len(found.keys) == 1 and not found.rest else None


def _ends(text: str, words: list[re.Match[str]], index: int) -> list[int]:
    """Return where a name of several words may end, the longest first: after a standard, before its class."""
    first = words[index].group().lower().strip(".,;/-")
    standard = first in _STANDARDS or _STANDARD.fullmatch(first) is not None
    figures = any(map(str.isdecimal, first))
    found = []
    for count in range(min(_LONGEST_NAME, len(words) - index), 1, -1):
        inner = words[index + 1 : index + count]
        second = inner[0].group().lower()
        led = standard or second.strip(".") in _CLASSES
        if not led and not (figures and second.startswith(("gr", "cl", "type", "tp"))):
            break  # the first two words are those of every longer name too
        last = words[index + count - 1]
        of_class = count > 2 and words[index + count - 2].group().lower().strip(".") in _CLASSES
        letter = of_class and len(last.group().strip(".,")) == 1  # A283 GR C
        if (letter or any(sign.isdecimal() for sign in last.group())) and all(
            not text[one.end() : two.start()].strip(" .:")
            for one, two in pairwise(words[index : index + count])
        ):
            found.append(last.end())
    return found


_LONGEST_NAME = 4
_THOUSAND = re.compile(r"\d\.\d{3}")
"""1.050 is a size, and no aluminium; numbers of EN 10027-2 have four digits behind the point."""
_STANDARD = re.compile(r"(?:is|as|din|jis|gb/?t?|astm|asme|bs|sa|nbr|sans)\d{3,5}")
_STANDARDS = frozenset((
    "is", "as", "as/nzs", "nzs", "astm", "asme", "en", "bs", "csa", "din", "jis", "gb", "uns", "aisi", "gr",
    "grade", "type", "tp", "sa", "nf", "uni", "ss",
))  # fmt: skip
_CLASSES = frozenset(("gr", "grade", "type", "tp", "cl", "class"))
_PLAIN_GRADES = frozenset(("304", "316", "409", "2205", "1018", "5052", "5083", "5086", "6061"))
"""Grades that a bare number in a text may be; 310, 321 or 430 are more often sizes and names."""
_METAL_BEFORE = re.compile(
    r"(?:\b(?:aisi|type|tp|ss|sst|sus|inox|rvs|edelstahl|stainless|duplex|grade|gr\.?"
    r"|alu(?:mini?um)?\.?|alumini(?:o|um)|alumini?o|alluminio|marine grade)\s*)$",
    re.I,
)
_METAL_AFTER = re.compile(r"\s*(?:ss|sst|stainless|inox|rvs|edelstahl|duplex)\b", re.I)


def _is_grade(text: str, match: re.Match[str], number: str) -> bool:
    """Return whether a bare number is a grade: a usual one that is no size, or beside the name of a metal."""
    end = match.start() + len(number)
    if _METAL_BEFORE.search(text[: match.start()]) or _METAL_AFTER.match(text[end:]):
        return True
    return number in _PLAIN_GRADES and _stands_alone(text, match)


_OF_ALUMINIUM = 4
_ALUMINIUM = re.compile(r"\b(?:alu\w*|alloy|marine grade)\b", re.I)
"""Where this is named a bare number of four figures such as 5083 is its alloy, commas or not."""
_END_OF_CLAUSE = re.compile(r"[.,](?=\s*(?:$|[A-Za-z(#]|\s[12][A-Z]\b))")
"""A point or comma that ends what it follows: no decimal, and no other number goes on with it but that of a
finish: 304, 2B."""


def _stands_alone(text: str, match: re.Match[str]) -> bool:
    """Return whether a bare number such as 304 is no size: nothing beside it measures something."""
    if _between_commas(text, match):
        return True
    before, after = text[: match.start()].rstrip(), text[match.start() + len(match.group()) :].lstrip()
    after = _END_OF_CLAUSE.sub("", after, count=1) if _END_OF_CLAUSE.match(after) else after
    if len(match.group().rstrip(".,;")) == _OF_ALUMINIUM and _ALUMINIUM.search(text):
        before, after = before.rstrip(" ,("), after.lstrip(" ,)")
    sized = re.match(
        r"(?:[x×\"'/.,°=-]|mm|cm|m\b|in\b|inch|ft|od|id|o\.d|i\.d|long|lg|wide|dia|thk|high|deg|pcs|off)",
        after,
        re.I,
    )
    led = re.search(
        r"(?:[x×ø=/.,-]|\b(?:od|id|dia|r|ir|or|t|thk|long|lg|wide|length|width|height|girth|item|no|pos))$",
        before,
        re.I,
    )
    return sized is None and led is None


def _between_commas(text: str, match: re.Match[str]) -> bool:
    """Return whether a bare number stands by itself between commas, where no other number does: 36 long, 304.

    Three digits of steel: beside other bare numbers between commas it may be one of the sizes in their order.
    """
    start, end = match.start(), match.start() + len(match.group().rstrip(".,;"))
    pieces = [piece.strip() for piece in _BETWEEN_COMMAS.split(text)]
    bare = [piece for piece in pieces if _BARE.fullmatch(piece)]
    led, behind = text[:start].rstrip()[-1:], text[end:].lstrip(" .")[:1]
    alone = len(bare) == 1 and len(pieces) > 1 and end - start == _OF_STAINLESS
    return alone and led in ("", ",", ";") and behind in ("", ",", ";")


_BETWEEN_COMMAS = re.compile(r"[,;](?:\s+|$)")
_BARE = re.compile(r"\d+(?:[.,/]\d+)*\.?")
_OF_STAINLESS = 3
"""The figures of 304 or 316; 1018 and 2205 may be sizes in millimetres."""
_PLACED = re.compile(
    r"\b((?:lot|batch|phase|cat(?:egory)?\.?|class|grp|group|note|area|zone|bay|level|stage|building|block|deck|train|shipment|delivery|release)\s*"
    r"(?:no\.?|nr\.?|#)?\s*[A-Z]?\d{1,4}[A-Za-z]?)\b(?!\s*(?:mm|in\b|\"|'|x|off|pcs))",
    re.I,
)
"""Where a part goes or with what it comes: lot 2, phase 1."""
_HOLDS = (
    r"tanks?|vessels?|silos?|vats?|drums?|reactors?|fermenters?|kettles?|boilers?|containers?|cisterns?|bins?|tanques?"
    r"|dep[óo]sitos?|cisternas?|cubas?|tinas?|cuves?|citernes?|r[ée]servoirs?|serbatoi[oi]?|vasc[ah]e?|beh[äa]lter|kessel|zbiornik\w*"
    r"|n[áa]dr[žz]\w*|k[aá]d\w*|tart[áa]ly\w*|ketels?|reservat[óo]rios?|beholdere?|s[äa]ili[öo]\w*|rezervo\w+"
)
_VOLUME = re.compile(
    r"(?<![\w.,/])(?:\d{1,3}(?:[.,' ]\d{3})+|\d+(?:[.,]\d+)?)\s?"
    r"(?:lts?|ltrs?|lit(?:er|re|ro|ri|r[óo]w|r[uůy])s?"
    r"|hl|m3|m³|m\^3|cbm|gals?|gallons?|bbls?)(?![\w³])\.?"
    rf"|\b(?:{_HOLDS})\s+(?:of\s+|de\s+|di\s+|von\s+|[àa]\s+)?\d{{1,3}}(?:[.,']\d{{3}})+\s?l(?![\w³])"
    rf"|^\D*\b(?:{_HOLDS})\s+(?:of\s+|de\s+|di\s+|von\s+|[àa]\s+)?\d{{3,6}}\s?l(?![\w³])(?=\D*$)",
    re.I,
)
"""How much a tank holds, which is no length: 50 m3, tank 5.000 l, cuve 5000 L if no other number is there."""


_OF_A_STANDARD = re.compile(
    r"(?:(?<=[,;(]\s)|(?<=[,;(])|^)(?:AS/NZS|IS|JIS|DIN|EN|BS|AS|GOST|GB/?T?|UNI|NF|CSA|ASTM|ASME|NBR|SANS|API)"
    r"[ -](?:[A-Z][ -]?)?\d{3,5}(?:-\d{1,4})*(?![\d.,]|\s*(?:mm|x|ID|OD|in\b))"
)
"""A standard where a clause begins, whose number is no size: IS 2062, EN 10025-2."""
_OTHER_GRADE = re.compile(
    r"(?<![\w.-])(?:(?:SAE|AISI|UNS|SAC|USI|CSN|JIS|NBR|ABNT|IRAM|NMX|ASTM|ASME|API)[ .-]{1,2}"
    r"(?:[A-Z]{1,3}[ .-]?)?\d{2,5}[A-Z]{0,2}"
    r"(?:[ -]?(?:G[Rr](?:[Aa]de|[Aa]u|[Aa]do)?|C[Ll]|T[Yy](?:pe|PE))\.?[ -]?[A-Z0-9]{1,4})?"
    r"|API[ -]?\d{1,2}[A-Z]{1,2}(?:[ -]?(?:X\d\d|G[Rr]\.?[ -]?[A-D](?!\w)))?|A\d{3} ?G[Rr]\.? ?[A-D](?!\w)"
    r"|(?:AR|HBW?|BIS)[ -]?\d{3}"
    r"|(?:DX|DC|DD|HX|HC)\d{2,3}[A-Z]*(?:\+[A-Z]{1,3}\d{0,3})?"
    r"|[SPLE]\d{3}[JKNMQGHWLR][A-Z0-9]{0,4}(?:\+[A-Z]{1,3})?"
    r"|G[Rr](?:[Aa]de|[Aa]u|[Aa]do)?\.?[ -]?(?:[3-9]\d|[1-9]\d\d))(?![\w.,]\d|\w|\s?(?:mm|in|x)\b|\")"
)
"""A grade that the shop's book does not have, whose number is no size: SAE 1020, Gr 70."""
_LETTERS_FIRST = re.compile(r"[A-Z]{2}/?[A-Z]*[ -]|G[Rr]|[DH][XCD]\d|[SPLE]\d{3}|API|HB|AR\d|BIS").search


def _placed(match: re.Match[str], codes: list[str]) -> str:
    codes.append(match.group().strip())
    return " ; "


def _numbered(match: re.Match[str], codes: list[str]) -> str:
    """Take `tube #4` for a name; beside plate or sheet it is a gauge."""
    if match[1].lower() in _MARKED | {"sheet", "steel", "gauge", "gage", "wall", "thick"}:
        return match.group()
    codes.append(f"#{match[2]}")
    return f"{match[1]} ; "


_LONG_CODE = re.compile(r"[A-Za-z]{1,4}-?(?:0\d{3,}|\d{6,})[A-Za-z]?")
"""R0091827: no size is written with noughts before it, and none has six figures."""


def _code(match: re.Match[str], codes: list[str]) -> str:
    label = match.group(1).lower()
    if (label in _MARKED or (label.endswith("x") and label[:-1] in _MARKED)) and not _LONG_CODE.fullmatch(
        match.group()
    ):
        return match.group()
    codes.append(match.group().rstrip(".,;/-"))
    return " ; "


def _explained(word: str, materials: Materials) -> bool:
    plain = word.lower().strip("'’")
    if plain in harmless() or _QUIET.match(plain) or len(plain) < 2:
        return True
    found = materials.find(word)
    return bool(found.family) and not found.rest
