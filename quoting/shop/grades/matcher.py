"""The grades of one shop as the reader of order sheets asks for them: by name, family and thickness."""

from __future__ import annotations

from collections.abc import Iterable
from functools import lru_cache

from quoting.shop.grades.names import Found, names_of
from quoting.shop.model import Family, Material, Shop


class Materials:
    """The shop's grades by all the names customers call them, and the thicknesses it has or can buy.

    `plain_steel` is the grade that the shop quotes for steel without a grade; "" where it rather asks.
    """

    def __init__(
        self, materials: Iterable[Material], stocked: Iterable[tuple[str, float]], plain_steel: str = ""
    ) -> None:
        self.plain_steel = plain_steel
        self._by_key = {material.key: material for material in materials}
        self._names = names_of(self._by_key.values())
        self._families = {material.key: material.family for material in self._by_key.values()}
        self._stocked: dict[str, set[float]] = {}
        for material, thickness_mm in stocked:
            self._stocked.setdefault(material, set()).add(thickness_mm)

    def find(self, text: str) -> Found:
        """Return what the text names; words like ASTM, PLATE or HR carry no doubt."""
        return self._names.find(text)

    def in_family(self, family: Family | None) -> tuple[str, ...]:
        """Return the keys of a family, or of all materials."""
        return tuple(key for key, own in self._families.items() if family in (None, own))

    @property
    def lists_stock(self) -> bool:
        """Return whether the shop's rack is known: what is not in it is not stocked."""
        return bool(self._stocked)

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


def materials_of(shop: Shop) -> Materials:
    """Return a shop's grades; the same ones for every sheet and answer, so that what was read stays known."""
    stocked = frozenset((plate.material, plate.thickness_mm) for plate in shop.stock)
    return _known(shop.materials, stocked, shop.plain_steel)


@lru_cache(maxsize=16)
def _known(
    materials: tuple[Material, ...], stocked: frozenset[tuple[str, float]], plain_steel: str
) -> Materials:
    return Materials(materials, stocked, plain_steel)
