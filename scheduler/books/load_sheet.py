"""The load of every machine in every week against the time it is open, as a table and a chart."""

from __future__ import annotations

from typing import Any

from quoting.books import INK, Book, BookColumn, BookSheet
from scheduler.books.cells import FOOT
from scheduler.calendar import day_short, week_number
from scheduler.week import MachineLoad, WeekPlan

SHEET = "Load"
COLUMNS = (
    BookColumn("Machine", 26),
    BookColumn("Week", 9),
    BookColumn("From", 14),
    BookColumn("Open min", 15.5, "whole"),
    BookColumn("Set-up min", 15.5, "whole"),
    BookColumn("Run min", 15.5, "whole"),
    BookColumn("Free min", 15.5, "whole"),
    BookColumn("Share used", 15.5, "percent"),
)
MACHINE, WEEK, FROM, OPEN, SETUP, RUN, FREE, SHARE = range(len(COLUMNS))
CHART_ROW, CHART_ROWS = 3, 19
HEAD_ROW = CHART_ROW + CHART_ROWS + 1


def load_sheet(book: Book, week: WeekPlan) -> None:
    """Write the sheet "Load"."""
    sheet = book.sheet(SHEET, [column.width for column in COLUMNS], footer=FOOT)
    sheet.text(0, 0, "Load against open time", "title line")
    sheet.text(
        1, 0, "Open minutes are the shifts less breaks and closed days, with the overtime used.", "line"
    )
    if week.loads:
        last = HEAD_ROW + len(week.loads)
        sheet.raw.insert_chart(CHART_ROW, 0, _chart(book, last), {"object_position": 2})
    sheet.heads(HEAD_ROW, COLUMNS)
    sheet.raw.repeat_rows(HEAD_ROW)
    machine = ""
    for row, load in enumerate(week.loads, HEAD_ROW + 1):
        _load(sheet, row, load, first=load.machine != machine)
        machine = load.machine
    sheet.raw.print_area(0, 0, HEAD_ROW + len(week.loads), SHARE)


def _load(sheet: BookSheet, row: int, load: MachineLoad, *, first: bool) -> None:
    """Write one week; the machine is named on its first week only, which groups the weeks on the chart."""
    at, rule = row + 1, "thick" if first else "rule"
    if first:
        sheet.text(row, MACHINE, load.machine, f"bold {rule}")
    sheet.text(row, WEEK, f"wk {week_number(load.monday)}", f"text {rule}")
    sheet.text(row, FROM, day_short(load.monday), f"text {rule}")
    for column, minutes in ((OPEN, load.open_minutes), (SETUP, load.setup_minutes), (RUN, load.run_minutes)):
        sheet.number(row, column, minutes, f"whole {rule}")
    used = load.setup_minutes + load.run_minutes
    sheet.formula(row, FREE, f"=D{at}-E{at}-F{at}", load.open_minutes - used, f"whole {rule}")
    sheet.formula(row, SHARE, f"=IF(D{at}=0,0,(E{at}+F{at})/D{at})", load.share, f"percent {rule}")


def _chart(book: Book, last: int) -> Any:
    """Return stacked columns of set-up and run, told apart by pattern, with open time as a mark above."""
    chart = book.raw.add_chart({"type": "column", "subtype": "stacked"})
    run = {"fill": {"color": "#8FA9B8"}, "border": {"color": INK}, "gap": 60}
    hatch = {"pattern": "wide_upward_diagonal", "fg_color": INK, "bg_color": "white"}
    chart.add_series(_series("Run", RUN, last) | run)
    chart.add_series(_series("Set-up", SETUP, last) | {"pattern": hatch, "border": {"color": INK}})
    black = {"fill": {"color": "black"}, "border": {"color": "black"}}
    marks = book.raw.add_chart({"type": "line"})
    marks.add_series(
        _series("Open", OPEN, last)
        | {"line": {"none": True}, "marker": {"type": "long_dash", "size": 14} | black}
    )
    chart.combine(marks)
    chart.set_y_axis({"name": "Minutes", "major_gridlines": {"visible": True, "line": {"color": "#C8CED2"}}})
    chart.set_legend({"position": "bottom"})
    chart.set_title({"name": "Set-up and run against open time", "name_font": {"size": 12}})
    chart.set_size({"width": 920, "height": 375})
    return chart


def _series(name: str, column: int, last: int) -> dict[str, Any]:
    first = HEAD_ROW + 1
    return {
        "name": name,
        "categories": [SHEET, first, MACHINE, last, WEEK],
        "values": [SHEET, first, column, last, column],
    }
