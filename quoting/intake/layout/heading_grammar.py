"""Reads a heading that is no known phrase word by word: what it is about, on which side of the plate."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

from quoting.core import Basis
from quoting.intake.words import folded

_TOKEN = re.compile(r"[^\W\d_]+")
_SIGNS = re.compile(r"[\u4e00-\u9fff\u1100-\u11ff]")
_D_OF = re.compile(r"(?:[dø]|r)\s?\.?\s?(?:([iw])|([aeouyz])|(m))")
"""Di, Da, Ø e, Ri: a size and the side of the plate it is on, in the one-letter forms of drawings."""
_SHORTEST = 3
_WHOLE_WORDS = frozenset(
    (
        "out",
        "mid",
        "ins",
        "par",
        "pro",
        "end",
        "cut",
        "lot",
        "row",
        "run",
        "van",
        "mas",
        "gap",
        "sub",
        "sec",
        "ape",
        "ouv",
    )
)
_FUZZY = 5
_VERY_FUZZY = 9
_MEASURES = frozenset((
    "quantity", "thickness", "diameter", "radius", "length", "height", "width", "girth", "angle", "chord",
    "rise", "circumference",
))  # fmt: skip
_ROUND = frozenset(("diameter", "radius", "large", "small", "circumference"))
_ALONG = frozenset(("length", "height", "width"))
_STRONG = (
    "carried", "weight", "tolerance", "certificate", "drawing", "revision", "due", "remarks", "edge", "seam",
)  # fmt: skip
_NAMES = ("material", "description", "part_no", "number")
GAUGES = frozenset(("ga", "gauge", "gage"))
_ACROSS = frozenset(("id", "od"))
"""Words of a side that are those of a diameter."""
_COUNTS = frozenset(("no", "nos", "number", "num", "nr", "n", "qty"))
_RINGS = frozenset((
    "ring", "rings", "course", "courses", "strake", "strakes", "tier", "circle", "layer", "row",
    "anel", "anillo", "anello", "virole", "virola", "schuss", "pierscien", "skruz", "svep", "krans",
))  # fmt: skip
_PARTS_OF_RINGS = (
    "plate", "seg", "petal", "sector", "section", "panel", "chapa", "plancha", "placa", "tole", "blech",
    "lamier", "plaat", "plech", "blach",
)  # fmt: skip
"""What is counted for one ring or tank: plates/strake, seg per bin."""
_PARTS_COUNTED = frozenset((
    "shells", "rings", "cans", "cones", "cylinders", "halves", "panels", "sleeves", "liners", "tubes",
    "pipes", "drums", "sections", "parts", "courses", "schusse", "schalen", "viroles", "virolas", "anillos",
))  # fmt: skip
_NUMBERS = frozenset(("no", "nos", "number", "num"))
_OF = frozenset(("of", "de", "di", "von", "van"))
_OF_AN_END = frozenset(("end", "ends"))
_ABOVE = {
    "circumference": ("length", "width"),
    "girth": ("length", "width"),
    "chord": ("length", "width"),
    "rise": ("height", "length"),
}
"""What a developed length or the height of a rise is about: the first word, not the second."""


@dataclass(frozen=True, slots=True)
class HeadingRead:
    """What the words of a heading are about; `unknown` are those that nothing explains."""

    field: str
    basis: Basis | None = None
    unknown: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class _Patterns:
    """Words of one meaning: whole ones, beginnings, ends of compounds, and signs found anywhere."""

    whole: frozenset[str]
    begins: tuple[str, ...]
    ends: tuple[str, ...]
    signs: tuple[str, ...]

    def match(self, token: str) -> bool:
        return token in self.whole or token.startswith(self.begins) or token.endswith(self.ends)


@dataclass(frozen=True, slots=True)
class _Roots:
    roles: dict[str, _Patterns]
    sides: dict[str, _Patterns]
    words: dict[str, _Patterns]
    ends: dict[str, _Patterns]
    spelled: tuple[str, ...]
    begun: tuple[tuple[str, str], ...]


def _patterns(words: Iterable[str]) -> _Patterns:
    words = tuple(map(folded, words))
    return _Patterns(
        frozenset(word for word in words if "*" not in word),
        tuple(word[:-1] for word in words if word.endswith("*")),
        tuple(word[1:] for word in words if word.startswith("*")),
        tuple(word for word in words if _SIGNS.search(word)),
    )


@cache
def _roots() -> _Roots:
    data = tomllib.loads(files(__package__).joinpath("heading_roots.toml").read_text(encoding="utf-8"))
    roles, sides, words, ends = (
        {
            name: _patterns((*words, *data.get(f"more_{part}", {}).get(name, ())))
            for name, words in data[part].items()
        }
        for part in ("roles", "sides", "words", "ends")
    )
    known = {word for part in ("roles", "sides") for words in data[part].values() for word in words}
    plain = (word for word in known if len(word) >= _FUZZY and word.isalpha() and word.isascii())
    begun = tuple(
        (word.strip("*"), name)
        for part in ("roles", "sides")
        for name, found in data[part].items()
        if part == "sides" or name in _MEASURES or name in _NAMES
        for word in found
        if not word.startswith("*") and len(word.strip("*")) > _SHORTEST
    )
    return _Roots(roles, sides, words, ends, tuple(sorted(plain)), begun)


def heading_read(header: str) -> HeadingRead | None:  # noqa: PLR0911 - a return for each kind of heading
    """Return what a heading is about by its words; None when they do not say one thing.

    >>> heading_read("Shell inside diameter"), heading_read("Blechdicke (max)")
    (HeadingRead(field='diameter', basis=<Basis.INSIDE: 'inside'>, unknown=()), None)
    """
    if any(sign.isdecimal() for sign in header) or " x " in header.lower():
        return None
    plain = _plain(header)
    tokens = _TOKEN.findall(plain)
    if not tokens:
        return None
    bare = tokens[1:] if len(tokens) == 3 and _roots().words["idle"].match(tokens[0]) else tokens  # Rohr-Ø a
    if len(bare) < 3 and (letters := _of_a_drawing("".join(bare), plain)):
        return letters
    seen = _Seen()
    if _per_unit(header, tokens):
        ring = tokens[0].startswith(_PARTS_OF_RINGS) and tokens[-1] in _RINGS
        return HeadingRead("per_ring" if ring else "per_unit")
    if _of_units(tokens):
        return HeadingRead("multiplier")
    words = _roots().words
    if len(tokens) > 1 and words["per"].match(tokens[0]) and all(map(words["units"].match, tokens[1:])):
        return HeadingRead("per_unit")
    if len(tokens) == 1 and tokens[0].endswith("s") and _roots().words["units"].match(tokens[0]):
        return HeadingRead("multiplier")
    short = False
    for token in tokens:
        if seen.take(token) or seen.take(_spelled(token)):
            continue
        if seen.take(_short_for(token)):
            short = True
        else:
            seen.unknown.append(token)
    counts = tokens[0] in _COUNTS and tokens[1:2] and tokens[1] in _OF
    seen.either = "/" in header
    found = None if short and seen.unknown else seen.meaning()
    if found and found.field == "length" and any(map(_OF_AN_ARC.match, tokens)):
        side = next(iter(seen.sides), "") if len(seen.sides) < 2 else ""
        return HeadingRead("arc_length", Basis(side) if side else None, found.unknown)
    # No. of halves: a count of something, and no number of a line
    found = None if counts and found and found.unknown and found.field == "number" else found
    return found or (HeadingRead("basis") if seen.names_both_sides() else None)


_OF_AN_ARC = re.compile(
    r"(?:arcs?|arco|arcul(?:ui)?|luku?|oblouku?|obluku?|kaaren|yay|дуги)$"
    r"|boogl|bogenl|bagl|buel|kaarip|ivhossz"
)
"""Words of a length that lies round the roll: booglengte, longueur d'arc, délka oblouku."""


