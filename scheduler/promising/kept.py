"""What earlier quotes and promises say: how often a quote is won, and how sure a safe day has to be drawn."""

from __future__ import annotations

from collections.abc import Iterable

from quoting.shop import PromiseSettings

LEARNS_FROM = 20
"""Decided lines from which on the shop's own share of won lines is taken."""

STEP = 0.02
"""How far one promise moves the level: some 50 promises correct it.

A promise is known to be kept only when the job is done. With many open at once the level swings about the
right one, but dies down while `STEP` times the open promises, times how steeply the share kept rises with the
level (1 where the draws are right), is below pi/2: some 80 open promises.
"""

LEAST, MOST = 0.02, 1.5
"""So far the level may go. While it is between them the share kept is the one wanted, give or take how far
the level has gone over `STEP` and the number of promises: after 2,200 by two hundredths at most."""


def win_chance(won: int, lost: int, settings: PromiseSettings) -> float:
    """Return the chance that an open line is won: the share so far, or the setting while few are decided."""
    decided = won + lost
    return won / decided if decided >= LEARNS_FROM else settings.win_chance


def wanted_level(kept: Iterable[bool], settings: PromiseSettings) -> float:
    """Return the level at which safe days are to be drawn, from promises kept and missed, oldest first.

    Each missed promise raises it and each kept one lowers it, so that in the long run the share wanted is
    kept whatever the draws leave out: level + step (share - kept), the rule of adaptive conformal inference
    (Gibbs & Candes, NeurIPS 2021; its form from memory). That a lead time's parameters are watched and
    adjusted from what happened is in Hopp & Roof Sturgis (IIE Transactions 32, 2000). A level above 1 means
    days beyond the latest draw.

    >>> wanted_level([], PromiseSettings())
    0.9
    """
    level = settings.kept_share
    for one in kept:
        level = min(MOST, max(LEAST, level + STEP * (settings.kept_share - one)))
    return level
