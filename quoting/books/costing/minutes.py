"""The sheet "Minutes": every step of every blank, low / likely / high, and why."""

from __future__ import annotations

from quoting.books.costing.costing_sheet import costing_sheet
from quoting.books.look import Book, BookColumn, BookSheet, line_names
from quoting.core import State, column_letters, format_weight
from quoting.estimating import Estimate, LineResult, Rolling
from quoting.labour import RollMinutes, Step
from quoting.shop import Band

_LEFT = (
    BookColumn("Customer and line", 24, "line"),
    BookColumn("Piece", 9, "line"),
    BookColumn("", 7, "line"),
)
_RIGHT = (
    BookColumn("First piece", 8, "number"),
    BookColumn("Each repeat", 8, "number"),
    BookColumn("Pieces", 7, "whole"),
    BookColumn("All pieces", 9, "number"),
)
_STEP_WIDTH = 9
_HEAD = 3
_BAND_COLUMN = len(_LEFT) - 1
_BANDS = ("low", "likely", "high")


def minutes_sheet(book: Book, estimate: Estimate) -> None:
    """Write the sheet; set-up is on Lines, since it depends on what runs before."""
    priced = [result for result in estimate.lines if result.state is State.PRICED and result.route]
    names = list(
        dict.fromkeys(
            step.name for result in priced for rolling in _rollings(result) for step in rolling.minutes.steps
        )
    )
    columns = (*_LEFT, *(BookColumn(_heading(name), _STEP_WIDTH, "number") for name in names), *_RIGHT)
    says = "Minutes on the roll for one piece, step by step, without set-up; priced at the likely figure."
    sheet = costing_sheet(book, estimate, "Minutes", columns, says=says)
    called = line_names(estimate)
    sheet.heads(_HEAD, columns)
    sheet.raw.repeat_rows(_HEAD)
    sheet.raw.freeze_panes(_HEAD + 1, 1)
    row = _HEAD + 1
    for result in priced:
        for rolling in _rollings(result):
            _rolling(sheet, row, called[result.line.id], rolling, names, estimate.shop.inch)
            row += len(_BANDS) + 1


def _rollings(result: LineResult) -> tuple[Rolling, ...]:
    return result.route.rollings if result.route else ()


def _heading(name: str) -> str:
    return name[:1].upper() + name[1:]


def _rolling(sheet: BookSheet, row: int, called: str, rolling: Rolling, names: list[str], inch: bool) -> None:
    steps = {step.name: step for step in rolling.minutes.steps}
    for offset, which in enumerate(_BANDS):
        _band(sheet, row + offset, which, rolling.minutes, names, steps, first=offset == 0)
    sheet.text(row, 0, called, "line rule")
    sheet.text(row, 1, format_weight(rolling.blank.weight_kg, inch=inch), "line rule")
    why = row + len(_BANDS)
    sheet.text(why, _BAND_COLUMN, "why", "quiet")
    for index, name in enumerate(names, len(_LEFT)):
        # A reason without a number is the same on every job.
        if name in steps and any(letter.isdigit() for letter in steps[name].why):
            sheet.text(why, index, steps[name].why, "quiet")


def _band(
    sheet: BookSheet,
    row: int,
    which: str,
    minutes: RollMinutes,
    names: list[str],
    steps: dict[str, Step],
    *,
    first: bool,
) -> None:
    rule = " rule" if first else ""
    weight = " bold" if which == "likely" else ""
    sheet.text(row, _BAND_COLUMN, which, f"line{rule}")
    for index, name in enumerate(names, len(_LEFT)):
        if name in steps:
            sheet.number(row, index, _at(steps[name].band, which), f"number{rule}")
        elif first:
            sheet.fill(row, (index,), "line rule")
    at = len(_LEFT) + len(names)
    start, end = column_letters(len(_LEFT)), column_letters(at - 1)
    one, each, pieces = (f"{column_letters(at + offset)}{row + 1}" for offset in range(3))
    style = f"number{weight}{rule}"
    sheet.formula(row, at, f"=SUM({start}{row + 1}:{end}{row + 1})", _at(minutes.first, which), style)
    sheet.number(row, at + 1, _at(minutes.repeat, which), style)
    sheet.number(row, at + 2, minutes.quantity, f"whole{rule}")
    sheet.formula(row, at + 3, f"={one}+{each}*({pieces}-1)", _at(minutes.total, which), style)


def _at(band: Band, which: str) -> float:
    return float(getattr(band, which))
