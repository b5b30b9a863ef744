"""Writes the sizes of a text the way the grammar reads them: i/d is ID, three feet 3 ft."""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import cache, lru_cache

from quoting.core import Measure, RangeError, Unit

_NUMBERS = {
    "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9,
    "ten": 10, "eleven": 11, "twelve": 12, "a": 1, "an": 1,
}  # fmt: skip
_PARTS = {
    "quarter": "1/4", "half": "1/2", "three quarter": "3/4", "three quarters": "3/4", "eighth": "1/8",
    "three eighths": "3/8", "five eighths": "5/8", "seven eighths": "7/8", "three sixteenths": "3/16",
    "five sixteenths": "5/16", "sixteenth": "1/16", "seven sixteenths": "7/16",
}  # fmt: skip
_LENGTH = r"(?:inch(?:es)?|in\b|feet|foot|ft\b)"
_COUNT = "|".join(sorted(_NUMBERS, key=len, reverse=True))
_FRACTION = "|".join(sorted(_PARTS, key=len, reverse=True))
_SPELLED = re.compile(rf"\b({_COUNT})[ -](?={_LENGTH})", re.I)
_SPELLED_PART = re.compile(rf"\b(?:a |one )?({_FRACTION})[ -]?(?={_LENGTH}|plate(?!.*(?:°|\bdeg)))", re.I)
_AND_PART = re.compile(rf"(\d+) and (?:a |one )?({_FRACTION})s?\b", re.I)
_EITHER = re.compile(r"(?<![\w./-])(\d+(?:[.,]\d+)?) or (\d+(?:[.,]\d+)?)(?![\w./])")
"""4 or 5: a choice that the customer leaves open. In capitals, OR is an outside radius."""
_MARK_BEFORE = re.compile(r"(?<=\d)\s+(?=(?:[IOM]\.?D|[IO]R|dia|ø)\.?\s?=\s?\d)", re.I)
"""8x1500 ID=1200: a sign of equality says that the mark is that of the number behind it."""
_SIZE = r"""\d[\d./-]*(?: \d+/\d+)? ?(?:mm|in\b|"|'|ft\b)?"""
_END = re.compile(rf"({_SIZE})\s*(ID|OD|dia|ø)?\s*,?\s*(largeend|smallend)\b", re.I)
"""The end of a cone behind its size: 36 in ID big end, 12 in ID small end."""
_LETTER_BEHIND = re.compile(r"(?<![\w.,/-])(\d{3,5})\s?([ia])(?=\s*(?:$|[x×,;]))", re.I)
"""1200 i, 1000 a: the inside and the outside diameter."""
_OF_WHAT = (
    r"(?:ID|OD|IR|OR|MD|dia|diam(?:eter)?|radius|thick(?:ness)?|long|length|high|height|tall|wide|width|girth"
    r"|(?:inside|outside|mean) (?:dia(?:m(?:eter)?)?|radius))"
)
_SIDES = (
    ("I", "inside", r"int(?:ern[oea]?|[ée]rieur|erior)?|inn(?:en)?|inw(?:endig)?|binnen|wewn(?:[eę]trzn\w*)?"
     r"|vnit[rř]\w*|innv|indv|i\.\s?L\.?|lichte?|iç|内径?"),
    ("O", "outside", r"ext(?:ern[oea]?|[ée]rieur|erior)?|au(?:ss|ß)(?:en)?|uitw(?:endig)?|buiten"
     r"|zewn(?:[eę]trzn\w*)?|vn[eě]j\w*|utv|udv|estern[oa]|dış|外径?"),
    ("M", "mean", r"moyen|mittel|mittl|medio|śr|中径"),
)  # fmt: skip
"""The side of the plate as several languages write it beside a size (from memory, common practice)."""
_NOTED_SIDES = tuple(
    (re.compile(pattern, re.I), text)
    for letter, side, words in _SIDES
    for pattern, text in (
        (
            rf"(?:\bdia(?:m(?:eter)?)?\b\.?|[øØΦφ]|\bD\b\.?|\bfi\b)\s?\(?(?:{words})(?![^\W\d_])[.)]?\s*=?\s*(?=\d)",
            f"{letter}D ",
        ),
        (
            rf"(?:\brad(?:i(?:us|o|e))?\b\.?|\bR\b\.?)\s?\(?(?:{words})(?![^\W\d_])[.)]?\s*=?\s*(?=\d)",
            f"{letter}R " if letter != "M" else "CLR ",
        ),
        (
            rf"(?<![^\W\d_])(?:{words})(?![^\W\d_])\.?\s?(?:[øØΦφ]|dia(?:m(?:eter)?)?\b\.?|\bfi\b)\s*=?\s*(?=\d)",
            f"{letter}D ",
        ),
        (rf"(?<=\d)(?: ?mm)?\s?[øØ]?\s?(?:{words})(?![^\W\d_])\.?", f" {side} "),
        (rf"(?<=\d)(?: ?mm)?\s?\(\s*(?:{words})\.?\s*\)", f" {side} "),
    )
)
_SIGN_OF_A_SIDE = re.compile(r"([内外中])径?\s?[ΦφøØ]?(?=\d{2})")
_OF_SIZES = (
    r"(?:ma(?:ß|ss)e?|dim(?:ension)?s?|sizes?|measures?|maten|mått|mål|medidas|misure|cotes|wymiary"
    r"|rozm[eě]ry)"
)
_FOR_ALL_SIZES = tuple(
    (
        letter,
        re.compile(
            rf"\(\s*(?:all |{_OF_SIZES}\.?\s?)?(?:{side}|{letter}\.?/?D|{words})\.?"
            rf"(?:\s?{_OF_SIZES}\.?)?\s*\)"
            rf"|(?<![^\W\d_])(?:{_OF_SIZES}\s(?:{side}|{words})\b|(?:{side}|{words})\.?\s{_OF_SIZES}\b)\.?",
            re.I,
        ),
    )
    for letter, side, words in _SIDES
)
_SIDED = re.compile(r"\b(?:[IOM]\.?D|[IO]R|CLR|inside|outside|mean)\b", re.I)
_BARE_ROUND = re.compile(r"[øØ⌀Φφ]|\bdia(?:m(?:eter)?)?\b\.?(?=\s*=?\s*\d)", re.I)
_BARE_RADIUS = re.compile(r"\bR\b(?=\s*=?\s*\d)|\bR(?=\d)")
_WALL_LETTER = re.compile(
    r"(?<![\w.])[set]\s*=\s*(?=\d{1,2}(?:[.,/]\d+)?(?!\d|[.,]\d))"
    r"|(?<=[,;] )[es]\s?(?=\d{1,2}(?:[.,]\d{1,2})?\s?(?:mm|[,;]|$))"
    r"|(?<=\d )s\s(?=\d{1,2}(?:[.,]\d{1,2})?\s?(?:mm|[\s,;]|$))"
)
"""s = 12, e = 16: the thickness in German, French and their neighbours."""
_THIN_FIRST = re.compile(
    r"(?<![\w.,/])(?<![x×ø] )(\d{1,2}(?:[.,]\d{1,2})?) ?mm "
    r"(?=(?:(?:inside|outside|mean) )?(?:dia\b\.?|[øØ]|ID|OD|fi\b) ?\d{3})",
    re.I,
)
"""2 mm dia 600: the mark is that of the number behind it."""
_ARC = re.compile(
    r"(?<![\w./-])(\d[\d./-]*(?: \d+/\d+)? ?(?:mm|in\b|\"|'|ft\b)) ?arc\b(?! ?(?:length|len|lg|of|=))", re.I
)
_PIPE_BESIDE = re.compile(r"\bDN\s?(\d{2,4})\s*\(\s*[øØ]?\s?(\d{2,4}(?:[.,]\d)?)(?: ?mm)?\s*\)", re.I)
_PIPE_SERIES = 0.02
"""The outside diameters of one DN in two series of pipes are no further apart: 1219 and 1220 mm."""
_THOUSANDS = re.compile(
    r"(?<![\d.,/])\d{1,2}(?P<sign>[.,])\d{3} ?mm(?= ?(?:I\.?/?D|O\.?/?D|dia|long|lg|wide|high|length)\b)"
    r"|\b(?:ID|OD|dia|length|long|L) ?=? ?\d{1,2}(?P<mark>[.,])\d{3} ?mm\b",
    re.I,
)
"""1,250 mm I/D: one and a quarter millimetres is no diameter and no length of a rolled part."""
_SIDED_DIA = tuple(
    (re.compile(pattern, re.I), text)
    for pattern, text in (
        (r"\b(int|ext)\. ?dia(?:m(?:eter)?)?\b\.?", r"\1 dia"),
        (r"\b([io])[./]dia(?:m(?:eter)?)?\b\.?", r"\1D"),
        (r"\bin\. ?dia(?:m(?:eter)?)?\b\.?(?=\s*=?\s*\d)", "ID"),
        (r"\bout\.? ?dia(?:m(?:eter)?)?\b\.?", "OD"),
        (r"\bdia(?:m(?:eter)?)?\b\.? ?\( ?(?:int\w*|inside|inner|i/s|i\.?d)\.? ?\)", "ID"),
        (r"\bdia(?:m(?:eter)?)?\b\.? ?\( ?(?:ext\w*|outside|outer|o/s|o\.?d)\.? ?\)", "OD"),
    )
)
"""int. dia, o/dia, dia (inside)."""
_DASHED = re.compile(
    r"(?<![\d\"'])(?<!\d )\b([IO]\.?D|[IO]R|dia|thk|thick(?:ness)?|lg|length|long|ht|height|width"
    r"|wd|wt|[LTHW])\.? ?[-–] ?(?=\d)",
    re.I,
)
"""OD-1500, THK-10: where two labels are written so the dash is a sign of equality."""
_Written = str | Callable[[re.Match[str]], str]
_RARE: tuple[tuple[tuple[str, ...], re.Pattern[str], _Written], ...] = tuple(
    (tuple(words.split("|")), re.compile(pattern, re.I), text)
    for words, pattern, text in (
        ("'|’", r"(?<=\d)['’][dt][ea]n\s+(ø\s*)?(\d[\d.,]*)['’]y?[ea]\b", r" to \1\2"),
        (" of ", rf"(?<=[\d\"'m]) of (?={_OF_WHAT}\b)", " "),
        ("across", r"(?<=[\d\"'m]) ?across (?:the |its )?(?:outside|outer)(?: faces?| edges?)?\b", " OD"),
        ("across", r"(?<=[\d\"'m]) ?across (?:the |its )?(?:inside|inner)(?: faces?| edges?)?\b", " ID"),
        (
            "across",
            r"(?:(?<=[\d\"'m])|(?<=foot)|(?<=feet)|(?<=inches)|(?<=inch)) ?across\b"
            r"(?! (?:the )?(?:rolls?|flats?|corners|chord|face))",
            " dia",
        ),
        (
            "plate|plt|blank|sheet",
            rf"(?<=x )({_SIZE} ?x ?{_SIZE})\s*(?:plates?|plt|blanks?|sheets?)\b(?!\s*[\d=:])",
            r"\1 ",
        ),
        (" to ", r"\b(deg(?:rees?)?\.?|°) to (?=[\d.]+\S* (?:inside|outside|rad|IR|OR|ID|OD))", r"\1 ; "),
        ("vert", r"(?<=[\d\"'m]) ?vert(?:ical)?\b(?!\.? (?:seam|weld|axis|ht|height))", " high"),
        ("straight", r"(?<=[\d\"'m]) ?straight[- ]?(?:up|down|axial)\b(?: and down\b)?", " high"),
        ("straight", r"(?<=[h.]) ?straight[- ]?(?:up|down|axial)\b(?: and down\b)?", " "),
        ("straight", r"\bstraight[- ]?(?:height|ht)\b\.?", "height"),
        ("insides|outsides", r"\((?:all )?(in|out)sides?\)", r"(\1side)"),
        ("o/s|i/s", r"(?<=\d) ?([io])/s\b", lambda match: " inside" if match[1] in "iI" else " outside"),
        ("circ", r"\bcirc(?:um)?\b\.?(?=\s*=?\s*\d)", "girth"),
        (
            "pipe",
            r"\bpipe (?=\d+(?:[.,]\d+)? ?(?:mm )?(?:pl|plt|plate|thk|thick|w\.?t|wall|[IO]\.?/?D)\b)",
            "pipe ; ",
        ),
        ("ø|⌀", r"[øØ⌀] ?(\d+(?:[.,]\d+)?)( ?mm\b)? ?([IO])[./]?D\b\.?", r"\3D \1\2"),
        ("o/s|i/s", r"\(([io])/s\)", lambda match: "(inside)" if match[1] in "iI" else "(outside)"),
        ("c/line", r"\bc/line\b", "c/l"),
        (".rad", r"\b([io])\.rad\b\.?", r"\1/rad"),
        ("btm", r"\bbtm\b", "bottom"),
        (
            "arc|sweep",
            r"\b(?:arc|sweep)\s*[=:]\s*(\d{1,3}(?:\.\d+)?)(?![\d.\"'/]|\s*(?:mm|in\b|x|deg|°))",
            r"\1 deg",
        ),
    )
)
"""Each is looked for only where one of its words stands: texts with them are few."""
_TIDY: tuple[tuple[re.Pattern[str], str], ...] = tuple(
    (re.compile(pattern, re.I), text)
    for pattern, text in (
        (r"[хХ✕]", "x"),
        (r"(\d+)\s*°\s*(\d+)\s*['′’]", r"DEGMIN\1_\2"),
        (r"(?<![\d./-])(\d{1,2}(?:[ -]\d/\d)?)\s*(?:\"|in\b\.?|inch\b)?\s*nps\b(?!\s*\d)", r"NPS \1"),
        (
            r"(?<![\d./-])(\d{1,2}(?:[ -]\d/\d)?)\s*(?:\"|in\b\.?|inch\b)\s*pipe\b"
            r"(?=.*\b(?:wall|thk|thick|sch))",
            r"NPS \1",
        ),
        (r"(?<=\d) in\b(?=[^;]*\bR?\s?\d[\d.]* out\b)", " inside"),
        (r"(?<=\d) out\b", " outside"),
        (r"\b(half|quarter|third)[- ]pipe\b", r"\1 shell"),
        (
            r"(?<![\d./-])(?:1/2|½)[- ]"
            r"(?=(?:rounds?|shells?|cyls?|cylinders?|circles?|pipes?|sleeves?|bands?|rings?)\b)",
            "half ",
        ),
        (r"\bt\s?[/-]\s?t\b", "long"),
        (r"(?<=[\d\"'m]) ?tall\b", " high"),
        (r"(?<=[\d\"'m]) ?round\b(?=\s*[x,;])", " dia"),
        (r"\((neutral|mean|inside|outside|id|od|c/?l)(?: axis| line)?\)", r" \1 "),
        (
            r"\b(?:i\s?/\s?rad|inside[- ]+rad(?:ius)?|inner rad(?:ius)?|int\.? rad(?:ius)?"
            r"|radius inside|rad\.? inside|r\.? inside)\b\.?",
            "IR",
        ),
        (
            r"\b(?:o\s?/\s?rad|outside[- ]+rad(?:ius)?|outer rad(?:ius)?|ext\.? rad(?:ius)?"
            r"|radius outside|rad\.? outside|r\.? outside)\b\.?",
            "OR",
        ),
        (r"\bR\s?in[tn]\.?(?=\s*=?\s*\d)", "IR"),
        (r"\bR\s?ext\.?(?=\s*=?\s*\d)", "OR"),
        (r"(?<=\d)\s+[-–]\s+(?=\d{1,3}(?:[.,]\d+)?\s*(?:°|deg\b))", " ; "),
        (r"(?<=\d) ?WD\b\.?", " wide"),
        (r"\bR\s?i\.?(?=\s*=?\s*\d)", "IR"),
        (r"\bR\s?[ae]\.?(?=\s*=?\s*\d)", "OR"),
        (r"(?-i:\b[Dd]\s?i|[Øø]\s?i)\.?(?=\s*=?\s*\d)", "ID"),
        (r"[øØ]\s*(\d[\d.,]*)\s*i(?=\s*(?:[x×,;]|$))", r"ID \1"),
        (r"[øØ]\s*(\d[\d.,]*)\s*a(?=\s*(?:[x×,;]|$))", r"OD \1"),
        (r"\bR\s*(\d[\d.,]*)\s*i(?=\s*(?:[x×,;]|$))", r"IR \1"),
        (r"\bR\s*(\d[\d.,]*)\s*a(?=\s*(?:[x×,;]|$))", r"OR \1"),
        (r"(?-i:[Øø]\s?[ae])\.?(?=\s*=?\s*\d)", "OD"),
        (r"(?-i:(?<![-–])\b[Dd]\s?[aeo])\.?(?=\s*=?\s*\d)", "OD"),
        (r"\brad(?:ius|\.)? (?:to|of|on|at) (?:the )?(?:concave|hollow|inside|inner) (?:face|side)\b", "IR"),
        (r"\brad(?:ius|\.)? (?:to|of|on|at) (?:the )?(?:convex|outside|outer) (?:face|side)\b", "OR"),
        (r"\binside[- ]+r\b\.?", "IR"),
        (r"\boutside[- ]+r\b\.?", "OR"),
        (r"\b(?:mean|centre ?line|center ?line|c/l|neutral(?: axis)?)[- ]+(?:rad(?:ius)?|r\b)\.?", "CLR"),
        (r"\b(?:mean|centre ?line|center ?line|c/l|neutral(?: axis)?)[- ]+dia(?:m(?:eter)?)?\b\.?", "MD"),
        (r"\b(?:inside|internal|inner|int\.?) (?:dia(?:m(?:eter)?)?|ø|d)(?!\w|-\d)\.?", "ID"),
        (r"\b(?:outside|external|outer|ext\.?) (?:dia(?:m(?:eter)?)?|ø|d)(?!\w|-\d)\.?", "OD"),
        (r"(?:\bdia(?:m(?:eter)?)?\.?|ø) (?:inside|internal|inner|int)\b\.?", "ID"),
        (r"(?:\bdia(?:m(?:eter)?)?\.?|ø) (?:outside|external|outer|ext)\b\.?", "OD"),
        (
            r"(?:\bdia(?:m(?:eter)?)?\.?|ø) ?(?:bi|binnen|inw|inn|innen|wewn|vnitr|intern[oe]?|interior)\b\.?"
            r"(?=\s*=?\s*\d)",
            "ID",
        ),
        (
            r"(?:\bdia(?:m(?:eter)?)?\.?|ø) ?(?:bu|buiten|uitw|aussen|außen|auss|zewn|vnej|estern[oe]?"
            r"|extern[oe]"
            r"|exterior)\b\.?(?=\s*=?\s*\d)",
            "OD",
        ),
        (r"(?<![\w.])i\s?[/.]\s?d\b\.?|\bbore\b", "ID"),
        (r"(?<![\w.])o\s?[/.]\s?d\b\.?", "OD"),
        (
            r"\b(?:developed(?: length)?|dev(?:\.|eloped)? ?(?:length|lg)"
            r"|stretch-? ?out|circumference|girth)\b",
            "girth",
        ),
        (r"\barc[- ](?:length|len|lg)\b\.?", "arclength"),
        (r"\bslant(?:[- ](?:height|ht|length))?\b\.?", "slant"),
        (r"\bvert(?:ical|\.)? ?(?:height|ht)\b\.?", "height"),
        (r"\b(?:large|big) ?end\b|(?<=[IOM]D )(?:mayor|maior|maggiore)\b", "largeend"),
        (r"\bsmall ?end\b|(?<=[IOM]D )(?:menor|minore)\b", "smallend"),
        (r"(?<![\d\"'m] )\b([IOM]D) (largeend|smallend)\b(?=\s*=?\s*\d)", r"\2 \1"),
        (r"\b(?:angle|ang)\b\.?\s*=?\s*(?=\d+(?:[.,]\d+)?\s*(?:deg|°))", ""),
        (r"\b(?:angle|ang)\b\.?\s*=?\s*(\d+(?:[.,]\d+)?)(?!\s*(?:deg|°|mm|x|\d|[/\"]))", r"\1 deg"),
        (
            r"[ø⌀φ]?\s*(?<![\d.,/-])(\d+(?:[.,]\d+)?)\s*\(\s*"
            r"(ID|OD|IR|OR|length|long|lg|width|wide|height|high|thick|thk)\s*\)",
            r" \2 \1 ",
        ),
        (r"(\d)\s*°", r"\1 deg "),
        (r"(?<=[A-Za-zØø ])\s*[=:]\s*(?=[\d.,½¼¾⅛⅜⅝⅞])", " "),
        (r"(?<=\d)\s*=\s*(?=[A-Za-z])", " "),
        (r"\b(no|nr)\.\s*(?=\d)", r"\1 "),
        (
            r"(?<![\w./-])(\d+(?:\.\d+)?) (?:is|are|=) (?:the |its |a |an )?"
            r"(girth|length|height|width|ID|OD|IR|OR|CLR|MD|thickness|radius|diameter|dia)\b(?!\s*\d)",
            r"\2 \1",
        ),
    )
)


