"""Which example settings of a shop's book matter: the last quotes priced with each of them low and high."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from pathlib import Path

from quoting.books import OutputFolder, WeighedSetting, write_weighed
from quoting.commands import Say
from quoting.core import Doing, InputError, Order, State
from quoting.estimating import estimate
from quoting.ledger import ledger_of, lines_of
from quoting.ledger_commands.decide_jobs import orders_of
from quoting.ledger_commands.mixed_order import mixed_order
from quoting.shop import Shop, StillExample, book_at_hand, load_shop, still_examples

_MOST_LINES = 24
"""Lines that are priced again, the latest ones: enough to weigh by, and quick."""
_SHOWN = 12
_NESTED = "cutting"


@dataclass(frozen=True, slots=True)
class WeighRequest:
    """Which shop, where the book goes, the day it is weighed on."""

    shop_dir: Path
    out_dir: Path
    today: date
    force: bool = False


def weigh_job(request: WeighRequest, *, say: Say) -> int:
    """Write the book of weighed settings and print the first of them; return the exit code.

    Returns 0 when no example moves the orders by a hundredth, else 1. Raises InputError when the shop's book
    is not sound.
    """
    folder = OutputFolder(request.out_dir, force=request.force)
    name = f"settings-weighed-{request.today}.xlsx"
    folder.refuse_existing([name])
    shop = load_shop(request.shop_dir)
    orders, source = _orders(request.shop_dir, shop)
    book = book_at_hand(request.shop_dir, shop)
    grades = frozenset(line.material for order in orders for line in order.lines)
    examples = still_examples(book, grades)
    say(Doing(f"pricing {source} with {len(examples)} example settings low and high"))
    plain, nested = (_priced(orders, shop, request.today, nested=way) for way in (False, True))
    found = []
    for example in examples:
        way = example.name.startswith(_NESTED)
        at = nested if way else plain
        ends = [
            _priced(orders, changed, request.today, nested=way) if changed else at
            for changed in (book.with_value(example, value) for value in example.values)
        ]
        found.append(_weighed(example, at, ends))
    found.sort(key=lambda one: (-one.swing, one.example.name))
    said = f"{source}, {plain[0]:,.2f} {shop.rates.currency}"
    folder.write({name: lambda path: write_weighed(found, said, shop, path, today=request.today)})
    print("\n".join(_told(found, said, shop, folder.directory / name)))
    return 1 if any(one.swing > plain[0] / 100 for one in found) else 0


def _orders(directory: Path, shop: Shop) -> tuple[tuple[Order, ...], str]:
    """Return the orders of the last quotes in the ledger, and what to call them; else an invented one."""
    ledger = ledger_of(directory)
    if ledger.store.exists:
        with ledger.reading() as connection:
            lines = lines_of(connection)[-_MOST_LINES:]
            try:
                orders = orders_of(connection, lines)
            except InputError:  # a quote of an earlier version: nothing to price again
                orders = ()
        if count := sum(len(order.lines) for order in orders):
            return orders, f"the last {count} lines quoted"
    return (mixed_order(shop),), "an invented mixed order"


Priced = tuple[Decimal, int]


def _priced(orders: Sequence[Order], shop: Shop, today: date, *, nested: bool) -> Priced:
    """Return the money of all orders and how many lines can be made; plates by weight unless `nested`."""
    found = estimate(orders, shop, today=today, effort="quick", nested=nested)
    made = sum(line.state is State.PRICED for line in found.lines)
    return sum((order.total.before_tax for order in found.orders), Decimal(0)), made


def _weighed(example: StillExample, at: Priced, ends: Sequence[Priced]) -> WeighedSetting:
    low, high = (end[0] - at[0] for end in ends)
    lost = max(at[1] - end[1] for end in ends)
    return WeighedSetting(example, low, high, max(0, lost))


def _told(found: Sequence[WeighedSetting], source: str, shop: Shop, path: Path) -> list[str]:
    currency = shop.rates.currency
    moving = [one for one in found if one.swing]
    rows = [
        f"the book is sound; {len(found)} of its figures are still examples, {len(moving)} of them move "
        f"{source}",
        *(f"  {warning}" for warning in shop.warnings[:_SHOWN]),
        "",
        "what matters most, with the figure low and high:",
    ]
    for rank, one in enumerate(moving[:_SHOWN], 1):
        rows.append(
            f"{rank:>3}. {one.example.words} ({one.example.where}): now {one.example.now}; "
            f"{one.example.low} to {one.example.high} moves it {one.low:+,.0f} to {one.high:+,.0f} {currency}"
            + (f"; {one.lost} lines could not be made" if one.lost else "")
        )
        rows.append(f"     {one.example.way}")
    return [*rows, "", f"all of them with a picture: {path}"]
