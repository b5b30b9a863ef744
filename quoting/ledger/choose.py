"""Which lines a person means: a quote's number, a customer's name, or single lines."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from quoting.core import InputError, first_few
from quoting.ledger.quotes import LOST, OPEN, WON, LedgerLine
from quoting.shop import did_you_mean


def chosen(lines: Sequence[LedgerLine], words: Sequence[str]) -> tuple[LedgerLine, ...]:
    """Return the lines that are meant, each once; of a quote or customer those not decided yet.

    Raises InputError for a word that is no number, customer or line, with the nearest that is one.
    """
    found: dict[str, LedgerLine] = {}
    for word in words:
        single = [line for line in lines if line.line == word]
        many = [
            line
            for line in lines
            if line.state == OPEN and word.casefold() in (line.quote.casefold(), line.customer.casefold())
        ]
        known = {name for line in lines for name in (line.line, line.quote, line.customer)}
        if not single and not many:
            if word in known:
                raise InputError(f"{word} has no line that is still open")
            raise InputError(
                f"the ledger has no quote, customer or line called {word}",
                would_do=did_you_mean(word, known) or "name a quote as 20261130-01, a line as A-1",
            )
        found |= {line.line: line for line in single or many}
    return tuple(found.values())


def to_be_won(lines: Sequence[LedgerLine], today: date, *, expired: bool) -> None:
    """Raise InputError when lines are won already, left out of the quote, or of a quote that has run out."""
    for state, why in ((WON, "won already"), ("left out", "no longer in the quote")):
        if have := [line.line for line in lines if line.state == state]:
            raise InputError(f"{first_few(have, 6)}: {why}", would_do="leave them out")
    over = [line for line in lines if line.expired(today)]
    if over and not expired:
        quotes = first_few(sorted({f"{line.quote} (until {line.valid_until})" for line in over}), 4)
        raise InputError(
            f"the validity of {quotes} has run out on {today}",
            would_do="price it again with `rollwright renew NUMBER`, or hold the old price with --expired",
        )


def to_be_lost(lines: Sequence[LedgerLine]) -> None:
    """Raise InputError when lines are decided already."""
    for state in (WON, LOST):
        if have := [line.line for line in lines if line.state == state]:
            would_do = "drop the job in the jobs book" if state == WON else "leave them out"
            raise InputError(f"{first_few(have, 6)}: {state} already", would_do=would_do)
