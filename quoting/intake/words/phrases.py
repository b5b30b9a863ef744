"""What the phrases of a text mean for its line, and which of its words say nothing."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Container
from dataclasses import dataclass
from functools import cache, lru_cache, partial
from importlib.resources import files


@dataclass(frozen=True, slots=True)
class Said:
    """A phrase found: what it does (`phrases.toml`), its short name, its words and what they mean."""

    does: str
    name: str
    words: str
    text: str


@dataclass(frozen=True, slots=True)
class _Rule:
    does: str
    name: str
    text: str
    pattern: re.Pattern[str]
    not_with: re.Pattern[str] | None
    beside: bool


@cache
def _rules() -> tuple[_Rule, ...]:
    table = tomllib.loads(files(__package__).joinpath("phrases.toml").read_text(encoding="utf-8"))
    return tuple(
        _Rule(
            rule["does"],
            rule["name"],
            rule["text"],
            re.compile("|".join(rule["any"]), re.I),
            re.compile(rule["not_with"], re.I) if "not_with" in rule else None,
            rule.get("beside", False),
        )
        for rule in table["rule"]
    )


@cache
def harmless() -> frozenset[str]:
    """Return the words that say nothing, in lower case."""
    lines = files(__package__).joinpath("harmless.txt").read_text(encoding="utf-8").splitlines()
    return frozenset(word for line in lines if not line.startswith("#") for word in line.lower().split())


@lru_cache(maxsize=16_384)
def said_in_text(text: str) -> tuple[tuple[Said, ...], str]:
    """Return the phrases of a text that change its line, and the text with a semicolon in their place."""
    found: list[Said] = []
    for rule in _rules():
        if rule.not_with is not None and rule.not_with.search(text):
            continue
        text = rule.pattern.sub(partial(_taken, rule=rule, found=found), text)
    return tuple(found), text


def left_without(text: str, names: Container[str]) -> str:
    """Return a text with its phrases taken out as `said_in_text` does, where one of these is among them."""
    said, rest = said_in_text(text)
    return rest if any(one.name in names for one in said) else text


_BESIDE = re.compile(
    r"\b(?:for|to|onto|on|at|behind|under|below|above|around|near|against|bears on|clear of)"
    r" (?:the|our|your|their|his|existing) (?:[a-z-]+ ){0,2}$",
    re.I,
)
_NOT_WANTED = re.compile(r"(not|no longer|void\w*|cancel\w*|delet\w*|omit\w*|withdrawn|removed)\b", re.I)
_CLAUSE = re.compile(r"[,;:.()\[\]/–—-]")
_OF_THE_LINE = frozenset((
    "item", "items", "line", "lines", "pos", "position", "part", "parts", "mark", "row", "no", "nr", "this",
    "these", "it", "they", "is", "are", "was", "were", "now", "at", "present", "currently", "the", "all",
    "been", "has", "have", "to", "be", "and", "but", "anymore", "longer", "off", "qty", "pcs", "pieces",
))  # fmt: skip


def _of_something(before: str) -> bool:
    """Return whether the clause of a phrase names something that is not the line itself."""
    words = re.findall(r"[^\W\d_]{2,}", _CLAUSE.split(before)[-1].lower())
    return any(word not in _OF_THE_LINE for word in words)


_SIDED = r"i\.?d\.?|o\.?d\.?|(?:(?:inside|outside)\s+)?dia\w*|inside|outside|ø"
_SIZED = rf"(?:length|lgth|lg|long|width|height|ht|{_SIDED}|thk|thick\w*|wall|qty|quantity)"
_SIZE_BEFORE = r"(?:i\.?d\b|o\.?d\b|inside|outside|thk|thick|wall|long\b|lg\b|off\b|pcs\b|pieces\b|nos?\b)"
_STAINLESS = r"3(?:04|09|10|16|17|21|47)[LH]?|1\.\d{4}"
_GRADE = rf"(?:S[2-9]\d\d[A-Z]?\w{{0,4}}|A\d{{2,3}}|{_STAINLESS}|P\d{{3}}[A-Z]\w*|Q\d{{3}}[A-Z]?)"
_OF_THE_PART = re.compile(
    r"\s*[,–]\s*"
    r"(?:(?:make|made|and|but|now|all|it|is|are|be|to|the|with|material|matl|grade|plate|in) )*"
    rf"(?:{_SIZED}\W{{0,3}}(?:is |are |all |now |of |to be )*\d"
    rf"|\d[\d./]*\s?(?:mm|in\b|\")?\s?{_SIZE_BEFORE}"
    rf"|{_GRADE}\b(?![-/]\d))",
    re.I,
)
"""A clause that gives a size, a count or a grade of the part itself, behind what is said of its work."""


def _up_to_the_part(text: str) -> str:
    """Return a phrase without clauses behind it that are about the part: 2B finish, length 1600.

    >>> _up_to_the_part("2B finish, length 1600"), _up_to_the_part("tolerance 2 mm, all")
    ('2B finish', 'tolerance 2 mm, all')
    """
    behind = _OF_THE_PART.search(text)
    return text if behind is None else text[: behind.start()]


_COUNT_BEFORE = re.compile(
    r"\W*(?:(?:item|pos|line|no|nr|mark|mk)\b\W*\d{1,3}\W*)?"
    r"(?:\d{1,3}\W*(?:x|off|pcs?|nos?)?\W*)?(?:[a-z]{3,} )?",
    re.I,
)
_NAMED_PART = re.compile(
    r"\b(?:(?:shells?|cans?|rings?|sheets?|plates?|cones?|cylinders?|sleeves?|pipes?|tubes?|ducts?|liners?"
    r"|segments?)\s+)?"
    r"(?:(?:inside|outside|inner|outer|internal|external|mean)\s+)?"
    r"(?:\d[\d./-]*\s?(?:mm|in\b|\")?\s?(?:[io]\W?d\b|outside|inside|dia\b|x\s?\d)"
    r"|(?:[io]\W?d\b|dia\w*|ø)\W{0,2}\d)",
    re.I,
)
_ON_THE_WAY = frozenset(("delivery",))
"""Freight 48 ID shells to the yard: what is carried is no part to be rolled."""
_NUMBERS = re.compile(r"\d+(?:[./]\d+)*")
_OF_A_PART = 3
"""So many sizes make a part."""


def _up_to_its_name(text: str) -> str:
    """Return a phrase that leads a line without the part behind it: painted shells 48 ID x 1/4 x 60 long.

    >>> _up_to_its_name("painted shells 48 ID x 1/4 thk x 60 long"), _up_to_its_name("painted 48 ID")
    ('painted ', 'painted 48 ID')
    """
    match = _NAMED_PART.search(text)
    if match is None or match.start() == 0 or len(_NUMBERS.findall(text[match.start() :])) < _OF_A_PART:
        return text
    return text[: match.start()]


def _taken(match: re.Match[str], rule: _Rule, found: list[Said]) -> str:
    whole = match.group()
    kept = _up_to_the_part(whole) if rule.does in _SAYS else whole
    leads = rule.does in _SAYS and rule.name not in _ON_THE_WAY
    leads = leads and _COUNT_BEFORE.fullmatch(match.string[: match.start()]) is not None
    kept = min(kept, _up_to_its_name(whole), key=len) if leads else kept
    words = " ".join(kept.split()).strip(" ,;.-")
    if not words or (rule.beside and _BESIDE.search(match.string[: match.start()])):
        return match.group()
    does = rule.does
    if (
        does == "out"
        and match.string[: match.start()].strip(" -–(,;*")
        and match.string[match.end() :].strip(" -–),;.*")
    ):
        does = "ask"  # in the middle of a sentence it may be about something else
    if does == "out" and _NOT_WANTED.match(words) and _of_something(match.string[: match.start()]):
        does = "ask"  # stiffeners not required: it may be they that are not wanted, and the line is
    found.append(Said(does, rule.name, words, rule.text))
    rest = whole[len(kept) :]
    return f" {rest}" if leads and rest else f" ; {rest}"


_SAYS = ("say", "work", "note", "soft")
