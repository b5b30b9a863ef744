"""Commands on a ledger killed at random moments: each time the state before or the one after."""

from __future__ import annotations

import os
import random
import signal
import sqlite3
import time
from dataclasses import dataclass

from sqlalchemy import func, select

from quoting.ledger.store import Store
from quoting.ledger.tables import EVENTS, ISSUES, LINES, QUOTES
from tests.quoting.ledger.weeks import quoted

Counts = tuple[int, ...]
ONE_MORE: Counts = (1, 1, 3, 1)
"""What a quote of three lines adds: quotes, issues, lines, events."""


@dataclass(frozen=True, slots=True)
class Kills:
    """How many children were killed, how many of them had committed, and the states that were neither."""

    killed: int
    after: int
    between: tuple[tuple[Counts, Counts], ...]
    sound: bool


def killed_again_and_again(store: Store, kills: int, seed: int = 9) -> Kills:
    """Let a child quote for a new customer and kill it at a random moment, so many times.

    The moments reach a little beyond the time that a child takes by itself: some fall after its commit.
    """
    chance = random.Random(seed)
    with store.writing("test") as ledger:
        quoted(ledger, "Vessels")
    started = time.monotonic()
    _quote_in_a_child(store, 0, None)
    whole = time.monotonic() - started
    after, between = 0, []
    before = _counts(store)
    for number in range(1, kills + 1):
        _quote_in_a_child(store, number, chance.uniform(0, 1.3 * whole))
        now = _counts(store)
        if now == tuple(a + b for a, b in zip(before, ONE_MORE, strict=True)):
            after += 1
        elif now != before:
            between.append((before, now))
        before = now
    return Kills(kills, after, tuple(between), _sound(store))


def quoting_child(store: Store, number: int) -> int:
    """Begin a process that writes one quote into the ledger; return its id."""
    child = os.fork()
    if child == 0:
        try:
            with store.writing("a child") as ledger:
                quoted(ledger, f"Customer {number}", result=f"run {number}")
        finally:
            os._exit(0)
    return child


def _quote_in_a_child(store: Store, number: int, kill_after: float | None) -> None:
    child = quoting_child(store, number)
    if kill_after is not None:
        time.sleep(kill_after)
        os.kill(child, signal.SIGKILL)
    os.waitpid(child, 0)


def _counts(store: Store) -> Counts:
    with store.reading() as ledger:
        return tuple(
            ledger.execute(select(func.count()).select_from(table)).scalar_one()
            for table in (QUOTES, ISSUES, LINES, EVENTS)
        )


def _sound(store: Store) -> bool:
    """Return whether the file is whole; a server looks after its own."""
    if store.file is None:
        return True
    with sqlite3.connect(store.file) as plain:
        return bool(plain.execute("PRAGMA integrity_check").fetchone() == ("ok",))
