"""What we can do where we decline a line: what would work with its price, then the nearest size.

One of each at most, and never a roll's name or a plate that nobody sells.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil, floor

from quoting.core import MM_PER_INCH, format_length
from quoting.estimating import LineResult, Route
from quoting.forming import WayOut

_STEPS = {"diameter": (MM_PER_INCH / 8, 5.0), "width": (MM_PER_INCH / 4, 5.0), "thickness": (1.5875, 0.5)}
"""What a size is rounded to for a customer, on the safe side: in an inch shop, in a metric one."""
_SLACK = 0.02
"""Ways out are solved a hair on the safe side; a size this near to a step is that step."""
_NO_SIZE = {"no pre-bend": 0.0, "segments": 0.5}
"""How far from what was asked a way out is that changes no size, beside the shares by which sizes change."""


def nearest_words(result: LineResult, *, inch: bool) -> tuple[str, ...]:
    """Return what would work instead, in the customer's own unit system: an offer, and the nearest size."""
    offers = [text.partition(": ")[2] or text for text in result.offers]
    offers = [text.removeprefix("would do it ") for text in offers]
    # A piece that is too short, too gentle or too large is so at any thickness that a roll is rated for.
    stuck = result.route is not None and bool(result.route.problem)
    ways = [] if stuck else sorted(_ways(result), key=lambda way: way[0])
    priced = {"width", "segments", "no pre-bend"} if offers else set()
    sizes = [_words(way, inch=inch) for _, way in ways if way.kind not in priced]
    return (*offers, *sizes[:1])


def _ways(result: LineResult) -> Iterator[tuple[float, WayOut]]:
    """Return every way out with the share by which it changes what was asked."""
    for route in result.routes:
        if route.ok:
            continue
        for way in route.governing.verdict.ways:
            change = _change(way, route)
            if change is not None:
                yield change, way


def _change(way: WayOut, route: Route) -> float | None:
    """Return the share, None for a way that is no use to a customer."""
    if way.size_mm is None:
        return _NO_SIZE.get(way.kind)
    blank = route.governing.blank
    now = {
        "diameter": blank.mean_diameter_mm - blank.thickness_mm,
        "width": blank.width_mm,
        "thickness": blank.thickness_mm,
    }.get(way.kind)
    return None if now is None else abs(way.size_mm / now - 1)


def _words(way: WayOut, *, inch: bool) -> str:
    step = _STEPS[way.kind][0 if inch else 1] if way.kind in _STEPS else 0.0

    def size(mm: float) -> str:
        whole = (ceil(mm / step - _SLACK) if way.kind == "diameter" else floor(mm / step + _SLACK)) * step
        return format_length(whole, inch=inch)

    return way.words(size)
