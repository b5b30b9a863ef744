"""How a line and its blanks are called where there is little room."""

from __future__ import annotations

from quoting.books.look.short_names import short_names
from quoting.core import Outline
from quoting.estimating import Estimate, LineResult


def line_names(estimate: Estimate) -> dict[str, str]:
    """Return what each line is called where there is little room, by line id: `Sample 12`."""
    short = short_names(order.order.customer for order in estimate.orders)
    return {
        result.line.id: f"{short.get(result.line.customer, result.line.customer)} {result.line.number}"
        for result in estimate.lines
    }


def blank_owners(estimate: Estimate) -> dict[str, tuple[LineResult, Outline]]:
    """Return whose blank each nested piece is, and its outline, by piece id."""
    return {
        blank.id: (result, blank.outline)
        for result in estimate.lines
        if result.route
        for blank in result.route.plan.blanks
    }
