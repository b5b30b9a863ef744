"""Tells which customer of the shop's folder a sheet is from, where nobody says so."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from quoting.core import InputError, Order
from quoting.intake.customer_files import FOLDER, map_path
from quoting.intake.customer_names import is_same_customer
from quoting.intake.layout import CustomerMap, customer_map
from quoting.intake.read_orders import Sender, read_orders
from quoting.shop import Shop
from quoting.tables import read_own_text

_MOST_TITLES = 5
_MOST_TRIED = 50
"""Maps that are tried on a sheet which cannot be read without one."""


def known_customer(path: Path, shop_dir: Path, shop: Shop, *, today: date) -> str:
    """Return the customer that a sheet names in its title or as its sender, when the shop's folder holds a
    map of that customer; empty when it does not.

    A sheet that cannot be read without a map is tried with each; the customer that it then names has to be
    the map's own.
    """
    maps = sorted((shop_dir / FOLDER).glob("*.toml"))
    if not maps:
        return ""
    try:
        named = _names(read_orders(path, shop, today=today))
    except InputError:
        return next((one for text in maps[:_MOST_TRIED] if (one := _by_map(path, text, shop, today))), "")
    return next((one for one in named if map_path(shop_dir, one).is_file()), "")


def _names(order: Order) -> list[str]:
    """Return what may be the customer's name: as it was read, or a title that only the shop knows as one."""
    return [one for one in (order.customer, *order.notes[:_MOST_TITLES]) if one.strip()]


def _by_map(path: Path, text: Path, shop: Shop, today: date) -> str:
    """Return the customer of a map with which the sheet can be read and then names that very customer."""
    try:
        pinned = _map(text)
        if not pinned.name:
            return ""
        named = _names(read_orders(path, shop, today=today, sender=Sender(pinned=pinned)))
    except InputError:
        return ""
    return pinned.name if any(is_same_customer(one, pinned.name) for one in named) else ""


def _map(path: Path) -> CustomerMap:
    return customer_map(read_own_text(path, "what is kept of a customer", mend="mend it"), path.name)
