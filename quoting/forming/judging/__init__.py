"""Can this roll do it: demands against ratings, ways out, the capability chart."""

from quoting.forming.judging.by_formula import FORMULAS, by_formula
from quoting.forming.judging.capability import assess_many
from quoting.forming.judging.chart import CapabilityTable, capability_table
from quoting.forming.judging.demands import LEAST_FLAT_T, NAMES, DemandRow

__all__ = [
    "FORMULAS",
    "LEAST_FLAT_T",
    "NAMES",
    "CapabilityTable",
    "DemandRow",
    "assess_many",
    "by_formula",
    "capability_table",
]
