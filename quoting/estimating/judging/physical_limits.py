"""What no rating of a roll says: too short to be rolled, too heavy for the crane, too large for the door.

Each is a sentence for a line that is refused, or nothing.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import cos, radians, sin

from quoting.core import MM_PER_INCH, Arc, Ends, OrderLine, format_length, format_weight
from quoting.estimating.result import Rolling
from quoting.shop import Shop

_FLAT = 10.0
"""A band this many times wider than its least end is called flat."""


def physical_problem(rollings: tuple[Rolling, ...], shop: Shop, *, inch: bool) -> str:
    """Return why this cannot be done whatever the roll is rated for; empty when nothing says so."""
    return next(_problems(rollings, shop, inch=inch), "")


def _problems(rollings: tuple[Rolling, ...], shop: Shop, *, inch: bool) -> Iterator[str]:
    for rolling in rollings:
        if short := _too_short(rolling, inch=inch):
            yield short
    yield from _too_gentle(rollings, shop, inch=inch)
    yield from _crane(rollings, shop, inch=inch)
    yield from _door(rollings, shop, inch=inch)


def _too_short(rolling: Rolling, *, inch: bool) -> str:
    """Return that the blank does not reach from the pinch to the bending roll, empty when it does."""
    least, length = rolling.passes.least_length_mm, rolling.blank.flat_length_mm
    if least is None or length >= least:
        return ""
    has, needs = (format_length(round(mm, 1), inch=inch) for mm in (length, least))
    what = "pre-bent" if rolling.blank.ends is Ends.PRE_BEND else "rolled"
    return f"the blank is only {has} long: to be {what} it must reach the bending roll and be held, {needs}"


def _too_gentle(rollings: tuple[Rolling, ...], shop: Shop, *, inch: bool) -> Iterator[str]:
    """A bend that hardly yields comes out at any radius; the share grows with the thickness."""
    least = shop.passes.least_bend_share
    for rolling in rollings:
        share = rolling.passes.bend_share
        if share < least:
            thick = rolling.blank.thickness_mm * least / share
            yield (
                f"the plate is so thin for this diameter that it would come out anywhere "
                f"{_band_words(rolling, inch=inch)}: nobody can promise a radius; from about "
                f"{format_length(round(thick, 1), inch=inch)} thick up we can"
            )
            return


def _band_words(rolling: Rolling, *, inch: bool, fold: int = 1) -> str:
    """Return between which inside diameters, or parts of them, plate of the grade springs back."""
    low, high = sorted(mm / fold for mm in rolling.passes.inside_diameter_band_mm)
    first = _rough(low, inch=inch)
    if high > _FLAT * low:
        return f"from {first} up to nearly flat"
    return f"from {first} to {_rough(high, inch=inch)}"


def _rough(mm: float, *, inch: bool) -> str:
    """Return a length that is only roughly known, to a quarter inch or 5 mm."""
    step = MM_PER_INCH / 4 if inch else 5.0
    return format_length(round(mm / step) * step, inch=inch)


def springback_band(rollings: tuple[Rolling, ...], shop: Shop, *, inch: bool, arc: bool) -> str:
    """Return between which inside diameters (of an arc radii) one setting leaves plate of the grade; empty
    where that is nothing to be told.

    A plate that opens by half needs a loaded curvature 4.5 times the one at which it begins to yield: from
    there a tenth more yield is a twentieth more diameter, and thin plate comes down to one pass, so that no
    earlier pass has told how it springs. Below, the passes that are planned anyway bring it home.
    """
    worst = max(rollings, key=lambda rolling: rolling.passes.spread)
    rules, plan = shop.passes, worst.passes
    if plan.spread <= rules.spread_flag or plan.springback_share < rules.springback_flag:
        return ""
    return f"{_band_words(worst, inch=inch, fold=2 if arc else 1)} {'inside radius' if arc else 'inside'}"


def route_flags(line: OrderLine, rollings: tuple[Rolling, ...], chance: float, shop: Shop) -> tuple[str, ...]:
    """Return what the estimator has to look at before signing."""
    flags = []
    if band := springback_band(rollings, shop, inch=shop.inch, arc=isinstance(line.shape, Arc)):
        flags.append(
            f"springback: comes out {band} with soft to hard plate of the grade; trial passes "
            "priced, get the certificate before rolling"
        )
    if chance > shop.risk.most_trouble_chance:
        flags.append(f"{chance:.0%} chance that the plate delivered is too strong for this roll")
    return tuple(flags)


def _crane(rollings: tuple[Rolling, ...], shop: Shop, *, inch: bool) -> Iterator[str]:
    capacity = shop.lifting.crane_capacity_kg
    heaviest = max(rolling.blank.weight_kg for rolling in rollings)
    if capacity is not None and heaviest > capacity:
        piece, most = (format_weight(kg, inch=inch) for kg in (heaviest, capacity))
        yield f"a piece of {piece} is more than our crane lifts, {most}"


def _door(rollings: tuple[Rolling, ...], shop: Shop, *, inch: bool) -> Iterator[str]:
    """A shell goes out lying or standing: two of its three sizes have to pass the door."""
    width, height = shop.lifting.door_width_mm, shop.lifting.door_height_mm
    if width is None or height is None:
        return
    for rolling in rollings:
        sizes = sorted(rolled_size(rolling))
        if sizes[0] > min(width, height) or sizes[1] > max(width, height):
            shown = " x ".join(_near(mm, inch=inch) for mm in sizes)
            door = " x ".join(format_length(mm, inch=inch) for mm in (width, height))
            yield f"rolled it measures {shown} and does not pass our door, {door}"
            return


def _near(mm: float, *, inch: bool) -> str:
    """Return a size of the rolled piece to an eighth of an inch or a millimetre."""
    step = MM_PER_INCH / 8 if inch else 1.0
    return format_length(round(mm / step) * step, inch=inch)


def rolled_size(rolling: Rolling) -> tuple[float, float, float]:
    """Return the box round the rolled piece, mm: for an arc its chord and rise."""
    blank = rolling.blank
    outside = (blank.cone.large_mm if blank.cone else blank.mean_diameter_mm) + blank.thickness_mm
    half = radians(min(blank.arc_deg, 360.0) / 2)
    chord = outside if blank.arc_deg >= 180 else outside * sin(half)
    rise = outside / 2 * (1 - cos(half))
    return blank.width_mm, chord, rise
