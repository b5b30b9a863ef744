"""The board: one HTML file that holds all it needs, for the screen over the roll, a tablet, and paper.

It asks for nothing from outside and says so to the browser. Without scripts it is a plain table of the plan.
Everything that somebody else wrote is escaped here, or set as text by the page's script.
"""

from __future__ import annotations

import json
from collections.abc import Iterable
from html import escape
from pathlib import Path
from string import Template
from typing import Any

from quoting.shop import Shop
from scheduler.board.board_values import board_values, due_words, minute_of, waits_words, what_of
from scheduler.board.week_table import week_tables
from scheduler.calendar import day_short, week_number
from scheduler.papers import STANDING
from scheduler.week import PlannedOperation, WeekPlan, begin_of

_HERE = Path(__file__).parent


def write_board(week: WeekPlan, shop: Shop, path: Path) -> None:
    """Write the board of a week to `path` (.html); the same week gives the same bytes."""
    path.write_text(board_page(week, shop), encoding="utf-8", newline="\n")


def board_page(week: WeekPlan, shop: Shop) -> str:
    """Return the page as text."""
    values = board_values(week, shop)
    late = {item.line.id for item in week.late}
    slots = [slot for machine in (*week.rolls, *week.stations) for slot in week.on(machine)]
    rows = "\n".join(_row(week, number, slot, late) for number, slot in enumerate(slots))
    page = Template((_HERE / "page.html").read_text("utf-8"))
    return page.substitute(
        title=escape(f"{week.shop}: the week on the rolls"),
        made=escape(f"Plan from {day_short(week.start)} {week.start.year}"),
        style=(_HERE / "page.css").read_text("utf-8"),
        script=(_HERE / "page.js").read_text("utf-8"),
        late=_late(week),
        rows=rows,
        weeks=week_tables(week),
        loads=_loads(week),
        standing=escape(STANDING),
        plan=_json(values),
    )


def _json(values: dict[str, Any]) -> str:
    """Return values as JSON that cannot end the script element it stands in."""
    text = json.dumps(values, ensure_ascii=False, separators=(",", ":"))
    for letter in "<>&\u2028\u2029":
        text = text.replace(letter, f"\\u{ord(letter):04x}")
    return text


def _row(week: WeekPlan, number: int, slot: PlannedOperation, late: set[str]) -> str:
    line = slot.line
    name, what = what_of(slot)
    begin = begin_of(slot)
    start, end = (
        f"{when:%H:%M}" if when.date() == begin.date() else f"{day_short(when)[:3]} {when:%H:%M}"
        for when in (slot.start, slot.end)
    )
    due = due_words(line.due if line else None, rolled=line is not None).removeprefix("due ")
    if line is not None and line.id in late:
        due += " LATE"
    quantity = f"{line.quantity} × " if line else ""
    steps = slot.setup.why if slot.setup and slot.setup_minutes else ""
    why = "; then ".join(filter(None, (steps, waits_words(slot))))
    cells = [
        _cell(slot.machine),
        _cell(day_short(begin), "when"),
        _cell(f"{slot.setup_start:%H:%M}, {slot.setup_minutes} min" if slot.setup_minutes else "", "when"),
        _cell(start, "when"),
        _cell(end, "when"),
        _cell(name, "job"),
        _cell(f"{quantity}{what}"),
        _cell(line.customer if line else ""),
        _cell(due),
        _cell(why),
    ]
    return f'<tr data-job="{number}" data-start="{minute_of(week, slot.start)}">{"".join(cells)}</tr>'


def _cell(text: str, look: str = "") -> str:
    return f'<td class="{look}">{escape(text)}</td>' if look else f"<td>{escape(text)}</td>"


def _late(week: WeekPlan) -> str:
    if not week.late:
        return "<section><h2>Late</h2><p>No line is late.</p></section>"
    items = "".join(
        f"<li><strong>{escape(item.line.id)}</strong> {escape(item.line.customer)}: due "
        f"{escape(day_short(item.due))}, ends {escape(day_short(item.finish))} {item.finish:%H:%M}, "
        f"{item.days} day{'s' if item.days > 1 else ''} late</li>"
        for item in week.late
    )
    return f'<section class="late"><h2>Late</h2><ul class="late">{items}</ul></section>'


def _loads(week: WeekPlan) -> str:
    """Return the table of loads: a machine a row, a week a column."""
    mondays = sorted({load.monday for load in week.loads})
    loads = {(load.machine, load.monday): load for load in week.loads}
    heads = "".join(f'<th scope="col">week {week_number(monday)}</th>' for monday in mondays)
    rows = "".join(
        f'<tr><th scope="row">{escape(machine)}</th>'
        + "".join(_cell(_share(loads.get((machine, monday)))) for monday in mondays)
        + "</tr>"
        for machine in _names(week)
    )
    return (
        '<section><h2>Loads</h2><table><thead><tr><th scope="col">Machine</th>'
        f"{heads}</tr></thead><tbody>{rows}</tbody></table></section>"
    )


def _names(week: WeekPlan) -> Iterable[str]:
    return (*week.rolls, *week.stations)


def _share(load: Any) -> str:
    if load is None:
        return ""
    if not load.open_minutes:
        return "closed"
    hours = (load.setup_minutes + load.run_minutes) / 60
    return f"{load.share:.0%}, {hours:.0f} of {load.open_minutes / 60:.0f} h"
