"""The plates that lines wait for and no list holds: what to ask a merchant for."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterable, Sequence

from quoting.core import Alternative, Draft, OrderLine, State
from quoting.estimating.line_work import as_made
from quoting.estimating.result import Estimate, PlateWanted
from quoting.estimating.routes import NOT_IN_RACK, developed
from quoting.shop import Shop

_ASKED = "stock_thickness"


def plates_wanted(found: Estimate, alternatives: Sequence[Alternative]) -> tuple[PlateWanted, ...]:
    """Return the plates to ask for, by grade and thickness, with the blanks that the lines need of each.

    They are those of the lines that wait for a price of their plate, and of those about which the shop has
    not said yet whether it buys it, as far as nothing else is open that decides a size: `alternatives` are
    the lines that the choices of the questions give. A blank is in one piece, however large.
    """
    shops = {
        question.id
        for order in found.orders
        for question in order.order.questions
        if question.for_shop and question.id.endswith(_ASKED)
    }
    lines = {one.line.id: one.line for one in alternatives if one.question in shops}
    lines |= {
        result.line.id: result.line
        for result in found.lines
        if result.state is State.QUESTION and result.reason == NOT_IN_RACK
    }
    places = {one.id: at for at, one in enumerate(_drafted(found))}
    plates: dict[tuple[str, float], list[OrderLine]] = defaultdict(list)
    for line in sorted(lines.values(), key=lambda one: places.get(one.id, 0)):
        plates[line.material, round(line.thickness_mm, 2)].append(as_made(line, found.shop))
    return tuple(_wanted(*plate, own, found.shop) for plate, own in sorted(plates.items()))


def _drafted(found: Estimate) -> Iterable[OrderLine | Draft]:
    for order in found.orders:
        yield from order.order.lines
        yield from order.order.drafts


def _wanted(material: str, thickness_mm: float, lines: Sequence[OrderLine], shop: Shop) -> PlateWanted:
    sizes: Counter[tuple[float, float]] = Counter()
    weight = 0.0
    for line in lines:
        plan = developed(line, shop, line.ends or shop.default_ends, 1, 1, (0.0, 0.0))
        if plan is None:
            continue
        for blank in plan.blanks:
            count = blank.per_part * line.quantity
            sizes[round(blank.width_mm, 2), round(blank.flat_length_mm, 2)] += count
            weight += count * blank.weight_kg
    blanks = ((count, *size) for size, count in sizes.items())
    return PlateWanted(material, thickness_mm, tuple(line.id for line in lines), tuple(blanks), weight)
