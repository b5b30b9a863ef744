"""The capability chart of a roll as a picture: largest thickness over plate width, one line a diameter."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import floor, log10
from pathlib import Path
from textwrap import wrap

from quoting.core import MM_PER_INCH, format_length
from quoting.drawings.chart_marks import MARKS, mark, star
from quoting.drawings.sketch import PAPER, Item, Pen, Sketch, Words, open_line, sketch_png
from quoting.forming import CapabilityTable
from quoting.shop import MPA_PER_KSI

_DASHES: tuple[tuple[float, ...], ...] = (
    (),
    (2, 1),
    (3, 0.8, 0.5, 0.8),
    (0.6, 0.7),
    (4, 1, 0.6, 1, 0.6, 1),
    (1, 1.6),
)
_GREYS = ("#000000", "#262626", "#404040", "#595959", "#333333", "#737373")
_GRID, _LEADER = Pen(0.18, "#E0E0E0"), Pen(0.18, "#999999")
_DPI = 150
_WIDE, _HIGH, _TITLE = 162.0, 120.0, 9.0
_LEFT, _RIGHT, _LOW, _TOP = 17.0, 5.0, 15.0, 9.0
"""Margins of a panel in mm, with its scales, its names and its title."""
_BEYOND = 1.24
"""How far the axis goes past the widest plate, for the names of the lines."""
_NAME, _SMALL, _ROW = 3.4, 3.0, 4.0
_TICKS = 6


@dataclass(frozen=True, slots=True)
class _Panel:
    """One chart on paper: its low left corner in mm, mm of paper for a unit of both scales, and the unit."""

    x: float
    across: float
    up: float
    unit_mm: float

    def at(self, width: float, thickness: float) -> tuple[float, float]:
        return self.x + _LEFT + width * self.across, _LOW + thickness * self.up


def draw_chart(
    tables: CapabilityTable | Sequence[CapabilityTable], path: Path, *, inch: bool = False
) -> None:
    """Draw one panel a table, side by side on one thickness scale, and write a PNG.

    Lines differ by dash, marker and end label, not by colour alone, so that the print reads in grey.
    """
    panels = [tables] if isinstance(tables, CapabilityTable) else list(tables)
    unit = MM_PER_INCH if inch else 1.0
    known = (value for table in panels for row in table.thickness_mm for value in row if value is not None)
    top = 1.08 * max(known, default=unit) / unit
    first = panels[0]
    strength = f"{first.yield_mpa / MPA_PER_KSI:.0f} ksi" if inch else f"{first.yield_mpa:.0f} MPa"
    title = f"{first.roll}: largest thickness in {first.material}, yield {strength}"
    wide = _WIDE * len(panels)
    items: list[Item] = [Words(wide / 2, _HIGH + 3.2, title, 4.6, "middle")]
    for number, table in enumerate(panels):
        widest = table.widths_mm[-1] / unit
        across = (_WIDE - _LEFT - _RIGHT) / (_BEYOND * widest)
        panel = _Panel(number * _WIDE, across, (_HIGH - _LOW - _TOP) / top, unit)
        items += _axes(panel, table, top, inch=inch)
        items += _lines(panel, table, top, inch=inch)
        items += _rated(panel, table, top, inch=inch)
    letters = int((wide - 6) / (0.56 * _SMALL))
    foot = [row for words in chart_words(panels, inch=inch) for row in wrap(words, letters)]
    items += [Words(3, -1 - row * _ROW, words, _SMALL) for row, words in enumerate(foot)]
    low = -_ROW * len(foot) - 1
    sketch = Sketch(0, low, wide, _HIGH + _TITLE - low, 1.0, tuple(items), title)
    path.write_bytes(sketch_png(sketch, dots_per_inch=_DPI))


def chart_words(tables: Sequence[CapabilityTable], *, inch: bool) -> list[str]:
    """Return how the picture is read, and what stands empty in it: no line, or a line that ends early."""
    words = [
        "Below a line the roll can do it, above it not; where lines run flat, the rolls open no further."
    ]
    for table in tables:
        way = "both ends pre-bent" if table.pre_bend else "rolled without pre-bend"
        none, short = [], []
        for diameter, row in zip(table.diameters_mm, table.thickness_mm, strict=True):
            able = [width for width, most in zip(table.widths_mm, row, strict=True) if most is not None]
            if not able:
                none.append(_diameter(diameter, inch))
            elif len(able) < len(row):
                widest = format_length(round(max(able), 1), inch=inch)
                short.append(f"{_diameter(diameter, inch)} ends at {widest} wide")
        if len(none) == len(table.diameters_mm):
            words.append(f"{way}: empty, the roll cannot do it at any width; see its rated points.")
        elif none:
            words.append(f"{way}: no line for {', '.join(none)}: tighter than the roll closes at any width.")
        if short:
            words.append(f"{way}: {', '.join(short)}: no thickness that it grips is weak enough beyond.")
        if stopped := _stopped(table, inch):
            words.append(f"{way}, widest plate: what stops it is {stopped}.")
    return words


def _stopped(table: CapabilityTable, inch: bool) -> str:
    """Return which limit stops the widest plate of which diameters."""
    by_limit: dict[str, list[str]] = {}
    for diameter, limit in zip(table.diameters_mm, table.stops, strict=False):
        by_limit.setdefault(limit, []).append(_diameter(diameter, inch))
    return "; ".join(f"{limit} ({', '.join(names)})" for limit, names in by_limit.items())


def _axes(panel: _Panel, table: CapabilityTable, top: float, *, inch: bool) -> Iterator[Item]:
    """Yield the grid with its numbers, the frame, and what the axes are."""
    unit = "in" if inch else "mm"
    widest = table.widths_mm[-1] / panel.unit_mm
    (left, low), (right, high) = panel.at(0, 0), panel.at(widest * _BEYOND, top)
    for tick in _ticks(widest):
        x, _ = panel.at(tick, 0)
        yield open_line((x, low), (x, high), pen=_GRID)
        yield Words(x, low - 4.2, f"{tick:g}", _SMALL, "middle")
    for tick in _ticks(top):
        _, y = panel.at(0, tick)
        yield open_line((left, y), (right, y), pen=_GRID)
        yield Words(left - 1.2, y - 1.0, f"{tick:g}", _SMALL, "end")
    frame = ((left, low), (right, low), (right, high), (left, high), (left, low))
    yield open_line(*frame, pen=Pen(0.25))
    middle = (left + right) / 2
    yield Words(middle, low - 10.0, f"plate width, {unit}", _NAME, "middle")
    yield Words(panel.x + 4.5, (low + high) / 2, f"largest thickness, {unit}", _NAME, "middle", turn=90)
    how = "both ends pre-bent" if table.pre_bend else "rolled without pre-bend"
    yield Words(middle, high + 2.4, how, 3.9, "middle")


def _lines(panel: _Panel, table: CapabilityTable, top: float, *, inch: bool) -> Iterator[Item]:
    """Yield a line for each diameter with its marks, and its name beyond its end."""
    ends: list[tuple[float, str]] = []
    for i, (diameter, row) in enumerate(zip(table.diameters_mm, table.thickness_mm, strict=True)):
        told = zip(table.widths_mm, row, strict=True)
        points = [panel.at(x / panel.unit_mm, y / panel.unit_mm) for x, y in told if y is not None]
        if not points:
            continue
        ink = _GREYS[i % len(_GREYS)]
        if len(points) > 1:
            yield open_line(*points, pen=Pen(0.5, ink, _DASHES[i % len(_DASHES)]))
        for point in points:
            yield from mark(MARKS[i % len(MARKS)], *point, ink)
        ends.append((points[-1][1], _diameter(diameter, inch)))
    x, _ = panel.at(table.widths_mm[-1] / panel.unit_mm, 0)
    height = -1.0
    for y, name in sorted(ends):
        height = max(y, height + 1.25 * _SMALL)  # pushed apart where names would overlap
        yield open_line((x + 1.2, y), (x + 5.5, height), pen=_LEADER)
        yield Words(x + 6, height - 1.0, name, _SMALL)


def _rated(panel: _Panel, table: CapabilityTable, top: float, *, inch: bool) -> Iterator[Item]:
    """Yield the points that the roll is rated at, each with its name below it."""
    for i, (width, thickness, diameter) in enumerate(table.rated):
        x, y = panel.at(width / panel.unit_mm, thickness / panel.unit_mm)
        words_at = panel.at(0.62 * width / panel.unit_mm, top * (0.3 - 0.06 * i))
        yield open_line((words_at[0], words_at[1] + 3.0), (x, y), pen=_LEADER)
        yield star(x, y)
        words = f"rated point, {_diameter(diameter, inch)}"
        yield Words(*words_at, words, _SMALL, "middle", behind=PAPER)


def _ticks(most: float) -> list[float]:
    """Return about half a dozen round numbers from 0 up to `most`.

    >>> _ticks(96.0), _ticks(0.9)
    ([0.0, 20.0, 40.0, 60.0, 80.0], [0.0, 0.2, 0.4, 0.6, 0.8])
    """
    rough = most / _TICKS
    power = 10.0 ** floor(log10(rough))
    step = next(power * part for part in (1, 2, 2.5, 5, 10) if power * part >= rough * 0.999)
    return [round(step * n, 6) for n in range(floor(most / step + 1e-9) + 1)]


def _diameter(diameter_mm: float, inch: bool) -> str:
    """Return an inside diameter to the nearest quarter inch or millimetre, which is enough for a chart."""
    step = MM_PER_INCH / 4 if inch else 1.0
    return f"{format_length(round(diameter_mm / step) * step, inch=inch)} ID"
