"""A new shop's folder: commented book, small rack, order sheets to send out."""

from quoting.shop.starter.folder import write_starter
from quoting.shop.starter.sheet_style import add_list, formats_of, open_book, set_up_page

__all__ = [
    "add_list",
    "formats_of",
    "open_book",
    "set_up_page",
    "write_starter",
]
