"""The commands that live on the ledger alone: won, lost, priced again, and the ledger itself.

They stand apart from `quoting.commands` so that a quote without a ledger loads no database library.
"""

from quoting.ledger_commands.decide_jobs import WonRequest, lost_job, won_job
from quoting.ledger_commands.learn_job import LearnRequest, learn_job
from quoting.ledger_commands.ledger_jobs import (
    copies_job,
    expired_quotes,
    export_job,
    late_jobs,
    quoted_lines,
    restore_job,
    take_job,
    unplanned_jobs,
)
from quoting.ledger_commands.month_job import MonthRequest, month_job
from quoting.ledger_commands.rack_job import rack_job
from quoting.ledger_commands.readings import reading_rows, readings_job
from quoting.ledger_commands.renew_job import RenewRequest, renew_job
from quoting.ledger_commands.weigh_job import WeighRequest, weigh_job

__all__ = [
    "LearnRequest",
    "MonthRequest",
    "RenewRequest",
    "WeighRequest",
    "WonRequest",
    "copies_job",
    "expired_quotes",
    "export_job",
    "late_jobs",
    "learn_job",
    "lost_job",
    "month_job",
    "quoted_lines",
    "rack_job",
    "reading_rows",
    "readings_job",
    "renew_job",
    "restore_job",
    "take_job",
    "unplanned_jobs",
    "weigh_job",
    "won_job",
]
