"""Runs the real reader over the second and the unseen corpus and grades what it makes of each row."""

from __future__ import annotations

import tempfile
from collections.abc import Iterator
from dataclasses import fields
from pathlib import Path
from typing import Any

from quoting.core import Arc, Basis, Cone, Cylinder, Ends, InputError, Order, OrderLine, State
from quoting.intake.lines.line_or_questions import NOT_ROLLED
from quoting.intake.read_orders import read_orders
from quoting.shop import Family, Material, Shop
from quoting.shop.grades.published import published_grades
from tests.benchmarks.intake_second import Grade, Graded, ReadRow, ReadSheet, Told, grade, tally
from tests.data.sheet_model import ID, MEAN, OD, TODAY, Line, Sheet
from tests.data.sheet_writer import corpus, write_sheet

BASES = {Basis.INSIDE: ID, Basis.OUTSIDE: OD, Basis.MEAN: MEAN}
TOLD = {State.PRICED: Told.PRICED, State.QUESTION: Told.ASKED}


def grading_shop() -> Shop:
    """Return a shop that knows every published grade and lists no stock; its numbers are invented."""
    materials = tuple(
        Material(
            key, Family(row["family"]), tuple(row["names"]), 7850, 200_000, 0.3, 250, 300, 380, 450,
            gauge_table=row.get("gauge_table", "steel"),
        )
        for key, row in published_grades().items()
    )  # fmt: skip
    unused: Any = None
    known: dict[str, Any] = {
        "name": "Invented Rolling", "inch": True, "materials": materials, "stock": (),
        "default_ends": Ends.PRE_BEND, "plain_steel": "A36",
    }  # fmt: skip
    return Shop(**{field.name: known.get(field.name, unused) for field in fields(Shop)})


def graded(name: str) -> Iterator[Graded]:
    """Grade every row of a corpus: one of those in `tests/data`, by its folder."""
    shop = grading_shop()
    with tempfile.TemporaryDirectory() as folder:
        for sheet in corpus(name):
            yield from grade(sheet, read(sheet, shop, Path(folder)))


def counts(name: str, *, rows: bool) -> dict[str, Any]:
    """Return the tally of a corpus, and its bad rows by sheet when `rows` are wanted."""
    found = list(graded(name))
    result: dict[str, Any] = {"rows": len(found), **{str(key): n for key, n in tally(found).items()}}
    if rows:
        bad: dict[str, list[str]] = {}
        for one in found:
            if one.grade is not Grade.FINE:
                where = f"{one.tab} row {one.row} ({one.wanted})"
                bad.setdefault(one.sheet, []).append(f"{where}: {one.grade}: {one.why[:300]}")
        result["bad_rows"] = bad
    return result


def read(sheet: Sheet, shop: Shop, folder: Path) -> ReadSheet:
    """Return what the reader makes of a sheet, in the grader's terms."""
    try:
        return _read(read_orders(write_sheet(sheet, folder), shop, today=TODAY), sheet)
    except InputError as error:
        return ReadSheet(refused=str(error))


def _read(order: Order, sheet: Sheet) -> ReadSheet:
    whole = tuple(question.text for question in order.questions if not question.line)
    rows = tuple(_row(order, index) for index in range(len(order.rows)))
    return ReadSheet(rows, whole)


def _row(order: Order, index: int) -> ReadRow:
    row = order.rows[index]
    told = TOLD.get(row.state, Told.IGNORED)
    if row.state is State.NO_QUOTE and row.reason in NOT_ROLLED.values():
        told = Told.DECLINED
    same = [draft.id for draft in order.drafts if draft.place == row.place and draft.number == row.number]
    line = next((line for line in order.lines if line.id in same), None) if told is Told.PRICED else None
    texts = [question.text for question in order.questions if question.line and question.line in same]
    if line is not None:
        texts += line.assumptions
    else:
        texts.append(row.reason)
    column = _column(row.place.column)
    return ReadRow(
        row.place.row or 0,
        told,
        None if line is None else _line(line),
        tuple(texts),
        row.place.sheet or "",
        column,
        row.number,
    )


def _column(letters: str) -> int:
    number = 0
    for letter in letters:
        number = number * 26 + ord(letter) - 64
    return number


def _line(line: OrderLine) -> Line:
    shape = line.shape
    sizes: dict[str, Any]
    match shape:
        case Cylinder():
            sizes = {"shape": "cylinder", "length": shape.length_mm, "d": shape.diameter_mm}
        case Arc():
            sizes = {
                "shape": "arc", "length": shape.length_mm, "radius": shape.radius_mm,
                "angle": shape.angle_deg,
            }  # fmt: skip
        case Cone():
            sizes = {
                "shape": "cone", "length": shape.height_mm, "large": shape.large_mm,
                "small": shape.small_mm,
            }  # fmt: skip
    return Line(
        t=line.thickness_mm,
        basis=BASES[shape.basis],
        n=line.quantity,
        mat=line.material,
        ends=str(line.ends or ""),
        due=line.due,
        part=line.part_no,
        rev=line.drawn_revision,
        free=line.free_issue,
        cert=line.certificate,
        **sizes,
    )
