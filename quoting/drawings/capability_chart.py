"""The capability chart of a roll as a picture: largest thickness over plate width, one line a diameter."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from quoting.core import MM_PER_INCH, format_length
from quoting.forming import CapabilityTable
from quoting.shop import MPA_PER_KSI

if TYPE_CHECKING:
    from matplotlib.axes import Axes

_STYLES = ("-", "--", "-.", ":", (0, (7, 2, 1, 2, 1, 2)), (0, (2, 3)))
_GREYS = ("0.0", "0.15", "0.25", "0.35", "0.2", "0.45")
_MARKS = ("o", "s", "^", "D", "v", "x")
_DPI = 150
_LEAST_GAP = 0.035
"""Least distance of two end labels as a share of the axis height."""


def draw_chart(
    tables: CapabilityTable | Sequence[CapabilityTable], path: Path, *, inch: bool = False
) -> None:
    """Draw one panel a table, side by side on one thickness scale, and write a PNG.

    Lines differ by dash, marker and end label, not by colour alone, so that the print reads in grey.
    """
    from matplotlib.backends.backend_agg import FigureCanvasAgg  # noqa: PLC0415 - heavy
    from matplotlib.figure import Figure  # noqa: PLC0415 - heavy

    panels = [tables] if isinstance(tables, CapabilityTable) else list(tables)
    figure = Figure(figsize=(6.4 * len(panels), 5.2), dpi=_DPI, layout="constrained")
    FigureCanvasAgg(figure)
    scale = MM_PER_INCH if inch else 1.0
    top = 1.08 * max(
        (value for table in panels for row in table.thickness_mm for value in row if value is not None),
        default=scale,
    )
    axes = figure.subplots(1, len(panels), squeeze=False)[0]
    for table, axis in zip(panels, axes, strict=True):
        _panel(axis, table, scale, top / scale, inch)
    first = panels[0]
    strength = f"{first.yield_mpa / MPA_PER_KSI:.0f} ksi" if inch else f"{first.yield_mpa:.0f} MPa"
    figure.suptitle(f"{first.roll}: largest thickness in {first.material}, yield {strength}", fontsize=13)
    figure.supxlabel("\n".join(chart_words(panels, inch=inch)), fontsize=8.5, x=0.02, ha="left")
    figure.savefig(path, metadata={"Software": None})


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
    return words


def _panel(axis: Axes, table: CapabilityTable, scale: float, top: float, inch: bool) -> None:
    unit = "in" if inch else "mm"
    axis.set_title("both ends pre-bent" if table.pre_bend else "rolled without pre-bend", fontsize=11)
    axis.set_xlabel(f"plate width, {unit}")
    axis.set_ylabel(f"largest thickness, {unit}")
    widths = [width / scale for width in table.widths_mm]
    ends: list[tuple[float, str]] = []
    for i, (diameter, row) in enumerate(zip(table.diameters_mm, table.thickness_mm, strict=True)):
        points = [(x, y / scale) for x, y in zip(widths, row, strict=True) if y is not None]
        if not points:
            continue
        axis.plot(
            *zip(*points, strict=True),
            linestyle=_STYLES[i % len(_STYLES)],
            color=_GREYS[i % len(_GREYS)],
            marker=_MARKS[i % len(_MARKS)],
            markersize=4,
            linewidth=1.5,
        )
        ends.append((points[-1][1], _diameter(diameter, inch)))
    for i, (width, thickness, diameter) in enumerate(table.rated):
        axis.plot(
            width / scale, thickness / scale, marker="*", markersize=15, color="white", markeredgecolor="0"
        )
        axis.annotate(
            f"rated point, {_diameter(diameter, inch)}",
            (width / scale, thickness / scale),
            xytext=(width / scale * 0.62, top * (0.3 - 0.06 * i)),
            fontsize=8.5,
            ha="center",
            arrowprops={"arrowstyle": "-", "color": "0.6", "linewidth": 0.6, "shrinkB": 7},
        )
    _label_ends(axis, ends, widths[-1], top)
    axis.set_xticks([tick for tick in axis.get_xticks() if 0 <= tick <= widths[-1]])
    axis.set_xlim(0, widths[-1] * 1.24)
    axis.set_ylim(0, top)
    axis.grid(visible=True, color="0.88", linewidth=0.7)
    axis.set_axisbelow(True)


def _diameter(diameter_mm: float, inch: bool) -> str:
    """Return an inside diameter to the nearest quarter inch or millimetre, which is enough for a chart."""
    step = MM_PER_INCH / 4 if inch else 1.0
    return f"{format_length(round(diameter_mm / step) * step, inch=inch)} ID"


def _label_ends(axis: Axes, ends: list[tuple[float, str]], x: float, top: float) -> None:
    """Write the labels right of the line ends, pushed apart where they would overlap."""
    height = -1.0
    for y, label in sorted(ends):
        height = max(y, height + _LEAST_GAP * top)
        axis.annotate(
            label,
            (x, y),
            xytext=(x * 1.05, height),
            fontsize=8.5,
            va="center",
            arrowprops={"arrowstyle": "-", "color": "0.6", "linewidth": 0.6, "shrinkA": 0, "shrinkB": 3},
        )