_OF_THE_PLATE = r"(?: of (?:the )?(?:plate|metal|wall|shell|sheet|steel|material)(?: thickness)?)"
_CENTRE = (
    r"c/?l|cent(?:er|re)[- ]?line|mean|mid[- ]?(?:line|wall)?|middle|neutral(?: (?:axis|line|fib(?:er|re)))?"
)
_FACE = re.compile(
    r"(?P<size>\d ?(?:mm\b|in\b\.?|inch(?:es)?\b|\"|')?)(?P<dia> ?dia(?:m(?:eter)?)?\b\.?)?,? \(?"
    r"(?:(?:when )?(?:measured|taken|given) )?(?P<to>(?:to|over|across|on|at) (?:the )?)?"
    rf"(?:(?P<centre>{_CENTRE})|(?P<side>inside|outside|inner|outer|internal|external|[io]\.?d\.?))"
    rf"(?P<face>[ -](?:faces?|surfaces?|skins?|walls?|sides?|line))?(?P<of>{_OF_THE_PLATE})?"
    r"(?=\s*(?:$|[,;)x×]))",
    re.I,
)
"""The side of the plate behind a size: 1010 to outside face, 30" to C/L of plate."""
_FACE_WORDS = ("face", "surface", "skin", "wall", " of ", "line", " to ", " on ", " over ", "side of")
_SIDED_END = r"(?:ID|OD|MD|inside|outside|dia\.?|ø)"
_ENDS = re.compile(
    rf"(?<![\w./-])(?:(?P<size>{_SIZE}) ?(?P<side>{_SIDED_END})? ?(?:dia\.? ?)?(?:at |on |@ ?)?(?:the )?"
    r"(?P<end>top|bottom)\b(?: end\b)?"
    rf"|(?P<end2>top|bottom)(?: end)?(?: is|:| =)? ?(?P<side2>{_SIDED_END})? ?(?P<size2>{_SIZE})"
    rf" ?(?P<side3>{_SIDED_END})?(?![\w/]))",
    re.I,
)
"""The two ends of a cone by where they are: 54 top / 10 bottom, bottom 72 ID, top 12 ID."""
_LEAST_END, _ENDS_ALIKE = 2, 15
"""A smaller number of a pair, or one so much smaller, is no end of a cone (common practice, no source)."""


