"""Adds phrases that change what is meant to clear lines: the price must never stay the same in silence.

Each phrase is put into the description, into the remark, into a note below the table and into a heading above
the row. A line that is then asked about, left out, read otherwise, or that says something new is not silent.
"""

from __future__ import annotations

import csv
import tempfile
from collections.abc import Iterable
from dataclasses import replace
from datetime import date
from importlib.resources import files
from pathlib import Path
from typing import Any

from quoting.core import Order, OrderLine
from quoting.intake.read_orders import read_orders
from quoting.shop import Shop
from tests.benchmarks.intake_reader import grading_shop

TODAY = date(2026, 11, 30)
HEAD = ["Item", "Qty", "Description", "ID (in)", "Thk (in)", "Length (in)", "Material", "Remarks"]
CLEAR = (
    ["1", "2", "shell", "48", "1/4", "60", "A36", ""],
    ["1", "4", "tank course", "36", "3/8", "72", "304L", ""],
)
MERE_BUSINESS = frozenset((
    "quote only", "part shipments ok", "ref job 5567", "price valid 30 days", "phase 2", "ref only",
    "(REF)", "per dwg", "as per drawing", "old revision", "supersedes rev B", "PO to follow", "collect",
    "ASAP", "RUSH", "required on site by", "urgent", "outage job", "penalty", "liquidated damages",
    "budget", "target price", "price only", "NDA", "confidential", "export controlled", "MTC", "MTR",
    "certs req'd", "inspection", "no certificate no payment", "witness point", "third party inspection by",
    "crated", "crated for export", "export packed", "deliver to site by crane", "confined access",
    "warranty replacement", "no substitutes", "cold only",
))  # fmt: skip
"""The phrases of the list that change no part: in a note they stand among the terms that the costing book
prints for the estimator, and nothing is asked. Some of them may cost money all the same."""
HARMLESS = frozenset(("firm",))
"""Listed among the words that change nothing: a firm price."""
PLACES = ("description", "remark", "note", "heading")


def phrases() -> list[str]:
    """Return the phrases, one a line of `data/changing_phrases.txt`."""
    text = files("tests.data").joinpath("changing_phrases.txt").read_text(encoding="utf-8")
    return [line for line in text.splitlines() if line and not line.startswith("#")]


def silent(found: list[str], lines: tuple[list[str], ...] = CLEAR) -> list[str]:
    """Return where a phrase changed nothing that anybody is told, as `place: phrase`."""
    shop = grading_shop()
    quiet = []
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "order.csv"
        for line in lines:
            plain = _read(file, [HEAD, line], shop)
            for phrase in (one for one in found if one not in HARMLESS):
                for place in PLACES:
                    changed = _read(file, _rows(line, phrase, place), shop)
                    if _same(plain, changed):
                        quiet.append(f"{place}: {phrase}")
    return list(dict.fromkeys(quiet))


def figures(share: int = 0, shares: int = 1) -> dict[str, Any]:
    """Return how many phrases of one share were tried in how many places, and which stayed silent."""
    found = phrases()[share::shares]
    quiet = silent(found)
    return {"phrases": len(found), "tried": len(found) * len(PLACES) * len(CLEAR), "silent": quiet}


def added(parts: Iterable[dict[str, Any]]) -> dict[str, Any]:
    """Return the figures of all shares together."""
    parts = list(parts)
    sums = {name: sum(part[name] for part in parts) for name in ("phrases", "tried")}
    return {**sums, "silent": [text for part in parts for text in part["silent"]]}


def _rows(line: list[str], phrase: str, place: str) -> list[list[str]]:
    if place == "description":
        return [HEAD, [*line[:2], f"{line[2]} {phrase}", *line[3:]]]
    if place == "remark":
        return [HEAD, [*line[:7], phrase]]
    if place == "note":
        return [HEAD, line, [phrase]]
    return [HEAD, [phrase], line]


def _read(file: Path, rows: list[list[str]], shop: Shop) -> Order:
    with file.open("w", encoding="utf-8", newline="") as stream:
        csv.writer(stream).writerows(rows)
    return read_orders(file, shop, today=TODAY)


def _same(plain: Order, changed: Order) -> bool:
    """Return whether the line is priced as before and nothing new is said or asked.

    A phrase that changes no part is not asked about in a note: it is said among the terms.
    """
    if len(changed.lines) != 1 or len(plain.lines) != 1:
        return False
    if changed.terms and MERE_BUSINESS.issuperset(changed.terms):
        return False
    told = [question.text for question in changed.questions]
    return _priced(plain.lines[0]) == _priced(changed.lines[0]) and told == [
        one.text for one in plain.questions
    ]


def _priced(line: OrderLine) -> OrderLine:
    """Return what a price depends on, and what is said on the line; not the customer's words passed along."""
    return replace(
        line, place=replace(line.place, row=0), customer="", description="", remarks=(), readings=()
    )
