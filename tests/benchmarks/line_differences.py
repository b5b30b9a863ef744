"""What differs between a line as it was stated from outside and a line as it was read.

Diameters and radii are compared on the mean, so that a reader may keep another basis than the sheet.
"""

from __future__ import annotations

import re
from dataclasses import replace
from functools import cache

from quoting.shop.grades import GradeNames, published_grades
from tests.data.sheet_model import ID, OD, Line

WORST_SHARE = 0.003
WORST_MM = 0.06
WORST_DEG = 0.3


def differences(want: Line, got: Line) -> list[str]:
    """Return what differs, a text a field, each `field: wanted ..., read ...`; a thickness of 0 is any."""
    if not want.t:
        want = replace(want, t=got.t)
    if want.shape != got.shape:
        return [f"shape: wanted {want.shape}, read {got.shape}"]
    numbers = {
        "thickness": (want.t, got.t, WORST_MM / 2),
        "length": (want.length, got.length, WORST_MM),
        "angle": (want.angle, got.angle, WORST_DEG),
    }
    wrong = [_said(name, a, b) for name, (a, b, least) in numbers.items() if not _near(a, b, least)]
    if not all(_near(a, b, WORST_MM) for a, b in zip(_means(want), _means(got), strict=True)):
        wrong.append(_said("diameter", f"{_means(want)} mean", f"{_means(got)} mean"))
    if want.n != got.n:
        wrong.append(_said("quantity", want.n, got.n))
    if want.mat and not same_grade(want.mat, got.mat):
        wrong.append(_said("material", want.mat, got.mat))
    for name in ("ends", "due", "part", "rev", "free", "cert"):
        wanted, read = getattr(want, name), getattr(got, name)
        if wanted not in {None, ""} and wanted != read:
            wrong.append(_said(name, wanted, read))
    return wrong


def same_grade(wanted: str, got: str) -> bool:
    """Return whether a grade is one of those wanted: its key, a short form of it, or another published name.

    >>> same_grade("A36|SA-36", "a 36"), same_grade("304L", "304/304L"), same_grade("304L", "316L")
    (True, True, False)
    """
    read = {_plain(part) for part in (got, *got.split("/"))}
    return any(_plain(one) in read or _published(one) == got for one in wanted.split("|"))


@cache
def _published(name: str) -> str:
    """Return the key of the published grade that a customer calls so: AS3678-250 is AS/NZS 3678-250."""
    found = _names().find(name)
    return found.keys[0] if len(found.keys) == 1 and not found.rest else ""


@cache
def _names() -> GradeNames:
    return GradeNames((key, row["names"]) for key, row in published_grades().items())


def _plain(text: str) -> str:
    return re.sub(r"[^0-9a-z]", "", text.casefold())


def _said(name: str, wanted: object, got: object) -> str:
    return f"{name}: wanted {wanted}, read {got}"


def _near(wanted: float, got: float, least: float) -> bool:
    return abs(wanted - got) <= max(least, WORST_SHARE * abs(wanted))


def _means(one: Line) -> tuple[float, ...]:
    shift = {ID: one.t, OD: -one.t}.get(one.basis, 0.0)
    if one.shape == "arc":
        return (round(2 * one.radius + shift, 2),)
    sizes = (one.d,) if one.shape == "cylinder" else (one.large, one.small)
    return tuple(round(size + shift, 2) for size in sizes)
