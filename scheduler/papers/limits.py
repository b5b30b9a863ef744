"""What a customer's tolerances mean on the tape: the girth to reach, low to high, and the roundness limit.

Only what the order gives becomes a number. Limits are rounded inwards, so the tape never reads more than was
allowed. An arc has no girth; its tolerance stays in the customer's words, so does one said of one side only.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from math import ceil, floor, pi

from quoting.core import MM_PER_INCH, Basis, ToleranceOn
from quoting.forming import out_of_roundness_mm, roundness_rule
from quoting.record import ArcRecord, CylinderRecord, ToleranceRecord
from scheduler.jobs import WonLine
from scheduler.papers.sizes import Sizes

_BASIS = {Basis.INSIDE: "ID", Basis.OUTSIDE: "OD", Basis.MEAN: "mean diameter"}

_EITHER = re.compile(r"±|\+\s*/?\s*-|\bplus\s*(or|/)?\s*minus\b", re.I)
_ONE_SIDE = re.compile(r"[+]\s*[\d.]|\bplus\s+[\d.]", re.I)


def girth_band_mm(line: WonLine, outside_mm: float) -> tuple[float, float] | None:
    """Return the least and the most outside girth in mm of a closed end whose outside diameter is told.

    A diameter's tolerance counts pi times on the girth, on whichever basis it was asked, the plate at its
    nominal thickness. Of several the tightest holds. None where the order gives none, or for an arc.
    """
    told = line.told
    if told is None or isinstance(told.shape, ArcRecord):
        return None
    asked_on = outside_mm
    if isinstance(told.shape, CylinderRecord):
        asked_on = told.shape.diameter_mm
    both = _both_sides(told.tolerance)
    sided = tuple(one for one in told.tolerances if both or one.sides_mm is not None)
    found = tuple(_sides(sided, asked_on, outside_mm))
    if not found or len(sided) < len([one for one in told.tolerances if _on_size((one,))]):
        return None
    plus, minus = min(plus for plus, _ in found), min(minus for _, minus in found)
    return pi * outside_mm - minus, pi * outside_mm + plus


def _both_sides(words: str) -> bool:
    """Return whether a customer's words say plus or minus, and no side by itself."""
    return bool(_EITHER.search(words)) and not _ONE_SIDE.search(words)


def _on_size(tolerances: tuple[ToleranceRecord, ...]) -> bool:
    return any(one.on in (ToleranceOn.DIAMETER, ToleranceOn.CIRCUMFERENCE) for one in tolerances)


def _sides(
    tolerances: tuple[ToleranceRecord, ...], diameter_mm: float, outside_mm: float
) -> Iterator[tuple[float, float]]:
    """Yield plus and minus of each tolerance on the girth, mm."""
    for one in tolerances:
        if not _on_size((one,)) or not (one.value_mm or one.share):
            continue
        round_ = pi if one.on is ToleranceOn.DIAMETER else 1.0
        size = diameter_mm if one.on is ToleranceOn.DIAMETER else pi * outside_mm
        half = one.value_mm or one.share * size
        plus, minus = one.sides_mm or (half, half)
        yield round_ * plus, round_ * minus


def band_words(band: tuple[float, float], sizes: Sizes) -> str:
    """Return a band as the tape is read, rounded inwards to a hundredth of an inch or a tenth of a mm.

    >>> band_words((4000.04, 4019.97), Sizes(False)), band_words((2540.01, 2565.3), Sizes(True))
    ('4000.1 to 4019.9 mm', '100.01 to 100.99"')
    """
    low, high = band
    if sizes.inch:
        least, most = ceil(low / MM_PER_INCH * 100 - 1e-6) / 100, floor(high / MM_PER_INCH * 100 + 1e-6) / 100
        return f'{least:.2f} to {most:.2f}"'
    return f"{ceil(low * 10 - 1e-6) / 10:.1f} to {floor(high * 10 + 1e-6) / 10:.1f} mm"


def basis_note(line: WonLine, sizes: Sizes) -> str:
    """Return on what a band stands: the basis that was called out, and the plate that was reckoned with."""
    assert line.told is not None
    shape = line.told.shape
    assert not isinstance(shape, ArcRecord)
    return f"Range for {_BASIS[shape.basis]} asked, {sizes.both(line.thickness_mm)} plate."


def roundness_limit_mm(line: WonLine) -> float | None:
    """Return the most that the largest diameter may exceed the smallest, None where the order gives none."""
    told = line.told
    if told is None or (_both_sides(told.tolerance) and not _on_size(told.tolerances)):
        return None  # plus or minus belongs to a size: which number is the roundness is not sure
    limits = []
    for one in told.tolerances:
        if one.on is not ToleranceOn.ROUND:
            continue
        if one.code:
            limits.append(out_of_roundness_mm(line.diameter_mm, line.thickness_mm, roundness_rule(one.code)))
        elif one.value_mm or one.share:
            limits.append(one.value_mm or one.share * line.diameter_mm)
    return min(limits, default=None)
