"""How a rolled piece is checked, how the pinch is found, what springback may do, how it is lifted."""

from __future__ import annotations

from math import pi, radians

from quoting.core import format_length
from quoting.record import ArcRecord, PassesRecord
from scheduler.books import dial
from scheduler.jobs import WonLine
from scheduler.papers.limits import band_words, basis_note, girth_band_mm, roundness_limit_mm
from scheduler.papers.sizes import Sizes

PINCH_HOW = (
    "Start at the measured thickness, both ends alike; open in small steps until it only just drives "
    "without slip."
)
"""Common practice, no source."""
_CODE_SHARE = 0.01
N_PER_LBF = 4.4482216152605
"""Exact by the definitions of pound and standard gravity."""


def pinch_rows(setting: PassesRecord | None, sizes: Sizes) -> tuple[tuple[str, str], ...]:
    """Return the gap that is set to begin with, in the display's unit."""
    if setting is None:
        return (("Gap", ""),)
    gap = ("Gap", f"{dial(setting.pinch_gap_mm, inch=sizes.inch)} {sizes.unit}")
    force = setting.lightest_pinch_n
    if force is None:
        return (gap,)
    if force <= 0:
        return gap, ("Drives", "with no more pinch")
    said = f"{force / N_PER_LBF:,.0f} lbf" if sizes.inch else f"{force / 1000:,.0f} kN"
    return gap, ("Drives from about", said)


def checks_of(line: WonLine, setting: PassesRecord | None, sizes: Sizes) -> tuple[tuple[str, str], ...]:
    """Return what is measured on the rolled piece; a limit that nobody told stays empty.

    The one per cent of vessel codes (ASME VIII-1 UG-80, AWWA and others) stands beside the box for the
    roundness limit of closed pieces as a figure only: which code holds is for the customer to say.
    """
    kind = setting.kind if setting else None
    shape = line.told.shape if line.told else None
    arc = kind.arc_deg if kind else shape.angle_deg if isinstance(shape, ArcRecord) else 360.0
    outside = line.diameter_mm + 2 * line.thickness_mm
    rows: list[tuple[str, str]] = []
    if line.cone:
        large = kind.large_mean_diameter_mm if kind else None
        rows.append(("Girth outside, small", _girth(line, outside, arc, sizes)))
        if large:
            over = large + line.thickness_mm
            rows.append(("Girth outside, large", _girth(line, over, arc, sizes)))
    elif arc >= 360:
        rows.append(("Girth outside", _girth(line, outside, arc, sizes)))
    else:
        rows.append(("Arc outside", sizes.exact(outside / 2 * radians(arc))))
    rows.append(_template(line, setting, sizes))
    limit = roundness_limit_mm(line) if arc >= 360 and not line.cone else None
    if limit is not None:
        rows.append(("Max less min dia", f"{_small(limit, sizes)} at most"))
    rows.append(("Tolerance", line.told.tolerance if line.told else ""))
    if arc >= 360 and not line.cone:
        rows.append(("Max less min dia" if limit is None else "Max less min", ""))
    notes = _notes(line, sizes, closed=arc >= 360, band=bool(arc >= 360 and girth_band_mm(line, outside)))
    return (*rows, ("", notes)) if notes else tuple(rows)


def _template(line: WonLine, setting: PassesRecord | None, sizes: Sizes) -> tuple[str, str]:
    """Return the radius of the template: inside, of a cone at its small edge square to the surface."""
    if not line.cone:
        return "Template, inside radius", sizes.near(line.diameter_mm / 2)
    last = [step for step in (setting.steps if setting else ()) if not step.re_roll][-1:]
    radius = sizes.near(last[0].final_radius_mm - line.thickness_mm / 2) if last else ""
    return "Template, small edge", radius


def _notes(line: WonLine, sizes: Sizes, *, closed: bool, band: bool) -> str:
    """Return what to mind while measuring."""
    notes = [basis_note(line, sizes)] if band else []
    if closed and not line.cone:
        if roundness_limit_mm(line) is None:
            share = _small(_CODE_SHARE * (line.diameter_mm + line.thickness_mm), sizes)
            notes.append(f"1 % is {share} (vessel codes).")
        notes.append("Measure both ends and middle, 4 ways.")
    return " ".join(notes)


def _girth(line: WonLine, outside_mm: float, arc_deg: float, sizes: Sizes) -> str:
    """Return the girth to reach as the order's tolerance allows it, else the computed one."""
    band = girth_band_mm(line, outside_mm) if arc_deg >= 360 else None
    return band_words(band, sizes) if band else sizes.exact(pi * outside_mm * arc_deg / 360)


def _small(mm: float, sizes: Sizes) -> str:
    return f"{mm / 25.4:.2f} in" if sizes.inch else format_length(round(mm, 1), inch=False)


def springback_rows(line: WonLine, setting: PassesRecord | None, sizes: Sizes) -> tuple[str, ...]:
    """Return which inside diameters the last position may give in this grade, and what to do at the ends."""
    band = setting.inside_diameter_band_mm if setting else None
    if band is None:
        return ("Range of this grade: not in the record. Creep up with the template.",)
    low, high = band
    if high is None:
        told = f"{sizes.near(low)} ID, up to flat"
    elif abs(high - low) < 0.6:
        told = f"{sizes.near(low)} ID"
    else:
        told = f"{sizes.near(low)} to {sizes.near(high)} ID"
    return (
        f"The last reading may give {told}.",
        "Too open: up a little and roll again. Too tight: stop, it does not roll open; ask.",
    )


def lift_rows(line: WonLine, sizes: Sizes) -> tuple[tuple[str, str], ...]:
    """Return weight, way of lifting and people; a long blank hangs from two points.

    Two slings on a level load over 12 ft: Washington State WAC 296-24-29405.
    """
    people = f"{line.crew} {'people' if line.crew > 1 else 'person'}"
    way, _, held = line.lift.partition(" with ")
    told = way if way == "two people" and line.crew == 2 else f"{way}, {people}"
    rows = [("Blank weighs", sizes.weight(line.weight_kg)), ("Lift", told)]
    if held:
        rows.append((held.capitalize(), "needed"))
    length = line.blank.length_mm if line.blank and not line.blank.sector else 0.0
    if line.crane and length > 3657.6:
        rows.append(("Long plate", "two slings or a spreader"))
    return tuple(rows)
