"""Which questions of earlier runs in a folder still wait, and which have their answers back."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

from quoting.core import RollwrightError

_QUESTIONS = "questions-*.xlsx"
_DEPTHS = ("result.json", "*/result.json", "*/*/result.json")
"""Beside the shop, in a folder of a run, in a folder of the watch."""
_MOST_RUNS = 12
"""The newest runs that are looked into: this must take no longer than reading the answer."""


@dataclass(frozen=True, slots=True)
class _OpenBook:
    """A book of questions that nobody has gone on from: its run's orders, and how many answers it holds."""

    path: Path
    orders: tuple[str, ...]
    answers: int
    quotes: tuple[str, ...]


def waiting_answers(folder: Path, shop: Path) -> str:
    """Return what to do with the questions that are open in a folder; empty when none is.

    Books whose quotes were won or lost, and those that a later run took further, are done with.
    """
    books = tuple(_open_books(folder, shop))
    if not books:
        return ""
    back = [book for book in books if book.answers]
    book = (back or list(books))[0]
    sheets = " ".join(_found(folder, book, name) for name in book.orders)
    answers = "".join(f" --answers {_said(one)}" for one in (*_earlier(folder, book), book.path))
    command = f"rollwright quote {sheets} --shop {shop} --out {_free(folder)}{answers}"
    again = f"`{command}` prices the lines that waited"
    won = f"; `rollwright won {book.quotes[0]} --shop {shop} --out won` makes jobs" if book.quotes else ""
    more = f" ({len(books) - 1} more like it)" if len(books) > 1 else ""
    if back:
        count = "1 answer" if book.answers == 1 else f"{book.answers} answers"
        return f"Next: {book.path} holds {count}{more}; {again}{won}."
    return f"Next: when {book.path} has its answers filled in{more}, {again}{won}."


def _open_books(folder: Path, shop: Path) -> Iterator[_OpenBook]:
    """Yield the open books, the newest first; of the same orders only the last run counts."""
    runs = [path for depth in _DEPTHS for path in folder.glob(depth)]
    runs = sorted(runs, key=lambda path: path.stat().st_mtime, reverse=True)[:_MOST_RUNS]
    if not any(any(path.parent.glob(_QUESTIONS)) for path in runs):
        return
    from quoting.record import read_record  # noqa: PLC0415 - heavy

    ledger = _quoted_lines(shop)
    later: set[str] = set()
    for path in runs:
        try:
            record = read_record(path)
        except RollwrightError:  # not ours
            continue
        orders = tuple(order.file for order in record.orders)
        known = [ledger[line.id] for line in record.lines if line.id in ledger]
        done = set(orders) <= later or (bool(known) and not any(undecided for _, undecided in known))
        later.update(orders)
        books = sorted(path.parent.glob(_QUESTIONS))
        if books and not done and any(one.blocking for one in record.questions):
            quotes = tuple(dict.fromkeys(quote for quote, _ in known))
            yield _OpenBook(books[-1], orders, _answers(books[-1]), quotes)


def _quoted_lines(shop: Path) -> Mapping[str, tuple[str, bool]]:
    if not (shop / "ledger.db").is_file():
        return {}
    from quoting.ledger_commands import quoted_lines  # noqa: PLC0415 - only with a ledger

    try:
        return quoted_lines(shop)
    except RollwrightError:  # held or damaged: the next command on it says so
        return {}


def _answers(path: Path) -> int:
    from quoting.intake import read_answers  # noqa: PLC0415 - heavy

    try:
        return len(read_answers(path))
    except RollwrightError:
        return 0


def _earlier(folder: Path, book: _OpenBook) -> list[Path]:
    """Return the filled-in books of earlier runs of the same orders: their answers still count."""
    from quoting.record import read_record  # noqa: PLC0415 - heavy

    age, found = book.path.stat().st_mtime, []
    for path in (one for depth in _DEPTHS for one in folder.glob(depth)):
        books = sorted(path.parent.glob(_QUESTIONS))
        if not books or books[-1] == book.path or path.stat().st_mtime > age or not _answers(books[-1]):
            continue
        with suppress(RollwrightError):
            if {order.file for order in read_record(path).orders} == set(book.orders):
                found.append(books[-1])
    return found[:_MOST_RUNS]


def _found(folder: Path, book: _OpenBook, name: str) -> str:
    """Return the path of an order sheet where it lies near its run, else its name."""
    near = [book.path.parent / "received", folder, *sorted(one for one in folder.iterdir() if one.is_dir())]
    near += sorted(folder.glob("*/*/received"))
    return _said(next((place / name for place in near if (place / name).is_file()), Path(name)))


def _free(folder: Path) -> str:
    """Return the name of an output folder that is not there yet."""
    return next(f"out{number}" for number in range(2, 1000) if not (folder / f"out{number}").exists())


def _said(path: Path) -> str:
    return f'"{path}"' if " " in str(path) else str(path)
