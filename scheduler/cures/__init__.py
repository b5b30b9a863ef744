"""What would cure a late line: each answer is a plan of its own, found with one thing changed, and checked.

The present plan's order is timed again with the change and the late line is brought forward in it (see
`sequence.again`); nothing else moves. Changes tried: the line put ahead, overtime that the shop's book
offers, a Saturday at the book's overtime price, a wish dropped, another roll, its plate in the house sooner,
and the line in two lots. A change is only told when the line is then on time or clearly less late, and when
it does what putting the line ahead does not do just as well. What it costs is in the plan's money: set-ups,
lateness, overtime and dearer rolls.
"""

from scheduler.cures.cure_words import best_words, others_words, outcome_words, price_words, tried_words
from scheduler.cures.late_case import Case
from scheduler.cures.look_for_cures import EFFORTS, free_cures, with_cures
from scheduler.cures.split import InLots, able, two_lots

__all__ = [
    "EFFORTS",
    "Case",
    "InLots",
    "able",
    "best_words",
    "free_cures",
    "others_words",
    "outcome_words",
    "price_words",
    "tried_words",
    "two_lots",
    "with_cures",
]
