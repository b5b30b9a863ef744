"""What the floor's minutes teach: a proposal beside the shop's book, or in its place."""

from __future__ import annotations

import json
import tempfile
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from functools import partial
from pathlib import Path
from typing import Any

from quoting.books import LearntPage, OutputFolder, write_learnt
from quoting.commands import Writer
from quoting.core import InputError
from quoting.hindsight import (
    SCRAP,
    BookChange,
    BookPlace,
    LearnRules,
    Proposal,
    QuoteEffect,
    bias_by_group,
    book_bands,
    effects_on,
    learn,
    propose,
    with_bands,
)
from quoting.ledger import OPEN, Ledger, damaged, last_event, ledger_of, lines_of, note_event
from quoting.ledger_commands.gather import Past
from quoting.shop import Band, BookEdit, Shop, book_ending, changed_book, load_shop, take_book

LEARNT = "learnt"
MONTH = timedelta(days=31)
_SAME = 0.005


@dataclass(frozen=True, slots=True)
class LearnRequest:
    """As of which day, where the proposal goes, and whether it is put in the book's place."""

    shop_dir: Path
    out_dir: Path
    today: date
    apply: bool = False
    force: bool = False


def learn_job(request: LearnRequest) -> int:
    """Write a proposal and its evidence, with `apply` also the shop's book; return the exit code."""
    shop = load_shop(request.shop_dir)
    ledger = ledger_of(request.shop_dir)
    with ledger.writing("learn") as connection:
        past = Past(connection, shop)
        earlier = _Earlier.of(last_event(connection, LEARNT), shop)
        page, edits = _page(request, past, earlier, ledger)
        folder = OutputFolder(request.out_dir, force=request.force)
        name = f"learnt-{request.today:%Y-%m-%d}.xlsx"
        with tempfile.TemporaryDirectory(prefix="rollwright-") as staging:
            made = Path(staging) / page.proposed
            new = changed_book(request.shop_dir, edits, made)
            writers: dict[str, Writer] = {
                name: partial(write_learnt, page),
                page.proposed: partial(_copied, made),
            }
            folder.write(writers)
            kept = take_book(request.shop_dir, made, request.today) if request.apply and edits else None
        if kept is not None:
            note = earlier.after(page.proposal, new)
            note_event(connection, request.today.isoformat(), LEARNT, kept.name, json.dumps(note))
    print("\n".join(_rows(page, kept, folder.directory, name)))
    return 0


def _copied(made: Path, path: Path) -> None:
    path.write_bytes(made.read_bytes())


def _page(
    request: LearnRequest, past: Past, earlier: _Earlier, ledger: Ledger
) -> tuple[LearntPage, list[BookEdit]]:
    lots = past.lots()
    if not lots:
        raise InputError(
            "the floor has written down no minutes yet", would_do="read a floor book with `rollwright floor`"
        )
    settings, shop = ledger.settings, past.shop
    rules = LearnRules(
        request.today, settings.learning_spread, settings.half_life_days, earlier.before, earlier.spread
    )
    learnt = learn(lots, rules)
    proposal = propose(lots, learnt, shop, earlier.spread, earlier.scrap)
    new = with_bands(shop, proposal.bands)
    lines = lines_of(past.connection)
    recent = tuple(line for line in lines if _quoted_since(line.quote, request.today - MONTH))
    page = LearntPage(
        shop, request.today, lots, learnt, proposal, bias_by_group(lots, learnt.weights),
        effects_on(past.quoted(recent), shop, new),
        effects_on(past.quoted(tuple(line for line in lines if line.state == OPEN)), shop, new),
        f"shop-proposed-{request.today:%Y-%m-%d}.{book_ending(request.shop_dir)}",
    )  # fmt: skip
    return page, _edits(proposal, request.today)


def _quoted_since(quote: str, day: date) -> bool:
    return quote[:8] >= f"{day:%Y%m%d}"


def _edits(proposal: Proposal, day: date) -> list[BookEdit]:
    edits = [
        BookEdit(one.place.table, one.place.name, one.old, one.new, f"learnt {day} from {one.jobs} jobs")
        for one in proposal.changes
    ]
    for share in proposal.shares:
        old, new = (Band(value, value, value) for value in (share.old, share.new))
        edits.append(BookEdit(share.table, share.name, old, new, f"learnt {day} from {share.behind}"))
    return edits


