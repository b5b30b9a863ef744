"""The grades of one shop as the reader of order sheets asks for them: by name, family and thickness."""

from __future__ import annotations

from quoting.shop.grades.names import Found, names_of
from quoting.shop.model import Family, Shop


class Materials:
    """The shop's grades by all the names customers call them."""

    def __init__(self, shop: Shop) -> None:
        self.shop = shop
        self._names = names_of(shop.materials)
        self._by_key = {material.key: material for material in shop.materials}
        self._families = {material.key: material.family for material in shop.materials}
        self._stocked: dict[str, set[float]] = {}
        for plate in shop.stock:
            self._stocked.setdefault(plate.material, set()).add(plate.thickness_mm)

    def find(self, text: str) -> Found:
        """Return what the text names; words like ASTM, PLATE or HR carry no doubt."""
        return self._names.find(text)

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
