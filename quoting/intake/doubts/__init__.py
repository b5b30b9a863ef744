"""A line looked at as a whole: what is missing, contradicts itself or could be meant two ways."""

from quoting.intake.doubts.agreed_shapes import agreed_fit, agreed_shape
from quoting.intake.doubts.contradictions import (
    BOTH_SIDES_AGREE,
    check_texts,
    says_nothing,
    without_allowance,
)
from quoting.intake.doubts.operations import read_operations
from quoting.intake.doubts.weld_gaps import gap_holds, read_gaps
from quoting.intake.doubts.whole_line import settle

__all__ = [
    "BOTH_SIDES_AGREE",
    "agreed_fit",
    "agreed_shape",
    "check_texts",
    "gap_holds",
    "read_gaps",
    "read_operations",
    "says_nothing",
    "settle",
    "without_allowance",
]
