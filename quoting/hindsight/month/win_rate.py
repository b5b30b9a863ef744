"""How often a quote is won, with honest intervals; and what a point of margin cost, where that can be told.

Shares have Wilson's interval (`statistics.wilson`). The chance to win against the margin is a logistic curve
with Firth's penalty, which is finite in small samples too (D. Firth, "Bias reduction of maximum likelihood
estimates", Biometrika 80 (1993) 27-38); it is shown only from fifty decided lines with fifteen of the rarer
outcome on, and only when its slope's interval does not hold 0.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from math import sqrt

import numpy as np

from quoting.hindsight.month.facts import LineDecided
from quoting.hindsight.statistics import Floats, Share, wilson

LEAST_DECIDED, LEAST_RARER = 50, 15
_MARGINS = ((0.10, "margin under 10 %"), (0.20, "10 to 20 %"), (0.30, "20 to 30 %"))
_SIZES = ((250, "under 250"), (1_000, "250 to 1,000"), (5_000, "1,000 to 5,000"))
_Z = 1.959964
_WORD = {"won": 2, "lost": 1}


@dataclass(frozen=True, slots=True)
class WinRate:
    """One group of decided lines: how many were won of how many, with the interval."""

    by: str
    group: str
    share: Share


@dataclass(frozen=True, slots=True)
class MarginPoint:
    """What one point of margin does: the change of the chance to win and of expected profit a line, by the
    fit at the mean margin; `words` says so, or why it cannot be said.
    """

    words: str
    chance: float | None = None
    profit: float | None = None


def counted_once(lines: Sequence[LineDecided]) -> tuple[LineDecided, ...]:
    """Return lines with each inquiry once: a win above all, then a loss, until it is asked again and won."""
    found: dict[tuple[str, str, int], LineDecided] = {}
    for line in sorted(lines, key=lambda one: (one.quoted, one.line)):
        known = found.get(line.key)
        if known is None or _WORD.get(line.state, 0) >= _WORD.get(known.state, 0):
            found[line.key] = line
    return tuple(found.values())


def win_rates(lines: Sequence[LineDecided]) -> tuple[WinRate, ...]:
    """Return the share that was won of lines decided, by margin, size, shape, material and customer."""
    decided = [line for line in counted_once(lines) if line.state in ("won", "lost")]
    keys: tuple[tuple[str, Callable[[LineDecided], str]], ...] = (
        ("all", lambda line: "all lines decided"),
        ("margin", lambda line: _band(line.margin, _MARGINS, "30 % and more")),
        ("size", lambda line: _band(float(line.price), _SIZES, "5,000 and more")),
        ("shape", lambda line: line.shape),
        ("material", lambda line: line.material),
        ("customer", lambda line: line.customer),
    )
    found = []
    for by, key in keys:
        groups: dict[str, list[bool]] = defaultdict(list)
        for line in decided:
            groups[key(line)].append(line.state == "won")
        for name, won in sorted(groups.items(), key=lambda item: (-len(item[1]), item[0])):
            found.append(WinRate(by, name, wilson(sum(won), len(won))))
    return tuple(found)


def margin_point(lines: Sequence[LineDecided], currency: str) -> MarginPoint:
    """Return what a point of margin cost or earned, only where the decided lines can carry it."""
    decided = [line for line in counted_once(lines) if line.state in ("won", "lost")]
    won = np.array([line.state == "won" for line in decided], dtype=np.float64)
    rarer = int(min(won.sum(), len(won) - won.sum())) if len(won) else 0
    if len(decided) < LEAST_DECIDED or rarer < LEAST_RARER:
        return MarginPoint(
            f"What a point of margin costs cannot be told: {len(decided)} lines are decided, {rarer} of the "
            f"rarer outcome; it takes {LEAST_DECIDED} and {LEAST_RARER}."
        )
    margin = np.array([line.margin for line in decided])
    at = margin - margin.mean()
    slope, error = firth(at, won)
    if abs(slope) < _Z * error:
        return MarginPoint(
            f"What a point of margin costs cannot be told: over {len(decided)} lines the chance to win does "
            "not change with the margin by more than chance."
        )
    chance = float(won.mean())
    a_point = 0.01 * slope * chance * (1 - chance)
    price = float(np.mean([float(line.price) for line in decided]))
    mean = float(margin.mean())
    earned = price * (0.01 * chance + mean * a_point)
    way = "earned" if earned > 0 else "cost"
    return MarginPoint(
        f"A point more margin changes the chance to win by {100 * a_point:+.1f} points and {way} "
        f"{abs(earned):,.2f} {currency} a quoted line, around a margin of {mean:.0%} ({len(decided)} lines; "
        "by how quotes went, not by trial: less where the desk prices dear what it does not want).",
        a_point,
        earned,
    )


def firth(x: Floats, won: Floats) -> tuple[float, float]:
    """Return the slope of the chance to win against x on the logit scale, and its standard error.

    Newton's steps on the score with Firth's term h (1/2 - p), h the leverages.
    """
    matrix = np.column_stack([np.ones(len(x)), x])
    beta = np.zeros(2)
    information = np.eye(2)
    for _ in range(100):
        p = 1 / (1 + np.exp(-np.clip(matrix @ beta, -30, 30)))
        weight = p * (1 - p)
        information = matrix.T @ (matrix * weight[:, None])
        inverse = np.linalg.inv(information)
        leverage = weight * np.einsum("ij,jk,ik->i", matrix, inverse, matrix)
        step = inverse @ (matrix.T @ (won - p + leverage * (0.5 - p)))
        beta = beta + np.clip(step, -5, 5)
        if float(np.max(np.abs(step))) < 1e-10:
            break
    return float(beta[1]), sqrt(float(np.linalg.inv(information)[1, 1]))


def _band(value: float, bands: Sequence[tuple[float, str]], above: str) -> str:
    return next((words for least, words in bands if value < least), above)
