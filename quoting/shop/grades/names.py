"""The one matcher of grades: what customers, the rack and the price table call them."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, replace
from functools import lru_cache
from unicodedata import normalize

from quoting.shop.model import Family, Material

_MOST_KEPT = 20_000
"""Texts whose grade is kept in mind: a watcher reads sheets for weeks."""
_WORD = re.compile(r"[A-Z0-9\u0400-\u042f]+")
_GRADE = re.compile(r"\b(?:(?:GR|GRADE|TYPE|TP|AISI)(?:\.\s*|\s*(?=\d))|T[- ]?(?=[34]\d\d))")
"""The word before the number of a grade, run into it or not: Gr.50, TP304, T-316L."""
_LETTER_O = re.compile(r"((?:(?<=S\d{3})|(?<=S \d{3}))[ -]?)JO\b")
"""S275 JO: the letter for the figure nought."""
_BARE_LETTERS = {
    code: normalize("NFD", chr(code))[0] for code in range(0xC0, 0x180) if normalize("NFD", chr(code))[1:]
}
_SAYS_NOTHING = frozenset(("GR", "GRADE", "TYPE", "ASTM", "ASME", "AISI", "TP", "EN", "CSA"))
_IDLE = frozenset((
    "ASTM", "ASME", "CSA", "EN", "DIN", "UNS", "AISI", "SAE", "ABNT", "NBR", "GR", "GRADE", "TYPE", "TP",
    "STEEL", "PLATE", "PLT", "PL", "SHEET", "HR", "HRS", "HOT", "ROLLED", "MAT", "MATL", "SPEC",
))  # fmt: skip
_AROUND = re.compile(
    r"(?<=\w)\s?\+\s?(?:N|AR|NT|M|CR)\b"
    r"|\b(?:(?:BS|DIN|NF|UNI|UNE|SS|PN|NEN|STN|CSN)[ -])?EN[ -]?(?:ISO[ -]?)?1\d{4}(?:-\d)?(?::\d{4})?\b"
    r"|\b(?:CSA )?G ?40\.2[01]M?\b|\bGB/?T?[ -]?\d{3,5}(?:-\d{4})?\b|\bJIS G ?\d{4}\b"
    r"|\bIS ?(?:2062|2002|5986)\b"
    r"|\bAS(?:/NZS)? ?(?:3678|1548|1594)\b|\bSANS ?\d{4,5}\b|\b(?:ABNT )?NBR ?\d{4,5}\b|\bDIN ?17\d{3}\b"
)
"""How plate is delivered (+N, +AR) and the standard that a grade stands in: neither makes another grade."""
_CERTIFICATE = re.compile(
    r"\b(?:WITH |W/ ?|MIT |AVEC |CON )?(?:EN ?10204[ /-]*)?(?:TYPE )?[23]\.[12]\b(?: ?CERT\w*\b\.?)?"
)
"""A certificate of EN 10204 behind a grade: wanted with the plate, and no other grade."""
_BESIDE_A_GRADE = frozenset((
    "TO", "PER", "AS", "ACC", "ACCORDING", "NACH", "SELON", "SECONDO", "SEGUN", "WG", "PODLE",
    "CONFORME", "VOLGENS", "ENLIGT", "DUAL", "NORMALISED", "NORMALIZED", "NORMALISE", "NORMALGEGLUHT",
    "KALITE", "QUALITY", "GUTE", "QUALITE", "QUALITA", "CALIDAD", "KVALITET", "KWALITEIT", "JAKOST",
    "GATUNEK", "BAUSTAHL", "KONSTRUKTIONSSTAHL", "KONSTRUKTIONSSTAL", "KESSELBLECH", "CZARNA", "BLACHA",
    "STAL", "STAHL", "ACIER", "ACERO", "ACCIAIO", "STAAL", "OCEL", "CELIK", "LAMIERA", "TOLE", "CHAPA",
    "PLANCHA", "BLECH", "PLAAT", "PLECH", "PLAT", "SAC", "PLACA", "PLATES", "PLATTE", "BOILER", "PVQ",
))  # fmt: skip
"""Words that say nothing more of a plate beside the name of its grade, and something where it has none."""
FAMILY_WORDS: dict[str, Family] = {
    **dict.fromkeys(
        [
            "SS",
            "SST",
            "STAINLESS",
            "INOX",
            "RVS",
            "EDELSTAHL",
            "INOXIDABLE",
            "NIERDZEWNA",
            "NEREZ",
            "ROSTFREI",
            "ROSTFRI",
            "ROSTFRITT",
            "RUSTFRI",
            "RUSTFRITT",
            "PASLANMAZ",
            "INOSSIDABILE",
            "INOXYDABLE",
        ],
        Family.STAINLESS,
    ),
    **dict.fromkeys(["MS", "CS", "CARBON", "MILD", "STEEL", "HR", "HRS", "HRPO", "CRS", "CR"], Family.CARBON),
    **dict.fromkeys(["AL", "ALU", "ALUM", "ALUMINUM", "ALUMINIUM"], Family.ALUMINIUM),
}
_PLAIN = frozenset(("MS", "CS", "CARBON", "MILD", "STEEL", "HR", "HRS", "BLACK", "BLK"))
"""Words of hot rolled carbon steel without a grade; cold rolled, pickled and galvanized are other metals."""
_UNGRADED_STEEL = frozenset(("A516", "SA516", "A572", "A709", "AR"))
_UNGRADED = _UNGRADED_STEEL | {"DUPLEX", "A240", "SA240"}
_INCHES = re.compile(r"\s*(?:\d{1,2}[ -])?\d{1,2}/(?:2|4|8|16|32|64)\s*(?:\"|''|in\.?|inch)?\s*", re.I)
"""A fraction of an inch."""
_GALVANIZED = frozenset(["GALV", "GALVANIZED", "GALVANISED", "GI"])


@dataclass(frozen=True, slots=True)
class Found:
    """What a material text says: the shop's keys it names, the family it names, and words nobody knows.

    `usual` is the grade the shop's book takes an ungraded name for (mild steel): offered first, never taken.
    `plain` tells that the text names hot rolled carbon steel without a grade, and says nothing else.
    """

    keys: tuple[str, ...] = ()
    family: Family | None = None
    rest: tuple[str, ...] = ()
    galvanized: bool = False
    usual: str = ""
    plain: bool = False


class GradeNames:
    """Grades by all the names they go by. `names` gives each grade's key and its other names."""

    def __init__(self, names: Iterable[tuple[str, Iterable[str]]]) -> None:
        self._keys: dict[str, str] = {}
        self._usual: dict[str, str] = {}
        self._cache: dict[str, Found] = {}
        for key, others in names:
            for name in (key, *others):
                known = self._usual if _family_only(_words(name)) else self._keys
                known.setdefault(plain_name(name), key)
        self._longest = max((len(name) for name in self._keys), default=0)

    def find(self, text: str) -> Found:
        """Return what the text names; words like ASTM, PLATE or HR carry no doubt."""
        if text not in self._cache:
            if len(self._cache) >= _MOST_KEPT:
                self._cache.clear()
            found = self._find(text)
            if found.keys and found.rest:
                found = self._alone(text, found)
            self._cache[text] = found
        return self._cache[text]

    def _alone(self, text: str, found: Found) -> Found:
        """Return what a text names without its standard, certificate and words that tell no grade.

        The first reading stands where anything else is left, or another grade is named.
        """
        alone = self._find(_AROUND.sub(" ", _CERTIFICATE.sub(" ", text.upper())))
        rest = tuple(word for word in alone.rest if word not in _BESIDE_A_GRADE)
        return replace(alone, rest=()) if alone.keys == found.keys and not rest else found

    def one(self, text: str) -> str:
        """Return the key of the grade that the shop's own file means by a name; "" for none or several.

        An ungraded name (mild steel) is the grade that the shop's book takes it for: its own rack says so.
        """
        found = self.find(text)
        if found.rest:
            return ""
        return found.keys[0] if len(found.keys) == 1 else "" if found.keys else found.usual

    def _find(self, text: str) -> Found:
        if text.isascii() and text.isdecimal():  # a part's number in most lists
            known = self._keys.get(text)
            return Found((known,)) if known else Found(rest=(text,), usual=self._usual.get(text, ""))
        if _INCHES.fullmatch(text):
            return Found(rest=(text,))  # 3/16 is a plate, and no 316
        if _INCHES.fullmatch(text):
            return Found(rest=(text,))  # 3/16 is a plate, and no 316
        words = _words(text)
        keys: list[str] = []
        loose: list[str] = []
        rest: list[str] = []
        at = 0
        while at < len(words):
            length, key = self._match(words, at)
            if key:
                figured = any(sign.isdecimal() for word in words[at : at + length] for sign in word)
                (keys if figured else loose).append(key)
            else:
                rest.append(words[at])
            at += length
        keys = keys or loose  # PVQ beside SA516 60 is no second grade
        families = {FAMILY_WORDS[word] for word in rest if word in FAMILY_WORDS}
        families |= {Family.CARBON for word in rest if word in _UNGRADED_STEEL}
        named = {family for family in families if family is not Family.CARBON} or families
        unknown = tuple(
            word for word in rest if word not in _IDLE | _GALVANIZED | _UNGRADED and word not in FAMILY_WORDS
        )
        family = next(iter(named)) if len(named) == 1 else None
        usual = self._usual.get(_joined(words), "")
        plain = (
            not keys and bool(_PLAIN & set(rest)) and all(word in _PLAIN or word in _IDLE for word in rest)
        )
        return Found(tuple(dict.fromkeys(keys)), family, unknown, bool(_GALVANIZED & set(rest)), usual, plain)

    def _match(self, words: list[str], at: int) -> tuple[int, str]:
        """Return how many words from `at` name a grade, and its key; the longest name wins."""
        for length in range(min(len(words) - at, 8), 0, -1):
            joined = _joined(words[at : at + length])
            if len(joined) <= self._longest and joined in self._keys:
                return length, self._keys[joined]
        return 1, ""


