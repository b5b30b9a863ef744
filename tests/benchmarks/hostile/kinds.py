"""Every kind of file that is mutated, and what is done with one that is taken."""

from __future__ import annotations

import json
import random
import shutil
from collections.abc import Callable, Iterator
from dataclasses import replace
from datetime import date
from decimal import Decimal
from email.message import EmailMessage
from pathlib import Path

from quoting.books import ReturnedCosting
from quoting.commands.quote_files import quote_writers
from quoting.core import Place
from quoting.estimating import Estimate, estimate, revise
from quoting.intake import read_answers
from quoting.intake.answers import memory_of
from quoting.intake.read_orders import read_orders
from quoting.record import find_line, owners_figures, read_record, why_lines
from quoting.recording import unpack
from quoting.shop import load_shop
from quoting.shop.book.read_book import read_book
from quoting.shop.rack import read_rack
from scheduler.jobs import make_work, plates_to_cut, won_lines
from scheduler.wishes import check_wishes, read_wishes
from tests.benchmarks.hostile.ledger_kinds import floor_books, jobs_books, ledgers, write
from tests.benchmarks.hostile.mutations import (
    mutated_data,
    mutated_text,
    packed_archive,
    unpacked_archive,
)
from tests.benchmarks.hostile.shop_run import DEMO, ORDER, ROOT, Made
from tests.benchmarks.hostile.tally import Make, Use
from tests.quoting.intake.fuzzing import mutated
from tests.quoting.intake.small_shop import small_shop
from tests.quoting.tables.hostile_others import xls_files
from tests.quoting.tables.saved_mail import saved_mail
from tests.quoting.tables.test_mail import mail, pdf, table

ORDERS = ROOT / "tests" / "data" / "orders"
TODAY = date(2026, 11, 30)
NONSENSE = 10**8
"""No price of the small order is near it."""
Kind = Callable[[Made, Path], tuple[str, Make, Use]]
"""From the shop's files and a folder to work in: the ending of a file, what writes one, what uses it."""


def _mail() -> EmailMessage:
    return mail(html=table(PRINTED), files=[("orders.csv", ORDER.encode())])


PRINTED = [cell.split(",") for cell in ORDER.splitlines()]
SOURCES: dict[str, Callable[[], bytes]] = {
    ".xls": lambda: dict(xls_files())["many-in-one.xls"],
    ".eml": lambda: bytes(_mail()),
    ".msg": lambda: saved_mail("Jane Doe <jane@example.com>", "RFQ 4471", ORDER, {"o.csv": ORDER.encode()}),
    ".pdf": lambda: pdf([PRINTED], ruled=True),
}


def workbooks(ending: str) -> Kind:
    """Order sheets of one ending: read as an order and as a rack, in turn."""

    def kind(made: Made, folder: Path) -> tuple[str, Make, Use]:
        shop = small_shop()
        sources = sorted(file for file in ORDERS.iterdir() if file.suffix == ending)
        if not sources:
            sources = [folder / f"source{ending}"]
            sources[0].write_bytes(SOURCES[ending]())
        turns: Iterator[int] = iter(range(10**9))

        def use(path: Path) -> None:
            if next(turns) % 2:
                read_rack([path], shop.materials, inch=True)
            else:
                read_orders(path, shop, today=TODAY)

        return ending, lambda rng, path: write(path, mutated(rng, rng.choice(sources))), use

    return kind


def records(made: Made, folder: Path) -> tuple[str, Make, Use]:
    """Records of a run: why, the owner's figures, what there is to schedule."""
    text = made.record.read_text(encoding="utf-8")
    shop = load_shop(DEMO)

    def make(rng: random.Random, path: Path) -> None:
        whole = mutated_text(rng, text) if rng.random() < 0.3 else json.dumps(mutated_data(rng, text))
        write(path, whole.encode("utf-8", "surrogatepass"))

    def use(path: Path) -> str:
        record = read_record(path)
        for line in record.lines[:5]:
            why_lines(record, find_line(record, line.id))
        owners_figures([record])
        lines = won_lines(record, None)
        make_work(lines, plates_to_cut(record, lines, shop, record.made.today, record.made.today), shop)
        return ""

    return ".json", make, use


def archives(made: Made, folder: Path) -> tuple[str, Make, Use]:
    """The estimate in a record: priced again by the costing book, and the books written."""
    record = json.loads(made.record.read_text(encoding="utf-8"))
    data = unpacked_archive(record)

    def make(rng: random.Random, path: Path) -> None:
        write(path, packed_archive(mutated_data(rng, data)).encode())

    def use(path: Path) -> str:
        before = unpack(path.read_text(), Place(path.name))
        after = _revised(made.costing, before, record["id"])
        target = folder / "books"
        target.mkdir()
        try:
            for name, writer in quote_writers(after, {}).items():
                writer(target / name)
        finally:
            shutil.rmtree(target)
        return _beyond_reason(after)

    return ".txt", make, use


