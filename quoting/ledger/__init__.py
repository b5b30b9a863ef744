"""The shop's memory: customers, inquiries, quotes, lines, promised plates, jobs, plans."""

from quoting.ledger.jobs import promised, without_promised
from quoting.ledger.open_ledger import Ledger, ledger_of
from quoting.ledger.quotes import Issued, QuotedOrder, keep_quotes
from quoting.ledger.sheets import OrderWords, SheetSeen, tags_of

__all__ = [
    "Issued",
    "Ledger",
    "OrderWords",
    "QuotedOrder",
    "SheetSeen",
    "keep_quotes",
    "ledger_of",
    "promised",
    "tags_of",
    "without_promised",
]
