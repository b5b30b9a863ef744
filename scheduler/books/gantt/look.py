"""How a Gantt picture looks: fills, hatches that survive a grey copy, and the key to them."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from typing import Any

from quoting.shop import Family

INK = "#16242D"
CLOSED = "#DADEE0"
SETUP = "//////"
OVERTIME, OVERTIME_INK = "....", "#B5BBBE"
LOOKS: Mapping[Family, tuple[str, str]] = {
    Family.CARBON: ("#A9BECB", ""),
    Family.STAINLESS: ("#FFFFFF", "......"),
    Family.ALUMINIUM: ("#FFFFFF", "------"),
}
"""Fill and hatch of a bar: families differ by hatch, so that a grey copy tells them apart."""


@dataclass(frozen=True, slots=True)
class BlockLook:
    """The fill of a block, its hatch, and the colour and width in points of its edge."""

    fill: str
    hatch: str = ""
    edge: str = INK
    line: float = 0.0


def block(
    axes: Any, row: int, height: float, piece: tuple[float, float], look: BlockLook, *, zorder: float
) -> None:
    """Draw one block on a row: `piece` is its left edge and width on the axis."""
    from matplotlib.patches import Rectangle  # noqa: PLC0415 - slow to import

    left, width = piece
    axes.add_patch(
        Rectangle(
            (left, row - height / 2),
            width,
            height,
            facecolor=look.fill,
            edgecolor=look.edge,
            hatch=look.hatch,
            linewidth=look.line,
            zorder=zorder,
        )
    )


def legend(figure: Any, *, families: Collection[Family], overtime: bool, late: bool, cutting: bool) -> None:
    """Write the key below the picture: only what is on it."""
    from matplotlib.lines import Line2D  # noqa: PLC0415 - slow to import

    keys: list[Any] = [_key("set-up", "white", SETUP)]
    keys += [_key(family.value, *LOOKS[family]) for family in sorted(families, key=list(LOOKS).index)]
    keys.append(_key("closed or break", CLOSED, "", CLOSED))
    if overtime:
        keys.append(_key("overtime", "white", OVERTIME, OVERTIME_INK))
    if late:
        keys.append(Line2D([], [], marker="v", color="black", linestyle="none", markersize=5.5, label="late"))
    if cutting:
        keys.append(_key("cutting bars: number on the sheet Cutting", "none", "", "none"))
    figure.legend(
        handles=keys,
        loc="lower center",
        ncols=len(keys),
        fontsize=6.5,
        frameon=False,
        handlelength=2.2,
        borderaxespad=0.2,
    )


def _key(label: str, fill: str, hatch: str, edge: str = INK) -> Any:
    from matplotlib.patches import Patch  # noqa: PLC0415 - slow to import

    return Patch(facecolor=fill, hatch=hatch, edgecolor=edge, linewidth=0.5, label=label)