def names_of(materials: Iterable[Material]) -> GradeNames:
    """Return the names of these grades."""
    return _known_names(tuple((material.key, material.names) for material in materials))


@lru_cache(maxsize=16)
def _known_names(grades: tuple[tuple[str, tuple[str, ...]], ...]) -> GradeNames:
    """Return the names of grades; kept, since every row of a rack asks for the same."""
    return GradeNames(grades)


def find_material(text: str, materials: Iterable[Material]) -> Material | None:
    """Return the grade that goes by this name in a file of the shop, or None: never a guess."""
    known = {material.key: material for material in materials}
    return known.get(names_of(known.values()).one(text))


@lru_cache(_MOST_KEPT)
def plain_name(text: str) -> str:
    """Return a grade name without case, punctuation and the words that say nothing about the grade.

    >>> plain_name("ASME SA-516 Gr. 70N") == plain_name("sa516-70n"), plain_name("A572 Gr.50")
    (True, 'A57250')
    """
    return _joined(_words(text))


def _family_only(words: list[str]) -> bool:
    """Return whether a name tells a family of metal but no grade: mild steel, SS, A516."""
    return all(word in FAMILY_WORDS or word in _IDLE or word in _UNGRADED for word in words)


def _words(text: str) -> list[str]:
    plain = text.upper().translate(_BARE_LETTERS)
    return _WORD.findall(_GRADE.sub(" ", _LETTER_O.sub(r"\1J0", plain)).replace(".", ""))


def _joined(words: list[str]) -> str:
    return "".join(word for word in words if word not in _SAYS_NOTHING)
