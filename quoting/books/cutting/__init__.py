"""What the cutting table gets: the cutting book, drawings of plates and blanks, the rack afterwards."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime
from functools import partial
from pathlib import Path

from quoting.books.cutting.book import write_cutting
from quoting.books.cutting.drawings import MADE, Writer, drawing_writers
from quoting.books.cutting.rack_after import write_rack_after
from quoting.books.cutting.remnants import remnants
from quoting.books.cutting.sheets import NOT_PLANNED, cut_sheets
from quoting.books.names import cutting_name, rack_after_name
from quoting.parts import State
from quoting.result import Estimate
from quoting.shop.loader import rack_files

__all__ = ["MADE", "cutting_writers"]


def cutting_writers(
    estimate: Estimate, shop_dir: Path, starts: Mapping[str, datetime] = NOT_PLANNED
) -> dict[str, Writer]:
    """Return a writer for every file of the cutting table, by its name in the output folder.

    `shop_dir` holds the rack that is copied, `starts` gives by plate name when the plan cuts it. Without a
    priced line there is nothing to cut and no file; without a nest the rack stays as it is.
    """
    if not any(result.state is State.PRICED for result in estimate.lines):
        return {}
    sheets = cut_sheets(estimate, starts)
    kept = remnants(estimate, sheets)
    writers: dict[str, Writer] = {cutting_name(estimate): partial(write_cutting, estimate, sheets, kept)}
    files = rack_files(shop_dir)
    if files and sheets:
        writers[rack_after_name(estimate)] = partial(write_rack_after, estimate, sheets, kept, files)
    return writers | drawing_writers(estimate, sheets, kept)
