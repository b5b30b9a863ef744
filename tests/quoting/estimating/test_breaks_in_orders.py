"""One part at several quantities: as lines of one order, and as breaks of one line, never dearer unsaid."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from itertools import pairwise

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from quoting.core import Arc, Basis, Cylinder, Ends, OrderLine, Penetration, WeldAsked
from quoting.estimating import LineResult, estimate
from quoting.shop import Shop
from tests.quoting.lines import order, shell

INCH = 25.4
SIZES = st.sampled_from([18, 24, 30, 36, 48, 60, 72])
LENGTHS = st.sampled_from([6, 12, 24, 36, 48, 60, 72])
PLATES = st.sampled_from([("A36", 0.25), ("A36", 0.375), ("A36", 0.5), ("304/304L", 0.1875)])
QUANTITIES = st.sets(st.integers(1, 25), min_size=2, max_size=4).map(sorted)
FEW = settings(max_examples=12, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])


@st.composite
def parts(draw: st.DrawFn) -> OrderLine:
    """Draw a part as an everyday order has it: shell or arc, welded or not, with a certificate or not."""
    size, length = draw(SIZES) * INCH, draw(LENGTHS) * INCH
    material, inches = draw(PLATES)
    closed = draw(st.booleans())
    weld = WeldAsked(Penetration.FULL) if closed and draw(st.booleans()) else None
    shape = Cylinder(size, Basis.OUTSIDE, length) if closed else Arc(size, Basis.INSIDE, 90, length)
    return shell(
        "A-1",
        shape=shape,
        thickness_mm=inches * INCH,
        material=material,
        ends=draw(st.sampled_from([Ends.PRE_BEND, Ends.LEAVE_FLAT])),
        part_no="X-1",
        weld=weld,
        certificate=draw(st.booleans()),
    )


def priced(shop: Shop, *lines: OrderLine) -> list[LineResult]:
    found = estimate([order(*lines)], shop, today=date(2026, 11, 30), effort="quick").lines
    return [result for result in found if result.price]


@FEW
@given(parts(), QUANTITIES)
def test_a_line_for_more_of_the_same_part_is_never_dearer_each(
    shop: Shop, part: OrderLine, quantities: list[int]
) -> None:
    lines = [
        replace(part, id=f"A-{n}", number=str(n), quantity=quantity)
        for n, quantity in enumerate(quantities, 1)
    ]
    units = [result.price.unit for result in priced(shop, *lines) if result.price]
    assert all(more <= fewer for fewer, more in pairwise(units)), list(zip(quantities, units, strict=False))


@FEW
@given(parts(), QUANTITIES, st.integers(1, 12))
def test_a_break_is_dearer_only_with_its_reason(
    shop: Shop, part: OrderLine, breaks: list[int], quantity: int
) -> None:
    for result in priced(shop, replace(part, quantity=quantity, breaks=tuple(breaks))):
        for fewer, more in pairwise(result.breaks):
            assert more.unit <= fewer.unit or more.note, (fewer, more)
            assert more.extended == more.unit * more.quantity
