"""Descriptions that say of which row a part is, and go on with what differs: as item 1 but 30 long, ditto."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache

from quoting.core import NumberStyle
from quoting.intake.texts import without_count
from quoting.shop import Materials

_BUT = (
    r"(?:(?:but|except|however|only|just|with|apart from|aber|jedoch|nur|mit|mais|sauf|avec|seulement|pero"
    r"|salvo|con|solo|ma|per[òo]|tranne|mas|com|s[óo]|maar|alleen|met|ale|tylko|jen|z|s|men|med|bara|kun|mutta"
    r"|vain|fakat|ama|ancak|sadece|de|csak|dar|doar|cu|но|только)\b\W*)*"
)
"""Between what a row is like and what differs."""
_ABOVE = re.compile(
    r"\W*(?:(?:the )?same(?: as (?:above|before|previous))?|as (?:above|before|prev(?:ious)?)|ditto|do\."
    r"|dto|dito|[ií]dem|id\.|desgl(?:eichen)?|dasselbe|wie (?:vor|oben|zuvor)"
    r"|gleiche?r?s?(?: wie (?:vor|oben))?|comme (?:ci-dessus|dessus)"
    r"|l[ae] m[êe]me|m[êe]mes?|come sopra|c\. ?s\.|(?:lo )?stess[oaie]"
    r"|igual(?: (?:al|que el|ao) anterior)?|mism[oa]s?|mesm[oa]s?|als boven|(?:de|het)?zelfde"
    r"|samma(?: som ovan)?|som ovan|samme(?: som over)?|som over|som ovenfor|sama(?: kuin yll[äa])?"
    r"|kuten yll[äa]|j\. ?w\.|jak wy[żz]ej|to samo|tak[ai] sam[aey]?|viz v[ýy][šs]e|tot[ée][žz]|stejn[ýáéa]"
    r"|ayn[ıi](?:s[ıi])?|yukar[ıi]daki gibi|ugyanaz|ugyanolyan|mint fent|la fel|то же|такая же|такой же)"
    rf"(?!\w)\W*{_BUT}|\W*同上\W*",
    re.I,
)
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
    match = _ROW.match(part)
    number = match["number"] if match else ""
    match = match or _ABOVE.match(part)
    if match is None:
        return None
    return Like(number, part[match.end() :] + (f" ; {count} off" if count else ""))


def number_of(text: str) -> str:
    """Return the number that a description begins with, for rows that name it.

    >>> number_of("1) shell"), number_of("10./ shell"), number_of("12 off shell")
    ('1', '10', '')
    """
    match = _NUMBERED.match(text)
    return match[1] if match else ""
