"""`schedule --won`: what was won is bought, cut, drawn and put back into the rack by itself."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass, replace
from datetime import datetime
from pathlib import Path

from quoting.books import cutting_writers
from quoting.commands import LONGEST_LIST, Say, Writer
from quoting.core import Place, first_few
from quoting.estimating import WonOnly, won_only
from quoting.record import PricedLineRecord, RunRecord
from quoting.recording import make_record, unpack
from quoting.shop import Shop
from scheduler.jobs import won_lines
from scheduler.wishes import Wishes


@dataclass(frozen=True, slots=True)
class WonAlone:
    """The record of the won lines alone, the wishes about its plates, and what was found out about them."""

    record: RunRecord
    wishes: Wishes
    found: WonOnly | None = None
    rows: tuple[tuple[str, str], ...] = ()

    def writers(self, shop_dir: Path, cutting: Mapping[str, datetime]) -> dict[str, Writer]:
        """Return what the cutting table, the buyer and the rack get; nothing where all lines are planned."""
        return cutting_writers(self.found.estimate, shop_dir, cutting) if self.found else {}


def won_alone(
    record: RunRecord, won: Collection[str] | None, shop: Shop, wishes: Wishes, say: Say
) -> WonAlone:
    """Return the record with the won lines alone, on plates for those.

    All of it comes back where nobody says what was won. Raises InputError when a line is unknown or finds no
    plate any more.
    """
    if won is None:
        return WonAlone(record, wishes)
    lines = won_lines(record, won)
    if not record.archive:
        return WonAlone(
            record, wishes, rows=(("plates", "as quoted: the record holds no estimate to nest anew"),)
        )
    quoted = unpack(record.archive, Place("the record"))
    running = {plate for line in lines if line.id in wishes.running for plate in line.plates}
    found = won_only(quoted, {line.id for line in lines}, shop, wishes.cut | running, say)
    cuts = tuple(replace(one, plate=found.names.get(one.plate, one.plate)) for one in wishes.cuts)
    priced = sum(isinstance(line, PricedLineRecord) for line in record.lines)
    rows = (
        (
            "won",
            f"{len(lines)} of {priced} priced lines: {first_few([line.id for line in lines], LONGEST_LIST)}",
        ),
        ("their plates", plates_words(found, record.made.currency)),
    )
    return WonAlone(make_record(found.estimate), replace(wishes, cuts=cuts), found, rows)


def plates_words(found: WonOnly, currency: str) -> str:
    """Return what became of the plates without the lines that were not won."""
    if not found.kinds:
        return "none: the customers supply them"
    if not found.anew:
        return "as quoted, what was not won left out"
    kinds = "kind of plate" if found.kinds == 1 else "kinds of plate"
    told = f"{found.anew} of {found.kinds} {kinds} nested anew without the lines not won"
    return f"{told}, {found.saved:,.2f} {currency} cheaper than as quoted" if found.saved > 0 else told
