"""Everything that the cutting table gets from a run: book, drawings, the rack afterwards."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime
from functools import partial
from pathlib import Path

from quoting.books.cutting import (
    NOT_PLANNED,
    Writer,
    cut_sheets,
    drawing_writers,
    remnants,
    write_cut_sheets,
    write_cutting,
    write_labels,
)
from quoting.books.output import cutting_name, rack_after_name
from quoting.books.rack_after import rack_after, write_rack_after
from quoting.core import State
from quoting.estimating import Estimate
from quoting.shop import rack_files


def cutting_writers(
    estimate: Estimate, shop_dir: Path, starts: Mapping[str, datetime] = NOT_PLANNED, drops_given: int = 0
) -> dict[str, Writer]:
    """Return a writer for every file of the cutting table, by its name in the output folder.

    `shop_dir` holds the rack that is copied, `starts` gives by plate name when the plan cuts it,
    `drops_given` is how many ids of drops earlier runs of the day gave out. Without a priced line there is
    nothing to cut and no file; without a nest the rack stays as it is. Raises InputError when the rack has
    changed since the run began.
    """
    if not any(result.state is State.PRICED for result in estimate.lines):
        return {}
    sheets = cut_sheets(estimate, starts)
    kept = remnants(estimate, sheets, drops_given)
    writers: dict[str, Writer] = {cutting_name(estimate): partial(write_cutting, estimate, sheets, kept)}
    if sheets:
        day = estimate.today.isoformat()
        writers[f"cut-sheets-{day}.pdf"] = partial(write_cut_sheets, estimate, sheets, kept)
        writers[f"labels-{day}.pdf"] = partial(write_labels, estimate, sheets, kept)
    files = rack_files(shop_dir)
    if files and sheets:
        tables = rack_after(estimate, sheets, kept, files)
        writers[rack_after_name(estimate)] = partial(write_rack_after, estimate, sheets, kept, tables)
    return writers | drawing_writers(estimate, sheets, kept)
