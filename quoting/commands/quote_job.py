"""The quoting half of the main job: read, estimate, and write everything or nothing."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from contextlib import AbstractContextManager
from dataclasses import dataclass
from datetime import date, datetime
from pathlib import Path
from typing import TYPE_CHECKING, Protocol

from quoting.books import MADE, OutputFolder, cutting_writers, files_words, spoken
from quoting.commands.ahead import Taking, load_libraries
from quoting.commands.known_books import known_books
from quoting.commands.ledger_run import LedgerRun, Promiser, ledger_run, promises_in
from quoting.commands.quote_files import Writer, quote_writers, record_writer
from quoting.commands.quote_summary import summary
from quoting.commands.time_left import TimeLeft
from quoting.core import (
    Alternative,
    Doing,
    Effort,
    FromRoom,
    Hands,
    Order,
    RollwrightError,
    Sharing,
    State,
    forget_the_oldest,
    one_by_one,
    remembering,
    sharing_out,
)
from quoting.estimating import (
    Estimate,
    large_totals,
    priced,
    priced_alone,
    with_alone,
    with_risk,
    with_sensitivities,
    with_worths,
)
from quoting.record import PromiseRecord, RunRecord
from quoting.recording import make_record
from quoting.shop import Shop, load_shop

if TYPE_CHECKING:
    from quoting.intake import SheetsAsked, SheetsRead

Say = Callable[[str], None]
Heard = Callable[[Estimate], None]

RECORD_NAME = "result.json"
_LONG = ("labels-", "costing-", "run-schedule-", "travellers-")
"""How the names of the books begin that take longest to write: of thousands of pieces their labels do."""


@dataclass(frozen=True, slots=True)
class QuoteRequest:
    """What the user asked for: files in, folder out, the day, and how hard to search.

    `alone`: every order is priced as if it were the only one. `quiet`: no summary on standard output, the
    caller tells what came of it. `language`: of quotes and mails, empty for the customer's, or English.
    `workers`: processes that work at a time; what comes out does not depend on them.
    """

    orders: tuple[Path, ...]
    shop_dir: Path
    out_dir: Path
    today: date
    answers: tuple[Path, ...] = ()
    customer: str = ""
    effort: Effort = "normal"
    seed: int = 0
    sensitivities: bool = False
    alone: bool = False
    force: bool = False
    ledger: bool = False
    quiet: bool = False
    language: str = ""
    workers: int = 1


@dataclass(frozen=True, slots=True)
class PlannedDays:
    """What a planned week adds to a quote: days lines are ready, when plates are cut, books, rows.

    `taking` turns writers into such as take what was written while the week was planned.
    """

    ready: Mapping[str, date]
    cutting: Mapping[str, datetime]
    writers: Mapping[str, Writer]
    rows: Sequence[tuple[str, str]]
    taking: Taking = dict


def quote_job(
    request: QuoteRequest, *, say: Say, promise: Promiser | None = None, reader: Sharing = one_by_one
) -> int:
    """Quote the orders, which `reader` reads, with what `promise` works out on the ledger's floor; return the
    exit code."""
    folder = OutputFolder(request.out_dir, force=request.force)
    with folder.hold(), ledger_of_run(request) as ledger:
        found = estimated(request, ledger, say, reader=reader)
        record = ledger.promised(make_record(found), promise, request.today)
        return write_quotes(folder, found, record, request, ledger, None, say=say)


def ledger_of_run(request: QuoteRequest) -> AbstractContextManager[LedgerRun]:
    """Return the request's part of the shop's ledger, held until the run has ended; or of none."""
    return ledger_run(request.orders, request.shop_dir, request.today, ledger=request.ledger)


def estimated(
    request: QuoteRequest,
    ledger: LedgerRun,
    say: Say,
    heard: Heard = lambda _found: None,
    reader: Sharing = one_by_one,
    *,
    patient: bool = False,
) -> Estimate:
    """Return the estimate of the request's order sheets; `heard` has it as soon as prices and nests stand.

    `patient`: what it shares out lets other processes of the run go first.
    """
    read = _read(request, ledger, say, reader)
    if request.alone:
        found = priced_alone(_worked_out(read, request, say, patient=patient))
        heard(found)
    else:
        found = _worked_out(read, request, say, heard, patient=patient)
    say(Doing("drawing what could go otherwise"))
    found = with_risk(found if request.alone else with_alone(found))
    if not request.sensitivities:
        return found
    with sharing_out(request.workers) as share_out:
        return with_sensitivities(found, progress=TimeLeft(say), share_out=remembering(share_out))


def _read(request: QuoteRequest, ledger: LedgerRun, say: Say, reader: Sharing) -> SheetsRead:
    """Return the orders of the request's sheets and the shop, and tell what there is to tell of them.

    Without a ledger the shop is as its folder has it, and whoever reads the sheets has it.
    """
    shop = None
    if ledger.connection is not None:
        shop = ledger.free_rack(load_shop(request.shop_dir))
    asked: SheetsAsked = {
        "orders": request.orders,
        "shop_dir": request.shop_dir,
        "today": request.today,
        "answers": request.answers,
        "customer": request.customer,
        "language": request.language,
        "prefixes": None if shop is None else ledger.prefixes(shop),
    }
    say(Doing(f"reading {len(request.orders)} order sheet{'s' if len(request.orders) != 1 else ''}"))
    read: SheetsRead = next(iter(reader(FromRoom("quoting.intake.for_run", "read_for_run"), [(asked, shop)])))
    _tell(read["notes"], say)
    if lost := read["lost"]:
        say(f"answers that fit no question of these sheets: {', '.join(lost)}")
    return read


class HowToWork(Protocol):
    """What a request says of the day, how hard is searched, and by how many processes."""

    @property
    def today(self) -> date: ...  # noqa: D102 - as in the requests
    @property
    def effort(self) -> Effort: ...  # noqa: D102
    @property
    def seed(self) -> int: ...  # noqa: D102
    @property
    def workers(self) -> int: ...  # noqa: D102


def _worked_out(
    read: SheetsRead,
    request: QuoteRequest,
    say: Say,
    heard: Heard = lambda _found: None,
    *,
    patient: bool,
) -> Estimate:
    given = read["orders"], read["shop"]
    return worked_out(*given, request, say, heard, read["alternatives"], patient=patient)


def worked_out(
    orders: Sequence[Order],
    shop: Shop,
    how: HowToWork,
    say: Say,
    heard: Heard = lambda _found: None,
    alternatives: Sequence[Alternative] | None = None,
    *,
    patient: bool = False,
) -> Estimate:
    """Return the estimate of orders on the rack of this shop, on all cores; what is known is taken.

    `heard` has it before it is worked out what the choices of its questions are worth; `alternatives` are the
    lines that they give, where that is known. `patient`: as for `estimated`.
    """
    with sharing_out(how.workers, patient=patient) as share_out:
        hands = Hands(remembering(share_out), say)
        found, quoted = priced(orders, shop, today=how.today, effort=how.effort, seed=how.seed, hands=hands)
        heard(found)
        return with_worths(found, quoted, hands.share_out, alternatives)


def write_quotes(
    folder: OutputFolder,
    found: Estimate,
    record: RunRecord,
    request: QuoteRequest,
    ledger: LedgerRun,
    planned: PlannedDays | None,
    *,
    say: Say,
) -> int:
    """Write every book of a run, with those of a planned week where there is one; return the exit code."""
    say(_writing(0, 1))
    asked = ledger.far_above(record)
    _tell(asked, say)
    numbers = ledger.numbers(record, found.shop)
    spoken(found, say)
    days: dict[str, date | PromiseRecord] = {**(planned.ready if planned else {}), **promises_in(record)}
    writers = quote_writers(found, days, numbers, record.orders)
    writers |= planned.writers if planned else {}
    if planned or ledger.connection is None:  # with a ledger they are for jobs: `won` writes them
        writers |= cutting_writers(found, request.shop_dir, planned.cutting if planned else {})
    known = known_books(writers)
    if known.known is None:
        writers, workers = planned.taking(writers) if planned else writers, request.workers
        if workers > 1:
            load_libraries()
    else:
        writers, workers = known.writers(writers), 1
    books = written(folder, writers, record, say, stale=MADE, complete=ledger.commit, workers=workers)
    known.keep(books)
    _tell(ledger.notes, say)
    forget_the_oldest()
    if request.customer:
        _remember(request, found, say)
    if not request.quiet:
        more = (*_alone_rows(found), *(planned.rows if planned else ()))
        print(summary(record, folder.directory, told(folder, books), numbers=numbers, more=more))
    done = all(row.state in {State.PRICED, State.IGNORED} for order in found.orders for row in order.rows)
    return 0 if done and not asked and not large_totals(found.orders, found.shop) else 1


def _alone_rows(found: Estimate) -> list[tuple[str, str]]:
    """Return what each order that shares plates would come to alone: its price leans on unwon blanks."""
    currency = found.shop.rates.currency
    return [("priced alone", text) for text in found.warnings if "alone" in text] + [
        (
            "leans on other orders' plates",
            f"{order.order.customer}: {order.total.before_tax:,.2f}, alone {order.alone:,.2f} {currency}",
        )
        for order in found.orders
        if order.alone is not None and order.alone > order.total.before_tax
    ]


def written(
    folder: OutputFolder,
    writers: Mapping[str, Writer],
    record: RunRecord,
    say: Say,
    *,
    stale: Sequence[str] = (),
    complete: Callable[[], None] = lambda: None,
    workers: int = 1,
) -> dict[str, Path]:
    """Write all files, the record last; return where each book came to be."""
    files = {**writers, RECORD_NAME: record_writer(record)}
    replies = [name for name in files if name.endswith(".eml")]
    *books, _ = folder.write(
        files,
        stale=stale,
        complete=complete,
        after=replies,
        long=[name for begun in _LONG for name in files if name.startswith(begun)],
        workers=workers,
        done=lambda number, of: say(_writing(number, of)),
    )
    say(Doing(""))
    _tell(folder.notes, say)
    return dict(zip(writers, books, strict=True))


def told(folder: OutputFolder, books: Mapping[str, Path]) -> list[str]:
    """Return the names of books of a folder as they are told."""
    return files_words([path.relative_to(folder.directory).as_posix() for path in books.values()])


def _writing(number: int, of: int) -> Doing:
    return Doing("writing the books", stage="writing", share=number / of, step=number > 0)


def _remember(request: QuoteRequest, found: Estimate, say: Say) -> None:
    """Keep what was learnt of the customer; the books are out by now, so a failure is only told."""
    from quoting.intake import CustomerFiles  # noqa: PLC0415 - loaded by now

    files = CustomerFiles(request.shop_dir, request.customer)
    try:
        files.keep(request.orders, [order.order for order in found.orders], request.today)
    except RollwrightError as error:
        say(f"nothing was kept of {request.customer}: {error}")
    _tell(files.notes, say)


def _tell(notes: list[str], say: Say) -> None:
    for note in notes:
        say(note)
