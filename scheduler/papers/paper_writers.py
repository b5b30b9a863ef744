"""Which papers a planned week leaves, and what writes each of them."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from pathlib import Path

from quoting.shop import Shop
from scheduler.papers.traveller_pdf import write_travellers
from scheduler.papers.week_pdf import write_week_sheets
from scheduler.week import WeekPlan

Writer = Callable[[Path], None]


def paper_writers(week: WeekPlan, shop: Shop) -> dict[str, Writer]:
    """Return a writer for every paper of a week, by file name."""
    day = f"{week.start:%Y-%m-%d}"
    return {
        f"travellers-{day}.pdf": partial(write_travellers, week, shop),
        f"week-{day}.pdf": partial(write_week_sheets, week, shop),
    }
