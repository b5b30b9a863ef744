"""Flat development: the blanks a part is cut from, its courses and seams, and what each piece weighs."""

from quoting.blanks.blank_plan import Blank, BlankPlan, ConeForm
from quoting.blanks.cone import cone_form
from quoting.blanks.develop import KG_PER_MM3, HowCut, develop
from quoting.blanks.girth import neutral_diameter
from quoting.blanks.note_words import in_one_system
from quoting.blanks.splits import SplitLimits, sensible_splits

__all__ = [
    "KG_PER_MM3",
    "Blank",
    "BlankPlan",
    "ConeForm",
    "HowCut",
    "SplitLimits",
    "cone_form",
    "develop",
    "in_one_system",
    "neutral_diameter",
    "sensible_splits",
]
