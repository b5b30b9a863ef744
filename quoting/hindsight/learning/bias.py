"""How far the book is off by kind of job: shape, metal, thickness, weight, roll, and who was at the roll.

Ratios of what lots took over the book are kept as logarithms, since errors are shares; each group is drawn
towards the common mean by how few jobs it has (`statistics.shrinkage.drawn_together`).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import exp

from quoting.hindsight.learning.lots import LotDone
from quoting.hindsight.statistics import drawn_together

_MM_BANDS = ((3.2, "up to 3.2 mm (1/8 in)"), (6.5, "up to 6.5 mm (1/4 in)"), (13.0, "up to 13 mm (1/2 in)"))
_KG_BANDS = (
    (14.0, "up to 14 kg (30 lb)"),
    (91.0, "up to 91 kg (200 lb)"),
    (910.0, "up to 910 kg (2,000 lb)"),
)
_USUAL_SD, _USUAL_WORTH = 0.25, 3
"""Scatter of one lot, as if three lots more had shown it: a group of one has a spread too."""
_LEAST_BETWEEN = 0.05


@dataclass(frozen=True, slots=True)
class GroupBias:
    """One group of jobs: how many, what they took over the book as seen and drawn in, with its interval.

    `spread` is the scatter of one job, as a share.
    """

    by: str
    group: str
    jobs: int
    seen: float
    drawn: float
    low: float
    high: float
    spread: float


def bias_by_group(lots: Sequence[LotDone], weights: Sequence[float]) -> tuple[GroupBias, ...]:
    """Return every grouping of the lots that are not set aside, most jobs first within each grouping."""
    import pandas as pd  # noqa: PLC0415 - heavy, and only needed where tables are grouped

    rows = [
        {
            "kind of work": lot.kind,
            "shape": lot.shape,
            "metal": lot.family,
            "thickness": _band(lot.thickness_mm, _MM_BANDS, "thicker"),
            "weight of a piece": _band(lot.weight_kg, _KG_BANDS, "heavier"),
            "machine": lot.roll,
            "who": lot.crew,
            "took": lot.took,
            "planned": lot.planned,
        }
        for lot, weight in zip(lots, weights, strict=True)
        if weight > 0 and lot.planned > 0 and lot.took > 0
    ]
    if not rows:
        return ()
    table = pd.DataFrame(rows)
    import numpy as np  # noqa: PLC0415 - as pandas

    table["off"] = np.log(table["took"] / table["planned"])
    found: list[GroupBias] = []
    for by in ("kind of work", "shape", "metal", "thickness", "weight of a piece", "machine", "who"):
        known = table[table[by] != ""]
        groups = known.groupby(by)["off"].agg(["size", "mean", "var"]).fillna(0.0)
        groups = groups.sort_values("size", ascending=False)
        if len(groups):
            found += _drawn(by, groups)
    return tuple(found)


def _drawn(by: str, groups: object) -> list[GroupBias]:
    rows = [
        (str(row.Index), int(row.size_), float(row.mean_), float(row.var_))
        for row in groups.set_axis(["size_", "mean_", "var_"], axis=1).itertuples()  # type: ignore[attr-defined]
    ]
    spreads = [_spread(jobs, variance) for _, jobs, _, variance in rows]
    means = [mean for _, _, mean, _ in rows]
    sds = [spread / jobs**0.5 for spread, (_, jobs, _, _) in zip(spreads, rows, strict=True)]
    found = []
    for (name, jobs, mean, _), spread, posterior in zip(
        rows, spreads, drawn_together(means, sds, _LEAST_BETWEEN), strict=True
    ):
        low, high = posterior.interval()
        found.append(GroupBias(by, name, jobs, exp(mean), exp(posterior.mean), exp(low), exp(high), spread))
    return found


def _spread(jobs: int, variance: float) -> float:
    """Return the scatter of one lot; the usual one counts as some lots."""
    freedom = jobs - 1
    return float(((_USUAL_WORTH * _USUAL_SD**2 + freedom * variance) / (_USUAL_WORTH + freedom)) ** 0.5)


def _band(value: float, bands: Sequence[tuple[float, str]], above: str) -> str:
    if value <= 0:
        return ""
    return next((words for most, words in bands if value <= most), above)
