"""Looks at the values of a line as a whole and doubts what is missing or could be meant two ways."""

from __future__ import annotations

from collections.abc import Callable

from quoting.core import Choice, mean_diameter
from quoting.intake import shapes
from quoting.intake.doubts.charges import leave_out_charges
from quoting.intake.doubts.geometry import check_shape
from quoting.intake.doubts.plate import check_plate, check_stock
from quoting.intake.doubts.said_twice import check_said_twice
from quoting.intake.doubts.weights import check_weight
from quoting.intake.doubts.weld_gaps import check_gap
from quoting.intake.row_record import Doubt, Record
from quoting.intake.shop_view import ShopView, ask, is_open, thickness_of

THICKEST_SHARE = 0.25
"""A plate thicker than this share of its mean diameter is more likely a slip (common practice)."""
_LARGEST_DRAWN_MM = 220.0
"""Pipes up to NPS 8 (ASME B36.10M: 219.1 mm) come drawn or welded from a pipe mill, hardly ever from a plate
roll (common practice, no source)."""
LARGEST_MM = 10_000.0
"""Diameters and lengths above this are more likely a unit mistaken than a part for a plate roll."""


def settle(record: Record, desk: ShopView) -> None:
    """Add to the record a doubt for everything that its line still needs before it can be priced."""
    leave_out_charges(record)
    for check in _CHECKS:
        check(record, desk)


def _quantity(record: Record, desk: ShopView) -> None:
    if is_open(record, "quantity"):
        one = record.values.get("per_unit")
        each = f"{one} pieces per unit: how many units, or how many pieces in all?"
        ask(record, "quantity", each if one else "How many pieces?")


def _material(record: Record, desk: ShopView) -> None:
    if is_open(record, "material") and not record.values.get("no_material_column"):
        gauge = record.values.get("gauge")
        gauged = f"{gauge} gauge is another thickness in each metal: which material"
        asked = gauged if gauge else "Which material"
        keys = desk.materials.in_family(None)
        choices = tuple(Choice(key, (("material", key),)) for key in keys[:8])
        near = "gauge" if gauge else "material"
        ask(record, "material", f"{asked} and grade?", *choices, near=(near,))


def _weld(record: Record, desk: ShopView) -> None:
    """Ask about a weld on an open arc, which has no seam to weld."""
    weld = record.values.get("weld", "none")
    if weld != "none" and shapes.kind_of(record.values) == "arc" and "weld" not in record.doubts:
        text = "Welding is asked for, but an arc has no seam of its own; what shall we weld?"
        place, read = record.where("seam")
        none = (Choice("nothing, leave it open", (("weld", "none"),)),)
        record.doubt(Doubt("weld", place, read, text, none, blocking=False, assumed="no welding by us"))


def _drawn_pipe(record: Record, desk: ShopView) -> None:
    """Ask about a pipe of a small nominal size, which is bought drawn and not rolled from plate."""
    values = record.values
    outside = shapes.length(values, "diameter")
    if not values.get("nominal") or not outside or outside > _LARGEST_DRAWN_MM or values.get("size_ok"):
        return
    if "shape" in record.doubts or values.get("left_out"):
        return
    yes = Choice("yes, roll it from plate", (("size_ok", "yes"),))
    asked = (
        f"A pipe of {desk.size(outside)} outside is usually bought as pipe: is it to be rolled from plate?"
    )
    record.doubt(Doubt("shape", *record.where("diameter"), asked, (yes,)))


def _possible(record: Record, desk: ShopView) -> None:
    """Ask again for sizes that cannot be one part: no bore left, a chord too long, a unit mistaken."""
    values = record.values
    thickness = thickness_of(values, desk.materials)
    if any(doubt.blocking for doubt in record.doubts.values()) or thickness is None:
        return
    if shapes.unit_missing(values):
        return
    name = {"cylinder": "diameter", "arc": "radius", "cone": "large"}[shapes.kind_of(values)]
    try:
        shape = shapes.shape_of(values, thickness)
    except ValueError as error:
        ask(record, name, f"These sizes cannot be one part ({error}); please check them.")
        return
    round_ = ("diameter", "radius") if shapes.kind_of(values) == "arc" else ()  # a plate of a large tank
    sizes = [size for key in shapes.SIZES if key not in round_ and (size := shapes.length(values, key))]
    if max(sizes) > LARGEST_MM and not values.get("size_ok"):
        yes = Choice(f"{desk.size(max(sizes))} is right", (("size_ok", "yes"),))
        ask(
            record,
            "size",
            f"{desk.size(max(sizes))} is very large for a rolled part; is the unit right?",
            yes,
        )
        return
    diameter = (
        getattr(shape, "diameter_mm", 0)
        or getattr(shape, "small_mm", 0)
        or 2 * getattr(shape, "radius_mm", 0)
    )
    mean = mean_diameter(diameter, shape.basis, thickness)
    inside = mean - thickness
    if thickness > THICKEST_SHARE * mean > 0 and inside > 0 and not values.get("size_ok"):
        yes = Choice("yes, both are right", (("size_ok", "yes"),))
        text = f"Plate of {desk.size(thickness)} rolled to {desk.size(diameter)}: are both sizes right?"
        record.doubt(Doubt("size", *record.where("thickness"), text, (yes,)))
    across = getattr(shape, "length_mm", 0) or getattr(shape, "height_mm", 0)
    if 0 < across < thickness and not values.get("size_ok"):
        yes = Choice("yes, both are right", (("size_ok", "yes"),))
        text = f"Plate of {desk.size(thickness)}, only {desk.size(across)} across the roll: are both right?"
        record.doubt(Doubt("size", *record.where("length"), text, (yes,)))
    if inside <= 0:
        text = (
            f"A plate of {desk.size(thickness)} cannot be rolled to {desk.size(diameter)}; please check both."
        )
        ask(record, name, text)


_CHECKS: tuple[Callable[[Record, ShopView], None], ...] = (
    _quantity,
    _material,
    check_plate,
    check_shape,
    check_said_twice,
    check_gap,
    _weld,
    _drawn_pipe,
    _possible,
    check_stock,
    check_weight,
)
