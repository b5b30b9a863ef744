"""Plates that are cut and that the rack's file may still list: which, and what to say of a file that differs.

A plate leaves the rack's file by hand, some time after it is cut. What is noted with it then is what the file
says, as a digest, and how many of its id are left once it is out. While the file is as it was, or still lists
more than that, the plate stays out of nests. A plate without an id of its own is known by its row, which
moves when others are inserted: it is taken as out with any change of the file.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from sqlalchemy import Connection, select, update

from quoting.ledger.tables import PLATES
from quoting.shop import StockPlate

CUT = "cut"


@dataclass(frozen=True, slots=True)
class RackNow:
    """The rack's file as it is now: its name, its digest, and its plates that have an id, by that id."""

    digest: str = ""
    name: str = ""
    plates: Mapping[str, StockPlate] = field(default_factory=dict)

    def count(self, plate_id: str) -> int:
        """Return how many plates of an id the file lists."""
        plate = self.plates.get(plate_id)
        return 0 if plate is None else plate.count or 0

    def may_list(self, row: Any) -> bool:
        """Return whether a plate that is cut is not taken out of the file yet; `row` is one of `PLATES`."""
        digest, _, left = row.rack.partition(" ")
        if digest == self.digest:
            return bool(digest)
        return bool(left) and self.count(row.rack_id) > int(left)


def with_ids(stock: Sequence[StockPlate]) -> dict[str, StockPlate]:
    """Return the plates of a rack that have an id of their own."""
    return {plate.id: plate for plate in stock if plate.count and plate.id != f"rack row {plate.row}"}


def note_cut(connection: Connection, keys: Sequence[int], rack: RackNow) -> None:
    """Set plates as cut, each with what the rack's file is and how many it lists once they are out."""
    rows = connection.execute(
        select(PLATES.c.id, PLATES.c.rack_id, PLATES.c.bought)
        .where(PLATES.c.id.in_(keys))
        .order_by(PLATES.c.id)
    ).all()
    out: dict[str, int] = defaultdict(int)
    for row in _still_listed(connection, rack):
        out[row.rack_id] += 1
    for row in rows:
        out[row.rack_id] += 1
        left = rack.count(row.rack_id) - out[row.rack_id]
        known = rack.digest and not row.bought and row.rack_id in rack.plates
        noted = f"{rack.digest} {max(0, left)}" if known else rack.digest
        connection.execute(update(PLATES).where(PLATES.c.id == row.id).values(state=CUT, rack=noted))


def _cut(connection: Connection) -> Sequence[Any]:
    return connection.execute(
        select(PLATES)
        .where(PLATES.c.state == CUT, PLATES.c.bought.is_(False), PLATES.c.rack != "")
        .order_by(PLATES.c.id)
    ).all()


def _still_listed(connection: Connection, rack: RackNow) -> list[Any]:
    return [row for row in _cut(connection) if rack.may_list(row)]


def taken_out(connection: Connection, rack: RackNow) -> list[str]:
    """Note which cut plates the rack's file knows of now; return where it is not as the ledger expects."""
    said: list[str] = []
    by_id: dict[str, list[Any]] = defaultdict(list)
    for row in _cut(connection):
        by_id[row.rack_id].append(row)
    for plate_id, rows in by_id.items():
        gone = [row for row in rows if not rack.may_list(row)]
        said += _differs(plate_id, rows, len(gone), rack)
        if gone:
            keys = [row.id for row in gone]
            connection.execute(update(PLATES).where(PLATES.c.id.in_(keys)).values(rack=""))
    return said


def _differs(plate_id: str, rows: Sequence[Any], gone: int, rack: RackNow) -> Iterator[str]:
    """Yield where the file lists more of an id, or fewer, than are left after cutting."""
    noted = [int(left) for row in rows if (left := row.rack.partition(" ")[2])]
    if not noted or all(row.rack.startswith(rack.digest) for row in rows):
        return  # nobody has changed the file since, or its rows cannot be told apart
    left, now = min(noted), rack.count(plate_id)
    plate = rack.plates.get(plate_id)
    where = f"{rack.name}, row {plate.row}" if plate else rack.name
    if gone < len(rows):
        yield (
            f"{where}: lists {now} of {plate_id}, by the ledger {left} are left when what is cut is out; the"
            f" {len(rows) - gone} cut stay out of the nest: put {left} there (`rollwright ledger rack` does);"
            " plates that came in since need an id of their own"
        )
    elif now < left:
        yield f"{where}: lists {now} of {plate_id}, by the ledger {left} are left: taken as it is written"