def _to_a_face(text: str) -> str:
    """Return a text with the words that say to which face a size is measured as one side.

    >>> _to_a_face("1010 to outside face"), _to_a_face("30 in to C/L of plate, 20 long")
    ('1010 outside', '30 in mean, 20 long')
    """
    return _FACE.sub(_side_behind, text)


def _side_behind(match: re.Match[str]) -> str:
    to, exact = (match["to"] or "").lower(), match["face"] or match["of"]
    if not (to or exact) or (to.startswith("on") and not exact and not match["centre"]):
        return match.group()  # 6 mm on the inside: of a lining, perhaps
    side = (match["side"] or "m").lower()
    known = "inside" if side.startswith("i") else "mean" if match["centre"] else "outside"
    return f"{match['size'].rstrip()}{match['dia'] or ''} {known}"


def _top_and_bottom(text: str) -> str:
    """Return a text with the sizes at top and bottom as those of a cone's larger and smaller end.

    >>> _top_and_bottom("54 top / 10 bottom, 40 high"), _top_and_bottom("1/4 top, 3/8 bottom")
    ('largeend 54 ;  / smallend 10 ; , 40 high', '1/4 top, 3/8 bottom')
    """
    found = list(_ENDS.finditer(text))
    ends = {(match["end"] or match["end2"]).lower(): match for match in found}
    if len(found) != 2 or len(ends) != 2:
        return text
    sizes = {end: _first_number(match["size"] or match["size2"]) for end, match in ends.items()}
    low, high = sorted(sizes.values())
    if low < _LEAST_END or low == high or high > _ENDS_ALIKE * low:
        return text
    return _ENDS.sub(
        lambda match: _as_end(match, large=sizes[(match["end"] or match["end2"]).lower()] == high), text
    )


