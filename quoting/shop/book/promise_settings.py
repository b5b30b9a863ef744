"""`[promise]` of the shop's book: what stands between a plan and the day that is promised."""

from __future__ import annotations

from quoting.shop.book.settings_table import SettingsTable
from quoting.shop.model import PromiseSettings


def read_promise(table: SettingsTable) -> PromiseSettings:
    """Return `[promise]`; what is left out takes the starter book's example."""
    return PromiseSettings(
        kept_share=table.number("kept_share", least=0.5, most=0.99),
        order_within_days=table.whole("order_within_days", least=0, most=60),
        win_chance=table.number("win_chance", least=0.0, most=1.0),
        minutes_least_share=table.number("minutes_least_share", least=0.05, most=1.0),
        minutes_most_share=table.number("minutes_most_share", least=1.0, most=10.0),
        plate_late_chance=table.number("plate_late_chance", least=0.0, most=1.0),
        plate_late_most_days=table.whole("plate_late_most_days", least=1, most=60),
        weld_late_chance=table.number("weld_late_chance", least=0.0, most=1.0),
        weld_late_most_days=table.whole("weld_late_most_days", least=1, most=60),
        down_chance=table.number("down_chance", least=0.0, most=0.5),
        down_most_hours=table.number("down_most_hours", least=0.0, most=400.0),
        draws=table.whole("draws", least=50, most=5_000),
    )
