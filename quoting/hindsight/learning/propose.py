"""Changes of the shop's book that the floor's minutes ask for; nothing is changed here.

The chance of scrap is the mean of a beta posterior, (prior pieces x chance + spoiled) / (prior pieces +
made), the conjugate of counts, as in Gelman et al., Bayesian Data Analysis, chapter 2 (from memory).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import log, sqrt

from quoting.hindsight.learning.learn import Learnt, LearntSetting
from quoting.hindsight.learning.lots import LotDone
from quoting.hindsight.learning.minutes_by_setting import TRAVEL, BookPlace, book_bands
from quoting.hindsight.statistics import SET_ASIDE
from quoting.shop import Band, Shop

LEAST_JOBS = 3
MOST_DOUBT = 0.8
"""A setting stays while more than this share of the doubt about it is left."""
LEAST_CHANGE = 0.02
SPREAD_WORTH = 10
"""The book's own spread counts as so many lots."""
SCRAP_WORTH = 100
"""The book's chance of scrap counts as so many pieces; an estimate of this program, no source."""
SCRAP = "scrap_chance"
_COUNTED = ("run", "both")  # pieces stand beside the set-up too, the same ones
SCRAP_CHANGE = 0.1
"""Smaller changes of the chance, as a share of it, are left alone."""
_LEAST_SPREAD, _MOST_SPREAD = 0.5, 2.0


@dataclass(frozen=True, slots=True)
class BookChange:
    """One changed setting: old and new in minutes, and the evidence.

    `low` and `high` are where the new likely value lies 95 times in a hundred, `jobs` how many it rests on.
    """

    place: BookPlace
    old: Band
    new: Band
    low: float
    high: float
    jobs: int

    @property
    def share(self) -> float:
        """Return the change as a share of the old likely value."""
        return self.new.likely / self.old.likely - 1


@dataclass(frozen=True, slots=True)
class ShareChange:
    """A changed share of `[risk]`, or the chance of scrap in `[labour]`, with what is behind it."""

    name: str
    old: float
    new: float
    jobs: int
    table: str = "risk"

    @property
    def words(self) -> str:
        """Return the setting as the floor calls it."""
        return (
            "chance that a piece is scrap"
            if self.name == SCRAP
            else f"set-up: {self.name.removeprefix('setup_').replace('_', ' ')} of its minutes"
        )

    @property
    def behind(self) -> str:
        """Return what the figure rests on."""
        return f"{self.jobs} {'lots' if self.name == SCRAP else 'set-ups'}"


@dataclass(frozen=True, slots=True)
class Proposal:
    """All that changes: minutes with their spreads, risk shares, and by what the spreads are multiplied."""

    changes: tuple[BookChange, ...]
    shares: tuple[ShareChange, ...]
    spread: float
    lots: int

    @property
    def bands(self) -> dict[BookPlace, Band]:
        """Return the new values by place."""
        return {change.place: change.new for change in self.changes}


def propose(
    lots: Sequence[LotDone],
    learnt: Learnt,
    shop: Shop,
    spread_before: float = 1.0,
    scrap_before: float | None = None,
) -> Proposal:
    """Return what would change in a shop's book: minutes that the evidence moves, and their spreads.

    A roll's surface speed is never changed by minutes: it is measured with a chalk mark. `scrap_before` is
    the chance of scrap before it was ever learnt, None: that of the book.
    """
    bands = book_bands(shop)
    used = [lot for lot, weight in zip(lots, learnt.weights, strict=True) if weight >= SET_ASIDE]
    spread = spread_factor(used, learnt, spread_before)
    changes = []
    for one in learnt.settings:
        if one.jobs < LEAST_JOBS or one.told > MOST_DOUBT or one.place.name == TRAVEL:
            continue
        change = _change(one, bands[one.place], spread)
        if change.new != change.old:
            changes.append(change)
    shares = (*_setup_shares(used, learnt, shop), *_scrap_chance(lots, shop, scrap_before))
    return Proposal(tuple(changes), shares, spread, len(used))