def _first_number(size: str) -> float:
    """Return the whole number, or the decimal, with which a size begins; 0 for a fraction alone."""
    number = re.match(r"\d+(?:\.\d+)?(?!/)", size.strip())
    return float(number.group()) if number else 0.0


def _as_end(match: re.Match[str], *, large: bool) -> str:
    size, side = match["size"] or match["size2"], match["side"] or match["side2"] or match["side3"] or ""
    return f"{'largeend' if large else 'smallend'} {size.strip()} {side}".rstrip() + " ; "


@lru_cache(maxsize=32_768)
def plain_sizes(text: str) -> str:
    """Return a text with its sizes in the words of the grammar.

    >>> plain_sizes("1200 i/d, three feet long"), plain_sizes("94 and a quarter, 30°30'")
    ('1200 ID, 3 ft long', '94-1/4, 30.5 deg')
    """
    small = text.lower()
    if "dia" in small:
        for pattern, side in _SIDED_DIA:
            text = pattern.sub(side, text)
    if "-" in text and len(_DASHED.findall(text)) > 1:
        text = _DASHED.sub(r"\1 ", text)
    text = _noted(_EITHER.sub(_range, _MARK_BEFORE.sub(" ; ", text)))
    small = text.lower()
    for words, pattern, rewritten in _RARE:
        if any(map(small.__contains__, words)):
            text = pattern.sub(rewritten, text)
    if any(word in small for word in _FACE_WORDS):
        text = _to_a_face(text)
    if "top" in small and "bottom" in small:
        text = _top_and_bottom(text)
    for pattern, replaced in _TIDY:
        text = pattern.sub(replaced, text)
    text = _LETTER_BEHIND.sub(lambda match: f"{'ID' if match[2] in 'iI' else 'OD'} {match[1]}", text)
    if "end" in text:
        text = _ends_first(text)
    text = re.sub(r"DEGMIN(\d+)_(\d+)", lambda m: f"{int(m[1]) + int(m[2]) / 60:.4g} deg", text)
    text = _AND_PART.sub(lambda m: f"{m[1]}-{_PARTS[m[2].lower()]}", text)
    text = _SPELLED_PART.sub(lambda m: f"{_PARTS[m[1].lower()]} ", text)
    text = _SPELLED.sub(lambda m: f"{_NUMBERS[m[1].lower()]} ", text)
    return re.sub(r"(\d) (feet|foot)\b", r"\1 ft", text)


