"""Finds the shop's grade in what a customer writes in the material cell."""

from __future__ import annotations

import re
from dataclasses import dataclass

from quoting.shop.model import Family, Shop

_WORD = re.compile(r"[A-Z0-9]+")
_IDLE = frozenset((
    "ASTM", "ASME", "EN", "DIN", "UNS", "AISI", "GR", "GRADE", "TYPE", "TP", "STEEL", "PLATE", "PLT",
    "PL", "SHEET", "HR", "HRS", "HOT", "ROLLED", "MAT", "MATL", "SPEC",
))  # fmt: skip
FAMILY_WORDS: dict[str, Family] = {
    **dict.fromkeys(["SS", "SST", "STAINLESS", "INOX"], Family.STAINLESS),
    **dict.fromkeys(["MS", "CS", "CARBON", "MILD", "STEEL", "HR", "HRS", "HRPO", "CRS", "CR"], Family.CARBON),
    **dict.fromkeys(["AL", "ALU", "ALUM", "ALUMINUM", "ALUMINIUM"], Family.ALUMINIUM),
}
_UNGRADED_STEEL = frozenset(("A516", "SA516", "A572", "A709", "AR"))
_UNGRADED = _UNGRADED_STEEL | {"DUPLEX", "A240", "SA240"}
_GALVANIZED = frozenset(["GALV", "GALVANIZED", "GALVANISED", "GI"])


@dataclass(frozen=True, slots=True)
class Found:
    """What a material text says: the shop's keys it names, the family it names, and words nobody knows.

    `usual` is the grade the shop's book takes an ungraded name for (mild steel): offered first, never taken.
    """

    keys: tuple[str, ...] = ()
    family: Family | None = None
    rest: tuple[str, ...] = ()
    galvanized: bool = False
    usual: str = ""


class Materials:
    """The shop's grades by all the names customers call them."""

    def __init__(self, shop: Shop) -> None:
        self.shop = shop
        self._keys: dict[str, str] = {}
        self._usual: dict[str, str] = {}
        for material in shop.materials:
            for name in (material.key, *material.names):
                names = self._usual if _family_only(_words(name)) else self._keys
                names.setdefault(_joined(_words(name)), material.key)
        self._longest = max((len(name) for name in self._keys), default=0)
        self._by_key = {material.key: material for material in shop.materials}
        self._families = {material.key: material.family for material in shop.materials}
        self._cache: dict[str, Found] = {}
        self._stocked: dict[str, set[float]] = {}
        for plate in shop.stock:
            self._stocked.setdefault(plate.material, set()).add(plate.thickness_mm)

    def find(self, text: str) -> Found:
        """Return what the text names; words like ASTM, PLATE or HR carry no doubt."""
        if text not in self._cache:
            self._cache[text] = self._find(text)
        return self._cache[text]

    def named_in(self, text: str) -> tuple[str, ...]:
        """Return the grades that stand anywhere in a text."""
        return self.find(text).keys

    def in_family(self, family: Family | None) -> tuple[str, ...]:
        """Return the keys of a family, or of all materials."""
        return tuple(key for key, own in self._families.items() if family in (None, own))

    def stocked_mm(self, key: str) -> set[float]:
        """Return the thicknesses of a material in the rack and among the buyable sizes; none when unknown."""
        return self._stocked.get(key, set())

    def gauge_table(self, key: str) -> str:
        """Return the gauge table of a material of the shop."""
        return self._by_key[key].gauge_table

    def density_kg_m3(self, key: str) -> float:
        """Return the density in kg/m3 of a material of the shop."""
        return self._by_key[key].density_kg_m3

    def family(self, key: str) -> Family:
        """Return the family of a material of the shop."""
        return self._families[key]

    def _find(self, text: str) -> Found:
        words = _words(text)
        keys: list[str] = []
        rest: list[str] = []
        at = 0
        while at < len(words):
            length, key = self._match(words, at)
            if key:
                keys.append(key)
            else:
                rest.append(words[at])
            at += length
        families = {FAMILY_WORDS[word] for word in rest if word in FAMILY_WORDS}
        families |= {Family.CARBON for word in rest if word in _UNGRADED_STEEL}
        named = {family for family in families if family is not Family.CARBON} or families
        unknown = tuple(
            word for word in rest if word not in _IDLE | _GALVANIZED | _UNGRADED and word not in FAMILY_WORDS
        )
        family = next(iter(named)) if len(named) == 1 else None
        usual = self._usual.get(_joined(words), "")
        return Found(tuple(dict.fromkeys(keys)), family, unknown, bool(_GALVANIZED & set(rest)), usual)

    def _match(self, words: list[str], at: int) -> tuple[int, str]:
        """Return how many words from `at` name a grade, and its key; the longest name wins."""
        for length in range(min(len(words) - at, 8), 0, -1):
            joined = _joined(words[at : at + length])
            if len(joined) <= self._longest and joined in self._keys:
                return length, self._keys[joined]
        return 1, ""


def _family_only(words: list[str]) -> bool:
    """Return whether a name tells a family of metal but no grade: mild steel, SS, A516."""
    return all(word in FAMILY_WORDS or word in _IDLE or word in _UNGRADED for word in words)


def _words(text: str) -> list[str]:
    return _WORD.findall(text.upper().replace(".", ""))


def _joined(words: list[str]) -> str:
    return "".join(
        word for word in words if word not in ("GR", "GRADE", "TYPE", "ASTM", "ASME", "AISI", "TP")
    )
