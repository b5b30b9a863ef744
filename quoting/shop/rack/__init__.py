"""The stock rack read: plates and remnants in the house, sizes to buy."""

from quoting.shop.rack.read_rack import HEADINGS, NEEDED, Rack, is_buyable, read_rack, unit_of_sizes
from quoting.shop.rack.row import as_text
from quoting.shop.rack.sizes import read_size

__all__ = [
    "HEADINGS",
    "NEEDED",
    "Rack",
    "as_text",
    "is_buyable",
    "read_rack",
    "read_size",
    "unit_of_sizes",
]
