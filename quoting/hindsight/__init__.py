"""What really happened, in figures: what the floor's minutes teach, where money was made and lost.

Pure computing: values in, values out; the ledger, the clock and the books are the business of others.
"""

from quoting.hindsight.learning import (
    SET_ASIDE,
    BookChange,
    BookPlace,
    GroupBias,
    LearnRules,
    Learnt,
    LotDone,
    Proposal,
    QuotedResult,
    QuoteEffect,
    bias_by_group,
    book_bands,
    cutting_by_setting,
    effects_on,
    learn,
    propose,
    rolling_by_setting,
    setup_by_setting,
    with_bands,
)

__all__ = [
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
