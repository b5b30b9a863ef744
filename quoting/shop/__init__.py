"""The shop's own book: machines, materials, rates, stock rack and working time."""

from quoting.shop.findings import BookError
from quoting.shop.loader import load_shop
from quoting.shop.materials import find_material
from quoting.shop.model import Shop

__all__ = ["BookError", "Shop", "find_material", "load_shop"]
