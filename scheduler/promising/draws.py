"""What may go otherwise than planned, drawn: minutes, set-ups, plates, welders, breakdowns, orders."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta

import numpy as np
from numpy.typing import NDArray

from quoting.shop import PromiseSettings, Shop
from scheduler.calendar import working_days_after
from scheduler.jobs import CUT, DAY_MIN, RE_ROUND, ShopOperation
from scheduler.promising.present_order import PresentOrder
from scheduler.sequence import Drawn

SHIFT_MIN = 480
"""Working minutes of a day, for the share of a breakdown's chance that falls on one operation."""


def draw(present: PresentOrder, chances: dict[str, float], shop: Shop, seed: int) -> Drawn:
    """Return seeded draws of everything; `chances` are those of the quotes to be won, by name."""
    settings, t, works = shop.promise, present.tables, present.week.works
    rng = np.random.default_rng(seed)
    shape = (settings.draws, t.size)
    low, high = np.array([_spread(work, settings) for work in works]).T
    factor = rng.triangular(low, 1.0, np.maximum(high, low + 1e-6), shape)
    risk = shop.risk
    set_factor = rng.triangular(risk.setup_least_share, 1.0, max(risk.setup_most_share, 1.000001), shape)
    minutes = np.array([min(modes.values()) for modes in t.minutes])
    broken = rng.random(shape) < settings.down_chance * minutes / SHIFT_MIN
    more = np.where(broken, rng.random(shape) * settings.down_most_hours * 60, 0).astype(np.int64)
    later = _Later(present.week.axis.start.date(), t.problem.horizon, shop)
    release = np.tile(np.array(t.release, dtype=np.int64), (settings.draws, 1))
    comes = np.array([work.kind == CUT and t.release[i] > 0 for i, work in enumerate(works)])
    late = _days(
        rng, (settings.draws, int(comes.sum())), settings.plate_late_chance, settings.plate_late_most_days
    )
    release[:, comes] = later.by(release[:, comes], late)
    return_late = _days(rng, shape, settings.weld_late_chance, settings.weld_late_most_days)
    away = np.array([work.kind == RE_ROUND and not t.before[i] for i, work in enumerate(works)])
    release[:, away] = later.by(release[:, away], return_late[:, away])
    lags = _lags(present, return_late)
    there = _there(present, chances, rng, settings.draws)
    return Drawn(factor, set_factor, more, release, lags, there)


def _spread(work: ShopOperation, settings: PromiseSettings) -> tuple[float, float]:
    """Return the least and the most of an operation's minutes, as shares of the likely ones."""
    told = work.line.told if work.line else None
    band = next((choice.minutes for choice in told.rolls), None) if told else None
    if band is None or band.likely <= 0:
        return settings.minutes_least_share, settings.minutes_most_share
    return min(1.0, band.low / band.likely), max(1.0, band.high / band.likely)


def _days(rng: np.random.Generator, shape: tuple[int, int], chance: float, most: int) -> NDArray[np.int64]:
    """Return working days late: none, or 1 to `most`, each as likely."""
    late = rng.integers(1, most + 1, shape)
    return np.where(rng.random(shape) < chance, late, 0)


def _lags(present: PresentOrder, late: NDArray[np.int64]) -> NDArray[np.int64]:
    """Return the lag of every wait; a welder who is late by working days adds whole days to it."""
    columns = [
        np.full(len(late), lag, dtype=np.int64) + (late[:, i] * 7 // 5 * DAY_MIN if lag else 0)
        for i, waits in enumerate(present.tables.before)
        for _, lag in waits
    ]
    return np.stack(columns, axis=1) if columns else np.zeros((len(late), 0), dtype=np.int64)


def _there(
    present: PresentOrder, chances: dict[str, float], rng: np.random.Generator, draws: int
) -> NDArray[np.bool_]:
    """Return which operations there are: those of the floor, and of each quote that is won in the draw."""
    won = {name: rng.random(draws) < chance for name, chance in chances.items()}
    found = np.ones((draws, len(present.quotes_of)), dtype=np.bool_)
    for i, quotes in enumerate(present.quotes_of):
        if quotes:
            found[:, i] = np.any([won[name] for name in sorted(quotes)], axis=0)
    return found


class _Later:
    """Minutes of the axis put off by working days."""

    def __init__(self, first: date, horizon: int, shop: Shop) -> None:
        last = first + timedelta(minutes=horizon) + timedelta(days=400)
        days: list[int] = []
        day = first - timedelta(days=1)
        while day < last:
            day = working_days_after(day, 1, shop)
            days.append((day - first).days * DAY_MIN)
        self.days = np.array(days)

    def by(self, minutes: NDArray[np.int64], late: NDArray[np.int64]) -> NDArray[np.int64]:
        """Return the minutes of midnight so many working days later; 0 leaves a minute as it is."""
        place = np.searchsorted(self.days, minutes, side="right") - 1 + late
        put_off = self.days[np.clip(place, 0, len(self.days) - 1)]
        return np.where(late > 0, put_off, minutes)


__all__: Sequence[str] = ["draw"]
