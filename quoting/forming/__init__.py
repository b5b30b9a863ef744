"""What the rolls can do with a plate, and how to roll it."""

from __future__ import annotations

from quoting.forming.capability import assess, assess_many, best_roll
from quoting.forming.cones import cone_segments
from quoting.forming.pass_plan import Pass, PassPlan
from quoting.forming.passes import pass_counts, plan_many, plan_passes
from quoting.forming.strain import FormingStrain, forming_strain
from quoting.forming.task import RollTask
from quoting.forming.verdict import Limit, Verdict, WayOut

__all__ = [
    "FormingStrain",
    "Limit",
    "Pass",
    "PassPlan",
    "RollTask",
    "Verdict",
    "WayOut",
    "assess",
    "assess_many",
    "best_roll",
    "cone_segments",
    "forming_strain",
    "pass_counts",
    "plan_many",
    "plan_passes",
]