def _of_a_drawing(letters: str, plain: str) -> HeadingRead | None:
    """Return what the letters of a drawing name: Di, Ø a, Rm; a lone r or d names no side."""
    match = _D_OF.fullmatch(letters.replace("ø", "d")) or _D_OF.fullmatch(plain.strip())
    if match is None:
        return None
    inside, outside, _ = match.groups()
    basis = Basis.INSIDE if inside else Basis.OUTSIDE if outside else Basis.MEAN
    return HeadingRead("radius" if letters[0] == "r" else "diameter", basis)


def _per_unit(header: str, tokens: list[str]) -> bool:
    """Return whether a heading counts pieces for one unit: Qty/tank, Stück je Behälter."""
    roots = _roots()
    words = roots.words
    counted = next((at for at, token in enumerate(tokens) if roots.roles["quantity"].match(token)), None)
    if counted is None and (tokens[0] in _COUNTS or tokens[0].startswith(_PARTS_OF_RINGS)):
        counted = 0
    if counted is None and tokens[0] in _PARTS_COUNTED and words["units"].match(tokens[-1]):
        counted = 0  # Shells/bin
    if counted is None or len(tokens) <= counted + 1 or any(map(roots.roles["weight"].match, tokens)):
        return False  # Gew./Stk. is the weight of one
    after = tokens[counted + 1 :]
    joined = "/" in header or any(words["per"].match(token) for token in after)
    nouns = [token for token in after if len(token) > 1 and not words["per"].match(token)]
    return joined and len(nouns) == 1 and not words["pieces"].match(nouns[0]) and _is_noun(nouns[0])


