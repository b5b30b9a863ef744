"""Statements that correct one size of one line: length was 1500 now 1650, 10 thk i.l.o. 8, 3 off not 2."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache

_LONGEST = 120
_FIELDS = {
    "thickness": r"thick(?:ness)?|thk\.?|wall|vastags\w*|grubo\w*|tlou\w*|tykkel\w*|tjockl\w*|paksuu\w*"
    r"|kal[ıi]nl\w*|grosim\w*|debljin\w*|толщин\w*",
    "length": r"length|lgth|lg\.?|long|hossz\w*|d[lł]ugo\w*|d[eé]lk\w*|l[aæä]ngd\w*|pituu\w*|uzunlu\w*"
    r"|lungim\w*|du[lž]jin\w*|длин\w*",
    "width": r"width|wide",
    "diameter": r"(?:inside |outside )?dia(?:m|meter)?\.?|inside|outside|[aá]tm[eé]r\w*|[sś]rednic\w*"
    r"|pr[uů]m[eě]r\w*|[cç]ap\w*|halkais\w*|диаметр\w*",
    "quantity": r"qty|quantity|off|pcs|pieces?|darab\w*|stk|szt|kpl|ks|adet|buc|kom|шт\w*",
}
_NUMBER = r"(?<![A-Za-z\d.,/-])\d{1,5}(?:[.,]\d{1,2})?(?:\s?(?:mm\b|\"))?(?![\w/-]|[.,]\d)"
_ITEM = re.compile(
    r"(?:\b(?:items?|lines?|po[sz]\w*|pol(?:o[zž]k\w*)?|t[eé]tel|kalem|osa|kohta"
    r"|rep(?:[eè]re)?|mark|part|поз\w*)\.?"
    r"\s*(?:no\.?\s*)?|№\s?)(?P<one>\d{1,4})(?!\d)"
    r"|\b(?P<two>\d{1,4})\.\s?(?:t[eé]tel\w*|kalem\w*|osa\w*|poz[ií]c\w*|polo[zž]k\w*|pozycj\w*)"
    r"|第\s?(?P<three>\d{1,4})\s?项",
    re.I,
)
_REVISION = re.compile(r"\brev(?:ision)?\.?\s?[A-Z0-9]{1,2}\b", re.I)
_INSTEAD = re.compile(
    r"i\.?\s?l\.?\s?o\.?|in lieu of|instead of|and not|not|no longer|statt|anstatt"
    r"|anstelle von|und nicht|nicht"
    r"|au lieu de|et non|pas|en lugar de|en vez de|y no|no|invece di|anzich[eé]|e non|non|i\.?p\.?v\.?"
    r"|in plaats van|en niet|niet|em vez de|e n[aã]o|n[aã]o|zamiast|a nie|nie|m[ií]sto|a ne"
    r"|ne|i st[aä]llet f[oö]r|inte"
    r"|i stedet for|ikke|вместо|а не|не|в место",
    re.I,
)
_TO = re.compile(
    r"→|->|=>|(?:is |are )?now|becomes?|(?:was |is )?(?:changed|revised|corrected|amended"
    r"|increased|reduced) to"
    r"|to|auf|[aà]|na|til{1,2}|naar",
    re.I,
)
_PLAIN_TO = re.compile(
    r"(?<!changed )(?<!revised )(?<!corrected )(?<!amended )\b(?:to|auf|[aà]|na|til{1,2}|naar)\b",
    re.I,
)
_NOT = re.compile(r"\b(?:not|nicht|no|non|niet|n[aã]o|nie|ne|inte|ikke|nem|не)\b", re.I)
_BUT = re.compile(r"but|sondern|sino|mais|ma|bens[iì]|maar|mas|ale|lecz|n[yý]br[zž]|men|utan|hanem|а", re.I)
_FOR_OLD = re.compile(r"helyett|yerine", re.I)
_WAS = re.compile(r"\b(?:was|war|[eé]tait|era|by[lł][oa]?|var|oli|volt|[eé]rait)\b", re.I)
_NOW = re.compile(
    r"\b(?:now|is now|jetzt|nun|neu|maintenant|ahora|ora|adesso|nu|teraz|nyn[ií]|nyt|most|acum|sada|şimdi)\b"
    r"|→|->|=>",
    re.I,
)
_CHANGED = re.compile(
    r"\b(?:chang|revis|correct|korr|corr|ge[aä]nd|aender|[aä]nder|modif|cambi|variat|zmien|zm[eě]n|[aä]ndra"
    r"|[aæ]ndr|endr|muut|de[gğ]i[sş]|m[oó]dos|измен|испр|rectif|gewijz|wijzig|oprav|popraw"
    r"|helyes|spr[aá]vn)\w*"
    r"|更正|改为|应为|should be|debe ser|deve essere|moet zijn|m[aá] b[yý]t|powinno by[cć]"
    r"|skal v[aæ]re|ska vara",
    re.I,
)
_OPEN = re.compile(
    r"\?|\b(?:or|oder|ou|lub|nebo|eller|vagy|veya|tai|min\w*|max\w*|tb[acd]|approx|ca|circa"
    r"|about|maybe|if|each|per"
    r"|hold|cancel\w*|delet\w*|material|grade|weld\w*|bevel\w*|half|halves|only if"
    r"|add|plus|more|less|later|then|rest|balance|remainder|first|next|extra|so far|before)\b|[+±~Ø°]",
    re.I,
)
_MOST_WORDS = 6
"""Other words than those of the correction: more of them say more than it."""


@dataclass(frozen=True, slots=True)
class Correction:
    """A corrected size: its field, the new number, and the old one where the statement tells it."""

    field: str
    new: str
    old: str = ""


def corrected_item(text: str) -> tuple[str, str]:
    """Return the number of the one line that a text names, and the text without it; nothing for others.

    >>> corrected_item("item 2 only: 10 thk i.l.o. 8"), corrected_item("items 1 and 2: 10 thk")
    (('2', '  only: 10 thk i.l.o. 8'), ('', ''))
    """
    found = list(_ITEM.finditer(text))
    several = re.search(r"\b(?:items|lines)\b", text, re.I)
    if len(found) != 1 or several:
        return "", ""
    number = next(group for group in found[0].groups() if group)
    return number, f"{text[: found[0].start()]} {text[found[0].end() :]}"


@lru_cache(maxsize=4096)
def correction_in(text: str) -> Correction | None:
    """Return what a text corrects, where it says one size, its new number and how that comes about.

    >>> correction_in("length was 1500 now 1650"), correction_in("3 off not 2 !")
    (Correction(field='length', new='1650', old='1500'), Correction(field='quantity', new='3', old='2'))
    >>> correction_in("length 1650 or 1500"), correction_in("10 thk")
    (None, None)
    """
    if len(text) > _LONGEST or not any(sign.isdigit() for sign in text):
        return None
    plain = _REVISION.sub(" ", text)
    if _OPEN.search(plain):
        return None
    fields = {name for name, words in _FIELDS.items() if re.search(rf"(?<!\w)(?:{words})(?!\w)", plain, re.I)}
    numbers = list(re.finditer(_NUMBER, plain))
    figures = re.findall(r"\d+(?:[.,]\d+)*", plain)
    words = re.findall(r"[^\W\d_]{3,}", plain)
    if len(fields) != 1 or not 1 <= len(numbers) == len(figures) <= 2 or len(words) > _MOST_WORDS + 2:
        return None
    field = fields.pop()
    found = [match.group() for match in numbers]
    if len(numbers) == 1:
        return Correction(field, found[0]) if _CHANGED.search(plain) else None
    return _of_two(field, found, plain, (numbers[0].end(), numbers[1].start()), numbers[1].end())


def _of_two(field: str, found: list[str], text: str, gap: tuple[int, int], end: int) -> Correction | None:
    """Return a correction that says both numbers; which one is the old one the words between them tell."""
    between, behind = text[gap[0] : gap[1]], text[end:]
    first, second = found
    if _FOR_OLD.search(between):
        return Correction(field, second, first)
    if _WAS.search(text[: gap[0]]) and (_NOW.search(between) or _NOW.search(behind)):
        return Correction(field, second, first)
    became = _whole(_TO, between, field) and (_CHANGED.search(text) or not _PLAIN_TO.search(between))
    if became or (_NOT.search(text[: gap[0]]) and _whole(_BUT, between, field)):
        return Correction(field, second, first)
    if _whole(_INSTEAD, between, field) or _whole(_WAS, between, field):
        return Correction(field, first, second)
    return None


def _whole(pattern: re.Pattern[str], between: str, field: str) -> bool:
    """Return whether two numbers have nothing between them but these words and the name of the size."""
    left = re.sub(rf"(?<!\w)(?:{_FIELDS[field]})(?!\w)", " ", between, flags=re.I)
    return any(pattern.fullmatch(left.strip(signs)) for signs in (" ,;:.()-–!", " ,;:()-–!", " "))