def _noted(text: str) -> str:
    """Return a text with the sides, walls and pipes that are noted beside its numbers in the grammar's words.

    >>> _noted("Ø 1250 x 10 x 2000 ; (außen)"), _noted("D außen 850, s=3, R 203 inw. x 8")
    ('OD 1250 x 10 x 2000 ;  ; ', 'OD 850, thk 3, R 203 inside  x 8')
    >>> _noted("DN800 (813)"), _noted("1,250 mm I/D x 2,000 mm")
    ('OD 813', '1250 mm I/D x 2000 mm')
    """
    if _PIPE_BESIDE.search(text):
        text = _PIPE_BESIDE.sub(_pipe_beside, text)
    if match := _THOUSANDS.search(text):
        sign = re.escape(match["sign"] or match["mark"])
        size = rf"(?<![\d.,/])(\d{{1,2}}){sign}(\d{{3}})(?= ?mm\b(?! ?(?:thk|thick|wall|wt)))"
        text = re.sub(size, r"\1\2", text)
    if "(" in text and (match := _CHAIN.search(text)):
        text = _first_of_chain(match)
    for pattern, side in _NOTED_SIDES:
        text = pattern.sub(side, text)
    text = _SIGN_OF_A_SIDE.sub(lambda match: f" {'IOM'['内外中'.index(match[1])]}D ", text)
    for letter, for_all in _FOR_ALL_SIZES:
        if for_all.search(text):
            text = _on_one_side(text, for_all, letter)
    text = _THIN_FIRST.sub(r"\1 mm ; ", _WALL_LETTER.sub("thk ", text))
    return _ARC.sub(r"arclength \1 ; ", text)


