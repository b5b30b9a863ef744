"""Doubts about the plate itself: its thickness, its gauge, whether the shop stocks it."""

from __future__ import annotations

from quoting.core import Choice, gauge_tables
from quoting.intake import shapes
from quoting.intake.row_record import Record, number_text
from quoting.intake.shop_view import ShopView, ask, is_open, thickness_of

SUBSTITUTE = 0.25
"""The share of its thickness by which a plate offered instead may differ (common practice, no source)."""
STOCK_MATCH_MM = 0.06
"""A thickness this near to one in the rack is the same plate (3/16 in is written 0.188 in and 4.8 mm)."""


def check_plate(record: Record, desk: ShopView) -> None:
    """Ask what a line still needs to name a plate, or whether gauge and size agree."""
    values = record.values
    if "size" in record.doubts:
        return
    if values.get("gauge") and shapes.has(values, "thickness"):
        _gauge_and_size(record, desk)
    elif values.get("gauge"):
        _gauge(record, desk)
    elif is_open(record, "thickness"):
        ask(record, "thickness", "How thick is the plate?")


def check_stock(record: Record, desk: ShopView) -> None:
    """Ask whether another plate would do when we stock none, or whether this one can be bought.

    Only a plate within `SUBSTITUTE` of the one asked for is offered in its place. Where there is none,
    only the shop can say whether it buys this one. Whose plate the customer sends needs none of ours.
    """
    values = record.values
    thickness = thickness_of(values, desk.materials)
    if thickness is None or {"thickness", "size"} & set(record.doubts) or values.get("thickness_ok"):
        return
    if not values.get("material") or values.get("free_issue") or not desk.materials.lists_stock:
        return
    stock = desk.materials.stocked_mm(values["material"])
    if any(abs(thickness - own) <= STOCK_MATCH_MM for own in stock):
        return
    near_ones = [own for own in stock if abs(own - thickness) <= SUBSTITUTE * thickness]
    below = max((own for own in near_ones if own < thickness), default=None)
    above = min((own for own in near_ones if own > thickness), default=None)
    choices = [
        Choice(desk.size(own), (("thickness", number_text(own)), ("gauge", ""), ("thickness_ok", "yes")))
        for own in (below, above)
        if own is not None
    ]
    what = f"{values['material']} in {desk.size(thickness)}"
    where = ("thickness", "gauge")
    if not choices:
        bought = Choice("as asked exactly, bought for this job", (("thickness_ok", "yes"),))
        text = f"We do not stock {what}: may we buy it for this job?"
        many = f"We do not stock {values['material']} in these thicknesses: may we buy it for this job?"
        ask(record, "stock_thickness", text, bought, near=where, for_shop=True, for_many=many)
        return
    choices.append(Choice(f"{desk.size(thickness)} exactly, bought for this job", (("thickness_ok", "yes"),)))
    near = " or ".join(desk.size(own) for own in (below, above) if own is not None)
    ask(record, "stock_thickness", f"We do not stock {what}; would {near} do?", *choices, near=where)


def _gauge_and_size(record: Record, desk: ShopView) -> None:
    """A gauge and a thickness together must be the same plate."""
    values = record.values
    by_gauge = thickness_of(values, desk.materials)
    size = shapes.length(values, "thickness")
    if by_gauge is None or size is None or abs(by_gauge - size) <= STOCK_MATCH_MM:
        return
    choices = (
        Choice(f"{values['gauge']} gauge, {desk.size(by_gauge)}", (("thickness", ""),)),
        Choice(desk.size(size), (("gauge", ""), ("gauge_metal", ""))),
    )
    text = (
        f"{values['gauge']} gauge is {desk.size(by_gauge)}, but the thickness says {desk.size(size)}; which?"
    )
    ask(record, "thickness", text, *choices, near=("gauge", "thickness"))


def _gauge(record: Record, desk: ShopView) -> None:
    """Ask for the metal of a gauge that has none, or for a gauge that the metal's table does not hold."""
    values = record.values
    number = int(values["gauge"])
    own = desk.materials.gauge_table(values["material"]) if values.get("material") else ""
    table = values.get("gauge_metal") or own
    if not table and ("material" in record.doubts or values.get("no_material_column")):
        return  # the answer about the material settles the gauge too
    clash = bool(own) and table != own and {table, own} != {"steel", "galvanized"}
    if table and not clash:
        if number not in gauge_tables()[table].thickness_mm:
            ask(
                record,
                "thickness",
                f"There is no {number} gauge in the {table} table; how thick, in inches or mm?",
            )
        return
    choices = tuple(
        Choice(
            f"{name}: {desk.size(found.thickness_mm[number])}",
            (("gauge_metal", name), ("thickness", number_text(found.thickness_mm[number])), ("gauge", "")),
        )
        for name, found in gauge_tables().items()
        if number in found.thickness_mm
    )
    text = f"{number} gauge is a different thickness in each metal; which one, or how thick in inches or mm?"
    ask(record, "thickness", text, *choices, near=("gauge", "thickness"))
