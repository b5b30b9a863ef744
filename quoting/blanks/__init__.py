"""Flat development: the blanks a part is cut from, its courses and seams, and what each piece weighs."""

from quoting.blanks.bounds import SectorBounds, sector_bounds, sector_fits
from quoting.blanks.cone import cone_form
from quoting.blanks.develop import develop
from quoting.blanks.model import Blank, BlankPlan, ConeForm
from quoting.blanks.splits import sensible_splits

__all__ = [
    "Blank",
    "BlankPlan",
    "ConeForm",
    "SectorBounds",
    "cone_form",
    "develop",
    "sector_bounds",
    "sector_fits",
    "sensible_splits",
]
