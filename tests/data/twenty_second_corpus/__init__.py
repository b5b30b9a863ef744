"""The twenty-second corpus of customers' sheets, written blind: see README.md here."""

from __future__ import annotations

from pathlib import Path

from tests.data.blind_sheets import sheets_in
from tests.data.sheet_model import Sheet


def sheets() -> tuple[Sheet, ...]:
    """Return all sheets."""
    return sheets_in(Path(__file__).parent)
