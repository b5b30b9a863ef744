"""Descriptions that say of which row a part is, and go on with what differs: as item 1 but 30 long, ditto."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache

from quoting.core import SIZE_WORDS, NumberStyle
from quoting.intake.parts.marks import mark_at, plain_signs, shortened
from quoting.intake.texts import without_count
from quoting.shop import Materials

_BUT = (
    r"(?:(?:but|except|however|only|just|with|apart from|aber|jedoch|nur|mit|mais|sauf|avec|seulement|pero"
    r"|salvo|con|solo|ma|per[òo]|tranne|mas|com|s[óo]|maar|alleen|met|ale|tylko|jen|z|s|men|med|bara|kun|mutta"
    r"|vain|fakat|ama|ancak|sadece|de|csak|dar|doar|cu|doch|echter|evenwel|toutefois|cependant|jednak|ov[šs]em"
    r"|v[šs]ak|dock|dog|kuitenkin|azonban|[îi]ns[ăa]|но|только)\b\W*)*"
)
"""Between what a row is like and what differs."""
_ONE_SIZE = (
    r"(?:dia\w*|[io]\.?d\b|ø|thick\w*|thk|wall|length|long|width|wide|height|radius|rad|mat\w*|grade|plate|steel"
    r"|durchm\w*|wand\w*|dicke|l[äa]nge|[ée]pais\w*|longueur|largeur|hauteur|nuance|acier|espes\w*|largo|longitud"
    r"|calidad|spess\w*|lungh\w*|dik\w*|lengte|[śs]redn\w*|grub\w*|d[łl]ug\w*|pr[ůu]m\w*|tlou\w*|d[ée]lk\w*"
    r"|tjock\w*|l[äa]ngd|tykk\w*|l[æe]ngde|halk\w*|paks\w*|pituus|[çc]ap\w*|kal[ıi]n\w*|boy\w*|[áa]tm\w*"
    r"|vastag\w*|hossz\w*)"
)
"""Same dia: only that is like another one."""
_ABOVE = re.compile(
    r"\W*(?:(?:the )?same(?: as (?:above|before|previous))?|as (?:above|before|prev(?:ious)?)|ditto|do\."
    r"|dto|dito|[ií]dem|id\.|desgl(?:eichen)?|dasselbe|wie (?:vor|oben|zuvor)"
    r"|gleiche?r?s?(?: wie (?:vor|oben))?|comme (?:ci-dessus|dessus)"
    r"|l[ae] m[êe]me|m[êe]mes?|come sopra|c\. ?s\.|(?:lo )?stess[oaie]"
    r"|igual(?: (?:al|que el|ao) anterior)?|mism[oa]s?|mesm[oa]s?|als boven|(?:de|het)?zelfde"
    r"|samma(?: som ovan)?|som ovan|samme(?: som over)?|som over|som ovenfor|sama(?: kuin yll[äa])?"
    r"|kuten yll[äa]|j\. ?w\.|jak wy[żz]ej|to samo|tak[ai] sam[aey]?|viz v[ýy][šs]e|tot[ée][žz]|stejn[ýáéa]"
    r"|ayn[ıi](?:s[ıi])?|yukar[ıi]daki gibi|ugyanaz|ugyanolyan|mint fent|la fel|то же|такая же|такой же)"
    rf"(?!\w)(?!\W*{_ONE_SIZE})\W*{_BUT}|\W*同上\W*",
    re.I,
)
_NAMED = re.compile(
    r"(?:[^\W\d_]{3,}\s+){1,2}(?=(?:ditto|dito|[ií]dem|same as|as (?:item|line|pos|no|mark)"
    r"|wie (?:pos|vor|oben)|come (?:sopra|pos)|comme (?:rep|poste?|ci-dessus)|como (?:[ií]tem|pos)|kuten"
    r"|als (?:pos|boven)|jak (?:poz|wy[żz]ej)|som (?:pos|ovan|over)|jako (?:poz|pol)|viz)\b)",
    re.I,
)
"""What the part is called, before it is said to be like another one: shell as item 1."""
_ROW = re.compile(
    r"\W*(?:(?:the )?same as|as(?: per)?|like|identical (?:to|with)|wie|comme|como|come|als|jak|jako|som)\s+"
    r"(?:(?:item|line|row|pos(?:ition)?|mark|no|nr|part|piece|artikel|[ií]tem|partida|poste?|rep(?:[èe]re)?|pol|poz)"
    r"\b[\s.#:]*|#\s*)?"
    rf"(?P<number>(?=\w*-?\d)\w{{1,6}}(?:-\w{{1,4}})?)(?![\w/])\W*{_BUT}",
    re.I,
)
"""A description that says of which row the part is, and goes on with what differs: as item 1 but 30 long."""
_SOME = re.compile(
    r"\b(?:as|like|same|identical|ditto|d[io]to|[ií]dem|wie|gleich\w*|desgl\w*|dasselbe|com[oe]|comme|m[êe]mes?"
    r"|stess\w|igual|m[ie]sm[oa]s?|als|\w*zelfde|samm?[ae]|som|kuten|jak|jako|to samo|tak[ai]|viz|tot[ée][žz]"
    r"|stejn\w|ayn\w*|yukar\w*|ugyan\w+|mint|la fel|то же|так\w+ же)\b|同上|\bc\. ?s\.|\bj\. ?w\."
    r"|\bid\.(?! ?\d)|\bdo\.",
    re.I,
)
"""Words that a row may be said with to be like another one."""
_NUMBERED = re.compile(r"\W*(\d{1,3}[a-z]?)\s*[.:)/°º]", re.I)


@dataclass(frozen=True, slots=True)
class Like:
    """What a description says of another row: its number, or "" for the one above, and what differs."""

    number: str
    rest: str


@lru_cache(maxsize=4096)
def like_another(text: str, style: NumberStyle, materials: Materials) -> Like | None:
    """Return the row that a description names and what it says besides; nothing for any other description."""
    if _SOME.search(text) is None:
        return None
    _, count, part = without_count(text, style, materials)
    part = _NAMED.sub("", part, count=1) if _NAMED.match(part) else part
    match = _ROW.match(part)
    number = match["number"] if match else ""
    match = match or _ABOVE.match(part)
    if match is None or not all(map(_is_of_sizes, _WORD.findall(part, match.end()))):
        return None
    return Like(number, part[match.end() :] + (f" ; {count} off" if count else ""))


_WORD = re.compile(r"[^\W\d_]{3,}(?![\w+-]*\d)")
_PLAIN = frozenset((
    "off", "pcs", "pieces", "each", "only", "and", "but", "half", "halves", "quarter", "round", "segment",
    "segments", "shell", "deg", "degrees", "inch", "inches", "grade", "steel", "stainless", "material",
    "reqd", "required", "nos",
))  # fmt: skip


def _is_of_sizes(word: str) -> bool:
    """Return whether a word is about sizes, pieces or shapes, and no work that the other part has not."""
    plain = plain_signs(word)
    if plain in _PLAIN or plain in SIZE_WORDS:
        return True
    mark = mark_at(plain, 0)
    return (mark is not None and mark.end() == len(plain)) or bool(shortened(plain))


def number_of(text: str) -> str:
    """Return the number that a description begins with, for rows that name it.

    >>> number_of("1) shell"), number_of("10./ shell"), number_of("12 off shell")
    ('1', '10', '')
    """
    match = _NUMBERED.match(text)
    return match[1] if match else ""
