"""A text that holds a whole part, read as one: every number with the mark that belongs to it."""

from quoting.intake.parts.again import NEEDED, agrees, as_it_was, in_two_ways, left_open
from quoting.intake.parts.cone_ends import end_gone_to, is_other_end
from quoting.intake.parts.like_another import like_another, number_of
from quoting.intake.parts.spelled import WholeParts

__all__ = [
    "NEEDED",
    "WholeParts",
    "agrees",
    "as_it_was",
    "end_gone_to",
    "in_two_ways",
    "is_other_end",
    "left_open",
    "like_another",
    "number_of",
]