def _first_of_chain(match: re.Match[str]) -> str:
    """Return a text whose chain of three sizes has the diameter that is named in brackets behind it first.

    Only where the second is the wall of a tube; in any other order the brackets tell a side and no more.

    >>> [_first_of_chain(_CHAIN.search(text)) for text in ("1016x12,5x3000 (OD)", "12x900x500 (ID)")]
    ['OD 1016x12,5x3000 ; ', '12x900x500 ; ']
    """
    first, wall, last = (float(match[at].replace(",", ".")) for at in (3, 4, 5))
    side = "I" if match["side"].lower().startswith("i") else "O"
    before, behind = match.string[: match.start()], match.string[match.end() :]
    chain = match["chain"]
    named = f"{side}D {chain}" if match["round"] or _WALL * wall <= min(first, last) else chain
    return f"{before}{named} ; {behind}"


_NUMBER = r"\d+(?:[.,]\d+)?"
_CHAIN = re.compile(
    r"(?:(?<![\w.,/-])(?<![x×] )|(?P<round>(?<![x×] )(?<![^\W\d_])[øØ⌀Φφ]) ?)"
    rf"(?P<chain>({_NUMBER}) ?(?:mm)? ?[x×] ?({_NUMBER}) ?(?:mm)? ?[x×] ?({_NUMBER}))"
    r"(?: ?mm)? ?"
    r"\( ?(?P<side>I\.?D\.?|O\.?D\.?|(?:in|out)side[ -]?(?:dia(?:m(?:eter)?)?\.?|[øØ])) ?\)",
    re.I,
)
"""1016x12,5x3000 (OD): three sizes and in brackets what the diameter among them is."""
_WALL = 10
"""A tube is at least so many times as wide, and as long, as its wall is thick (no source)."""
_ENGLISH_THOUSANDS = re.compile(
    r"(?<![\d.,/])(\d{1,2}),(\d{3})(?![\d.,/]| ?(?:m\b|thk|thick|mm thk|mm thick|w\.?t\b|wall|pl\b|plate))",
    re.I,
)
_METRIC_SIZE = re.compile(r"(?<![\d.,/])\d{3,5}(?![\d/]|[.,]\d)")


