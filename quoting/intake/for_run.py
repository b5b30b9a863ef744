"""The order sheets of one run, read with all that the run says of them: answers, customer, language.

A process beside the run may do it, which has them read before it is asked. What is asked and what is read are
plain dictionaries, so that whoever asks need not load this room.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import TypedDict

from quoting.core import Alternative, Order
from quoting.intake.answers import every_alternative, not_taken, read_answers, with_answers
from quoting.intake.customer_files import CustomerFiles, offers
from quoting.intake.read_orders import read_all
from quoting.shop import Shop, load_shop


class SheetsAsked(TypedDict):
    """Sheets and books of answers, the shop's folder, the day; `customer` and `language` may be empty.

    `prefixes` are what line ids of each sheet begin with; None: letters in the order they are given.
    """

    orders: tuple[Path, ...]
    shop_dir: Path
    today: date
    answers: tuple[Path, ...]
    customer: str
    language: str
    prefixes: tuple[str, ...] | None


class SheetsRead(TypedDict):
    """The shop, the orders with what each choice of each question would make of its lines, what the user
    should be told, and names of answers that fit no question."""

    shop: Shop
    orders: tuple[Order, ...]
    alternatives: tuple[Alternative, ...]
    notes: list[str]
    lost: list[str]


_ahead: list[tuple[SheetsAsked, SheetsRead]] = []
"""What this process has read before it was asked."""


def read_ahead(asked: SheetsAsked | None) -> None:
    """Read sheets for a shop as its folder has it, and keep them for `read_for_run`; without any only get
    ready."""
    if asked is not None:
        _ahead.append((asked, _read(asked, load_shop(asked["shop_dir"]))))


def read_for_run(given: tuple[SheetsAsked, Shop | None]) -> SheetsRead:
    """Return the orders of the sheets that are asked for, for this shop; None: as its folder has it.

    Raises InputError when no sheet can be used, or a book of answers or the shop cannot be read.
    """
    asked, shop = given
    for same, read in _ahead:
        if same == asked and shop is None:
            return read
    return _read(asked, shop or load_shop(asked["shop_dir"]))


def _read(asked: SheetsAsked, shop: Shop) -> SheetsRead:
    paths, today, prefixes = asked["orders"], asked["today"], asked["prefixes"]
    answers = {id: text for path in asked["answers"] for id, text in read_answers(path).items()}
    language = asked["language"]
    if asked["customer"]:
        files = CustomerFiles(asked["shop_dir"], asked["customer"])
        orders = files.read(paths, shop, today=today, answers=answers, prefixes=prefixes)
        notes = list(files.notes)
        language = language or files.language()
    else:
        read = read_all(paths, shop, today=today, prefixes=prefixes)
        orders = tuple(with_answers(order, answers, shop) for order in read)
        notes = offers(asked["shop_dir"], orders)
    orders = tuple(replace(order, language=language) for order in orders)
    return {
        "shop": shop,
        "orders": orders,
        "alternatives": every_alternative(orders, shop),
        "notes": notes,
        "lost": list(not_taken(orders, answers)),
    }
