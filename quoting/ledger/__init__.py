"""The shop's memory: customers, inquiries, quotes, lines, promised plates, jobs, plans."""

from quoting.ledger.choose import chosen, to_be_lost, to_be_won
from quoting.ledger.copies import copies, restore, tables_out
from quoting.ledger.jobs import keep_jobs, promised, without_promised
from quoting.ledger.open_ledger import Ledger, ledger_of
from quoting.ledger.quotes import (
    LOST,
    OPEN,
    WON,
    Issued,
    LedgerLine,
    QuotedOrder,
    decide,
    keep_quotes,
    lines_of,
    quoted_order,
)
from quoting.ledger.runs import run_record
from quoting.ledger.sheets import OrderWords, SheetSeen, tags_of, take_tag

__all__ = [
    "LOST",
    "OPEN",
    "WON",
    "Issued",
    "Ledger",
    "LedgerLine",
    "OrderWords",
    "QuotedOrder",
    "SheetSeen",
    "chosen",
    "copies",
    "decide",
    "keep_jobs",
    "keep_quotes",
    "ledger_of",
    "lines_of",
    "promised",
    "quoted_order",
    "restore",
    "run_record",
    "tables_out",
    "tags_of",
    "take_tag",
    "to_be_lost",
    "to_be_won",
    "without_promised",
]
