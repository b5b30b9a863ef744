"""Dates as nobody writes them: no date, and never a fault."""

from __future__ import annotations

from datetime import date

import pytest

from quoting.intake.texts import date_of


@pytest.mark.parametrize(
    "text",
    ["Dec 222222222222222222222", "99999999999 Dec 2026", "4 Dec " + "9" * 5_000, "KW 99", "31 Feb 2026"],
)
def test_a_date_of_no_calendar_is_none(text: str) -> None:
    assert date_of(text, today=date(2026, 11, 30)).value is None
