"""What holds figures in a text about a part and is no size: counts, weights, codes, grades, tolerances."""

from __future__ import annotations

import re

from quoting.intake.parts.numbers import END, PLAIN_NUMBER
from quoting.intake.parts.snippet import Kind, Snippet

_BEHIND = re.compile(
    rf"\s?(?:kgs?|lbs?|tons?|tonnes?|nos?|off|pcs?|pce|pieces?|ea|each|reqd|req'd|required|sets?"
    rf"|stk|stuck|stueck|st|hb|hbw|pieces?|piezas?|pz|uds?|u|un|szt|ks|db|kpl|adet|ad(?=\.)|buc|kom"
    rf"|l(?:it(?:er|re)s?|trs?)|m[²³23]|bar|psi|days?|weeks?"
    rf"|cans?|shells?|rings?|courses?|crs|sections?|strakes?|cones?|segments?|viroles?|virolas?|anelli"
    rf"|anillos?|halve|half|halves|demi|medias?|schusse|ringen?|mantels?|grade|per){END}\.?"
    r"|\s?[%€$£#件]|/(?=\s?[^\W\d_ø])"
)
"""Behind a number that is no size: a weight, a count, a volume."""
_BEFORE = re.compile(
    r"(?<![^\W\d_])(?:qty|quantity|pcs|stuck|stk|menge|anz(?:ahl)?|qte|cant(?:idad)?|szt|kom|kpl|no|nr|n°|pos"
    r"|item|line|mark|rev|lot|area|rep|repere|poste?|poz|partida|art(?:ikel)?|teil|part"
    r"|detail|det|mk|dwg|drg|plan|zeichnung|zchng|hb|aisi|inox|type|tp|sheet|sht|#"
    r"|(?P<part>course|strake|crs|anel|anillo|trecho|ring|virole|schuss))\.?\s*[:=#.]?\s*$"
)
"""Before a number that is no size: a count, a name, a grade; a part bears a small number only."""
_LISTED = re.compile(r"\d{1,3}(?:[.)]\s|[;,:]\s?(?=[\u4e00-\u9fff]))")
"""1. shell: the number of the line."""
_LETTER_BEFORE = re.compile(r"[^\W\d_][.=: ]{0,2}$")
_NUMBER_BEHIND = re.compile(r"\s?\d")
_GRADE_BEFORE = re.compile(r"(?<![^\W\d_])gr(?:ade)?\.?\s?$")
_LEAST_GRADE = 30
"""gr 50, grade 350; a smaller number behind these letters is the thickness in several languages."""
_CODE = re.compile(
    r"[^\W\d_\u4e00-\u9ffføδ]{1,8}[-/.]?\d(?:[\w.-]|/(?![^\W\d_]{2}))*|\d+[a-z]*-\d[\w-]*[a-z]\w*|\d{2,}-\d{3,}[\w-]*"
)
_SIZED = re.compile(r"[\d./,]*(?:mm|m|cm|in|ft|x[\d./,]*)?")
_OFF = re.compile(
    r"\(\s*x?\s?\d{1,3}\s*\)|x\d{1,2}(?=\s*(?:$|\)))|[+±]\s?/?\s?-?\s?\d+(?:[.,/]\d+)?(?:\s?mm)?"
)
"""(3), x2 at the end, +/-3."""
_SHARE = re.compile(
    r"1/([3579]|10|12)(?![\d/])|1/(\d{1,2})\s(?=(?:of|de|di|d'|von|van|av|af|shell|seg|vir)\w*)"
)
_MASS = re.compile(
    r"(?:approx|app|appr|ca|circa|about|env|wt|weight|gewicht|gew|peso|poids|waga|vikt)\.?\s?[:=~]?\s?"
    r"\d+(?:[.,]\d+)?\s?t(?![^\W_])"
)
"""approx 5.4t, wt 12 t: no thickness."""
_SHARE_IN_WORDS = re.compile(
    r"(?<![^\W\d_])(?:(?P<half>mitja canya|mitges canyes|mitja virolla|mig tub|mig cilindre|mitja lluna"
    r"|polucilindar|polucijev|poluljuska|poluprsten|polukrug|polovica (?:cijevi|plasta|prstena)"
    r"|polvalec|polkruh|polrura|polovica (?:rury|plasta)|setengah (?:pipa|silinder|lingkaran|tabung))"
    r"|(?P<quarter>quart de (?:virolla|cilindre|cercle)|cetvrtina (?:cijevi|plasta|prstena|kruga)|stvrtkruh"
    r"|seperempat (?:pipa|silinder|lingkaran|tabung)))(?![^\W\d_])"
)
"""Parts of a circle in languages that the rest of the reader does not know."""
_STOCK_NUMBER = re.compile(r"\d{6,}(?![\w.,])")
"""No size has six figures."""
_STEEL = re.compile(r"1\.[04]\d{3}(?!\d)")
"""Numbers of EN 10027-2: 1.4301."""
_NAMED = re.compile(
    rf"api[ -]?5l[a-z]?(?:[ -]?(?:x\d\d|psl\s?\d|gr(?:ade)?\.?\s?[a-d]{END}))*|gr(?:ade)?\.?\s?[a-d]{END}"
    r"|[^\W\d_]+\s(?:en|iso|din|bs)\s?\d{3,5}(?:-\d+)*"
)
"""Names of grades and standards that no shop need have in its book."""
_LETTERED = re.compile(r"\W*(?:(?:[a-z]|\d{1,2})\s?[).:]\s*)?")
_MOST_COUNTED = 99
_FULL_CIRCLE, _HALF_CIRCLE = 360, 180