def costings(made: Made, folder: Path) -> tuple[str, Make, Use]:
    """Costing books that come back: the order priced again."""
    record = read_record(made.record)
    before = unpack(record.archive, Place(made.record.name))

    def use(path: Path) -> str:
        return _beyond_reason(_revised(path, before, record.id))

    return ".xlsx", lambda rng, path: write(path, mutated(rng, made.costing)), use


def _revised(book: Path, before: Estimate, result: str) -> Estimate:
    returned = ReturnedCosting(book, before, result)
    after = revise(before, returned.edits(), replaces="x", today=TODAY)
    returned.check(after)
    return after


def memories(made: Made, folder: Path) -> tuple[str, Make, Use]:
    """What is kept of a customer."""
    (kept,) = (made.shop / "customers").glob("*.json")
    text = kept.read_text(encoding="utf-8")

    def use(path: Path) -> None:
        memory_of(path.read_text(encoding="utf-8"), path.name)[0].to_text()

    return ".json", lambda rng, path: write(path, mutated_text(rng, text).encode()), use


def shops(made: Made, folder: Path) -> tuple[str, Make, Use]:
    """The shop's book as a text; one that is taken prices a line."""
    text = (DEMO / "shop.toml").read_text(encoding="utf-8")
    price = _pricing(folder)

    def use(path: Path) -> str:
        return price(read_book(path.read_text(encoding="utf-8"), path.name))

    return ".toml", lambda rng, path: write(path, mutated_text(rng, text).encode()), use


def shop_forms(made: Made, folder: Path) -> tuple[str, Make, Use]:
    """The shop's book as a workbook; one that is taken prices a line."""
    price = _pricing(folder)
    own = folder / "form"
    own.mkdir(exist_ok=True)

    def use(path: Path) -> str:
        shutil.copy(path, own / "shop.xlsx")
        return price(load_shop(own))

    return ".xlsx", lambda rng, path: write(path, mutated(rng, made.book)), use


def racks(made: Made, folder: Path) -> tuple[str, Make, Use]:
    """The stock rack; one that is taken prices a line."""
    price, shop = _pricing(folder), load_shop(DEMO)

    def use(path: Path) -> str:
        rack = read_rack([path], shop.materials, inch=shop.inch, remnant_share=shop.cutting.drop_value_share)
        return price(replace(shop, stock=rack.plates))

    return ".xlsx", lambda rng, path: write(path, mutated(rng, DEMO / "rack.xlsx")), use


def _pricing(folder: Path) -> Callable[[object], str]:
    sheet = folder / "one.csv"
    sheet.write_text("Item,Qty,OD in,Thk in,Length in,Material,Ends\n1,2,30,0.25,48,A36,pre-bend\n")

    def price(shop: object) -> str:
        order = read_orders(sheet, shop, today=TODAY, prefix="A-")  # type: ignore[arg-type]
        return _beyond_reason(estimate([order], shop, today=TODAY, effort="quick", nested=False))  # type: ignore[arg-type]

    return price


def _beyond_reason(found: Estimate) -> str:
    prices = [line.price.unit for line in found.lines if line.price]
    return "" if all(Decimal(0) <= price < NONSENSE for price in prices) else f"price {prices}"


WISHES = """
[[pin]]
line = "A-1"
roll = "Heavy 10 ft"
not_before = "2026-12-01 08:00"
before = "A-2"

[[pin]]
line = "A-2"
start = "2026-12-03 08:00"

[[must_ship]]
line = "A-2"
date = 2026-12-04

[[keep_whole]]
line = "A-1"
"""


def wishes(made: Made, folder: Path) -> tuple[str, Make, Use]:
    """The scheduler's wishes, checked against the lines of the week."""
    lines = won_lines(read_record(made.record), None)
    rolls = [roll.name for roll in load_shop(DEMO).rolls]

    def use(path: Path) -> None:
        check_wishes(read_wishes(path), lines, rolls, (), date(2026, 12, 1))

    return ".toml", lambda rng, path: write(path, mutated_text(rng, WISHES).encode()), use


def answers(made: Made, folder: Path) -> tuple[str, Make, Use]:
    """The questions book with its answers."""
    return ".xlsx", lambda rng, path: write(path, mutated(rng, made.questions)), read_answers


KINDS: dict[str, Kind] = {
    **{
        ending[1:]: workbooks(ending)
        for ending in (".xlsx", ".ods", ".xls", ".csv", *(".eml", ".msg", ".pdf"))
    },
    "records": records,
    "archives": archives,
    "memories": memories,
    "ledgers": ledgers,
    "shops": shops,
    "shop-forms": shop_forms,
    "racks": racks,
    "wishes": wishes,
    "costings": costings,
    "jobs-books": jobs_books,
    "floor-books": floor_books,
    "answers": answers,
}
"""By name."""
