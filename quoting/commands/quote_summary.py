"""The short table at the end of a run: what was priced, what waits, what is to be bought."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from itertools import zip_longest
from pathlib import Path

from quoting.core import first_few
from quoting.estimating import NOT_IN_RACK
from quoting.record import OrderRecord, ReadLineRecord, RunRecord

LONGEST_LIST = 6
_MOST_PLATES = 12


def summary(
    record: RunRecord,
    directory: Path,
    files: Sequence[str],
    *,
    numbers: Sequence[str] = (),
    more: Sequence[tuple[str, str]] = (),
) -> str:
    """Return what was priced, what waits, what cannot be done, plates to buy, `more` rows, and files.

    `numbers` are those of the quotes, in the order of the record's orders.
    """
    rows = [("note", warning) for warning in record.made.warnings]
    rows += [
        *_orders(record, numbers),
        *_plates(record),
        *more,
        ("files in", str(directory)),
    ]
    rows += [("", name) for name in files]
    width = max(len(name) for name, _ in rows)
    return "\n".join(f"{name:<{width}}  {text}" for name, text in rows)


def _orders(record: RunRecord, numbers: Sequence[str]) -> list[tuple[str, str]]:
    currency = record.made.currency
    rows = []
    for order, number in zip_longest(record.orders, numbers[: len(record.orders)], fillvalue=""):
        assert isinstance(order, OrderRecord)
        counts = order.rows
        quoted = f"; quote {number}" if number and counts.priced else ""
        rows.append(
            (
                order.customer,
                f"{counts.priced} priced, {counts.question} with questions, "
                f"{counts.no_quote} no-quote, {counts.ignored} rows that are no lines; "
                f"{order.total.total:,.2f} {currency}{quoted}",
            )
        )
    for state, name in (("question", "waiting for answers"), ("no-quote", "cannot be done")):
        lines = [line.id for line in record.lines if line.state == state]
        if lines:
            rows.append((name, first_few(lines, LONGEST_LIST)))
        if state == "no-quote":
            refused = [line for line in record.lines if line.state == state][:LONGEST_LIST]
            rows += [("", f"{line.id}: {line.reason}") for line in refused if line.reason]
    return rows + _unlisted(record)


def _unlisted(record: RunRecord) -> list[tuple[str, str]]:
    """Return the plates that have no price yet, with the lines that wait for each."""
    waiting: dict[str, list[str]] = {}
    for line in record.lines:
        if isinstance(line, ReadLineRecord) and line.reason == NOT_IN_RACK:
            plate = line.part.rpartition(", ")[2]  # a part in words ends with thickness and grade
            waiting.setdefault(plate, []).append(line.id)
    plates = [f"{plate}: {first_few(ids, LONGEST_LIST)}" for plate, ids in waiting.items()]
    told = plates[:_MOST_PLATES]
    if len(plates) > _MOST_PLATES:
        told.append(f"and {len(plates) - _MOST_PLATES} more")
    if plates:
        told.append("put sizes of them among the sizes to buy in rack.xlsx, and run again")
    return [("no price of plate" if at == 0 else "", text) for at, text in enumerate(told)]


def _plates(record: RunRecord) -> list[tuple[str, str]]:
    plates = [plate for nest in record.nest for plate in nest.plates]
    if not plates:
        return []
    bought = Counter(plate.plate for plate in plates if plate.bought)
    rows = [
        (
            "plates",
            f"{len(plates)} cut, {sum(bought.values())} of them to buy, "
            f"{sum(plate.remnant for plate in plates)} remnants used",
        )
    ]
    if bought:
        rows.append(
            (
                "to buy",
                first_few([f"{count} x {name}" for name, count in sorted(bought.items())], LONGEST_LIST),
            )
        )
    return rows