def no_size_at(text: str, at: int) -> Snippet | None:
    """Return the figures that begin here where they are no size; `text` is in plain signs.

    >>> no_size_at("2 off", 0).end, no_size_at("1/3 of a ring", 0).value, no_size_at("2 x 4", 0)
    (5, 120.0, None)
    """
    figure = text[at].isdecimal()
    if figure and not text[:at].strip() and (match := _LISTED.match(text, at)):
        return Snippet(Kind.OTHER, at, match.end())
    if text[at] in "mpqcs" and (match := _SHARE_IN_WORDS.match(text, at)):
        return Snippet(Kind.OTHER, at, match.end(), _HALF_CIRCLE / (1 if match["half"] else 2), "deg")
    if figure and (match := _SHARE.match(text, at)):
        return Snippet(Kind.OTHER, at, match.end(), _FULL_CIRCLE / int(match[1] or match[2]), "deg")
    names = (
        (_CODE, _STEEL, _STOCK_NUMBER) if figure else () if text[at - 1 : at].isalnum() else (_NAMED, _MASS)
    )
    match = next((found for one in (_OFF, *names) if (found := one.match(text, at))), None)
    if match is not None or not figure:
        return None if match is None else Snippet(Kind.OTHER, at, match.end())
    number = PLAIN_NUMBER.match(text, at)
    return None if number is None else _told_by_words(text, number)


def _told_by_words(text: str, number: re.Match[str]) -> Snippet | None:
    """Return a number as none of a size for the word before or behind it: 2 off, 8/set, grade 350."""
    behind = _BEHIND.match(text, number.end())
    if (
        behind is not None
        and _NUMBER_BEHIND.match(text, behind.end())
        and _LETTER_BEFORE.search(text[: number.start()])
    ):
        return Snippet(Kind.UNCLEAR, number.start(), behind.end())  # g 8 buc 2
    if behind is not None:
        return Snippet(Kind.OTHER, number.start(), behind.end())
    of_feet_or_inches = text[number.end() : number.end() + 1] in ("'", '"', "/", "-")
    led = _is_led(text, number)
    if not led and number.group().isdecimal() and int(number.group()) >= _LEAST_GRADE:
        led = _GRADE_BEFORE.search(text[: number.start()]) is not None
    if of_feet_or_inches or not led:
        return None
    return Snippet(Kind.OTHER, number.start(), number.end())


def _is_led(text: str, number: re.Match[str]) -> bool:
    """Return whether a word before a number says that it is no size: ring 2 is a name, ring 1450 none."""
    match = _BEFORE.search(text[: number.start()])
    if match is None or match["part"] is None:
        return match is not None
    return number.group().isdecimal() and int(number.group()) <= _MOST_COUNTED


def code_at(text: str, at: int) -> Snippet | None:
    """Return the name with figures in it that begins here: CAN-07, S355J2."""
    match = _CODE.match(text, at)
    return None if match is None else Snippet(Kind.OTHER, at, match.end())


def begins_a_code(text: str, start: int, end: int) -> bool:
    """Return whether what looks like a mark begins the name of something: H48B, T-101.

    >>> begins_a_code("h48b", 0, 1), begins_a_code("h48 x 3", 0, 1)
    (True, False)
    """
    match = _CODE.match(text, start)
    if match is None or match.end() <= end:
        return False
    rest = text[end : match.end()].lstrip("-/.=:")
    if text[match.end() : match.end() + 1] in ('"', "'"):
        return False
    return text[end : end + 1] == "-" or _SIZED.fullmatch(rest) is None


def may_be_a_name(number: Snippet) -> bool:
    """Return whether a number is small, whole and bare, as counts and the numbers of parts are."""
    return number.value.is_integer() and number.value <= _MOST_COUNTED and not number.unit


def is_counted(text: str, number: Snippet) -> bool:
    """Return whether a number that begins a text, after a letter or a number of the line, may be a count."""
    return may_be_a_name(number) and _LETTERED.fullmatch(text[: number.start]) is not None
