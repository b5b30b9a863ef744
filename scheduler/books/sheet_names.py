"""Sheet names that every spreadsheet program takes."""

from __future__ import annotations

import re
from collections.abc import Iterable
from datetime import date

from quoting.books import cell_text
from scheduler.calendar import week_number

LONGEST = 31
"""Characters in a sheet name (limit of the file format)."""

_FORBIDDEN = re.compile(r"[\[\]:*?/\\']")


def sheet_names(keys: Iterable[tuple[str, date]], taken: Iterable[str] = ()) -> dict[tuple[str, date], str]:
    """Return a name for each machine and Monday: safe, short enough, none twice whatever the case.

    >>> monday = date(2026, 11, 30)
    >>> sheet_names([("Light 5 ft", monday), ("Roll [2]/B", monday)]).values()
    dict_values(['Light 5 ft wk 49', 'Roll 2 B wk 49'])
    """
    used = {name.casefold() for name in taken}
    names: dict[tuple[str, date], str] = {}
    for machine, monday in keys:
        end, copy = f" wk {week_number(monday)}", 1
        name = _cut(machine, end)
        while name.casefold() in used:
            copy += 1
            name = _cut(machine, f"{end} ({copy})")
        used.add(name.casefold())
        names[machine, monday] = name
    return names


def _cut(machine: str, end: str) -> str:
    plain = " ".join(_FORBIDDEN.sub(" ", cell_text(machine)).split()) or "Machine"
    return plain[: LONGEST - len(end)].rstrip() + end
