"""A roll's chart beside published formulas, in words and as a table."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator

from quoting.core import MM_PER_INCH, format_length
from quoting.forming import FORMULAS, by_formula
from quoting.shop import Material, Roll, Shop

_WAYS = {True: "both ends pre-bent", False: "rolled only"}
_HEADS = ("plate width", "this chart", *(name for name, _ in FORMULAS))


def formula_words(roll: Roll, material: Material, shop: Shop) -> list[str]:
    """Return the comparison as lines of text, with the sources of the formulas."""
    rows = list(_rows(roll, material, shop))
    if not rows:
        return []
    words = [
        "Beside published formulas, each scaled from the rated point at its diameter, largest thickness:"
    ]
    table = [_HEADS, *(row for row in rows if len(row) > 1)]
    wide = [max(map(len, column)) for column in zip(*table, strict=True)]
    for row in rows:
        if len(row) == 1:
            words += [f"  {row[0]}", "    " + _aligned(_HEADS, wide)]
        else:
            words.append("    " + _aligned(row, wide))
    words += [f"  {name}: {source}" for name, source in FORMULAS]
    words.append(
        "  The formulas know no springback, no size of the rolls, no weight: the chart may lie below them."
    )
    return words


def formulas_csv(roll: Roll, material: Material, shop: Shop) -> str:
    """Return the comparison as CSV, below the tables of the chart."""
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\n")
    for row in _rows(roll, material, shop):
        writer.writerow([f"{row[0]}: beside published formulas"] if len(row) == 1 else row)
        if len(row) == 1:
            writer.writerow(_HEADS)
    writer.writerows([name, source] for name, source in FORMULAS)
    return text.getvalue()


def _rows(roll: Roll, material: Material, shop: Shop) -> Iterator[tuple[str, ...]]:
    """Yield a title of one cell for each kind of rated point, then its rows."""
    for pre_bend, way in _WAYS.items():
        found = by_formula(roll, material, shop.passes, pre_bend=pre_bend)
        if found is None:
            continue
        rated, rows = found
        yield (f"{way}, {format_length(round(rated.inside_diameter_mm, 1), inch=shop.inch)} inside",)
        for row in rows:
            own = _thick(row.chart_mm, shop) + (" (opens no further)" if row.opens else "")
            yield (
                format_length(round(row.width_mm, 1), inch=shop.inch),
                own,
                *(_beside(one, None if row.opens else row.chart_mm, shop) for one in row.formulas_mm),
            )


def _thick(mm: float | None, shop: Shop) -> str:
    if mm is None:
        return "none"
    return f"{mm / MM_PER_INCH:.3f} in" if shop.inch else f"{mm:.1f} mm"


def _beside(mm: float | None, own: float | None, shop: Shop) -> str:
    """Return a formula's thickness, and by how much it is above the chart's."""
    if mm is None or own is None:
        return _thick(mm, shop)
    return f"{_thick(mm, shop)} ({mm / own - 1:+.0%})"


def _aligned(row: tuple[str, ...], wide: list[int]) -> str:
    return "  ".join(text.ljust(size) for text, size in zip(row, wide, strict=True)).rstrip()
