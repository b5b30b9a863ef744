"""The ledger and the books that are read back into it: how they are mutated and used."""

from __future__ import annotations

import random
import shutil
from datetime import datetime
from decimal import Decimal
from pathlib import Path

from quoting.ledger import RackNow, cut_plates, jobs_of, last_plan, lines_of, tables_out
from quoting.ledger.store import Store
from quoting.ledger_commands.decide_jobs import orders_of
from quoting.shop import load_shop
from scheduler.commands.on_ledger.floor_job import FloorTaking
from scheduler.commands.on_ledger.ledger_floor import LedgerFloor
from scheduler.commands.on_ledger.plan_job import read_published
from scheduler.jobsbook import read_jobs_book
from scheduler.replanning import ReplanRules, replan
from tests.benchmarks.hostile.mutations import mutate_ledger
from tests.benchmarks.hostile.shop_run import DEMO, MOMENT, Made
from tests.benchmarks.hostile.tally import Make, Use
from tests.quoting.intake.fuzzing import mutated


def ledgers(made: Made, folder: Path) -> tuple[str, Make, Use]:
    """The ledger: floor, jobs book, won lines, plain tables; one in 200 is planned anew."""
    shop, moment, turns = load_shop(DEMO), datetime.fromisoformat(MOMENT), iter(range(10**9))

    def make(rng: random.Random, path: Path) -> None:
        shutil.copy(made.ledger, path)
        mutate_ledger(rng, path)

    def use(path: Path) -> None:
        turn = next(turns)
        with Store(path, wait=0.1).writing("looking") as connection:
            connection.exec_driver_sql("SELECT 1")
            orders_of(connection, lines_of(connection)[:1])
            jobs_of(connection, closed=True)
            cut_plates(connection)
            known = LedgerFloor(connection, shop)
            floor, facts = known.floor(moment), known.facts()
            published = read_published(last_plan(connection))
            known.book(published)
            known.rules()
            tables_out(connection)
        if turn % 200 == 0:
            replan(floor, shop, published, facts, ReplanRules(Decimal(50), 24, "quick", 0))

    return ".db", make, use


def jobs_books(made: Made, folder: Path) -> tuple[str, Make, Use]:
    """The jobs book with the scheduler's edits, taken into the ledger; one in 200 is planned anew."""
    shop, moment, turns = load_shop(DEMO), datetime.fromisoformat(MOMENT), iter(range(10**9))
    own = Path(shutil.copy(made.ledger, folder / "jobs-ledger.db"))

    def use(path: Path) -> None:
        turn = next(turns)
        with Store(own).writing("looking") as connection:
            known = LedgerFloor(connection, shop)
            known.take(read_jobs_book(path, known.rules()), moment, RackNow("rack"))
            after = LedgerFloor(connection, shop)
            floor, facts = after.floor(moment), after.facts()
            after.book(None)
            connection.rollback()
        if turn % 200 == 0:
            replan(floor, shop, None, facts, ReplanRules(Decimal(50), 24, "quick", 0))

    return ".xlsx", lambda rng, path: write(path, mutated(rng, made.jobs)), use


def floor_books(made: Made, folder: Path) -> tuple[str, Make, Use]:
    """The floor book with what happened, taken into the ledger."""
    shop = load_shop(DEMO)
    own = Path(shutil.copy(made.ledger, folder / "floor-ledger.db"))

    def use(path: Path) -> None:
        with Store(own).writing("looking") as connection:
            FloorTaking(connection, shop, RackNow("rack")).take(path)
            connection.rollback()

    return ".xlsx", lambda rng, path: write(path, mutated(rng, made.floor)), use


def write(path: Path, data: bytes) -> None:
    """Write a file; the count of its bytes is nobody's business."""
    path.write_bytes(data)
