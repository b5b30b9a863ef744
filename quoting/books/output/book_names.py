"""What the books of a run are called: the same names every time, safe on every system."""

from __future__ import annotations

from pathlib import PurePath

from quoting.core import safe_name
from quoting.estimating import Estimate, OrderEstimate


def quote_name(order: OrderEstimate) -> str:
    """Return the file name of one customer's quote, from the customer and the file asked in.

    Two files of one customer give two names; two files of one name in two folders do not.
    """
    file = safe_name(PurePath(order.order.file).stem, fallback="order")
    own = file.removeprefix("orders-").removeprefix("order-")
    customer = safe_name(order.order.customer).removeprefix("orders-")
    words = customer.split("-")
    said = sum(word in own.split("-") for word in words)
    return f"quote-{own if 2 * said > len(words) else f'{customer}-{own}'}.xlsx"


def costing_name(estimate: Estimate) -> str:
    """Return the file name of the costing book."""
    return f"costing-{estimate.today.isoformat()}.xlsx"


def questions_name(estimate: Estimate) -> str:
    """Return the file name of the open questions."""
    return f"questions-{estimate.today.isoformat()}.xlsx"


def cutting_name(estimate: Estimate) -> str:
    """Return the file name of the cutting book."""
    return f"cutting-{estimate.today.isoformat()}.xlsx"


def rack_after_name(estimate: Estimate) -> str:
    """Return the file name of the copy of the rack as it stands when all of the run is cut."""
    return f"rack-after-{estimate.today.isoformat()}.xlsx"