@dataclass(frozen=True, slots=True)
class _Earlier:
    """What was learnt before: what settings were at first over what they are now, and the spreads' factor.

    `scrap` is the chance of scrap before it was learnt, None while the book's own stands.
    """

    before: Mapping[BookPlace, float]
    spread: float
    first: Mapping[BookPlace, float]
    scrap: float | None = None

    @classmethod
    def of(cls, text: str, shop: Shop) -> _Earlier:
        """Read what was noted when a proposal was taken; a setting changed by hand since begins anew."""
        try:
            return cls._noted(json.loads(text) if text else {}, shop)
        except (
            ValueError,
            TypeError,
            AttributeError,
            ZeroDivisionError,
            OverflowError,
            RecursionError,
        ) as error:
            raise damaged("what was learnt before cannot be read") from error

    @classmethod
    def _noted(cls, noted: Mapping[str, Any], shop: Shop) -> _Earlier:
        now = {place: band.likely for place, band in book_bands(shop).items()}
        before, first = {}, {}
        for table, name, was, taken in noted.get("settings", ()):
            place = BookPlace(table, name)
            if place in now and now[place] and abs(now[place] / taken - 1) < _SAME:
                before[place], first[place] = was / now[place], was
        was, taken = noted.get("scrap", (None, None))
        same = was is not None and abs(shop.labour.scrap_chance / taken - 1) < _SAME
        return cls(before, float(noted.get("spread", 1.0)), first, was if same else None)

    def after(self, proposal: Proposal, new: Shop) -> dict[str, Any]:
        """Return what to note when a proposal is taken; `new` is the shop by the book as it was written."""
        taken = {place: band.likely for place, band in book_bands(new).items()}
        first = {change.place: self.first.get(change.place, change.old.likely) for change in proposal.changes}
        settings = [
            [place.table, place.name, was, taken[place]] for place, was in {**self.first, **first}.items()
        ]
        note: dict[str, Any] = {"settings": settings, "spread": self.spread * proposal.spread}
        moved = next((one.old for one in proposal.shares if one.name == SCRAP), None)
        at_first = moved if self.scrap is None else self.scrap
        return note if at_first is None else note | {"scrap": [at_first, new.labour.scrap_chance]}


def _rows(page: LearntPage, kept: Path | None, directory: Path, name: str) -> list[str]:
    changes = page.proposal.changes
    rows = [
        f"learnt      {len(page.lots)} figures, {len(page.aside)} set aside; {len(changes)} settings move",
        *(f"{'':<12}{_change_words(one, page.shop)}" for one in sorted(changes, key=_size)[:8]),
        *(
            f"{'set aside':<12}{lot.task} {lot.kind}: {lot.took:g} min, expected {expected:.0f}; {lot.cell}"
            for lot, expected in page.aside[:8]
        ),
        f"quotes      {_effect_words('of the last month', page.recent)}",
        f"{'':<12}{_effect_words('still open', page.open_lines)}",
    ]
    if kept is not None:
        rows.append(f"applied     the shop's book is the proposed one; the one before is {kept.name}")
    return [*rows, f"files in    {directory}", f"{'':<12}{name}", f"{'':<12}{page.proposed}"]


def _size(change: BookChange) -> float:
    return -abs(change.share)


def _change_words(change: BookChange, shop: Shop) -> str:
    unit, words = change.place.unit(shop)
    old, new, low, high = (
        f"{value * unit:.3g}" for value in (change.old.likely, change.new.likely, change.low, change.high)
    )
    return f"{change.place.words(shop)}: {old} -> {new} {words} ({low} to {high}, {change.jobs} jobs)"


def _effect_words(which: str, effects: Sequence[QuoteEffect]) -> str:
    if not effects:
        return f"{which}: none"
    quoted, after = sum(one.quoted for one in effects), sum(one.after for one in effects)
    before = sum(one.before for one in effects)
    return (
        f"{which}: {len(effects)} lines, {quoted:,.0f} quoted; by today's book {before:,.0f}, by the new one "
        f"{after:,.0f}"
    )
