"""From totals of lots to the minutes of each step: a regression that begins at the book.

Every total is a sum of the book's minutes, each times what that setting is off by. What each is off by is
learnt as the mean of a normal posterior (see `statistics.robust_fit`); before any job it is 1, give or take
`prior_spread`, half of the variance common to all settings of a group of work (everything a bit slower), half
each setting's own. Half of a total's variance is taken to go with its minutes (many small things), half with
their square (a bad day). A figure's age halves its say every `half_life_days`; the prior does not age. So few
jobs move little, and what totals cannot tell apart (load and unload always come together) moves together.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date

import numpy as np

from quoting.hindsight.learning.lots import LotDone
from quoting.hindsight.learning.minutes_by_setting import TRAVEL, BookPlace
from quoting.hindsight.statistics import (
    SET_ASIDE,
    Floats,
    LinearPrior,
    Posterior,
    counted_in_full,
    robust_ridge,
)

USUAL_SCATTER, SCATTER_WORTH = 0.25, 5
"""A lot's total is taken to scatter by this share before anything is known, as if five lots had said so; an
estimate of this program, no source."""

TIMED_SPREAD = 0.05
"""A roll's surface speed is measured with a chalk mark: its passes are taken to be off by no more."""

_LEAST_OF_TOTAL = 0.02
"""A lot counts as one behind a setting when the setting is at least this share of its minutes."""


@dataclass(frozen=True, slots=True)
class LearnRules:
    """How much the book is trusted, how fast figures age, as of which day.

    `before` gives for settings that were learnt earlier what they were before, over what they are now: the
    prior stays there, so that learning twice from the same jobs changes nothing; `spread_before` is by what
    the spreads were multiplied already.
    """

    today: date
    prior_spread: float = 0.3
    half_life_days: float = 365.0
    before: Mapping[BookPlace, float] = field(default_factory=dict)
    spread_before: float = 1.0


@dataclass(frozen=True, slots=True)
class LearntSetting:
    """One setting: by what its minutes are to be multiplied, with the prior, and the jobs behind it."""

    place: BookPlace
    ratio: Posterior
    prior: Posterior
    jobs: int

    @property
    def told(self) -> float:
        """Return how much of the doubt is left: 1 nothing was learnt, 0 all is known."""
        return self.ratio.sd / self.prior.sd


@dataclass(frozen=True, slots=True)
class Learnt:
    """All that was learnt: settings, the weight of every lot in order, and how a lot's total scatters."""

    settings: tuple[LearntSetting, ...]
    weights: tuple[float, ...]
    scatter: float
    middle: float

    def of(self, place: BookPlace) -> float:
        """Return what a setting is off by, 1 where nothing is known of it."""
        return next((one.ratio.mean for one in self.settings if one.place == place), 1.0)

    def beyond(self, lots: Sequence[LotDone]) -> dict[BookPlace, float]:
        """Return by setting the minutes of some lots beyond the book, most first, as the fit splits them."""
        ratios = {one.place: one.ratio.mean for one in self.settings}
        found: dict[BookPlace, float] = {}
        for lot in lots:
            for place, minutes in lot.by_setting.items():
                found[place] = found.get(place, 0.0) + minutes * (ratios.get(place, 1.0) - 1)
        return dict(sorted(found.items(), key=lambda item: -item[1]))

    def expected(self, lot: LotDone) -> float:
        """Return the minutes that the learnt settings give for a lot."""
        ratios = {one.place: one.ratio.mean for one in self.settings}
        return sum(minutes * ratios.get(place, 1.0) for place, minutes in lot.by_setting.items())


def learn(lots: Sequence[LotDone], rules: LearnRules) -> Learnt:
    """Return what the lots say of every setting that they are made of; nothing from no lots."""
    places = sorted({place for lot in lots for place in lot.by_setting})
    if not places:
        return Learnt((), (), USUAL_SCATTER, 1.0)
    x = np.array([[lot.by_setting.get(place, 0.0) for place in places] for lot in lots])
    y = np.array([lot.took for lot in lots])
    planned = x.sum(axis=1)
    prior = prior_of(places, rules)
    at_first = x @ prior.mean
    middle = float(np.median(at_first))
    size, evidence = np.sqrt(at_first * (at_first + middle) / 2), _evidence(lots, rules)
    fit = counted_in_full(robust_ridge(x, y, size, evidence, prior), x, y, size, evidence, prior)
    behind = ((x >= _LEAST_OF_TOTAL * planned[:, None]) & (fit.weights >= SET_ASIDE)[:, None]).sum(axis=0)
    own = np.sqrt(np.diag(fit.covariance))
    before = np.sqrt(np.diag(prior.covariance))
    settings = tuple(
        LearntSetting(
            place,
            Posterior(float(max(fit.mean[k], 0.05)), float(own[k])),
            Posterior(float(prior.mean[k]), float(before[k])),
            int(behind[k]),
        )
        for k, place in enumerate(places)
    )
    return Learnt(settings, tuple(float(w) for w in fit.weights), fit.scatter, middle)


def prior_of(places: Sequence[BookPlace], rules: LearnRules) -> LinearPrior:
    """Return what is taken before any job: ratios of 1, or of what the book was before it was learnt."""
    groups = np.array([place.group for place in places])
    same = (groups[:, None] == groups[None, :]).astype(float)
    mean = np.array([rules.before.get(place, 1.0) for place in places])
    spread = np.array(
        [
            min(TIMED_SPREAD, rules.prior_spread) if place.name == TRAVEL else rules.prior_spread
            for place in places
        ]
    )
    covariance = 0.5 * (same + np.eye(len(places))) * np.outer(spread * mean, spread * mean)
    return LinearPrior(mean, covariance, USUAL_SCATTER, SCATTER_WORTH)


def _evidence(lots: Sequence[LotDone], rules: LearnRules) -> Floats:
    days = np.array([max(0, (rules.today - lot.day).days) for lot in lots], dtype=np.float64)
    return np.asarray(0.5 ** (days / rules.half_life_days), dtype=np.float64)