def _change(one: LearntSetting, old: Band, spread: float) -> BookChange:
    low, high = (max(0.01, bound) for bound in one.ratio.interval())
    moves = abs(one.ratio.mean - 1) >= LEAST_CHANGE
    if not moves and (old.low == old.high or abs(spread - 1) < LEAST_CHANGE):
        return BookChange(one.place, old, old, old.likely * low, old.likely * high, one.jobs)
    likely = _round(old.likely * one.ratio.mean) if moves else old.likely
    new = Band(likely, likely, likely)
    if old.low < old.likely or old.likely < old.high:
        scale = likely / old.likely * spread if old.likely else spread
        new = Band(
            _round(max(0.2 * likely, likely - (old.likely - old.low) * scale)),
            likely,
            _round(likely + (old.high - old.likely) * scale),
        )
    return BookChange(one.place, old, new, old.likely * low, old.likely * high, one.jobs)


def spread_factor(lots: Sequence[LotDone], learnt: Learnt, before: float = 1.0) -> float:
    """Return how much wider real lots scatter than the book's low and high say, drawn towards 1.

    A lot's low and high are taken as what one lot in ten falls below and above, 2.563 standard deviations
    apart. The spread that the book had before it was learnt (`before`: what it was multiplied by since)
    counts as ten lots; the answer to that one is between a half and two.
    """
    squares = []
    for lot in lots:
        if lot.kind == "run" and lot.high > lot.low > 0:
            expected = learnt.expected(lot)
            said = (log(lot.high) - log(lot.low)) / 2.563
            squares.append((log(lot.took / expected) / said * before) ** 2)
    kept = (SPREAD_WORTH + sum(min(one, 9.0) for one in squares)) / (SPREAD_WORTH + len(squares))
    return min(_MOST_SPREAD, max(_LEAST_SPREAD, sqrt(kept))) / before


def _setup_shares(lots: Sequence[LotDone], learnt: Learnt, shop: Shop) -> tuple[ShareChange, ...]:
    """Return the shares of its typical minutes that a set-up takes at least and at most."""
    ratios = sorted(lot.took / learnt.expected(lot) for lot in lots if lot.kind == "set-up")
    if len(ratios) < SPREAD_WORTH:
        return ()
    found = []
    for name, tenth in (("setup_least_share", 0.1), ("setup_most_share", 0.9)):
        seen = ratios[min(len(ratios) - 1, int(tenth * len(ratios)))]
        old = getattr(shop.risk, name)
        new = round((SPREAD_WORTH * old + len(ratios) * seen) / (SPREAD_WORTH + len(ratios)), 2)
        bounded = min(1.0, new) if name == "setup_least_share" else max(1.0, new)
        if abs(bounded - old) >= LEAST_CHANGE:
            found.append(ShareChange(name, old, bounded, len(ratios)))
    return tuple(found)


def _scrap_chance(lots: Sequence[LotDone], shop: Shop, before: float | None) -> tuple[ShareChange, ...]:
    """Return the chance of scrap by the pieces counted; a lot spoiled by half and more is one mistake."""
    counted = [(lot.good, lot.scrap) for lot in lots if lot.kind in _COUNTED and lot.good + lot.scrap > 0]
    old = shop.labour.scrap_chance
    if len(counted) < SPREAD_WORTH or old == 0:
        return ()
    spoiled = sum(1 if scrap > good else scrap for good, scrap in counted)
    made = sum(1 if scrap > good else good + scrap for good, scrap in counted)
    first = old if before is None else before
    new = round((SCRAP_WORTH * first + spoiled) / (SCRAP_WORTH + made), 4)
    if abs(new / old - 1) < SCRAP_CHANGE or new <= 0:
        return ()
    return (ShareChange(SCRAP, old, new, len(counted), "labour"),)


def _round(minutes: float) -> float:
    return round(minutes, 2) if minutes < 100 else round(minutes, 1)
