"""The changes that are asked about: the diameter taken the other way, dearer plate, one more pass."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from quoting.core import Arc, Basis, Shape
from quoting.estimating.result import Rolling
from quoting.labour import roll_minutes
from quoting.shop import Shop

OTHER_BASIS = {Basis.INSIDE: Basis.OUTSIDE, Basis.OUTSIDE: Basis.INSIDE}
_SHORT = {Basis.INSIDE: "ID", Basis.OUTSIDE: "OD"}
_SHORT_RADIUS = {Basis.INSIDE: "IR", Basis.OUTSIDE: "OR"}


def other_basis(shape: Shape) -> Shape | None:
    """Return the part with its diameter taken the other way, None when it is a mean diameter."""
    basis = OTHER_BASIS.get(shape.basis)
    return replace(shape, basis=basis) if basis else None


def basis_words(shape: Shape) -> str:
    """Return how a part's diameter is taken, as the trade abbreviates it: `OD`, or `OR` for a radius.

    >>> from quoting.core.order import Basis, Cylinder
    >>> basis_words(Cylinder(600, Basis.OUTSIDE, 900))
    'OD'
    """
    return (_SHORT_RADIUS if isinstance(shape, Arc) else _SHORT).get(shape.basis, "mean")


def dearer_plate(shop: Shop, rise: Decimal) -> Shop:
    """Return the shop with every plate price moved by a share: 0.08 is 8 per cent up."""
    factor = 1 + rise
    return replace(
        shop,
        stock=tuple(replace(plate, price=plate.price * factor) for plate in shop.stock),
        materials=tuple(
            replace(material, price_per_kg=material.price_per_kg * factor) for material in shop.materials
        ),
    )


def one_more(rolling: Rolling, shop: Shop) -> Rolling:
    """Return a rolling with one pass more on every piece."""
    task = rolling.task
    repeat = None if task.passes_repeat is None else task.passes_repeat + 1
    more = replace(task, passes=task.passes + 1, passes_repeat=repeat)
    return replace(rolling, task=more, minutes=roll_minutes(more, shop.labour))