def _of_units(tokens: list[str]) -> bool:
    """Return whether a heading counts the units themselves: No. of sets, number of tanks."""
    words = _roots().words
    rest = [token for token in tokens[1:] if not words["idle"].match(token) or words["units"].match(token)]
    counted = tokens[0] in _COUNTS or _roots().roles["quantity"].match(tokens[0])
    linked = any(token in _OF for token in tokens[1:])
    linked = linked or (tokens[0] in _NUMBERS and len(tokens) == 2 and tokens[1].endswith("s"))
    return counted and linked and len(rest) == 1 and words["units"].match(rest[0])


def _is_noun(token: str) -> bool:
    roots = _roots()
    other = any(words.match(token) for words in roots.roles.values())
    return roots.words["units"].match(token) or not other


def _short_for(token: str) -> str:
    """Return the known word that a token begins, or whose consonants it is: brei, lngth; "" for several.

    What words say must be one thing: `des` begins description and drawing, and is neither.
    """
    if len(token) < _SHORTEST or not token.isalpha() or token in _WHOLE_WORDS:
        return ""
    found = {name: word for word, name in _roots().begun if word.startswith(token)}
    if not found and not set(token[1:]) & set("aeiouy"):
        found = {name: word for word, name in _roots().begun if _consonants_of(token, word)}
    return next(iter(found.values())) if len(found) == 1 else ""


def _consonants_of(token: str, word: str) -> bool:
    """Return whether a token is the first letter of a word and most of its later consonants, in order."""
    if word[0] != token[0]:
        return False
    left = iter(word[1:])
    inner = [sign for sign in word[1:] if sign not in "aeiouy"]
    return all(sign in left for sign in token[1:]) and 2 * (len(token) - 1) >= len(inner)


def sides_of(text: str) -> frozenset[Basis]:
    """Return the sides of the plate that the words of a text name.

    >>> sorted(sides_of("all Ø ext."))
    [<Basis.OUTSIDE: 'outside'>]
    """
    found = set()
    for token in _TOKEN.findall(_plain(text)):
        for name, words in _roots().sides.items():
            if words.match(token) or (token[0] in "dø" and token[1:] in words.whole):
                found.add(Basis(name))
    return frozenset(found)


def is_word(kind: str, text: str) -> bool:
    """Return whether a text holds a word of a kind of `heading_roots.toml`: a role, `other`, `units`."""
    roots = _roots()
    words = roots.roles.get(kind) or roots.ends.get(kind) or roots.words[kind]
    return any(words.match(token) for token in _TOKEN.findall(_plain(text)))


def _plain(header: str) -> str:
    header = _MIDDLE.sub(" neutral ", _DOTTED_SIDE.sub(r" \1/S ", header))
    plain = re.sub(r"\b([io])\s?/\s?d(?:ia\w*)?\b", r"\1d", _SIGN_OF_ROUND.sub(" ø ", folded(header)))
    return _SIDE_OF.sub(lambda match: "inside" if "i" in match.groups() else "outside", plain)


_SIGN_OF_ROUND = re.compile(r"(?<![^\W\d_])ø|ø(?![^\W\d_])")
"""The sign of a diameter; between letters it is one of them: høyde."""
_MIDDLE = re.compile(r"[(\[]\s*(?:mid|middle|midden|mitte|milieu|mitt|midt)\.?\s*[)\]]", re.I)
_SIDE_OF = re.compile(r"\b([io])\s?/\s?s\b|(?<=[(\[])\s*([io])\.?\s?s\.?\s*(?=[)\]])")
_DOTTED_SIDE = re.compile(r"\b([IO])\.\s?S\.(?!\w|\s*:?\s*\d)")
"""I.S., the inside; I.S. 2062 is a standard."""
"""I/S, (I.S.): the inside."""