def joined_thousands(text: str) -> str:
    """Return a text whose commas before three digits part thousands without them, where it shows that.

    It does beside a number of hundreds of millimetres, or beside another such comma: nothing that is measured
    so is written to the thousandth (common practice, no source).

    >>> joined_thousands("i.rad 750, 1,250lg, 15"), joined_thousands("1,250 x 8")
    ('i.rad 750, 1250lg, 15', '1,250 x 8')
    """
    found = _ENGLISH_THOUSANDS.findall(text)
    if not found or (len(found) == 1 and not _METRIC_SIZE.search(_ENGLISH_THOUSANDS.sub(" ", text))):
        return text
    return _ENGLISH_THOUSANDS.sub(r"\1\2", text)


def _pipe_beside(match: re.Match[str]) -> str:
    """Return the outside diameter behind a DN as one where it is that of the DN; else both as they stand."""
    outside = float(match[2].replace(",", "."))
    try:
        listed = Measure(float(match[1]), float(match[1]), Unit.DN).to_mm(inch=False)
    except RangeError:
        return match.group()
    return f"OD {match[2]}" if abs(listed - outside) <= _PIPE_SERIES * listed else match.group()


def _on_one_side(text: str, for_all: re.Pattern[str], letter: str) -> str:
    """Return a text whose diameters, or radii, are on the side that it names once for all of them."""
    rest = for_all.sub(" ; ", text)
    if _SIDED.search(rest):
        return text
    if _BARE_ROUND.search(rest):
        return _BARE_ROUND.sub(f"{letter}D", rest)
    return (
        _BARE_RADIUS.sub(f"{letter}R " if letter != "M" else "CLR ", rest)
        if _BARE_RADIUS.search(rest)
        else text
    )


