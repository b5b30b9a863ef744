"""Sheet gauges and nominal pipe sizes, from the tables beside this module."""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

from quoting.core.errors import RangeError

MM_PER_INCH = 25.4
_SAME_PIPE_MM = 0.5


@dataclass(frozen=True, slots=True)
class GaugeTable:
    """One metal's gauge numbers with their thickness in mm and where the table comes from."""

    name: str
    title: str
    source: str
    thickness_mm: dict[int, float]


def _load(name: str) -> dict[str, object]:
    return tomllib.loads(files(__package__).joinpath(name).read_text(encoding="utf-8"))


@cache
def gauge_tables() -> dict[str, GaugeTable]:
    """Return the gauge tables by name: steel, galvanized, stainless, aluminium."""
    tables = {}
    for name, table in _load("gauges.toml").items():
        assert isinstance(table, dict)
        sizes = {int(number): inches * MM_PER_INCH for number, inches in table["inches"].items()}
        tables[name] = GaugeTable(name, table["title"], table["source"], sizes)
    return tables


def gauge_to_mm(number: int, table: str) -> float:
    """Return the thickness in mm of a gauge number in one metal's table.

    Raises RangeError for a number the table does not hold and KeyError for an unknown table.

    >>> round(gauge_to_mm(10, "steel") / 25.4, 4), round(gauge_to_mm(10, "galvanized") / 25.4, 4)
    (0.1345, 0.1382)
    """
    sizes = gauge_tables()[table].thickness_mm
    if number not in sizes:
        raise RangeError(f"{table} gauge", number, f"{min(sizes)} to {max(sizes)}")
    return sizes[number]


@cache
def _pipes() -> tuple[dict[float, float], dict[float, float]]:
    rows = _load("pipes.toml")["size"]
    assert isinstance(rows, list)
    by_nps = {float(row["nps"]): row["outside_inches"] * MM_PER_INCH for row in rows}
    by_dn = {float(row["dn"]): row["outside_inches"] * MM_PER_INCH for row in rows}
    return by_nps, by_dn


def pipe_outside_mm(size: float, *, dn: bool) -> float:
    """Return the outside diameter in mm of a nominal pipe size (NPS in inches, or DN).

    Raises RangeError for a size the table does not hold.

    >>> round(pipe_outside_mm(600, dn=True), 1), round(pipe_outside_mm(12, dn=False), 1)
    (609.6, 323.8)
    """
    table = _pipes()[1 if dn else 0]
    if size not in table:
        raise RangeError("DN" if dn else "NPS", size, "a nominal pipe size of the table")
    return table[size]


@cache
def _walls() -> tuple[tuple[float, dict[str, float]], ...]:
    rows = _load("pipes.toml")["size"]
    assert isinstance(rows, list)
    return tuple((row["outside_inches"] * MM_PER_INCH, row.get("walls_mm", {})) for row in rows)


def pipe_wall_mm(outside_mm: float, schedule: str) -> float:
    """Return the wall in mm of the pipe with this outside diameter in a schedule: STD, XS, XXS, 40, 10S.

    Diameters match within half a millimetre: editions of the standard and metric lists differ by as much.
    Raises RangeError when no nominal pipe size has this diameter, or its schedule is not listed.

    >>> pipe_wall_mm(609.6, "STD"), pipe_wall_mm(508.0, "40")
    (9.53, 15.09)
    """
    found = [walls for outside, walls in _walls() if abs(outside - outside_mm) <= _SAME_PIPE_MM]
    if not found:
        raise RangeError("pipe outside diameter", round(outside_mm, 1), "one of a nominal pipe size (mm)")
    if schedule not in found[0]:
        raise RangeError("schedule", schedule, f"one listed for this pipe: {', '.join(found[0])}")
    return found[0][schedule]