class _Seen:
    """What the words of one heading have said so far."""

    def __init__(self) -> None:
        self.roles: set[str] = set()
        self.sides: set[str] = set()
        self.weak: set[str] = set()
        self.ends: set[str] = set()
        self.other = False
        self.units = False
        self.nothing = False
        self.round = False
        self.across = False
        self.gauge = False
        self.either = False
        self.unknown: list[str] = []

    def take(self, token: str) -> bool:
        """Take a word; return whether anything explains it."""
        if not token:
            return False
        roots = _roots()
        signs = _SIGNS.search(token) is not None
        roles = {name for name, words in roots.roles.items() if _says(words, token, signs=signs)}
        sides = {name for name, words in roots.sides.items() if _says(words, token, signs=signs)}
        if token[0] in "dø" and not roles:  # Dext, Øinw
            sides |= {name for name, words in roots.sides.items() if token[1:] in words.whole}
        self.across = self.across or token in _ACROSS or (token[0] in "dø" and bool(sides))
        weak = {name for name in ("weak_thickness", "weak_due") if roots.words[name].match(token)}
        idle = roots.words["idle"].match(token)
        of_an_end = (bool(self.ends) and token in _OF_AN_END) or token == "d"
        self.round = self.round or of_an_end
        other = roots.words["other"].match(token) and not idle and not of_an_end
        if other:
            roles = set()
        self.gauge = self.gauge or token in GAUGES
        self.nothing = self.nothing or roots.words["else"].match(token)
        self.units = self.units or roots.words["units"].match(token)
        self.roles |= roles
        self.sides |= sides
        self.weak |= weak
        ends = {name for name, words in roots.ends.items() if words.match(token)}
        self.ends |= ends
        self.other = self.other or other
        return bool(roles or sides or weak or other or idle or ends or of_an_end)

    def _of_one_end(self) -> bool:
        """Return whether the words are one end of a cone and its diameter: large end OD, Ø small."""
        round_ = bool(self.roles or self.round or self.sides)
        return len(self.ends) == 1 and not self.roles - {"diameter"} and not self.other and round_

    def names_both_sides(self) -> bool:
        """Return whether the words are the two sides of the plate and no more: Innen/Außen."""
        return self.sides == {"inside", "outside"} and not (self.roles or self.weak or self.unknown)

    def meaning(self) -> HeadingRead | None:  # noqa: PLR0911 - a return for each kind of heading
        roles, measures = self.roles, self.roles & _MEASURES
        if self.nothing:
            return None
        if self._of_one_end():
            return self._read(next(iter(self.ends)))
        revised = len(measures) == 1  # what is counted or measured as of a revision
        strong = [name for name in _STRONG if name in roles and not (revised and name == "revision")]
        if strong:
            return self._read("remarks" if strong == ["edge", "seam"] else strong[0])
        for name, less in _ABOVE.items():
            if name in measures:
                measures = measures - set(less)
        if not measures and self.sides and (self.across or all(len(word) == 1 for word in self.unknown)):
            measures = {"diameter"}  # a side beside an unknown word may be that of anything
        if not measures and "weak_thickness" in self.weak and not roles & set(_NAMES):
            measures = {"thickness"}
        if measures == {"length", "height"} or (self.either and len(measures) > 1 and measures <= _ALONG):
            measures = {"length"}  # one column for shells, cones and segments: length/height
        if measures:
            if len(measures) > 1 or self.other:
                return None
            only = next(iter(measures))
            if only == "diameter" and len(self.ends) == 1:
                only = next(iter(self.ends))
            return self._read("per_unit" if only == "quantity" and self.units else only)
        if "weak_due" in self.weak and not roles:
            return self._read("due")
        name = next((name for name in _NAMES if name in roles), "")
        return self._read(name) if name else None

    def _read(self, field: str) -> HeadingRead | None:
        if len(self.sides) > 1:
            return None
        field = "gauge" if field == "thickness" and self.gauge else field
        side = next(iter(self.sides), "")
        basis = Basis(side) if side and field in _ROUND else None
        return HeadingRead(field, basis, tuple(self.unknown))


def _says(words: _Patterns, token: str, *, signs: bool) -> bool:
    return words.match(token) or (signs and any(sign in token for sign in words.signs))


def _spelled(token: str) -> str:
    """Return the known word that a mistyped one stands for, or nothing: quanity, lenght, materail."""
    if len(token) < _FUZZY or not token.isascii():
        return ""
    most = 2 if len(token) >= _VERY_FUZZY else 1
    near = {word for word in _roots().spelled if word[0] == token[0] and _apart(token, word, most) <= most}
    found = {frozenset(name for name, words in _roots().roles.items() if words.match(word)) for word in near}
    return sorted(near)[0] if len(found) == 1 else ""


def _apart(one: str, other: str, most: int) -> int:
    """Return the edit distance with neighbours exchanged counted as one (optimal string alignment).

    Source: Boytsov 2011, Indexing methods for approximate dictionary searching, J. Exp. Algorithmics 16.
    """
    if abs(len(one) - len(other)) > most:
        return most + 1
    rows = [list(range(len(other) + 1))]
    for i, sign in enumerate(one, 1):
        row = [i]
        for j, wanted in enumerate(other, 1):
            best = min(rows[-1][j] + 1, row[-1] + 1, rows[-1][j - 1] + (sign != wanted))
            if i > 1 and j > 1 and sign == other[j - 2] and one[i - 2] == wanted:
                best = min(best, rows[-2][j - 2] + 1)
            row.append(best)
        rows.append(row)
    return rows[-1][-1]
