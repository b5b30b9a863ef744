"""The shop's memory: customers, inquiries, quotes, lines, promised plates, jobs, plans."""

from quoting.ledger.choose import chosen, to_be_lost, to_be_won
from quoting.ledger.copies import copies, restore, tables_out
from quoting.ledger.jobs import STATES, LedgerJob, change_job, jobs_of, keep_jobs, promised, without_promised
from quoting.ledger.open_ledger import Ledger, ledger_of
from quoting.ledger.plans import (
    LedgerPlate,
    LedgerStop,
    cut_plates,
    expect_plate,
    keep_plan,
    keep_stops,
    last_plan,
    plates_of,
    stops_of,
)
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
    note_event,
    quoted_order,
)
from quoting.ledger.runs import run_record
from quoting.ledger.sheets import OrderWords, SheetSeen, tags_of, take_tag

__all__ = [
    "LOST",
    "OPEN",
    "STATES",
    "WON",
    "Issued",
    "Ledger",
    "LedgerJob",
    "LedgerLine",
    "LedgerPlate",
    "LedgerStop",
    "OrderWords",
    "QuotedOrder",
    "SheetSeen",
    "change_job",
    "chosen",
    "copies",
    "cut_plates",
    "decide",
    "expect_plate",
    "jobs_of",
    "keep_jobs",
    "keep_plan",
    "keep_quotes",
    "keep_stops",
    "last_plan",
    "ledger_of",
    "lines_of",
    "note_event",
    "plates_of",
    "promised",
    "quoted_order",
    "restore",
    "run_record",
    "stops_of",
    "tables_out",
    "tags_of",
    "take_tag",
    "to_be_lost",
    "to_be_won",
    "without_promised",
]