def _ends_first(text: str) -> str:
    """Return a text whose ends of a cone stand before their sizes, where the first one stands behind it."""
    first = _END.search(text)
    if first is None or re.search(r"(?:large|small)end", text[: first.end(2) if first[2] else first.end(1)]):
        return text
    return _END.sub(lambda match: f"{match[3]} {match[1]} {match[2] or ''} ; ", text)


def _range(match: re.Match[str]) -> str:
    """Return `4 or 5` as the range 4 to 5, which is asked about."""
    low, high = sorted(match.groups(), key=lambda number: float(number.replace(",", ".")))
    return f"{low} to {high}"


_MISSPELT = ("diameter", "thickness", "length", "height", "width", "radius", "inside", "outside")
_OTHER_WORDS = frozenset((
    "weight", "eight", "heights", "lengths", "widths", "with", "insides", "outsides", "insider", "outsider",
    "diameters", "radium",
))  # fmt: skip
"""Words one letter off that mean something else, or are plurals."""


def mended(text: str, words: tuple[str, ...]) -> str:
    """Return a text with those of its words that are a size word one letter off as that word.

    >>> mended("2.5 daimeter x 12 thikness", ("daimeter", "thikness")), mended("weight 5", ("weight",))
    ('2.5 diameter x 12 thickness', 'weight 5')
    """
    for word in words:
        right = _one_letter_off().get(word.lower())
        if right is not None:
            text = re.sub(rf"\b{re.escape(word)}\b", right, text)
    return text


@cache
def _one_letter_off() -> dict[str, str]:
    """Return what size words look like with a letter left out, doubled, wrong, or two changed about."""
    letters = "abcdefghijklmnopqrstuvwxyz"
    found: dict[str, str] = {}
    for right in _MISSPELT:
        cuts = [(right[:at], right[at:]) for at in range(len(right) + 1)]
        for before, after in cuts:
            wrong = {before + letter + after for letter in letters}
            wrong |= {before + letter + after[1:] for letter in letters if after}
            wrong |= {before + after[1:], before + after[1::-1] + after[2:]}
            found |= {word: right for word in wrong if word not in _OTHER_WORDS and word not in _MISSPELT}
    return found
