"""What the minutes of jobs say about the minutes of the book."""

from quoting.hindsight.learning.bias import GroupBias, bias_by_group
from quoting.hindsight.learning.effects import QuotedResult, QuoteEffect, effects_on
from quoting.hindsight.learning.learn import LearnRules, Learnt, learn
from quoting.hindsight.learning.lots import LotDone
from quoting.hindsight.learning.minutes_by_setting import (
    BookPlace,
    book_bands,
    cutting_by_setting,
    rolling_by_setting,
    setup_by_setting,
    with_bands,
)
from quoting.hindsight.learning.propose import SCRAP, BookChange, Proposal, propose
from quoting.hindsight.statistics import SET_ASIDE

__all__ = [
    "SCRAP",
    "SET_ASIDE",
    "BookChange",
    "BookPlace",
    "GroupBias",
    "LearnRules",
    "Learnt",
    "LotDone",
    "Proposal",
    "QuoteEffect",
    "QuotedResult",
    "bias_by_group",
    "book_bands",
    "cutting_by_setting",
    "effects_on",
    "learn",
    "propose",
    "rolling_by_setting",
    "setup_by_setting",
    "with_bands",
]
