"""Tolerances asked for against what the process holds: held, held with fitting, or an exception said."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum
from math import atan2, cos, hypot, pi, sin

from quoting.core import Arc, Cone, Ends, OrderLine, ToleranceAsked, ToleranceOn, format_length
from quoting.estimating.result import Rolling, Route
from quoting.forming import out_of_roundness_mm, roundness_rule, scatter_out_of_round, shell_contour
from quoting.shop import Shop


class Held(StrEnum):
    """What becomes of a tolerance."""

    YES = "held"
    FITTED = "held with fitting of each piece, which is in the price"
    NO = "EXCEPTION"
    OPEN = "NOT CONFIRMED"


@dataclass(frozen=True, slots=True)
class JudgedTolerance:
    """One tolerance: what was asked and what we hold, both in mm (or the rule's), and the answer."""

    asked: ToleranceAsked
    asked_mm: float
    holds_mm: float
    held: Held
    re_rounded_mm: float | None = None

    def words(self, *, inch: bool) -> str:
        """Return the answer for the letter."""
        kind = self.asked.on
        most = kind in (ToleranceOn.ROUND, ToleranceOn.STRAIGHT)
        sign = "at most " if most else "+/- "
        rule = f" ({self.asked.code})" if self.asked.code else ""
        wanted = f"{kind.value} {sign}{_fine(self.asked_mm, inch)}{rule}"
        if self.asked.sides_mm is not None:
            plus, minus = (_fine(side, inch) if side else "0" for side in self.asked.sides_mm)
            wanted = f"{kind.value} +{plus} -{minus}"
        holds = f"about {_fine(self.holds_mm, inch)}" if most else f"+/- {_fine(self.holds_mm, inch)}"
        if self.held is Held.OPEN:
            return (
                f"{self.held.value}: you ask for {wanted}; on this part we can tell from the first piece only"
            )
        if self.held is not Held.NO:
            return f"{wanted}: {self.held.value}; expected {holds}"
        better = ""
        if self.re_rounded_mm is not None and self.re_rounded_mm <= self.asked_mm:
            better = f"; re-rounded after welding about {_fine(self.re_rounded_mm, inch)}, ask us to add it"
        return f"{self.held.value}: you ask for {wanted}; we quote {holds}{better}"


def judge_tolerances(line: OrderLine, route: Route, shop: Shop) -> tuple[JudgedTolerance, ...]:
    """Return what becomes of each tolerance of a line on its route."""
    return tuple(_judged(line, route, shop))


def expected_out_of_round(line: OrderLine, route: Route, shop: Shop, *, re_rounded: bool) -> float | None:
    """Return the expected out-of-roundness of the welded shell in mm: flats at the seam and uneven yield.

    None for an arc or a cone, or where the flats are not known. Both parts add as independent ones do.
    """
    if isinstance(line.shape, (Arc, Cone)) or route.plan.seams > 1:
        return None
    rolling = _largest(route)
    flats = _flats(rolling)
    if flats is None:
        return None
    rules = shop.operations.tolerance
    seam = shell_contour(rolling.blank.mean_diameter_mm, *flats).out_of_round_mm
    whole: float = (seam**2 + _uneven(rolling, shop) ** 2) ** 0.5
    return whole * rules.re_round_leaves if re_rounded else whole


def expected_contour(
    line: OrderLine, route: Route, shop: Shop, *, re_rounded: bool
) -> tuple[tuple[float, float], ...] | None:
    """Return the mean line of the welded shell, points in mm round its middle, the seam first.

    An uneven yield is drawn as the oval that it is taken for, at its worst place, along the seam. None where
    `expected_out_of_round` is.
    """
    rolling = _largest(route)
    flats = _flats(rolling)
    if flats is None or expected_out_of_round(line, route, shop, re_rounded=re_rounded) is None:
        return None
    found = shell_contour(rolling.blank.mean_diameter_mm, *flats)
    radius = rolling.blank.mean_diameter_mm / 2
    oval = _uneven(rolling, shop) / 4
    leaves = shop.operations.tolerance.re_round_leaves if re_rounded else 1.0
    angles = [atan2(y, x) for x, y in zip(found.x_mm, found.y_mm, strict=True)]
    radii = [hypot(x, y) for x, y in zip(found.x_mm, found.y_mm, strict=True)]
    points = []
    for angle, own in zip(angles, radii, strict=True):
        r = radius + leaves * (own - radius + oval * cos(2 * (angle - angles[0])))
        points.append((r * cos(angle), r * sin(angle)))
    return tuple(points)


def _largest(route: Route) -> Rolling:
    return max(route.rollings, key=lambda rolling: rolling.blank.mean_diameter_mm)


def _uneven(rolling: Rolling, shop: Shop) -> float:
    """Return what a yield that is not even adds to the out-of-roundness, mm."""
    scatter = shop.operations.tolerance.plate_scatter
    return scatter_out_of_round(rolling.blank.mean_diameter_mm, rolling.passes.springback_share, scatter)


def _flats(rolling: Rolling) -> tuple[float, float] | None:
    """Return the flats that stay in the shell; trimmed ends have none."""
    if rolling.blank.ends is Ends.TRIM:
        return 0.0, 0.0
    lead = rolling.passes.flat_lead_mm
    return None if lead is None else (lead, rolling.passes.flat_tail_mm)


def _judged(line: OrderLine, route: Route, shop: Shop) -> Iterator[JudgedTolerance]:
    rules = shop.operations.tolerance
    first = route.rollings[0].blank
    diameter, thickness = first.mean_diameter_mm, line.thickness_mm
    size_holds = diameter * (rules.diameter_share + rules.diameter_share_per_dt * diameter / thickness)
    for asked in line.tolerances:
        match asked.on:
            case ToleranceOn.ROUND:
                yield from _round(asked, line, route, shop)
            case ToleranceOn.STRAIGHT:
                wanted = asked.value_mm or asked.share * first.width_mm
                yield _plainly(asked, wanted, rules.straight_per_length * first.width_mm, fitting=False)
            case ToleranceOn.LENGTH:
                yield _plainly(asked, asked.value_mm or asked.share * first.width_mm, rules.length_mm)
            case ToleranceOn.CIRCUMFERENCE:
                wanted = asked.value_mm or asked.share * diameter * pi
                yield _plainly(asked, wanted, size_holds * pi)
            case ToleranceOn.DIAMETER:
                yield _plainly(asked, asked.value_mm or asked.share * diameter, size_holds)


def _plainly(asked: ToleranceAsked, wanted: float, holds: float, *, fitting: bool = True) -> JudgedTolerance:
    if wanted >= holds:
        return JudgedTolerance(asked, wanted, holds, Held.YES)
    if fitting and wanted >= holds / 2:
        return JudgedTolerance(asked, wanted, wanted, Held.FITTED)
    return JudgedTolerance(asked, wanted, holds / 2 if fitting else holds, Held.NO)


def _round(asked: ToleranceAsked, line: OrderLine, route: Route, shop: Shop) -> Iterator[JudgedTolerance]:
    blank = route.rollings[0].blank
    inside = blank.mean_diameter_mm - blank.thickness_mm
    wanted = asked.value_mm or asked.share * inside
    if asked.code:
        wanted = out_of_roundness_mm(inside, line.thickness_mm, roundness_rule(asked.code))
    holds = expected_out_of_round(line, route, shop, re_rounded=line.re_round)
    if holds is None:
        yield JudgedTolerance(asked, wanted, wanted, Held.OPEN)
        return
    better = expected_out_of_round(line, route, shop, re_rounded=True)
    held = Held.YES if wanted >= holds else Held.NO
    yield JudgedTolerance(asked, wanted, holds, held, better if not line.re_round else None)


def _fine(mm: float, inch: bool) -> str:
    """Return a small length: thirty-seconds of an inch up to a half, else as any length."""
    if not inch:
        return f"{mm:.1f} mm"
    thirty_seconds = max(1, round(mm / 25.4 * 32))
    return format_length(thirty_seconds / 32 * 25.4, inch=True)
