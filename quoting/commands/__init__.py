"""The commands of quoting, one job a file: files in, files out."""

from quoting.commands.ahead import written_ahead
from quoting.commands.ledger_run import Promiser, promises_in
from quoting.commands.machine_jobs import calibrate_job, chart_job, proposal
from quoting.commands.owner_job import owner_job
from quoting.commands.quote_files import Writer, estimators_writers, quote_writers, record_writer
from quoting.commands.quote_job import (
    RECORD_NAME,
    PlannedDays,
    QuoteRequest,
    Say,
    estimated,
    ledger_of_run,
    quote_job,
    told,
    worked_out,
    write_quotes,
    written,
)
from quoting.commands.quote_summary import LONGEST_LIST, summary
from quoting.commands.reprice_job import RepriceRequest, reprice_job

__all__ = [
    "LONGEST_LIST",
    "RECORD_NAME",
    "PlannedDays",
    "Promiser",
    "QuoteRequest",
    "RepriceRequest",
    "Say",
    "Writer",
    "calibrate_job",
    "chart_job",
    "estimated",
    "estimators_writers",
    "ledger_of_run",
    "owner_job",
    "promises_in",
    "proposal",
    "quote_job",
    "quote_writers",
    "record_writer",
    "reprice_job",
    "summary",
    "told",
    "worked_out",
    "write_quotes",
    "written",
    "written_ahead",
]
